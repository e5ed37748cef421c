"""The rooms of a model with the stories that hold them, and where the plan's origin and the datum of its heights are put."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import Any

from precheck.importers.ifc.frame import turn_of
from precheck.importers.ifc.model import Model
from precheck.importers.ifc.shapes import Shape, level_faces, outlines
from precheck.importers.measures import length, point
from precheck.importers.plane import P2, inside

FARTHEST = 250.0  # meters from the origin, beyond which coordinates are those of a map
OFF = 1.0  # meters between the level of a story and the floors on it, from which heights have another zero than stories
ALIKE = 0.5  # meters by which that may differ from story to story


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
        self.datum = 0.0  # the height in the model of what stories call zero
        self.ground_known = True  # whether that zero is the ground story

    def room_at(self, x: float, y: float, z: float) -> ReadSpace | None:
        """Return the room that holds a point."""
        return next((room for room in self.rooms if room.holds(x, y, z)), None)

    def story_at(self, z: float) -> str:
        """Return the id of the story within whose height the level `z` of the model lies; empty where none is known."""
        levels = {s: elevation(s, self.model) for s in self.model.all("IfcBuildingStorey") if s.id() in self.stories}
        below = [(at, s.id()) for s, at in levels.items() if at is not None and at + self.datum <= z]
        return self.stories[max(below)[1]] if below else next(iter(self.stories.values()), "")

    def floor_of(self, room: ReadSpace) -> float | None:
        """Return the level of the finished floor of `room`; of a space that only stands for a story, that of the story."""
        if room.shape is not None:
            return room.shape.bottom
        level = elevation(room.story, self.model) if self.model.draft.warning and room.story is not None else None
        return None if level is None else level + self.datum

    def point(self, x: float, y: float) -> str:
        """Return a point of the plan as the project file writes it."""
        return point(x - self.origin[0], y - self.origin[1], self.model.imperial)

    def length(self, meters: float) -> str:
        """Return a length as the project file writes it."""
        return length(meters, self.model.imperial)


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
    """Return the level of `story` in meters, as its attribute says, with the zero of the model."""
    given = getattr(story, "Elevation", None)
    return None if given is None else float(given) * model.meter - model.story_zero


def settle_axes(plan: Plan) -> None:
    """Put the plan upright, its origin near the rooms, and the datum of heights where the stories have theirs."""
    turned = turn_of([room.outline for room in plan.rooms if room.outline])
    if turned:
        plan.model.turn(turned)
        for room in plan.rooms:
            room.shape = plan.model.shape(room.element)
            room.outline = outline_of(room.shape)
    points = [p for room in plan.rooms for p in room.outline]
    if points and max(abs(c) for p in points for c in p) > FARTHEST:
        plan.origin = (min(x for x, _ in points), min(y for _, y in points))
        told = f"{plan.origin[0]:.3f} m, {plan.origin[1]:.3f} m"
        plan.model.draft.doubt(f"coordinates are those of a map; the plan's origin is put at {told}")
    _settle_heights(plan)


def _settle_heights(plan: Plan) -> None:
    """Bring the levels of stories and of the rooms on them to one zero, the one that lies nearer to the house."""
    offs = _offs(plan)
    if not offs:
        return
    lowest, off = min(offs.items())
    apart = abs(median(offs.values())) > OFF and max(offs.values()) - min(offs.values()) <= ALIKE
    if apart and abs(lowest) > abs(lowest + off):
        plan.model.story_zero = -off
        plan.model.draft.doubt(f"levels of stories have another zero than the model; they are taken {-off:.3f} m lower")
    elif apart:
        plan.datum = off
        plan.model.draft.doubt(f"heights are those above the sea; the datum is put at {plan.datum:.3f} m")
    floor = lowest - plan.model.story_zero
    if abs(floor) > FARTHEST:
        plan.model.story_zero += floor
        plan.datum += floor
        plan.model.draft.doubt(f"heights are those above the sea; the datum is put at the lowest floor, {floor:.3f} m")
        plan.ground_known = False


def _offs(plan: Plan) -> dict[float, float]:
    """Return, by the level that a story gives, how much higher the lowest floor of its rooms lies in the model."""
    found: dict[float, float] = {}
    for room in plan.rooms:
        level = elevation(room.story, plan.model) if room.story is not None else None
        if level is not None and room.shape is not None:
            found[level] = min(found.get(level, room.shape.bottom - level), room.shape.bottom - level)
    return found


def outline_of(shape: Shape | None) -> list[P2]:
    """Return the outline of a body where it stands on the floor; none where it has no level bottom."""
    bottoms = level_faces(shape, -1) if shape is not None else {}
    loops = outlines(bottoms[next(iter(bottoms))]) if bottoms else []
    return loops[0] if loops else []


__all__ = ["Plan", "ReadSpace", "elevation", "outline_of", "settle_axes", "story_of"]
