"""Existing houses: rooms that change use, work that makes a house less safe, sprinklers, the appendix, old materials."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.existing import lines, materials, rooms, rules, stairs

    return rules_in(lines, materials, rooms, rules, stairs)
