"""Protection of wood from decay and termites."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.decay import lines, posts, rules, termites

    return rules_in(lines, rules, posts, termites)
