"""The site: zoning, yards and drives, fire separation distance, flood hazard, wildfire and the address."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.zoning import address, fire_separation, flood, lines, parking, rules, wildfire, yard

    return rules_in(address, fire_separation, flood, lines, parking, rules, wildfire, yard)
