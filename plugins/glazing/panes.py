"""Panes of glass: their edges above the floor, their size, and what excuses them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from precheck import (
    Area,
    Check,
    Door,
    Fact,
    Floor,
    House,
    Length,
    Limit,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Pane,
    RailBefore,
    Space,
    Window,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    first_given,
    is_missing,
    missing_of,
    outlook_of,
    required,
    when_given,
)

NO_LEAF = frozenset(("vehicle", "hatch", "cased opening"))  # no leaf that people push open
DECORATIVE = "decorative glass is excused"


@fact
class Glass(Fact):
    """One pane of an opening; `pane` is None for an opening whose panes are not drawn apart."""

    opening: Opening
    pane: Pane | None
    sill: Length | Missing

    @property
    def bottom(self) -> Length | Missing:
        """Bottom edge of the glass above the floor: as drawn, else, for a single pane, the sill, which lies no higher."""
        if self.pane is None:
            return self.sill
        return first_given(self.pane.bottom, self.sill) if len(self.opening.panes) == 1 else self.pane.bottom

    @property
    def top(self) -> Length | Missing:
        """Top edge of the glass above the floor."""
        if self.pane:
            return self.bottom + self.pane.height
        return self.sill + self.opening.unit_size.height

    @property
    def area(self) -> Area | Missing:
        """Exposed area of the pane; that of the unit is no measure of it, so it is never used."""
        if self.pane is None:
            return self.opening.absent("panes")
        return first_given(self.pane.area, when_given(lambda w, h: w * h, self.pane.width, self.pane.height))

    @property
    def largest_area(self) -> Area | Missing:
        """The most that the area can be: that of the pane, else of the whole unit."""
        unit = self.opening.unit_size
        return self.area if self.pane is not None or is_missing(unit) else unit.area

    @property
    def narrowest(self) -> Length | Missing:
        """The smaller side of the pane."""
        if self.pane is None:
            return self.opening.absent("panes")
        return when_given(min, self.pane.width, self.pane.height)

    @property
    def is_safe(self) -> Any:
        """Whether it is safety glazing: as said of the pane, else of the opening."""
        return self._of("safety_glazing", "safety_glazing")

    @property
    def made_safe(self) -> list[NewValue]:
        """The remedy for glass in a hazardous place: safety glazing in this pane."""
        return [NewValue(self.opening if self.pane is None else self.pane, "safety_glazing", "yes")]

    @property
    def is_marked(self) -> Any:
        """Whether it carries the manufacturer's permanent mark."""
        return self._of("marked", "glass_marked")

    @property
    def is_decorative(self) -> bool:
        """Whether it is said to be decorative glass."""
        return self._of("decorative", "decorative_glass") is True

    def _of(self, of_pane: str, of_opening: str) -> Any:
        whole = getattr(self.opening, of_opening)
        own = getattr(self.pane, of_pane) if self.pane else whole
        return whole if is_missing(own) else own


@fact
class WindowGlass(Glass):
    """One pane of a window, the floor that it rises from and what lies outside: old glass beside a new deck is judged anew."""

    floor: Floor | None
    outside: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[WindowGlass]:
        """Yield every pane of every window."""
        for window in house.subjects(Window):
            room = house.space(window.space)
            near = (None, ()) if room is None else (house.floor(room), outlook_of(window, room, house))
            yield from (cls(about, window, pane, house.sill_height(window), *near) for about, pane in panes_of(window))


class DoorGlass(Glass):
    """One pane of a door that has glass, or may have."""

    @classmethod
    def found_in(cls, house: House) -> Iterator[DoorGlass]:
        """Yield every pane of every door."""
        for door in house.subjects(Door):
            if is_glazed(door) is not False:
                yield from (cls(about, door, pane, Length(0)) for about, pane in panes_of(door))


def panes_of(opening: Opening) -> list[tuple[Any, Pane | None]]:
    """Return each pane with the record that shows it: the panes drawn apart, else the opening as a whole."""
    return [(pane, pane) for pane in opening.panes] or [(opening, None)]


def is_glazed(door: Door) -> bool | Missing:
    """Return whether `door` has glass; of an inside door of which nothing is said, that it is drawn solid."""
    if not is_missing(door.glazed):
        return door.glazed
    if not is_missing(door.glazed_area):
        return bool(door.glazed_area.n)
    if door.panes or door.construction == "glass" or door.safety_glazing is True:
        return True
    silent = is_missing(door.construction) and door.operation not in NO_LEAF and door.is_exterior
    return door.glazed if silent else False


def under(measured: Any, limit: Limit[Any]) -> bool | Missing:
    """Return whether `measured` is under a triggering limit; one that is void triggers nothing."""
    return False if limit.value is None else when_given(lambda own, most: own < most, measured, limit.value)


def over(measured: Any, limit: Limit[Any]) -> bool | Missing:
    """Return whether `measured` is over a triggering limit."""
    return False if limit.value is None else when_given(lambda own, least: own > least, measured, limit.value)


def within(measured: Any, limit: Limit[Any]) -> bool | Missing:
    """Return whether `measured` is no more than a triggering limit."""
    return False if limit.value is None else when_given(lambda own, most: own <= most, measured, limit.value)


def listed(choice: Any, limit: Limit[tuple[str, ...]]) -> bool | Missing:
    """Return whether `choice` is among those of a limit; a void one lists nothing."""
    return False if limit.value is None else when_given(lambda own, known: own in known, choice, limit.value)


def both(*conditions: bool | Missing) -> bool | Missing:
    """Return whether all `conditions` hold; one that does not decides, whatever is missing of the others."""
    if any(condition is False for condition in conditions):
        return False
    missing = missing_of(*conditions)
    return True if missing is None else missing


def safe_where(hazard: bool | Missing, glass: Glass, limit: Limit[bool], clear: str, why: Callable[[], str]) -> Check:
    """Return the check of one pane: safety glazing where there is a hazard, which `why` spells out.

    Safety glazing passes wherever it stands, so nothing more is asked of it.
    """
    if hazard is False:
        return does_not_apply(clear)
    if glass.is_decorative:
        return does_not_apply(DECORATIVE)
    told = why() if hazard is True else ""
    safe = required(glass.is_safe, limit).because(told)
    return safe if glass.is_safe is True else decide(hazard, safe, does_not_apply(clear))


def or_rail(safe: Check, glass: Glass, limit: Any) -> Check:
    """Return the check of a pane that need not be `safe` where a sturdy rail, within the limits, keeps people off it."""
    rail = glass.opening.rail_before
    if is_missing(rail) or safe.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY):
        return safe
    return any_of(safe, _rail(rail, limit))


def _rail(rail: RailBefore, limit: Any) -> Check:
    return all_of(
        at_least(rail.height, limit.rail_height_minimum),
        at_most(rail.height, limit.rail_height_maximum),
        at_least(rail.depth, limit.rail_depth),
        required(rail.takes_load, limit.safety_glazing, "or a rail that takes its load without touching the glass"),
    )
