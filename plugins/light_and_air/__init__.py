"""Light and air: glass and opening windows of habitable rooms, what may stand in for them; bathrooms."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.light_and_air import areas, baths, rules

    return rules_in(rules, areas, baths)
