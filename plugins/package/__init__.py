"""The submittal package: sheets, schedules, notes, forms and permits."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.package import agreement, lines, not_in_job, rules, schedule, seal
    from precheck_plugins.package.permits import lines as permit_lines
    from precheck_plugins.package.permits import rules as permits
    from precheck_plugins.package.permits import site

    return rules_in(agreement, lines, not_in_job, permit_lines, permits, rules, schedule, seal, site)
