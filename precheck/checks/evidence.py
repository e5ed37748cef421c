"""One comparison in words: measured value, limit, derivation and margin, as the trade writes them."""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.checks.check import Check
from precheck.checks.outcome import Outcome, words
from precheck.units import Length, Measure, decimal, derived, finely, in_feet

FOOT = Length.parse("1 ft")


class Evidence(NamedTuple):
    """One comparison in words: what was measured, how it relates to which limit, how it was derived, the margin."""

    measured: str
    relation: str
    limit: str
    derived: str
    margin: str
    outcome: Outcome
    limit_name: str


def evidence_of(check: Check) -> list[Evidence]:
    """Return the comparisons of `check` in words."""
    return [in_words(leaf) for leaf in check.leaves() if leaf.relation]


def in_words(leaf: Check) -> Evidence:
    """Return what a single comparison rests on."""
    limit = leaf.bound.value if leaf.bound is not None else leaf.how
    measured = "not shown" if leaf.missing is not None else str(leaf.measured)
    shown_limit = _shown(limit)
    differs = isinstance(leaf.measured, Measure) and leaf.measured != limit
    if isinstance(limit, Measure) and differs and _alike(measured, shown_limit):
        measured = finely(leaf.measured, limit.n)
    how = words(leaf.how) if leaf.bound is not None and leaf.missing is None else ""
    name = leaf.bound.name if leaf.bound is not None else ""
    margin = _margin(leaf, limit, "'" in measured)
    return Evidence(measured, leaf.relation, shown_limit, how, margin, leaf.outcome, name)


def _alike(measured: str, limit: str) -> bool:
    """Whether two values that differ read alike, so that a reader would wonder."""
    return measured.removeprefix("about ") == limit.removeprefix("about ")


def _margin(leaf: Check, limit: Any, feet: bool) -> str:
    if leaf.missing is not None or leaf.relation not in ("at most", "at least", "less than"):
        return ""
    over = leaf.measured - limit
    if not isinstance(over, Measure | int):
        return decimal(over)
    size = over if isinstance(over, int) else over.n
    if not size:
        return "none"
    text = derived(abs(over)) if isinstance(over, Measure) else str(abs(over))
    if feet and isinstance(over, Length) and abs(over) > FOOT:
        text = in_feet(abs(over))
    if isinstance(over, Measure) and text.startswith("about 0 "):
        text = finely(abs(over))
    return f"{text} {'over' if size > 0 else 'under'}"


def _shown(limit: Any) -> str:
    if limit is True:
        return "required"
    return " or ".join(limit) if isinstance(limit, tuple) else str(limit)
