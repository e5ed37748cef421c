"""Nails of floor panels."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Outcome,
    Settled,
    all_of,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    required,
    rule,
    when_given,
)

ONE_LAYER = "oc"
"""How the rating of a panel ends that is subfloor and underlayment in one."""


class NailLimits(Limits):
    maximum: Settled[Mapping[str, Any]]
    of_one_layer: Limit[Mapping[str, Any]]
    edge: Limit[Length]
    field: Limit[Length]
    seen: Limit[bool]


@rule("framing.floor-nails", stage="framing")
def floor_nails(member: Member, limit: NailLimits) -> Check:
    """Panels of a floor are nailed to its joists closely, with nails stout enough for their thickness.

    The inspector sees that they hit the joists before a ceiling hides it: good practice. Fasteners of another kind go by
    their document.
    """
    if member.role != "floor joist" or is_missing(member.sheathing):
        return does_not_apply("no panels are drawn on floor joists")
    own = member.sheathing.nails
    seen = required(own.seen_before_cover, limit.seen)
    if not is_missing(own.document):
        return all_of(met(f"fastened as {own.document} says"), seen)
    return all_of(_stout(member, limit), at_most(own.edge, limit.edge), at_most(own.field, limit.field), seen)


def _stout(member: Member, limit: NailLimits) -> Check:
    nail = member.sheathing.nails.nail
    if is_missing(nail):
        return not_shown(nail)
    thickest = limit.maximum.value.get(nail)
    if thickest is None:
        return look_at(Look.ENGINEER, f"{nail} nails are not in the table of nails; give the document that they go by")
    bound, own = replace(limit.maximum, value=thickest), member.sheathing
    check = at_most(own.thickness, bound, f"panel under {nail} nails").or_fix("longer nails")
    alone = (limit.of_one_layer.value or {}).get(nail)
    if alone is None or is_missing(own.thickness) or own.thickness <= alone or check.outcome is Outcome.FAIL:
        return check
    thick = at_most(own.thickness, replace(limit.of_one_layer, value=alone), f"subfloor under {nail} nails")
    one_layer = when_given(lambda rating: rating.endswith(ONE_LAYER), own.rating)
    return decide(one_layer, check, thick.or_fix("longer nails"))
