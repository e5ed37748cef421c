"""Room sizes: floor area, least width, hallways; and areas that two sheets give differently."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from precheck_plugins.rooms.narrowest import narrowest

from precheck import (
    Area,
    Ceiling,
    Check,
    DwellingUnit,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Project,
    Settled,
    Space,
    agrees,
    at_least,
    does_not_apply,
    first_given,
    is_missing,
    missing_of,
    not_shown,
    rule,
    when_given,
)

SAME_AREA = Fraction(
    2, 100
)  # an area given in whole square feet, or to other faces of the walls, is still the same area
RECTANGLE = 4  # corners
FURRED = frozenset(("duct", "other"))


class AreaLimits(Limits):
    minimum: Limit[Area]
    furred_below: Limit[Length]


@rule("rooms.area")
def area(space: Space, limit: AreaLimits, house: House) -> Check:
    """A habitable room has the minimum floor area; a kitchen may be smaller.

    Floor under furring that hangs lower than the room's ceiling height does not count; floor under a slope is judged by
    the rule for sloped ceilings.
    """
    if not might_be_lived_in(space):
        return does_not_apply("a kitchen may be smaller" if space.use == "kitchen" else "not a habitable room")
    lost = under_furring(space, limit.furred_below)
    whole = smaller_area(space, house)
    counted = whole - lost
    how = f"{whole} less {lost} under furring" if is_missing(lost) or lost.n else ""
    check = at_least(counted, limit.minimum, how)
    larger = check.or_fix(
        lambda: f"enlarge {space.id} by {limit.minimum.value - counted}",
        lambda: [] if house.outline(space) else [NewValue(space, "area", limit.minimum.value + lost)],
    )
    return if_lived_in(space, larger)


def smaller_area(space: Space, house: House) -> Area | Missing:
    """Return the floor area as stated or as drawn, the smaller where both are given."""
    stated, drawn = house.area(space), house.drawn_area(space)
    return stated if is_missing(stated) or is_missing(drawn) else min(stated, drawn)


def might_be_lived_in(space: Space) -> bool:
    """Return whether the size of `space` matters: a habitable room but a kitchen, or one whose use is not given."""
    return space.use != "kitchen" and (space.is_habitable or is_missing(space.use))


def if_lived_in(space: Space, check: Check) -> Check:
    """Return `check`, or ask for the use of `space` where that decides whether the check counts."""
    known = space.is_habitable or check.outcome in (Outcome.PASS, Outcome.WARN)
    return not_shown(space.use) if not known and is_missing(space.use) else check


def under_furring(space: Space, furred_below: Limit[Length]) -> Area | Missing:
    """Return the floor area under ducts and boxing that hang below the height from which floor counts."""
    ceiling = space.ceiling
    lost: Area | Missing = Area(0)
    if not isinstance(ceiling, Ceiling) or not ceiling.drops or furred_below.value is None:
        return lost
    if is_missing(furred_below.value):
        return furred_below.value
    for drop in ceiling.drops:
        low = is_missing(drop.clear_height) or drop.clear_height < furred_below.value
        if drop.what in FURRED and low:
            lost = lost + (drop.clear_height if is_missing(drop.clear_height) else drop.floor_under)
    return lost


class LargeRoomLimits(Limits):
    minimum: Limit[Area]


@rule("rooms.one-large-room", existing="must comply")
def one_large_room(unit: DwellingUnit, limit: LargeRoomLimits, house: House) -> Check:
    """One habitable room of a dwelling is larger than the others must be; the model code dropped this in 2015."""
    if limit.minimum.value is None:
        return does_not_apply(limit.minimum.why_void or "the adopted code asks for no larger room")
    rooms = [s for s in house.spaces if s.is_habitable and s.use != "kitchen" and unit.has(s) is not False]
    areas = {s.id: house.area(s) for s in rooms if unit.has(s) is True}
    known = {name: area for name, area in areas.items() if not is_missing(area)}
    largest = max(known, key=lambda name: known[name].n, default="")
    check = at_least(known.get(largest, Area(0)), limit.minimum, largest or "no habitable room is drawn")
    unknown = missing_of(*areas.values(), *(s.unit for s in rooms if s.id not in areas))
    return not_shown(unknown) if check.outcome is Outcome.FAIL and unknown is not None else check


class HouseLimits(Limits):
    minimum: Settled[Area]
    bedrooms: Limit[int]
    each_further: Limit[Area]


@rule("rooms.house-area", stage="intake", existing="must comply")
def house_area(project: Project, limit: HouseLimits, house: House) -> Check:
    """Where the jurisdiction says so, the whole house has a minimum floor area, which grows with its bedrooms.

    Rooms that are drawn may be part of the house alone: they can show that it is large enough, and not that it is small.
    """
    sure = house.known_floor_area
    bedrooms = first_given(project.dwelling.bedrooms, project.absent("bedrooms of dwelling"))
    stated = first_given(project.dwelling.floor_area, project.absent("floor area of dwelling"))
    grows = limit.bedrooms.value is not None and limit.each_further.value is not None
    least = limit.minimum.value
    if grows:
        amounts = (bedrooms, limit.bedrooms.value, limit.each_further.value)
        least = when_given(lambda count, first, each: limit.minimum.value + each * max(count - first, 0), *amounts)
    if is_missing(least):
        return not_shown(least)
    wanted = replace(limit.minimum, value=least)
    how = f"{bedrooms} bedrooms" if grows else ""
    check = at_least(sure, wanted, how)
    return check if is_missing(stated) and check.outcome is not Outcome.FAIL else at_least(stated, wanted, how)


class WidthLimits(Limits):
    minimum: Limit[Length]


@rule("rooms.least-width")
def least_width(space: Space, limit: WidthLimits, house: House) -> Check:
    """A habitable room is wide enough in each direction; a kitchen may be narrower."""
    if not might_be_lived_in(space):
        return does_not_apply("a kitchen may be narrower" if space.use == "kitchen" else "not a habitable room")
    width = width_of(space, house, limit.minimum)
    check = at_least(width, limit.minimum).or_fix(
        lambda: f"widen {space.id} by {limit.minimum.value - width}", lambda: _widened(space, limit.minimum, house)
    )
    return if_lived_in(space, check)


class HallLimits(Limits):
    minimum: Limit[Length]


@rule("rooms.hall-width", stage="framing")
def hall_width(space: Space, limit: HallLimits, house: House) -> Check:
    """A hall is wide enough between its finished walls."""
    if space.use != "hall":
        return does_not_apply("not a hall")
    return at_least(width_of(space, house, limit.minimum), limit.minimum).or_fix(
        lambda: f"move a wall by {limit.minimum.value - width_of(space, house, limit.minimum)}",
        lambda: _widened(space, limit.minimum, house),
    )


def _widened(space: Space, least: Limit[Length], house: House) -> list[NewValue]:
    """Return the least width as it is to be stated; a room whose outline is drawn has to be drawn anew."""
    return [] if house.outline(space) else [NewValue(space, "least_width", least.value)]


def width_of(space: Space, house: House, least: Limit[Length]) -> Length | Missing:
    """Return the least width: as stated, or of its outline.

    An outline with square corners that has a narrow place tells it only where its box is too narrow as well: what is
    narrow may be a nook, which a person tells from the room.
    """
    outline = house.outline(space)
    if outline is None:
        return space.least_width
    xs, ys = {x for x, _ in outline}, {y for _, y in outline}
    box = Length(min(max(xs) - min(xs), max(ys) - min(ys)))
    if not is_missing(space.least_width):
        return min(space.least_width, box)
    limit = None if least.value is None or is_missing(least.value) else least.value
    if limit is not None and box < limit:
        return box
    across = narrowest(outline)
    wide = across is not None and (len(outline) == RECTANGLE or limit is None or Length(across) >= limit)
    return Length(across) if across is not None and wide else space.absent("least width (its outline is no rectangle)")


@rule("rooms.areas-agree", stage="intake", existing="must comply")
def areas_agree(space: Space, house: House) -> Check:
    """The floor area that is stated agrees with the outline drawn, to within two percent."""
    drawn = house.drawn_area(space)
    within = None if is_missing(drawn) else drawn * SAME_AREA
    return agrees(space.area, drawn, f"the floor area of {space.id}", within, "as drawn")


@rule("rooms.widths-agree", stage="intake", existing="must comply")
def widths_agree(space: Space, house: House) -> Check:
    """The minimum width that is stated is no more than the outline drawn allows."""
    outline = house.outline(space)
    if is_missing(space.least_width) or outline is None:
        return does_not_apply("the smallest width is given once, so there is nothing to hold it against")
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    box = Length(min(max(xs) - min(xs), max(ys) - min(ys)))
    return agrees(
        min(space.least_width, box), space.least_width, f"the smallest width of {space.id}", None, "as stated"
    )
