"""Fire separation distance: walls, openings, projections and penetrations near a lot line."""

from __future__ import annotations

from precheck_plugins.zoning.lot_lines import FacingLine
from precheck_plugins.zoning.toward_line import OpeningsTowardLine

from precheck import (
    Area,
    Check,
    Duration,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Ratio,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    is_missing,
    met,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)

NO_WALL = "this side has no wall"


class WallLimits(Limits):
    rated_under: Limit[Length]
    sprinklered_rated_under: Limit[Length]
    rating: Limit[Duration]
    from_both_sides: Limit[bool]


@rule("fire-separation.wall", stage="framing")
def wall(side: FacingLine, limit: WallLimits, house: House) -> Check:
    """A wall close to the lot line is fire-rated, in a dwelling without sprinklers from both sides.

    The distance runs square from the face of the wall to the lot line, or to the middle of a street or alley beyond it.
    Walls square to the line are left out.
    """
    rated = at_least(side.of("wall rating"), limit.rating)
    both = required(side.of("rated from both sides"), limit.from_both_sides)
    plain = any_of(at_least(side.fire_distance, limit.rated_under), all_of(rated, both))
    watered = any_of(at_least(side.fire_distance, limit.sprinklered_rated_under), rated)
    faces = _faces(side, decide(sprinklered(house), watered, plain))
    return _where_walled(side, faces).or_fix(
        lambda: f"build a {limit.rating.value} wall, or move it to {limit.rated_under.value} from the line",
        lambda: _rated(side, limit),
    )


def _rated(side: FacingLine, limit: WallLimits) -> list[NewValue]:
    """Return the wall rated from both sides, where the plans dimension it."""
    if side.stated is None or is_missing(limit.rating.value):
        return []
    rating = NewValue(side.stated, "wall_rating", limit.rating.value)
    return [rating, NewValue(side.stated, "rated_from_both_sides", "yes")]


class OpeningLimits(Limits):
    none_under: Limit[Length]
    any_from: Limit[Length]
    share: Limit[Ratio]
    sprinklered_any_from: Limit[Length]


@rule("fire-separation.openings", stage="framing")
def openings(side: OpeningsTowardLine, limit: OpeningLimits, house: House) -> Check:
    """A wall near the lot line has no doors and windows, or few; vents of the foundation do not count."""
    none = _none(side)
    few = all_of(at_least(side.fire_distance, limit.none_under), _share(side, limit))
    plain = any_of(at_least(side.fire_distance, limit.any_from), few, none)
    watered = any_of(at_least(side.fire_distance, limit.sprinklered_any_from), none)
    faces = _faces(side, decide(sprinklered(house), watered, plain))
    return _where_walled(side, faces)


def _none(side: OpeningsTowardLine) -> Check:
    """Check that a side has no openings; one that is listed is one, whatever its size."""
    area = side.area
    if is_missing(area):
        return broken(f"{side.openings[0].label} is in it") if side.openings else not_shown(area)
    return met("no openings") if area == Area(0) else broken(f"{area} of openings")


def _share(side: OpeningsTowardLine, limit: OpeningLimits) -> Check:
    """Compare the share of openings in the wall; where the size of some is not given, the others may be too much already."""
    wall, area = side.of("wall area"), side.area
    least = side.known_area if is_missing(area) else area
    known = at_most(
        when_given(lambda all_: Ratio(least / all_), wall), limit.share, lambda: f"{least} of openings / {wall} of wall"
    )
    return at_most(area, limit.share) if is_missing(area) and known.outcome is not Outcome.FAIL else known


class ProjectionLimits(Limits):
    none_under: Limit[Length]
    free_from: Limit[Length]
    sprinklered_free_from: Limit[Length]
    underside: Limit[tuple[str, ...]]
    detached_garage_eave: Limit[Length]
    detached_garage_within: Limit[Length]


@rule("fire-separation.projections", stage="framing")
def projections(side: FacingLine, limit: ProjectionLimits, house: House) -> Check:
    """Eaves and other projections end clear of the lot line, and near it their underside is protected.

    Measured here from the outermost edge of the projection. A detached garage that stands very near the line may
    keep a small eave.
    """
    overhang = side.of("overhang")
    if not is_missing(overhang) and overhang == Length(0):
        return does_not_apply("nothing projects here")
    if is_missing(overhang) and side.is_beyond_eaves(limit.free_from.value):
        return does_not_apply(f"the wall stands {side.distance} from the line, farther than eaves reach")
    edge = side.edge_distance + side.to_middle
    how = f"{side.distance} less {overhang} of overhang"
    protected = all_of(
        at_least(edge, limit.none_under, how), one_of(side.of("overhang underside"), limit.underside)
    ).or_fix("cut the overhang back, or protect its underside")
    plain = any_of(at_least(edge, limit.free_from, how), protected)
    watered = any_of(at_least(edge, limit.sprinklered_free_from, how), protected)
    general = decide(sprinklered(house), watered, plain)
    if side.space.use == "garage" and side.space.detached is True:
        near = at_most(side.distance, limit.detached_garage_within)
        return _faces(side, any_of(general, all_of(near, at_most(overhang, limit.detached_garage_eave))))
    return _faces(side, general)


class PenetrationLimits(Limits):
    protected_under: Limit[Length]
    ways: Limit[tuple[str, ...]]


@rule("fire-separation.penetrations", stage="rough-in")
def penetrations(side: FacingLine, limit: PenetrationLimits) -> Check:
    """What passes through a wall very near the lot line is protected."""
    near = any_of(at_least(side.fire_distance, limit.protected_under), one_of(side.of("penetrations"), limit.ways))
    return _where_walled(side, _faces(side, near))


def sprinklered(house: House) -> bool | Missing:
    """Return whether the dwelling has sprinklers throughout."""
    dwelling = house.project.dwelling
    return house.project.absent("sprinklers of the dwelling") if is_missing(dwelling) else dwelling.sprinklered


def _where_walled(side: FacingLine, check: Check) -> Check:
    """Return `check`, which a side without a wall need not meet; whether it has one is asked only where that decides."""
    return check if check.outcome is Outcome.PASS else decide(side.is_open, does_not_apply(NO_WALL), check)


def _faces(side: FacingLine, check: Check) -> Check:
    return does_not_apply("this wall runs square to the lot line") if side.is_square else check
