"""DXF drawings, read with ezdxf: closed lines as spaces, texts as their names, blocks as doors, windows and more.

Which layers hold what, and which attributes say what, is in the mapping. A drawing that does not say its unit is
refused, for any number in it could be anything. Where no line is closed for a room, rooms are recognized (`drawn/`).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from math import hypot
from pathlib import Path
from typing import Any

from precheck.importers.draft import Draft, Entry, Understood, Value, plain
from precheck.importers.drawing import OpenedDrawing, RoomOutline, is_on, opened
from precheck.importers.drawn import read_drawn
from precheck.importers.dxf_openings import read_opening
from precheck.importers.dxf_structure import read_structure
from precheck.importers.mapping import Layers, Mapping
from precheck.importers.measures import point
from precheck.importers.plane import P2, inside, plan_area
from precheck.importers.writing import scalar
from precheck.units import Area, NotationError

MEETS = 0.002  # meters between the ends of a line that still closes
ROOM = (0.3, 1000.0)  # square meters; beyond, a closed line is no room, or the unit is wrong
SAME_AREA = 0.02  # of the larger, by which a written area may differ from the drawn one, for rounding


def read_dxf(path: Path, name: str, mapping: Mapping, tick: Callable[[int, int], None]) -> Draft:
    """Read a DXF drawing as a draft: by its closed lines where it has some, else as a plan is drawn. Raises `Unusable`."""
    document = opened(path, name)
    plan = None if has_closed_lines(document, mapping) else read_drawn(document, path, name, mapping, tick)
    if plan is not None and plan.parts:
        return plan
    drawing = OpenedDrawing(document, path, name, mapping)
    if plan is not None:
        drawing.draft.begin_with(plan)
    _read(drawing, path, tick)
    return drawing.draft


def has_closed_lines(document: Any, mapping: Mapping) -> bool:
    """Return whether a drawing has lines on a layer of spaces, or a mapping file names one of its own."""
    if mapping.layers.spaces != Layers().spaces:
        return True
    lines = document.modelspace().query("LWPOLYLINE POLYLINE")
    return any(is_on(line, mapping.layers.spaces) for line in lines)


def _read(drawing: OpenedDrawing, path: Path, tick: Callable[[int, int], None]) -> None:
    drawing.draft.head = {
        "file": Value(scalar(path.name)),
        "form": Value(scalar(drawing.draft.form)),
        "worked out": Value("[span]", "lines of members"),
    }
    layers = drawing.mapping.layers
    outlines = drawing.on(layers.spaces, "LWPOLYLINE", "POLYLINE")
    inserts = [(key, e) for key in ("doors", "windows") for e in drawing.on(getattr(layers, key), "INSERT")]
    total = len(outlines) + len(inserts)
    _spaces(drawing, outlines)
    for done, (key, insert) in enumerate(inserts, len(outlines) + 1):
        read_opening(drawing, key, insert)
        tick(done, total)
    read_structure(drawing)
    parts = drawing.draft.parts
    drawing.draft.understood = [
        Understood("closed lines as rooms", len(parts.get("spaces", ())), len(outlines)),
        *(
            Understood(key, len(parts.get(key, ())), sum(of == key for of, _ in inserts))
            for key in ("doors", "windows")
        ),
    ]
    if not drawing.rooms:
        told = f"no closed line on a layer of spaces ({', '.join(layers.spaces)}); a mapping file names your layers"
        drawing.draft.doubt(told)
    drawing.draft.not_read = Counter(
        f"entities on layer {plain(e.dxf.layer)}" for e in drawing.space if e.dxf.handle not in drawing.taken
    )


def lines_at(path: Path) -> dict[str, int]:
    """Return the line (from 1) at which the handle of each entity of a text drawing stands."""
    lines = path.read_bytes().splitlines()
    pairs = zip(lines[::2], lines[1::2], strict=False)
    return {
        value.strip().decode("ascii", "replace"): 2 * i + 2
        for i, (code, value) in enumerate(pairs)
        if code.strip() == b"5"
    }


def _spaces(drawing: OpenedDrawing, lines: list[Any]) -> None:
    texts = [(e, _text(e), _place(drawing, e)) for e in drawing.on(drawing.mapping.layers.names, "TEXT", "MTEXT")]
    found = [(line, outline) for line in lines if (outline := _outline(drawing, line))]
    within: dict[int, list[tuple[Any, str]]] = {}
    for entity, text, at in texts:
        around = [i for i, (_, outline) in enumerate(found) if inside(at, outline)]
        if around:  # the smallest, for a closet may be drawn within its room
            within.setdefault(min(around, key=lambda i: plan_area(found[i][1])), []).append((entity, text))
            drawing.taken.add(entity.dxf.handle)
    for index, (line, outline) in enumerate(found):
        _space(drawing, line, outline, within.get(index, []))


def _outline(drawing: OpenedDrawing, line: Any) -> list[P2]:
    """Return the corners of a closed line; none where it is open or curved, which is told."""
    drawing.taken.add(line.dxf.handle)
    light = line.dxftype() == "LWPOLYLINE"
    points = [drawing.at(p) for p in (line.get_points("xy") if light else line.points())]
    told = f"line {line.dxf.handle} on layer {plain(line.dxf.layer)}"
    if len(points) > 3 and hypot(points[0][0] - points[-1][0], points[0][1] - points[-1][1]) <= MEETS:
        points.pop()
    elif not (line.closed if light else line.is_closed):
        drawing.draft.doubt("on a layer of spaces and not closed; not taken over", told)
        return []
    if line.has_arc or len(points) < 3:
        drawing.draft.doubt("has a curved side or too few corners; not taken over", told)
        return []
    if not ROOM[0] <= plan_area(points) <= ROOM[1]:
        drawing.draft.doubt(
            f"encloses {plan_area(points):.4g} m2, which is no room; check the unit of the drawing", told
        )
    return points


def _space(drawing: OpenedDrawing, line: Any, outline: list[P2], texts: list[tuple[Any, str]]) -> None:
    draft, handle = drawing.draft, line.dxf.handle
    areas = [(text, area) for _, text in texts if (area := _area(text))]
    numbers = [(e, text) for e, text in texts if text[:4].strip().isdigit()]
    names = [(e, t) for e, t in texts if not _area(t) and (e, t) not in numbers]
    known = [(e, t) for e, t in names if drawing.mapping.use(t).value] or names
    name = known[0][1] if known else ""
    part = draft.free_id(numbers[0][1] if numbers else name or f"space-{handle}")
    entry: Entry = {"id": Value(part, f"line {handle}", handle), "drawn from": Value(f"DXF {handle}")}
    if name:
        entry["name"] = Value(scalar(name), f"text {known[0][0].dxf.handle} within it")
    use = drawing.mapping.use(name)
    if use.value:
        entry["use"] = Value(use.value, f'the name "{name}"')
    else:
        draft.doubt(f"use not taken: {use.why_not if name else 'no text stands in it'}", f'{part} "{name}"')
    corners = ", ".join(point(x, y, drawing.imperial) for x, y in outline)
    entry["outline"] = Value(f"[{corners}]", f"line {handle} on layer {plain(line.dxf.layer)}")
    for text, area in areas:
        drawn = plan_area(outline)
        written = float(area / Area.parse("1 m2"))
        if abs(written - drawn) > SAME_AREA * max(written, drawn):
            draft.doubt(
                "the area written in it is not the area drawn, which is used", f"{part} ({text}, drawn {drawn:.4g} m2)"
            )
    drawing.rooms.append(RoomOutline(part, outline))
    draft.add("spaces", entry)


def _text(entity: Any) -> str:
    return plain(entity.plain_text() if entity.dxftype() == "MTEXT" else entity.dxf.text)


def _place(drawing: OpenedDrawing, entity: Any) -> P2:
    if entity.dxftype() == "TEXT" and entity.dxf.hasattr("align_point") and entity.dxf.get("halign", 0):
        return drawing.at(entity.dxf.align_point)
    return drawing.at(entity.dxf.insert)


def _area(text: str) -> Area | None:
    words = (
        text.lower().replace("sf", "sq ft").replace("sqft", "sq ft").replace("m²", "m2").replace("area:", "").strip()
    )
    try:
        return Area.parse(words)
    except NotationError:
        return None


__all__ = ["lines_at", "read_dxf"]
