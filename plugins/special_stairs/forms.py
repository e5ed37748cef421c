"""What the rules for special stairs are about: spiral stairs, ship's ladders and alternating tread devices."""

from __future__ import annotations

from collections.abc import Iterator
from typing import ClassVar, Self

from precheck import (
    Area,
    Check,
    Exemption,
    Fact,
    Flight,
    Handrail,
    House,
    Length,
    Missing,
    Ramp,
    Space,
    Stair,
    does_not_apply,
    fact,
    first_given,
    is_missing,
    not_shown,
    risers_not_measured,
    rooms_newly_served,
    stair_exemption,
    tallest_riser,
    treads_not_measured,
    upper_space,
)


@fact
class SpecialFlight(Fact):
    """One flight of a stair of a special form; the subclass says which.

    `serves` are rooms made on a story where nobody lived: the stair to it is judged with them, though it stands.
    """

    flight: Flight
    stair: Stair
    house: House
    serves: tuple[Space, ...] = ()
    form: ClassVar[str] = ""

    @classmethod
    def found_in(cls, house: House) -> Iterator[Self]:
        """Yield every flight of every stair of this form."""
        for stair in house.subjects(Stair):
            if stair.form == cls.form:
                serves = rooms_newly_served(stair, house)
                yield from (cls(flight, flight, stair, house, serves) for flight in stair.flights)

    @property
    def most_width(self) -> Length | Missing:
        """The width of the flight, else of the stair, which is the most that there can be beside the handrails."""
        return first_given(self.flight.width, self.stair.width)

    @property
    def exemption(self) -> Exemption | None:
        """What the code may free the stair by."""
        return stair_exemption(self.stair, self.house)

    @property
    def riser(self) -> Length | Missing:
        """The tallest riser: as measured, as stated, else the rise shared equally among the risers."""
        return tallest_riser(self.flight, self.house)

    @property
    def risers_not_measured(self) -> Check:
        """Ask for the rest of the riser heights where the list that is given does not hold them all."""
        missing = risers_not_measured(self.flight)
        return does_not_apply("no riser is left out") if missing is None else not_shown(missing)

    @property
    def tread(self) -> Length | Missing:
        """The shallowest tread."""
        return min(self.flight.tread_depths) if self.flight.tread_depths else self.flight.tread

    @property
    def treads_not_measured(self) -> Check:
        """Ask for the rest of the tread depths where the list that is given does not hold them all."""
        missing = treads_not_measured(self.flight)
        return does_not_apply("no tread is left out") if missing is None else not_shown(missing)

    @property
    def headroom(self) -> Length | Missing:
        """Headroom over the flight, else over the stair."""
        return first_given(self.flight.headroom, self.stair.headroom)

    @property
    def handrails(self) -> tuple[Handrail, ...]:
        """The handrails drawn for the flight, else for the stair."""
        return self.flight.handrails or self.stair.handrails

    @property
    def rails(self) -> int | Missing:
        """How many handrails there are, as drawn and as counted; the fewer of the two, none where it is said so."""
        counts = [len(self.handrails)] if self.handrails else []
        counts += [] if is_missing(self.flight.rails) else [self.flight.rails]
        counts += [0] if self.stair.has_handrail is False else []
        return min(counts) if counts else self.flight.absent("handrails")


class SpiralFlight(SpecialFlight):
    """A flight of a spiral stair."""

    form: ClassVar[str] = "spiral"


class ShipLadder(SpecialFlight):
    """A ship's ladder."""

    form: ClassVar[str] = "ship's ladder"


class AlternatingTread(SpecialFlight):
    """An alternating tread device."""

    form: ClassVar[str] = "alternating tread"


@fact
class LadderUse(Fact):
    """What a ship's ladder or alternating tread device serves."""

    stair: Stair
    leads_to: str
    area: Area | Missing
    unlived_in: bool
    other_way: str
    serves: tuple[Space, ...] = ()
    form: ClassVar[str] = ""

    @classmethod
    def found_in(cls, house: House) -> Iterator[Self]:
        """Yield every stair of this form."""
        for stair in house.subjects(Stair):
            if stair.form == cls.form:
                top = upper_space(stair, house)
                area = stair.absent("area of the space it leads to") if top is None else house.area(top)
                stored = top is not None and top.use in ("attic", "crawl space") and top.habitable_attic is not True
                serves = rooms_newly_served(stair, house)
                yield cls(stair, stair, house.ends(stair)[1], area, stored, _other_way(stair, house), serves)


class ShipLadderUse(LadderUse):
    """What a ship's ladder serves."""

    form: ClassVar[str] = "ship's ladder"


class AlternatingTreadUse(LadderUse):
    """What an alternating tread device serves."""

    form: ClassVar[str] = "alternating tread"


def _other_way(stair: Stair, house: House) -> str:
    """Return the label of a stair of common form, a spiral stair or a ramp between the same two spaces."""
    ways = [s for s in house.subjects(Stair) if s.is_common_form or s.form == "spiral"]
    same = [w for w in (*ways, *house.subjects(Ramp)) if set(w.between) == set(stair.between) and not w.is_removed]
    return same[0].label if same else ""
