"""Openings framed through the joists of a floor: what is cut out of its slab, and where this ends within a room."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain
from typing import Any, NamedTuple

import shapely

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.decks import Decks
from precheck.importers.ifc.facts import begun, guid, phase, wanted_id
from precheck.importers.ifc.floor_openings import within
from precheck.importers.ifc.floors import DEEPEST
from precheck.importers.ifc.members import Axis, floor_joists
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape, area_of, level_faces, outlines
from precheck.importers.ifc.stairs_through import stair_through
from precheck.importers.writing import scalar

SMALLEST = 0.25  # square meters of an opening that cuts joists; less is a hole for a pipe or a duct
SAME = 0.5  # of an opening, from which another one over it is the same
RECTANGULAR = 0.99  # of the rectangle around an opening that it fills
ALONG_WALLS = 0.55  # of the line around an opening, up to which it is framed; beyond, the floor ends there
NEAR = 1.5  # meters from an opening within which the joists that it cuts, or those beside it, lie
STRAIGHT = 0.02  # of its length by which a joist may run across


class FloorHole(NamedTuple):
    """An opening in a slab: the room that it lies in, its place in plan, and what in the model makes it."""

    slab: Any
    top: float
    room: ReadSpace | None
    face: Any
    cut: Any = None


def add_framed_openings(plan: Plan, decks: Decks, slabs: list[tuple[Any, str]]) -> None:
    """Add the openings in those of `slabs`, each with its base, that joists carry."""
    joists = floor_joists(plan)
    for slab, base in slabs:
        shape = plan.model.shape(slab)
        under = [line for line in joists if shape and _lies_under(shape, line)]
        if shape and (base == "joists" or (not base and under)):
            for hole in _holes(plan, decks, slab, shape):
                _add(plan, hole, under)


def _holes(plan: Plan, decks: Decks, slab: Any, shape: Shape) -> Iterator[FloorHole]:
    rooms = [room for room in plan.rooms if room.shape and room.outline and _lies_on(room, shape.top)]
    seen: list[Any] = []
    ways = (
        _cut(plan, slab, shape, rooms),
        _ended(plan, decks, slab, shape, rooms),
        _drawn_open(plan, slab, shape, rooms),
    )
    for hole in chain(*ways):
        if not any(hole.face.intersection(one).area > SAME * min(hole.face.area, one.area) for one in seen):
            seen.append(hole.face)
            yield hole


def _cut(plan: Plan, slab: Any, shape: Shape, rooms: list[ReadSpace]) -> Iterator[FloorHole]:
    """Yield what is cut out of a slab, as far as it lies in the room that most of it does."""
    for relation in slab.HasOpenings or ():
        face = _face(plan, relation.RelatedOpeningElement)
        if face is not None:
            yield FloorHole(slab, shape.top, *_in_room(face, rooms), relation.RelatedOpeningElement)


def _ended(plan: Plan, decks: Decks, slab: Any, shape: Shape, rooms: list[ReadSpace]) -> Iterator[FloorHole]:
    """Yield where a slab ends within a room, and joists go on around that, or a stair comes up there."""
    whole = shapely.box(*_box(shape))
    for room in rooms:
        for face in decks.openings.get(room.id, ()):
            if face.intersects(whole) and _is_framed(plan, shape.top, room, face):
                yield FloorHole(slab, shape.top, room, face)


def _drawn_open(plan: Plan, slab: Any, shape: Shape, rooms: list[ReadSpace]) -> Iterator[FloorHole]:
    """Yield the holes in a slab as it is drawn, and the notches in it through which a stair comes up."""
    tops = level_faces(shape, 1)
    face = within(outlines(tops[max(tops)])) if tops else shapely.Polygon()
    filled = shapely.union_all([shapely.Polygon(part.exterior) for part in shapely.get_parts(face)])
    notches = shapely.get_parts(face.convex_hull.difference(filled))
    stairwells = [one for one in notches if stair_through(plan, one, shape.top)]
    for one in (*shapely.get_parts(filled.difference(face)), *stairwells):
        if one.area >= SMALLEST:
            yield FloorHole(slab, shape.top, *_in_room(one, rooms))


def _in_room(face: Any, rooms: list[ReadSpace]) -> tuple[ReadSpace | None, Any]:
    """Return the room in which most of an opening lies, and as much of it as does; all of it where it lies in none."""
    shares = [(room, face.intersection(_floor(room))) for room in rooms]
    room, inner = max(shares, key=lambda pair: float(pair[1].area), default=(None, face))
    return (room, inner) if room is not None and inner.area >= SAME * face.area else (None, face)


def _add(plan: Plan, hole: FloorHole, joists: list[Axis]) -> None:
    model = plan.model
    if hole.cut is not None:
        part = model.draft.free_id(wanted_id(model, hole.cut, "O"))
        entry = begun(hole.cut, part) | phase(model, hole.cut, part)
    else:
        part = model.draft.free_id("opening-in-floor")
        called = guid(hole.slab, f"{part} in {hole.room.id}" if hole.room else part)
        entry = {"id": Value(part, "where the slab leaves it open", str(hole.slab.id())), "drawn from": called}
        entry |= phase(model, hole.slab, part)
    entry["through"] = Value("floor", f"in #{hole.slab.id()}, which has joists")
    if hole.room is not None:
        entry["space"] = Value(scalar(hole.room.id), "the room whose floor it goes through")
    placed = _placed(plan, hole.face)
    run = _run([line for line in joists if _drawn(line).distance(hole.face) < NEAR])
    stair = stair_through(plan, hole.face, hole.top)
    entry |= placed | run | ({"stair": Value(scalar(stair), "its treads come up there")} if stair else {})
    if not placed:
        model.draft.doubt(
            "an opening in a floor is no rectangle in plan: its place and header span are not shown", part
        )
    elif not run:
        told = "which way the joists run that it cuts is not modeled: its header span is not shown"
        model.draft.doubt(told, part)
    model.draft.add("framed openings", entry)


def _face(plan: Plan, opening: Any) -> Any:
    """Return what a cut takes out of a floor, in plan; None of one for a pipe or a duct."""
    shape = plan.model.shape(opening)
    faces = list(level_faces(shape, 1).values()) if shape else []
    largest = max(faces, key=area_of, default=[])
    face = within(outlines(largest))
    return face if face.area >= SMALLEST else None


def _placed(plan: Plan, face: Any) -> Entry:
    left, front, right, back = face.bounds
    if face.area < RECTANGULAR * (right - left) * (back - front):
        return {}
    told = "its sides in plan"
    box = {"at": Value(plan.point(left, front), told), "width": Value(plan.length(right - left), told),
           "depth": Value(plan.length(back - front), told)}  # fmt: skip
    return {"rectangle": box}


def _run(joists: list[Axis]) -> Entry:
    """Return which way joists run, where all of them run one way of the page."""
    ways = {_way(line) for line in joists}
    return (
        {"joists run": Value(ways.pop(), "the joists modeled beside it")} if len(ways) == 1 and "" not in ways else {}
    )


def _way(line: Axis) -> str:
    across, up = abs(line.end[0] - line.start[0]), abs(line.end[1] - line.start[1])
    if min(across, up) > STRAIGHT * max(across, up):
        return ""
    return "along the page" if across > up else "up the page"


def _is_framed(plan: Plan, level: float, room: ReadSpace, face: Any) -> bool:
    """Return whether joists go on around an opening, or a stair comes up there; along walls the floor just ends."""
    around = shapely.LineString([*room.outline, room.outline[0]]).buffer(0.01)
    along_walls = face.exterior.intersection(around).length <= ALONG_WALLS * face.exterior.length
    return along_walls or bool(stair_through(plan, face, level))


def _lies_on(room: ReadSpace, level: float) -> bool:
    return room.shape is not None and abs(level - room.shape.bottom) < DEEPEST


def _lies_under(slab: Shape, line: Axis) -> bool:
    high = slab.top - (line.start[2] + line.end[2]) / 2
    return 0 < high < DEEPEST and bool(_drawn(line).intersects(shapely.box(*_box(slab))))


def _drawn(line: Axis) -> Any:
    return shapely.LineString([line.start[:2], line.end[:2]])


def _box(shape: Shape) -> tuple[float, float, float, float]:
    xs, ys, _ = zip(*shape.corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _floor(room: ReadSpace) -> Any:
    return shapely.make_valid(shapely.Polygon(room.outline))


__all__ = ["add_framed_openings"]
