"""How drawings look: line weights of the trade, and colors that also read in black and white."""

STYLE = """
.drawing text{font-family:"DejaVu Sans",Verdana,Helvetica,Arial,sans-serif;font-size:11px;fill:#1d2a33}
.drawing .name{font-weight:bold;font-size:12px}
.drawing .small,.drawing .dim{font-size:11px}
.drawing text{paint-order:stroke;stroke:#fff;stroke-width:3px;stroke-linejoin:round}
.drawing path{fill:none;stroke:#1d2a33;stroke-width:1.1;stroke-linejoin:round}
.drawing .wall{stroke:#aeb9bf;stroke-linejoin:miter}
.drawing .room{fill:#fff;stroke-width:1.2}
.drawing .cut{fill:#fff;stroke:#1d2a33;stroke-width:.8}
.drawing .heavy{stroke-width:2}
.drawing .thin{stroke-width:.7}
.drawing .dashed{stroke-dasharray:5 3}
.drawing .way{stroke-dasharray:7 4;stroke-width:1.6}
.drawing .way.fail>path{stroke:#a3161b}
.drawing .way.warn>path{stroke:#6b4a00}
.drawing .stair,.drawing .unit{fill:#fff}
.drawing .clear{fill:#e4eef3;stroke-dasharray:6 3}
.drawing .layer{fill:#f1ebdf;stroke-width:.7}
.drawing .base{fill:#d9dee0;stroke-width:.7}
.drawing .faint{stroke:#c3ccd1;stroke-width:.9}
.drawing .wall-beneath{fill:#eef1f2}
.drawing text.faint{fill:#63717a;stroke:#fff;stroke-width:3px}
.drawing .member{stroke-width:1.5}
.drawing .heavy-member{stroke-width:3.4}
.drawing .post,.drawing .arrowhead{fill:#1d2a33}
.drawing .tick{stroke-width:1.3}
.drawing .there{stroke:#7c8a92}
.drawing .post.there,.drawing .arrowhead.there{fill:#7c8a92}
.drawing .heavy-member.there{stroke-width:2.4}
.drawing .member.there{stroke-width:1}
.drawing .dimension{stroke:#44555f;stroke-width:.8}
.drawing .bar{fill:#1d2a33;stroke-width:1}
.drawing .bar.open{fill:#fff}
.drawing .dot{fill:#1d2a33}
.drawing .part.fail>path,.drawing .part.error>path{stroke:#a3161b}
.drawing .part.not-shown>path{stroke:#1c4f80}
.drawing .part.fail>.dimension,.drawing .part.error>.dimension,.drawing .part.not-shown>.dimension{stroke:#44555f}
.drawing .part.fail>.thin,.drawing .part.error>.thin,.drawing .part.not-shown>.thin{stroke:#44555f}
.drawing .part.fail>.post,.drawing .part.error>.post{fill:#fff}
.drawing .part.fail>.room{fill:#fdf1ef}
.drawing .part.not-shown>.room{fill:#f0f5fb}
.drawing .badge .sign{stroke-width:1.6}
.drawing .badge.fail .sign,.drawing .badge.error .sign{fill:#a3161b;stroke:#a3161b}
.drawing .badge.not-shown .sign{fill:#fff;stroke:#1c4f80;stroke-dasharray:4 2.2}
.drawing .badge.warn .sign{fill:#fff3d6;stroke:#6b4a00}
.drawing .badge .number{font-weight:bold;font-size:11px;stroke:none}
.drawing .badge.fail .number,.drawing .badge.error .number{fill:#fff}
.drawing .badge.not-shown .number{fill:#163e66}
.drawing .badge.warn .number{fill:#4c3500}
"""
