"""How large a carport's drain is, where it leads, and whether it can be cleaned."""

from __future__ import annotations

from precheck import (
    Area,
    Check,
    Length,
    Limit,
    Limits,
    Ratio,
    all_of,
    at_least,
    does_not_apply,
    one_of,
    required,
    rule,
    when_given,
)
from precheck_carport_drainage.drains import Drain


class InletLimits(Limits):
    """The limits of the inlet."""

    share: Limit[Ratio]
    least: Limit[Area]


@rule("carport-drainage.inlet", stage="plan")
def inlet(drain: Drain, limit: InletLimits) -> Check:
    """The inlet is large enough for the floor that drains into it."""
    if drain.drain.text("kind") == "open edge":
        return does_not_apply("the water runs off an open edge")
    share = when_given(lambda opening, floor: Ratio(opening / floor), drain.inlet, drain.floor)
    return all_of(at_least(share, limit.share, "inlet area / floor area"), at_least(drain.inlet, limit.least)).or_fix(
        lambda: f"an inlet of {drain.floor * limit.share.value.n} is enough for {drain.floor}"
    )


class OutletLimits(Limits):
    """The limits of the outlet."""

    leads_to: Limit[tuple[str, ...]]
    from_house: Limit[Length]


@rule("carport-drainage.outlet", stage="plan")
def outlet(drain: Drain, limit: OutletLimits) -> Check:
    """The water goes where rain may go, and far enough from the house."""
    return all_of(
        one_of(drain.drain.text("leads to"), limit.leads_to).or_fix("lead it to daylight, a dry well or a storm drain"),
        at_least(drain.away, limit.from_house).or_fix(
            lambda: f"carry the water {limit.from_house.value} from the house"
        ),
    )


class CleaningLimits(Limits):
    """What keeps a drain clean."""

    grate: Limit[bool]


@rule("carport-drainage.cleaning", stage="final")
def cleaning(drain: Drain, limit: CleaningLimits) -> Check:
    """The grate of a drain comes off, so that leaves can be taken out."""
    if drain.drain.text("kind") == "open edge":
        return does_not_apply("an open edge has no grate")
    return required(drain.drain.answer("grate comes off"), limit.grate)
