"""Numbers of a stair that are given twice: risers, the rise of its flights, and the floors that it joins."""

from __future__ import annotations

from precheck_plugins.stairs.flights import StairFlight

from precheck import (
    Check,
    Flight,
    House,
    Length,
    Missing,
    Outcome,
    Stair,
    agrees,
    all_of,
    does_not_apply,
    floors_apart,
    is_missing,
    missing_of,
    rule,
    stated_risers,
    when_given,
)

RISER_ROUNDING = Length.parse("1/2 in")  # drawings round risers to 1/16 in, so 16 of them may be off by half of this


@rule("stairs.numbers-agree", stage="intake", existing="must comply")
def numbers_agree(flight: StairFlight) -> Check:
    """The risers of a flight, as stated or as measured one by one, add up to its rise."""
    drawn, rise = flight.flight, flight.drawn_rise
    if drawn.riser_heights:
        return _measured_agree(flight)
    if missing_of(drawn.riser, flight.risers, rise) is not None:
        return does_not_apply("rise, riser and number of risers are not all given, so nothing can disagree")
    how = f"{flight.risers} x {drawn.riser}"
    return agrees(rise, drawn.riser * flight.risers, "the rise of the flight", RISER_ROUNDING, how)


def _measured_agree(flight: StairFlight) -> Check:
    heights, stated = flight.flight.riser_heights, stated_risers(flight.flight)
    if not is_missing(stated) and stated < len(heights):
        return agrees(stated, len(heights), "the number of risers", derived="as measured")
    if not is_missing(stated) and stated > len(heights):
        return does_not_apply("not all risers are measured, which the rule for riser heights asks for")
    summed = sum(heights[1:], start=heights[0])
    if flight.stair.restates("riser heights") and agrees(flight.drawn_rise, summed, "").outcome is Outcome.PASS:
        return does_not_apply(
            "the risers were measured between the floors that they lead to, so they add up to the rise"
        )
    return agrees(flight.drawn_rise, summed, "the rise of the flight", RISER_ROUNDING, "the risers as measured")


@rule("stairs.total-rise-agrees", stage="intake", existing="must comply")
def total_rise_agrees(stair: Stair, house: House) -> Check:
    """The total rise agrees with the finished floors that the stair joins, and with its flights.

    A stair drawn from subfloor to subfloor has a first or last riser that is off by the thickness of the floor finish.
    """
    rises = [_rise_of(flight, len(stair.flights) > 1) for flight in stair.flights]
    within = RISER_ROUNDING if any(is_missing(flight.rise) for flight in stair.flights) else None
    summed = when_given(lambda *given: sum(given[1:], start=given[0]), *rises)
    counted = when_given(lambda *given: sum(given), *(stated_risers(flight) for flight in stair.flights))
    floors = "from finished floor to finished floor"
    by_floors = floors_apart(stair, house)
    restated = stair.restates("total rise") and agrees(stair.total_rise, by_floors, "").outcome is Outcome.PASS
    return all_of(
        does_not_apply("the total rise was taken from these floors")
        if restated
        else agrees(stair.total_rise, by_floors, "the total rise", derived=floors),
        agrees(stair.total_rise, summed, "the total rise", within, "the flights' rises"),
        agrees(summed, by_floors if is_missing(stair.total_rise) else stair.absent("total rise"), "the flights' rises",
               within, floors),
        agrees(stair.risers, counted, "the number of risers", derived="counted over the flights"),
    )  # fmt: skip


def _rise_of(flight: Flight, one_of_several: bool) -> Length | Missing:
    """Return the rise that one of several flights states, or its riser and their number come to."""
    if not one_of_several or not is_missing(flight.rise):
        return flight.rise
    return when_given(lambda riser, count: riser * count, flight.riser, flight.risers)
