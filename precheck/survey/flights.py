"""Flights of stairs, whatever their form: risers, rise and what they lead to."""

from __future__ import annotations

from precheck.files.missing import Missing, first_given, is_missing
from precheck.project import Flight, Space, Stair
from precheck.survey.house import House
from precheck.units import Length


def risers_of(flight: Flight) -> int | Missing:
    """Return the number of risers: as measured one by one, as stated, else those of a stair of one flight."""
    if flight.riser_heights:
        return len(flight.riser_heights)
    return first_given(flight.risers, flight.owner.risers) if _is_whole(flight) else flight.risers


def all_risers(stair: Stair) -> int | Missing:
    """Return the number of risers from bottom to top: as stated, else counted over the flights."""
    counts = [risers_of(flight) for flight in stair.flights]
    given = [count for count in counts if not is_missing(count)]
    return sum(given) if is_missing(stair.risers) and len(given) == len(counts) else stair.risers


def climb_of(stair: Stair, house: House) -> Length | Missing:
    """Return how high `stair` climbs: its total rise as stated, else finished floor to finished floor."""
    lower, upper = (house.space(side) for side in stair.between)
    if not is_missing(stair.total_rise) or lower is None or upper is None:
        return stair.total_rise
    difference = house.finished_floor(upper) - house.finished_floor(lower)
    return stair.total_rise if is_missing(difference) else abs(difference)


def upper_space(stair: Stair, house: House) -> Space | None:
    """Return the space at the top of `stair`; None for the outside."""
    return house.space(stair.between[1])


def _is_whole(flight: Flight) -> bool:
    return len(flight.owner.flights) == 1
