"""The plan closes: rooms fit side by side, openings stand in their walls, stories have their order.

What geometry decides (a separation, a distance, a way out) is only as good as the drawing; what does not fit is told.
"""

from __future__ import annotations

from precheck_plugins.plan.areas import SAME_AREA, StatedArea
from precheck_plugins.plan.levels import FloorGivenTwice, SillGivenTwice
from precheck_plugins.plan.openings import in_its_way, too_tall
from precheck_plugins.plan.sketch import StoryInWork

from precheck import (
    Check,
    Door,
    House,
    Opening,
    OpeningInPlan,
    Outcome,
    PartOffPlan,
    Project,
    RoomPair,
    Space,
    agrees,
    all_of,
    broken,
    does_not_apply,
    every,
    is_missing,
    met,
    missing_of,
    not_shown,
    rule,
)


@rule("plan.rooms-fit", stage="intake", existing="must comply")
def rooms_fit(pair: RoomPair) -> Check:
    """Two rooms of a story do not cover the same floor, and what is said to stand detached is drawn apart from the house."""
    if pair.joined:
        alone = pair.one if pair.one.detached is True else pair.other
        other = pair.other if alone is pair.one else pair.one
        told = f"{alone.id} is said to stand detached, and is drawn wall to wall with {other.id}"
        return broken(told).or_fix("correct `detached` of either, or their place on the plan")
    if pair.overlap is None:
        return does_not_apply("they do not overlap")
    told = f"{pair.one.id} and {pair.other.id} overlap by {pair.overlap} on the plan"
    return broken(told).or_fix("move one of them, or put it on its own story")


@rule("plan.areas-agree", stage="intake", existing="must comply")
def areas_agree(area: StatedArea) -> Check:
    """An area that is stated of the house or lot is no less than what is drawn of it, to within two percent."""
    if area.stated >= area.least * SAME_AREA:
        return met(f"{area.what}: {area.stated} stated, {area.least} drawn")
    drawn = f"the {area.rooms} rooms drawn together" if area.rooms > 1 else "the room drawn"
    return agrees(area.stated, area.least, f"the {area.what}", derived=drawn)


@rule("plan.rooms-meet", stage="intake", existing="must comply")
def rooms_meet(pair: RoomPair) -> Check:
    """Two rooms that face each other stand a wall apart, or the plan shows what is between them."""
    if pair.gap is None:
        return does_not_apply("nothing lies between them")
    between = f"what lies between {pair.one.id} and {pair.other.id}, drawn {pair.gap} apart"
    return not_shown(pair.one.absent(between)).because(
        "close the gap on the plan, or draw the room or yard between them"
    )


@rule("plan.opening-place", stage="intake", existing="must comply")
def opening_place(opening: OpeningInPlan, house: House) -> Check:
    """A door or window placed on the plan lies in a wall of its room, ends where that wall ends, and has it to itself.

    Where it is placed by its middle and by its distance from a corner, both are the same place. A door lies between the
    two rooms that it joins, and what leads outside has no room on its other side.
    """
    if opening.off_stated is not None:
        told = f"its `middle` is {opening.off_stated} from where `on` puts it"
        return broken(told).or_fix("correct the one that is wrong, or take it out")
    if opening.off_wall is not None:
        told = f"it is drawn {opening.off_wall} from the nearest wall of its room"
        return broken(told).or_fix("set its middle on the wall it is in")
    if opening.past_end is not None:
        told = f"it reaches {opening.past_end} past the end of its wall"
        return broken(told).or_fix(
            f"move it {opening.past_end} back from the corner, or make it narrower", decide="how the plan changes"
        )
    if opening.other is not None:
        return broken(_told_of(opening.opening, opening.other)).or_fix(
            "set its middle in the right wall, or name the right room"
        )
    return _has_room(opening.opening, house)


def _has_room(opening: Opening, house: House) -> Check:
    """Return whether an opening fits under the ceiling, and beside the other openings of its wall."""
    if tall := too_tall(opening, house):
        head, room, ceiling = tall
        told = f"it reaches {head} above the floor, and the ceiling of {room.id} is {ceiling} high"
        return broken(told).or_fix("make the sheets agree: correct its sill height or size, or the ceiling height")
    if other := in_its_way(opening, house):
        return broken(f"{other.label} takes up the same piece of its wall").or_fix(
            "move one of the two, or make it narrower"
        )
    return met("it lies in a wall of its room")


def _told_of(opening: Opening, other: Space) -> str:
    """Return which of its rooms an opening is not drawn at, or which one lies where it is said to lead outside."""
    if isinstance(opening, Door) and other.id in opening.between:
        return f"it is said to join {' and '.join(opening.between)}, and is drawn in no wall of {other.id}"
    return f"it is said to lead outside, and {other.id} is drawn on its other side"


@rule("plan.part-place", stage="intake", existing="must comply")
def part_place(drawn: PartOffPlan) -> Check:
    """A wall, stair, fixture, outlet or alarm placed on the plan is drawn in or at the room that it belongs to."""
    told = f"it is drawn {drawn.away} from {drawn.room.id}, the nearest of its rooms"
    return broken(told).or_fix("correct its place on the plan, or name the room that it is in")


@rule("plan.floor-levels-agree", stage="intake", existing="must comply")
def floor_levels_agree(given: FloorGivenTwice, house: House) -> Check:
    """The finished level of a floor is what its base and the layers on it come to."""
    floor, built_up = given.floor, house.built_up_level(given.floor)
    same = agrees(floor.finished_level, built_up, "the finished level", derived="its base and the layers on it")
    return same if floor.layers or same.outcome is Outcome.PASS else not_shown(floor.absent("layers"))


@rule("plan.sill-heights-agree", stage="intake", existing="must comply")
def sill_heights_agree(given: SillGivenTwice) -> Check:
    """The height of a sill above the floor is what its level and that of the finished floor come to."""
    derived = "its level above the finished floor"
    return agrees(given.window.sill_height, given.by_levels, "the sill height", derived=derived)


@rule("plan.story-drawn", stage="intake", existing="must comply")
def story_drawn(drawn: StoryInWork) -> Check:
    """A story of which only some is drawn is drawn completely: its rooms, doors and windows, and what it says is to draw.

    Till then no check takes what is not drawn yet for none.
    """
    return not_shown(*(drawn.story.absent(f"the {kind}") for kind in drawn.story.not_drawn))


def _in_order(project: Project) -> list[Check]:
    """Return that the stories are in order, and of which of them only one of level and elevation tells it."""
    once = [story for story in project.stories if is_missing(story.level) or is_missing(story.elevation)]
    unsaid = [f"{'level' if is_missing(story.level) else 'elevation'} of {story.label}: not stated" for story in once]
    return [met("the stories are in order"), *map(does_not_apply, unsaid)] if project.stories else []


@rule("plan.stories", stage="intake", existing="must comply")
def stories(project: Project, house: House) -> Check:
    """The stories have an order: levels or elevations tell which is over which, and do not contradict each other.

    Where there are several, each room that the work touches says which it is on.
    """
    order = house.story_order
    opposed = [
        broken(f"story {upper.id} is {upper.level} and lies no higher than {lower.id}, which is {lower.level}").or_fix(
            "correct the level or the elevation of one of them"
        )
        for lower, upper in order.contradictions
    ]
    unplaced = [not_shown(story.absent("level")) for story in order.unplaced]
    tied = [not_shown(story.absent("elevation")) for group in order.tied for story in group]
    several = len([story for story in project.stories if not story.is_removed]) > 1
    unsaid = missing_of(*(room.story for room in house.spaces if several and not room.is_existing))
    told = [*opposed, *unplaced, *tied, *([not_shown(unsaid)] if unsaid is not None else [])]
    return all_of(*told) if told else every(_in_order(project), "no stories are named")
