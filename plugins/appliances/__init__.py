"""Appliances: ignition sources and impact in garages, where they may not stand, access, pans and straps."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.appliances import condensate, lines, passages, rules, surroundings, valves, water_heaters

    return rules_in(passages, rules, surroundings, valves, water_heaters, condensate, lines)
