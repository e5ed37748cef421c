"""Doors and windows of a DXF drawing: blocks with attributes, between the spaces drawn on both sides."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.drawing import OpenedDrawing
from precheck.importers.measures import box, length, point
from precheck.importers.plane import P2, inside, plan_area
from precheck.units import Length, NotationError

REACHES = (0.05, 0.15, 0.3, 0.45)  # meters from the middle of an opening at which a space is looked for
OPERATIONS = {
    "doors": ("side-hinged", "sliding", "folding", "pocket", "vehicle", "hatch", "cased opening"),
    "windows": ("casement", "double hung", "single hung", "slider", "awning", "hopper", "fixed"),
}  # fmt: skip


def read_opening(drawing: OpenedDrawing, key: str, insert: Any) -> None:
    """Read one block as a door or a window."""
    draft, handle = drawing.draft, insert.dxf.handle
    drawing.taken.add(handle)
    said = said_by(insert)
    letter = "D" if key == "doors" else "W"
    mark = _first(drawing, said, "mark")
    number = mark[1] if mark else f"-{handle}"
    part = draft.free_id(number if number[:1].isalpha() else f"{letter}{number}", f"{letter}-{number}")
    told = f"block {plain(insert.dxf.name)}"
    middle = _middle(drawing, insert)
    sides = _sides(drawing, insert, middle)
    if not sides:
        draft.left_out.append(f"left out: {key[:-1]} {part} ({told}, {handle}): no space is drawn beside it")
        return
    entry: Entry = {"id": Value(part, told, handle), "drawn from": Value(f"DXF {handle}")}
    if key == "doors":
        if len(sides) == 1:
            draft.doubt("no space is drawn on its other side, which is taken for the outside", part)
        entry["between"] = Value(f"[{', '.join([*sides, 'outside'][:2])}]", "the spaces drawn on both sides")
    else:
        entry["space"] = Value(sides[0], "the space drawn beside it")
    entry |= dict(_sized(drawing, said, part)) | dict(_described(drawing, key, said, part))
    entry["middle"] = Value(point(*middle, drawing.imperial), f"middle of {told}")
    draft.add(key, entry)


def said_by(insert: Any) -> dict[str, str]:
    """Return what the attributes of a block say, by their tags."""
    return {a.dxf.tag.upper(): plain(a.dxf.text) for a in insert.attribs if plain(a.dxf.text)}


def described_phase(drawing: OpenedDrawing, said: dict[str, str]) -> Entry:
    """Return the phase, where an attribute says one that is known."""
    phase = _first(drawing, said, "phase")
    known = drawing.mapping.phase(phase[1]) if phase else None
    return {"phase": Value(known, f"attribute {phase[0]} {phase[1]}")} if phase and known else {}


def _first(drawing: OpenedDrawing, said: dict[str, str], field: str) -> tuple[str, str] | None:
    return next(((tag, said[tag]) for tag in drawing.mapping.attributes(field) if tag in said), None)


def _length(drawing: OpenedDrawing, found: tuple[str, str] | None, part: str) -> float | None:
    """Return a length that an attribute gives, in meters; a bare number is in the unit of the drawing."""
    if found is None:
        return None
    tag, text = found
    try:
        if text.replace(".", "", 1).isdigit():
            return float(text) * drawing.meter
        return float(Length.parse(text) / Length.parse("1 m"))
    except NotationError:
        drawing.draft.doubt(f"attribute {tag} holds no length that is understood; not taken", f"{part} ({text})")
        return None


def _sized(drawing: OpenedDrawing, said: dict[str, str], part: str) -> Iterator[tuple[str, Value]]:
    found = [_first(drawing, said, field) for field in ("width", "height")]
    width, height = (_length(drawing, one, part) for one in found)
    if width and height:
        tags = " x ".join(one[0] for one in found if one)
        yield "unit size", Value(box(width, height, drawing.imperial), f"attributes {tags}")
    else:
        drawing.draft.doubt("width and height are not both given: size not shown", part)
    sill = _length(drawing, _first(drawing, said, "sill height"), part)
    if sill is not None:
        yield "sill height", Value(length(sill, drawing.imperial), "attribute")


def _described(drawing: OpenedDrawing, key: str, said: dict[str, str], part: str) -> Iterator[tuple[str, Value]]:
    kind = _first(drawing, said, "operation")
    word = next((w for w in OPERATIONS[key] if kind and w in kind[1].lower()), None)
    if kind and word:
        yield "operation", Value(word, f"attribute {kind[0]} {kind[1]}")
    else:
        drawing.draft.doubt("how it opens is not said", part)
    yield from described_phase(drawing, said).items()


def _middle(drawing: OpenedDrawing, insert: Any) -> P2:
    """Return the middle of a block's straight lines along its own x, since blocks may be placed by a jamb."""
    xs = [p[0] for e in insert.block() or () for p in _ends(e)]
    along = (min(xs) + max(xs)) / 2 * insert.dxf.xscale if xs else 0.0
    turn = radians(insert.dxf.rotation)
    x, y = insert.dxf.insert[0] + along * cos(turn), insert.dxf.insert[1] + along * sin(turn)
    return drawing.at((x, y))


def _ends(entity: Any) -> list[Any]:
    if entity.dxftype() == "LINE":
        return [entity.dxf.start, entity.dxf.end]
    return list(entity.get_points("xy")) if entity.dxftype() == "LWPOLYLINE" else []


def _sides(drawing: OpenedDrawing, insert: Any, middle: P2) -> list[str]:
    turn = radians(insert.dxf.rotation)
    square = (-sin(turn), cos(turn))
    sides = [_beyond(drawing, middle, (sign * square[0], sign * square[1])) for sign in (1, -1)]
    return list(dict.fromkeys(side for side in sides if side))


def _beyond(drawing: OpenedDrawing, middle: P2, way: P2) -> str | None:
    for reach in REACHES:
        at = (middle[0] + way[0] * reach, middle[1] + way[1] * reach)
        around = [room for room in drawing.rooms if inside(at, room.outline)]
        if around:
            return min(around, key=lambda room: plan_area(room.outline)).id
    return None


__all__ = ["described_phase", "read_opening", "said_by"]
