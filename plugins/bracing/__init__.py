"""Wall bracing: braced wall lines, their panels, portal frames."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.bracing.rules import amount, fixings, lines, panels, shown

    return rules_in(shown, amount, fixings, lines, panels)
