"""Ceiling heights: rooms, baths, halls, slopes, beams and ducts, existing basements and attics."""

from __future__ import annotations

from typing import Any

from precheck_plugins.ceilings.rooms import BATHS, RoomHeight, is_converted, is_regulated, lowest_point

from precheck import (
    Area,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    Space,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
    when_given,
)


class HeightLimits(Limits):
    habitable: Limit[Length]
    bath: Limit[Length]
    basement_nonhabitable: Limit[Length]
    existing_habitable: Limit[Length]
    existing_bath: Limit[Length]


@rule("ceilings.height", stage="framing")
def height(room: RoomHeight, limit: HeightLimits, house: House) -> Check:
    """Finished floor to finished ceiling is high enough for the use of the room.

    Existing basements and attics that are made into rooms get the lower height that later editions grant them. Under a
    slope a bath needs the height where people stand before the fixtures, which a plan alone does not settle.
    """
    space = room.space
    if space.has_slope:
        return _under_slope(space, limit, house)
    tall = lower_height(space, house)
    due = _due(space, tall, limit, house)
    return not_shown(space.use) if is_missing(space.use) and due.outcome is Outcome.FAIL else due


def lower_height(space: Space, house: House) -> Length | Missing:
    """Return the ceiling height as stated or as built up, the lower where both are given."""
    stated, built_up = house.ceiling_height(space), house.built_up_ceiling(space)
    return stated if is_missing(stated) or is_missing(built_up) else min(stated, built_up)


def _due(space: Space, tall: Length | Missing, limit: HeightLimits, house: House) -> Check:
    """Return the check that the use and story of `space` call for; strict where the use is not given."""

    def over(least: Limit[Length]) -> Check:
        return at_least(tall, least, lambda: _how(space, house)).or_fix(
            lambda: _gain(space, tall, least, house), lambda: _higher(space, least.value, house)
        )

    if space.use in BATHS:
        return _or_relieved(space, over(limit.bath), limit.existing_bath, over(limit.existing_bath), house)
    if space.is_habitable or space.use == "hall" or is_missing(space.use):
        relieved = over(limit.existing_habitable)
        return _or_relieved(space, over(limit.habitable), limit.existing_habitable, relieved, house)
    if house.story_level(space) == "basement" and space.use not in ("crawl space", "garage"):
        return over(limit.basement_nonhabitable)
    return does_not_apply(f"no ceiling height is set for {space.use}")


def _or_relieved(space: Space, full: Check, relief: Limit[Length], relieved: Check, house: House) -> Check:
    """Return the check of the lower height where the code grants one to rooms in existing basements and attics."""
    return full if relief.value is None else decide(is_converted(space, house), relieved, full)


def _under_slope(space: Space, limit: HeightLimits, house: House) -> Check:
    if space.is_habitable:
        return does_not_apply("the ceiling slopes, which the rule for sloped ceilings judges")
    lowest = _due(space, lowest_point(space), limit, house)
    if lowest.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY):
        return lowest
    return look_at(Look.OFFICIAL, f"show the height of {space.id} where people stand and walk; the rest may be lower")


def _how(space: Space, house: House) -> str:
    ceiling = space.ceiling
    if is_missing(ceiling) or (not is_missing(ceiling.height) and ceiling.height == lower_height(space, house)):
        return "as stated"
    if space.has_slope:
        return "lowest point of the profile"
    return f"framing at {ceiling.framing_level}, less ceiling finish, finished floor at {house.finished_floor(space)}"


def _gain(space: Space, tall: Length | Missing, least: Limit[Length], house: House) -> str:
    short = least.value - tall
    floor = house.floor(space)
    built_up = floor.layers if floor is not None else ()
    where = "thin the floor build-up" if built_up else "lower the floor"
    return f"gain {short}: {where} or raise the ceiling framing"


def _higher(space: Space, least: Length, house: House) -> list[NewValue]:
    """Return the ceiling height, and the level of the framing above it, that give the room its height."""
    ceiling, built_up = space.ceiling, house.built_up_ceiling(space)
    found = []
    if not is_missing(ceiling.height) and ceiling.height < least:
        found.append(NewValue(ceiling, "height", least))
    if not is_missing(built_up) and built_up < least:
        found.append(NewValue(ceiling, "framing_level", ceiling.framing_level + (least - built_up)))
    return found


class SlopedLimits(Limits):
    full_height_share: Limit[Ratio]
    counted_from: Limit[Length]
    required_area: Limit[Area]
    habitable: Limit[Length] = reads("ceilings.height.habitable")
    existing_habitable: Limit[Length] = reads("ceilings.height.existing-habitable")


@rule("ceilings.sloped", stage="framing")
def sloped(room: RoomHeight, limit: SlopedLimits, house: House) -> Check:
    """Under a slope, half of the required floor area has the full height, and floor under a low ceiling does not count."""
    space = room.space
    if not space.has_slope or not space.is_habitable:
        return does_not_apply("not a habitable room with a sloped ceiling")
    if space.use == "kitchen":
        return look_at(Look.OFFICIAL, "the code sets no floor area for a kitchen, half of which would count")
    full = _sloped_to(space, limit.habitable, limit, house)
    if limit.existing_habitable.value is None:
        return full
    relieved = _sloped_to(space, limit.existing_habitable, limit, house)
    return decide(is_converted(space, house), relieved, full)


def _sloped_to(space: Space, full: Limit[Length], limit: SlopedLimits, house: House) -> Check:
    """Return the check of both areas, with `full` as the height of a whole ceiling."""
    ceiling, least = space.ceiling, limit.required_area.value
    unset = missing_of(full.value, limit.counted_from.value, least)
    if unset is not None:
        return not_shown(unset)
    if full.value is None or limit.counted_from.value is None or least is None:
        return does_not_apply("the adopted code sets no height or no required area under a slope")
    tall = _smaller(ceiling.area_at_full_height, house.area_under_slope(space, full.value))
    counted = _smaller(ceiling.area_above_lowest, house.area_under_slope(space, limit.counted_from.value))
    share = when_given(lambda area, needed: Ratio(area / needed), tall, least)
    half = at_least(share, limit.full_height_share, lambda: f"{tall} at {full.value} or more / {least} required")
    enough = at_least(
        counted, limit.required_area, lambda: f"floor under {limit.counted_from.value} or more of ceiling"
    )
    return all_of(
        half.or_fix(
            lambda: f"build a dormer, until {limit.full_height_share.value} of {least} has {full.value}",
            lambda: _stated_area(ceiling, "area_at_full_height", least * limit.full_height_share.value.n),
        ),
        enough.or_fix(
            lambda: f"move the knee walls out, until {least} has {limit.counted_from.value} or more",
            lambda: _stated_area(ceiling, "area_above_lowest", least),
        ),
    )


def _stated_area(ceiling: Any, field: str, area: Area) -> list[NewValue]:
    """Return the area as it is to be stated; a ceiling that is drawn has to be drawn anew."""
    return [] if ceiling.profile or is_missing(getattr(ceiling, field)) else [NewValue(ceiling, field, area)]


def _smaller(stated: Area | Missing, drawn: Area | Missing) -> Area | Missing:
    """Return an area as stated or as the profile gives it, the smaller where both are given."""
    if is_missing(stated) or is_missing(drawn):
        return drawn if is_missing(stated) else stated
    return min(stated, drawn)


class DropLimits(Limits):
    basement: Limit[Length]
    existing: Limit[Length]
    spaced: Limit[Length]
    spacing: Limit[Length]
    habitable: Limit[Length] = reads("ceilings.height.habitable")
    bath: Limit[Length] = reads("ceilings.height.bath")


@rule("ceilings.drops", stage="framing")
def drops(room: RoomHeight, limit: DropLimits, house: House) -> Check:
    """Beams, ducts and other things below the ceiling leave the height of the room or the lower one granted."""
    space = room.space
    ceiling = space.ceiling
    if is_missing(ceiling) or not ceiling.drops:
        return does_not_apply("nothing is drawn below the ceiling")
    below = when_given(lambda level: level == "basement", house.story_level(space))
    full = limit.bath if space.use in BATHS else limit.habitable
    each = [_drop(at, drop, limit, full, below, space, house) for at, drop in enumerate(ceiling.drops, 1)]
    found = all_of(*each).or_fix(lambda: "; ".join(check.remedy for check in each if check.remedy))
    return (
        found if is_regulated(space) or below is True else does_not_apply(f"no ceiling height is set for {space.use}")
    )


def _drop(at: int, drop: Any, limit: DropLimits, room: Limit[Length], below: Any, space: Space, house: House) -> Check:
    height = drop.clear_height
    full = at_least(height, room)
    converted = is_converted(space, house)
    ways, granted = [full], [room]
    if below is not False:
        ways.append(decide(below, at_least(height, limit.basement), full))
        granted += [limit.basement] if below is True else []
    if converted is not False and limit.existing.value is not None:
        ways.append(decide(converted, at_least(height, limit.existing), full))
        granted += [limit.existing] if converted is True else []
    if drop.what in ("beam", "girder") and limit.spaced.value is not None:
        ways.append(all_of(at_least(height, limit.spaced), at_least(drop.clear_spacing, limit.spacing)))
    heights = [one.value for one in granted if isinstance(one.value, Length)]
    raised = [NewValue(drop, "clear_height", min(heights))] if heights and not is_missing(height) else []
    return any_of(*ways).or_fix(lambda: _raised(at, drop, heights, limit), lambda: raised)


def _raised(at: int, drop: Any, heights: list[Length], limit: DropLimits) -> str:
    """Return by how much the drop has to rise to the lowest height that is granted, or what lets a beam hang lower."""
    if is_missing(drop.clear_height) or not heights:
        return ""
    height, least = drop.clear_height, min(heights)
    what = f"the {'thing' if drop.what == 'other' else drop.what} (drop {at})"
    rise = f"raise {what} by {least - height}, to {least} clear under it"
    spaced, spacing = limit.spaced.value, limit.spacing.value
    if drop.what not in ("beam", "girder") or not isinstance(spaced, Length) or spaced >= least:
        return rise
    apart = f"leave {spacing} clear between it and the next"
    return f"{rise}, or {apart}" if height >= spaced else f"{rise}, or by {spaced - height}, to {spaced}, and {apart}"


class ShowerLimits(Limits):
    height: Limit[Length]
    side: Limit[Length]


@rule("ceilings.shower", stage="framing")
def shower(room: RoomHeight, limit: ShowerLimits) -> Check:
    """A shower has headroom over a place to stand."""
    space = room.space
    ceiling = space.ceiling
    if space.use != "bathroom" or is_missing(ceiling):
        return does_not_apply("not a bathroom with a drawn ceiling")
    tall, sides = ceiling.shower_clear_height, ceiling.shower_clear_area
    if is_missing(tall) and is_missing(sides) and not space.has_slope:
        return does_not_apply("no shower is drawn under a slope")
    return all_of(at_least(tall, limit.height), at_least(sides if is_missing(sides) else min(sides), limit.side))
