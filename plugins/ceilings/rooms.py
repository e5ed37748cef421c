"""Rooms under low or sloped ceilings: what is judged, and which are converted."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Fact, Floor, House, Length, Missing, Space, fact, is_missing, when_given

BATHS = frozenset(("bathroom", "toilet room", "laundry"))


@fact
class RoomHeight(Fact):
    """The height of one room: its ceiling over its floor. An old ceiling over a floor that is built up is judged anew."""

    space: Space
    floor: Floor | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[RoomHeight]:
        """Yield that of every space."""
        yield from (cls(space, space, house.floor(space)) for space in house.subjects(Space))


def is_regulated(space: Space) -> bool:
    """Return whether the code sets a ceiling height for the use of `space`, or its use is not given."""
    return space.is_habitable or space.use in BATHS or space.use == "hall" or is_missing(space.use)


def is_converted(space: Space, house: House) -> bool | Missing:
    """Return whether `space` is made in an existing basement or attic, or parted off from what stood there."""
    there = space.phase in ("altered", "existing") or not is_missing(space.was)
    return when_given(lambda level: there and level in ("basement", "attic"), house.story_level(space))


def lowest_point(space: Space) -> Length | Missing:
    """Return the lowest height of the profile of the ceiling."""
    ceiling = space.ceiling
    points = () if is_missing(ceiling) else ceiling.profile
    return min(point.height for point in points) if points else space.absent("ceiling profile")
