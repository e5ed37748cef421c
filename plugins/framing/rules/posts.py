"""Posts: what they carry without buckling, also beside their middle; what they press on; their least size and connectors."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import fsum
from typing import Any

from precheck_plugins.framing.drawn.bending_member import MemberInHouse
from precheck_plugins.framing.drawn.exposure import exposure_of
from precheck_plugins.framing.drawn.load_cases import combinations, combined
from precheck_plugins.framing.drawn.load_path import at_support, loading_of, reactions_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.resting import resting_on
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, inches, setting_in
from precheck_plugins.framing.drawn.sizes import section_of
from precheck_plugins.framing.drawn.wood import bent_member, values_of
from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember
from precheck_plugins.framing.members.columns import Column, ColumnCheck, check_column
from precheck_plugins.framing.members.eccentric import Bending, BentColumn, bent_column
from precheck_plugins.framing.members.patterns import Reach
from precheck_plugins.framing.rules.findings import share_used
from precheck_plugins.framing.timber.adjusted_values import Conditions, adjusted_value
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Bearing,
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Missing,
    Outcome,
    Settled,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    first_given,
    fixed,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

HELD = (Outcome.PASS, Outcome.WARN)


@fact
class Post(MemberInHouse):
    """A post in its house."""

    roles = frozenset(("post",))


@fixed
class Stood:
    """A post as the engineering takes it: its column, its loads by kind, and what lands beside its middle."""

    column: Column
    loading: Loading
    thrown_in: tuple[tuple[str, float, float], ...]
    """Of each load beside the middle: its kind, its share of all of that kind, and how far off it is, in."""
    across_depth: bool
    asked: Missing | None


@rule("framing.post-strength")
def post_strength(post: Post, limit: DesignLimits) -> Check:
    """A post carries what bears on it without buckling, over its free length each way and wherever on it the load lands.

    Loads are taken at the middle of the post unless a bearing says how far off it is. Plies count together only where they
    are fastened as the standard lays out; else each stands alone. A post that stands on a beam must not crush it.
    """
    setting = setting_in(post.house, limit)
    try:
        found = _stood(post, setting)
        checked = not_shown(found) if is_missing(found) else _by_exposure(post, found, setting)
    except OutsideMethodError as error:
        checked = look_at(Look.ENGINEER, f"outside the prescriptive method: {error}")
    return checked.citing(limit.used)


def _by_exposure(post: Post, stood: Stood, setting: Setting) -> Check:
    """Return the check of a post whose exposure the drawings may not tell: as wet, else as dry; asked where it decides."""
    wet = all_of(_held(post, stood, setting.limits), *_on_wood(post, stood, setting))
    if stood.asked is None or wet.outcome is not Outcome.FAIL:
        return wet
    dry = replace(stood, column=replace(stood.column, use=replace(stood.column.use, wet=False, incised=False)))
    found = all_of(_held(post, dry, setting.limits), *_on_wood(post, dry, setting))
    return found if found.outcome is Outcome.FAIL else not_shown(stood.asked)


def _held(post: Post, stood: Stood, limit: DesignLimits) -> Check:
    fastened = post.member.fastened_to_standard
    if post.member.plies == 1 or fastened is True:
        return _against(stood, limit)
    apart = replace(stood, column=_one_ply(stood.column))
    if fastened is False:
        return _against(apart, limit)
    together = _against(stood, limit)
    return not_shown(fastened) if together.outcome in HELD and not _holds(apart, limit) else together


def _holds(stood: Stood, limit: DesignLimits) -> bool:
    try:
        return _against(stood, limit).outcome in HELD
    except OutsideMethodError:
        return False


def _on_wood(post: Post, stood: Stood, setting: Setting) -> Iterator[Check]:
    """Yield the check of each member that the post stands on: it must not be crushed across its grain."""
    load = combined({kind: Reach(stood.loading.total(kind), 0.0) for kind in stood.loading.kinds}).greatest
    for end in post.member.bears_on:
        bearer = None if is_missing(end.on) else setting.project.by_id.get(end.on)
        if isinstance(bearer, Member):
            bent = bent_member(bearer, setting)
            yield not_shown(bent) if is_missing(bent) else _pressed(stood, bearer, bent, load, setting)


def _pressed(stood: Stood, bearer: Member, bent: SizedMember, load_lb: float, setting: Setting) -> Check:
    """Whichever way the post is turned, and without the factor of a short bearing: both on the safe side. NDS 3.10.2."""
    foot, wide = stood.column.section, bent.section.breadth_in
    area = min(min(foot.depth_in, wide) * foot.breadth_in, min(foot.breadth_in, wide) * foot.depth_in)
    allowed = adjusted_value("Fc_perp", bent.values, bent.section, bent.use).psi
    pressed = DemandCapacity("bearing", "fc_perp", load_lb / area, allowed, "psi", "3.10.2", "{} / {}", (load_lb, area))
    said = f"foot of the post on {bearer.label}, {pressed.demand:,.0f} of {allowed:,.0f} psi"
    return at_most(share_used(pressed), setting.limits.used, said).or_fix("a bearing plate, or a wider post or beam")


def _one_ply(column: Column) -> Column:
    """The column whose plies stand side by side without holding each other: each carries its share alone."""
    plies = column.section.plies
    return replace(column, section=column.section.built_up(1), fastening="solid", shared_by=plies)


def _against(stood: Stood, limit: DesignLimits) -> Check:
    found = [_column(stood, load, factors) for load, factors in combinations(stood.loading.kinds)]
    worst = max(found, key=lambda each: each[1].ratio)
    return (
        at_most(share_used(worst[1]), limit.used, lambda: _said(*worst))
        .or_fix("a thicker post, or one more")
        .with_work(worst[0].steps)
    )


def _said(found: ColumnCheck | BentColumn, compared: DemandCapacity) -> str:
    column = found if isinstance(found, ColumnCheck) else found.column
    told = f"{column.comparison.demand:,.0f} lb of {column.capacity_lb:,.0f} lb"
    if isinstance(found, ColumnCheck):
        return told
    return f"{told}, with the load {found.bending.off_center_in:.2g} in off its middle {compared.demand:.2f} of 1"


def _column(stood: Stood, load: str, factors: dict[str, float]) -> tuple[ColumnCheck | BentColumn, DemandCapacity]:
    column = replace(stood.column, use=replace(stood.column.use, load=load))
    forces = {
        kind: stood.loading.total(kind) * factor for kind, factor in factors.items() if kind in stood.loading.kinds
    }
    total = fsum(forces.values())
    check = check_column(column, total)
    moment = fsum(forces.get(kind, 0.0) * share * off for kind, share, off in stood.thrown_in)
    if not moment or not total:
        return check, check.comparison
    bent = bent_column(check, total / column.shared_by, Bending(moment / total), stood.across_depth)
    return (bent, bent.comparison) if bent.comparison.ratio > check.comparison.ratio else (check, check.comparison)


def _stood(post: Post, setting: Setting) -> Stood | Missing:
    member = post.member
    loading, section, exposure = loading_of(member, setting), section_of(member), exposure_of(member, setting)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    tied = member.fastening if member.plies > 1 else "solid"
    absent = missing_of(loading, section, values, member.height, exposure, tied)
    if absent is not None or is_missing(loading) or is_missing(exposure):
        return absent if absent is not None else member.height  # type: ignore[return-value]  # one of them is the absence
    thrown = _thrown(member, loading, setting)
    if is_missing(thrown):
        return thrown
    deep, wide = (_free_in(member, own) for own in (member.free_across_depth, member.free_across_breadth))
    use = Conditions(wet=exposure.wet, incised=exposure.incised)
    column = Column(section, values, deep, wide, use, str(tied))  # type: ignore[arg-type]  # given, or it were absent
    across_depth = not any(end.across == "breadth" for _, _, end in _beside(member, setting))
    return Stood(column, loading, thrown, across_depth, exposure.asked)


def _free_in(member: Member, own: Length | Missing) -> float:
    """The free length across one side of a post, in: as drawn, else its height."""
    free = first_given(own, member.height)
    assert isinstance(free, Length)  # a post without its height is told before
    return inches(free)


def _beside(member: Member, setting: Setting) -> list[tuple[Member, int, Bearing]]:
    """The ends of members that land beside the middle of a post."""
    return [rest for rest in resting_on(member, setting) if not is_missing(rest[2].off_center) and rest[2].off_center.n]


def _thrown(member: Member, loading: Loading, setting: Setting) -> tuple[tuple[str, float, float], ...] | Missing:
    found: list[tuple[str, float, float]] = []
    for other, index, end in _beside(member, setting):
        reactions = reactions_of(other, setting)
        absent = missing_of(reactions, end.across)
        if absent is not None or is_missing(reactions):
            return absent if absent is not None else end.across  # type: ignore[return-value]  # one of them is the absence
        brought = at_support(reactions, index)
        off = inches(end.off_center)  # type: ignore[arg-type]  # only ends with it are beside
        found += [(kind, r.greatest / loading.total(kind), off) for kind, r in brought.items() if loading.total(kind)]
    return tuple(found)


class PostLimits(Limits):
    minimum: Limit[Length]
    base: Limit[bool]
    short: Limit[Length]
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")
    cap: Limit[bool]


@rule("framing.post", stage="framing")
def post(post: Post, limit: PostLimits) -> Check:
    """A wood post is 4x4 or more, and is connected at its foot and, under a roof or beam, at its top.

    A low one in an enclosed crawl space needs nothing at its foot where the ground shakes little.
    """
    member = post.member
    thin = when_given(lambda size: Length.parse(f"{min(map(int, size.split('x')))} in") * member.plies, member.size)
    return all_of(
        at_least(thin, limit.minimum, f"nominal {member.label_of_size}"),
        _foot(post, limit),
        required(member.cap_connected, limit.cap, "a connector at its top"),
    )


def _foot(post: Post, limit: PostLimits) -> Check:
    member, base = post.member, required(post.member.base_connected, limit.base, "a connector at its foot")
    low = when_given(lambda high: limit.short.value is not None and high <= limit.short.value, member.height)
    if member.in_crawl_space is not True or low is not True:
        return base
    low_there = does_not_apply(f"it stands in a crawl space, no higher than {limit.short.value}")
    return decide(post.house.is_shaken(limit.seismic.value, limit.categories.value), base, low_there)
