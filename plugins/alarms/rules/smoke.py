"""Smoke alarms: what makes them due in the whole house, and in which places."""

from __future__ import annotations

from precheck_plugins.alarms.places import (
    AlarmPlace,
    AlarmRoom,
    Bedroom,
    OpenToHall,
    SleepingLoft,
    alarms_in,
    alarms_of,
    choices,
    enough,
    if_due_in,
)
from precheck_plugins.alarms.stories import LivedInStory

from precheck import (
    Alarm,
    Check,
    DwellingUnit,
    House,
    Length,
    Limit,
    Limits,
    Outcome,
    Space,
    all_of,
    any_of,
    at_least,
    at_most,
    does_not_apply,
    is_missing,
    met,
    missing_of,
    not_shown,
    reads,
    rule,
)

SMOKE = "smoke"


class DueLimits(Limits):
    exempt_work: Limit[tuple[str, ...]]
    added_bedroom: Limit[bool]


@rule("alarms.smoke-due", stage="intake", existing="must comply")
def smoke_due(unit: DwellingUnit, limit: DueLimits) -> Check:
    """Work inside an existing dwelling makes the smoke alarms of a new one due in the whole of it; the plan shows them.

    Work on exterior surfaces, plumbing and mechanical systems does not, nor does work in another dwelling unit.
    """
    return if_due_in(unit, exempt(limit), shown(unit, SMOKE))


def exempt(limit: DueLimits) -> tuple[str, ...]:
    """Return the kinds of work that make no smoke alarms due elsewhere."""
    kinds = choices(limit.exempt_work)
    return kinds if limit.added_bedroom.value is not None else (*kinds, "added bedroom")


def shown(unit: DwellingUnit, what: str) -> Check:
    """Check that the project shows alarms in `unit` that detect `what`."""
    alarms = [a for a in alarms_of(unit.house) if is_missing(a.detects) or what in a.detects]
    found = [missing_of(here, a.detects) for a in alarms if (here := unit.holds(a)) is not False]
    if None in found:
        return met(f"{what} alarms are shown")
    unsure = missing_of(*found)
    return not_shown(unit.lacks(f"{what} alarms") if unsure is None else unsure)


class InRoomLimits(Limits):
    minimum: Limit[int]
    places: Limit[tuple[str, ...]]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-in-bedroom", stage="rough-in", existing="must comply")
def smoke_in_bedroom(need: Bedroom, limit: InRoomLimits) -> Check:
    """Each bedroom has a smoke alarm of its own."""
    alarms = alarms_in(need.house, (need.room,))
    if "just outside" in choices(limit.places):
        alarms = [*alarms, *need.alarms_outside]
    check = enough(need.house, alarms, SMOKE, limit.minimum, f"add a smoke alarm in {need.room.id}")
    return _if_due(need, limit, check)


class OutsideLimits(Limits):
    minimum: Limit[int]
    within: Limit[Length]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-outside-bedroom", stage="rough-in", existing="must comply")
def smoke_outside_bedroom(need: Bedroom, limit: OutsideLimits) -> Check:
    """Just outside each sleeping area there is a smoke alarm; bedrooms on one hall are one area."""
    return _if_due(need, limit, outside(need, SMOKE, limit.minimum, limit.within))


def outside(need: Bedroom, what: str, fewest: Limit[int], within: Limit[Length]) -> Check:
    """Check that an alarm that detects `what` hangs just outside the door of a bedroom, near enough."""
    alarms = need.alarms_outside
    if not alarms and not need.outside and alarms_of(need.house):
        return not_shown(need.room.absent("door (which tells what is outside the room)"))
    where = " or ".join(s.id for s in need.outside) or f"the hall outside {need.room.id}"
    there = enough(need.house, alarms, what, fewest, f"add a {what} alarm in {where}")
    near = [at_most_from(a, within) for a in alarms if is_missing(a.detects) or what in a.detects]
    return all_of(there, any_of(*near)) if near and within.value is not None else there


def at_most_from(alarm: Alarm, within: Limit[Length]) -> Check:
    """Check that an alarm hangs within the distance of the bedroom that a jurisdiction sets."""
    return at_most(alarm.distance_to_bedroom, within)


class StoryLimits(Limits):
    minimum: Limit[int]
    split_level: Limit[str]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-on-each-story", stage="rough-in", existing="must comply")
def smoke_on_each_story(need: LivedInStory, limit: StoryLimits) -> Check:
    """Each story has a smoke alarm, basements and habitable attics too; so has each dwelling unit on each of its stories.

    On split levels without a door between them, the alarm of the upper level serves a lower one less than a full story
    below it. Crawl spaces and attics that nobody lives in need none.
    """
    return _if_due(need, limit, _on_story(need, limit))


def _on_story(need: LivedInStory, limit: StoryLimits) -> Check:
    story = need.story
    if story is None:
        return not_shown(need.house.project.absent("stories"))
    own = alarms_in(need.house, need.spaces)
    if limit.split_level.value is not None and not is_missing(story.less_than_a_story_below):
        upper = need.among([s for s in need.house.spaces if s.story == story.less_than_a_story_below])
        if is_missing(story.door_between) and not own:
            return not_shown(story.door_between)
        own = [*own, *alarms_in(need.house, upper)] if story.door_between is False else own
    check = enough(need.house, own, SMOKE, limit.minimum, f"add a smoke alarm on {need.label}")
    return need.if_known(check)


class HighCeilingLimits(Limits):
    difference: Limit[Length]
    minimum: Limit[int]
    lowest: Limit[Length] = reads("ceilings.height.habitable")
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-by-high-ceiling", stage="rough-in", existing="must comply")
def smoke_by_high_ceiling(need: OpenToHall, limit: HighCeilingLimits) -> Check:
    """Where a room open to the hall of bedrooms is much higher than it, both have a smoke alarm."""
    both = all_of(*(_in(need.house, space, limit.minimum) for space in (need.hall, need.room)))
    higher = need.house.ceiling_height(need.room) - need.house.ceiling_height(need.hall)
    if not isinstance(limit.difference.value, Length):
        return at_least(higher, limit.difference)
    if is_missing(higher) and _cannot_be_higher(need, limit):
        return does_not_apply(f"the ceiling of {need.room.id} is too low to be so much higher than that of a hall")
    if is_missing(higher):
        return _if_due(need, limit, both if both.outcome is Outcome.PASS else not_shown(higher))
    if higher < limit.difference.value:
        return does_not_apply(
            f"its ceiling is {higher} higher than that of {need.hall.id}, less than {limit.difference.value}"
        )
    due = f"its ceiling is {higher} higher than that of {need.hall.id}"
    return _if_due(need, limit, both, due)


def _cannot_be_higher(need: OpenToHall, limit: HighCeilingLimits) -> bool:
    """Return whether the room would not be so much higher than a hall as low as a room may be."""
    own, lowest = need.house.ceiling_height(need.room), limit.lowest.value
    known = isinstance(own, Length) and isinstance(lowest, Length) and isinstance(limit.difference.value, Length)
    return known and bool(own - lowest < limit.difference.value)


def _in(house: House, space: Space, fewest: Limit[int]) -> Check:
    return enough(house, alarms_in(house, (space,)), SMOKE, fewest, f"add a smoke alarm in {space.id}")


class LoftLimits(Limits):
    minimum: Limit[int]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-by-sleeping-loft", stage="rough-in", existing="must comply")
def smoke_by_sleeping_loft(need: SleepingLoft, limit: LoftLimits) -> Check:
    """The room that a sleeping loft is open to has a smoke alarm near the loft."""
    if limit.minimum.value is None:
        return does_not_apply(limit.minimum.why_void or "this edition does not ask for it")
    if not need.rooms:
        return not_shown(need.loft.absent("open to (the room below the loft)"))
    alarms = alarms_in(need.house, need.rooms)
    where = " or ".join(room.id for room in need.rooms)
    return _if_due(
        need, limit, enough(need.house, alarms, SMOKE, limit.minimum, f"add a smoke alarm in {where}, near the loft")
    )


class OtherRoomLimits(Limits):
    uses: Limit[tuple[str, ...]]
    minimum: Limit[int]
    exempt_work: Limit[tuple[str, ...]] = reads("alarms.smoke-due.exempt-work")
    added_bedroom: Limit[bool] = reads("alarms.smoke-due.added-bedroom")


@rule("alarms.smoke-in-other-room", stage="rough-in", existing="must comply")
def smoke_in_other_room(need: AlarmRoom, limit: OtherRoomLimits) -> Check:
    """A room of a use that the jurisdiction names has a smoke alarm, such as a furnace room; the model code names none."""
    room = need.room
    if is_missing(room.use) or room.use not in choices(limit.uses):
        return does_not_apply(limit.uses.why_void or "the adopted code names no such room")
    check = enough(need.house, alarms_in(need.house, (room,)), SMOKE, limit.minimum, f"add a smoke alarm in {room.id}")
    return _if_due(need, limit, check)


def _if_due(need: AlarmPlace, limit: Limits, check: Check, more: str = "") -> Check:
    kinds = exempt(limit)  # type: ignore[arg-type]  # every such class has the two limits that it reads
    return need.in_unit(lambda unit: if_due_in(unit, kinds, check, more))
