"""Framing: loads, members, supports and roofs, with their own engineering.

From the ground up: `timber`, `members` and `tables`, `drawn` and `span`, `rules`.
"""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.framing.rules import (
        cuts,
        details,
        ground,
        guard_posts,
        headers,
        loads,
        members,
        nails,
        notched_ends,
        panels,
        places,
        posts,
        supports,
        trusses,
    )
    from precheck_plugins.framing.rules.decks import ledgers
    from precheck_plugins.framing.rules.decks import loads as deck_loads
    from precheck_plugins.framing.rules.roof_framing import heel_joints, parts, thrust

    return rules_in(
        loads,
        members,
        cuts,
        notched_ends,
        supports,
        posts,
        guard_posts,
        headers,
        details,
        panels,
        thrust,
        heel_joints,
        parts,
        places,
        ground,
        ledgers,
        deck_loads,
        nails,
        trusses,
    )
