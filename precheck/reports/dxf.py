"""The drawing with the numbers of the findings: a copy in DXF, with a layer of its own on which each number stands at its part.

Beside the drawing stands the list that the numbers are of. Nothing else of the drawing is touched.
"""

from __future__ import annotations

from importlib import import_module
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

from precheck.importers.drawing import BY_NAME
from precheck.reports.on_drawing import drawing_of, list_lines, placed_numbers, refused
from precheck.reports.worklist import Item, items_of
from precheck.reports.xml_text import plain
from precheck.review.finding import Review

LAYER = "PRECHECK"
RED = 1  # in the palette that all drawings share
SHARE = 60  # of the larger side of the drawing, that a number is high
SMALLEST, LARGEST = 0.1, 0.4  # meters that a number is high
WIDE = 60  # heights of a letter to a line of the list
APART = 2.4  # heights from one number to the next at the same place


class MarkPen(NamedTuple):
    """What draws on the layer: the space of the drawing, how many of its units are a meter, and the height of letters in meters."""

    space: Any
    unit: float
    high: float

    def number(self, item: Item, x: float, y: float) -> None:
        """Draw the number of `item` in a circle at a point, in meters."""
        at, high, look = (x * self.unit, y * self.unit), self.high * self.unit, {"layer": LAYER, "color": RED}
        self.space.add_circle(at, high, dxfattribs=look)
        placed = self.space.add_text(str(item.number), height=high, dxfattribs=look)
        placed.set_placement(at, align=import_module("ezdxf.enums").TextEntityAlignment.MIDDLE_CENTER)


def render(reviews: list[Review]) -> bytes:
    """Return the marked copy of the drawing. Raises `Unusable` where there is none, or there are several."""
    if len(reviews) != 1:
        raise refused("--report dxf", "marks one drawing at a time; name one project")
    review = reviews[0]
    path, unit = _drawing_of(review)
    ezdxf: Any = import_module("ezdxf")
    try:
        document = ezdxf.readfile(str(path))
    except (OSError, ezdxf.DXFError) as error:
        raise refused(str(path), f"cannot be read as a drawing ({str(error)[:80]}); save it again as DXF") from None
    _mark(document, review, unit)
    return _written(ezdxf, document)


def _drawing_of(review: Review) -> tuple[Path, float]:
    """Return the drawing that a project is drawn from, and how many of its units are a meter. Raises `Unusable`."""
    path, drawn = drawing_of(review, "a DXF drawing")
    unit = BY_NAME.get(drawn.form.removeprefix("DXF in "))
    if unit is None:
        what = "is not drawn from a DXF drawing, on which findings could be marked; check the drawing, or import it"
        raise refused(review.project.place.file, what)
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
    pen, items = MarkPen(space, unit, letter), items_of(review)
    for one in placed_numbers(review, items):
        down = one.clear_of_the_name(2 * letter)
        pen.number(one.item, one.x + one.before * letter * APART, one.y - down)
    look = {"layer": LAYER, "color": RED, "char_height": letter * unit * 0.7, "width": letter * unit * WIDE}
    listed = space.add_mtext("\\P".join(map(_lettered, list_lines(review, items))), dxfattribs=look)
    listed.set_location((high[0] + 5 * letter * unit, high[1]), attachment_point=1)


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
