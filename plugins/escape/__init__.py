"""Emergency escape and rescue openings."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.escape import clear, lines, outside, rules, wells

    return rules_in(lines, rules, clear, outside, wells)
