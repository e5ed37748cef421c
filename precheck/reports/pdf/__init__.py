"""The report as a PDF for letter paper: the same content and drawings as the page, set by typst."""

from __future__ import annotations

import json
import re
from importlib import import_module
from importlib.resources import files
from typing import Any

from precheck.files.source import Place, Problem, Unusable
from precheck.reports.content import content_of
from precheck.reports.drawings import STYLE, Drawing, Source, all_drawings, leading
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.survey import House

_LONG_WORD = re.compile(r"\S{60,}")  # longer than a line of the list; a path to a ruleset is not


def render(reviews: list[Review]) -> bytes:
    """Return one PDF for all `reviews`. Raises `Unusable` where typst is not installed."""
    try:
        typst: Any = import_module("typst")
    except ImportError:
        what = "a PDF needs the package typst; install precheck[pdf], or use --report html and print it"
        raise Unusable([Problem(Place("--report pdf", 1, 1), what)]) from None
    sheet = files("precheck.reports.pdf").joinpath("sheet.typ").read_bytes()
    # The content reaches the sheet as data and never as markup, so that no name can be read as an instruction.
    data = json.dumps([_project(review) for review in reviews])
    return bytes(typst.compile(sheet, sys_inputs={"data": data}, timestamp=0))


def _project(review: Review) -> dict[str, Any]:
    items = items_of(review)
    drawings = all_drawings(Source(House(review.project), items))
    lead, others = leading(drawings)
    wanting = [{"title": d.title, "add": "; ".join(d.to_add)} for d in drawings if not d.body]
    told = {**content_of(review, items), "wanting": wanting}
    made = {"lead": [_drawn(d) for d in lead], "drawings": _in_rows([_drawn(d) for d in others])}
    return {**_breakable(told), **made}


def _drawn(d: Drawing) -> dict[str, Any]:
    return {"title": d.title, "scale": d.scale, "told": d.description, "notes": d.notes, "svg": d.svg(STYLE),
            "width": d.frame[2] / 96, "height": d.frame[3] / 96, "wide": d.wide, "narrow": d.narrow}  # fmt: skip


def _in_rows(drawings: list[dict[str, Any]]) -> list[list[dict[str, Any]]]:
    """Return the drawings in order, narrow ones two in a row."""
    rows: list[list[dict[str, Any]]] = []
    for drawing in drawings:
        if drawing["narrow"] and rows and len(rows[-1]) == 1 and rows[-1][0]["narrow"]:
            rows[-1].append(drawing)
        else:
            rows.append([drawing])
    return rows


def _breakable(data: Any) -> Any:
    """Return `data` with a place to break in every word that is longer than a line would hold."""
    if isinstance(data, str):
        return _LONG_WORD.sub(lambda word: "\N{ZERO WIDTH SPACE}".join(re.findall(".{1,30}", word[0])), data)
    if isinstance(data, dict):
        return {key: _breakable(value) for key, value in data.items()}
    return [_breakable(item) for item in data] if isinstance(data, list | tuple) else data
