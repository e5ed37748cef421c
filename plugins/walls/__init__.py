"""Wall framing: studs, plates, notches and holes, what holds the roof down to walls."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.walls import cuts, lines, rules, shoring

    return rules_in(lines, cuts, rules, shoring)
