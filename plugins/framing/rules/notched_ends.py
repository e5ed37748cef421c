"""Notches at the ends of members: what the rule of the code tolerates, beside what the wood beside the notch takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck_plugins.framing.drawn.bending_member import BENDING, BendingMember, phase_under_load
from precheck_plugins.framing.drawn.design import Design
from precheck_plugins.framing.drawn.load_cases import LoadCase
from precheck_plugins.framing.drawn.setting import DesignLimits, inches
from precheck_plugins.framing.members.capacity import DemandCapacity
from precheck_plugins.framing.rules.cuts import depth_of, part_of_depth
from precheck_plugins.framing.rules.findings import share_used
from precheck_plugins.framing.timber.adjusted_values import adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.notched import NotchedEnd, notched_end
from precheck_plugins.framing.timber.steps import Step

from precheck import (
    Check,
    Fact,
    House,
    Limit,
    Look,
    MakerData,
    Missing,
    Notch,
    Outcome,
    Ratio,
    at_most,
    does_not_apply,
    fact,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
    when_given,
)


class EndLimits(DesignLimits):
    end_part: Limit[Ratio] = reads("framing.notch.end-depth-part")


@fact
class NotchIn(Fact):
    """A notch in its member, which carries load: an old notch in a member that is loaded anew is judged anew."""

    notch: Notch
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[NotchIn]:
        """Yield every notch."""
        yield from (cls(notch, notch, house) for notch in house.subjects(Notch))

    @property
    def phase(self) -> Any:
        """That of the member, which counts as altered where it gets load from what is new or altered."""
        return phase_under_load(self.notch.owner, self.house)


@rule("framing.notched-end", stage="framing")
def notched(cut: NotchIn, limit: EndLimits) -> Check:
    """The wood that a notch leaves at the end of a member takes the shear there; a notched tail takes its bending.

    On the bottom of an end, where the wood is in tension, shear counts by the square of what is left of the depth. The code
    tolerates a notch of a quarter of the depth whatever the load: one that it tolerates and that the sum does not is told,
    and is no failure.
    """
    notch, member = cut.notch, cut.notch.owner
    if member.role not in BENDING or isinstance(member.maker, MakerData):
        return does_not_apply("it is no sawn member that bends")
    near = True if notch.at_end or notch.on_overhang else _is_near(notch)
    if is_missing(near) or near is False:
        return does_not_apply("it is not at an end") if near is False else not_shown(near).citing(limit.used)
    if member.sisters:
        return look_at(Look.ENGINEER, "what is fixed along it shares the shear beside the notch").citing(limit.used)
    bending = BendingMember(member, member, cut.house)
    return bending.designed(limit, lambda design: _left(notch, design, limit)).citing(limit.used)


def _is_near(notch: Notch) -> bool | Missing:
    return when_given(lambda away, deep: away <= deep, notch.from_support, depth_of(notch.owner))


def _left(notch: Notch, design: Design, limit: EndLimits) -> Check:
    if is_missing(notch.depth):
        return not_shown(notch.depth)
    deep = inches(notch.depth)
    if notch.on_overhang:
        return _tail(design, deep, limit)
    below, above = (_shear(notch, design, deep, tension, limit) for tension in (True, False))
    if notch.edge == "bottom" or below.outcome is Outcome.PASS:
        return below
    if notch.edge == "top" or above.outcome is not Outcome.PASS:
        return above if notch.edge == "top" else below
    return not_shown(notch.edge)


def _shear(notch: Notch, design: Design, deep_in: float, tension: bool, limit: EndLimits) -> Check:
    ends = [_end(notch, design, case, deep_in, tension) for case in design.cases]
    case, end, compared = max(ends, key=lambda each: each[2].ratio)
    said = f"shear {compared.demand:,.0f} of {compared.capacity:,.0f} lb beside the notch under {case.name} load"
    check = at_most(share_used(compared), limit.used, said).or_fix("a shallower notch, a deeper member, or a hanger")
    if check.outcome is Outcome.FAIL and _is_tolerated(notch, limit):
        check = look_at(
            Look.ENGINEER, f"the code tolerates a notch of this depth at an end; by the wood standard {said}"
        )
    return check.with_work(lambda: _work(design, case, end, compared))


def _is_tolerated(notch: Notch, limit: EndLimits) -> bool:
    part: Any = part_of_depth(limit.end_part, depth_of(notch.owner)).value
    return part is not None and missing_of(part, notch.depth) is None and bool(notch.depth <= part)


def _end(
    notch: Notch, design: Design, case: LoadCase, deep_in: float, tension: bool
) -> tuple[LoadCase, NotchedEnd, DemandCapacity]:
    """The wood beside the notch under one case. All the shear at the end counts: loads near it press on the notch too."""
    bent = design.bent
    shear = adjusted_value("Fv", bent.values, bent.section, replace(bent.use, load=case.load)).psi
    past = None if tension else bent.section.depth_in if is_missing(notch.length) else inches(notch.length)
    end = notched_end(bent.section, deep_in, shear, past)
    force = max(case.demand.shears_beside_lb)
    return (
        case,
        end,
        DemandCapacity("shear beside a notch", "V", force, end.capacity_lb, "lb", "3.4.3.2", "{}", (force,)),
    )


def _tail(design: Design, deep_in: float, limit: EndLimits) -> Check:
    """Bending of what a notch leaves of a rafter tail; its size factor is that of the whole depth, which is the lesser."""
    section = design.bent.section
    notched_end(section, deep_in, 1.0)  # refuses a notch that leaves nothing
    left = replace(section, depth_in=section.depth_in - deep_in)

    def compared(case: LoadCase) -> DemandCapacity:
        allowed = adjusted_bending(
            design.bent.values, section, replace(design.bent.use, load=case.load), hogging=True
        ).psi
        numbers = (case.demand.hogging_inlb, left.modulus_in3)
        stress = case.demand.hogging_inlb / left.modulus_in3
        return DemandCapacity("bending of the tail", "fb", stress, allowed, "psi", "3.3.1", "{} / {}", numbers)

    worst = max(map(compared, design.cases), key=lambda each: each.ratio)
    said = f"bending {worst.demand:,.0f} of {worst.capacity:,.0f} psi in the tail"
    return (
        at_most(share_used(worst), limit.used, said)
        .or_fix("a shallower notch or a shorter tail")
        .with_work(worst.steps)
    )


def _work(design: Design, case: LoadCase, end: NotchedEnd, compared: DemandCapacity) -> tuple[Step, ...]:
    return (*design.steps(case), *end.steps(), *compared.steps())
