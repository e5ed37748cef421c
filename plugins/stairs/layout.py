"""Lays out a compliant stair in the run that is available, or says that there is none."""

from __future__ import annotations

from math import ceil, floor
from typing import NamedTuple

from precheck import Length, Missing, is_missing


class Layout(NamedTuple):
    """Risers per flight from the bottom up, the height of each riser and the depth of each tread."""

    risers: tuple[int, ...]
    riser: Length
    tread: Length

    def __str__(self) -> str:
        flights = " + ".join(map(str, self.risers))
        count = sum(self.risers)
        split = f" ({flights})" if len(self.risers) > 1 else ""
        runs = " and ".join(str(self.tread * (n - 1)) for n in self.risers)
        return f"{count} risers{split} of {self.riser} with {self.tread} treads need {runs} of run"


def fewest_risers(rise: Length, tallest: Length) -> int:
    """Return the fewest equal risers, none over `tallest`, that climb `rise`."""
    return ceil(rise / tallest)


def lay_out(rise: Length, tallest: Length, tread: Length, runs: tuple[Length | Missing, ...]) -> Layout | None:
    """Return the layout with the fewest risers that fits the runs of the flights; None where none fits.

    Each flight has one tread fewer than risers, because its top riser meets a landing or floor. A run that is not
    given is taken as long enough.
    """
    count = fewest_risers(rise, tallest)
    rooms = [None if is_missing(run) else floor(run / tread) + 1 for run in runs]
    risers = _shared_out(count, rooms)
    return None if risers is None else Layout(risers, rise / count, tread)


def _shared_out(count: int, rooms: list[int | None]) -> tuple[int, ...] | None:
    """Share `count` risers among flights as evenly as `rooms`, the most that each can hold, allow."""
    shares = [0] * len(rooms)
    for _ in range(count):
        open_flights = [i for i, room in enumerate(rooms) if room is None or shares[i] < room]
        if not open_flights:
            return None
        shares[min(open_flights, key=lambda i: shares[i])] += 1
    return tuple(shares)
