"""Guards at open sides, and protection against falling out of windows."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.guards import fixing, lines, rules

    return rules_in(fixing, rules, lines)
