"""Which lines of a page are its walls: told by the sizes written in rooms, where pens, furniture and columns mislead."""

from __future__ import annotations

from itertools import pairwise

import pytest
import shapely
from drawn_plans import DOORS, HOUSE, WINDOWS, DrawnPlan, feet, house
from plotted_plans import INKS, PlottedPage, plotted, written
from sampled import long_save
from test_import_pdf import ROOMS, areas, grades, read

pytest.importorskip("pypdfium2")
pytest.importorskip("shapely")
GAPS = [shapely.box(g.x, g.y, g.x + g.wide, g.y + g.deep) for g in (*DOORS, *WINDOWS)]
CLEAR = [shapely.box(r.x, r.y, r.x + r.wide, r.y + r.deep) for r in HOUSE]
BODY = shapely.box(-6, -6, 294.5, 327).difference(shapely.union_all([*CLEAR, *GAPS]))
COLUMNS = shapely.union_all([
    shapely.box(x - 14, y - 14, x + 14, y + 14)
    for x, y in ((-3, -3), (291.5, -3), (-3, 324), (291.5, 324), (146.25, -3), (202.25, 324))
])  # fmt: skip


def hatched(page, body, step):
    """Fill a body by strokes at 45 degrees, as plotted: those of one sweep through all walls after one another."""
    low_x, low_y, high_x, high_y = body.bounds
    across = high_y - low_y
    for n in range(int((high_x - low_x + across) / step)):
        x = low_x - across + n * step
        for part in shapely.get_parts(shapely.LineString([(x, low_y), (x + across, high_y)]).intersection(body)):
            if part.geom_type == "LineString" and part.length:
                page.line(*part.coords)


def furnished(page, places=HOUSE):
    """Draw cupboards along both sides of every room, as deep as walls are thick, and a rug of many lines."""
    for room in places:
        for x in (room.x + 4, room.x + room.wide - 12):
            page.line(*shapely.box(x, room.y + 8, x + 8, room.y + room.deep - 8).exterior.coords)
        for n in range(12):
            page.line((room.x + 20, room.y + 10 + n), (room.x + room.wide - 20, room.y + 10 + n))


def test_walls_filled_aslant_by_the_pen_of_the_furniture_are_found_by_the_sizes(tmp_path):
    page = plotted(house(), PlottedPage(1.5), inks={"A-GLAZ": INKS["A-GLAZ"], "A-DOOR": INKS["A-DOOR"]})
    page.ink("0 0 0", 0.72)
    hatched(page, BODY, 0.25)
    furnished(page)
    draft = read(written(tmp_path / "plan.pdf", page))
    assert [name[:8] for name in draft.recognized.layers["wall faces"]] == ["SOLID OF"]
    assert float(draft.form.rpartition(":")[2]) == pytest.approx(48, rel=0.003)
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    assert set(grades(draft).values()) == {"A"}


@pytest.mark.long
def test_walls_that_end_on_columns_of_another_pen_are_walls_with_them(tmp_path):
    plan = DrawnPlan()
    plan.shape(COLUMNS, "COLUMNS")
    for part in shapely.get_parts(BODY.difference(COLUMNS)):
        for run in shapely.get_parts(part.boundary.difference(COLUMNS.buffer(0.01))):
            for start, end in pairwise(run.coords):
                plan.line(start, end, "A-WALL")
    plan.names(HOUSE)
    page = plotted(plan, inks={"A-WALL": ("0.9 0.2 0", 1.1), "COLUMNS": ("1 0 0", 1.4)})
    page.ink("0.6 0.2 0.3", 0.3)
    furnished(page)
    draft = read(written(tmp_path / "plan.pdf", page))
    assert len(draft.recognized.layers["wall faces"]) == 2
    clear = {name: room.difference(COLUMNS).area / 144 for name, room in zip(ROOMS, CLEAR, strict=True)}
    assert areas(draft) == pytest.approx(clear, rel=0.01)


@pytest.mark.long
def test_what_no_size_proves_stays_a_question_where_sizes_alone_tell_which_lines_are_walls(tmp_path):
    plan = house(sizes=False)
    for room in HOUSE[:4]:
        plan.text(f"{feet(room.wide)} x {feet(room.deep)}", room.middle[0], room.middle[1] - 5)
    page = plotted(plan)
    page.ink("0.6 0.2 0.3", 0.3)
    furnished(page)
    draft = read(written(tmp_path / "plan.pdf", page), "scale: 1/4 in = 1 ft\n")
    assert grades(draft) == {**dict.fromkeys(ROOMS, "A"), "BATH": "C"}
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)


@pytest.mark.parametrize("sizes", long_save([True, False], True))
def test_walls_drawn_by_one_stroke_as_thick_as_they_are_have_their_faces_at_its_edges(sizes, tmp_path):
    page = PlottedPage(1.5)
    page.ink("0 0 0", 9.0)  # 6 in of the house
    for run in (
        ((-3, -3), (303, -3), (303, 129), (-3, 129), (-3, -3)),
        ((147, -3), (147, 40)),
        ((147, 76), (147, 129)),
    ):
        page.line(*run)
    page.ink("0 0 0", 0.3)
    page.arc((144, 40), 36, 90, 180)
    page.line((144, 40), (108, 40))
    for n in range(20):  # a rule along the edge
        page.line((n * 10, -40), (n * 10, -36))
    for words, x, wide in (("BEDROOM", 72, 144), ("KITCHEN", 225, 150)):
        page.text(words, (x, 100))
        if sizes:
            page.text(f"{feet(wide)} x {feet(126)}", (x, 90))
    draft = read(written(tmp_path / "plan.pdf", page), "scale: 1/4 in = 1 ft\n")
    assert areas(draft) == pytest.approx({"BEDROOM": 144 * 126 / 144, "KITCHEN": 150 * 126 / 144}, rel=0.01)
    assert set(grades(draft).values()) == {"A" if sizes else "B"}
