"""The skin of the house: barrier, flashing, veneer, boards, walls that hold earth, ground that falls away, curing."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.cladding import boards, ground, lines, rules, veneer

    return rules_in(boards, ground, lines, rules, veneer)
