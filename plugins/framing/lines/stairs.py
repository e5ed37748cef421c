"""The openings that a new stair takes through the floor over it, and a pull-down ladder through the ceiling."""

from __future__ import annotations

from precheck import Check, House, Missing, Stair, Work, does_not_apply, is_missing, line, missing_of, shown, to_show

THROUGH = ("floor", "ceiling")


@line("framing.stair-opening")
def stair_opening(work: Work, house: House) -> Check:
    """A new stair up from one story to another has its opening framed: header, trimmers and the joists cut off at it.

    A stair that is altered keeps its opening, and one between floors of a single story takes none.
    """
    stairs = [part for part in work.parts if isinstance(part, Stair)]
    if not stairs:
        return to_show("framing of the opening for the stair", work)
    due = [_rises_through(stair, house) for stair in stairs if stair.phase == "new"]
    absent = missing_of(*due)
    if absent is not None:
        return to_show("", work, absent)
    if not any(one is True for one in due):
        return does_not_apply("it goes through no floor")
    framed = [
        one for one in house.project.framed_openings if one.phase in ("new", "altered") and one.through in THROUGH
    ]
    others = [s for s in house.project.stairs if s.phase == "new" and _rises_through(s, house) is True]
    if len(framed) < len(others):
        return to_show("", work, stairs[0].absent("framed opening in the floor over it"))
    return shown(*framed)


@line("framing.ladder-opening")
def ladder_opening(work: Work, house: House) -> Check:
    """The opening of a new pull-down ladder is framed: it cuts a joist, or lies between two that want headers at its ends."""
    ways = [hatch for hatch in house.project.hatches if hatch.phase == "new" and hatch.reached_by == "pull-down stair"]
    own = [hatch for hatch in ways if is_missing(hatch.to) or house.space(hatch.to) in work.parts]
    if not own:
        return does_not_apply("no new pull-down ladder is drawn")
    framed = [
        one for one in house.project.framed_openings if one.phase in ("new", "altered") and one.through in THROUGH
    ]
    return (
        shown(*framed) if len(framed) >= len(ways) else to_show("", work, own[0].absent("framed opening in the joists"))
    )


def _rises_through(stair: Stair, house: House) -> bool | Missing:
    """Return whether a stair joins two stories indoors; one that leads outside goes through no floor."""
    rooms = [space for side in stair.between if (space := house.space(side)) is not None]
    if len(rooms) < len(stair.between) or len(house.project.stories) <= 1:
        return False
    absent = missing_of(*(room.story for room in rooms))
    return absent if absent is not None else rooms[0].story != rooms[1].story
