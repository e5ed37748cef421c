"""What changes between two adopted codes: limits whose value or force differs, new ones, dropped ones, new numbering."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Any

from precheck.immutable import fixed
from precheck.rulesets.adopted import AdoptedCode
from precheck.rulesets.limit import Limit


@fixed
class LimitChange:
    """One limit in two codes; None where a code does not have it."""

    name: str
    before: Limit[Any] | None
    after: Limit[Any] | None

    @property
    def either(self) -> Limit[Any]:
        """The limit as the second code has it, else as the first."""
        limit = self.after or self.before
        assert limit is not None
        return limit

    @property
    def section(self) -> str:
        """The section to list the change under: the second code's, else the first's."""
        sections = (limit.section for limit in (self.after, self.before) if limit is not None and limit.section)
        return next(sections, "")


@fixed
class Comparison:
    """All that changes from one code to another."""

    before: AdoptedCode
    after: AdoptedCode
    changes: tuple[LimitChange, ...]
    renumbered: tuple[LimitChange, ...]
    same: int


def compare(before: AdoptedCode, after: AdoptedCode, topics: Iterable[str] = ()) -> Comparison:
    """Return what changes from `before` to `after` (of `topics`, where named), in the order of sections."""
    wanted = frozenset(topics)
    names = sorted({*before.limits, *after.limits})
    pairs = [
        LimitChange(n, before.limits.get(n), after.limits.get(n)) for n in names if not wanted or _topic(n) in wanted
    ]
    changes = sorted((pair for pair in pairs if _differs(pair)), key=_order)
    renumbered = sorted((pair for pair in pairs if not _differs(pair) and _renumbered(pair)), key=_order)
    return Comparison(before, after, tuple(changes), tuple(renumbered), len(pairs) - len(changes))


def by_section(changes: Iterable[LimitChange]) -> Iterator[tuple[str, list[LimitChange]]]:
    """Yield the changes section by section."""
    sections: dict[str, list[LimitChange]] = {}
    for change in changes:
        sections.setdefault(change.section, []).append(change)
    yield from sections.items()


def _topic(name: str) -> str:
    return name.partition(".")[0]


def _differs(pair: LimitChange) -> bool:
    if pair.before is None or pair.after is None:
        return True
    return _said(pair.before) != _said(pair.after)


def _said(limit: Limit[Any]) -> tuple[Any, ...]:
    """Return what a limit asks, of all and of some: its value, and whether it is advice.

    A value that is yet to be set equals another.
    """
    value = limit.value
    known = value if not hasattr(value, "needs") else "set locally"
    return known, limit.advised, [(str(one), *_said(one.limit)) for one in limit.for_some]


def _renumbered(pair: LimitChange) -> bool:
    return pair.before is not None and pair.after is not None and pair.before.section != pair.after.section


def _order(change: LimitChange) -> tuple[Any, ...]:
    parts = re.findall(r"\d+|\D+", change.section)
    return (
        not change.section,
        [(part.isdecimal(), part.zfill(9) if part.isdecimal() else part) for part in parts],
        change.name,
    )
