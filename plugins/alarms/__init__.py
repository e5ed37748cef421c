"""Smoke alarms and carbon monoxide alarms: where they are due, what makes them due, how they are wired."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.alarms import lines
    from precheck_plugins.alarms.rules import carbon_monoxide, placing, smoke, wiring

    return rules_in(lines, smoke, carbon_monoxide, placing, wiring)
