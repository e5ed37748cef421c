"""Two revisions of a project held against each other: corrected, no longer asked, new, still standing."""

from __future__ import annotations

import json
from collections.abc import Collection, Iterator
from itertools import zip_longest

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.immutable import fixed
from precheck.reports import words
from precheck.reports.groups import LABELS
from precheck.reports.opening import verdict_line
from precheck.reports.worklist import FIRST_TOPIC
from precheck.review.finding import Finding, Review
from precheck.survey import part_of

CORRECTED, GONE, NEW, STANDS, LOOK = "corrected", "no longer required", "new", "still open", "new to review"
TITLES = {kind: kind.upper() for kind in (CORRECTED, GONE, NEW, STANDS, LOOK)}
STOPS = frozenset((Outcome.ERROR, Outcome.FAIL, Outcome.NOT_SHOWN))
Key = tuple[str, str]


@fixed
class FindingChange:
    """What became of one rule's finding on one part. `old` or `new` is None where that revision has none."""

    kind: str
    old: Finding | None
    new: Finding | None

    @property
    def known(self) -> Finding:
        """The finding to name the change after: the newer one where there is one."""
        found = self.new or self.old
        assert found is not None
        return found

    @property
    def key(self) -> Key:
        """Rule and part."""
        return key_of(self.known)

    @property
    def part(self) -> str:
        """What it is about."""
        part = part_of(self.known.subject)
        return part.label if part is not None else "the project"

    @property
    def text(self) -> str:
        """Before and now, in one line."""
        before, now = _said(self.old, "not checked before"), _said(self.new, "the part is gone")
        return now if before == now else f"was: {before}; now: {now}"


def key_of(finding: Finding) -> Key:
    """Return what makes findings of two revisions the same: the rule, and what it is about."""
    return finding.rule.name, words.label(finding)


def stops(finding: Finding | None) -> bool:
    """Return whether a finding stops the job: it errs, fails or is not shown, and no document accepts it."""
    return finding is not None and finding.outcome in STOPS and finding.accepted is None


def changes(old: Review, new: Review) -> list[FindingChange]:
    """Return every change between two reviews that a person should know of, zoning first and then as in the file."""
    telling = {finding.rule.name for review in (old, new) for finding in review.findings if _tells(finding)}
    before, after = _by_key(old, telling), _by_key(new, telling)
    found: list[FindingChange] = []
    for key in dict.fromkeys((*after, *before)):
        for was, now in zip_longest(before.get(key, []), after.get(key, [])):
            if (kind := _kind(was, now)) is not None:
                found.append(FindingChange(kind, was, now))
    return sorted(found, key=lambda change: change.known.rule.topic != FIRST_TOPIC)


def _tells(finding: Finding) -> bool:
    """Return whether a person should know of a finding: all others change nothing that is told."""
    return finding.outcome in STOPS or finding.outcome is Outcome.WARN


def _by_key(review: Review, rules: Collection[str]) -> dict[Key, list[Finding]]:
    found: dict[Key, list[Finding]] = {}
    for finding in review.findings:
        if finding.rule.name in rules:
            found.setdefault(key_of(finding), []).append(finding)
    return found


def _kind(was: Finding | None, now: Finding | None) -> str | None:
    if stops(was):
        asked = now is not None and now.outcome is not Outcome.DOES_NOT_APPLY
        return STANDS if stops(now) else CORRECTED if asked else GONE
    if stops(now):
        return NEW
    to_look_at = now is not None and now.outcome is Outcome.WARN and now.accepted is None
    return LOOK if to_look_at and (was is None or was.outcome is not Outcome.WARN) else None


def _said(finding: Finding | None, absent: str) -> str:
    if finding is None:
        return absent
    if finding.outcome is Outcome.NOT_SHOWN:
        return f"not shown: {', '.join(words.needs(finding))}"
    told = "; ".join(words.lines_of(finding))
    accepted = f" ({words.accepted_line(finding)})" if finding.accepted else ""
    return f"{LABELS[finding.outcome]}: {told}{accepted}"


def render(old: Review, new: Review) -> str:
    """Return the comparison as text for a terminal."""
    return "\n".join(_lines(old, new)) + "\n"


def _lines(old: Review, new: Review) -> Iterator[str]:
    from precheck.reports.width import wrapped

    found = changes(old, new)
    yield f"Old: {shown_name(old.project.place.file)}"
    yield f"New: {shown_name(new.project.place.file)}"
    if words.code_line(old) != words.code_line(new):
        yield from wrapped(f"The code differs: old {words.code_line(old)}; new {words.code_line(new)}.")
    yield ""
    yield ", ".join(f"{sum(c.kind == kind for c in found)} {kind}" for kind in TITLES) + "."
    for kind, title in TITLES.items():
        mine = [change for change in found if change.kind == kind]
        if mine:
            yield ""
            yield title
        yield from _by_part(mine)
    yield ""
    yield from wrapped(f"The new revision: {verdict_line(new)}")


def _by_part(found: list[FindingChange]) -> Iterator[str]:
    from precheck.reports.width import wrapped

    for part in dict.fromkeys(change.part for change in found):
        yield f"  {part}"
        for change in found:
            if change.part == part:
                yield from wrapped(f"- {change.known.rule.name}: {change.text}", indent=4, hang=2)


def render_json(old: Review, new: Review) -> str:
    """Return the comparison as stable data."""
    found = [
        {"change": c.kind, "rule": c.key[0], "subject": c.key[1], "part": c.part, "old": _outcome(c.old),
         "new": _outcome(c.new), "text": c.text} for c in changes(old, new)
    ]  # fmt: skip
    data = {
        "old": {"file": old.project.place.file, "code": words.code_line(old), "verdict": old.verdict},
        "new": {"file": new.project.place.file, "code": words.code_line(new), "verdict": new.verdict},
        "changes": found,
    }
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"


def _outcome(finding: Finding | None) -> str | None:
    return finding.outcome.word if finding else None
