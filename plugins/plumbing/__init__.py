"""Plumbing: room around fixtures, showers, pipes."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.plumbing import lines, pipes, rules

    return rules_in(lines, pipes, rules)
