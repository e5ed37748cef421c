"""What holds members up: supports down to the ground, and posts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.framing.drawn.design import BENDING_SUPPORTS
from precheck_plugins.framing.drawn.load_cases import combinations
from precheck_plugins.framing.drawn.load_path import loading_of, reactions_of
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, inches
from precheck_plugins.framing.drawn.wood import section_of, values_of
from precheck_plugins.framing.members.columns import Column, ColumnCheck, check_column
from precheck_plugins.framing.members.footings import footing
from precheck_plugins.framing.rules.findings import share_used
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Bearing,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Missing,
    Part,
    all_of,
    at_least,
    at_most,
    broken,
    fact,
    given,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)

LINE_BEARERS = ("wall", "wall line", "braced wall line", "foundation wall")


@fact
class SupportedMember(Fact):
    """A member that must be held up, in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[SupportedMember]:
        """Yield every member but ridge boards, which rafters hold up."""
        for member in house.subjects(Member):
            if member.role != "ridge board":
                yield cls(member, member, house)

    @property
    def phase(self) -> Any:
        """A member that stands but loses what it bears on counts as altered."""
        below = (self.under(end) for end in self.member.bears_on)
        lost = any(part is not None and part.is_removed for part in below)
        return "altered" if lost and self.member.phase == "existing" else self.member.phase

    def under(self, end: Bearing) -> Part | None:
        """Return the part that an end bears on, where it has an id."""
        return None if is_missing(end.on) else self.house.project.by_id.get(end.on)

    def force_lb(self, index: int, limits: DesignLimits) -> float | None:
        """Return the greatest load that an end brings down, lb; None where it cannot be told."""
        try:
            found = reactions_of(self.member, Setting(self.house.project, limits))
        except OutsideMethodError:
            return None
        if is_missing(found):
            return None
        forces = {kind: ends[min(index, 1)] for kind, ends in found.items()}
        sums = combinations(tuple(forces))
        return max(sum(forces.get(kind, 0.0) * factor for kind, factor in factors.items()) for _, factors in sums)


@rule("framing.load-path")
def load_path(held: SupportedMember, limit: DesignLimits) -> Check:
    """Each end of a member bears on something that stays, and so on down to the ground.

    A joist or rafter may end on a wall, which spreads its load. A beam, header or post puts its load on one spot: a post
    has to be drawn under it, and under the post a footing. A slab is no footing.
    """
    ends, needed = held.member.bears_on, 1 if held.member.role == "post" else BENDING_SUPPORTS
    if len(ends) < needed:
        found = not_shown(held.member.absent("bears on" if not ends else "bears on, at its second end"))
    else:
        found = all_of(*(_end(held, index, end, limit) for index, end in enumerate(ends)))
    return found.citing(limit.feet)


def _end(held: SupportedMember, index: int, end: Bearing, limit: DesignLimits) -> Check:
    below = held.under(end)
    if below is not None and below.is_removed:
        return broken(f"it bears on {below.label}, which is taken out").or_fix(lambda: _foot(held, index, limit))
    if end.onto == "nothing":
        return broken(f"nothing is under its end{_amount(held, index, limit)}").or_fix(
            lambda: _foot(held, index, limit)
        )
    if below is None and is_missing(end.onto):
        return not_shown(end.absent("on"))
    if held.member.role == "post":
        return _post_foot(held, below, end, limit).or_fix(lambda: _foot(held, index, limit))
    if held.member.is_repeated or not _is_wall(below, end):
        return met(f"bears on {below.label if below else end.onto}")
    if held.member.role == "header":
        return _on_jacks(held.member)
    return not_shown(end.absent(f"post in {below.label if below else end.onto} under it"))


def _on_jacks(header: Member) -> Check:
    """A header in a wall stands on the jack studs beside its opening; how many is a rule of its own."""
    jacks = header.jack_studs
    if is_missing(jacks):
        return not_shown(jacks)
    return met(f"stands on {jacks} jack studs") if jacks else broken("no jack stud is under its end")


def _is_wall(below: Part | None, end: Bearing) -> bool:
    return below.kind in LINE_BEARERS if below is not None else end.onto in ("bearing wall", "existing framing")


def _post_foot(held: SupportedMember, below: Part | None, end: Bearing, limit: DesignLimits) -> Check:
    if isinstance(below, Member):
        return met(f"stands on {below.label}, which is held against this load")
    return one_of(str(below.kind if below is not None else end.onto), limit.feet, f"{held.member.label} stands on it")


def _amount(held: SupportedMember, index: int, limit: DesignLimits) -> str:
    force = held.force_lb(index, limit)
    return "" if force is None else f", which brings down {force:,.0f} lb"


def _foot(held: SupportedMember, index: int, limit: DesignLimits) -> str:
    force, soil, stands = held.force_lb(index, limit), limit.soil.value, held.member.role == "post"
    if force is None or soil is None or is_missing(soil):
        return "draw a footing under it" if stands else "draw a post under it, and under the post a footing"
    side = footing(force, float(soil.n)).side_in
    foot = "a footing" if stands else "a post and a footing"
    return f"{foot} of {side:.0f} x {side:.0f} in or more for {force:,.0f} lb on soil of {soil}"


@fact
class Post(Fact):
    """A post in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Post]:
        """Yield every post."""
        for member in house.subjects(Member):
            if member.role == "post":
                yield cls(member, member, house)


@rule("framing.post-strength")
def post_strength(post: Post, limit: DesignLimits) -> Check:
    """A post carries what bears on it without buckling."""
    try:
        found = _column_checks(post, Setting(post.house.project, limit))
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.used)
    if is_missing(found):
        return not_shown(found).citing(limit.used)
    worst = max(found, key=lambda check: check.comparison.ratio)
    said = f"{worst.comparison.demand:,.0f} lb of {worst.capacity_lb:,.0f} lb"
    return (
        at_most(share_used(worst.comparison), limit.used, said)
        .or_fix("a thicker post, or one more")
        .with_work(worst.steps)
    )


def _column_checks(post: Post, setting: Setting) -> Any:
    member = post.member
    loading, section = loading_of(member, setting), section_of(member)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    tied: str | Missing = member.fastening if member.plies > 1 else "solid"
    found = given(loading, section, values, member.height, tied)
    if is_missing(found):
        return found
    loading, section, values, height, tied = found
    forces = {kind: loading.total(kind) for kind in loading.kinds}
    return [
        _column(section, values, inches(height), member, tied, load, factors, forces)
        for load, factors in combinations(loading.kinds)
    ]


def _column(section: Any, values: Any, high: float, member: Member, tied: str, load: str,
            factors: dict[str, float], forces: dict[str, float]) -> ColumnCheck:  # fmt: skip
    column = Column(section, values, high, high, Conditions(load=load, wet=member.wet, incised=member.incised), tied)
    return check_column(column, sum(forces.get(kind, 0.0) * factor for kind, factor in factors.items()))


class PostLimits(Limits):
    minimum: Limit[Length]
    base: Limit[bool]
    cap: Limit[bool]


@rule("framing.post", stage="framing")
def post(post: Post, limit: PostLimits) -> Check:
    """A wood post is at least 4x4, and is connected at its foot and, under a roof or beam, at its top."""
    member = post.member
    thin = when_given(lambda size: Length.parse(f"{min(map(int, size.split('x')))} in") * member.plies, member.size)
    return all_of(
        at_least(thin, limit.minimum, f"nominal {member.label_of_size}"),
        required(member.base_connected, limit.base),
        required(member.cap_connected, limit.cap),
    )
