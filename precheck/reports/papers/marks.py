"""What the papers share: headings, and names that Markdown cannot take for marks."""

from __future__ import annotations

import re
from collections.abc import Iterator

from precheck.files.inert import shown_name
from precheck.project import Part
from precheck.reports import words
from precheck.reports.markdown import opened
from precheck.reports.worklist import Item, items_of
from precheck.review.finding import Finding, Review
from precheck.survey import part_of

_MARKS = re.compile(r"([\\`*_\[\]<>#|~])")


def plain(text: str) -> str:
    """Return `text` on one line with every mark of Markdown made plain."""
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def head(title: str, review: Review) -> Iterator[str]:
    """Yield the head of a paper: what it is, of which job, under which code, what work that is, and how it stands."""
    project = review.project
    yield f"# {title}"
    yield ""
    yield f"- Project: {plain(project.project)}"
    if project.address:
        yield f"- Address: {plain(project.address)}"
    yield f"- Project file: {plain(shown_name(project.place.file))}"
    yield f"- Code: {plain(words.code_line(review))}"
    if partial := words.code_warning(review):
        yield f"- {plain(partial)}"
    yield ""
    yield from opened(review, items_of(review))


def foot() -> Iterator[str]:
    """Yield the end of every paper."""
    yield ""
    yield f"_{words.REMINDER}_"


def citation(item: Item) -> str:
    """Return the sections that an item rests on, in brackets."""
    sections = dict.fromkeys(section for finding in item.findings for section in finding.sections)
    return f" ({plain('; '.join(sections))})" if sections else ""


def called(about: Part | None, label: str) -> str:
    """Return what a paper calls that of which it tells: what is lettered on the plan first, then kind and id."""
    name = getattr(about, "name", "")
    return plain(f"{name} ({label})" if name and about is not None and label == about.label else label)


def called_in(item: Item) -> str:
    """Return what a paper calls what an item is about."""
    return called(item.part, item.label)


def called_by(finding: Finding) -> str:
    """Return what a paper calls what a finding is about."""
    return called(part_of(finding.subject), words.label(finding))


def sheets(item: Item) -> str:
    """Return the sheets of an item, or that none shows it."""
    return ", ".join(item.sheets) or "no sheet named"
