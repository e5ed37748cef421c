"""Stairs and flights. What attributes and property sets state is held against the treads as modeled and the rise.

Exporters are known to write the attributes of a flight in another unit than the file declares. A statement is taken
only where the flight's own geometry, or its rise over its risers, bears it out; a number that does so in another unit
is corrected and told; what nothing bears out and no sense allows is left as not shown, and told.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from statistics import median
from typing import Any, NamedTuple

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import called, guid, phase
from precheck.importers.ifc.plan import Plan, elevation, story_of
from precheck.importers.ifc.risers import floors_of_flights, uneven_risers
from precheck.importers.ifc.roomless import room_at_level
from precheck.importers.ifc.shapes import Shape, area_of, level_faces, middle_of
from precheck.importers.ifc.stair_statements import AGREES, Shown, risers_stated, said_of, settled
from precheck.importers.plane import P2

TREAD_AREA = 0.3  # of the largest level face, from which one counts as a tread
LANDING = 0.8  # meters from the first or last tread at which the floor that it leads to is looked for


class Treads(NamedTuple):
    """A flight as modeled: levels of the treads, and what follows from them; None where that is not clear."""

    levels: list[float]
    middles: list[P2]
    riser: float | None
    going: float | None
    width: float | None


def read_stairs(plan: Plan, tick: Any) -> None:
    """Read the stairs of the model into its draft."""
    model = plan.model
    parts = {part.id() for stair in model.all("IfcStair") for part in parts_of(stair)}
    alone = [flight for flight in model.all("IfcStairFlight") if flight.id() not in parts]
    for element in [*model.all("IfcStair"), *alone]:
        _stair(plan, element)
        tick()


def parts_of(element: Any) -> list[Any]:
    """Return the elements that `element` is put together from."""
    return [part for relation in element.IsDecomposedBy or () for part in relation.RelatedObjects]


def _stair(plan: Plan, element: Any) -> None:
    model = plan.model
    number = called(model, element)
    part = model.draft.free_id(f"ST{number}" if number[:1].isdigit() else number)
    flights = [p for p in parts_of(element) if p.is_a("IfcStairFlight")] or [element]
    shapes = [(flight, plan.model.shape(flight)) for flight in flights]
    known = sorted(((f, s) for f, s in shapes if s is not None), key=lambda pair: pair[1].bottom if pair[1] else 0.0)
    treads = [_treads(shape) for _, shape in known if shape is not None]
    between = _between(plan, treads)
    if between is None:
        told = f"left out: stair {part} (#{element.id()} {plain(element.Name)}): the spaces that it joins are not clear"
        model.draft.left_out.append(told)
        return
    entry: Entry = {"id": Value(part, plain(element.Name or ""), str(element.id())), "drawn from": guid(element)}
    entry["between"] = Value(f"[{', '.join(between)}]", "the spaces at its lowest and highest tread in plan")
    entry |= phase(model, element, part)
    rise = _total_rise(plan, between, part)
    if rise:
        entry["total rise"] = Value(plan.length(rise.meters), rise.how)
    ordered = known if len(known) == len(shapes) else shapes
    ends = floors_of_flights(plan, element, [one.levels for one in treads], between)
    entry["flights"] = [
        _flight(
            plan, element, flight, treads[i] if i < len(treads) else None, rise if len(ordered) == 1 else None, part
        )
        | (uneven_risers(plan, treads[i].levels, ends[i], part) if i < len(ends) else {})
        for i, (flight, _) in enumerate(ordered)
    ]
    for flight in entry["flights"]:
        if "riser heights" in flight:
            flight.pop("riser", None)
    rails = list(_rails(plan, element, part))
    if rails:
        entry["handrails"] = rails
    model.draft.add("stairs", entry)


def _treads(shape: Shape) -> Treads:
    faces = level_faces(shape, 1)
    areas = {z: area_of(one) for z, one in faces.items()}
    enough = TREAD_AREA * max(areas.values(), default=0.0)
    levels = [z for z in faces if areas[z] >= enough]
    middles = [middle_of(faces[z]) for z in levels]
    steps = [b - a for a, b in pairwise(levels)]
    goings = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(middles)]
    alike = len(steps) > 1 and max(steps) - min(steps) < AGREES
    straight = alike and max(goings) - min(goings) < AGREES
    width = _across([p for z in levels for one in faces[z] for p in one], middles) if straight else None
    return Treads(levels, middles, median(steps) if alike else None, median(goings) if straight else None, width)


def _across(points: list[tuple[float, float, float]], middles: list[P2]) -> float:
    """Return how wide the treads are, square to the way up."""
    dx, dy = middles[-1][0] - middles[0][0], middles[-1][1] - middles[0][1]
    size = hypot(dx, dy) or 1.0
    sideways = [(-dy * x + dx * y) / size for x, y, _ in points]
    return max(sideways) - min(sideways)


def _between(plan: Plan, treads: list[Treads]) -> list[str] | None:
    """Return the spaces that a stair leads from and to."""
    stepped = [one for one in treads if len(one.levels) > 1]
    if not stepped:
        return None
    low, high = stepped[0], stepped[-1]
    ends = [_end(plan, low.middles[0], low.middles[1], low.levels[0]),
            _end(plan, high.middles[-1], high.middles[-2], high.levels[-1] + 0.1)]  # fmt: skip
    if None in ends or ends[0] == ends[1]:
        return None
    return [str(end) for end in ends]


def _end(plan: Plan, last: P2, before: P2, at: float) -> str | None:
    if plan.model.draft.warning:
        story = room_at_level(plan, at)
        return story.id if story is not None else None
    dx, dy = last[0] - before[0], last[1] - before[1]
    size = hypot(dx, dy) or 1.0
    for reach in (LANDING, LANDING / 2, 0.0):
        x, y = last[0] + dx / size * reach, last[1] + dy / size * reach
        here = [room for room in plan.rooms if room.holds(x, y, at)]
        if here:  # the space whose floor is nearest below
            return max(here, key=lambda room: room.shape.bottom if room.shape else 0.0).id
    return None


def _total_rise(plan: Plan, between: list[str], part: str) -> Shown | None:
    """Return the rise from the finished floor of one space to that of the other, which their stories should bear out."""
    rooms = [next(room for room in plan.rooms if room.id == side) for side in between]
    floors = [level for room in rooms if (level := plan.floor_of(room)) is not None]
    levels = [elevation(room.story, plan.model) if room.story is not None else None for room in rooms]
    if len(floors) < 2 or floors[1] <= floors[0]:
        return None
    rise = floors[1] - floors[0]
    if None not in levels and abs(float(levels[1] or 0) - float(levels[0] or 0) - rise) > AGREES:
        said = plan.length(float(levels[1] or 0) - float(levels[0] or 0))
        told = f"{part} (floors {plan.length(rise)} apart, stories {said})"
        plan.model.draft.doubt("the floors at its ends lie otherwise than their stories; the floors are taken", told)
    return Shown(rise, f"the floors of {between[0]} and {between[1]}")


def _flight(plan: Plan, stair: Any, flight: Any, treads: Treads | None, rise: Shown | None, part: str) -> Entry:
    model = plan.model
    entry: Entry = {}
    count = risers_stated(model, stair, flight, part)
    if count is not None:
        entry["risers"] = count
        if treads and treads.riser and len(treads.levels) not in (int(count.text), int(count.text) - 1):
            told = f"{count.text} risers are stated, {len(treads.levels)} treads are modeled"
            model.draft.doubt(f"the count of risers contradicts the model ({told}); taken as stated", part)
    evidence = (
        [Shown(treads.riser, f"{len(treads.levels)} treads modeled at that step")] if treads and treads.riser else []
    )
    if rise and count is not None and int(count.text):
        evidence.append(Shown(rise.meters / int(count.text), f"total rise over {count.text} risers"))
    entry |= settled(plan, "riser", list(said_of(model, stair, flight, "riser", "RiserHeight", part)), evidence, part)
    goings = [Shown(treads.going, "treads modeled at that going")] if treads and treads.going else []
    entry |= settled(plan, "tread", list(said_of(model, stair, flight, "tread", "TreadLength", part)), goings, part)
    if treads and treads.width:
        entry["width"] = Value(plan.length(treads.width), "across the treads as modeled; rails are not deducted")
    nosing = next((p for f in (flight, stair) for p in model.given(f, "nosing", part) if p.si is not None), None)
    if nosing and nosing.si is not None and 0 <= nosing.si < 0.1:
        entry["nosing"] = {"projection": Value(plan.length(nosing.si), nosing.told, str(nosing.entity))}
    return entry or {"risers": Value("", "not in the model")}


def _rails(plan: Plan, stair: Any, part: str) -> Iterator[Entry]:
    """Yield the handrails among the parts of a stair; add its guards to the draft."""
    for rail in [p for p in parts_of(stair) if p.is_a("IfcRailing")]:
        name = plain(f"{rail.Name} {rail.ObjectType or ''}").lower()
        kind = str(rail.PredefinedType or "")
        height = next((p for p in plan.model.given(rail, "railing height", part) if p.si), None)
        measured = (
            {"height": Value(plan.length(height.si), height.told, str(height.entity))} if height and height.si else {}
        )
        if kind == "HANDRAIL" or "handrail" in name or "hand rail" in name:
            if measured:
                yield measured
        elif kind in ("GUARDRAIL", "BALUSTRADE") or "guard" in name:
            own = {"id": Value(plan.model.draft.free_id(f"G-{part}"), plain(rail.Name or ""), str(rail.id()))}
            along = {"along": Value(part, f"part of #{stair.id()}"), "level": Value("no", "of a stair")}
            plan.model.draft.add(
                "guards", {**own, "drawn from": guid(rail), **along, **phase(plan.model, rail, part), **measured}
            )
        else:
            plan.model.draft.doubt(
                f"whether railing #{rail.id()} is a handrail or a guard is not said; not taken over", part
            )


__all__ = ["parts_of", "read_stairs", "story_of"]
