"""Parts of a roof: collar ties, ridge boards, purlins, uplift, hips and valleys."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.framing.drawn.bending_member import MemberInHouse
from precheck_plugins.framing.drawn.design import design_of
from precheck_plugins.framing.drawn.gable import Gable
from precheck_plugins.framing.drawn.setting import DesignLimits, inches, setting_in
from precheck_plugins.framing.drawn.wood import values_of
from precheck_plugins.framing.rules.cuts import depth_of, dressed_depth
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import dressed_section

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    NewValue,
    Ratio,
    RoofFrame,
    Slope,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    fact,
    if_stated,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

FRAMING_IN = 2
"""Nominal thickness of framing; thinner is a board."""


class CollarLimits(Limits):
    apart: Limit[Length]
    part_of_rise: Limit[Ratio]
    minimum: Limit[Length]


@rule("roof-framing.collar-ties", stage="framing")
def collar_ties(gable: Gable, limit: CollarLimits) -> Check:
    """Collar ties in the upper part of the attic, or straps over the ridge, keep the rafters on a ridge board."""
    collar = gable.frame.collar_ties
    if gable.frame.ridge == "beam":
        return does_not_apply("a ridge beam carries the rafters")
    if is_missing(collar):
        return not_shown(collar)
    if collar.what == "none":
        return broken("no collar ties or ridge straps").or_fix(
            f"collar ties or ridge straps, {limit.apart.value} apart maximum",
            lambda: [NewValue(collar, "what", "ridge straps"), NewValue(collar, "spacing", limit.apart.value)],
        )
    if collar.what == "ridge straps":
        return at_most(collar.spacing, limit.apart)
    bound = gable.of_rise(limit.part_of_rise)
    deep = when_given(lambda size: Length.parse(f"{size.split('x')[1]} in"), collar.size)
    return all_of(
        at_most(collar.spacing, limit.apart),
        at_most(collar.below_ridge, bound),
        at_least(deep, limit.minimum, "nominal depth"),
    )


class BoardLimits(Limits):
    thickness: Limit[Length]
    full_depth: Limit[Any]
    offset: Limit[Length]


@rule("roof-framing.ridge-board", stage="framing")
def ridge_board(gable: Gable, limit: BoardLimits) -> Check:
    """A ridge board is thick enough and as deep as the cut end of the rafters, which meet on it opposite each other."""
    frame = gable.frame
    if frame.ridge != "board":
        return not_shown(frame.ridge) if is_missing(frame.ridge) else does_not_apply("it has no ridge board")
    thick = when_given(lambda size: Length.parse(f"{size.split('x')[0]} in"), frame.ridge_size)
    deep = when_given(lambda size: dressed_depth(size, frame), frame.ridge_size)
    cut = when_given(
        _plumb_cut, depth_of(gable.rafters) if not is_missing(gable.rafters) else gable.rafters, gable.slope
    )
    bound = limit.full_depth if limit.full_depth.value is None else replace(limit.full_depth, value=cut)
    return all_of(
        at_least(thick, limit.thickness, "nominal"),
        at_least(deep, bound),
        if_stated(frame.offset_at_ridge, at_most, limit.offset),
    )


def _plumb_cut(depth: Length, slope: Slope) -> Length:
    """Depth of the rafter over the cosine of its slope, to the nearest 1/16 in."""
    long = inches(depth) * (1 + float(slope.n) ** 2) ** 0.5
    return Length.parse("1 in") * Fraction(round(long * 16), 16)


class PurlinLimits(DesignLimits):
    brace_spacing: Limit[Length]
    brace_length: Limit[Length]
    steepness: Limit[Slope]
    as_deep_as_rafter: Limit[bool]


@rule("roof-framing.purlins", stage="framing")
def purlins(gable: Gable, limit: PurlinLimits) -> Check:
    """Purlins are as deep as the rafters need to be, and braced to bearing walls closely and steeply.

    Rafters may be deeper than they need to be: some as deep as the purlins are tried under the same loads.
    """
    purlins = gable.frame.purlins
    if is_missing(purlins):
        return does_not_apply("no purlins are drawn")
    size, rafter = purlins.size, gable.rafters.size
    deep = when_given(lambda own, other: int(own.split("x")[1]) >= int(other.split("x")[1]), size, rafter)
    return all_of(
        required(True if deep is False and _need_not_be_deeper(gable, limit) else deep, limit.as_deep_as_rafter),
        at_most(purlins.brace_spacing, limit.brace_spacing),
        at_most(purlins.brace_length, limit.brace_length),
        at_least(purlins.brace_slope, limit.steepness),
    )


def _need_not_be_deeper(gable: Gable, limit: PurlinLimits) -> bool:
    """Whether rafters of the size of the purlins would carry what the drawn ones carry."""
    rafters, size = gable.rafters, gable.frame.purlins.size
    if is_missing(rafters) or is_missing(size) or int(size.split("x")[0]) < FRAMING_IN:
        return False
    try:
        design, section = design_of(rafters, setting_in(gable.house, limit)), dressed_section(size)
        values = values_of(rafters, section, limit)
        return not is_missing(design) and not is_missing(values) and design.tried(section, values).passes()
    except OutsideMethodError:
        return False


class UpliftLimits(Limits):
    force: Limit[Any]
    by_nails: Limit[Any]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("roof-framing.uplift", stage="framing")
def uplift(gable: Gable, limit: UpliftLimits) -> Check:
    """Each rafter is tied to the wall for the uplift of the wind: by a connector where nails are not enough.

    The table is for enclosed buildings in exposures B and C. An open carport or porch lifts more, and is engineered.
    """
    if gable.is_enclosed is False:
        return look_at(Look.ENGINEER, "an open roof lifts more than the table of uplift is for")
    wind = gable.house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = gable.house.criterion(limit.exposure.value, "wind_exposure")
    absent = missing_of(gable.is_enclosed, wind, exposure, gable.slope, gable.spacing, gable.frame.width)
    if absent is not None:
        return not_shown(absent).citing(limit.force)
    return _uplift(gable, wind, str(exposure), limit).citing(limit.force)


def _uplift(gable: Gable, wind: Any, exposure: str, limit: UpliftLimits) -> Check:
    if limit.force.value is None:
        return does_not_apply("no uplift is set")
    table = limit.force.value.get(exposure)
    if table is None:
        return look_at(Look.ENGINEER, f"exposure {exposure} is not in the table of uplift")
    force = _uplift_force(table, gable.spacing, gable.frame.width, wind, gable.slope)
    if force is None:
        return look_at(
            Look.ENGINEER,
            f"wind of {wind}, spacing {gable.spacing} and width {gable.frame.width} are not in the table of uplift",
        )
    by_nails = limit.by_nails.value
    if by_nails is not None and force <= by_nails:
        return met(f"uplift of {force} at each end is within the {by_nails} that the usual nails hold")
    return at_least(gable.frame.uplift_connector, replace(limit.force, value=force)).or_fix(
        f"a connector rated for {force} or more", lambda: [NewValue(gable.frame, "uplift_connector", force)]
    )


def _uplift_force(table: Any, spacing: Any, width: Any, wind: Any, slope: Any) -> Any:
    steep = "from 5:12" if slope >= Slope.parse("5:12") else "under 5:12"
    kinds = type(wind)
    for parse, wanted in ((Length.parse, spacing), (Length.parse, width), (kinds.parse, wind)):
        rows = sorted((parse(name), row) for name, row in table.items() if parse(name) >= wanted)
        if not rows:
            return None
        table = rows[0][1]
    return table[steep]


class HipLimits(Limits):
    thickness: Limit[Length]
    full_depth: Limit[Any]


@fact
class Hip(MemberInHouse):
    """A hip or valley rafter, also one that the work takes out."""

    roles = frozenset(("hip or valley",))

    @property
    def phase(self) -> Any:
        """Taking one out is a change of the roof, and is looked at."""
        return "altered" if self.member.is_removed else super().phase


@rule("roof-framing.hip-or-valley")
def hip_or_valley(hip: Hip, limit: HipLimits) -> Check:
    """A hip or valley is thick enough, and as deep as the cut end of its rafters; one taken out leaves thrust and load.

    A hip roof braces itself. Where a hip goes, the jack rafters that it held, the push at its foot and the bracing of
    the end wall are to be designed anew.
    """
    if hip.member.is_removed:
        return look_at(
            Look.ENGINEER, "the hip is taken out: what it held, its thrust and its bracing need a new way down"
        )
    thick = when_given(lambda size: Length.parse(f"{size.split('x')[0]} in") * hip.member.plies, hip.member.size)
    return all_of(at_least(thick, limit.thickness, "nominal"), _covers_cuts(hip, limit))


def _covers_cuts(hip: Hip, limit: HipLimits) -> Check:
    """Check the depth against the longest cut end of the rafters that bear on it."""
    meets = [m for m in hip.house.subjects(Member) if any(end.on == hip.member.id for end in m.bears_on)]
    if not meets or limit.full_depth.value is None:
        return does_not_apply("no rafters are drawn that bear on it")
    bounds = [when_given(_plumb_cut, depth_of(rafter), rafter.slope) for rafter in meets]
    return all_of(*(at_least(depth_of(hip.member), replace(limit.full_depth, value=cut)) for cut in bounds))


class JoinLimits(Limits):
    ways: Limit[tuple[str, ...]]


@rule("roof-framing.meets-old", stage="framing")
def meets_old(frame: RoofFrame, limit: JoinLimits, house: House) -> Check:
    """A new roof that meets an old one bears on its rafters, on a wall or on a ledger, and not on sheathing alone."""
    if frame.phase == "existing" or frame.meets_old == "no" or house.project.dwelling.new_house is True:
        return does_not_apply("it meets no old roof, or stands")
    return one_of(frame.meets_old, limit.ways).or_fix(
        "boards fixed through the sheathing to the old rafters",
        lambda: [NewValue(frame, "meets_old", limit.ways.value[0])],
    )
