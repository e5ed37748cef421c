"""What works take of the outside skin: cladding and weather barrier of new walls, and basement walls kept dry."""

from __future__ import annotations

from precheck import (
    Check,
    Footing,
    House,
    Part,
    Space,
    Work,
    does_not_apply,
    is_missing,
    line,
    not_shown,
    outside_walls,
    rooms_of,
    shown,
    stated_of,
    to_show,
)

WALLED = ("addition", "upper addition", "garage", "detached building", "new house", "carport to room", "porch to room",
          "overhead door closed")  # fmt: skip
DUG = ("addition", "new house")


@line("cladding.outside", stage="framing")
def outside(work: Work, house: House) -> Check:
    """The plans show the cladding of new outside walls and the weather barrier behind it."""
    new = [wall for wall in outside_walls(work, house) if not wall.is_existing]
    if new and all(wall.is_framed is False for wall in new):
        return does_not_apply("its walls are masonry or concrete")
    skins = (*house.project.claddings, *house.project.veneers)
    return _shown_of(skins, work, house, WALLED, "cladding and weather barrier of the new outside walls")


@line("cladding.basement-walls", stage="foundation")
def basement_walls(work: Work, house: House) -> Check:
    """The walls of a new basement are dampproofed and have a foundation drain."""
    rooms = rooms_of(work)
    if work.parts and not any(house.story_level(room) == "basement" for room in rooms) and not _dug(work, house):
        return does_not_apply("no basement is built")
    if not work.parts:
        return does_not_apply("no basement is said to be built")
    return _shown_of(
        house.project.earth_walls, work, house, DUG, "dampproofing and foundation drain of the new basement"
    )


def _dug(work: Work, house: House) -> bool:
    named = {
        wall.footing for wall in outside_walls(work, house) if not wall.is_existing and not is_missing(wall.footing)
    }
    below = [house.project.by_id.get(name) for name in named]
    return any(isinstance(part, Footing) and part.lowest_floor == "basement" for part in below)


def _shown_of(parts: tuple[Part, ...], work: Work, house: House, kinds: tuple[str, ...], what: str) -> Check:
    """Return the check that one of the new `parts` is of `work`; what decides that where it cannot be told."""
    new = [part for part in parts if not part.is_existing and not part.is_removed]
    whose = [(part, stated_of(part, work, house, kinds)) for part in new]
    if own := [part for part, is_own in whose if is_own is True]:
        lacking = _without(own, work)
        return not_shown(*(space.absent(what) for space in lacking)) if lacking else shown(*own)
    unknown = [is_own for _, is_own in whose if is_missing(is_own)]
    return not_shown(*unknown) if unknown else to_show(what, work)


def _without(own: list[Part], work: Work) -> list[Space]:
    """Return the spaces of `work` that no part of its own names, where each of those names some."""
    named = [getattr(part, "spaces", ()) for part in own]
    if not all(named):
        return []
    return [space for space in rooms_of(work) if not any(space.id in spaces for spaces in named)]
