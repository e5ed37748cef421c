"""Findings over the page of a PDF: each number where its part stands on the plan, and the same numbers as in every report."""

from __future__ import annotations

import pytest
from click.testing import CliRunner
from drawn_plans import HOUSE, house
from plotted_plans import PlottedPage, plotted, written

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.importers.drawn.pdf_page import PdfPage
from precheck.importers.drawn.pdf_texts import PageLetters
from precheck.reports import renderer
from precheck.reports.worklist import items_of
from precheck.runs.desk import Desk, Run

pdfium = pytest.importorskip("pypdfium2")
pytest.importorskip("typst")
pytest.importorskip("ezdxf")


def reviewed(path):
    return Desk(Run("irc-2021", topics=("rooms", "light-and-air", "escape", "doors", "electrical", "alarms"))).review(
        str(path)
    )


def confirmed_project(folder, page):
    """Return the project file of a plotted plan of which a person confirmed everything."""
    plan, mapping = written(folder / "plan.pdf", page), folder / "mapping.yaml"
    run = CliRunner()
    assert run.invoke(cli, ["import", str(plan), "--begin-mapping", str(mapping)]).exit_code == 0
    begun, confirmed = mapping.read_text().split("\nconfirmed:\n")
    mapping.write_text(f"{begun}\nconfirmed:\n" + confirmed.replace("\n#  ", "\n  ").removeprefix("#"))
    assert run.invoke(cli, ["import", str(plan), "--mapping", str(mapping)]).exit_code == 0
    return folder / "plan.yaml"


def texts_on(made, number):
    return PageLetters(PdfPage(pdfium.PdfDocument(made), number)).texts()


@pytest.mark.parametrize("page", [
    PlottedPage(), PlottedPage(turned=90), PlottedPage(1.44, origin=(60.0, 200.0)),
    *(pytest.param(PlottedPage(turned=turned, size=(700.0, 792.0)), marks=pytest.mark.long) for turned in (90, 180, 270)),
])  # fmt: skip
def test_each_number_stands_in_its_room_on_the_page(page, tmp_path):
    review = reviewed(confirmed_project(tmp_path, plotted(house(), page)))
    made = renderer("overlay")([review])
    names = {text.text.replace(" ", "-"): text.at for text in texts_on(tmp_path.joinpath("plan.pdf").read_bytes(), 1)}
    numbers = [text for text in texts_on(made, 1) if text.text.isdigit()]
    rooms = {room.name.replace(" ", "-"): room for room in HOUSE}
    looked_at = 0
    for item in items_of(review):
        for part in item.parts:
            if part.id in rooms:
                near = max(rooms[part.id].wide, rooms[part.id].deep) / 2 * page.per_inch
                x, y = names[part.id]
                assert any(
                    t.text == str(item.number) and abs(t.at[0] - x) < near and abs(t.at[1] - y) < near for t in numbers
                )
                looked_at += 1
    assert looked_at >= 3


def test_numbers_and_list_are_those_of_the_other_reports(tmp_path):
    review = reviewed(confirmed_project(tmp_path, plotted(house())))
    made = renderer("overlay")([review])
    items = items_of(review)
    document = pdfium.PdfDocument(made)
    said = " ".join(t.text for n in range(2, len(document) + 1) for t in texts_on(made, n))
    assert said.startswith("plan NOT READY to submit")
    assert "The local building department has the final say" in said
    for item in items:
        assert f"{item.number}. {' '.join(item.about(item.gist).split()[:2])}" in said
    over = {int(text.text) for text in texts_on(made, 1) if text.text.isdigit()}
    without = said.rpartition("Without a place on the plan: ")[2].rstrip(".")
    assert over | {int(n) for n in without.split(", ")} == {item.number for item in items}
    assert renderer("overlay")([review]) == made


@pytest.mark.long
def test_the_page_beneath_stays_lines_and_texts(tmp_path):
    project = confirmed_project(tmp_path, plotted(house()))
    made = renderer("overlay")([reviewed(project)])
    document = pdfium.PdfDocument(made)
    assert document[0].get_size() == (792.0, 792.0)
    assert {"BATH", "KITCHEN"} <= {text.text for text in texts_on(made, 1)}
    page = PdfPage(document, 1)
    assert sum(path.layer.startswith("STROKE 0 0 0 WIDTH 1.4") for path in page.paths()) > 50
    assert page.pictures == 0


def test_what_is_drawn_from_no_pdf_is_refused_with_what_to_do(tmp_path):
    plain = tmp_path / "house.yaml"
    plain.write_text("project: A house\nspaces: [{id: hall}]\n")
    for text, told in (
        ("", "is not drawn from a plan in a PDF"),
        ("design file: {file: plan.dxf, form: DXF in inches}\n", "this drawing, which the project is drawn from, is not there"),
        ("design file: {file: there.dxf, form: DXF in inches}\n", "for a DXF drawing use --report dxf"),
        ("design file: {file: there.dxf, form: \"PDF page 1 at 1:48\"}\n", "page 1 of it cannot be read; plot it again"),
    ):  # fmt: skip
        (tmp_path / "there.dxf").write_text("0\nEOF\n")
        plain.write_text(f"project: A house\nspaces: [{{id: hall}}]\n{text}")
        with pytest.raises(Unusable, match=told):
            renderer("overlay")([reviewed(plain)])


def test_one_plan_is_marked_at_a_time(tmp_path):
    plain = tmp_path / "house.yaml"
    plain.write_text("project: A house\n")
    with pytest.raises(Unusable, match="one plan at a time; name one project"):
        renderer("overlay")([reviewed(plain), reviewed(plain)])
