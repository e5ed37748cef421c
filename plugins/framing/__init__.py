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

    return (*rules_in(*LINES), *_of_members(), *_of_roofs(), *_of_plans_and_decks())


def _of_members() -> Iterable[Rule]:
    from precheck_plugins.framing.rules import (
        cuts,
        details,
        guard_posts,
        headers,
        loads,
        members,
        notched_ends,
        panels,
        posts,
        supports,
        taken_out,
    )

    return rules_in(
        loads, members, cuts, notched_ends, supports, taken_out, posts, guard_posts, headers, details, panels
    )


def _of_roofs() -> Iterable[Rule]:
    from precheck_plugins.framing.rules.roof_framing import heel_joints, parts, thrust

    return rules_in(thrust, heel_joints, parts)


def _of_plans_and_decks() -> Iterable[Rule]:
    from precheck_plugins.framing.rules import ground, nails, openings, places, trusses
    from precheck_plugins.framing.rules.decks import ledgers
    from precheck_plugins.framing.rules.decks import loads as deck_loads

    return rules_in(places, ground, openings, ledgers, deck_loads, nails, trusses)
