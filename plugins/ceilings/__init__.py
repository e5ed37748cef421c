"""Ceiling heights."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.ceilings import agreement, lines, rules

    return rules_in(rules, agreement, lines)
