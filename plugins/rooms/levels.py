"""Stories that a stair or ramp must serve, and what makes a habitable attic no story of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Area,
    Check,
    Door,
    Fact,
    House,
    Limit,
    Limits,
    Look,
    Missing,
    Outcome,
    Ratio,
    Space,
    Stair,
    Story,
    all_of,
    at_most,
    broken,
    decide,
    does_not_apply,
    fact,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)

OUTDOORS = frozenset(("porch", "deck", "carport"))


@fact
class HabitableStory(Fact):
    """A story with habitable rooms, and the stairs and ramps that join it to another."""

    story: Story
    rooms: tuple[Space, ...]
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[HabitableStory]:
        """Yield every story that has habitable rooms when the work is done."""
        for story in house.project.stories:
            rooms = tuple(s for s in house.spaces if s.story == story.id and s.is_habitable)
            if rooms and not story.is_removed:
                yield cls(story, story, rooms, house)

    @property
    def phase(self) -> Any:
        """Existing where every habitable room of it stands and stays."""
        return "existing" if all(room.phase == "existing" for room in self.rooms) else None

    @property
    def is_at_grade(self) -> bool:
        """Whether it is the story of the front door: the ground story, or the only one."""
        return self.story.level == "ground" or len(self.house.project.stories) == 1

    @property
    def egress_doors(self) -> list[Door]:
        """Doors of this story to the outside that are marked as the required egress door."""
        doors = [
            d for d in self.house.project.doors if d.is_exterior and d.required_egress is True and not d.is_removed
        ]
        return [d for d in doors if any(s is not None and s.story == self.story.id for s in self.house.sides(d))]

    @property
    def ways(self) -> list[str]:
        """What joins this story to others: stair, ramp, or the form of a lesser stair."""
        stairs = [s for s in self.house.project.stairs if not s.is_removed and self._leaves(s.between)]
        ramps = [r for r in self.house.project.ramps if not r.is_removed and self._leaves(r.between)]
        return [*(_form(stair) for stair in stairs), *("ramp" for _ in ramps)]

    @property
    def has_stair_of_no_form(self) -> bool:
        """Whether the form of a stair that joins it to others is not given, which is a common one then."""
        return any(
            is_missing(s.form) and not s.is_removed and self._leaves(s.between) for s in self.house.project.stairs
        )

    def _leaves(self, between: tuple[str, str]) -> bool:
        stories = [getattr(self.house.space(side), "story", None) for side in between]
        return sum(1 for s in stories if s == self.story.id) == 1


class ServedLimits(Limits):
    by: Limit[tuple[str, ...]]


@rule("rooms.story-served")
def story_served(level: HabitableStory, limit: ServedLimits) -> Check:
    """A story with habitable rooms, and no egress door of its own, is reached by a stair or ramp that complies."""
    if level.is_at_grade:
        return does_not_apply("the rules for doors judge the way out of the story at grade")
    if level.egress_doors:
        return one_of("stair", limit.by, f"{level.egress_doors[0].label} opens on it").because("it has an egress door")
    ways = level.ways
    if not ways:
        return not_shown(level.story.absent("stair or ramp"))
    best = next((way for way in ways if isinstance(limit.by.value, tuple) and way in limit.by.value), ways[0])
    served = (
        one_of(best, limit.by).because(f"{level.rooms[0].id} is habitable").or_fix("serve it by a stair that complies")
    )
    return all_of(served, does_not_apply("form of the stair: not stated")) if level.has_stair_of_no_form else served


def _form(stair: Stair) -> str:
    return "stair" if stair.is_common_form or stair.form == "spiral" else str(stair.form)


@fact
class HabitableAttic(Fact):
    """The habitable rooms of one attic story, taken together, and the story below."""

    rooms: tuple[Space, ...]
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[HabitableAttic]:
        """Yield the habitable attic of the house, where it has one."""
        rooms = tuple(s for s in house.spaces if s.habitable_attic is True or _in_attic(s, house))
        if rooms:
            yield cls(rooms[0], rooms, house)

    @property
    def area(self) -> Area | Missing:
        """Floor area of all its habitable rooms."""
        return _sum(tuple(self.house.area(room) for room in self.rooms))

    @property
    def area_below(self) -> Area | Missing:
        """Floor area of the story below, whatever the order of the stories in the file."""
        order = self.house.story_order
        rank = order.rank(self.rooms[0].story)
        if rank is None or rank == 0:
            return self.rooms[0].absent("story (and one below it)")
        below = order.groups[rank - 1]
        if len(below) > 1:
            return below[0].absent("elevation")
        rooms = tuple(s for s in self.house.spaces if s.story == below[0].id and s.use not in OUTDOORS)
        areas = tuple(self.house.area(s) for s in rooms)
        return _sum(areas) if rooms else self.rooms[0].absent("spaces of the story below")

    @property
    def stories_below(self) -> int | Missing:
        """How many stories above grade are drawn below it."""
        levels = [s.level for s in self.house.project.stories if not s.is_removed]
        return when_given(lambda *given: sum(1 for level in given if level in ("ground", "upper")), *levels)


class AtticLimits(Limits):
    share: Limit[Ratio]
    share_sprinklered: Limit[Ratio]
    enclosed: Limit[bool]
    within_walls: Limit[bool]
    stories: Limit[int]


@rule("rooms.habitable-attic")
def habitable_attic(attic: HabitableAttic, limit: AtticLimits) -> Check:
    """A habitable attic is no story of its own where it is small, under the roof, and inside the walls below.

    Where it is not, it counts as a story: the house must not come to more of them than the code covers.
    """
    share = when_given(lambda own, below: Ratio(own / below), attic.area, attic.area_below)
    how = f"{attic.area} / {attic.area_below}"
    sized = at_most(share, limit.share, how)
    if sized.outcome in (Outcome.FAIL, Outcome.NOT_SHOWN) and limit.share.value is not None:
        sized = decide(sprinklered(attic.house), at_most(share, limit.share_sprinklered, how), sized)
    enclosed = [required(room.enclosed_by_roof, limit.enclosed) for room in attic.rooms]
    within = [required(_within(room), limit.within_walls) for room in attic.rooms]
    conditions = all_of(sized, *enclosed, *within)
    return conditions if conditions.outcome is not Outcome.FAIL else _counts_as_story(attic, limit)


def _counts_as_story(attic: HabitableAttic, limit: AtticLimits) -> Check:
    below = attic.stories_below
    if is_missing(below):
        return not_shown(below)
    count = below + 1
    if is_missing(limit.stories.value):
        return not_shown(limit.stories.value)
    if limit.stories.value is not None and count <= limit.stories.value:
        return look_at(Look.OFFICIAL, f"the attic counts as a story of its own, so that the house has {count}")
    return broken(f"the attic counts as a story of its own, and {count} stories are more than the code covers")


class SprinklerLimits(Limits):
    above_stories: Limit[int]


@rule("rooms.habitable-attic-sprinklers")
def habitable_attic_sprinklers(attic: HabitableAttic, limit: SprinklerLimits, house: House) -> Check:
    """A habitable attic above the third story makes sprinklers due in the dwelling."""
    below, due_from = attic.stories_below, limit.above_stories.value
    if not isinstance(due_from, int):
        return at_most(below, limit.above_stories)
    if is_missing(below):
        return not_shown(below)
    if below < due_from:
        return does_not_apply(f"it lies above {below} {'story' if below == 1 else 'stories'}, fewer than {due_from}")
    why = f"the attic lies above {below} stories"
    return decide(sprinklered(house), met(f"{why}, and the dwelling has sprinklers"), broken(why)).or_fix(
        "protect the dwelling with sprinklers"
    )


def sprinklered(house: House) -> bool | Missing:
    """Return whether the dwelling has sprinklers."""
    dwelling = house.project.dwelling
    return house.project.absent("sprinklered of dwelling") if is_missing(dwelling) else dwelling.sprinklered


def _within(room: Space) -> bool | Missing:
    beyond = room.beyond_walls_below
    return beyond if is_missing(beyond) else not beyond


def _in_attic(space: Space, house: House) -> bool:
    return house.story_level(space) == "attic" and space.is_habitable


def _sum(areas: tuple[Area | Missing, ...]) -> Area | Missing:
    total: Area | Missing = Area(0)
    for area in areas:
        total = total + area
    return total
