"""Around a stair: its light and switches, the space beneath it, and a stair to attic storage."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.stairways import rules

    return rules_in(rules)
