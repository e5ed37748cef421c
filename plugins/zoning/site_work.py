"""What of the work zoning sees: space whose place on the lot the work decides."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Fact, House, Space, Work, fact, is_missing

OPEN_BEFORE = frozenset(("carport", "porch", "deck"))
ON_THE_LOT = frozenset(
    ("new house", "addition", "garage", "carport", "porch", "deck", "detached building", "carport to room", "porch to room")
)  # fmt: skip


@fact
class SiteWork(Fact):
    """A space whose place on the lot the work decides: new, or enclosed where it stood open before."""

    space: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[SiteWork]:
        """Yield every space at the ground that the work puts where none stood, or only an open one.

        The works tell which: a room parted off from others is none, and an addition is one by whatever it is shown.
        """
        works = (work for work in house.subjects(Work) if work.kind in ON_THE_LOT)
        put = {space.id for work in works for space in work.parts_of(Space)}
        for space in house.spaces:
            changed_open = space.phase == "altered" and (space.use in OPEN_BEFORE or opened(space))
            if (space.id in put or changed_open) and house.story_level(space) not in ("upper", "attic"):
                yield cls(space, space)


def opened(space: Space) -> bool:
    """Return whether the space was open to the outside before the work."""
    return not is_missing(space.was) and space.was in OPEN_BEFORE


def stands_anew(space: Space) -> bool:
    """Return whether the work puts `space` where no enclosed space stood before."""
    was_inside = not is_missing(space.was) and not opened(space)
    altered_open = space.phase == "altered" and (space.use in OPEN_BEFORE or opened(space))
    return (space.phase == "new" and not was_inside) or altered_open
