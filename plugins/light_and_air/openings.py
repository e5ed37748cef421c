"""How much glass a room has, and how much of it opens, with what is known for sure and what it can come to at most.

A glazed or openable area counts as shown only where it is stated; a clear opening is at least openable. The size of the
whole unit says only what the area cannot exceed: it can show that a room falls short, never that it complies.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import field
from math import ceil
from typing import Any

from precheck import (
    Area,
    Check,
    Door,
    House,
    Limit,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Ratio,
    Skylight,
    Space,
    WidthHeight,
    Window,
    at_least,
    fixed,
    is_missing,
    is_under,
    missing_of,
    outlook_of,
)

SOLID_DOORS = frozenset(("solid wood", "solid steel", "honeycomb steel", "hollow core"))
ROOFED = frozenset(("porch", "carport", "sunroom"))
HALF_FIXED = frozenset(("single hung", "double hung", "slider"))
UNDER_ROOF = frozenset(("porch", "carport"))

SQUARE_FOOT = Area.parse("1 sq ft")

Measured = tuple[Area, Area | None, Missing | None]  # at least, at most (None: no telling), what is lacking


@fixed
class Total:
    """The sum over the openings of a room: at least `sure`, at most `most`, and what would settle it."""

    sure: Area = field(default_factory=lambda: Area(0))
    most: Area | None = field(default_factory=lambda: Area(0))
    lacking: Missing | None = None
    names: tuple[str, ...] = ()

    def plus(self, name: str, one: Measured) -> Total:
        """Return the total with one more opening."""
        sure, most, lacking = one
        total_most = None if self.most is None or most is None else self.most + most
        needs = missing_of(self.lacking, lacking)
        return Total(self.sure + sure, total_most, needs, (*self.names, name) if most is None or most.n else self.names)

    def and_of(self, other: Total) -> Total:
        """Return the total of two rooms."""
        most = None if self.most is None or other.most is None else self.most + other.most
        needs = missing_of(self.lacking, other.lacking)
        return Total(self.sure + other.sure, most, needs, (*self.names, *other.names))


def glazed(opening: Opening | Skylight) -> Measured:
    """Return the glazed area of an opening."""
    if not is_missing(opening.glazed_area):
        return opening.glazed_area, opening.glazed_area, None
    if isinstance(opening, Door) and not is_missing(opening.construction) and opening.construction in SOLID_DOORS:
        return Area(0), Area(0), None
    if isinstance(opening, Skylight):
        return Area(0), None, opening.glazed_area
    return Area(0), _unit(opening), opening.glazed_area


def openable(opening: Opening | Skylight) -> Measured:
    """Return the area of an opening that opens: as stated, and no less than its clear opening; none of a fixed window."""
    if isinstance(opening, Window) and not opening.can_open:
        return Area(0), Area(0), None
    if not is_missing(opening.openable_area):
        return opening.openable_area, opening.openable_area, None
    if isinstance(opening, Skylight):
        return Area(0), None, opening.openable_area
    clear = opening.clear_area
    if isinstance(opening, Door) and is_missing(clear) and not is_missing(opening.clear_width):
        clear = opening.clear_height if is_missing(opening.clear_height) else opening.clear_width * opening.clear_height
    return clear if isinstance(clear, Area) else Area(0), _unit(opening), opening.openable_area


def _unit(opening: Opening) -> Area | None:
    return opening.unit_size.area if isinstance(opening.unit_size, WidthHeight) else None


@fixed
class Outlook:
    """An opening of a room, and the roofed space that it looks into or under; None where it is open to the sky.

    `under_deck` says that it faces the area under a deck or cantilever.
    """

    opening: Opening | Skylight
    under: Space | None
    unknown: Missing | None = None
    under_deck: bool = False


def outlooks(room: Space, house: House) -> list[Outlook]:
    """Return the openings of `room` that look outdoors, straight or through a roofed space; never into another room."""
    return house.once(_outlooks, room)


def _outlooks(room: Space, house: House) -> list[Outlook]:
    windows_and_doors = (_outlook(o, room, house) for o in house.openings_of(room))
    skylights = (Outlook(s, None) for s in house.project.skylights if s.space == room.id and not s.is_removed)
    return [*(o for o in windows_and_doors if o is not None), *skylights]


def _outlook(opening: Opening, room: Space, house: House) -> Outlook | None:
    """Return what `opening` looks on; None where it looks into another room, a garage or nothing that is outdoors."""
    if opening.opens_to == "garage":
        return None
    seen = outlook_of(opening, room, house)
    if any(space.use not in (*ROOFED, "deck") for space in seen):
        return None
    roofs = [space for space in seen if space.use in ROOFED]
    if roofs:
        return Outlook(opening, roofs[0])
    if opening.opens_to == "under deck" or any(is_under(space, room, opening, house) for space in seen):
        return Outlook(opening, None, under_deck=True)
    unsaid = not seen and not is_missing(opening.opens_to) and opening.opens_to in UNDER_ROOF
    return Outlook(opening, None, opening.looks_under if unsaid and is_missing(opening.looks_under) else None)


def total(
    room: Space,
    house: House,
    measure: Callable[[Opening | Skylight], Measured],
    counts: Callable[[Outlook], Check | None] | None = None,
) -> Total:
    """Return the sum over the openings of `room`; `counts` judges those that look into a roofed space."""
    found = Total()
    for outlook in outlooks(room, house):
        measured = _as_it_counts(
            measure(outlook.opening),
            outlook,
            counts(outlook) if counts and (outlook.under or outlook.under_deck) else None,
        )
        found = found.plus(outlook.opening.id, measured)
    return found


def _as_it_counts(measured: Measured, outlook: Outlook, check: Check | None) -> Measured:
    """Return what an opening adds: all, nothing where its outlook does not do, at most all where that is not shown."""
    if outlook.unknown is not None:
        return Area(0), measured[1], outlook.unknown
    if check is None or check.outcome in (Outcome.PASS, Outcome.WARN, Outcome.DOES_NOT_APPLY):
        return measured
    if check.outcome is Outcome.NOT_SHOWN:
        return Area(0), measured[1], Missing(*check.needs)
    return Area(0), Area(0), None


def share(found: Total, floor: Area | Missing, limit: Limit[Ratio], what: str) -> Check:
    """Check `found` as a share of the floor: met by what is sure, not met where the most it can be falls short."""
    if is_missing(floor) or limit.value is None or is_missing(limit.value):
        return at_least(floor, limit)
    sure = Ratio(found.sure / floor)
    if sure >= limit.value or found.lacking is None:
        return at_least(sure, limit, f"{found.sure} of {what} / {floor} of floor").or_fix(
            lambda: f"add {_shortfall(found.sure, floor, limit.value)} of {what}"
        )
    if found.most is not None and Ratio(found.most / floor) < limit.value:
        how = f"{found.most}, the whole of {', '.join(found.names)}, / {floor} of floor"
        return at_least(Ratio(found.most / floor), limit, how).or_fix(
            lambda: f"add more than {_shortfall(found.most or found.sure, floor, limit.value)} of {what}"
        )
    return at_least(found.lacking, limit)


def enlarged(room: Space, house: House, field: str, more: Area, opens: Any = None) -> list[NewValue]:
    """Return the first window in the open whose unit has room for `more` of glass or opening, made larger by that.

    `opens` is how much of a unit opens at most where its kind has half of it fixed, or is not given.
    """
    for outlook in outlooks(room, house):
        opening, own = outlook.opening, getattr(outlook.opening, field)
        if is_missing(own) or outlook.under is not None or outlook.under_deck or outlook.unknown is not None:
            continue
        most = None if isinstance(opening, Skylight) else _room_in(opening, opens)
        hundredths = ceil((own + more).n * 100 / SQUARE_FOOT.n)
        larger = Area.parse(f"{hundredths / 100} sq ft")
        if most is None or larger <= most:
            return [NewValue(opening, field, larger)]
    return []


def _room_in(opening: Opening, opens: Any) -> Area | None:
    unit = _unit(opening)
    half_fixed = isinstance(opening, Window) and (is_missing(opening.operation) or opening.operation in HALF_FIXED)
    return unit * opens.n if unit is not None and half_fixed and isinstance(opens, Ratio) else unit


def area(found: Total, limit: Limit[Area]) -> Check:
    """Check `found` against an area, in the same way."""
    if limit.value is None or is_missing(limit.value) or found.lacking is None or found.sure >= limit.value:
        return at_least(found.sure, limit)
    if found.most is not None and found.most < limit.value:
        return at_least(found.most, limit, f"the whole of {', '.join(found.names)}")
    return at_least(found.lacking, limit)


def _shortfall(have: Area, floor: Area, least: Ratio) -> Area:
    return floor * least.n - have


def together(floors: Iterable[Area | Missing]) -> Area | Missing:
    """Return the sum of floor areas."""
    total_floor: Area | Missing = Area(0)
    for floor in floors:
        total_floor = total_floor + floor
    return total_floor
