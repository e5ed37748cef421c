"""Energy: what new, altered and newly conditioned parts of the thermal envelope must meet in each climate zone."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.energy import existing, foam, glass, lines, retarder, rules, services

    return rules_in(existing, foam, lines, retarder, rules, glass, services)
