"""Where a part stands in the model that the project is drawn from: the id that it has there, and a box in its world."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from math import cos, hypot, radians, sin
from typing import Any, NamedTuple

from precheck.files.missing import is_missing
from precheck.files.record import Record
from precheck.project import Opening, Part, Project, Space
from precheck.project.design_file import DesignFile
from precheck.survey import House
from precheck.units import Angle, Length

METER = Length.parse("1 m")
DEGREE = Angle.parse("1 deg")
HIGH = 2.4  # meters that a room is taken to be high where its ceiling is not shown
AROUND = 0.5  # meters around a point, for a part that has no more than one
OF_MODEL = re.compile(r"Ifc\w+ (?P<id>[0-9A-Za-z_$]{22})\b")
_PLACES = frozenset(("at", "middle", "from_", "to"))  # fields that are a point of the plan
DEEPEST = 3  # parts from one to the next, to find one that has a place

P3 = tuple[float, float, float]


class PlanBox(NamedTuple):
    """A box along the axes of the plan, in meters of it."""

    low: P3
    high: P3

    @property
    def middle(self) -> P3:
        """Its middle."""
        x, y, z = ((a + b) / 2 for a, b in zip(self.low, self.high, strict=True))
        return x, y, z

    @property
    def size(self) -> float:
        """From corner to corner, in meters."""
        (ax, ay, az), (bx, by, bz) = self
        return hypot(bx - ax, by - ay, bz - az)


def global_id(part: Part | None) -> str:
    """Return the id by which a model knows `part`; empty where it is drawn from none."""
    found = OF_MODEL.match(part.drawn_from) if part is not None else None
    return found["id"] if found else ""


def class_of(part: Part) -> str:
    """Return what the model calls the entity that `part` is drawn from, such as IfcDoor; empty where it is from none."""
    return part.drawn_from.split()[0] if global_id(part) else ""


def design_file(project: Project) -> DesignFile | None:
    """Return what the project is drawn from, where it says so."""
    return project.design_file if isinstance(project.design_file, DesignFile) else None


def box_of(part: Part | None, house: House) -> PlanBox | None:
    """Return the box that `part` stands in, else that of the rooms it belongs to; of None, that of the whole house."""
    if part is None:
        return _around([box for space in house.spaces if (box := _of_space(space, house))])
    if isinstance(part, Space):
        return _of_space(part, house)
    spaces = list(dict.fromkeys(_spaces(part, house)))
    rooms = _around([box for space in spaces if (box := _of_space(space, house))])
    points = list(_points(part.__dict__.items()))
    if not points:
        return rooms
    low, high = (rooms.low[2], rooms.high[2]) if rooms else (0.0, HIGH)
    if isinstance(part, Opening) and not is_missing(part.unit_size):
        sill = getattr(part, "sill_height", None)
        low += meters(sill) if isinstance(sill, Length) else 0.0
        high = low + meters(part.unit_size.height)
    xs, ys = zip(*points, strict=True)
    return PlanBox((min(xs) - AROUND, min(ys) - AROUND, low), (max(xs) + AROUND, max(ys) + AROUND, high))


def in_world(point: P3, drawn: DesignFile | None) -> P3:
    """Return a point of the plan as one of the world of the model, in meters."""
    if drawn is None or is_missing(drawn.origin):
        return point
    x, y, _ = turned(point, drawn)
    level = 0.0 if is_missing(drawn.datum) else meters(drawn.datum)
    return x + meters(drawn.origin[0]), y + meters(drawn.origin[1]), point[2] + level


def turned(vector: P3, drawn: DesignFile | None) -> P3:
    """Return a direction of the plan as one of the world of the model."""
    by = 0.0 if drawn is None or is_missing(drawn.turned) else radians(float(drawn.turned / DEGREE))
    x, y, z = vector
    return cos(by) * x - sin(by) * y, sin(by) * x + cos(by) * y, z


def meters(length: Length) -> float:
    """Return a length in meters."""
    return float(length / METER)


def _of_space(space: Space, house: House) -> PlanBox | None:
    if not (outline := house.outline(space)):
        return None
    xs, ys = zip(*((meters(Length(x)), meters(Length(y))) for x, y in outline), strict=True)
    floor, ceiling = house.finished_floor(space), house.ceiling_height(space)
    low = 0.0 if is_missing(floor) else meters(floor)
    return PlanBox(
        (min(xs), min(ys), low), (max(xs), max(ys), low + (HIGH if is_missing(ceiling) else meters(ceiling)))
    )


def _around(boxes: list[PlanBox]) -> PlanBox | None:
    if not boxes:
        return None
    lows, highs = zip(*boxes, strict=True)
    (ax, ay, az), (bx, by, bz) = map(min, zip(*lows, strict=True)), map(max, zip(*highs, strict=True))
    return PlanBox((ax, ay, az), (bx, by, bz))


def _spaces(part: Part, house: House, deep: int = 0) -> Iterator[Space]:
    """Yield the spaces that `part` names, or that what it names stands in."""
    for name in _names(part.__dict__.values()):
        other = house.project.by_id.get(name)
        if isinstance(other, Space):
            yield other
        elif isinstance(other, Part) and other is not part and deep < DEEPEST:
            yield from _spaces(other, house, deep + 1)


def _names(values: Iterable[Any]) -> Iterator[str]:
    for value in values:
        if isinstance(value, str):
            yield value
        elif isinstance(value, tuple):
            yield from _names(value)


def _points(values: Iterable[tuple[str, Any]]) -> Iterator[tuple[float, float]]:
    """Yield the points of the plan, in meters, that a part gives."""
    for name, value in values:
        if name in _PLACES and isinstance(value, tuple):
            yield (meters(value[0]), meters(value[1]))
        elif isinstance(value, Record):
            yield from _points(value.__dict__.items())


__all__ = ["PlanBox", "box_of", "class_of", "design_file", "global_id", "in_world", "meters", "turned"]
