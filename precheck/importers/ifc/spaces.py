"""Stories and spaces: outline and height from the body, area and ceiling held against it, use from the name."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import guid, phase
from precheck.importers.ifc.model import Model
from precheck.importers.ifc.shapes import Shape, area_of, level_faces, middle_of, outlines, shape_of, touching
from precheck.importers.measures import area, box, length, point
from precheck.importers.plane import P2, inside, plan_area
from precheck.importers.writing import scalar

NEAR_DATUM = 0.6  # meters; the story whose level is within this of zero is the ground story
SAME_AREA = 0.01  # of the larger area, by which two statements of it may differ
SAME_HEIGHT = 0.005  # meters
PASSAGE = 0.6  # meters of shared edge, from which rooms pass into each other
STEP = 0.4  # meters between the floors of rooms that do
NO_ROOMS = frozenset(("roof", "outside", "exterior", "site"))  # names of spaces that only stand for the open air
FARTHEST = 250.0  # meters from the origin, beyond which coordinates are those of a map


@dataclass
class ReadSpace:
    """A space as read: its id in the project, its body, and its outline if it has one."""

    id: str
    element: Any
    story: Any
    shape: Shape | None
    outline: list[P2]

    def holds(self, x: float, y: float, z: float) -> bool:
        """Return whether a point lies in the room, give or take a step at its floor."""
        if self.shape is None or not self.outline:
            return False
        return self.shape.bottom - 0.4 <= z <= self.shape.top + 0.1 and inside((x, y), self.outline)


class Plan:
    """The rooms of a model, and where the plan's origin is put."""

    def __init__(self, model: Model) -> None:
        self.model = model
        self.rooms: list[ReadSpace] = []
        self.by_entity: dict[int, ReadSpace] = {}
        self.stories: dict[int, str] = {}
        self.origin: P2 = (0.0, 0.0)
        self.datum = 0.0  # the height in the world of what stories call zero

    def room_at(self, x: float, y: float, z: float) -> ReadSpace | None:
        """Return the room that holds a point."""
        return next((room for room in self.rooms if room.holds(x, y, z)), None)

    def story_at(self, z: float) -> str:
        """Return the id of the story within whose height the level `z` of the world lies; empty where none is known."""
        levels = {s: elevation(s, self.model) for s in self.model.all("IfcBuildingStorey") if s.id() in self.stories}
        below = [(at, s.id()) for s, at in levels.items() if at is not None and at + self.datum <= z]
        return self.stories[max(below)[1]] if below else next(iter(self.stories.values()), "")

    def point(self, x: float, y: float) -> str:
        """Return a point of the plan as the project file writes it."""
        return point(x - self.origin[0], y - self.origin[1], self.model.imperial)

    def length(self, meters: float) -> str:
        """Return a length as the project file writes it."""
        return length(meters, self.model.imperial)


def read_plan(model: Model, tick: Any) -> Plan:
    """Read the stories and spaces of `model` into its draft."""
    plan = Plan(model)
    elements = [space for space in model.all("IfcSpace") if not _is_open_air(model, space)]
    used = {story.id() for space in elements if (story := story_of(space)) is not None}
    _stories(plan, used)
    for element in elements:
        shape = shape_of(element)
        outline = _outline(shape)
        wanted = element.Name or element.LongName or "space"
        plan.rooms.append(ReadSpace(model.draft.free_id(wanted), element, story_of(element), shape, outline))
        tick()
    plan.by_entity = {room.element.id(): room for room in plan.rooms}
    _set_origin(plan)
    ceilings = [shape for c in model.all("IfcCovering") if c.PredefinedType == "CEILING" and (shape := shape_of(c))]
    opened = _open_to(plan)
    for room in plan.rooms:
        entry = model.draft.add("spaces", _space(plan, room, ceilings))
        if room.id in opened:
            entry["open to"] = Value(f"[{', '.join(opened[room.id])}]", "no wall between: virtual boundaries of both")
    return plan


def _open_to(plan: Plan) -> dict[str, list[str]]:
    """Return the rooms that pass into each other with no wall between: outlines that touch along virtual boundaries.

    What they pass through is added to the draft, as the opening without a door that it is.
    """
    virtual = {
        relation.RelatingSpace.id()
        for relation in plan.model.all("IfcRelSpaceBoundary")
        if relation.PhysicalOrVirtualBoundary == "VIRTUAL" and relation.RelatingSpace is not None
    }
    rooms = [room for room in plan.rooms if room.element.id() in virtual and room.outline]
    found: dict[str, list[str]] = {}
    for one, other in combinations(rooms, 2):
        wide = touching(one.outline, other.outline)
        if wide >= PASSAGE and _on_one_level(one, other):
            found.setdefault(one.id, []).append(other.id)
            found.setdefault(other.id, []).append(one.id)
            _passage(plan, one, other, wide)
    return found


def _passage(plan: Plan, one: ReadSpace, other: ReadSpace, wide: float) -> None:
    heights = [room.shape.top - room.shape.bottom for room in (one, other) if room.shape]
    draft, told = plan.model.draft, f"edge shared by #{one.element.id()} and #{other.element.id()}"
    draft.add("doors", {
        "id": Value(draft.free_id(f"O-{one.id}-{other.id}"), told, str(one.element.id())),
        "drawn from": Value(scalar(f"IfcSpace {one.element.GlobalId} to {other.element.GlobalId}"), told),
        "between": Value(f"[{one.id}, {other.id}]", "virtual boundaries of both"),
        "operation": Value("cased opening", "no wall between"),
        "unit size": Value(box(wide, min(heights), plan.model.imperial), "the shared edge x the lower space"),
    } | phase(plan.model, one.element, one.id))  # fmt: skip


def _on_one_level(one: ReadSpace, other: ReadSpace) -> bool:
    return one.shape is not None and other.shape is not None and abs(one.shape.bottom - other.shape.bottom) < STEP


def story_of(element: Any) -> Any:
    """Return the story that holds `element`, directly or through what it is a part of."""
    seen = element
    for _ in range(10):
        holders = [*(getattr(seen, "ContainedInStructure", ()) or ())]
        parents = [*(getattr(seen, "Decomposes", ()) or ())]
        if holders:
            seen = holders[0].RelatingStructure
        elif parents:
            seen = parents[0].RelatingObject
        else:
            return None
        if seen.is_a("IfcBuildingStorey"):
            return seen
    return None


def elevation(story: Any, model: Model) -> float | None:
    """Return the level of `story` in meters, as its attribute says."""
    given = getattr(story, "Elevation", None)
    return None if given is None else float(given) * model.meter


def _is_open_air(model: Model, space: Any) -> bool:
    name = plain(space.LongName or space.Name or "")
    if name.lower() not in NO_ROOMS:
        return False
    model.draft.left_out.append(f'left out: space {plain(space.Name)} "{name}" (#{space.id()}): no room, by its name')
    return True


def _stories(plan: Plan, used: set[int]) -> None:
    model = plan.model
    every = sorted(model.all("IfcBuildingStorey"), key=lambda s: elevation(s, model) or 0.0)
    ground = min((abs(elevation(s, model) or 0.0) for s in every if s.id() in used), default=9.0)
    for story in every:
        name = plain(story.Name or story.LongName or f"story {story.id()}")
        if story.id() not in used:
            model.draft.doubt("a story without spaces, not taken over", name)
            continue
        plan.stories[story.id()] = model.draft.free_id(name)
        entry: Entry = {"id": Value(plan.stories[story.id()], plain(story.Name or ""), str(story.id()))}
        at = elevation(story, model)
        if at is not None and abs(at) == ground <= NEAR_DATUM:
            entry["level"] = Value("ground", f"#{story.id()} Elevation {plan.length(at)}, nearest to zero")
        elif "attic" in name.lower() or "basement" in name.lower():
            entry["level"] = Value("attic" if "attic" in name.lower() else "basement", "its name")
        elif at is not None and at > NEAR_DATUM and ground <= NEAR_DATUM and "roof" not in name.lower():
            entry["level"] = Value("upper", f"#{story.id()} Elevation {plan.length(at)}")
        else:
            model.draft.doubt("whether the story is a basement, upper story or attic is not said", name)
        model.draft.add("stories", {**entry, "drawn from": guid(story)})


def _outline(shape: Shape | None) -> list[P2]:
    if shape is None:
        return []
    bottoms = level_faces(shape, -1)
    loops = outlines(bottoms[next(iter(bottoms))]) if bottoms else []
    return loops[0] if loops else []


def _set_origin(plan: Plan) -> None:
    points = [p for room in plan.rooms for p in room.outline]
    if points and max(abs(c) for p in points for c in p) > FARTHEST:
        plan.origin = (min(x for x, _ in points), min(y for _, y in points))
        told = f"{plan.origin[0]:.3f} m, {plan.origin[1]:.3f} m"
        plan.model.draft.doubt(f"coordinates are those of a map; the plan's origin is put at {told}")
    lowest = min(
        (room for room in plan.rooms if room.shape), key=lambda r: r.shape.bottom if r.shape else 0.0, default=None
    )
    if lowest is not None and lowest.shape is not None and abs(lowest.shape.bottom) > FARTHEST:
        level = elevation(lowest.story, plan.model) if lowest.story is not None else None
        plan.datum = lowest.shape.bottom - (level if level is not None and abs(level) < FARTHEST else 0.0)
        plan.model.draft.doubt(f"heights are those above the sea; the datum is put at {plan.datum:.3f} m")


def _space(plan: Plan, room: ReadSpace, ceilings: list[Shape]) -> Entry:
    model, element = plan.model, room.element
    name = plain(element.LongName or element.Name or "")
    entry: Entry = {"id": Value(room.id, f"#{element.id()} Name", str(element.id())), "drawn from": guid(element)}
    entry["name"] = Value(scalar(name), f"#{element.id()} LongName")
    use = model.mapping.use(name)
    if use.value:
        entry["use"] = Value(use.value, f'the name "{name}"')
    else:
        model.draft.doubt(f"use not taken: {use.why_not}", f'{room.id} "{name}"')
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


def _floor(plan: Plan, at: float, room: str) -> str:
    key, draft = f"floor-{round((at - plan.datum) * 1000)}", plan.model.draft
    known = draft.parts.get("floors", [])
    if not any(entry["id"].text == key for entry in known):
        told = f"bottom of the body of space {room}"
        draft.add(
            "floors", {"id": Value(draft.free_id(key)), "finished level": Value(plan.length(at - plan.datum), told)}
        )
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
        model.draft.doubt(f"{found.set_name}.{found.name} is not the area inside the outline, which is used", both)
        return {}
    return {"area": Value(area(found.si, model.imperial), found.told, str(found.entity))}


def _ceiling(plan: Plan, room: ReadSpace, shape: Shape, ceilings: list[Shape]) -> Entry:
    model = plan.model
    tops = level_faces(shape, 1)
    flat = area_of(tops[max(tops)]) if tops else 0.0
    if flat < (1 - SAME_AREA) * plan_area(room.outline):
        model.draft.doubt("the top of its body is not one level: ceiling height not shown", room.id)
        return {}
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


__all__ = ["Plan", "ReadSpace", "elevation", "read_plan", "story_of"]
