"""The response letter: every comment of the last correction list, what changed, and on which sheet.

The answers stand in a file of their own, by the number of the comment in the correction list of the old revision::

    answers:
      - comment: 3
        changed: Sill lowered to 43 in; window schedule revised
        sheet: A1
        cloud: 2                # optional: the number in the revision cloud
      - comment: 4
        request: Ruling asked for on the existing stair, letter of March 2 attached   # where nothing was changed
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.files.record import Record, read_record
from precheck.files.source import Place, Problem, Unusable, read_file
from precheck.reports.changes import key_of, stops
from precheck.reports.papers.corrections import comment_on
from precheck.reports.papers.marks import foot, head, plain
from precheck.reports.worklist import Item, items_of
from precheck.review.finding import Finding, Review


class Answer(Record):
    """One answer: the comment's number, and what changed on which sheet, or what is asked for instead."""

    kind = "answer"
    comment: int
    changed: str = ""
    sheet: str = ""
    cloud: str = ""
    request: str = ""

    @classmethod
    def as_meant(cls, written: Any) -> Any:
        """Return the answer without its empty keys, each of which stands for no answer yet."""
        return {k: v for k, v in written.items() if v is not None} if isinstance(written, dict) else written


class Answers(Record):
    """The answers to one correction list."""

    kind = "answers file"
    answers: tuple[Answer, ...] = ()


def read_answers(path: Path) -> Answers:
    """Read an answers file. Raises `Unusable`."""
    return read_record(Answers, read_file(path))


def comments_of(review: Review) -> tuple[Item, ...]:
    """Return the comments that a response must answer: corrections and what was not shown."""
    return tuple(item for item in items_of(review) if item.outcome in (Outcome.FAIL, Outcome.NOT_SHOWN))


def blank(review: Review) -> str:
    """Return an answers file to fill in, with each comment above its answer."""
    lines = ["# What each comment was met with. Where nothing was changed, write `request: ...` instead.", "answers:"]
    for item in comments_of(review):
        gist = " ".join(item.about(item.gist).split())
        lines += ["", f"  # {item.number}. {gist}", f"  - comment: {item.number}", "    changed:", "    sheet:"]
    return "\n".join(lines) + "\n"


def render(old: Review, new: Review, answers: Answers) -> str:
    """Return the letter. Raises `Unusable` while a comment has no answer or still stands without a request."""
    comments = comments_of(old)
    problems = list(_problems(comments, new, answers))
    if problems:
        raise Unusable(problems)
    by_number = {answer.comment: answer for answer in answers.answers}
    return "\n".join(_lines(old, new, comments, by_number)) + "\n"


def _problems(comments: tuple[Item, ...], new: Review, answers: Answers) -> Iterator[Problem]:
    numbers = {item.number for item in comments}
    seen: dict[int, Answer] = {}
    for answer in answers.answers:
        place = answer.place
        if answer.comment not in numbers:
            yield Problem(
                place, f"there is no comment {answer.comment} in the correction list of the old revision; remove it"
            )
        if answer.comment in seen:
            first = seen[answer.comment].place.line
            yield Problem(place, f"comment {answer.comment} is answered twice, first in line {first}; keep one answer")
        seen.setdefault(answer.comment, answer)
    open_still = {key_of(finding): finding for finding in new.findings if stops(finding)}
    for item in comments:
        yield from _unanswered(item, seen.get(item.number), answers.place, open_still)


Open = dict[tuple[str, str], Finding]


def _unanswered(item: Item, answer: Answer | None, file: Place, open_still: Open) -> Iterator[Problem]:
    name = f"comment {item.number} ({item.label})"
    if answer is None or not (answer.changed or answer.request):
        place = answer.place if answer else file
        yield Problem(place, f"{name} is not answered; say what `changed` and on which `sheet`, or what you `request`")
    elif answer.changed and not answer.sheet:
        yield Problem(answer.place, f"{name} names no sheet; add `sheet: ...` so that the reviewer finds the change")
    stand = [finding for finding in item.findings if _stands(item, open_still.get(key_of(finding)))]
    if stand and answer is not None and not answer.request:
        rules = ", ".join(dict.fromkeys(finding.rule.name for finding in stand))
        yield Problem(
            answer.place, f"{name} still stands in the new revision ({rules}); correct it, or add a `request`"
        )


def _stands(item: Item, now: Finding | None) -> bool:
    """Return whether a finding of `item` is still open for its reason: one may wait for values of several parts."""
    if now is None or item.outcome is not Outcome.NOT_SHOWN or now.outcome is not Outcome.NOT_SHOWN:
        return now is not None
    asked = {(wanted.need.owner, wanted.need.key) for wanted in item.wanted}
    return any((need.owner, need.key) in asked for need in now.check.needs)


def _lines(old: Review, new: Review, comments: tuple[Item, ...], by_number: dict[int, Answer]) -> Iterator[str]:
    yield from head("Response to plan review comments", new)
    yield f"Old revision: {plain(shown_name(old.project.place.file))}. Each comment is answered below by its number."
    if not comments:
        yield ""
        yield "There were no comments to answer."
    for item in comments:
        answer = by_number[item.number]
        yield ""
        yield f"## Comment {item.number}"
        yield ""
        yield f"- Comment: {comment_on(item)}"
        if answer.changed:
            yield f"- What changed: {plain(answer.changed)}"
            cloud = f", cloud {plain(answer.cloud)}" if answer.cloud else ""
            yield f"- Sheet: {plain(answer.sheet)}{cloud}"
        if answer.request:
            yield f"- Request: {plain(answer.request)}"
    yield from foot()
