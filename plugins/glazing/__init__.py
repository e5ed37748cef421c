"""Safety glazing in every hazardous location, and skylights."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.glazing import beside, lines, rules, skylights

    return rules_in(lines, rules, beside, skylights)
