"""The storeys on which alarms are due: what each dwelling unit has of a storey that it lives on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from precheck_plugins.alarms.places import Place, alarms_in, in_unit_of

from precheck import (
    Check,
    DwellingUnit,
    House,
    Outcome,
    Space,
    Storey,
    fact,
    is_missing,
    missing_of,
    not_shown,
    units_of,
)

NOT_LIVED_IN = frozenset(("attic", "crawl space", "porch", "deck", "carport", "garage"))


@fact
class LivedInStorey(Place):
    """What a dwelling unit has of a storey on which an alarm is due. `storey` is None where the project names no storeys.

    `unit` is None where nothing on the storey is of a unit; `unsaid` are the spaces there that may be of this one.
    """

    storey: Storey | None
    spaces: tuple[Space, ...]
    unit: DwellingUnit | None = None
    unsaid: tuple[Space, ...] = ()

    @classmethod
    def found_in(cls, house: House) -> Iterator[LivedInStorey]:
        """Yield every storey, by unit, but crawl spaces and attics that nobody lives in."""
        storeys = [s for s in house.project.storeys if not s.is_removed]
        if not storeys and house.spaces:
            yield cls(house.project, house, None, ())
        for storey in storeys:
            spaces = tuple(s for s in house.spaces if s.storey == storey.id)
            if not _nobody_lives_on(storey, spaces):
                yield from cls._by_unit(house, storey, spaces)

    @classmethod
    def _by_unit(cls, house: House, storey: Storey, spaces: tuple[Space, ...]) -> Iterator[LivedInStorey]:
        unsaid = tuple(s for s in spaces if is_missing(s.unit) and s.use not in NOT_LIVED_IN)
        units = [unit for unit in house.subjects(DwellingUnit) if unit.name]
        found = [cls(storey, house, storey, unit.among(spaces), unit, unsaid) for unit in units]
        yield from [one for one in found if one.unsaid or one.is_lived_in] or [cls(storey, house, storey, spaces)]

    @property
    def label(self) -> str:
        """The storey, and the unit where there are more."""
        return f"{self.about.label}, {self.unit.label}" if self.unit is not None else self.about.label

    def among(self, spaces: Iterable[Space]) -> tuple[Space, ...]:
        """Return those of `spaces` that are of its unit."""
        return self.unit.among(spaces) if self.unit is not None else tuple(spaces)

    @property
    def is_lived_in(self) -> bool:
        """Whether a space that is known to be of it is more than a garage, an attic or the like."""
        return self.storey is not None and bool(self.spaces) and not _nobody_lives_on(self.storey, self.spaces)

    def if_known(self, check: Check) -> Check:
        """Return `check`, unless it fails and spaces that do not say their storey or unit may hold the alarm, or the unit."""
        if check.outcome is not Outcome.FAIL or self.storey is None:
            return check
        elsewhere = [
            s for s in self.house.spaces if is_missing(s.storey) and self.unit in (None, *units_of(s, self.house))
        ]
        nowhere = [s.storey for s in elsewhere if alarms_in(self.house, (s,))]
        unsaid = [s.unit for s in self.unsaid if not self.is_lived_in or alarms_in(self.house, (s,))]
        unsure = missing_of(*nowhere, *unsaid)
        if unsure is None and self.is_lived_in:
            return check
        return not_shown(self.storey.absent("spaces") if unsure is None else unsure)

    def in_unit(self, judge: Callable[[DwellingUnit], Check]) -> Check:
        """Return what `judge` says of its unit; of each where none is named on the storey."""
        return judge(self.unit) if self.unit is not None else in_unit_of(None, self.house, judge)


def _nobody_lives_on(storey: Storey, spaces: tuple[Space, ...]) -> bool:
    if storey.level == "attic":
        return not any(s.is_habitable for s in spaces)
    return bool(spaces) and all(s.use in NOT_LIVED_IN for s in spaces)
