"""Ceilings that are given twice: their height and what they are built of, a slope and the room that it spans."""

from __future__ import annotations

from precheck import Ceiling, Check, House, Length, Space, agrees, all_of, broken, does_not_apply, is_missing, met, rule

SAME_HEIGHT = Length.parse("1/4 in")  # two sheets that give a height this close to each other agree
SAME_SPAN = Length.parse("6 in")  # a profile may run to the framing or to the finish of the walls
FOUR = 4  # corners of a room that is as wide everywhere


@rule("ceilings.heights-agree", stage="intake", existing="must comply")
def heights_agree(space: Space, house: House) -> Check:
    """The ceiling height drawn agrees with the floor build-up and the framing level, and a profile with the room it spans."""
    ceiling = space.ceiling
    if is_missing(ceiling):
        return does_not_apply("no ceiling is drawn")
    same = agrees(
        ceiling.height, house.built_up_ceiling(space), f"the ceiling height of {space.id}", SAME_HEIGHT, "built up"
    )
    return all_of(same, _spans(space, ceiling, house))


def _spans(space: Space, ceiling: Ceiling, house: House) -> Check:
    """Return whether the profile of a sloped ceiling is as long as its room is across, one way or the other."""
    outline = house.outline(space)
    if not ceiling.profile or outline is None:
        return does_not_apply("profile of the ceiling: it and the room are not both drawn")
    places = [point.across for point in ceiling.profile]
    across = max(places) - min(places)
    sides = sorted(Length(max(ends) - min(ends)) for ends in zip(*outline, strict=True))
    fits = any(abs(across - side) <= SAME_SPAN for side in sides) or (len(outline) > FOUR and across <= sides[1])
    if fits:
        return met(f"the profile runs {across} across the room")
    told = f"the profile runs {across} across {space.id}, which is drawn {sides[0]} by {sides[1]}"
    return broken(told).or_fix("make the sheets agree: run the profile from wall to wall of the room")
