"""What the rules for guards are about: each open side, with its drop and the guard along it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Fact,
    Guard,
    House,
    Length,
    Missing,
    Ramp,
    Space,
    Stair,
    climb_of,
    fact,
    first_given,
    is_missing,
    is_outdoors,
    largest,
    rise_of,
    rooms_newly_served,
    when_given,
)

OPEN_BY_NATURE = frozenset(("porch", "deck"))


@fact
class OpenSide(Fact):
    """One open side of a floor, stair or ramp. `open` says whether it is one; `drop` is the fall to what lies below.

    `serves` are rooms made on a story where nobody lived: the stair to it is judged with them, though it stands.
    """

    guard: Guard | None
    on_stair: bool
    open: bool | Missing
    drop: Length | Missing
    measured_out: Length | Missing
    drop_derived: str
    serves: tuple[Space, ...] = ()

    @classmethod
    def found_in(cls, house: House) -> Iterator[OpenSide]:
        """Yield every guard as drawn, and every side without one that is or may be open."""
        guards = [guard for guard in house.subjects(Guard) if not guard.is_removed]
        yield from (_guarded(guard, house) for guard in guards)
        bare = {guard.along for guard in guards}
        for part in (*house.subjects(Space), *house.subjects(Stair), *house.subjects(Ramp)):
            if part.id not in bare and not part.is_removed:
                yield from _bare(part, house)

    @property
    def has_guard(self) -> bool:
        """Whether something is drawn that keeps people from falling; an insect screen does not."""
        return self.guard is not None and not self.guard.none and self.guard.what != "insect screen"

    @property
    def is_solid(self) -> bool:
        """Whether a wall stands along the side."""
        return self.guard is not None and self.guard.what == "wall"

    def is_high(self, most: Length | Missing | None) -> bool | Missing:
        """Whether the drop is more than `most`, so that the guard is a required one."""
        if most is None or self.open is False:
            return False
        return when_given(lambda drop, limit: drop > limit, self.drop, most)

    def of_guard(self, field: str) -> Any:
        """Return `field` of the guard."""
        return getattr(self.guard, field)


def _guarded(guard: Guard, house: House) -> OpenSide:
    part = house.project.by_id[guard.along]
    drop, how = drop_of(part, house)
    stated = "as stated" if not is_missing(guard.drop) else how
    out = first_given(guard.drop_measured_out, getattr(part, "drop_measured_out", guard.drop_measured_out))
    on_stair = isinstance(part, Stair) and guard.level is not True
    return OpenSide(guard, guard, on_stair, True, first_given(guard.drop, drop), out, stated)


def _bare(part: Any, house: House) -> Iterator[OpenSide]:
    drop, how = drop_of(part, house)
    if isinstance(part, Space):
        if part.open_edge is not False and (part.use in OPEN_BY_NATURE or part.open_edge is True or _given(drop)):
            yield OpenSide(part, None, False, True, drop, part.drop_measured_out, how)
        elif part.open_edge is not False:
            yield from (
                _stairwell(part, stair, house) for stair in house.subjects(Stair) if _comes_up(stair, part, house)
            )
        return
    if isinstance(part, Stair):
        if part.form != "pull-down":
            yield from (_flight(index, part, drop, how, house) for index in range(len(part.flights)))
        return
    open_ = when_given(lambda sides: sides > 0, part.open_sides)
    yield OpenSide(part, None, False, open_, drop, drop, how)


def _comes_up(stair: Stair, space: Space, house: House) -> bool:
    """Whether new work brings `stair` up through the floor of `space`, which is open there unless walls enclose it."""
    foot, top = house.ends(stair)
    inside = not is_outdoors(foot, house) and stair.form != "pull-down"
    return inside and stair.phase in ("new", "altered") and top == space.id


def _stairwell(space: Space, stair: Stair, house: House) -> OpenSide:
    climb, how = drop_of(stair, house)
    return OpenSide(space, None, False, space.open_edge, climb, climb, how)


def _flight(index: int, stair: Stair, climb: Length | Missing, how: str, house: House) -> OpenSide:
    """A flight falls off to the foot of the stair: by the whole climb at the top flight, by less lower down."""
    flight = stair.flights[index]
    so_far = [rise_of(lower, house) for lower in stair.flights[: index + 1]]
    top = index + 1 == len(stair.flights)
    drop = climb if top else when_given(lambda *rises: sum(rises[1:], start=rises[0]), *so_far)
    open_ = when_given(lambda sides: sides > 0, first_given(flight.open_sides, stair.open_sides))
    about = stair if top and index == 0 else flight
    known = stair.absent("open sides") if is_missing(open_) else open_
    return OpenSide(about, None, True, known, drop, drop, how, rooms_newly_served(stair, house))


def drop_of(part: Any, house: House) -> tuple[Length | Missing, str]:
    """Return the fall from `part` to the floor or grade below, and how it was come by."""
    if isinstance(part, Stair):
        return climb_of(part, house), f"from the top of {part.label} to its foot"
    if isinstance(part, Ramp):
        return part.rise, f"the rise of {part.label}"
    return (part.drop_at_edge if isinstance(part, Space) else part.absent("drop")), f"at the edge of {part.label}"


def drawn_fall(part: Any, house: House) -> tuple[Length | Missing, str]:
    """Return the fall from `part` as its own record, its stairs and the floors drawn give it, and how it was come by.

    A floor falls off to the foot of a stair that comes up through it, and to a lower floor that it is open to. A stair of
    several flights is not held to one drop.
    """
    if isinstance(part, Stair):
        several = len(part.flights) > 1
        return (part.absent("drop") if several else climb_of(part, house)), f"from the top of {part.label} to its foot"
    if not isinstance(part, Space):
        return drop_of(part, house)
    if not is_missing(part.drop_at_edge):
        return part.drop_at_edge, f"at the edge of {part.label}"
    coming_up = [
        s for s in house.subjects(Stair) if house.ends(s)[1] == part.id and s.form != "pull-down" and not s.is_removed
    ]
    inside = [climb_of(stair, house) for stair in coming_up if not is_outdoors(house.ends(stair)[0], house)]
    below = [house.finished_floor(part) - house.finished_floor(other) for other in _open_to(part, house)]
    return largest(part.drop_at_edge, *inside, *below), "to the lowest floor below, as drawn"


def _open_to(space: Space, house: House) -> list[Space]:
    return [other for other in house.spaces if other.id in space.open_to or space.id in other.open_to]


def _given(value: Length | Missing) -> bool:
    return not is_missing(value)
