"""What a ruleset keeps those below it from changing: a lock on a limit, a section, chapter or topic, or the whole code.

A lock says that localities may not require more, may not require less, or may not change what it covers. Who writes an
amendment that breaks a lock that holds already is refused. One that was written before the lock is set aside from the
lock's first day on, and told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any, NamedTuple

from precheck.files.missing import is_missing
from precheck.files.source import Place
from precheck.rulesets.limit import Limit
from precheck.rulesets.part_of_code import PartOfCode, part_of_code
from precheck.units import Measure

WHOLE_CODE = "whole code"
MAY_NOT_CHANGE = "may not change"
MORE, LESS, OTHERWISE = "may not require more", "may not require less", ""
"""Which way a value was changed, in the words of the lock that forbids it; the last where nobody can tell which."""


class Lock(NamedTuple):
    """What `jurisdiction` keeps localities from, of `what`, by which act, from which day, and where that is written."""

    jurisdiction: str
    what: str
    localities: str
    by: str
    begins: date
    place: Place

    def __str__(self) -> str:
        return f"{self.jurisdiction} locks {self.what}: localities {self.localities} ({self.by}, {self.place})"

    @property
    def part(self) -> PartOfCode | None:
        """The section, chapter or topic that it is about; None where it is about one limit, or the whole code."""
        return part_of_code(self.what)

    def covers(self, limit: Limit[Any]) -> bool:
        """Whether `limit` is one of those that are locked; of the whole code it is one that cites a section."""
        if self.what == WHOLE_CODE:
            return bool(limit.section)
        return self.part.holds(limit) if self.part is not None else limit.name == self.what

    def forbids(self, way: str) -> bool | None:
        """Whether it forbids a change of a limit that goes one `way`; None where nobody can tell which way that is."""
        if self.localities == MAY_NOT_CHANGE or way == self.localities:
            return True
        return None if way == OTHERWISE else False


class Breach(NamedTuple):
    """One limit that was changed although it is locked; not `certain` where nobody can tell whether it asks for more."""

    name: str
    lock: Lock
    certain: bool


def breaches(
    locks: tuple[Lock, ...], before: Mapping[str, Limit[Any]], after: Mapping[str, Limit[Any]]
) -> Iterator[Breach]:
    """Yield what `after` changes of `before` against `locks`, each limit once."""
    changed = [name for name, limit in after.items() if before.get(name) is not limit]
    for name in changed:
        found = [breach for lock in locks if (breach := _breach(lock, before.get(name), after[name])) is not None]
        if found:
            yield max(found, key=lambda breach: breach.certain)


def _breach(lock: Lock, before: Limit[Any] | None, after: Limit[Any]) -> Breach | None:
    if not lock.covers(after):
        return None
    added_beside_the_code = before is None and lock.what == WHOLE_CODE
    told = [lock.forbids(way) for way in ways(before, after)]
    if True in told and not added_beside_the_code:
        return Breach(after.name, lock, certain=True)
    return Breach(after.name, lock, certain=False) if True in told or None in told else None


def ways(before: Limit[Any] | None, after: Limit[Any]) -> set[str]:
    """Return which ways a limit was changed; none where it stands as it was, or was left to localities to set."""
    if before is None:
        return {MORE}
    return _ways_of_limit(before, after) | _ways_for_some(before, after)


def _ways_for_some(before: Limit[Any], after: Limit[Any]) -> set[str]:
    """Return which ways the values of some parts were changed, against their own of before, or that of all.

    Nobody can tell of parts of which only some had another value before.
    """
    found = set()
    for one in (one for one in after.for_some if one not in before.for_some):
        own = next((other.limit for other in before.for_some if other.is_like(one)), None)
        found |= _ways_of_limit(own or before, one.limit)
        if own is None and before.for_some:
            found.add(OTHERWISE)
    return found


def _ways_of_limit(before: Limit[Any], after: Limit[Any]) -> set[str]:
    if is_missing(before.value) or is_missing(after.value):
        return set()
    found = _ways_of(before.value, after.value, "works" if before.takes is not None else before.sense)
    if before.advised != after.advised:
        found.add(LESS if after.advised else MORE)
    return found


def _ways_of(old: Any, new: Any, sense: str) -> set[str]:
    if old == new:
        return set()
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        return {way for row in old for way in _ways_of(old[row], new.get(row), sense)}
    if old is None or new is None:
        asks_more = (old is None) != ("allowed" in (sense, old, new))
        return {MORE if asks_more else LESS}
    if isinstance(old, tuple) and isinstance(new, tuple):
        return _ways_of_lists(frozenset(old), frozenset(new), sense)
    return {_way_of_measures(old, new, sense)}


def _ways_of_lists(old: frozenset[Any], new: frozenset[Any], sense: str) -> set[str]:
    """A list of what is accepted asks for more where it is cut; a list of works that take a thing, where it grows."""
    if sense not in ("one of", "works"):
        return {OTHERWISE}
    cut, grown = (MORE, LESS) if sense == "one of" else (LESS, MORE)
    return {way for way, changed in ((cut, old - new), (grown, new - old)) if changed}


def _way_of_measures(old: Any, new: Any, sense: str) -> str:
    comparable = type(old) is type(new) and isinstance(old, Measure | int)
    if not comparable or sense not in ("minimum", "maximum", "under", "over"):
        return OTHERWISE
    return MORE if (new > old) == (sense in ("minimum", "over")) else LESS
