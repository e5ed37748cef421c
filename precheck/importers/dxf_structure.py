"""Walls by their middle lines, beams and posts, receptacles and lights of a DXF drawing, on the layers mapped for them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.drawing import OpenedDrawing, RoomOutline
from precheck.importers.dxf_openings import described_phase, said_by
from precheck.importers.measures import length, point
from precheck.importers.plane import P2, inside
from precheck.importers.stretches import REACHES, Beyond, WallLine, WallPiece, closed_up, crosses, cuts

FARTHEST = 250.0  # meters within which a space beyond a wall is looked for before the open air is
IN_WALL = (0.0, 0.1, 0.2, 0.3)  # meters beside a receptacle's place in a wall at which its space is looked for
ASIDE = ((1, 0), (-1, 0), (0, 1), (0, -1))


def read_structure(drawing: OpenedDrawing) -> None:
    """Read what stands on the layers for walls, beams, posts, receptacles and lights into the draft."""
    layers = drawing.mapping.layers
    _walls(drawing)
    for entity, start, end in _lines(drawing, layers.beams):
        _beam(drawing, entity, start, end)
    for insert in drawing.on(layers.posts, "INSERT"):
        entry = _begun(drawing, insert, "PO") | {"role": Value("post", f"on layer {plain(insert.dxf.layer)}")}
        entry["at"] = Value(point(*drawing.at(insert.dxf.insert), drawing.imperial), "its insertion point")
        drawing.draft.add("members", entry)
    for key, letters in (("receptacles", "R"), ("lights", "LT")):
        for insert in drawing.on(getattr(layers, key), "INSERT"):
            _fitting(drawing, key, letters, insert)


def _begun(drawing: OpenedDrawing, insert: Any, letters: str) -> Entry:
    """Return the entry of a block, with its mark as its id and its phase; the block is taken."""
    said, handle = said_by(insert), insert.dxf.handle
    drawing.taken.add(handle)
    mark = next((said[tag] for tag in drawing.mapping.attributes("mark") if tag in said), f"-{handle}")
    wanted = mark if mark[:1].isalpha() else f"{letters}{mark}"
    part = drawing.draft.free_id(wanted, f"{letters}-{handle}")
    entry: Entry = {"id": Value(part, f"block {plain(insert.dxf.name)}", handle), "drawn from": Value(f"DXF {handle}")}
    return entry | described_phase(drawing, said)


def _lines(drawing: OpenedDrawing, layers: tuple[str, ...]) -> Iterator[tuple[Any, P2, P2]]:
    """Yield the straight lines on `layers`, each piece of a line with corners by itself."""
    for entity in drawing.on(layers, "LINE", "LWPOLYLINE"):
        drawing.taken.add(entity.dxf.handle)
        if entity.dxftype() == "LINE":
            corners = [drawing.at(entity.dxf.start), drawing.at(entity.dxf.end)]
        elif entity.has_arc:
            drawing.draft.doubt("is curved; not taken over", f"line {entity.dxf.handle}")
            continue
        else:
            corners = [drawing.at(p) for p in entity.get_points("xy")]
            corners += corners[:1] if entity.closed else []
        for start, end in pairwise(corners):
            if WallLine(start, end, 0.0).long > REACHES[0]:
                yield entity, start, end


def _walls(drawing: OpenedDrawing) -> None:
    layers, thick = drawing.mapping.layers.walls, drawing.mapping.wall_thickness
    found = list(_lines(drawing, layers))
    if found and thick is None:
        told = "walls left out: how thick they are is not said; write `wall thickness: 4 1/2 in` in the mapping file"
        drawing.draft.doubt(told)
        drawing.taken -= {entity.dxf.handle for entity, _, _ in found}
        return
    for entity, start, end in found:
        _wall(drawing, entity, WallLine(start, end, thick or 0.0))


def _wall(drawing: OpenedDrawing, entity: Any, wall: WallLine) -> None:
    stretches: list[WallPiece] = []
    corners = (corner for room in drawing.rooms for corner in room.outline)
    for start, end in pairwise(cuts(wall, corners)):
        left, right = (_beyond(drawing, wall, (start + end) / 2, sign) for sign in (1, -1))
        one = WallPiece(start, end, left, right)
        if stretches and stretches[-1].continues(one):
            stretches[-1] = stretches[-1]._replace(end=end)
        else:
            stretches.append(one)
    known = list(closed_up(stretches, wall.long))
    if not known:
        told = "a wall left out: what lies on both sides of it is not drawn"
        drawing.draft.doubt(told, f"line {entity.dxf.handle}")
    for one in known:
        _part(drawing, entity, wall, one)


def _part(drawing: OpenedDrawing, entity: Any, wall: WallLine, one: WallPiece) -> None:
    handle, draft = entity.dxf.handle, drawing.draft
    sides = [one.left.side, one.right.side]
    part = draft.free_id(f"WL-{handle}")
    entry: Entry = {"id": Value(part, f"line {handle}", handle)}
    source = f"DXF {handle} {' to '.join(sides)}"
    alike = sum(other["drawn from"].text.startswith(source) for other in draft.parts.get("walls", ()))
    entry["drawn from"] = Value(f"{source} {alike + 1}" if alike else source)
    inner_first = sides[::-1] if sides[0] == "outside" else sides
    entry["between"] = Value(f"[{', '.join(inner_first)}]", "the spaces drawn on both sides")
    for key, at in (("from", one.start), ("to", one.end)):
        entry[key] = Value(point(*wall.at(at), drawing.imperial), f"line {handle}")
    if "outside" in sides:
        draft.doubt("no space is drawn on its other side, which is taken for the outside", part)
    draft.add("walls", entry)


def _beyond(drawing: OpenedDrawing, wall: WallLine, along: float, sign: int) -> Beyond:
    for reach in REACHES:
        here = wall.at(along, sign * (wall.thick / 2 + reach))
        room = next((room for room in drawing.rooms if inside(here, room.outline)), None)
        if room is not None:
            return Beyond(room.id)
    start, far = wall.at(along, sign * wall.thick / 2), wall.at(along, sign * FARTHEST)
    return Beyond() if any(crosses(start, far, room.outline) for room in drawing.rooms) else Beyond("outside")


def _beam(drawing: OpenedDrawing, entity: Any, start: P2, end: P2) -> None:
    handle, draft = entity.dxf.handle, drawing.draft
    entry: Entry = {"id": Value(draft.free_id(f"M-{handle}"), f"line {handle}", handle)}
    source = f"DXF {handle}"
    alike = sum(other["drawn from"].text.startswith(source) for other in draft.parts.get("members", ()))
    entry["drawn from"] = Value(f"{source} piece {alike + 1}" if alike else source)
    entry["role"] = Value("beam", f"on layer {plain(entity.dxf.layer)}")
    for key, at in (("from", start), ("to", end)):
        entry[key] = Value(point(*at, drawing.imperial), f"line {handle}")
    told = f"length of line {handle}; the clear span is less by its bearings"
    entry["span"] = Value(length(WallLine(start, end, 0.0).long, drawing.imperial), told)
    draft.add("members", entry)


def _fitting(drawing: OpenedDrawing, key: str, letters: str, insert: Any) -> None:
    at = drawing.at(insert.dxf.insert)
    rooms = _rooms_at(drawing, at)
    if len(rooms) != 1:
        drawing.taken.add(insert.dxf.handle)
        why = (
            f"it is drawn between {' and '.join(room.id for room in rooms)}" if rooms else "no space is drawn round it"
        )
        drawing.draft.doubt(f"left out of the {key}: {why}", f"block {insert.dxf.handle}")
        return
    entry = _begun(drawing, insert, letters)
    entry["space"] = Value(rooms[0].id, "the space drawn round it, or beside its wall")
    if key == "receptacles":
        entry["at"] = Value(point(*at, drawing.imperial), "its insertion point")
    drawing.draft.add(key, entry)


def _rooms_at(drawing: OpenedDrawing, at: P2) -> list[RoomOutline]:
    """Return the rooms round a point, or the nearest beside it where it is drawn in a wall."""
    for reach in IN_WALL:
        around = [(at[0] + reach * dx, at[1] + reach * dy) for dx, dy in ASIDE]
        found = [room for room in drawing.rooms if any(inside(place, room.outline) for place in around)]
        if found:
            return found
    return []


__all__ = ["read_structure"]
