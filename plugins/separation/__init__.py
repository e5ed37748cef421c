"""Separation of garage and dwelling, and of dwelling units from each other."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.separation import detached, lines, openings, rules, stairs, units

    return rules_in(lines, rules, detached, openings, stairs, units)
