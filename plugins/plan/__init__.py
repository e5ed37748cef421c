"""Whether the plan closes: rooms that fit, openings in their walls, stories in their order."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules."""
    from precheck_plugins.plan import infill, rules

    return rules_in(rules, infill)
