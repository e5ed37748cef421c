"""Ceiling heights: rooms, baths, halls, slopes, beams and ducts, existing basements and attics."""

from __future__ import annotations

from typing import NamedTuple

from precheck_plugins.ceilings.rooms import area_at_least

from precheck import (
    Area,
    Ceiling,
    Check,
    House,
    Length,
    Limit,
    Missing,
    Ratio,
    Space,
    agrees,
    all_of,
    any_of,
    at_least,
    does_not_apply,
    every,
    is_missing,
    reads,
    rule,
    when_given,
)

BATHS = frozenset(("bathroom", "toilet room", "laundry"))
UNREGULATED = frozenset(
    ("closet", "garage", "carport", "crawl space", "porch", "deck", "workshop", "storage", "utility")
)
SAME_HEIGHT = Length.parse("1/4 in")  # two sheets that give a height this close to each other agree


class HeightLimits(NamedTuple):
    habitable: Limit[Length]
    bath: Limit[Length]
    basement_nonhabitable: Limit[Length]
    existing_habitable: Limit[Length]
    existing_bath: Limit[Length]


@rule("ceilings.height", stage="framing")
def height(space: Space, limit: HeightLimits, house: House) -> Check:
    """Finished floor to finished ceiling is high enough for the use of the room.

    Existing basements and attics that are made into rooms get the lower height that later editions grant them.
    """
    least = least_height(space, limit, house)
    if least is None:
        return does_not_apply(f"no ceiling height is set for a {space.use}")
    if has_slope(space):
        return does_not_apply("the ceiling slopes, which the rule for sloped ceilings judges")
    tall = house.ceiling_height(space)
    return at_least(tall, least, lambda: _how(space, house)).or_fix(lambda: _gain(space, tall, least, house))


def least_height(space: Space, limit: HeightLimits, house: House) -> Limit[Length] | None:
    """Return the limit for the use and storey of `space`, or None where there is none."""
    level = house.storey_level(space)
    converted = level in ("basement", "attic") and space.phase in ("altered", "existing")
    if space.use in BATHS:
        return limit.existing_bath if converted and limit.existing_bath.value is not None else limit.bath
    if space.is_habitable or space.use == "hall" or is_missing(space.use):
        relieved = converted and limit.existing_habitable.value is not None
        return limit.existing_habitable if relieved else limit.habitable
    return limit.basement_nonhabitable if level == "basement" else None


def has_slope(space: Space) -> bool:
    """Return whether the ceiling is drawn as sloped."""
    ceiling = space.ceiling
    return isinstance(ceiling, Ceiling) and (bool(ceiling.profile) or ceiling.sloped is True)


def _how(space: Space, house: House) -> str:
    ceiling = space.ceiling
    if is_missing(ceiling) or not is_missing(ceiling.height):
        return "as stated"
    return f"framing at {ceiling.framing_level}, less ceiling finish, finished floor at {house.finished_floor(space)}"


def _gain(space: Space, tall: Length | Missing, least: Limit[Length], house: House) -> str:
    short = least.value - tall
    floor = house.floor(space)
    built_up = floor.layers if floor is not None else ()
    where = "thin the floor build-up" if built_up else "lower the floor"
    return f"gain {short}: {where} or raise the ceiling framing"


@rule("ceilings.heights-agree", stage="intake", existing="must comply")
def heights_agree(space: Space, house: House) -> Check:
    """The ceiling height drawn agrees with the floor build-up and the framing level of the sheets."""
    ceiling = space.ceiling
    if is_missing(ceiling):
        return does_not_apply("no ceiling is drawn")
    return agrees(
        ceiling.height, house.built_up_ceiling(space), f"the ceiling height of {space.id}", SAME_HEIGHT, "built up"
    )


class SlopedLimits(NamedTuple):
    full_height_share: Limit[Ratio]
    counted_from: Limit[Length]
    required_area: Limit[Area]
    habitable: Limit[Length] = reads("ceilings.height.habitable")
    existing_habitable: Limit[Length] = reads("ceilings.height.existing-habitable")


@rule("ceilings.sloped", stage="framing")
def sloped(space: Space, limit: SlopedLimits, house: House) -> Check:
    """Under a slope, half of the required floor area has the full height, and no floor under a low ceiling counts."""
    ceiling = space.ceiling
    if not has_slope(space) or is_missing(ceiling) or not space.is_habitable:
        return does_not_apply("not a habitable room with a sloped ceiling")
    full = limit.habitable.value
    if house.storey_level(space) == "attic" and space.phase == "altered" and limit.existing_habitable.value is not None:
        full = limit.existing_habitable.value
    floor_area = house.area(space)
    tall, counted = ceiling.area_at_full_height, ceiling.area_above_lowest
    tall = area_at_least(space, ceiling, floor_area, full) if is_missing(tall) else tall
    if limit.counted_from.value is None or limit.required_area.value is None:
        return does_not_apply("the adopted code sets no required area under a slope")
    counted = area_at_least(space, ceiling, floor_area, limit.counted_from.value) if is_missing(counted) else counted
    share = when_given(lambda area: Ratio(area / limit.required_area.value), tall)
    return all_of(
        at_least(
            share, limit.full_height_share, lambda: f"{tall} at {full} or more / {limit.required_area.value} required"
        ),
        at_least(counted, limit.required_area, lambda: f"floor under {limit.counted_from.value} or more of ceiling"),
    )


class DropLimits(NamedTuple):
    basement: Limit[Length]
    spaced: Limit[Length]
    spacing: Limit[Length]
    habitable: Limit[Length] = reads("ceilings.height.habitable")
    bath: Limit[Length] = reads("ceilings.height.bath")


@rule("ceilings.drops", stage="framing")
def drops(space: Space, limit: DropLimits, house: House) -> Check:
    """Beams, ducts and other things below the ceiling leave the height of the room, or the lower one granted to them."""
    ceiling = space.ceiling
    if (
        is_missing(ceiling)
        or not ceiling.drops
        or (space.use in UNREGULATED and house.storey_level(space) != "basement")
    ):
        return does_not_apply("nothing is drawn below the ceiling")
    room = limit.bath if space.use in BATHS else limit.habitable
    below = house.storey_level(space) == "basement"
    return every((_drop(drop, limit, room, below) for drop in ceiling.drops), "nothing is drawn below the ceiling")


def _drop(drop: object, limit: DropLimits, room: Limit[Length], below: bool) -> Check:
    height, spacing = drop.clear_height, drop.clear_spacing  # type: ignore[attr-defined]
    ways = [at_least(height, room)]
    if below:
        ways.append(at_least(height, limit.basement))
    if drop.what in ("beam", "girder") and limit.spaced.value is not None and not is_missing(spacing):  # type: ignore[attr-defined]
        ways.append(all_of(at_least(height, limit.spaced), at_least(spacing, limit.spacing)))
    return any_of(*ways).or_fix(lambda: f"raise it, or box it at the wall; {room.value} must be clear under it")


class ShowerLimits(NamedTuple):
    height: Limit[Length]
    side: Limit[Length]


@rule("ceilings.shower", stage="framing")
def shower(space: Space, limit: ShowerLimits) -> Check:
    """A shower has headroom over a place to stand."""
    ceiling = space.ceiling
    if space.use != "bathroom" or is_missing(ceiling):
        return does_not_apply("not a bathroom with a drawn ceiling")
    if is_missing(ceiling.shower_clear_height) and is_missing(ceiling.shower_clear_area):
        return (
            does_not_apply("no shower is drawn under a slope")
            if not has_slope(space)
            else at_least(ceiling.shower_clear_height, limit.height)
        )
    sides = ceiling.shower_clear_area
    return all_of(
        at_least(ceiling.shower_clear_height, limit.height),
        at_least(sides if is_missing(sides) else min(sides), limit.side),
    )
