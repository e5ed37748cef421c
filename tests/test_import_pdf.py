"""Plans plotted to PDF: the same rooms as from the drawing, at a scale that is proven or said, and refusals that say why."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from drawn_plans import HOUSE, feet, house
from plotted_plans import PlottedPage, filled_by_strokes, plotted, written

from precheck.cli import cli
from precheck.files.source import Unusable, read_text
from precheck.importers import Mapping, project_of, project_text, read_here, read_mapping
from precheck.importers.begun_mapping import begun_mapping
from precheck.project import project_from, read_project
from precheck.units import Area

pytest.importorskip("pypdfium2")
pytest.importorskip("ezdxf")
ROOMS = {"BEDROOM-1": 120.0, "KITCHEN": 140 / 12 * 10, "HALL": 288.5 * 42 / 144, "LIVING-ROOM": 200 * 150 / 144,
         "BATH": 84 * 150 / 144}  # fmt: skip  # square feet, by hand from the rectangles


def read(path, text=""):
    mapping = Mapping()
    if text:
        (path.parent / "mapping.yaml").write_text(text)
        mapping = read_mapping(path.parent / "mapping.yaml")
    return read_here(path, path.name, mapping, lambda done, total: None)


def areas(draft):
    """Return the areas, in square feet, of the rooms that were recognized, by their id."""
    said = {one.id: one.told.split(", ")[1] for one in draft.recognized.things if one.kind == "room"}
    return {name: float(Area.parse(area) / Area.parse("1 sq ft")) for name, area in said.items()}


def grades(draft):
    return {one.id: one.grade for one in draft.recognized.things if one.kind == "room"}


def with_dimensions(page):
    """Draw the dimensions of the five rooms of the house, outside of its walls, and one over all."""
    page.ink("0 0 0", 0.25)
    for n, room in enumerate(HOUSE):
        low = -30.0 - 12 * n
        page.dimension((room.x, low), (room.x + room.wide, low), feet(room.wide))
        page.dimension((low, room.y), (low, room.y + room.deep), feet(room.deep))
    return page


def test_rooms_of_a_plotted_plan_are_those_of_the_drawing(tmp_path):
    draft = read(written(tmp_path / "plan.pdf", plotted(house())))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    assert set(grades(draft).values()) == {"A"}
    assert draft.form.startswith("PDF page 1 at 1:4")
    assert "sizes of rooms agree" in " ".join(draft.doubts)
    project = project_from(read_text(project_text(draft), "plan.yaml"))
    assert not any(space.outline for space in project.spaces)  # nobody confirmed them


@pytest.mark.parametrize("per_inch", [0.75, 1.5, 1.44])  # 1/8 in = 1 ft, 1/4 in = 1 ft, and printed to fit
def test_the_scale_is_proven_by_dimensions_whatever_the_page_was_printed_at(per_inch, tmp_path):
    page = with_dimensions(plotted(house(sizes=False), PlottedPage(per_inch)))
    draft = read(written(tmp_path / "plan.pdf", page))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.005)
    assert set(grades(draft).values()) == {"B"}
    assert "dimensions agree" in " ".join(draft.doubts)


@pytest.mark.parametrize("turned", [90, 180, 270])
def test_a_page_that_is_turned_is_read_as_it_is_seen(turned, tmp_path):
    draft = read(written(tmp_path / "plan.pdf", with_dimensions(plotted(house(), PlottedPage(turned=turned)))))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)


def test_a_plan_that_is_turned_on_the_page_keeps_its_rooms(tmp_path):
    draft = read(written(tmp_path / "plan.pdf", plotted(house(turn=30.0), PlottedPage(origin=(420.0, 60.0)))))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)


def test_without_dimensions_or_sizes_the_scale_is_asked_and_one_that_is_said_is_used(tmp_path):
    path = written(tmp_path / "plan.pdf", plotted(house(sizes=False)))
    with pytest.raises(Unusable, match=r"page 1 does not prove its scale.*write the scale in a mapping file"):
        read(path)
    for said in ("1/4 in = 1 ft", '"1:48"', "1 1/2 in = 6 ft"):
        assert areas(read(path, f"scale: {said}\n")) == pytest.approx(ROOMS, rel=0.005)


def test_a_scale_that_the_page_proves_wrong_is_refused(tmp_path):
    path = written(tmp_path / "plan.pdf", with_dimensions(plotted(house())))
    with pytest.raises(Unusable, match=r"is 1/8 in = 1 ft, and \d+ dimensions on page 1 say 1:48; correct it"):
        read(path, "scale: 1/8 in = 1 ft\n")


@pytest.mark.parametrize(
    ("said", "told"),
    [("fit", "fit is no scale; write it as 1/4 in = 1 ft"), ("1 in = 2", "does not say two lengths"),
     ("200 in = 1 in", "is no scale of a plan"), ("0 in = 1 ft", "does not say two lengths")],
)  # fmt: skip
def test_what_is_no_scale_is_told_with_what_to_write(said, told, tmp_path):
    with pytest.raises(Unusable, match=told):
        read(tmp_path / "plan.pdf", f"scale: {said}\n")


def test_dimensions_that_disagree_prove_nothing(tmp_path):
    page = plotted(house(sizes=False))
    for n, said in enumerate((100, 111, 125, 140, 160, 185, 210, 240)):  # over lines of one length
        page.dimension((0, -30.0 - 12 * n), (144, -30.0 - 12 * n), feet(said))
    with pytest.raises(Unusable, match="does not prove its scale"):
        read(written(tmp_path / "plan.pdf", page))


def test_sizes_to_the_middles_of_walls_prove_no_scale(tmp_path):
    plan = house(sizes=False)
    for room in HOUSE:
        plan.text(f"{feet(room.wide + 8)} x {feet(room.deep + 8)}", room.middle[0], room.middle[1] - 5)
    with pytest.raises(Unusable, match="does not prove its scale"):
        read(written(tmp_path / "plan.pdf", plotted(plan)))


def test_of_several_pages_with_drawings_one_is_named(tmp_path):
    notes = PlottedPage()
    notes.text("GENERAL NOTES", (0, 0))
    pages = [notes, plotted(house()), plotted(house(windows=()))]
    path = written(tmp_path / "set.pdf", *pages)
    with pytest.raises(Unusable, match=r"pages 2, 3 hold drawings; name the one with the plan .* `page: 2`"):
        read(path)
    draft = read(path, "page: 2\n")
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    begun = begun_mapping(draft)
    assert "\npage: 2\n" in begun
    assert "drawing unit" not in begun
    with pytest.raises(Unusable, match="names page 9, and the last page is 3"):
        read(path, "page: 9\n")
    with pytest.raises(Unusable, match="page 1 holds no drawing"):
        read(path, "page: 1\n")


def test_a_page_that_cannot_be_a_plan_is_refused_with_the_reason(tmp_path):
    scan = PlottedPage()
    scan.picture()
    for page, told in (
        (scan, "page 1 is a picture, as of a scan"), (PlottedPage(), "page 1 holds no drawing"),
        (plotted(house(), texts=False), "page 1 has its texts as lines.*plot it again with its texts as text"),
    ):  # fmt: skip
        with pytest.raises(Unusable, match=told):
            read(written(tmp_path / "plan.pdf", page))


@pytest.mark.parametrize(
    ("change", "told"),
    [(lambda held: held[: len(held) // 2], "the file is cut off: its end is not there; plot or copy it again"),
     (lambda held: b"AC1027" + held, "this is a DWG drawing under the name of a PDF; save it as DXF"),
     (lambda held: b"plan", "this is no PDF, whatever its name says"), (lambda held: b"", "the file is empty")],
)  # fmt: skip
def test_a_broken_file_is_refused_plainly(change, told, tmp_path):
    path = written(tmp_path / "plan.pdf", plotted(house()))
    path.write_bytes(change(path.read_bytes()))
    result = CliRunner().invoke(cli, ["import", str(path)])
    assert isinstance(result.exception, Unusable)
    assert told in str(result.exception)


def test_walls_filled_by_strokes_are_read_by_their_outline(tmp_path):
    page = PlottedPage(1.5)
    page.ink("0.2 0.2 0.2", 0.36)
    level = [((-6, 0), (206, 0), -6), ((-6, 126), (206, 126), 6)]
    upright = [((x, 0), (x, 126), 6) for x in (0, 106, 206)]
    for start, end, thick in (*level, *upright):
        filled_by_strokes(page, start, end, thick)
    page.ink("0 0 0", 0.2)
    page.text("BEDROOM", (50, 60))
    page.text("KITCHEN", (150, 60))
    draft = read(written(tmp_path / "plan.pdf", page), "scale: 1/4 in = 1 ft\n")
    assert [name for name in draft.recognized.layers["wall faces"] if name.startswith("SOLID OF")]
    assert areas(draft) == pytest.approx({"BEDROOM": 100 * 126 / 144, "KITCHEN": 94 * 126 / 144}, rel=0.03)


def test_white_ink_and_what_lies_off_the_page_are_not_seen(tmp_path):
    page = plotted(house())
    page.ink("1 1 1", 1.4)
    page.line((70, 0), (70, 120))
    page.ink("0 0 0", 1.4)
    page.line((-900, -900), (-900, 900))
    assert areas(read(written(tmp_path / "plan.pdf", page))) == pytest.approx(ROOMS, rel=0.01)


def test_doors_of_a_plotted_plan_are_found_by_their_curves(tmp_path):
    draft = read(written(tmp_path / "plan.pdf", plotted(house())))
    told = sorted(one.told for one in draft.recognized.things if one.kind == "door")
    assert told == sorted([
        "2'-6\" between BEDROOM-1 and HALL", "2'-8\" between KITCHEN and HALL", "3'-0\" between LIVING-ROOM and HALL",
        "2'-4\" between BATH and HALL", "3'-0\" between HALL and outside",
    ])  # fmt: skip


def test_a_plotted_plan_is_imported_confirmed_and_checked(tmp_path):
    path = written(tmp_path / "plan.pdf", plotted(house()))
    draft = read(path)
    rows = begun_mapping(draft).split("\n")
    start = rows.index("confirmed:")
    mapping = tmp_path / "m.yaml"
    mapping.write_text("\n".join([*rows[:start], *(row.removeprefix("#") for row in rows[start:])]))
    result = CliRunner().invoke(cli, ["import", str(path), "--mapping", str(mapping)])
    assert result.exit_code == 0, result.output
    project = read_project(tmp_path / "plan.yaml")
    assert {space.id for space in project.spaces if space.outline} == set(ROOMS)
    assert len(project.doors) == 5
    assert project.design_file.form.startswith("PDF page 1 at 1:")
    assert project_of(draft, path).spaces[0].drawn_from.startswith("PDF page 1 text ")


def test_a_pdf_given_to_check_says_to_import_it(tmp_path):
    path = written(tmp_path / "plan.pdf", plotted(house()))
    result = CliRunner().invoke(cli, ["check", str(path)])
    assert isinstance(result.exception, Unusable)
    assert "`precheck import` makes a project file of a plan that was plotted to it" in str(result.exception)


def test_numbers_that_are_no_lengths_prove_and_break_nothing(tmp_path):
    page = with_dimensions(plotted(house()))
    for n, words in enumerate(("0.00", "00", "000", "0", "1:50", "A-101")):
        page.dimension((0, 400 + 12 * n), (100, 400 + 12 * n), words)
    assert areas(read(written(tmp_path / "plan.pdf", page))) == pytest.approx(ROOMS, rel=0.01)


def test_words_that_only_gaps_part_are_one_text(tmp_path):
    plan, page = house(sizes=False), PlottedPage()
    plotted(plan, page)
    for room in HOUSE[:4]:
        x, y = room.middle
        page.text(feet(room.wide), (x - 18, y - 6), 5.0)  # each word put on its place, and no space between
        page.text("x", (x, y - 6), 5.0)
        page.text(feet(room.deep), (x + 18, y - 6), 5.0)
    found = grades(read(written(tmp_path / "plan.pdf", page)))
    assert found == {"BEDROOM-1": "A", "KITCHEN": "A", "HALL": "A", "LIVING-ROOM": "A", "BATH": "B"}


@pytest.mark.long
def test_a_dense_drawing_of_short_lines_is_no_filled_wall(tmp_path):
    page = plotted(house())
    page.ink("0 0.4 0", 0.36)
    for n in range(4000):  # leaves of a tree, outside of the house
        x, y = 320 + (n % 60) * 0.8, (n // 60) * 0.8
        page.line((x, y), (x + 0.5, y + 0.5))
    draft = read(written(tmp_path / "plan.pdf", page))
    assert not any(
        name.startswith("SOLID OF") for name in (*draft.recognized.layers["wall faces"], *draft.recognized.other_layers)
    )
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
