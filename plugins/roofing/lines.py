"""What works take of roofing: the covering and underlayment of each new roof."""

from __future__ import annotations

from precheck import (
    Check,
    House,
    Missing,
    Space,
    Truss,
    Work,
    does_not_apply,
    is_missing,
    line,
    not_shown,
    rooms_of,
    shown,
    stated_of,
    to_show,
)

ROOFED = ("addition", "upper addition", "garage", "carport", "porch", "detached building", "new house", "roof changed")


@line("roofing.covering", stage="framing")
def covering(work: Work, house: House) -> Check:
    """The plans show the covering and underlayment of each new roof."""
    roofs = [roof for roof in house.project.roofs if not roof.is_existing and not roof.is_removed]
    whose = [(roof, stated_of(roof, work, house, ROOFED)) for roof in roofs]
    if own := [roof for roof, is_own in whose if is_own is True]:
        return shown(*own)
    if (spared := _spared(work, house)) is not None:
        return spared
    unknown = [is_own for _, is_own in whose if is_missing(is_own)]
    return not_shown(*unknown) if unknown else to_show("roof covering and underlayment", work)


def _spared(work: Work, house: House) -> Check | None:
    """Return why `work` has no roof to cover, or what decides that."""
    if work.kind == "roof changed" and work.parts and all(isinstance(part, Truss) for part in work.parts):
        return does_not_apply("its trusses alone are changed")
    rooms = rooms_of(work)
    if rooms and all(_has_room_above(room, house) for room in rooms):
        return does_not_apply("rooms stand over it")
    return _open_porch(work)


def _has_room_above(room: Space, house: House) -> bool:
    return any(above.use != "attic" for above in house.above(room))


def _open_porch(work: Work) -> Check | None:
    roofed: bool | Missing = next((space.roofed for space in work.parts_of(Space)), True)
    if work.kind != "porch" or roofed is True:
        return None
    return not_shown(roofed) if is_missing(roofed) else does_not_apply("it has no roof")
