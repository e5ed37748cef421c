"""Roofs: what keeps rafters from spreading and the ridge up, collar ties, purlins and uplift."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, NamedTuple

from precheck import (
    Check,
    Fact,
    House,
    Length,
    Limit,
    Look,
    Member,
    Missing,
    RoofFrame,
    Slope,
    all_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    first_given,
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

from .bending import cited, used
from .carried import DEAD, LIVE, DesignLimits, Setting, inches, snow_of
from .cut_rules import depth_of
from .demands import UniformSpan
from .design import OUTSIDE, combinations, design_of
from .path import loading_of
from .sections import dressed_section
from .ties import RafterPair, check_tie, rafter_pair


@dataclass(frozen=True)
class Gable(Fact):
    """Opposite rafters with their ridge and ties, in their house."""

    frame: RoofFrame
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Gable]:
        """Yield every roof frame."""
        for frame in house.subjects(RoofFrame):
            yield cls(frame, frame, house)

    @property
    def rafters(self) -> Member | Missing:
        """The rafters of the frame."""
        found = None if is_missing(self.frame.rafters) else self.house.project.by_id.get(self.frame.rafters)
        return found if isinstance(found, Member) else self.frame.absent("rafters")

    @property
    def slope(self) -> Slope | Missing:
        """The slope: of the frame, else of its rafters."""
        return first_given(self.frame.slope, self.rafters.slope)

    @property
    def rise(self) -> Length | Missing:
        """The height of the ridge above the plates."""
        return when_given(lambda slope, width: width * (Fraction(slope.n) / 2), self.slope, self.frame.width)

    @property
    def spacing(self) -> Length | Missing:
        """The spacing of its rafters."""
        return self.rafters.spacing

    @property
    def has_ties(self) -> bool | Missing:
        """Whether ceiling joists or ties hold the feet of the rafters together."""
        return when_given(lambda what: what != "none", self.frame.tie.what)

    def pair(self, limits: DesignLimits) -> RafterPair | Missing:
        """Return a pair of rafters under its heaviest combination. Raises what OUTSIDE lists."""
        rafters, tie = self.rafters, self.frame.tie
        high = Length(0) if is_missing(tie) else first_given(tie.height_above_plate, Length(0))
        if is_missing(rafters):
            return rafters
        loading = loading_of(rafters, Setting(self.house.project, limits))
        absent = missing_of(loading, self.frame.width, self.rise, high)
        if absent is not None or is_missing(loading):
            return absent if absent is not None else loading  # type: ignore[return-value]  # one of them is the absence
        kinds = loading.kinds
        heaviest = max(
            sum(loading.total(k) * f for k, f in factors.items() if k in kinds) for _, factors in combinations(kinds)
        )
        return rafter_pair(heaviest, *map(inches, (self.frame.width, self.rise, high)))  # type: ignore[arg-type]


class RidgeLimits(NamedTuple):
    beam_below: Limit[Slope]
    beam_without_ties: Limit[Any]


@rule("roof-framing.ridge")
def ridge(gable: Gable, limit: RidgeLimits) -> Check:
    """A ridge under a low slope, or over rafters that no tie holds together, is a beam on posts and not a board."""
    frame = gable.frame
    low = when_given(lambda slope: limit.beam_below.value is not None and slope < limit.beam_below.value, gable.slope)
    untied = when_given(lambda tied: not tied and limit.beam_without_ties.value is not None, gable.has_ties)
    beam = one_of(frame.ridge, limit.beam_without_ties)
    low_beam = beam.because(f"the slope of {gable.slope} is under {limit.beam_below.value}")
    return decide(low, low_beam.or_fix(lambda: _ridge_beam(gable)), decide(untied, beam.or_fix(lambda: _ridge_beam(gable)),
                  met("rafters are tied together, so that a ridge board will do")))  # fmt: skip


def _ridge_beam(gable: Gable) -> str:
    width = gable.frame.width
    tributary = "half of each rafter span" if is_missing(width) else f"{width / 2} of roof"
    return (
        f"a ridge beam that carries {tributary}, on a post and footing at each end; or ties at the plates from 3:12 up"
    )


class TieLimits(NamedTuple):
    apart: Limit[Length]
    smallest: Limit[Length]
    part_of_rise: Limit[int]
    lap: Limit[Length]


@rule("roof-framing.ties")
def ties(gable: Gable, limit: TieLimits) -> Check:
    """What ties rafters together sits in the lower part of the roof, is close enough, stout enough, and lapped."""
    tie = gable.frame.tie
    if gable.frame.ridge == "beam":
        return does_not_apply("a ridge beam carries the rafters, so that they do not push outward")
    if is_missing(tie) or tie.what == "none":
        return not_shown(tie) if is_missing(tie) else does_not_apply("it has none; the rule for the ridge says so")
    part = limit.part_of_rise.value
    bound = limit.part_of_rise if part is None else replace(limit.part_of_rise, value=gable.rise / part)
    high = at_most(tie.height_above_plate, bound).or_fix(lambda: _ridge_beam(gable))
    if tie.what == "ceiling joists":
        return all_of(high, at_least(tie.lap, limit.lap))
    deep = when_given(lambda size: Length.parse(f"{size.split('x')[1]} in"), tie.size)
    return all_of(high, at_most(tie.spacing, limit.apart), at_least(deep, limit.smallest, "nominal depth"))


class HeelLimits(NamedTuple):
    nails: Limit[Any]
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("roof-framing.heel-joint", stage="framing")
def heel_joint(gable: Gable, limit: HeelLimits) -> Check:
    """Rafter and ceiling joist or tie are nailed together at the heel for the thrust of the roof.

    The number is that of the table for the slope, the spacing and the span of the roof, up to 20 psf of ground snow; a
    raised tie needs more. Where the table does not reach, the joint is engineered.
    """
    tie = gable.frame.tie
    if gable.frame.ridge == "beam" or is_missing(tie) or tie.what == "none":
        return does_not_apply("no tie takes the thrust of these rafters") if not is_missing(tie) else not_shown(tie)
    if not is_missing(tie.height_above_plate) and tie.height_above_plate.n > 0:
        return look_at(
            Look.ENGINEER,
            f"a tie {tie.height_above_plate} above the plates pulls harder than the table of nails is for",
        )
    snow = snow_of(gable.house.project, limit.snow)
    absent = missing_of(gable.slope, gable.spacing, gable.frame.width, snow)
    return cited(not_shown(absent) if absent is not None else _nails(gable, snow, limit), limit.nails)


def _nails(gable: Gable, snow: Any, limit: HeelLimits) -> Check:
    table, slope, spacing, width = limit.nails.value, gable.slope, gable.spacing, gable.frame.width
    if table is None:
        return does_not_apply("no number is set")
    if snow is not None and float(snow.n) > 20:
        return look_at(Look.ENGINEER, f"ground snow of {snow} is over the 20 psf of the table of nails")
    rows = [(Slope.parse(name), cells) for name, cells in table.items() if Slope.parse(name) <= slope]
    row = max(rows, key=lambda pair: pair[0], default=None)
    cell = None if row is None else _cell(row[1], spacing, width)
    if cell is None:
        return look_at(
            Look.ENGINEER, f"slope {slope}, spacing {spacing} and width {width} are not in the table of nails"
        )
    return at_least(gable.frame.tie.nails, replace(limit.nails, value=cell)).or_fix(
        f"{cell} nails, 16d common, at each heel"
    )


def _cell(cells: Any, spacing: Any, width: Any) -> int | None:
    """Return the number for the next wider spacing and roof that the table lists."""
    wide = sorted((Length.parse(name), row) for name, row in cells.items() if Length.parse(name) >= spacing)
    if not wide:
        return None
    long = sorted((Length.parse(name), count) for name, count in wide[0][1].items() if Length.parse(name) >= width)
    return int(long[0][1]) if long else None


@rule("roof-framing.thrust")
def thrust(gable: Gable, limit: DesignLimits) -> Check:
    """The push of the rafters against each other is worked out, and a tie is there to take it.

    A pair of rafters that lean on each other pushes its feet apart by the load times the square of the width over
    eight times the rise. It is shown for the engineer or the connector's table.
    """
    if gable.frame.ridge == "beam":
        return does_not_apply("a ridge beam carries the rafters, so that they do not push outward")
    try:
        pair = gable.pair(limit)
    except OUTSIDE as error:
        return cited(look_at(Look.ENGINEER, f"outside the prescriptive method: {error}"), limit.tied)
    if is_missing(pair):
        return cited(not_shown(pair), limit.tied)
    said = f"each pair of rafters pushes outward with {pair.thrust_lb:,.0f} lb"
    held = met(f"{said}, which the ties take")
    loose = broken(f"{said}, and nothing ties them").or_fix(lambda: _ridge_beam(gable))
    return cited(decide(gable.has_ties, held, loose), limit.tied).with_work(pair.steps)


@rule("roof-framing.tie-strength")
def tie_strength(gable: Gable, limit: DesignLimits) -> Check:
    """Ceiling joists that tie the rafters are strong enough in tension and bending together.

    The pull of the rafters comes on top of what the joists carry as a ceiling. Joints and notches take more away, and
    are not counted.
    """
    tie, part = gable.frame.tie, gable.house.project.by_id
    if gable.frame.ridge == "beam" or is_missing(tie) or is_missing(tie.member):
        return does_not_apply("no member is named as the tie")
    member = part[tie.member]
    if not isinstance(member, Member):
        return does_not_apply("no member is named as the tie")
    try:
        pair, design = gable.pair(limit), design_of(member, Setting(gable.house.project, limit))
        absent = missing_of(pair, design, gable.spacing, member.spacing)
        return cited(not_shown(absent), limit.tied) if absent is not None else _pulled(gable, member, limit)
    except OUTSIDE as error:
        return cited(look_at(Look.ENGINEER, f"outside the prescriptive method: {error}"), limit.tied)


def _pulled(gable: Gable, member: Member, limit: DesignLimits) -> Check:
    pair, design = gable.pair(limit), design_of(member, Setting(gable.house.project, limit))
    if is_missing(pair) or is_missing(design):  # told before
        return does_not_apply("")
    pull = pair.thrust_lb * inches(member.spacing) / inches(gable.spacing)  # type: ignore[arg-type]  # both are given
    loading = design.loading
    heaviest = UniformSpan(loading.span_in, loading.total(DEAD), loading.total(LIVE)).demand()
    found = check_tie(design.bent, heaviest, pull)
    said = f"pull of {pull:,.0f} lb with bending"
    check = at_most(used(found.governing), limit.used, said).or_fix("larger or closer ceiling joists, or a ridge beam")
    return check.with_work(lambda: (*pair.steps(), *found.steps()))


class CollarLimits(NamedTuple):
    apart: Limit[Length]
    part_of_rise: Limit[int]
    smallest: Limit[Length]


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
            f"collar ties or ridge straps at most {limit.apart.value} apart"
        )
    if collar.what == "ridge straps":
        return at_most(collar.spacing, limit.apart)
    part = limit.part_of_rise.value
    bound = limit.part_of_rise if part is None else replace(limit.part_of_rise, value=gable.rise / part)
    deep = when_given(lambda size: Length.parse(f"{size.split('x')[1]} in"), collar.size)
    return all_of(
        at_most(collar.spacing, limit.apart),
        at_most(collar.below_ridge, bound),
        at_least(deep, limit.smallest, "nominal depth"),
    )


class BoardLimits(NamedTuple):
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
    deep = when_given(_dressed_depth, frame.ridge_size)
    cut = when_given(
        _plumb_cut, depth_of(gable.rafters) if not is_missing(gable.rafters) else gable.rafters, gable.slope
    )
    bound = limit.full_depth if limit.full_depth.value is None else replace(limit.full_depth, value=cut)
    return all_of(
        at_least(thick, limit.thickness, "nominal"), at_least(deep, bound), at_most(frame.offset_at_ridge, limit.offset)
    )


def _dressed_depth(size: str) -> Length:
    depth = dressed_section("2x" + size.split("x")[1]).depth_in
    return Length.parse(f"{Fraction(depth)} in")


def _plumb_cut(depth: Length, slope: Slope) -> Length:
    """Depth of the rafter over the cosine of its slope, to the nearest 1/16 in."""
    long = inches(depth) * (1 + float(slope.n) ** 2) ** 0.5
    return Length.parse("1 in") * Fraction(round(long * 16), 16)


class PurlinLimits(NamedTuple):
    brace_spacing: Limit[Length]
    brace_length: Limit[Length]
    steepness: Limit[Slope]
    as_deep_as_rafter: Limit[bool]


@rule("roof-framing.purlins", stage="framing")
def purlins(gable: Gable, limit: PurlinLimits) -> Check:
    """Purlins are as deep as the rafters, and braced to bearing walls closely and steeply."""
    purlins = gable.frame.purlins
    if is_missing(purlins):
        return does_not_apply("no purlins are drawn")
    size, rafter = purlins.size, gable.rafters.size
    deep = when_given(lambda own, other: int(own.split("x")[1]) >= int(other.split("x")[1]), size, rafter)
    return all_of(
        required(deep, limit.as_deep_as_rafter, "purlin as deep as the rafters"),
        at_most(purlins.brace_spacing, limit.brace_spacing),
        at_most(purlins.brace_length, limit.brace_length),
        at_least(purlins.brace_slope, limit.steepness),
    )


class UpliftLimits(NamedTuple):
    force: Limit[Any]
    by_nails: Limit[Any]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("roof-framing.uplift", stage="framing")
def uplift(gable: Gable, limit: UpliftLimits) -> Check:
    """Each rafter is tied to the wall for the uplift of the wind: by a connector where nails are not enough.

    The table is for enclosed buildings in exposure B. An open carport or porch lifts more, and is engineered.
    """
    if gable.frame.enclosed is False:
        return look_at(Look.ENGINEER, "an open roof lifts more than the table of uplift is for")
    stated = gable.house.project.design_criteria
    wind = first_given(limit.wind.value, stated if is_missing(stated) else stated.ultimate_wind_speed)
    exposure = first_given(limit.exposure.value, stated if is_missing(stated) else stated.wind_exposure)
    absent = missing_of(gable.frame.enclosed, wind, exposure, gable.slope, gable.spacing, gable.frame.width)
    if absent is not None:
        return cited(not_shown(absent), limit.force)
    if str(exposure) != "B":
        return cited(
            look_at(Look.ENGINEER, f"exposure {exposure} is not in the table of uplift, which is for B"), limit.force
        )
    return cited(_uplift(gable, wind, limit), limit.force)


def _uplift(gable: Gable, wind: Any, limit: UpliftLimits) -> Check:
    if limit.force.value is None:
        return does_not_apply("no uplift is set")
    force = _uplift_force(limit.force.value, gable.spacing, gable.frame.width, wind, gable.slope)
    if force is None:
        return look_at(
            Look.ENGINEER,
            f"wind of {wind}, spacing {gable.spacing} and width {gable.frame.width} are not in the table of uplift",
        )
    by_nails = limit.by_nails.value
    if by_nails is not None and force <= by_nails:
        return met(f"uplift of {force} at each end is within the {by_nails} that the usual nails hold")
    return at_least(gable.frame.uplift_connector, replace(limit.force, value=force)).or_fix(
        f"a connector rated for {force} or more"
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


class HipLimits(NamedTuple):
    thickness: Limit[Length]


@dataclass(frozen=True)
class Hip(Fact):
    """A hip or valley rafter, also one that the work takes out."""

    member: Member

    @classmethod
    def found_in(cls, house: House) -> Iterator[Hip]:
        """Yield every hip and valley rafter."""
        for member in house.subjects(Member):
            if member.role == "hip or valley":
                yield cls(member, member)

    @property
    def phase(self) -> Any:
        """Taking one out is a change of the roof, and is looked at."""
        return "altered" if self.member.is_removed else self.member.phase


@rule("roof-framing.hip-or-valley")
def hip_or_valley(hip: Hip, limit: HipLimits) -> Check:
    """A hip or valley rafter is thick enough; one that is taken out leaves a thrust and a load that others must take.

    A hip roof braces itself. Where a hip goes, the jack rafters that it held, the push at its foot and the bracing of
    the end wall are to be designed anew.
    """
    if hip.member.is_removed:
        return look_at(
            Look.ENGINEER, "the hip is taken out: what it held, its thrust and its bracing need a new way down"
        )
    thick = when_given(lambda size: Length.parse(f"{size.split('x')[0]} in") * hip.member.plies, hip.member.size)
    return at_least(thick, limit.thickness, "nominal")
