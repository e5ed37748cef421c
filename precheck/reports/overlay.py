"""The plan with the numbers of the findings over it: the page of a PDF that the project is drawn from, and after it the list.

The page itself is laid beneath as it is, lines as lines; typst sets the numbers over it.
"""

from __future__ import annotations

import json
import re
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from precheck.importers.paper_scale import POINT
from precheck.reports.on_drawing import PlacedNumber, drawing_of, list_lines, placed_numbers, refused
from precheck.reports.worklist import items_of
from precheck.review.finding import Review

_FORM = re.compile(r"PDF page (?P<page>\d+) at 1:(?P<times>\d+(?:\.\d+)?)")
SHARE = 60  # of the longer side of a page, that the mark of a number is wide
SMALLEST = 12.0  # points


def render(reviews: list[Review]) -> bytes:
    """Return the marked page and the list. Raises `Unusable` where there is no page, or there are several projects."""
    if len(reviews) != 1:
        raise refused("--report overlay", "marks one plan at a time; name one project")
    review = reviews[0]
    path, drawn = drawing_of(review, "a plan in a PDF")
    said = _FORM.fullmatch(drawn.form)
    if said is None:
        told = f"is drawn from {drawn.form or 'a file'}, and an overlay goes over a PDF; for a DXF drawing use --report dxf"
        raise refused(review.project.place.file, told)
    try:
        typst: Any = import_module("typst")
        pdfium: Any = import_module("pypdfium2")
    except ImportError:
        raise refused("--report overlay", "needs the packages typst and pypdfium2; install precheck[pdf]") from None
    page = int(said["page"])
    width, height = _size(pdfium, str(path), page)
    items, meter = items_of(review), float(said["times"]) * POINT
    mark = max(max(width, height) / SHARE, SMALLEST)
    marks = [_mark(one, meter, height, mark) for one in placed_numbers(review, items)]
    placed = {one["number"] for one in marks}
    data = {
        "project": review.project.project or path.stem, "page": page, "width": width, "height": height, "mark": mark,
        "marks": marks, "list": list_lines(review, items), "nowhere": [i.number for i in items if i.number not in placed],
    }  # fmt: skip
    sheet = files("precheck.reports.pdf").joinpath("overlay.typ").read_bytes()
    return _set(typst, sheet, path.read_bytes(), data, str(path))


def _mark(one: PlacedNumber, meter: float, height: float, size: float) -> dict[str, Any]:
    x, y = one.x / meter + one.before * 1.2 * size, height - (one.y - one.clear_of_the_name(size * meter)) / meter
    return {"number": one.item.number, "outcome": one.item.outcome.word.replace(" ", "-"), "x": x, "y": y}


def _size(pdfium: Any, path: str, page: int) -> tuple[float, float]:
    """Return width and height of a page in points, as it is seen. Raises `Unusable`."""
    try:
        document = pdfium.PdfDocument(path)
        width, height = document[page - 1].get_size()
    except (pdfium.PdfiumError, IndexError):
        raise refused(path, f"page {page} of it cannot be read; plot it again, and import it") from None
    return float(width), float(height)


def _set(typst: Any, sheet: bytes, plan: bytes, data: dict[str, Any], path: str) -> bytes:
    """Return the sheet as typst sets it; all text reaches it as data, so that no name can be read as an instruction."""
    try:
        with TemporaryDirectory() as folder:  # a picture reaches typst as a file alone
            (Path(folder) / "plan.pdf").write_bytes(plan)
            (Path(folder) / "overlay.typ").write_bytes(sheet)
            inputs = {"data": json.dumps(data)}
            made = typst.compile(str(Path(folder) / "overlay.typ"), root=folder, sys_inputs=inputs, timestamp=0)
    except typst.TypstError as error:
        raise refused(path, f"its page cannot be laid beneath ({str(error)[:80]}); plot it again as PDF 1.7") from None
    return bytes(made)
