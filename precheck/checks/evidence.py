"""One comparison in words: measured value, limit, derivation and margin, as a plan reviewer writes them.

Every report takes the sentence, or the pieces of it, from here.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.checks.check import Check
from precheck.checks.margin import EXACT, margin_of
from precheck.checks.outcome import Look, Outcome, capital, words
from precheck.checks.relation import Relation
from precheck.units import Length, Measure, finely, like
from precheck.units.deflection import SpanOverDeflection

NOT_SHOWN = "not shown"
ABOUT = "about "  # begins a measure that was rounded
NO_NOTE = ("", "as stated")
ARITHMETIC = (" / ", " + ")  # signs that tell a calculation from a note, and from a mere fraction of an inch


class Evidence(NamedTuple):
    """One comparison in words: what was measured, how it stands to which limit, how it was derived, the margin."""

    what: str
    measured: str
    relation: str
    limit: str
    asked: str
    derived: str
    margin: str
    outcome: Outcome
    limit_name: str
    lead: str = ""
    tells_margin: bool = False

    @property
    def is_worked(self) -> bool:
        """Whether how it was derived is arithmetic, such as ``109 in / 14 risers``."""
        return not self.lead and any(sign in self.derived for sign in ARITHMETIC)

    @property
    def value(self) -> str:
        """What was measured, with the calculation that it came of."""
        return f"{self.lead}{self.derived} = {self.measured}" if self.is_worked else f"{self.lead}{self.measured}"

    @property
    def note(self) -> str:
        """What there is to say of how it was measured, where that is no calculation."""
        return "" if self.is_worked or self.derived in NO_NOTE else self.derived

    @property
    def sentence(self) -> str:
        """All of it: ``Sill height: 46 in, 44 in maximum (2 in too high)``."""
        margin = f" ({self.margin})" if self.tells_margin and self.margin not in ("", EXACT) else ""
        note = f" [{self.note}]" if self.note else ""
        return f"{capital(self.what)}: {self.value}, {self.asked}{margin}{note}"


def evidence_of(check: Check) -> list[Evidence]:
    """Return the comparisons of `check` in words."""
    return [in_words(leaf) for leaf in check.leaves() if leaf.relation is not None]


def in_words(leaf: Check) -> Evidence:
    """Return what a single comparison, which has its relation and its limit, rests on."""
    relation, bound = leaf.relation, leaf.bound
    assert relation is not None
    assert bound is not None
    limit, shown = bound.value, leaf.missing is None
    counts = type(limit) is int and bound.kind != "number" and relation.is_ordered
    return Evidence(
        bound.measures,
        _measured(leaf.measured, limit, relation) if shown else NOT_SHOWN,
        relation.word,
        relation.text_of(limit),
        _asked(relation, limit, counts, bound.advised),
        words(leaf.derived) if shown else "",
        _margin(leaf, limit, relation, bound.measures) if shown else "",
        leaf.outcome,
        bound.name,
        relation.lead if shown else "",
        relation.tells_margin and not counts,
    )


def _margin(leaf: Check, limit: Any, relation: Relation, measures: str) -> str:
    """Return the margin; none for what complies with the metric figure beside a limit that it misses by a hair."""
    complies = leaf.outcome is Outcome.PASS or leaf.look is Look.CLOSE
    by_metric = complies and relation.is_ordered and not relation.holds(leaf.measured, limit)
    return EXACT if by_metric else margin_of(leaf.measured, limit, relation, measures)


def _measured(value: Any, limit: Any, relation: Relation) -> str:
    if isinstance(limit, SpanOverDeflection):
        return str(SpanOverDeflection(value))
    both = isinstance(value, Measure) and isinstance(limit, Measure)
    text = like(value, limit) if both else relation.text_of(value)
    if both and not isinstance(value, Length) and value != limit and text.removeprefix(ABOUT) == str(limit):
        text = finely(value, limit, limit.n)  # two values that differ and read alike would make a reader wonder
    return f"{text.removeprefix(ABOUT)} (rounded)" if text.startswith(ABOUT) else text


def _asked(relation: Relation, limit: Any, counts: bool, advised: bool) -> str:
    said = relation.asked_count if counts and relation.asked_count else relation.asked
    if counts and limit == 0:
        said = "none allowed"
    if advised:
        said = said.replace("must be", "should be").replace("required", "recommended").replace("allowed", "recommended")
    return said.format(relation.text_of(limit))
