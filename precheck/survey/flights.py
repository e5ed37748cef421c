"""Flights of stairs, whatever their form: risers, rise and what they lead to.

Where two statements tell the same thing, such as a total rise and the finished floors, the one that makes the stair
climb higher counts; rules hold them against each other.
"""

from __future__ import annotations

from precheck.files.missing import Missing, first_given, is_missing, when_given
from precheck.project import Flight, Space, Stair
from precheck.survey.house import House
from precheck.units import Length

ROUNDED = Length.parse("1/32 in")  # drawings give a riser to 1/16 in


def risers_of(flight: Flight) -> int | Missing:
    """Return the number of risers: as stated, else those of a stair of one flight, else as measured one by one.

    Where fewer are stated than are measured, those that are measured count. A measured list counts them only where a
    rise confirms that it holds them all.
    """
    stated = stated_risers(flight)
    measured = len(flight.riser_heights)
    if not is_missing(stated):
        return max(stated, measured)
    return measured if measured and _covers_rise(flight) else stated


def stated_risers(flight: Flight) -> int | Missing:
    """Return the number of risers that the plans state."""
    return first_given(flight.risers, flight.owner.risers) if _is_whole(flight) else flight.risers


def all_risers(stair: Stair) -> int | Missing:
    """Return the number of risers from bottom to top: as stated, or counted over the flights where they come to more."""
    counts = [risers_of(flight) for flight in stair.flights]
    given = [count for count in counts if not is_missing(count)]
    if len(given) < len(counts):
        return stair.risers
    return sum(given) if is_missing(stair.risers) else max(sum(given), stair.risers)


def climb_of(stair: Stair, house: House) -> Length | Missing:
    """Return how high `stair` climbs: its total rise as stated, or finished floor to finished floor where that is more."""
    return largest(stair.total_rise, floors_apart(stair, house))


def floors_apart(stair: Stair, house: House) -> Length | Missing:
    """Return the difference of the finished floors that `stair` joins."""
    lower, upper = (house.space(side) for side in house.ends(stair))
    if lower is None or upper is None:
        return stair.absent("total rise")
    difference = house.finished_floor(upper) - house.finished_floor(lower)
    if is_missing(difference) or not difference.n:  # a stair joins two levels, so equal ones tell nothing
        return stair.absent("total rise")
    apart: Length = abs(difference)
    return apart


def rise_of(flight: Flight, house: House) -> Length | Missing:
    """Return how high one flight climbs: by what is stated of it, else its share of what the stair has left."""
    if _is_whole(flight):
        return largest(flight.rise, climb_of(flight.owner, house), _own_rise(flight))
    own = _own_rise(flight)
    shared = when_given(lambda riser, count: riser * count, shared_riser(flight.owner, house), risers_of(flight))
    return largest(flight.rise, own) if not is_missing(own) or not is_missing(flight.rise) else shared


def shared_riser(stair: Stair, house: House) -> Length | Missing:
    """Return the riser of the flights whose rise is not given: what is left of the climb, shared equally among them."""
    known = [own for flight in stair.flights if not is_missing(own := _own_rise(flight))]
    rest = [risers_of(flight) for flight in stair.flights if is_missing(_own_rise(flight))]
    count = when_given(lambda *counts: sum(counts), *rest) if rest else stair.risers
    left = climb_of(stair, house) - sum(known, Length(0))
    if not is_missing(left) and (not left.n > 0 or count == 0):
        return stair.absent("total rise")
    return when_given(_share, left, count)


def equal_riser(flight: Flight, house: House) -> Length | Missing:
    """Return the rise of a flight shared equally among its risers."""
    count = risers_of(flight)
    if count == 0:
        return flight.absent("risers")
    return when_given(_share, rise_of(flight, house), count)


def tallest_riser(flight: Flight, house: House) -> Length | Missing:
    """Return the tallest riser: as measured; as stated, or what rise and count come to where that is more.

    Where not all are measured one of the others may be taller: one is as tall as they are on the average.
    """
    equal = equal_riser(flight, house)
    if flight.riser_heights:
        tallest = max(flight.riser_heights)
        partly = risers_not_measured(flight) is not None and not is_missing(equal)
        return equal if partly and equal - tallest > ROUNDED else tallest
    if is_missing(flight.riser) or is_missing(equal):
        return equal if is_missing(flight.riser) else flight.riser
    return equal if equal - flight.riser > ROUNDED else flight.riser


def risers_not_measured(flight: Flight) -> Missing | None:
    """Return what is missing where a list of riser heights does not hold them all; None where it does, or there is none."""
    measured = len(flight.riser_heights)
    count = risers_of(flight)
    if not measured:
        return None
    if is_missing(count):
        return count
    return flight.absent(f"riser heights (all {count} of them)") if measured < count else None


def treads_not_measured(flight: Flight) -> Missing | None:
    """Return what is missing where a list of tread depths does not hold them all.

    A flight has one tread fewer than risers; winders have a list of their own.
    """
    if not flight.tread_depths:
        return None
    winders = 0 if is_missing(flight.winders) else flight.winders.count
    count = when_given(lambda risers, turned: risers - 1 - turned, risers_of(flight), winders)
    if is_missing(count):
        return count
    return flight.absent(f"tread depths (all {count} of them)") if len(flight.tread_depths) < count else None


def upper_space(stair: Stair, house: House) -> Space | None:
    """Return the space at the top of `stair`; None for the outside."""
    return house.space(house.ends(stair)[1])


def largest(*values: Length | Missing) -> Length | Missing:
    """Return the largest of the lengths that are given, or the first absence where none is."""
    known = [value for value in values if not is_missing(value)]
    return max(known) if known else values[0]


def _share(rise: Length, risers: int) -> Length:
    return rise / risers


def _own_rise(flight: Flight) -> Length | Missing:
    """Return the rise that a flight states, its measured risers add up to, or its riser and their number come to."""
    if not is_missing(flight.rise):
        return flight.rise
    if flight.riser_heights:
        missing = risers_not_measured(flight)
        return sum(flight.riser_heights[1:], start=flight.riser_heights[0]) if missing is None else missing
    return when_given(lambda riser, count: riser * count, flight.riser, risers_of(flight))


def _covers_rise(flight: Flight) -> bool:
    """Whether the measured risers add up to the rise that is stated, so that none of them is left out."""
    rise = first_given(flight.rise, flight.owner.total_rise) if _is_whole(flight) else flight.rise
    summed = sum(flight.riser_heights[1:], start=flight.riser_heights[0])
    return not is_missing(rise) and rise - summed <= ROUNDED * len(flight.riser_heights)


def _is_whole(flight: Flight) -> bool:
    return len(flight.owner.flights) == 1
