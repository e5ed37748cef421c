"""Limits that only the jurisdiction can set."""

from __future__ import annotations

from typing import Any

from precheck import Check, Limit, Look, is_missing, look_at


def where_set(limit: Limit[Any], check: Check) -> Check:
    """Return `check` where the ruleset sets `limit`; where it does not, the building department has to be asked."""
    if is_missing(limit.value):
        return look_at(
            Look.OFFICIAL, f"{limit.means}: set by the jurisdiction, and its ruleset does not give it; ask for it"
        )
    return check
