"""What the rules for roofs are about: opposite rafters with their ridge and ties."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from math import fsum
from typing import Any

from precheck_plugins.framing.drawn.load_cases import combinations
from precheck_plugins.framing.drawn.load_path import loading_of
from precheck_plugins.framing.drawn.setting import DesignLimits, inches, setting_in
from precheck_plugins.framing.members.ties import RafterPair, rafter_pair

from precheck import (
    Fact,
    House,
    Length,
    Limit,
    Member,
    Missing,
    Ratio,
    RoofFrame,
    Slope,
    fact,
    first_given,
    given,
    is_missing,
    when_given,
)

WALLS = Length.parse("2 ft")  # no two walls with their plates are thicker together


@fact
class Gable(Fact):
    """Opposite rafters with their ridge and ties, in their house."""

    frame: RoofFrame
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Gable]:
        """Yield every roof frame."""
        for frame in house.subjects(RoofFrame):
            yield cls(frame, frame, house)

    @property
    def phase(self) -> Any:
        """A roof that stands counts as altered where its rafters or ties go, are changed or get new load."""
        own = self.frame.phase
        held = (self.frame.rafters, self.frame.tie.member)
        parts = (self.house.project.by_id.get(one) for one in held if not is_missing(one))
        members = [part for part in parts if isinstance(part, Member)]
        changed = any(m.phase in ("new", "altered", "removed") or self.house.is_loaded_anew(m) for m in members)
        return "altered" if own == "existing" and changed else own

    def _goes(self, member: str | Missing) -> bool:
        part = None if is_missing(member) else self.house.project.by_id.get(member)
        return isinstance(part, Member) and part.is_removed

    @property
    def rafters(self) -> Member | Missing:
        """The rafters of the frame."""
        found = None if is_missing(self.frame.rafters) else self.house.project.by_id.get(self.frame.rafters)
        return found if isinstance(found, Member) else self.frame.absent("rafters")

    @property
    def slope(self) -> Slope | Missing:
        """The slope: of the frame, else of its rafters."""
        return first_given(self.frame.slope, self.rafters.slope)

    @property
    def rise(self) -> Length | Missing:
        """The height of the ridge above the plates."""
        return when_given(lambda slope, width: width * (Fraction(slope.n) / 2), self.slope, self.frame.width)

    def of_rise(self, share: Limit[Ratio]) -> Limit[Any]:
        """Return a limit that is a share of the rise as a height."""
        part = share.value
        return share if part is None else replace(share, value=self.rise * part.n)

    @property
    def spacing(self) -> Length | Missing:
        """The spacing of its rafters."""
        return self.rafters.spacing

    @property
    def has_ties(self) -> bool | Missing:
        """Whether ceiling joists or ties hold the feet of the rafters together."""
        if self._goes(self.frame.tie.member):
            return False
        return when_given(lambda what: what != "none", self.frame.tie.what)

    @property
    def is_enclosed(self) -> bool | Missing:
        """Whether walls close what is under it: as stated, else where only habitable rooms are."""
        spaces = [self.house.space(one) for one in self.frame.spaces]
        rooms = bool(spaces) and all(space is not None and space.is_habitable for space in spaces)
        return True if rooms and is_missing(self.frame.enclosed) else self.frame.enclosed

    @property
    def tie_runs_through(self) -> bool:
        """Whether the joists that tie it are drawn with one span from wall to wall, so that none is lapped with another."""
        tie = self.frame.tie
        joists = None if is_missing(tie) or is_missing(tie.member) else self.house.project.by_id.get(tie.member)
        if not isinstance(joists, Member) or joists.spans or is_missing(joists.span) or is_missing(self.frame.width):
            return False
        return bool(self.frame.width - joists.span <= WALLS)

    def pair(self, limits: DesignLimits) -> RafterPair | Missing:
        """Return a pair of rafters under its heaviest combination. Raises OutsideMethodError."""
        rafters, tie = self.rafters, self.frame.tie
        high = Length(0) if is_missing(tie) else first_given(tie.height_above_plate, Length(0))
        if is_missing(rafters):
            return rafters
        loading = loading_of(rafters, setting_in(self.house, limits))
        found = given(loading, self.frame.width, self.rise, high)
        if is_missing(found):
            return found
        loading, *sizes = found
        kinds = loading.kinds
        heaviest = max(
            fsum(loading.total(k) * f for k, f in factors.items() if k in kinds) for _, factors in combinations(kinds)
        )
        return rafter_pair(heaviest, *map(inches, sizes))
