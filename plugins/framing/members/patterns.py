"""Live load where it does most harm to a beam with overhangs: everywhere, span only, overhangs only.

Load on the span alone bends it most; load on the overhangs alone bends them most and may lift the far
support. Source: statics; common practice for cantilevered joists and deck beams.
"""

from __future__ import annotations

from precheck_plugins.framing.members.statics import Beam, UniformLoad, overhanging_beam


def live_patterns(live: Beam) -> tuple[Beam, ...]:
    """The beam with its live load everywhere, on the span only, and on the overhangs only.

    A beam without overhangs has one pattern.
    """
    left, right = live.left_in, live.right_in
    if left == 0 and right == live.length_in:
        return (live,)
    span = _only(live, ((left, right),))
    return (live, span, _only(live, ((0.0, left), (right, live.length_in))))


def _only(beam: Beam, stretches: tuple[tuple[float, float], ...]) -> Beam:
    points = [p for p in beam.points if any(start <= p.at_in <= end for start, end in stretches)]
    clipped = [
        UniformLoad(max(u.start_in, start), min(u.end_in, end), u.lb_per_in)
        for u in beam.uniforms
        for start, end in stretches
    ]
    uniforms = [u for u in clipped if u.end_in > u.start_in]
    past = beam.length_in - beam.right_in
    return overhanging_beam(beam.span_in, beam.left_in, past, points, uniforms)
