"""Attics: vents and their net free area, openings, clearance above insulation, unvented assemblies."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.attics import attic_ventilation

    return rules_in(attic_ventilation)
