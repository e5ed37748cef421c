"""Where the water goes that cooling equipment makes."""

from __future__ import annotations

from precheck import Appliance, Check, Limit, Limits, NewValue, does_not_apply, one_of, rule

COOLS = frozenset(("air handler", "heat pump", "mini-split", "air conditioner"))


class CondensateLimits(Limits):
    ends: Limit[tuple[str, ...]]


@rule("appliances.condensate", stage="rough-in")
def condensate(appliance: Appliance, limit: CondensateLimits) -> Check:
    """Condensate of cooling equipment drains to an approved place."""
    if appliance.what not in COOLS:
        return does_not_apply("not cooling equipment")
    return one_of(appliance.condensate_drains_to, limit.ends).or_fix(
        "pipe the condensate to a drain or outdoors", lambda: [NewValue(appliance, "condensate_drains_to", "drain")]
    )
