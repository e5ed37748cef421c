"""What is handed out from the page: the report with its drawings, and the papers, each as a page of its own to print or save."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection
from html import escape

from markdown_it import MarkdownIt

from precheck.reports.drawings.svg import printable
from precheck.reports.html import render as report
from precheck.reports.papers import corrections, field, inspections, notes, owner
from precheck.review.finding import Review

OWN_STYLE = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
"""The policy of the report, which carries its own style sheet within; no script runs on it."""

PAPERS: dict[str, Callable[[Review], str]] = {
    "corrections": corrections.render,
    "notes": notes.render,
    "inspections": inspections.render,
    "owner": owner.render,
}
REPORT, LETTER, FIELD = "report", "letter", "field"
LETTER_AS_TEXT = "letter.txt"
_BLANK = re.compile("(?<!_)(?:_{12}|_{6})(?!_)")  # where one writes by hand
_MARKS = re.compile(r"\\([\\`*_\[\]<>#|~])|\*\*|^#+ |^_(?=.*_$)|(?<=.)_$", re.MULTILINE)


def handout(
    name: str, review: Review, response: Callable[[Review], str], to_find_out: Collection[str] = ()
) -> str | None:
    """Return a handout as a page, or the response letter as plain text to mail; None where there is none of that name.

    `response` writes that to the town's letter; `to_find_out` is what a person left for later.
    """
    if name == REPORT:
        return report([review])
    if name == LETTER_AS_TEXT:
        return _MARKS.sub(lambda mark: mark[1] or "", printable(response(review)))
    if name == FIELD:
        return _page(name, review, field.render(review, to_find_out))
    made = {**PAPERS, LETTER: response}.get(name)
    return None if made is None else _page(name, review, made(review))


def _page(name: str, review: Review, paper: str) -> str:
    # what a person wrote is text in every paper, and markup in it is shown and never taken for markup
    body = MarkdownIt("commonmark", {"html": False}).enable("table").render(printable(paper))
    body = _BLANK.sub(
        lambda line: f"<span class=blank{len(line[0])}></span>", body.replace("<li>[ ] ", "<li class=tick>")
    )
    return (
        f"<!doctype html><html lang=en-US><head><meta charset=utf-8><meta name=viewport content='width=device-width'>"
        f"<title>{escape(review.project.project)}: {name}</title><link rel=stylesheet href=paper.css></head>"
        f"<body class='paper {name}'>{body}</body></html>"
    )
