"""Limits that only the jurisdiction can set."""

from __future__ import annotations

from typing import Any

from precheck import Check, Limit, Look, does_not_apply, is_missing, look_at


def ask_unless_set(*limits: Limit[Any]) -> Check | None:
    """Return a warning to ask for the first of `limits` that the jurisdiction has yet to set; None where it sets all.

    Where none of them is required here, nothing is asked.
    """
    for limit in limits:
        if is_missing(limit.value):
            return look_at(Look.OFFICIAL, f"{limit.means}: set by the jurisdiction; its ruleset does not give it; ask")
    if all(limit.value is None for limit in limits):
        return does_not_apply(limits[0].why_void or f"{limits[0].name} is not required here")
    return None
