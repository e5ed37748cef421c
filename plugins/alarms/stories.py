"""The stories on which alarms are due: what each dwelling unit has of a story that it lives on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from precheck_plugins.alarms.places import AlarmPlace, alarms_in, in_unit_of

from precheck import (
    Check,
    DwellingUnit,
    House,
    Outcome,
    Space,
    Story,
    fact,
    is_missing,
    missing_of,
    not_shown,
    units_of,
)

NOT_LIVED_IN = frozenset(("attic", "crawl space", "porch", "deck", "carport", "garage"))


@fact
class LivedInStory(AlarmPlace):
    """What a dwelling unit has of a story on which an alarm is due. `story` is None where the project names no stories.

    `unit` is None where nothing on the story is of a unit; `unsaid` are the spaces there that may be of this one.
    """

    story: Story | None
    spaces: tuple[Space, ...]
    unit: DwellingUnit | None = None
    unsaid: tuple[Space, ...] = ()

    @classmethod
    def found_in(cls, house: House) -> Iterator[LivedInStory]:
        """Yield every story, by unit, but crawl spaces and attics that nobody lives in."""
        stories = [s for s in house.project.stories if not s.is_removed]
        if not stories and house.spaces:
            yield cls(house.project, house, None, ())
        for story in stories:
            spaces = tuple(s for s in house.spaces if s.story == story.id)
            if not _nobody_lives_on(story, spaces):
                yield from cls._by_unit(house, story, spaces)

    @classmethod
    def _by_unit(cls, house: House, story: Story, spaces: tuple[Space, ...]) -> Iterator[LivedInStory]:
        unsaid = tuple(s for s in spaces if is_missing(s.unit) and s.use not in NOT_LIVED_IN)
        units = [unit for unit in house.subjects(DwellingUnit) if unit.name]
        found = [cls(story, house, story, unit.among(spaces), unit, unsaid) for unit in units]
        yield from [one for one in found if one.unsaid or one.is_lived_in] or [cls(story, house, story, spaces)]

    @property
    def label(self) -> str:
        """The story, and the unit where there are more."""
        return f"{self.about.label}, {self.unit.label}" if self.unit is not None else self.about.label

    def among(self, spaces: Iterable[Space]) -> tuple[Space, ...]:
        """Return those of `spaces` that are of its unit."""
        return self.unit.among(spaces) if self.unit is not None else tuple(spaces)

    @property
    def is_lived_in(self) -> bool:
        """Whether a space that is known to be of it is more than a garage, an attic or the like."""
        return self.story is not None and bool(self.spaces) and not _nobody_lives_on(self.story, self.spaces)

    def if_known(self, check: Check) -> Check:
        """Return `check`, unless it fails and spaces that do not say their story or unit may hold the alarm, or the unit."""
        if check.outcome is not Outcome.FAIL or self.story is None:
            return check
        elsewhere = [
            s for s in self.house.spaces if is_missing(s.story) and self.unit in (None, *units_of(s, self.house))
        ]
        nowhere = [s.story for s in elsewhere if alarms_in(self.house, (s,))]
        unsaid = [s.unit for s in self.unsaid if not self.is_lived_in or alarms_in(self.house, (s,))]
        unsure = missing_of(*nowhere, *unsaid)
        if unsure is None and self.is_lived_in:
            return check
        return not_shown(self.story.absent("spaces") if unsure is None else unsure)

    def in_unit(self, judge: Callable[[DwellingUnit], Check]) -> Check:
        """Return what `judge` says of its unit; of each where none is named on the story."""
        return judge(self.unit) if self.unit is not None else in_unit_of(None, self.house, judge)


def _nobody_lives_on(story: Story, spaces: tuple[Space, ...]) -> bool:
    if story.level == "attic":
        return not any(s.is_habitable for s in spaces)
    return bool(spaces) and all(s.use in NOT_LIVED_IN for s in spaces)
