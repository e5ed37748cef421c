"""Stairs: rise and run, headroom, width and landings."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.stairs import agreement, details, landings, levels, lines, rules

    return rules_in(details, rules, agreement, landings, levels, lines)
