"""Sizes that an existing stair may keep, where the jurisdiction gives them."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Check,
    Fact,
    Flight,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Stair,
    all_of,
    all_risers,
    at_least,
    at_most,
    climb_of,
    fact,
    first_given,
    rule,
    when_given,
)


@fact
class FlightThatStays(Fact):
    """One flight of an existing stair of common form, with its tallest riser and its shallowest tread."""

    riser: Length | Missing
    tread: Length | Missing
    width: Length | Missing
    headroom: Length | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[FlightThatStays]:
        """Yield every flight of every stair that stands and stays."""
        for stair in house.subjects(Stair):
            if stair.is_existing and stair.is_common_form:
                for flight in stair.flights:
                    width, headroom = (
                        first_given(flight.width, stair.width),
                        first_given(flight.headroom, stair.headroom),
                    )
                    tread = min(flight.tread_depths) if flight.tread_depths else flight.tread
                    yield cls(flight, _riser(flight, stair, house), tread, width, headroom)


def _riser(flight: Flight, stair: Stair, house: House) -> Length | Missing:
    """Return the tallest riser: as measured, as stated, else the climb of the stair shared among its risers."""
    if flight.riser_heights:
        return max(flight.riser_heights)
    shared = when_given(
        lambda climb, count: climb / count if count else flight.riser, climb_of(stair, house), all_risers(stair)
    )
    return first_given(flight.riser, shared)


class KeptLimits(Limits):
    riser: Limit[Length]
    tread: Limit[Length]
    width: Limit[Length]
    headroom: Limit[Length]


@rule("existing.stair", stage="plan", existing="must comply")
def stair(flight: FlightThatStays, limit: KeptLimits) -> Check:
    """Where the jurisdiction gives sizes that an existing stair may keep, the stair that stays is within them."""
    return all_of(
        at_most(flight.riser, limit.riser),
        at_least(flight.tread, limit.tread),
        at_least(flight.width, limit.width),
        at_least(flight.headroom, limit.headroom),
    ).or_fix("rebuild the stair, or ask the building official")
