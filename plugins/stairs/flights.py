"""What the rules for stairs are about: each flight and landing, with what follows from stair and floors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Fact,
    Flight,
    House,
    Length,
    Missing,
    Stair,
    StairLanding,
    fact,
    first_given,
    is_missing,
    when_given,
)

OUTDOOR = frozenset(("carport", "porch", "deck"))


@fact
class StairFlight(Fact):
    """One flight of a stair that the general rules govern. Its lengths are given, derived or `Missing`."""

    flight: Flight
    stair: Stair
    stair_rise: Length | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[StairFlight]:
        """Yield every flight of every stair of common form."""
        for stair in house.subjects(Stair):
            if stair.is_common_form:
                rise = total_rise(stair, house)
                yield from (cls(flight, flight, stair, rise) for flight in stair.flights)

    @property
    def is_whole_stair(self) -> bool:
        """Whether the stair has no other flight."""
        return len(self.stair.flights) == 1

    @property
    def rise(self) -> Length | Missing:
        """Vertical rise of the flight: as stated, that of a stair of one flight, else risers x riser."""
        riser = first_given(self.flight.riser, self.shared_riser)
        worked_out = when_given(lambda height, count: height * count, riser, self.risers)
        return self.drawn_rise if self.is_whole_stair else first_given(self.drawn_rise, worked_out)

    @property
    def drawn_rise(self) -> Length | Missing:
        """Vertical rise as stated for the flight, or for a stair of one flight; not worked out from its risers."""
        return first_given(self.flight.rise, self.stair_rise) if self.is_whole_stair else self.flight.rise

    @property
    def risers(self) -> int | Missing:
        """Number of risers."""
        if self.flight.riser_heights:
            return len(self.flight.riser_heights)
        return first_given(self.flight.risers, self.stair.risers) if self.is_whole_stair else self.flight.risers

    @property
    def riser(self) -> Length | Missing:
        """The tallest riser: as measured, as stated, else the rise shared equally among the risers."""
        if self.flight.riser_heights:
            return max(self.flight.riser_heights)
        return self.equal_riser if is_missing(self.flight.riser) else self.flight.riser

    @property
    def equal_riser(self) -> Length | Missing:
        """The rise divided by the number of risers."""
        risers = self.risers
        if is_missing(risers):
            return risers
        return self.rise / risers if risers else self.flight.absent("risers")

    @property
    def shared_riser(self) -> Length | Missing:
        """The rise of the whole stair shared equally among the risers of all its flights."""
        counts = [flight.risers for flight in self.stair.flights]
        total = when_given(lambda *given: sum(given), *counts)
        return self.flight.absent("risers") if total == 0 else when_given(_shared, self.stair_rise, total)

    @property
    def riser_derived(self) -> str:
        """How the tallest riser was come by."""
        if self.flight.riser_heights:
            return f"the tallest of {len(self.flight.riser_heights)} as measured"
        return f"{self.rise} / {self.risers} risers" if is_missing(self.flight.riser) else "as stated"

    @property
    def riser_variation(self) -> Length | Missing:
        """Tallest less shortest riser; nothing where one height is drawn for all."""
        return _spread(self.flight.riser_heights, self.riser)

    @property
    def tread(self) -> Length | Missing:
        """The shallowest tread."""
        return min(self.flight.tread_depths) if self.flight.tread_depths else self.flight.tread

    @property
    def tread_variation(self) -> Length | Missing:
        """Deepest less shallowest tread; nothing where one depth is drawn for all."""
        return _spread(self.flight.tread_depths, self.tread)

    @property
    def width(self) -> Length | Missing:
        """Clear width above the handrail: of the flight, else of the stair."""
        return first_given(self.flight.width, self.stair.width)

    @property
    def headroom(self) -> Length | Missing:
        """Headroom over the flight, else over the stair."""
        return first_given(self.flight.headroom, self.stair.headroom)

    @property
    def has_winders(self) -> bool:
        """Whether winders are drawn."""
        return not is_missing(self.flight.winders)

    @property
    def has_open_risers(self) -> bool | Missing:
        """Whether the risers are open: as stated, or because the gap of open risers is drawn."""
        drawn = self.flight
        return drawn.open_risers if is_missing(drawn.open_riser_gap) else True


@fact
class Platform(Fact):
    """One landing of a stair that the general rules govern."""

    landing: StairLanding
    stair: Stair

    @classmethod
    def found_in(cls, house: House) -> Iterator[Platform]:
        """Yield every landing of every stair of common form."""
        for stair in house.subjects(Stair):
            if stair.is_common_form:
                yield from (cls(landing, landing, stair) for landing in stair.landings)

    @property
    def stair_width(self) -> Length | Missing:
        """The widest flight, else the stair's width."""
        widths = [f.width for f in self.stair.flights if not is_missing(f.width)]
        return max(widths) if widths else self.stair.width


def is_outdoors(stair: Stair, house: House) -> bool:
    """Return whether one end of `stair` is outside, or on a porch, deck or carport."""
    spaces = (house.space(side) for side in stair.between)
    return any(space is None or space.use in OUTDOOR for space in spaces)


def total_rise(stair: Stair, house: House) -> Length | Missing:
    """Return the total rise of `stair`: as stated, else finished floor to finished floor."""
    return first_given(stair.total_rise, levels_rise(stair, house))


def levels_rise(stair: Stair, house: House) -> Length | Missing:
    """Return the difference of the finished floors that `stair` joins."""
    lower, upper = (house.space(side) for side in stair.between)
    if lower is None or upper is None:
        return stair.absent("total rise")
    difference = house.finished_floor(upper) - house.finished_floor(lower)
    if is_missing(difference) or not difference.n:  # a stair joins two levels, so equal ones tell nothing
        return stair.absent("total rise")
    return abs(difference)


def _shared(rise: Length, risers: int) -> Length:
    return rise / risers


def _spread(measured: tuple[Length, ...], one_for_all: Any) -> Length | Missing:
    if measured:
        return max(measured) - min(measured)
    return one_for_all if is_missing(one_for_all) else Length(0)
