"""What a stair serves: rooms that are made on a story where nobody lived yet, or nothing that the code holds stairs to."""

from __future__ import annotations

from precheck.files.missing import is_missing
from precheck.project import OUTSIDE, Space, Stair
from precheck.project.space import HABITABLE
from precheck.survey.fact import Exemption
from precheck.survey.house import House


def rooms_newly_served(stair: Stair, house: House) -> tuple[Space, ...]:
    """Return the habitable rooms that are made on the story to which `stair` leads, where nobody lived there before.

    A stair leads down to a basement, and up to any other story.
    """
    made = [space for space in house.spaces if is_made(space)]
    return tuple(room for room in made if leads_to(stair, room, house) and not was_lived_on(room, house))


def stair_exemption(stair: Stair, house: House) -> Exemption | None:
    """Return what may free `stair` of the rules for stairs: where it leads, or that it stands too tight to be rebuilt."""
    lower, upper = (house.space(side) for side in house.ends(stair))
    if stair.no_room_for_lower_pitch is True and stair.phase in ("existing", "altered"):
        return Exemption("stairs.exempt.no-lower-pitch", f"{stair.id} stands where no lower pitch fits")
    if upper is not None and upper.use == "attic" and not upper.is_habitable:
        return Exemption(
            "stairways.attic-storage.exempt", f"{stair.id} leads only to {upper.id}, in which nobody lives"
        )
    crawl = next((end for end in (lower, upper) if end is not None and end.use == "crawl space"), None)
    if crawl is not None:
        return Exemption("stairs.exempt.crawl-space", f"{stair.id} leads to {crawl.id}")
    if set(stair.between) == {OUTSIDE}:
        return Exemption("stairs.exempt.apart", f"{stair.id} stands apart from any building, porch or deck")
    return None


def is_made(space: Space) -> bool:
    """Return whether a habitable room is made: built new, or of a space in which nobody lived."""
    if not space.is_habitable or space.is_existing:
        return False
    return space.phase == "new" if is_missing(space.was) else space.was not in HABITABLE


def leads_to(stair: Stair, room: Space, house: House) -> bool:
    """Return whether `stair` is a way to `room` or to its story: down to a basement, up to any other."""
    lower, upper = (house.space(side) for side in house.ends(stair))
    level = house.story_level(room)
    if level == "basement":
        return _is_on(lower, room) and not _is_on(upper, room, by_story=True)
    from_basement = lower is not None and house.story_level(lower) == "basement"
    at_grade = level == "ground" or (is_missing(level) and from_basement)
    return not at_grade and _is_on(upper, room) and not _is_on(lower, room, by_story=True)


def was_lived_on(room: Space, house: House) -> bool:
    """Return whether a habitable room stood on the story of `room` before the work."""
    if is_missing(room.story):
        return False
    return any(
        space is not room and space.story == room.story and _was_habitable(space) for space in house.project.spaces
    )


def _is_on(end: Space | None, room: Space, by_story: bool = False) -> bool:
    if end is None:
        return False
    same_story = not is_missing(room.story) and end.story == room.story
    return same_story if by_story else end is room or same_story


def _was_habitable(space: Space) -> bool:
    before = space.use if is_missing(space.was) else space.was
    return space.phase in ("existing", "altered", "removed") and before in HABITABLE
