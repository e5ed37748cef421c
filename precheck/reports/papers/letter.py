"""The town's letter, item by item: what each is about here, as far as its sections and words tell, and the response by *its* numbers.

A letter is read as text: an item begins at a line with a number, such as ``3.``, ``(3)``, ``Item 3:``, ``A-3)`` or ``2.1 -``, and goes on
until the next. It is matched with findings by the sections that it cites, then by the parts and words that it names; what that
does not settle is left to a person, and so is the answer. What is matched is a proposal, which the letter never hides.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import NamedTuple

from precheck.checks import Outcome
from precheck.files.record import Record, read_record
from precheck.files.source import read_file
from precheck.questions.answer import in_quotes
from precheck.reports import words
from precheck.reports.changes import stops
from precheck.reports.papers.marks import foot, head, plain
from precheck.review.finding import Finding, Review
from precheck.rules.line import Line
from precheck.survey import part_of

_NUMBER = re.compile(
    r"^\s{0,12}(?:(?:item|comment|correction|no\.?|#)\s*)?"
    r"(?P<open>\()?(?P<number>[A-Z]{0,2}-?\d{1,3}(?:[.-]\d{1,3}){0,2}|[a-z])(?P<close>[.):]|\s+[-\u2013\u2014])\s+(?P<text>\S.*)$",
    re.IGNORECASE,
)
_SECTION = re.compile(r"\b(?P<chapter>[RNEPMG]\d{3,4})(?P<below>(?:\.\d{1,3})*)", re.IGNORECASE)
_WORD = re.compile(r"[a-z]{4,}")
_SAID_OF_ALL = """
please provide show shown plan plans with that this from have must shall required requirement requirements minimum maximum
code section sheet sheets each also been will where which detail details note notes revise clarify indicate
"""
_COMMON = frozenset(_SAID_OF_ALL.split())
LONGEST, MOST_ITEMS = 200_000, 500  # characters and items of a letter
ENOUGH = 3.0  # what a match weighs at least: a cited section, or several words that few findings have
MOST_MATCHES = 6


class LetterItem(NamedTuple):
    """One item of the letter: its number and text, the sections that it cites, and the findings that seem to be meant."""

    number: str
    text: str
    sections: tuple[str, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def is_open(self) -> bool | None:
        """Whether what seems to be meant still stops the job; None where nothing was matched."""
        return any(map(stops, self.findings)) if self.findings else None


def items_of_letter(text: str) -> tuple[LetterItem, ...]:
    """Return the items of a letter, in its order; what stands before the first is its head and no item.

    A number that comes again is a new item only where it does not go on within one, so that dates and sizes stay text.
    """
    found: list[tuple[str, list[str]]] = []
    for line in text[:LONGEST].splitlines():
        begun = _NUMBER.match(line)
        if begun and _is_next(begun["number"], [number for number, _ in found]):
            found.append((begun["number"], [begun["text"].strip()]))
        elif found and line.strip():
            found[-1][1].append(line.strip())
    return tuple(_item(number, " ".join(lines)) for number, lines in found[:MOST_ITEMS])


def _is_next(number: str, before: list[str]) -> bool:
    """Return whether an item of that number may come now: any first one, and then one that is not there yet."""
    return number.lower() not in {one.lower() for one in before} and (
        bool(before) or not number.isdigit() or int(number) <= 20
    )


def _item(number: str, text: str) -> LetterItem:
    sections = (f"{one['chapter'].upper()}{one['below']}" for one in _SECTION.finditer(text))
    return LetterItem(number, text, tuple(dict.fromkeys(sections)))


def matched(items: tuple[LetterItem, ...], review: Review) -> tuple[LetterItem, ...]:
    """Return the items with the findings of `review` that seem to be meant, the likeliest first."""
    known = [(finding, _told(finding)) for finding in review.findings if _says_something(finding)]
    often: dict[str, int] = {}
    for _, told in known:
        for word in told:
            often[word] = often.get(word, 0) + 1
    return tuple(item._replace(findings=_matches(item, known, often)) for item in items)


def _says_something(finding: Finding) -> bool:
    """Return whether a finding tells of the plans: that a line of a work is shown says too little to answer a letter with."""
    shown = isinstance(finding.rule, Line) and finding.outcome is Outcome.PASS
    return finding.outcome is not Outcome.DOES_NOT_APPLY and not shown


def _matches(
    item: LetterItem, known: list[tuple[Finding, frozenset[str]]], often: Mapping[str, int]
) -> tuple[Finding, ...]:
    said = _words(item.text)
    weighed = []
    for finding, told in known:
        shared = sum(1 / (1 + often[word] / 20) for word in said & told)
        weight = _by_sections(item.sections, finding) + shared + _by_part(item.text, finding)
        if weight >= ENOUGH:
            weighed.append((weight + (0.5 if stops(finding) else 0.0), finding))
    best = max((weight for weight, _ in weighed), default=0.0)
    likely = sorted((one for one in weighed if one[0] >= best - 1.5), key=lambda one: -one[0])
    return tuple(finding for _, finding in likely[:MOST_MATCHES])


def _by_sections(cited: tuple[str, ...], finding: Finding) -> float:
    own = {f"{one['chapter'].upper()}{one['below']}" for text in finding.sections for one in _SECTION.finditer(text)}
    if own & set(cited):
        return 3.0
    return 2.0 if any(_within(a, b) or _within(b, a) for a in own for b in cited) else 0.0


def _within(inner: str, outer: str) -> bool:
    return inner.startswith(f"{outer}.")


def _by_part(text: str, finding: Finding) -> float:
    part = part_of(finding.subject)
    named = part is not None and re.search(rf"(?<![\w-]){re.escape(part.id)}(?![\w-])", text, re.IGNORECASE)
    return 2.0 if named else 0.0


def _told(finding: Finding) -> frozenset[str]:
    part = part_of(finding.subject)
    name = getattr(part, "name", "") if part is not None else ""
    measures = (limit.measures for limit in finding.limits)
    return _words(
        " ".join((words.label(finding), str(name), finding.rule.summary, *measures, *words.lines_of(finding)))
    )


def _words(text: str) -> frozenset[str]:
    found = (word.removesuffix("s") for word in _WORD.findall(text.lower()))
    return frozenset(word for word in found if word not in _COMMON)


class LetterAnswer(Record):
    """A person's answer to one item of the letter, by its number."""

    kind = "answer to an item"
    item: str
    answer: str = ""


class LetterAnswers(Record):
    """The answers to one letter."""

    kind = "answers to a letter"
    answers: tuple[LetterAnswer, ...] = ()


def read_letter_answers(path: Path) -> dict[str, str]:
    """Return the answers of a file by the number of the item. Raises `Unusable`."""
    return {one.item: one.answer for one in read_record(LetterAnswers, read_file(path)).answers}


def answers_file(answers: Mapping[str, str]) -> str:
    """Return the text of a file that holds `answers`."""
    lines = [
        f"  - {{item: {in_quotes(item)}, answer: {in_quotes(' '.join(text.split()))}}}"
        for item, text in answers.items()
        if text.strip()
    ]
    return (
        "\n".join(
            ["# Answers to the plan review letter, by its numbers.", "answers:" if lines else "answers: []", *lines]
        )
        + "\n"
    )


def render(review: Review, letter: str, answers: Mapping[str, str]) -> str:
    """Return the response to the town's letter by its numbers. `answers` are a person's, by the number of the item."""
    return "\n".join(_lines(review, matched(items_of_letter(letter), review), answers)) + "\n"


def _lines(review: Review, items: tuple[LetterItem, ...], answers: Mapping[str, str]) -> Iterator[str]:
    yield from head("Response to the plan review letter", review)
    yield ""
    if not items:
        yield "No numbered item was found in the letter."
    waiting = [item.number for item in items if not answers.get(item.number, "").strip()]
    if waiting:
        yield f"**Not ready to send: still to be answered: {plain(', '.join(waiting))}.**"
    for item in items:
        yield ""
        yield f"## Item {plain(item.number)}"
        yield ""
        yield f"- Comment: {plain(item.text)}"
        answer = answers.get(item.number, "").strip()
        yield f"- Answer: {plain(answer)}" if answer else "- Answer: _to be written_"
        yield from (f"- {plain(line)}" for line in told_of(item))
    yield from foot()


def told_of(item: LetterItem) -> Iterator[str]:
    """Yield what the project file says by now of what an item seems to be about, with the sheets that show it."""
    for finding in item.findings:
        part = part_of(finding.subject)
        sheets = ", ".join(part.sheets) if part is not None else ""
        state = "still open" if stops(finding) else "the plans show"
        yield f"{state}: {words.message(finding)}{f' (sheet {sheets})' if sheets else ''}"
