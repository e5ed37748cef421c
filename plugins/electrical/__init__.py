"""Electrical: receptacles, ground- and AFCI protection, lights and switches, panel, service, cables."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.electrical import equipment, grounding, lights, lines, outlets, protection, rules, service

    return rules_in(rules, outlets, equipment, protection, lights, service, grounding, lines)
