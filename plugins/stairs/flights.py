"""What the rules for stairs are about: each flight and landing, with what follows from stair and floors."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.stairs.layout import width_drawn

from precheck import (
    OUTSIDE,
    Check,
    Door,
    Exemption,
    Fact,
    Flight,
    House,
    Length,
    Missing,
    Space,
    Stair,
    StairLanding,
    climb_of,
    does_not_apply,
    fact,
    first_given,
    is_missing,
    largest,
    missing_of,
    not_shown,
    rise_of,
    risers_not_measured,
    risers_of,
    rooms_newly_served,
    stair_exemption,
    tallest_riser,
    treads_not_measured,
    when_given,
)

OUTDOOR = frozenset(("carport", "porch", "deck"))


@fact
class StairFlight(Fact):
    """One flight of a stair that the general rules govern. Its lengths are given, derived or `Missing`.

    `serves` are rooms made on a story where nobody lived: the stair to it is judged with them, though it stands.
    """

    flight: Flight
    stair: Stair
    house: House
    serves: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[StairFlight]:
        """Yield every flight of every stair of common form."""
        for stair in house.subjects(Stair):
            if stair.is_common_form:
                serves = rooms_newly_served(stair, house)
                yield from (cls(flight, flight, stair, house, serves) for flight in stair.flights)

    @property
    def exemption(self) -> Exemption | None:
        """What the code may free the stair by."""
        return stair_exemption(self.stair, self.house)

    @property
    def now_serves(self) -> str:
        """Why a stair that stands is judged; nothing for one that is new or serves what it did."""
        return f"the existing stair now serves {self.serves[0].label}" if self.serves and self.stair.is_existing else ""

    @property
    def is_whole_stair(self) -> bool:
        """Whether the stair has no other flight."""
        return len(self.stair.flights) == 1

    @property
    def is_in_the_open(self) -> bool:
        """Whether both of its ends are outside or on a deck; a porch or carport has a roof."""
        ends = [self.house.space(side) for side in self.stair.between]
        return all(end is None or end.use == "deck" for end in ends)

    @property
    def stair_rise(self) -> Length | Missing:
        """How high the whole stair climbs."""
        return climb_of(self.stair, self.house)

    @property
    def rise(self) -> Length | Missing:
        """Vertical rise of the flight."""
        return rise_of(self.flight, self.house)

    @property
    def drawn_rise(self) -> Length | Missing:
        """Vertical rise as stated for the flight, or for a stair of one flight; not worked out from its risers."""
        return first_given(self.flight.rise, self.stair_rise) if self.is_whole_stair else self.flight.rise

    @property
    def risers(self) -> int | Missing:
        """Number of risers."""
        return risers_of(self.flight)

    @property
    def riser(self) -> Length | Missing:
        """The tallest riser: as measured, as stated, else the rise shared equally among the risers."""
        return tallest_riser(self.flight, self.house)

    @property
    def riser_derived(self) -> str:
        """How the tallest riser was come by."""
        if self.riser in self.flight.riser_heights:
            return f"the tallest of {len(self.flight.riser_heights)} as measured"
        return "as stated" if self.riser is self.flight.riser else f"{self.rise} / {self.risers} risers"

    @property
    def riser_variation(self) -> Length | Missing:
        """Tallest less shortest riser; nothing where one height is drawn for all."""
        return _spread(self.flight.riser_heights, self.riser)

    @property
    def risers_not_measured(self) -> Check:
        """Ask for the rest of the riser heights where the list that is given does not hold them all."""
        return _asked(risers_not_measured(self.flight), "no riser is left out")

    @property
    def tread(self) -> Length | Missing:
        """The shallowest tread."""
        return min(self.flight.tread_depths) if self.flight.tread_depths else self.flight.tread

    @property
    def tread_variation(self) -> Length | Missing:
        """Deepest less shallowest tread; nothing where one depth is drawn for all."""
        return _spread(self.flight.tread_depths, self.tread)

    @property
    def treads_not_measured(self) -> Check:
        """Ask for the rest of the tread depths where the list that is given does not hold them all."""
        return _asked(treads_not_measured(self.flight), "no tread is left out")

    @property
    def width(self) -> Length | Missing:
        """Clear width above the handrail: of the flight, else of the stair; no more than what is drawn in plan."""
        return width_drawn(self.stair, self._tightest("width"))

    @property
    def headroom(self) -> Length | Missing:
        """Headroom over the flight, else over the stair."""
        return self._tightest("headroom")

    @property
    def run(self) -> Length | Missing:
        """What the treads of the flight take: one fewer than its risers. Winders take theirs in the turn."""
        if self.has_winders:
            return self.flight.absent("run of the winders")
        if self.flight.tread_depths:
            missing = treads_not_measured(self.flight)
            return sum(self.flight.tread_depths[1:], start=self.flight.tread_depths[0]) if missing is None else missing
        return when_given(lambda tread, count: tread * max(count - 1, 0), self.flight.tread, self.risers)

    def givers(self, name: str) -> list[Flight | Stair]:
        """Return the records that give the value called `name` for this flight: its own, the stair's, or both."""
        return [one for one in (self.flight, self.stair) if not is_missing(getattr(one, name))]

    def _tightest(self, name: str) -> Length | Missing:
        """Return the flight's own, else the stair's; the stair's too where it is less than any of its flights give."""
        own: Length | Missing = getattr(self.flight, name)
        of_stair: Length | Missing = getattr(self.stair, name)
        each = [getattr(flight, name) for flight in self.stair.flights]
        if is_missing(own) or is_missing(of_stair) or missing_of(*each) is not None:
            return first_given(own, of_stair)
        return of_stair if of_stair < min(each) else own

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
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Platform]:
        """Yield every landing of every stair of common form."""
        for stair in house.subjects(Stair):
            if stair.is_common_form:
                yield from (cls(landing, landing, stair, house) for landing in stair.landings)

    @property
    def exemption(self) -> Exemption | None:
        """What the code may free the stair by."""
        return stair_exemption(self.stair, self.house)

    @property
    def is_low_and_outside(self) -> bool | Missing:
        """Whether it lies at the foot of outside steps that are not the way from the required egress door."""
        if self.landing.where != "bottom" or not is_outdoors(self.stair, self.house):
            return False
        doors = [d for d in self.house.subjects(Door) if d.required_egress is True and not d.is_removed]
        if any(set(door.between) & (set(self.stair.between) - {OUTSIDE}) for door in doors):
            return False
        return True if doors else self.house.project.absent("required egress door")

    @property
    def stair_width(self) -> Length | Missing:
        """The widest flight, each as its own width or that of the stair says."""
        widths = [self.stair.width if is_missing(f.width) else f.width for f in self.stair.flights]
        unknown = missing_of(*widths)
        return largest(*widths) if unknown is None else unknown


@fact
class WholeStair(Fact):
    """One stair of common form, with the landings at its ends and between its flights."""

    stair: Stair
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[WholeStair]:
        """Yield every stair of common form."""
        yield from (cls(stair, stair, house) for stair in house.subjects(Stair) if stair.is_common_form)

    @property
    def exemption(self) -> Exemption | None:
        """What the code may free the stair by."""
        return stair_exemption(self.stair, self.house)


@fact
class FormedStair(Fact):
    """One stair of whatever form. `serves` are rooms made on a story where nobody lived."""

    stair: Stair
    serves: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[FormedStair]:
        """Yield every stair."""
        yield from (cls(stair, stair, rooms_newly_served(stair, house)) for stair in house.subjects(Stair))


def is_outdoors(stair: Stair, house: House) -> bool:
    """Return whether one end of `stair` is outside, or on a porch, deck or carport."""
    spaces = (house.space(side) for side in stair.between)
    return any(space is None or space.use in OUTDOOR for space in spaces)


def _spread(measured: tuple[Length, ...], one_for_all: Any) -> Length | Missing:
    if measured:
        return max(measured) - min(measured)
    return one_for_all if is_missing(one_for_all) else Length(0)


def _asked(missing: Missing | None, otherwise: str) -> Check:
    return does_not_apply(otherwise) if missing is None else not_shown(missing)
