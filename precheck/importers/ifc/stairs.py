"""Stairs and flights. What attributes and property sets state is held against the treads as modeled and the rise.

Exporters are known to write the attributes of a flight in another unit than the file declares. A statement is taken
only where the flight's own geometry, or its rise over its risers, bears it out; a number that does so in another unit
is corrected and told; what nothing bears out and no sense allows is left as not shown, and told.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import called, guid, phase
from precheck.importers.ifc.headroom import headroom_of
from precheck.importers.ifc.plan import Plan, elevation, story_of
from precheck.importers.ifc.risers import floors_of_flights, with_uneven_risers
from precheck.importers.ifc.roomless import room_at_level
from precheck.importers.ifc.spirals import winds_about_a_post
from precheck.importers.ifc.stair_statements import AGREES, Shown, risers_stated, said_of, settled
from precheck.importers.ifc.treads import Treads, treads_of
from precheck.importers.ifc.turning_flights import turning_treads
from precheck.importers.plane import P2

FORMS = (("SPIRAL", "spiral"), ("WINDING", "turning"), ("TURN", "turning"), ("STRAIGHT", "straight"))
UNTYPED = ("", "NOTDEFINED", "USERDEFINED")
LANDING = 0.8  # meters from the first or last tread at which the floor that it leads to is looked for


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
    treads = [treads_of(shape) for _, shape in known if shape is not None]
    between = _between(plan, treads)
    if between is None:
        told = f"left out: stair {part} ({plain(element.Name)}): the spaces that it joins are not clear"
        model.draft.left_out.append(told)
        return
    entry: Entry = {"id": Value(part, plain(element.Name or ""), str(element.id())), "drawn from": guid(element)}
    entry["between"] = Value(f"[{', '.join(between)}]", "the spaces at its lowest and highest tread in plan")
    entry |= phase(model, element, part)
    form = _form(plan, element, treads, part)
    entry |= form
    rise = _total_rise(plan, between, part)
    if rise:
        entry["total rise"] = Value(plan.length(rise.meters), rise.how)
    ordered = known if len(known) == len(shapes) else shapes
    ends = floors_of_flights(plan, element, [one.levels for one in treads], between)
    entry["flights"] = []
    for i, (flight, _) in enumerate(ordered):
        modeled = treads[i] if i < len(treads) else None
        own = _flight(plan, element, flight, modeled, rise if len(ordered) == 1 else None, part)
        if modeled:
            own |= headroom_of(plan, element, modeled)
            own |= turning_treads(plan, modeled, _is_spiral(element, form), part)
        if modeled and i < len(ends):
            own = with_uneven_risers(plan, own, modeled.levels, ends[i], part)
        entry["flights"].append(own or {"risers": Value("", "not in the model")})
    rails = list(_rails(plan, element, part))
    if rails:
        entry["handrails"] = rails
    model.draft.add("stairs", entry)


def _form(plan: Plan, element: Any, treads: list[Treads], part: str) -> Entry:
    """Return the form of a stair as its shape type says it, where the treads bear it out; a spiral by its treads alone."""
    said = _shape_type(element)
    if said in UNTYPED and winds_about_a_post(treads):
        plan.model.draft.doubt("is not said to be a spiral stair, and taken for one by its treads about a post", part)
        return {"form": Value("spiral", "its treads, which are alike and wind about one post")}
    form = next((form for word, form in FORMS if word in said), "")
    runs_straight = len(treads) == 1 and treads[0].going is not None
    if not form or not treads or (form == "straight") != runs_straight:
        if form:
            plan.model.draft.doubt("its shape type is not borne out by its treads; form not shown", f"{part} ({said})")
        return {}
    return {"form": Value(form, f"#{element.id()} {said}, and its treads")}


def _is_spiral(element: Any, form: Entry) -> bool:
    return "SPIRAL" in _shape_type(element) or ("form" in form and form["form"].text == "spiral")


def _shape_type(element: Any) -> str:
    return str(getattr(element, "ShapeType", None) or getattr(element, "PredefinedType", None) or "")


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
            plan.model.draft.doubt("its railing is left out: whether it is a handrail or a guard is not said", part)


__all__ = ["parts_of", "read_stairs", "story_of"]
