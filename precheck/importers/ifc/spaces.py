"""Stories and spaces: outline and height from the body, area and ceiling held against it, use from the name."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import guid, phase, phase_otherwise
from precheck.importers.ifc.model import Model
from precheck.importers.ifc.passages import open_to
from precheck.importers.ifc.plan import Plan, ReadSpace, outline_of, settle_axes, story_of
from precheck.importers.ifc.roomless import add_stand_ins, stand_in
from precheck.importers.ifc.shapes import Shape, area_of, level_faces, middle_of, outlines
from precheck.importers.ifc.slopes import slope_of
from precheck.importers.ifc.stories import read_stories
from precheck.importers.measures import area
from precheck.importers.plane import inside, plan_area
from precheck.importers.writing import scalar

SAME_AREA = 0.01  # of the larger area, by which two statements of it may differ
SAME_HEIGHT = 0.005  # meters
NO_ROOMS = frozenset(("roof", "outside", "exterior", "site"))  # names of spaces that only stand for the open air


def read_plan(model: Model, tick: Any) -> Plan:
    """Read the stories and spaces of `model` into its draft."""
    plan = Plan(model)
    for element in model.all("IfcSpace"):
        if not _is_open_air(model, element):
            shape = model.shape(element)
            plan.rooms.append(ReadSpace("", element, story_of(element), shape, outline_of(shape)))
            tick()
    if not plan.rooms:
        stand_in(plan)
    settle_axes(plan)
    read_stories(plan, {room.story.id() for room in plan.rooms if room.story is not None})
    plan.by_entity = {room.element.id(): room for room in plan.rooms}
    if model.draft.warning:
        add_stand_ins(plan)
        return plan
    _name_rooms(plan)
    ceilings = [shape for c in model.all("IfcCovering") if c.PredefinedType == "CEILING" and (shape := model.shape(c))]
    opened = open_to(plan)
    for room in plan.rooms:
        entry = model.draft.add("spaces", _space(plan, room, ceilings))
        if room.id in opened:
            entry["open to"] = Value(f"[{', '.join(opened[room.id])}]", "no wall between: virtual boundaries of both")
    return plan


def _name_rooms(plan: Plan) -> None:
    """Give each room the name that people gave it as its id, with its number where several are called the same."""
    names = [plain(room.element.LongName or room.element.Name or "space") for room in plan.rooms]
    for room, name in zip(plan.rooms, names, strict=True):
        number = plain(room.element.Name or "")
        room.id = plan.model.draft.free_id(f"{name} {number}" if names.count(name) > 1 and number != name else name)


def _is_open_air(model: Model, space: Any) -> bool:
    name = plain(space.LongName or space.Name or "")
    if name.lower() not in NO_ROOMS:
        return False
    model.draft.left_out.append(f'left out: space {plain(space.Name)} "{name}" : no room, by its name')
    return True


def _space(plan: Plan, room: ReadSpace, ceilings: list[Shape]) -> Entry:
    model, element = plan.model, room.element
    name = plain(element.LongName or element.Name or "")
    from_ = "LongName" if element.LongName else "Name"
    entry: Entry = {"id": Value(room.id, f"#{element.id()} {from_}", str(element.id())), "drawn from": guid(element)}
    entry["name"] = _called(element, name)
    use = model.mapping.use(name)
    if use.value:
        entry["use"] = Value(use.value, f'the name "{name}"')
    else:
        model.draft.doubt(f"use not taken: {use.why_not}", f'"{name}"')
        model.draft.unsaid["uses"][name] += 1
    entry |= phase(model, element, room.id)
    if room.story is not None and room.story.id() in plan.stories:
        entry["story"] = Value(plan.stories[room.story.id()], f"#{room.story.id()}")
    if room.shape is None or not room.outline:
        model.draft.doubt("has no body with a level floor: outline and height are not shown", room.id)
        return entry | _area(plan, room)
    entry["floor"] = Value(_floor(plan, room.shape.bottom, room.id), "level of the bottom of its body")
    corners = ", ".join(plan.point(x, y) for x, y in room.outline)
    entry["outline"] = Value(f"[{corners}]", f"bottom of the body of #{element.id()}")
    return entry | _area(plan, room) | _ceiling(plan, room, room.shape, ceilings)


def _called(element: Any, name: str) -> Value:
    """Return the name of a room with its number, by which reports name it and the plan shows it."""
    number = plain(element.Name or "")
    if not number or number in name or not element.LongName:
        return Value(scalar(name), f"#{element.id()} {'LongName' if element.LongName else 'Name'}")
    return Value(scalar(f"{name} / {number}"), f"#{element.id()} LongName and Name")


def _floor(plan: Plan, at: float, room: str) -> str:
    key, draft = f"floor-{round((at - plan.datum) * 1000)}", plan.model.draft
    known = draft.parts.get("floors", [])
    if not any(entry["id"].text == key for entry in known):
        told = f"bottom of the body of space {room}"
        level = Value(plan.length(at - plan.datum), told)
        draft.add("floors", {"id": Value(draft.free_id(key)), "finished level": level} | phase_otherwise(plan.model))
    return key


def _area(plan: Plan, room: ReadSpace) -> Entry:
    """Return the area stated, unless the outline encloses another: then the outline speaks, and the doubt is told."""
    model = plan.model
    found = next((p for p in model.given(room.element, "floor area", room.id) if p.si), None)
    if found is None or found.si is None:
        return {}
    drawn = plan_area(room.outline) if room.outline else None
    if drawn is not None and abs(drawn - found.si) > SAME_AREA * max(drawn, found.si):
        imperial = model.imperial
        both = f"{room.id} ({area(found.si, imperial)}, drawn {area(drawn, imperial)})"
        model.draft.doubt(
            f"the floor area stated ({found.set_name}.{found.name}) is not that inside the outline, which is used", both
        )
        return {}
    return {"area": Value(area(found.si, model.imperial), found.told, str(found.entity))}


def _ceiling(plan: Plan, room: ReadSpace, shape: Shape, ceilings: list[Shape]) -> Entry:
    model = plan.model
    tops = level_faces(shape, 1)
    flat = area_of(tops[max(tops)]) if tops else 0.0
    if flat < (1 - SAME_AREA) * plan_area(room.outline):
        model.draft.doubt("its ceiling is modeled on more than one level: ceiling height not shown", room.id)
        return slope_of(plan, room, shape)
    height, told = shape.top - shape.bottom, f"height of the body of #{room.element.id()}"
    covers = [c.bottom for c in ceilings if _covers(c, room, shape)]
    stated = next((p for p in model.given(room.element, "ceiling height", room.id) if p.si), None)
    if covers and abs(min(covers) - shape.top) > SAME_HEIGHT:
        height, told = min(covers) - shape.bottom, "to the underside of the ceiling modeled in it"
        model.draft.doubt("its body does not end at the ceiling modeled in it, which is used", room.id)
    elif covers:
        told += ", and a ceiling modeled there"
    if stated and stated.si and abs(stated.si - height) > SAME_HEIGHT:
        said = f"{room.id} ({stated.told} says {plan.length(stated.si)}, the body is {plan.length(height)} high)"
        model.draft.doubt("ceiling height contradicts itself and is not shown", said)
        return {}
    if not covers and not stated:
        model.draft.doubt(
            "no ceiling is modeled: its height is that of the space's body, which may be an assumption", room.id
        )
    return {"ceiling": {"height": Value(plan.length(height), told)}}


def _covers(ceiling: Shape, room: ReadSpace, shape: Shape) -> bool:
    x, y = middle_of([(shape.corners[a], shape.corners[b], shape.corners[c]) for a, b, c in shape.triangles])
    if not shape.bottom + 1.0 < ceiling.bottom < shape.top + 0.3:
        return False
    return any(inside((x, y), loop) for faces in level_faces(ceiling, -1).values() for loop in outlines(faces))


__all__ = ["read_plan"]
