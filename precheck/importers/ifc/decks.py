"""The levels that people can stand on, by the upper faces of slabs: what lies below an edge, and where a room has no floor."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.floor_openings import open_to_below
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import area_of, level_faces, outlines
from precheck.importers.measures import area
from precheck.importers.plane import P2, inside, plan_area

SMALLEST = 0.5  # square meters of a face that counts as a floor
UNDER = 0.5  # meters below the floor of a room within which its slab lies
DROP = 0.7  # meters down from which an edge is one that people fall over
STEP = 0.25  # meters between the points at which a floor is looked for
SHARE = 0.02  # of a room, without a floor, that is an opening in it


class Deck(NamedTuple):
    """One level face: its height in the model, and the lines around it, holes too."""

    level: float
    loops: list[list[P2]]

    def holds(self, point: P2) -> bool:
        """Return whether a point of the plan lies on it."""
        return sum(inside(point, loop) for loop in self.loops) % 2 == 1


class Decks:
    """Every level face of the slabs of a model, the highest first; the openings in the floor of each room, by its id."""

    def __init__(self, plan: Plan) -> None:
        self.faces: list[Deck] = []
        self.openings: dict[str, list[Any]] = {}
        for slab in plan.model.all("IfcSlab"):
            shape = plan.model.shape(slab)
            for level, faces in (level_faces(shape, 1) if shape else {}).items():
                if area_of(faces) >= SMALLEST:
                    self.faces.append(Deck(level, outlines(faces)))
        self.stairs = [box for stair in plan.model.all("IfcStair") if (box := _box(plan, stair))]
        self.faces.sort(key=lambda deck: -deck.level)

    def level_at(self, point: P2, below: float) -> float | None:
        """Return the level of the highest face over a point of the plan that lies no higher than `below`."""
        return next((deck.level for deck in self.faces if deck.level <= below and deck.holds(point)), None)


def _box(plan: Plan, stair: Any) -> tuple[float, float, float, float] | None:
    """Return the sides in plan of a stair with its flights, left, front, right and back."""
    parts = [stair, *(part for relation in stair.IsDecomposedBy or () for part in relation.RelatedObjects)]
    points = [p for part in parts if (shape := plan.model.shape(part)) for p in shape.corners]
    if not points:
        return None
    xs, ys, _ = zip(*points, strict=True)
    return min(xs) - STEP, min(ys) - STEP, max(xs) + STEP, max(ys) + STEP


def add_openings_in_floors(plan: Plan, decks: Decks) -> None:
    """Take what no slab carries off the floor of each room, and tell of it with the drop there, which stairs have none of."""
    for room, entry in zip(plan.rooms, plan.model.draft.parts.get("spaces", []), strict=True):
        if room.shape is not None and room.outline:
            entry |= _drop(plan, decks, room, room.shape.bottom)
            _take_off(plan, decks, room, entry)


def _take_off(plan: Plan, decks: Decks, room: ReadSpace, entry: Entry) -> None:
    """Write the area that is open to below; an area that is stated with it gives way, for it is no floor area."""
    floor = room.shape.bottom if room.shape else 0.0
    openings = open_to_below(room.outline, floor, decks.faces, DROP, UNDER)
    if not openings:
        if "drop at edge" in entry:
            told = (
                "no slab carries all of its floor, and where it ends is not clear: its whole area counts as floor here"
            )
            plan.model.draft.doubt(told, room.id)
        return
    decks.openings[room.id] = openings
    whole, gone, imperial = plan_area(room.outline), sum(one.area for one in openings), plan.model.imperial
    both = f"{room.id} ({area(gone, imperial)} of {area(whole, imperial)}, in {len(openings)})"
    plan.model.draft.doubt("no slab carries all of its floor: what is open to below is taken off its area", both)
    if entry.pop("area", None):
        plan.model.draft.doubt("the area stated counts what is open to below, and is not used", room.id)
    entry["open to below"] = Value(area(gone, imperial), "its outline, less the slabs at its level")


def _drop(plan: Plan, decks: Decks, room: ReadSpace, floor: float) -> Entry:
    points = [
        p for p in _points(room.outline) if not any(a <= p[0] <= c and b <= p[1] <= d for a, b, c, d in decks.stairs)
    ]
    levels = [decks.level_at(point, floor + UNDER) for point in points]
    drops = [floor - level for level in levels if level is not None and floor - level >= DROP]
    carried = sum(level is not None and floor - level <= UNDER for level in levels)
    if not carried or len(drops) <= SHARE * len(points):
        return {}
    told = f"{plan.length(max(drops))} down to the slab below an opening in its floor"
    return {"drop at edge": Value(plan.length(max(drops)), told)}


def _points(outline: list[P2]) -> list[P2]:
    xs, ys = zip(*outline, strict=True)
    across, along = int((max(xs) - min(xs)) / STEP), int((max(ys) - min(ys)) / STEP)
    every = ((min(xs) + (i + 0.5) * STEP, min(ys) + (j + 0.5) * STEP) for i in range(across) for j in range(along))
    return [point for point in every if inside(point, outline)]


__all__ = ["DROP", "Decks", "add_openings_in_floors"]
