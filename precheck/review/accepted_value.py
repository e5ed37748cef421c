"""What was accepted, held against what is drawn now: a document accepts a value, and no worse one."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.checks import Check
from precheck.checks.evidence import in_words
from precheck.files import spelling
from precheck.review.accepted import Acceptance
from precheck.review.finding import Finding
from precheck.units import Measure

ROUNDED = " (rounded)"


def not_accepted(finding: Finding, record: Acceptance) -> str:
    """Return why `record` does not accept what `finding` measured, in words; nothing where it does.

    What is not drawn, and what a person should look at, has no value: there the record accepts that very statement.
    """
    measured = [leaf for leaf in _telling(finding) if leaf.relation is not None and leaf.missing is None]
    if not measured:
        return f"accepts {_listed(record.values)}, and the drawings do not show it" if record.values else ""
    shown = [_text(leaf) for leaf in measured]
    if not record.values:
        return f"does not say what was accepted; write `value: {_listed(shown)}` if that is what the document accepts"
    worse = [text for leaf, text in zip(measured, shown, strict=True) if not _is_covered(leaf, text, record.values)]
    return (
        f"accepts {_listed(record.values)}, and {', '.join(worse)} is drawn; the finding is open again" if worse else ""
    )


def _telling(finding: Finding) -> Iterator[Check]:
    leaves = list(finding.check.leaves())
    yield from [leaf for leaf in leaves if leaf.outcome is finding.check.outcome] or leaves


def _text(leaf: Check) -> str:
    return in_words(leaf).measured.removesuffix(ROUNDED)


def _is_covered(leaf: Check, shown: str, accepted: tuple[str, ...]) -> bool:
    return any(spelling.plain(text) == spelling.plain(shown) or _is_no_worse(leaf, text) for text in accepted)


def _is_no_worse(leaf: Check, text: str) -> bool:
    relation, measured = leaf.relation, leaf.measured
    assert relation is not None
    if not relation.is_ordered:
        return False
    try:
        accepted = type(measured).parse(text) if isinstance(measured, Measure) else type(measured)(text)
    except ValueError:  # a value of another kind, for another of the comparisons
        return False
    return bool(measured == accepted or (measured < accepted) is (relation.wrong_side > 0))


def _listed(values: list[str] | tuple[str, ...]) -> str:
    return values[0] if len(values) == 1 else f"[{', '.join(values)}]"
