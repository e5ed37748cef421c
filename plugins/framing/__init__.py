"""Framing: loads, members, supports and roofs, with their own engineering.

From the ground up: `timber`, `members` and `tables`, `drawn` and `span`, `rules`.
"""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.framing.lines import LINES
    from precheck_plugins.framing.rules import (
        cuts,
        decks,
        details,
        ground,
        headers,
        loads,
        members,
        nails,
        places,
        supports,
        trusses,
    )
    from precheck_plugins.framing.rules.roof_framing import parts, thrust

    return rules_in(
        *LINES, loads, members, cuts, supports, headers, details, thrust, parts, places, ground, decks, nails, trusses
    )
