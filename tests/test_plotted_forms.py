"""How a page holds what is drawn: layers kept and switched off, shapes that cut, drawings within drawings."""

from __future__ import annotations

import pytest
import shapely
from drawn_plans import HOUSE, house
from plotted_plans import INKS, plotted, written
from sampled import long_save
from test_import_pdf import ROOMS, areas, grades, read
from test_plotted_walls import BODY, furnished

from precheck.importers.drawn.pdf_hidden import hidden_layers

PdfDocument = pytest.importorskip("pypdfium2").PdfDocument
PageSheet = pytest.importorskip("precheck.importers.drawn.pdf_sheet").PageSheet
SCALE = "scale: 1/4 in = 1 ft\n"
ONE_PEN = dict.fromkeys(INKS, ("0 0 0", 0.5))


def told(draft):
    return " ".join(draft.doubts)


def test_layers_that_the_plot_kept_tell_walls_doors_and_windows_all_drawn_by_one_pen(tmp_path):
    page = plotted(house(sizes=False), inks=ONE_PEN, layers=True)
    page.on_layer("FURNITURE")
    furnished(page)
    page.off_layer()
    draft = read(written(tmp_path / "plan.pdf", page), SCALE)
    assert draft.recognized.layers["wall faces"] == ("A-WALL STROKE 0 0 0 WIDTH 0.5",)
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    assert set(grades(draft).values()) == {"B"}
    assert sum(one.kind == "window" for one in draft.recognized.things) == 4


def test_what_is_on_a_layer_that_is_off_is_not_there_and_that_is_told(tmp_path):
    page = plotted(house(), layers=True)
    page.on_layer("A-WALL OTHER")
    page.ink("0 0 0", 1.4)
    for room in HOUSE:
        page.line((room.x + 60, room.y), (room.x + 60, room.y + room.deep))
        page.text("STORE", (room.x + 30, room.y + 30))
    page.off_layer()
    path = written(tmp_path / "plan.pdf", page, off=["A-WALL OTHER"])
    assert hidden_layers(path) == {"A-WALL OTHER"}
    draft = read(path)
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    assert "layer A-WALL OTHER, which is off" in told(draft)
    assert not hidden_layers(written(tmp_path / "on.pdf", page))
    assert "STORE" in areas(read(tmp_path / "on.pdf", SCALE))


def test_walls_drawn_by_cutting_a_sheet_of_ink_to_their_shape_are_read_as_seen(tmp_path):
    page = plotted(house(), inks={"A-DOOR": INKS["A-DOOR"], "A-GLAZ": INKS["A-GLAZ"]})
    page.ink("0.2 0.2 0.2", 0.5)
    for part in shapely.get_parts(BODY):
        page.cut_to(*part.exterior.coords[:-1])
        page.line((-50, -50), (350, -50), (350, 380), (-50, 380), fill=True)
        page.uncut()
    draft = read(written(tmp_path / "plan.pdf", page))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)


def test_a_line_is_read_as_far_as_it_is_seen(tmp_path):
    page = plotted(house())
    page.ink("0 0 0", 1.4)
    page.cut_to((-100, -100), (-10, -100), (-10, 400), (-100, 400))
    for x in (60, 64.5):
        page.line((-60, x), (290, x))
    page.uncut()
    assert areas(read(written(tmp_path / "plan.pdf", page))) == pytest.approx(ROOMS, rel=0.01)


@pytest.mark.parametrize("depth", long_save([1, 9, 24], 9))
def test_a_plan_in_drawings_within_drawings_is_read(depth, tmp_path):
    page = plotted(house())
    page.depth = depth
    assert areas(read(written(tmp_path / "plan.pdf", page))) == pytest.approx(ROOMS, rel=0.01)


@pytest.mark.long
def test_drawings_nested_too_deeply_are_told(tmp_path):
    page = plotted(house())
    page.depth = 26
    sheet = PageSheet(PdfDocument(str(written(tmp_path / "plan.pdf", page))), 1).sheet
    assert not sheet.lines
    assert "more than 24 drawings deep" in " ".join(sheet.told)
