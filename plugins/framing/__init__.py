"""Framing: loads, members, supports and roofs, with their own engineering."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.framing import (
        cut_rules,
        detail_rules,
        ground_rules,
        header_rules,
        ledger_rules,
        load_rules,
        member_rules,
        nail_rules,
        place_rules,
        roof_part_rules,
        roof_rules,
        support_rules,
        truss_rules,
    )

    return rules_in(
        load_rules,
        member_rules,
        cut_rules,
        support_rules,
        header_rules,
        detail_rules,
        roof_rules,
        roof_part_rules,
        place_rules,
        ground_rules,
        ledger_rules,
        nail_rules,
        truss_rules,
    )
