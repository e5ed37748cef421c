"""Lays out a compliant stair in the run that is available, or says that there is none."""

from __future__ import annotations

from math import ceil, floor
from typing import Any, NamedTuple

from precheck import Flight, Length, Missing, NewValue, Stair, is_missing


class RunAndWidth(NamedTuple):
    """What a straight stair of one flight takes in plan: its run, and its width."""

    run: Length
    width: Length


def drawn_box(stair: Stair) -> RunAndWidth | None:
    """Return what a straight stair of one flight takes as drawn in plan; None where it turns, or is not drawn so."""
    box = _plain_rectangle(stair)
    if box is None or is_missing(stair.climbs):
        return None
    return RunAndWidth(box.width, box.depth) if stair.climbs in ("left", "right") else RunAndWidth(box.depth, box.width)


def width_drawn(stair: Stair, stated: Length | Missing) -> Length | Missing:
    """Return the clear width: as stated or as drawn, whichever is less. Which side is the width hangs on how it climbs."""
    drawn, box = drawn_box(stair), _plain_rectangle(stair)
    if drawn is not None:
        return drawn.width if is_missing(stated) else min(stated, drawn.width)
    if box is None or is_missing(stated) or min(box.width, box.depth) >= stated:
        return stated
    return stair.absent("climbs")


def room_for(flight: Flight) -> Length | Missing:
    """Return the run that there is for the treads of a flight: as stated or as drawn, whichever is less.

    Where a stair does not say which way it climbs, its longer side is the most that it can be.
    """
    drawn, box, stated = drawn_box(flight.owner), _plain_rectangle(flight.owner), flight.run_available
    if box is None or not is_missing(flight.winders):
        return stated
    run = max(box.width, box.depth) if drawn is None else drawn.run
    return run if is_missing(stated) else min(stated, run)


def _plain_rectangle(stair: Stair) -> Any:
    """Return the rectangle of a straight stair of one flight; None of one that turns, or is not drawn."""
    plain = (is_missing(stair.form) or stair.form == "straight") and len(stair.flights) == 1
    return stair.rectangle if plain and not is_missing(stair.rectangle) else None


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


def layout_of(stair: Stair, rise: Length, tallest: Length, tread: Length) -> Layout | None:
    """Return the layout with the fewest risers that fits the runs of a stair; None where none fits."""
    return lay_out(rise, tallest, tread, tuple(map(room_for, stair.flights)))


def layout_in_words(stair: Stair, rise: Length, tallest: Length, tread: Length) -> str:
    """Name the layout with the fewest risers that fits, for the whole stair; or say that none fits."""
    if layout := layout_of(stair, rise, tallest, tread):
        return str(layout)
    runs = [room_for(flight) for flight in stair.flights]
    room = " and ".join(str(run) for run in runs if not is_missing(run))
    count = fewest_risers(rise, tallest)
    needed = tread * (count - len(runs))
    return (
        f"no straight layout fits: {count} risers need {needed} of run, {room} is available; turn or lengthen the stair"
    )


def laid_out(stair: Stair, rise: Length, tallest: Length, tread: Length) -> list[NewValue]:
    """Return the numbers of the layout that fits; risers that were measured one by one are built, and go by hand."""
    layout = layout_of(stair, rise, tallest, tread)
    unplaced = is_missing(stair.risers) and not any("risers" in one.model_fields_set for one in stair.flights)
    if layout is None or unplaced or any(one.riser_heights or one.tread_depths for one in stair.flights):
        return []
    found = [] if is_missing(stair.risers) else [NewValue(stair, "risers", sum(layout.risers))]
    for flight, count in zip(stair.flights, layout.risers, strict=True):
        found += _in_flight(flight, count, layout, alone=len(stair.flights) == 1)
    return found


def _in_flight(flight: Flight, count: int, layout: Layout, alone: bool) -> list[NewValue]:
    """Return what becomes of the numbers that a flight gives; `alone` it may leave its risers and its rise to the stair."""
    found = [] if alone and is_missing(flight.risers) else [NewValue(flight, "risers", count)]
    if not alone and not is_missing(flight.rise):
        found.append(NewValue(flight, "rise", (layout.riser * count).rounded()))
    if not is_missing(flight.riser):
        found.append(NewValue(flight, "riser", layout.riser.rounded()))
    if not is_missing(flight.tread) and not is_missing(room_for(flight)):
        found.append(NewValue(flight, "tread", layout.tread))
    return found
