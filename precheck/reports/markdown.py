"""The report as Markdown, for the summary page of a job or a comment."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.groups import Group
from precheck.reports.opening import NO_WORK, excluded, outside, verdict_line, works_told
from precheck.reports.worklist import Item, in_group, items_of
from precheck.review.finding import Finding, Review

_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~$&@!])")


def render(reviews: list[Review]) -> str:
    """Return a section for each project."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the section of one project."""
    return "".join(f"{line}\n" for line in _lines(review))


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the section of a file that cannot be used."""
    listed = "".join(f"- {plain(str(problem))}\n" for problem in problems)
    return f"## {plain(shown_name(file))}\n\n**CANNOT BE USED**\n\n{listed}\n"


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield all sections, then the reminder."""
    yield from pieces
    yield f"> {words.REMINDER}\n"


def _lines(review: Review) -> Iterator[str]:
    items = items_of(review)
    yield f"## {plain(review.project.project)}"
    yield ""
    yield from opened(review, items)
    yield f"File: {plain(shown_name(review.project.place.file))}. Code: {plain(words.code_line(review))}."
    if partial := words.code_warning(review):
        yield ""
        yield plain(partial)
    yield ""
    for group in Group:
        yield from _group(group, in_group(items, group))
    if review.accepted:
        yield from _table("Accepted", [_row_of_accepted(finding) for finding in review.accepted])
    if told := words.record_notices(review):
        yield from ("### Accepted findings to renew or remove", "", *(f"- {plain(line)}" for line in told), "")
    yield plain(words.passed_line(review))
    yield ""
    yield from _folded("Not checked", (*outside(review), *review.not_checked))


def opened(review: Review, items: Sequence[Item]) -> Iterator[str]:
    """Yield what every report and paper in Markdown opens with: the verdict, the works, and what is not in the job."""
    yield f"**{plain(verdict_line(review, items))}**"
    yield ""
    if review.understood:
        yield from (plain(review.understood), "")
    yield "The work, as read from the file:"
    yield ""
    for one in works_told(review):
        yield f"- {plain(one.name)}: {one.counted}"
    if not review.works:
        yield f"- {plain(NO_WORK)}"
    yield ""
    if told := excluded(review):
        yield from ("Not in this job:", "", *(f"- {plain(line)}" for line in told), "")


Row = tuple[str, ...]


def _group(group: Group, items: Sequence[Item]) -> Iterator[str]:
    if items:
        yield from _table(f"{group.title} ({len(items)})", [_row(item) for item in items])


def _row(item: Item) -> Row:
    what = [item.gist] if item.group in (Group.ADD, Group.ASK) else words.lines_of(item.findings[0])
    fixes = [f"fix: {fix}" for fix in item.remedies] if item.group is not Group.ASK else []
    also = [f"add: {'; '.join(item.wants)}"] if item.wanted and item.outcome is not Outcome.NOT_SHOWN else []
    rules = dict.fromkeys(finding.rule.name for finding in item.findings)
    sections = dict.fromkeys(section for finding in item.findings for section in finding.sections)
    return (
        str(item.number),
        item.label,
        str(item.line),
        "\n".join((*what, *fixes, *also)),
        "\n".join(rules),
        "; ".join(sections),
    )


def _row_of_accepted(finding: Finding) -> Row:
    what = "\n".join((*words.lines_of(finding), words.accepted_line(finding)))
    sections = "; ".join(finding.sections)
    return "", words.label(finding), str(finding.place.line), what, finding.rule.name, sections


def _table(heading: str, rows: Iterable[Row]) -> Iterator[str]:
    yield f"### {heading}"
    yield ""
    yield "| no. | part | line | what | rule | section |"
    yield "|---:|---|---:|---|---|---|"
    yield from (f"| {' | '.join(map(_cell, row))} |" for row in rows)
    yield ""


def _folded(heading: str, lines: Sequence[str]) -> Iterator[str]:
    if not lines:
        return
    yield f"<details><summary>{heading}: {len(lines)}</summary>"
    yield ""
    yield from (f"- {plain(line)}" for line in lines)
    yield ""
    yield "</details>"
    yield ""


def _cell(text: str) -> str:
    return "<br>".join(map(plain, text.splitlines()))


def plain(text: str) -> str:
    """Return `text` so that it reads as itself, whatever a person called a project."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))
