"""What holds members up: supports down to the ground, and what holds down an end that loads lift."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil
from typing import Any

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.drawn.load_cases import combined
from precheck_plugins.framing.drawn.load_path import at_support, reactions_of
from precheck_plugins.framing.drawn.resting import resting_on
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, setting_in
from precheck_plugins.framing.members.footings import footing
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Bearing,
    Check,
    Fact,
    Force,
    House,
    Limit,
    Look,
    Member,
    NewValue,
    Part,
    all_of,
    at_least,
    broken,
    does_not_apply,
    every,
    fact,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    rule,
)

ENDS = ("first", "second", "third", "fourth", "fifth", "sixth", "next")
FOOTING_THICK_IN = 12.0
"""How thick a footing is taken to be where none is drawn; its own weight counts."""
SMALLEST_LB = 1.0
"""Uplift of less is the rounding of loads."""
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
        return self.member.phase_where(lost)

    def under(self, end: Bearing) -> Part | None:
        """Return the part that an end bears on, where it has an id."""
        return None if is_missing(end.on) else self.house.project.by_id.get(end.on)

    def force_lb(self, index: int, limits: DesignLimits) -> float | None:
        """Return the greatest load that an end brings down, lb; None where it cannot be told."""
        try:
            found = reactions_of(self.member, setting_in(self.house, limits))
        except OutsideMethodError:
            return None
        return None if is_missing(found) else combined(at_support(found, index)).greatest


@rule("framing.load-path")
def load_path(held: SupportedMember, limit: DesignLimits) -> Check:
    """Each end of a member bears on something that stays, and so on down to the ground.

    A joist, rafter or trimmer may end on a wall, which spreads its load. A beam, header or post puts its load on one spot: a post
    has to be drawn under it, and under the post a footing. A slab is no footing.
    """
    ends, needed = held.member.bears_on, 1 if held.member.role == "post" else max(len(held.member.spans), 1) + 1
    if len(ends) < needed:
        found = not_shown(
            held.member.absent(
                "bears on" if not ends else f"bears on, at its {ENDS[min(len(ends), len(ENDS) - 1)]} support"
            )
        )
    else:
        found = all_of(*(_end(held, index, end, limit) for index, end in enumerate(ends)))
    return found.citing(limit.support)


def _end(held: SupportedMember, index: int, end: Bearing, limit: DesignLimits) -> Check:
    below = held.under(end)
    if below is not None and below.is_removed:
        return broken(f"it bears on {below.label}, which is taken out").or_fix(
            lambda: _foot(held, index, limit), decide="where it goes"
        )
    if end.onto == "nothing":
        return broken(f"nothing is under its end{_amount(held, index, limit)}").or_fix(
            lambda: _foot(held, index, limit), decide="where it goes"
        )
    if below is None and is_missing(end.onto):
        return not_shown(end.absent("on"))
    if held.member.role == "post":
        return _post_foot(held, below, end, limit).or_fix(lambda: _foot(held, index, limit), decide="where it goes")
    if held.member.is_repeated or held.member.role == "trimmer" or not _is_wall(below, end):
        return met(f"bears on {below.label if below else end.onto}")
    if held.member.role == "header":
        return _on_jacks(held.member)
    return not_shown(end.absent(f"post in {below.label if below else end.onto} under it"))


def _on_jacks(header: Member) -> Check:
    """A header in a wall stands on the jack studs beside its opening; how many is a rule of its own."""
    jacks = header.jack_studs
    if header.framing_anchors is True and not (isinstance(jacks, int) and jacks):
        return met("framing anchors hold it at the full-height studs")
    if is_missing(jacks):
        return not_shown(jacks)
    return met(f"stands on {jacks} jack studs") if jacks else broken("no jack stud is under its end")


def _is_wall(below: Part | None, end: Bearing) -> bool:
    return below.kind in LINE_BEARERS if below is not None else end.onto in ("bearing wall", "existing framing")


def _post_foot(held: SupportedMember, below: Part | None, end: Bearing, limit: DesignLimits) -> Check:
    if isinstance(below, Member):
        return met(f"stands on {below.label}, which is held against this load")
    return one_of(
        str(below.kind if below is not None else end.onto), limit.support, f"{held.member.label} stands on it"
    )


def _amount(held: SupportedMember, index: int, limit: DesignLimits) -> str:
    force = held.force_lb(index, limit)
    return "" if force is None else f", which brings down {force:,.0f} lb"


def _foot(held: SupportedMember, index: int, limit: DesignLimits) -> str:
    force, soil, stands = held.force_lb(index, limit), limit.soil.value, held.member.role == "post"
    if force is None or soil is None or is_missing(soil):
        return "draw a footing under it" if stands else "draw a post under it, and under the post a footing"
    side = footing(force, float(soil.n), FOOTING_THICK_IN).side_in
    foot = "a footing" if stands else "a post and a footing"
    size = f"{side:.0f} x {side:.0f} in or more, {FOOTING_THICK_IN:.0f} in thick"
    return f"{foot} of {size}, for {force:,.0f} lb on soil of {soil}"


class HoldDownLimits(DesignLimits):
    force: Limit[Any]


@rule("framing.hold-down", stage="framing")
def hold_down(bending: BendingMember, limit: HoldDownLimits) -> Check:
    """An end that loads elsewhere lift, as those on a long overhang, is held down by a device for that force.

    The least reaction of each support is taken with live load only where it lifts. Loads on a single span lift nothing.
    """
    setting = setting_in(bending.house, limit)
    if _is_single_span(bending.member, setting):
        return does_not_apply("it runs past no support, and no member bears on it")
    try:
        found = reactions_of(bending.member, setting)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.force)
    if is_missing(found):
        return not_shown(found).citing(limit.force)
    count = len(next(iter(found.values())))
    least = [combined(at_support(found, index)).least for index in range(count)]
    lifted = [(index, -lb) for index, lb in enumerate(least) if lb < -SMALLEST_LB]
    return every((_held_down(bending.member, index, lb, limit) for index, lb in lifted), "no load lifts an end of it")


def _is_single_span(member: Member, setting: Setting) -> bool:
    """Return whether a member ends at its two supports and carries no other, which could lift it."""
    ends = (member.overhang, member.first_overhang)
    past = any(not is_missing(end) and end.n for end in ends) or len(member.spans) > 1
    return not past and next(resting_on(member, setting), None) is None


def _held_down(member: Member, index: int, lb: float, limit: HoldDownLimits) -> Check:
    place = ENDS[min(index, len(ENDS) - 1)]
    if index >= len(member.bears_on):
        return not_shown(member.absent(f"bears on, at its {place} support")).citing(limit.force)
    bound = replace(limit.force, value=Force(ceil(lb)))
    return at_least(member.bears_on[index].hold_down, bound, f"{place} support").or_fix(
        f"a connector rated for {ceil(lb):,} lb of uplift at the {place} support, or a shorter overhang",
        lambda: [NewValue(member.bears_on[index], "hold_down", bound.value)],
    )
