"""Doors: threshold, landing and step; the required egress door; floors that fall away from the house."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.doors import egress, floors, landings, rules

    return rules_in(egress, floors, landings, rules)
