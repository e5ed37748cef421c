"""Access to attics and crawl spaces, and what the way up makes of an attic."""

from __future__ import annotations

from collections.abc import Iterable

from precheck import Rule, hookimpl, rules_in


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules of this topic."""
    from precheck_plugins.access import crawl_spaces, lines, rules

    return rules_in(crawl_spaces, rules, lines)
