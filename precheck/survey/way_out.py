"""The way out: from a room through doors, halls and stairs to the required egress door, without passing a garage.

Doors between rooms, stairs and rooms that open into each other are the ways; a door that leads outside is an exit. The
walk goes over what is drawn. Where rooms whose doors are not drawn could hold a way, the answer is missing, not no.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from typing import NamedTuple

from precheck.files.missing import Missing, is_missing
from precheck.project import OUTSIDE, Door, Part, Space
from precheck.project.space import OUTDOOR
from precheck.survey.house import House

NO_WAY = frozenset(("vehicle", "hatch"))  # doors that are no way out
NOT_THROUGH = frozenset(("garage", "crawl space"))


class Way(NamedTuple):
    """A step: through which door, stair or opening, into which room."""

    through: Part | None
    to: str


class WayOut(NamedTuple):
    """The way from a room to the open: its steps, and whether it ends at a door marked as the required egress door."""

    room: str
    steps: tuple[Way, ...]
    by_required_door: bool

    def __str__(self) -> str:
        return ", ".join(step.through.label if step.through is not None else step.to for step in self.steps)


def way_out(room: Space, house: House, through_garage: bool = False) -> WayOut | Missing | None:
    """Return the way from `room` to the open, by the required egress door where one leads there.

    None where what is drawn has no way; missing where doors that are not drawn could hold one. A garage is no way unless
    `through_garage`, when a way that comes to its end in one is told as well.
    """
    ways = _ways(house)
    walks = (_walk(room.id, ways, house, through_garage, required) for required in (True, False))
    found = next((walk for walk in walks if walk is not None), None)
    if found is None and through_garage:
        found = _into_garage(room.id, ways, house)
    if found is not None:
        return found
    open_ended = [space for space in reached(room, house, through_garage) if _may_lack_doors(space, ways)]
    return open_ended[0].absent("doors") if open_ended else None


def reached(room: Space, house: House, through_garage: bool = False) -> tuple[Space, ...]:
    """Return the rooms that one comes to from `room` over what is drawn, itself the first of them."""
    ids = _reached(room.id, _ways(house), house, through_garage)
    return (room, *(space for space in house.spaces if space.id in ids and space is not room))


def _ways(house: House) -> dict[str, list[Way]]:
    """Return for each room the steps that lead out of it, both ways through each door and stair that stays."""
    if "ways" in house.kept:
        kept: dict[str, list[Way]] = house.kept["ways"]
        return kept
    found: dict[str, list[Way]] = {}
    house.kept["ways"] = found
    for part, sides in _links(house):
        one, other = sides
        found.setdefault(one, []).append(Way(part, other))
        found.setdefault(other, []).append(Way(part, one))
    return found


def _links(house: House) -> Iterator[tuple[Part | None, tuple[str, str]]]:
    for door in house.project.doors:
        if not door.is_removed and door.operation not in NO_WAY:
            yield door, (str(door.between[0]), str(door.between[1]))
    for stair in house.project.stairs:
        if not stair.is_removed and stair.form != "pull-down":
            yield stair, (str(stair.between[0]), str(stair.between[1]))
    for space in house.spaces:
        yield from ((None, (space.id, str(other))) for other in space.open_to)


def _walk(start: str, ways: dict[str, list[Way]], house: House, through_garage: bool, required: bool) -> WayOut | None:
    """Return the shortest way to the open, ending at a door marked as required where that is `required`."""
    for steps in _paths(start, ways, house, through_garage):
        last = steps[-1]
        if _is_open(last.to, house) and isinstance(last.through, Door):
            marked = last.through.required_egress is True
            if marked or not required:
                return WayOut(start, steps, marked)
    return None


def _into_garage(start: str, ways: dict[str, list[Way]], house: House) -> WayOut | None:
    """Return the shortest way into a garage."""
    for steps in _paths(start, ways, house, through_garage=True):
        space = house.space(steps[-1].to)
        if space is not None and space.use == "garage":
            return WayOut(start, steps, by_required_door=False)
    return None


def _paths(start: str, ways: dict[str, list[Way]], house: House, through_garage: bool) -> Iterator[tuple[Way, ...]]:
    """Yield the ways from `start`, the shortest first: one to each room that is reached, and each that ends outside."""
    waiting: deque[tuple[str, tuple[Way, ...]]] = deque([(start, ())])
    seen = {start}
    while waiting:
        here, steps = waiting.popleft()
        for way in sorted(ways.get(here, ()), key=_in_order):
            ends = _is_open(way.to, house)
            if ends or (way.to not in seen and _may_pass(way.to, house, through_garage)):
                yield (*steps, way)
                if not ends:
                    seen.add(way.to)
                    waiting.append((way.to, (*steps, way)))


def _reached(start: str, ways: dict[str, list[Way]], house: House, through_garage: bool) -> set[str]:
    seen, waiting = {start}, [start]
    while waiting:
        for way in ways.get(waiting.pop(), ()):
            if way.to not in seen and not _is_open(way.to, house) and _may_pass(way.to, house, through_garage):
                seen.add(way.to)
                waiting.append(way.to)
    return seen


def _in_order(way: Way) -> tuple[str, str]:
    return (way.through.id if way.through is not None else "", way.to)


def _is_open(side: str, house: House) -> bool:
    space = house.space(side)
    return side == OUTSIDE or (space is not None and space.use in OUTDOOR)


def _may_pass(side: str, house: House, through_garage: bool) -> bool:
    space = house.space(side)
    return space is not None and not space.is_removed and (through_garage or space.use not in NOT_THROUGH)


def _may_lack_doors(space: Space, ways: dict[str, list[Way]]) -> bool:
    """Whether doors of `space` may not be drawn: it stands today and stays, and is drawn as far as the work needs it."""
    return space.is_existing or (is_missing(space.phase) and not ways.get(space.id))
