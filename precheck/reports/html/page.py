"""Puts the content of a report and its drawings into the page. The only importer of jinja2."""

from __future__ import annotations

import re
from importlib.resources import files
from typing import Any

from jinja2 import BaseLoader, Environment, StrictUndefined
from markupsafe import Markup, escape

from precheck.checks import Outcome
from precheck.files.inert import inert
from precheck.project import Part
from precheck.reports.content import content_of, slug
from precheck.reports.drawings import STYLE, Drawing, Source, all_drawings, leading
from precheck.reports.drawings.marks import SHAPES
from precheck.reports.drawings.svg import printable
from precheck.reports.groups import LABELS
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.survey import House


def render(reviews: list[Review]) -> str:
    """Return one page for all `reviews`."""
    environment = Environment(
        loader=BaseLoader(), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    environment.globals["sign"] = _sign
    environment.filters["said"] = _said
    template = environment.from_string(_own("page.html.j2"))
    projects = [_project(review, f"j{n}-" if len(reviews) > 1 else "") for n, review in enumerate(reviews, 1)]
    legend = [(slug(outcome), LABELS[outcome]) for outcome in (Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN)]
    style = Markup(_own("page.css") + STYLE)  # our own file, nothing of the project is in it
    return inert(printable(template.render(projects=projects, style=style, legend=legend))) + "\n"


def _own(name: str) -> str:
    return files("precheck.reports.html").joinpath(name).read_text(encoding="utf-8")


def _project(review: Review, prefix: str) -> dict[str, Any]:
    items = items_of(review)
    drawings = all_drawings(Source(House(review.project), items, prefix))
    content = content_of(review, items)
    by_number = {item.number: item for item in items}
    for group in content["groups"]:
        for entry in group["items"]:
            entry["drawn"] = _drawn(by_number[entry["number"]].parts, drawings)
    lead, others = leading(drawings)
    return {
        **content,
        "prefix": prefix,
        "lead": [_figure(drawing) for drawing in lead],
        "drawings": [_figure(drawing) for drawing in others],
        "wanting": [drawing for drawing in drawings if not drawing.body],
    }


def _drawn(parts: tuple[Part, ...], drawings: list[Drawing]) -> list[dict[str, str]]:
    shown = [(d.title, d.shows[part.id]) for part in parts for d in drawings if part.id in d.shows]
    first = dict(reversed(shown))  # of several parts in one drawing the first is led to
    return [{"title": title, "target": first[title]} for title in dict.fromkeys(title for title, _ in shown)]


def _figure(drawing: Drawing) -> dict[str, Any]:
    svg = Markup(drawing.svg())  # every text in it went through `svg.clean`
    return {"key": drawing.key, "title": drawing.title, "scale": drawing.scale, "notes": drawing.notes,
            "told": drawing.description, "svg": svg, "wide": drawing.wide, "narrow": drawing.narrow}  # fmt: skip


def _said(text: str) -> Markup:
    """Return `text` escaped, with what stands between backticks set as it is typed."""
    return Markup(re.sub(r"`([^`]*)`", r"<code>\1</code>", str(escape(text))))  # escaped right here


def _sign(outcome: str, number: object = "") -> Markup:
    """Return the mark of an outcome, as on the drawings, beside its words."""
    shape = next((path for o, path in SHAPES.items() if slug(o) == outcome), "")
    return Markup(
        '<svg class="drawing mark" viewBox="-15 -15 30 30" aria-hidden="true" focusable="false">'
        '<g class="badge {}"><path class="sign" d="{}"/>'
        '<text class="number" x="0" y="4.5" text-anchor="middle">{}</text></g></svg>'
    ).format(outcome, shape, number)
