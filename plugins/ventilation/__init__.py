"""Ventilation: exhaust, dryer ducts, intakes, whole-house air, air for combustion."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.ventilation import combustion, dryers, lines, rules

    return rules_in(combustion, dryers, rules, lines)
