"""The stories of a house from the bottom up, whatever their order in the file: by heights where given, else by level."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from precheck.files.missing import Missing, is_missing
from precheck.project import Project, Story
from precheck.units import Exact, Length

LEVELS = ("basement", "ground", "upper", "attic")


class Order(NamedTuple):
    """The stories in groups from the bottom up, and what is wrong with what the file says of them.

    A group of more than one holds stories of which nothing tells which is the higher. `unplaced` have no level and no
    elevation where there is more than one story.
    """

    groups: tuple[tuple[Story, ...], ...]
    unplaced: tuple[Story, ...]
    contradictions: tuple[tuple[Story, Story], ...]

    def rank(self, story_id: str | Missing) -> int | None:
        """Return how many groups lie below the story called `story_id`; None where it is not placed."""
        found = (i for i, group in enumerate(self.groups) if any(story.id == story_id for story in group))
        return next(found, None)

    @property
    def tied(self) -> tuple[tuple[Story, ...], ...]:
        """The groups of more than one story."""
        return tuple(group for group in self.groups if len(group) > 1)


def order_of(project: Project) -> Order:
    """Return the order of the stories that are there when the work is done."""
    stories = [story for story in project.stories if not story.is_removed]
    if len(stories) == 1:
        return Order(((stories[0],),), (), ())
    placed = [s for s in stories if not is_missing(s.level) or not is_missing(s.elevation)]
    unplaced = tuple(s for s in stories if s not in placed)
    if all(not is_missing(story.elevation) for story in placed):
        groups: list[tuple[Story, ...]] = [(story,) for story in sorted(placed, key=_height)]
    else:
        levels = {level: [s for s in placed if s.level == level] for level in LEVELS}
        groups = [tuple(sorted(at, key=lambda s: s.id)) for at in levels.values() if at]
        unplaced += tuple(s for s in placed if is_missing(s.level))
    return Order(tuple(groups), unplaced, tuple(_contradictions(placed)))


def _height(story: Story) -> tuple[Exact, str]:
    return (story.elevation.n if isinstance(story.elevation, Length) else 0), story.id


def _contradictions(stories: list[Story]) -> list[tuple[Story, Story]]:
    """Return the pairs of stories whose elevations say the opposite of their levels."""
    known = [s for s in stories if not is_missing(s.level) and not is_missing(s.elevation)]
    ordered = sorted(known, key=lambda s: (LEVELS.index(str(s.level)), s.id))
    return [
        (lower, upper)
        for lower, upper in pairwise(ordered)
        if lower.level != upper.level and isinstance(upper.elevation, Length) and upper.elevation <= lower.elevation
    ]
