"""The smallest act that puts a receptacle in reach all along a stretch of wall: move one, or add what is lacking."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor
from typing import NamedTuple

from precheck_plugins.electrical.walls import WallSpace

from precheck import Exact, Length

INCH = Length.parse("1 in")
ZERO = Length(0)


def remedy(stretch: WallSpace, reach: Length) -> str:
    """Return what to do about a `stretch` of which some point is farther than `reach` from a receptacle."""
    moved = move_in(stretch, reach)
    return moved.text if moved is not None else _added(stretch, reach)


class Move(NamedTuple):
    """One receptacle that is moved along the wall: how far, which one, and to where along the walls of the room."""

    by: Length
    text: str
    name: str
    to: Exact


def move_in(stretch: WallSpace, reach: Length) -> Move | None:
    """Return the smallest move of one receptacle that serves the whole stretch; None where none does."""
    return min(_moves(stretch, reach), key=lambda move: move.by, default=None)


def _moves(stretch: WallSpace, reach: Length) -> Iterator[Move]:
    """Yield each move of one new receptacle that serves the whole stretch."""
    if len(stretch.names) != len(stretch.receptacles):
        return  # all around a room nothing tells the ends
    for index, (place, name) in enumerate(zip(stretch.receptacles, stretch.names, strict=True)):
        target = _target(stretch, index, reach) if name else None
        if target is not None and target != place:
            mark = stretch.after.removeprefix("next to ")
            by = abs(target - place)
            told = f"move receptacle {name} {by} {'toward' if target < place else 'away from'} {mark}"
            yield Move(by, told, name, stretch.start + target.n)


def _target(stretch: WallSpace, index: int, reach: Length) -> Length | None:
    """Return the nearest place, in whole inches if any, to which the receptacle goes so that all is in reach."""
    places, last = stretch.receptacles, len(stretch.receptacles) - 1
    low = stretch.length - reach if index == last else places[index + 1] - reach * 2
    high = reach if index == 0 else places[index - 1] + reach * 2
    low, high = max(low, ZERO), min(high, stretch.length)
    if low > high:
        return None
    own = places[index]
    whole = INCH * (ceil(low / INCH) if own < low else floor(high / INCH))
    exact = low if own < low else high
    target = own if low <= own <= high else whole if low <= whole <= high else exact
    moved = tuple(sorted((*places[:index], target, *places[index + 1 :])))
    return target if stretch._replace(receptacles=moved).farthest <= reach else None


def _added(stretch: WallSpace, reach: Length) -> str:
    """Return how many receptacles to add, and places for them along the wall."""
    exact = sorted(_lacking(stretch, reach))
    whole = [INCH * round(place / INCH) for place in exact]
    served = stretch._replace(receptacles=tuple(sorted((*stretch.receptacles, *whole)))).farthest <= reach
    told = ", ".join(map(str, whole if served else exact))
    count = "a receptacle" if len(exact) == 1 else f"{len(exact)} receptacles"
    return f"add {count} along the {stretch.length} of wall {stretch.after}, for example at {told} from its left end"


def _lacking(stretch: WallSpace, reach: Length) -> Iterator[Length]:
    """Yield places for the fewest receptacles that fill the gaps: between two, and at each end."""
    places = stretch.receptacles
    if not places:
        count = max(1, ceil(stretch.length / (reach * 2)))
        yield from (stretch.length * Fraction(2 * i + 1, 2 * count) for i in range(count))
        return
    for start, end in pairwise(places):
        count = max(0, ceil((end - start) / (reach * 2)) - 1)
        yield from (start + (end - start) * Fraction(i + 1, count + 1) for i in range(count))
    yield from _to_the_end(places[0], reach)
    yield from (stretch.length - place for place in _to_the_end(stretch.length - places[-1], reach))


def _to_the_end(gap: Length, reach: Length) -> Iterator[Length]:
    """Yield places, from the end of the wall, that fill a `gap` between it and the nearest receptacle."""
    count = max(0, ceil((gap - reach) / (reach * 2)))
    yield from (gap * Fraction(2 * i + 1, 2 * count + 1) for i in range(count))
