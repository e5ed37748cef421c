"""What the house stands on: footings, soil, anchor bolts, slabs on ground, foundation and retaining walls."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.foundations import anchorage, radon, retaining
    from precheck_plugins.foundations.rules import (
        bed,
        footings,
        lines,
        placing,
        reinforcement,
        support,
        wall_thickness,
        walls,
    )
    from precheck_plugins.foundations.slabs import lines as slab_lines
    from precheck_plugins.foundations.slabs import practice
    from precheck_plugins.foundations.slabs import rules as slabs

    return rules_in(
        anchorage,
        bed,
        footings,
        lines,
        placing,
        practice,
        radon,
        reinforcement,
        retaining,
        slab_lines,
        slabs,
        support,
        walls,
        wall_thickness,
    )
