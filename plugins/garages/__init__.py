"""Garages and carports: floors, vehicle door operators, return air."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.garages import lines, rules, wind

    return rules_in(lines, rules, wind)
