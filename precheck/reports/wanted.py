"""What is not shown, as requests: one for each thing, over all parts of a kind that lack it, and else one for each part.

A value is asked for once, whichever part waits for it. What only the jurisdiction can say is kept apart: it is asked of
the building department, and not of whoever draws.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache

from precheck.files.missing import Need
from precheck.files.record import fields_of, key_of
from precheck.immutable import fixed
from precheck.project import Part
from precheck.reports.asked_as import phrase_for
from precheck.reports.together import MANY, together
from precheck.review.finding import Finding
from precheck.rules.line import Line
from precheck.survey import part_of

PROJECT = "the project"
_BEFORE = {key: turn for turn, key in enumerate((
    "use", "story", "rectangle", "outline", "floor", "form", "kind", "what", "operation", "unit size", "rough opening",
    "middle", "net clear opening", "sill height", "sill above grade", "opens to",
))}  # fmt: skip
_ANSWERED = re.compile("`([^`:]*): yes or no`")
RULESET = "the jurisdiction's ruleset"
OF_PROJECT = frozenset(("dwelling", "lot", "submittal", "design criteria"))
"""Records of the project itself: what they lack is asked of it once, whichever part waits for it."""
_OF_PROJECT = re.compile(f" of ({'|'.join(sorted(OF_PROJECT))})$")


@fixed
class Wanted:
    """One value to show, of one part or of several alike, and the findings that wait for it."""

    needs: tuple[Need, ...]
    findings: tuple[Finding, ...]

    @property
    def need(self) -> Need:
        """The value, of the first part that lacks it."""
        return self.needs[0]

    def text_for(self, owner: str) -> str:
        """Return the value's name, without `owner` where that is already said: ``self closing (yes or no)``."""
        if phrase := phrase_for(self.need):
            said = f"{phrase}{self._taken_by(_OF_PROJECT.sub('', self.need.key.partition(' (of ')[0]))}"
            return said if self._is_of(owner) else f"{self.need.owner}: {said}"
        name = Need(self.need.owner, self.need.key).text(owner)
        bare = _ANSWERED.sub(r"\1", name)
        asked = f"{bare} (yes or no)" if self.need.yes_or_no or bare != name else name
        return f"{asked}{self._taken_by(name)}"

    def _is_of(self, owner: str) -> bool:
        """Return whether the value is one of `owner`, of a part of it, or of the project as a whole, which says so itself."""
        own = self.need.owner
        return own in ("", owner, PROJECT, *OF_PROJECT) or own.endswith(f" of {owner}")

    def _taken_by(self, name: str) -> str:
        """Return for which line of a work it is asked, where the name does not say so, and on which sheet one looks for it."""
        lines = [limit for f in self.findings for limit in f.limits if limit.takes is not None]
        told = name.partition(" (")[0].split()
        others = dict.fromkeys(
            limit.measures
            for limit in lines
            if limit.measures not in name and not all(word in limit.measures for word in told)
        )
        sheets = dict.fromkeys(
            limit.takes.show_on for limit in lines if limit.takes is not None and limit.takes.show_on
        )
        for_what = f", for {' and '.join(others)}" if others else ""
        return f"{for_what} [on the {', '.join(sheets)}]" if sheets else for_what

    @property
    def rules(self) -> tuple[str, ...]:
        """The rules that wait."""
        return tuple(dict.fromkeys(finding.rule.name for finding in self.findings))

    def waiting(self, owner: str, called: Callable[[Finding], str]) -> list[str]:
        """Return what waits, as `called`: with the part where it is not `owner`, and why it is due here."""
        told: dict[str, list[str]] = {}
        for finding in self.findings:
            why, part = finding.check.why, part_of(finding.subject)
            elsewhere = part is not None and part.label != owner and part.label not in why and len(self.needs) == 1
            reason = ", ".join(text for text in (part.label if elsewhere and part else "", why) if text)
            told.setdefault(reason, []).append(called(finding))
        named = [(", ".join(dict.fromkeys(names)), reason) for reason, names in told.items()]
        return [f"{names}: {reason}" if reason else names for names, reason in named]


@fixed
class Request:
    """What is wanted of one part, or of several alike: `label` says of which."""

    label: str
    parts: tuple[Part, ...]
    wanted: tuple[Wanted, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The findings that wait, each once."""
        return tuple({id(f): f for one in self.wanted for f in one.findings}.values())


Lacked = dict[str, dict[str, Wanted]]  # by what lacks it, then by the value's name


def requests_of(findings: Iterable[Finding], parts: dict[str, Part]) -> tuple[list[Request], list[Request]]:
    """Return the requests to whoever draws, and those to the jurisdiction. `parts` are all parts by their labels."""
    lacked = _lacked(findings, parts)
    of_town = [Request(RULESET, (), (one,)) for one in lacked.pop(RULESET, {}).values()]
    of_work = _apart(lacked, lambda one: all(isinstance(f.rule, Line) for f in one.findings))
    return [*_by_thing(of_work, parts, 1), *_merged(lacked, parts)], of_town


def _lacked(findings: Iterable[Finding], parts: dict[str, Part]) -> Lacked:
    found: dict[str, dict[str, tuple[Need, list[Finding]]]] = {}
    for finding in findings:
        for need in finding.check.needs or (Need("", finding.rule.summary),):
            owner = owner_of(need, finding, parts)
            found.setdefault(owner, {}).setdefault(need.text(owner), (need, []))[1].append(finding)
    return {
        owner: {text: Wanted((need,), tuple(waiting)) for text, (need, waiting) in values.items()}
        for owner, values in found.items()
    }


def owner_of(need: Need, finding: Finding, parts: dict[str, Part]) -> str:
    """Return the part that lacks the value: the one that the need names, else the one that the finding is about."""
    if need.owner == RULESET:
        return RULESET
    tails = str(need).split(" of ")[1:]
    if tails and tails[-1] in OF_PROJECT:
        return PROJECT
    named = (tail for n in range(len(tails)) if (tail := " of ".join(tails[n:])) in parts or tail == PROJECT)
    part = part_of(finding.subject)
    return next(named, part.label if part else PROJECT)


def _apart(lacked: Lacked, wanted: Callable[[Wanted], bool]) -> Lacked:
    """Take from `lacked` what is `wanted`, and return it."""
    taken: Lacked = {}
    for owner, values in lacked.items():
        for text in [text for text, one in values.items() if wanted(one)]:
            taken.setdefault(owner, {})[text] = values.pop(text)
    return taken


def _merged(lacked: Lacked, parts: dict[str, Part]) -> Iterator[Request]:
    """Yield what many parts of a kind lack by the thing, then what is left by the part, parts alike together."""
    counts: dict[tuple[str, str], int] = {}
    for owner, text in _each(lacked):
        counts[_kind(owner, parts), text] = counts.get((_kind(owner, parts), text), 0) + 1
    common = {
        owner: {text: values.pop(text) for text in list(values) if counts[_kind(owner, parts), text] >= MANY}
        for owner, values in lacked.items()
        if owner in parts
    }
    yield from _by_thing(common, parts, MANY)
    for text in list(lacked.get(PROJECT, ())):
        yield _request([PROJECT], lacked, [text], parts)
    alike: dict[tuple[str, ...], list[str]] = {}
    for owner, values in lacked.items():
        if values and owner != PROJECT:
            alike.setdefault((_kind(owner, parts), *sorted(values)), []).append(owner)
    for owners in alike.values():
        yield _request(owners, lacked, list(lacked[owners[0]]), parts)


def _by_thing(lacked: Lacked, parts: dict[str, Part], most_at_once: int) -> Iterator[Request]:
    """Yield a request for each thing, over the parts of a kind; what the same parts lack, for one line, is one."""
    owners: dict[tuple[str, str], list[str]] = {}
    for owner, text in _each(lacked):
        owners.setdefault((_kind(owner, parts), text), []).append(owner)
    things: dict[tuple[str, ...], list[str]] = {}
    for (_, text), named in owners.items():
        of_one_line = lacked[named[0]][text].rules if most_at_once == 1 else ()
        things.setdefault((*named, *of_one_line), []).append(text)
    for names, texts in things.items():
        yield _request([name for name in names if name in lacked], lacked, texts, parts)


def _request(owners: list[str], lacked: Lacked, texts: list[str], parts: dict[str, Part]) -> Request:
    mine = tuple(parts[owner] for owner in owners if owner in parts)
    label = together(mine, parts.values()) if mine else owners[0]
    wanted = (
        Wanted(
            tuple(need for owner in owners for need in lacked[owner][text].needs),
            tuple(finding for owner in owners for finding in lacked[owner][text].findings),
        )
        for text in texts
    )
    return Request(label, mine, tuple(sorted(wanted, key=lambda one: turn_of(mine[0], one.need.key) if mine else 0)))


def turn_of(part: Part, key: str) -> int:
    """Return the turn of a value of `part`: that of its field, as one describes it from its outline to its details."""
    keys = keys_of(type(part))
    return next((turn for name, turn in keys.items() if key == name or key.startswith(f"{name} (")), len(keys))


@cache
def keys_of(kind: type[Part]) -> dict[str, int]:
    """Return the turn of each key of a kind of part."""
    keys = [key_of(kind, field) for field in fields_of(kind)]
    return {key: turn for turn, key in enumerate(sorted(keys, key=lambda key: _BEFORE.get(key, len(_BEFORE))))}


def _each(lacked: Lacked) -> Iterator[tuple[str, str]]:
    return ((owner, text) for owner, values in lacked.items() for text in values)


def _kind(owner: str, parts: dict[str, Part]) -> str:
    return parts[owner].kind if owner in parts else owner
