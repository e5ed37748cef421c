"""Wood posts of guards: what a push at the top asks of them where they are fixed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.framing.drawn.setting import inches
from precheck_plugins.framing.members.capacity import DemandCapacity
from precheck_plugins.framing.members.eccentric import pushed_at_the_top_inlb
from precheck_plugins.framing.rules.findings import share_used
from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, Conditions, adjusted_value
from precheck_plugins.framing.timber.lumber import INCISED_FOR_TREATMENT, is_same, published_values
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section

from precheck import (
    Check,
    Fact,
    Force,
    Guard,
    GuardPost,
    House,
    Limit,
    Limits,
    Look,
    Ratio,
    at_most,
    fact,
    first_given,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
)

DURATION = "wind or seismic"
"""A push by people lasts no longer than wind: ten minutes. NDS Table 2.3.2, from memory."""


@fact
class Pushed(Fact):
    """A guard whose wood posts are drawn with their size."""

    guard: Guard
    post: GuardPost

    @classmethod
    def found_in(cls, house: House) -> Iterator[Pushed]:
        """Yield every guard that gives its posts."""
        for guard in house.subjects(Guard):
            post = guard.fixing.post
            if not guard.is_removed and isinstance(post, GuardPost):
                yield cls(guard, guard, post)


class PushLimits(Limits):
    used: Limit[Ratio]
    top: Limit[Force] = reads("guards.strength.top")
    lumber: Limit[str] = reads("framing.lumber.values")


@rule("framing.guard-post", stage="framing")
def guard_post(pushed: Pushed, limit: PushLimits) -> Check:
    """A wood post of a guard takes the code's push at its top in bending, at the height of its upper fastener.

    Lumber outdoors counts as wet, and as incised where its species is, until the file says otherwise. The fasteners go by
    the document of the guard.
    """
    own, lever = pushed.post, pushed.post.above_fixing
    absent = missing_of(own.size, own.species, own.grade, lever)
    if absent is not None:
        return not_shown(absent).citing(limit.used)
    try:
        section = dressed_section(str(own.size))
        value = _allowed(own, section, limit)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.used)
    moment = pushed_at_the_top_inlb(float(limit.top.value.n), inches(lever))  # type: ignore[arg-type]  # given, or it were absent
    numbers = (moment.value, section.modulus_in3)
    bent = DemandCapacity(
        "bending", "fb", moment.value / section.modulus_in3, value.psi, "psi", "3.3.1", "{} / {}", numbers
    )
    said = f"bending {bent.demand:,.0f} of {bent.capacity:,.0f} psi under {limit.top.value} at the top"
    check = at_most(share_used(bent), limit.used, said).or_fix(
        "a thicker or lower post, a better grade, or a tested assembly"
    )
    return check.with_work(lambda: (*section.steps(), moment, *value.steps(), *bent.steps()))


def _allowed(own: GuardPost, section: CrossSection, limit: PushLimits) -> AdjustedValue:
    values = published_values(str(own.species), str(own.grade), section, limit.lumber.value or "current")
    wet: Any = first_given(own.wet, True)
    takes = any(is_same(listed, str(own.species)) for listed in INCISED_FOR_TREATMENT)
    incised: Any = first_given(own.incised, takes and wet)
    return adjusted_value("Fb", values, section, Conditions(load=DURATION, wet=wet, incised=incised))
