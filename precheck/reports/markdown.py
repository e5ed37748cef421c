"""The report as Markdown, for the summary page of a job or a comment."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.groups import Group, in_group
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
    listed = "".join(f"- {_plain(str(problem))}\n" for problem in problems)
    return f"## {_plain(file)}\n\n**CANNOT BE USED**\n\n{listed}\n"


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield all sections, then the reminder."""
    yield from pieces
    yield f"> {words.REMINDER}\n"


def _lines(review: Review) -> Iterator[str]:
    yield f"## {_plain(review.project.project)}"
    yield ""
    yield f"**{_plain(words.verdict_line(review))}**"
    yield ""
    yield f"File: {_plain(review.project.place.file)}. Code: {_plain(words.code_line(review))}."
    if partial := words.partial_line(review):
        yield ""
        yield _plain(partial)
    yield ""
    for group in Group:
        yield from _table(group.title, in_group(review.findings, group))
    yield from _table("Accepted", review.accepted)
    if told := words.record_notices(review):
        yield from ("### Accepted findings to renew or remove", "", *(f"- {_plain(line)}" for line in told), "")
    yield _plain(words.passed_line(review))
    yield ""
    yield from _folded("Not checked", review.not_checked)


def _table(heading: str, findings: Sequence[Finding]) -> Iterator[str]:
    if not findings:
        return
    yield f"### {heading}"
    yield ""
    yield "| part | line | what | rule | section |"
    yield "|---|---:|---|---|---|"
    for finding in findings:
        settled = [words.accepted_line(finding)] if finding.accepted else words.to_do(finding)
        what = [*words.lines_of(finding), *settled]
        cells = (words.label(finding), str(finding.place.line), "\n".join(what), finding.rule.name)
        yield f"| {' | '.join(map(_cell, (*cells, '; '.join(finding.sections))))} |"
    yield ""


def _folded(heading: str, lines: Sequence[str]) -> Iterator[str]:
    if not lines:
        return
    yield f"<details><summary>{heading}: {len(lines)}</summary>"
    yield ""
    yield from (f"- {_plain(line)}" for line in lines)
    yield ""
    yield "</details>"
    yield ""


def _cell(text: str) -> str:
    return "<br>".join(map(_plain, text.splitlines()))


def _plain(text: str) -> str:
    """Return `text` so that it reads as itself, whatever a person called a project."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))
