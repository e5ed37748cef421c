"""The drawing with the numbers of the findings: a copy in DXF, with a layer of its own on which each number stands at its part.

Beside the drawing stands the list that the numbers are of. Nothing else of the drawing is touched.
"""

from __future__ import annotations

from collections import Counter
from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

from precheck.files.source import Place, Problem, Unusable
from precheck.importers.drawing import BY_NAME
from precheck.reports import words
from precheck.reports.in_model import box_of, design_file, in_world
from precheck.reports.opening import verdict_line, works_told
from precheck.reports.worklist import Item, items_of
from precheck.reports.xml_text import plain
from precheck.review.finding import Review
from precheck.survey import House

LAYER = "PRECHECK"
RED = 1  # in the palette that all drawings share
SHARE = 60  # of the larger side of the drawing, that a number is high
SMALLEST, LARGEST = 0.1, 0.4  # meters that a number is high
WIDE = 60  # heights of a letter to a line of the list
APART = 2.4  # heights from one number to the next at the same place


class MarkPen(NamedTuple):
    """What draws on the layer: the space of the drawing, how many of its units are a meter, and the height of letters."""

    space: Any
    unit: float
    high: float

    def number(self, item: Item, x: float, y: float) -> None:
        """Draw the number of `item` in a circle at a point, in meters."""
        at, look = (x * self.unit, y * self.unit), {"layer": LAYER, "color": RED}
        self.space.add_circle(at, self.high, dxfattribs=look)
        placed = self.space.add_text(str(item.number), height=self.high, dxfattribs=look)
        placed.set_placement(at, align=import_module("ezdxf.enums").TextEntityAlignment.MIDDLE_CENTER)


def render(reviews: list[Review]) -> bytes:
    """Return the marked copy of the drawing. Raises `Unusable` where there is none, or there are several."""
    if len(reviews) != 1:
        raise _refused("--report dxf", "marks one drawing at a time; name one project")
    review = reviews[0]
    path, unit = _drawing_of(review)
    ezdxf: Any = import_module("ezdxf")
    try:
        document = ezdxf.readfile(str(path))
    except (OSError, ezdxf.DXFError) as error:
        raise _refused(str(path), f"cannot be read as a drawing ({str(error)[:80]}); save it again as DXF") from None
    _mark(document, review, unit)
    return _written(ezdxf, document)


def _drawing_of(review: Review) -> tuple[Path, float]:
    """Return the drawing that a project is drawn from, and how many of its units are a meter. Raises `Unusable`."""
    drawn, place = design_file(review.project), Path(review.project.place.file)
    unit = BY_NAME.get(drawn.form.removeprefix("DXF in ")) if drawn is not None else None
    if drawn is None or unit is None:
        what = (
            "is not drawn from a DXF drawing, on which findings could be marked; check the drawing itself, or import it"
        )
        raise _refused(review.project.place.file, what)
    path = place if place.name == drawn.file else place.parent / drawn.file
    if not path.is_file():
        raise _refused(
            str(path), "this drawing, which the project is drawn from, is not there; put it beside the project"
        )
    return path, 1 / unit


def _mark(document: Any, review: Review, unit: float) -> None:
    """Draw numbers and list on the layer, which is made anew where an earlier report left one."""
    space = document.modelspace()
    for old in [entity for entity in space if entity.dxf.layer.upper() == LAYER]:
        space.delete_entity(old)
    if LAYER not in document.layers:
        document.layers.add(LAYER, color=RED)
    low, high = _extents(space)
    letter = min(max(max(high[0] - low[0], high[1] - low[1]) / unit / SHARE, SMALLEST), LARGEST)
    drawn = design_file(review.project)
    pen, house, items = MarkPen(space, unit, letter), House(review.project), items_of(review)
    taken: Counter[tuple[float, float]] = Counter()
    for item in items:
        for part in item.parts:
            box = box_of(part, house)
            if box is not None:
                x, y, _ = (round(n, 2) for n in in_world((*box.middle[:2], 0.0), drawn))
                pen.number(item, x + taken[x, y] * letter * APART, y)
                taken[x, y] += 1
    look = {"layer": LAYER, "color": RED, "char_height": letter * unit * 0.7, "width": letter * unit * WIDE}
    listed = space.add_mtext(_list(review, items), dxfattribs=look)
    listed.set_location((high[0] + 5 * letter * unit, high[1]), attachment_point=1)


def _list(review: Review, items: tuple[Item, ...]) -> str:
    works = [f"{one.name}: {one.counted}" for one in works_told(review)]
    lines = [verdict_line(review), *works, words.code_line(review), *map(_line, items), words.REMINDER]
    return "\\P".join(_lettered(line) for line in lines)


def _line(item: Item) -> str:
    remedy = f" ({'; '.join(item.remedies)})" if item.remedies else ""
    return f"{item.number}. {item.about(item.gist)}{remedy}"


def _lettered(text: str) -> str:
    """Return `text` as lettering, in which no sign of a file is a command."""
    one_line = " ".join(plain(text).split())
    return "".join(f"\\{sign}" if sign in "\\{}" else sign for sign in one_line).replace("%%", "% %").replace("^", "^ ")


def _extents(space: Any) -> tuple[tuple[float, float], tuple[float, float]]:
    box = import_module("ezdxf.bbox").extents(space, fast=True)
    if not box.has_data:
        return (0.0, 0.0), (0.0, 0.0)
    return (box.extmin.x, box.extmin.y), (box.extmax.x, box.extmax.y)


def _written(ezdxf: Any, document: Any) -> bytes:
    """Return the drawing in its own encoding, without the hour of writing, so that the same report is the same file."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        text = StringIO()
        document.write(text)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return bytes(document.encode(text.getvalue()))


def _refused(place: str, what: str) -> Unusable:
    return Unusable([Problem(Place(place, 1, 1), what)])
