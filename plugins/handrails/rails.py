"""What the rules for handrails are about: flights that need one, and each handrail of a stair or ramp."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Exemption,
    Fact,
    Flight,
    Guard,
    Handrail,
    House,
    Missing,
    Ramp,
    Space,
    Stair,
    fact,
    is_missing,
    risers_of,
    rooms_newly_served,
    stair_exemption,
)

LADDERS = frozenset(("ship's ladder", "alternating tread"))  # rails of their own height, on both sides
NO_RAIL = frozenset((*LADDERS, "pull-down"))


@fact
class RailedFlight(Fact):
    """One flight of a stair and the handrails that serve it; ladders have a rule of their own.

    `serves` are rooms made on a story where nobody lived: the stair to it is judged with them, though it stands.
    """

    flight: Flight
    rails: int | Missing
    risers: int | Missing
    serves: tuple[Space, ...]
    exemption: Exemption | None = None

    @classmethod
    def found_in(cls, house: House) -> Iterator[RailedFlight]:
        """Yield every flight of every stair that people walk up facing forward."""
        for stair in house.subjects(Stair):
            if stair.form not in NO_RAIL:
                serves, freed = rooms_newly_served(stair, house), stair_exemption(stair, house)
                for flight in stair.flights:
                    yield cls(flight, flight, rails_of(flight, stair, house), risers_of(flight), serves, freed)


@fact
class Rail(Fact):
    """One handrail, with the flights along which it may run.

    `on_ladder` marks those of a ship's ladder or alternating tread device, `on_ramp` those of a ramp.
    """

    rail: Handrail
    on_ladder: bool
    on_ramp: bool = False
    flights: tuple[Flight, ...] = ()
    exemption: Exemption | None = None

    @classmethod
    def found_in(cls, house: House) -> Iterator[Rail]:
        """Yield every handrail of every stair and ramp."""
        for stair in house.subjects(Stair):
            on_ladder, freed = stair.form in LADDERS, stair_exemption(stair, house)
            yield from (cls(rail, rail, on_ladder, False, stair.flights, freed) for rail in stair.handrails)
            for flight in stair.flights:
                yield from (cls(rail, rail, on_ladder, False, (flight,), freed) for rail in flight.handrails)
        for ramp in house.subjects(Ramp):
            yield from (cls(rail, rail, False, True) for rail in ramp.handrails)

    @property
    def is_large(self) -> bool | None:
        """Whether the rail is not round; None where its profile is not given."""
        return None if is_missing(self.rail.profile) else self.rail.profile == "not round"


def rails_of(flight: Flight, stair: Stair, house: House) -> int | Missing:
    """Return how many handrails serve `flight`: those drawn, a guard that serves as one, else as counted or stated.

    Where two of these differ, the fewer count.
    """
    guards = [g for g in house.subjects(Guard) if g.along == stair.id and not g.is_removed]
    drawn = len(flight.handrails or stair.handrails) + sum(g.serves_as_handrail is True for g in guards)
    counts = [drawn] if drawn else []
    counts += [] if is_missing(flight.rails) else [flight.rails]
    counts += [0] if stair.has_handrail is False else []
    if counts:
        return min(counts)
    return stair.absent("handrails") if is_missing(stair.has_handrail) else int(stair.has_handrail)
