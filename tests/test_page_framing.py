"""The framing plan: members where they lie, to scale and as framing plans draw them, with the marks of the list."""

import re

import pytest

from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports.drawings import Drawing, Source, all_drawings
from precheck.reports.html import render
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.survey import House
from precheck.testing import code, plugins

FRAME = """
project: Framing
stories: [{id: ground, level: ground}, {id: up, level: upper}]
spaces:
  - {id: den, name: Den, use: family room, story: ground, rectangle: {at: [0 ft, 0 ft], width: 20 ft, depth: 14 ft}}
  - {id: far, name: Far room, use: office, story: ground, rectangle: {at: [60 ft, 0 ft], width: 20 ft, depth: 14 ft}}
walls:
  - {id: W1, phase: existing, between: [den, outside], story: ground, from: [0 ft, -3 in], to: [20 ft, -3 in],
     layers: [1/2 in gypsum, 3 1/2 in studs]}
members:
  - {id: CJ1, phase: existing, role: ceiling joist, over: ground, from: [0 ft, 0 ft], to: [0 ft, 14 ft], row to: [20 ft, 0 ft],
     size: 2x6, spacing: 16 in, span: 14 ft}
  - id: B1
    phase: new
    role: beam
    over: ground
    from: [10 ft, 0 ft]
    to: [10 ft, 14 ft]
    size: 2x6
    plies: 2
    species: Douglas fir-larch
    grade: No.2
    graded: today
    span: 14 ft
    unbraced: 0 in
    carries: [{use: other room, live: 40 psf, dead: 10 psf, tributary: 10 ft}]
    bears on: [{on: P1, length: 3 in, material: wood}, {on: P2, length: 3 in, material: wood}]
  - {id: P1, phase: new, role: post, over: ground, at: [10 ft, 0 ft], size: 6x6}
  - {id: P2, phase: new, role: post, over: ground, at: [10 ft, 14 ft], size: 6x6}
"""


PLACE = r"(over: ground|(from|to|row to|at): \[\d+ ft, \d+ ft\])(, *\n?|\n) *"


def reviewed(text: str) -> Review:
    return review(project_from(read_text(text, "p.yaml")), code("irc-2021"), plugins())


def plan(found: Review, over: str = " over story ground") -> Drawing:
    drawn = all_drawings(Source(House(found.project), items_of(found)))
    return next(d for d in drawn if d.title == f"Framing plan{over}")


def group(drawing: Drawing, part: str) -> str:
    found = re.search(rf'<g id="{drawing.shows[part]}" class="part[^>]*>.*?</g>', drawing.body, re.S)
    assert found
    return found[0]


def lines(svg: str, kind: str) -> list[tuple[float, ...]]:
    return [
        tuple(map(float, re.findall(r"-?\d+\.\d+", d))) for d in re.findall(rf'<path class="{kind}" d="([^"]*)"', svg)
    ]


@pytest.fixture(scope="module")
def frame() -> Review:
    return reviewed(FRAME)


def test_a_member_lies_where_it_is_said_to_at_the_scale_of_the_plan(frame: Review) -> None:
    drawing = plan(frame)
    assert drawing.scale == "Printed at 1/4 in = 1 ft"
    pixels = 96 / 4 / 12
    (beam,) = lines(group(drawing, "B1"), "heavy-member")
    assert beam == pytest.approx((120 * pixels, 0, 120 * pixels, -168 * pixels))
    (post,) = lines(group(drawing, "P2"), "post")
    assert max(post[::2]) - min(post[::2]) == pytest.approx(5.5 * pixels)


def test_a_row_is_its_first_piece_and_a_line_across_with_an_arrowhead_at_each_end(frame: Review) -> None:
    drawing, pixels = plan(frame), 2.0
    row = group(drawing, "CJ1")
    assert lines(row, "member there") == [pytest.approx((0, 0, 0, -168 * pixels))]
    assert pytest.approx((0, -84 * pixels, 240 * pixels, -84 * pixels)) in lines(row, "line thin there")
    tips = {line[2] for line in lines(row, "arrowhead there")}
    assert tips == {0, 240 * pixels}
    assert "(E) CJ1 ceiling joists" in drawing.body
    assert "2x6 @ 16 in" in drawing.body


def test_what_is_there_already_is_lighter_and_said_to_be(frame: Review) -> None:
    drawing = plan(frame)
    assert " there" in group(drawing, "CJ1")
    assert " there" not in group(drawing, "B1")
    assert any(note.startswith("(E)") for note in drawing.notes)


def test_marks_and_list_lead_to_each_other(frame: Review) -> None:
    page = render([frame])
    numbers = [item.number for item in items_of(frame) if item.part is not None and item.part.id == "B1"]
    assert numbers
    drawing = plan(frame)
    for number in numbers:
        assert f'href="#item-{number}"' in drawing.body
        article = re.search(rf'<article class="[^"]*" id="item-{number}".*?</article>', page, re.S)
        assert article
        assert f'href="#{drawing.shows["B1"]}"' in article[0]


def test_a_member_that_does_not_comply_is_told_by_strokes_and_not_by_color_alone(frame: Review) -> None:
    drawing = plan(frame)
    assert 'class="part fail"' in group(drawing, "B1")
    assert len(lines(group(drawing, "B1"), "tick")) > 5
    assert not lines(group(drawing, "CJ1"), "tick")
    assert any("does not comply as drawn" in note for note in drawing.notes)


def test_a_removed_member_is_left_out() -> None:
    found = reviewed(FRAME.replace("id: B1\n    phase: new", "id: B1\n    phase: removed"))
    drawing = plan(found)
    assert "B1" not in drawing.shows
    assert "B1" not in drawing.body


def test_rooms_near_the_members_lie_faint_beneath_and_far_ones_are_left_out(frame: Review) -> None:
    drawing = plan(frame)
    assert ">Den<" in drawing.body
    assert "Far room" not in drawing.body
    (wall,) = lines(drawing.body, "faint wall-beneath")
    assert max(wall[1::2]) - min(wall[1::2]) == pytest.approx(4 * 2)


def test_a_member_without_a_place_is_named_beneath_with_what_to_add() -> None:
    found = reviewed(
        FRAME.replace("over: ground, at: [10 ft, 0 ft]", "over: ground").replace(
            "over: ground, from: [0 ft, 0 ft], ", ""
        )
    )
    notes = " ".join(plan(found).notes)
    assert "add `at` of member P1 (mark" in notes
    assert "add `over` and `from` of member CJ1 (" in notes


def test_a_row_without_its_reach_is_one_piece_and_asked_for() -> None:
    drawing = plan(reviewed(FRAME.replace("row to: [20 ft, 0 ft],", "")))
    assert not lines(group(drawing, "CJ1"), "arrowhead there")
    assert any("add `row to` of member CJ1" in note for note in drawing.notes)


def test_members_none_of_which_has_a_place_get_one_line_of_what_to_add() -> None:
    before, _, members = FRAME.partition("members:")
    text = f"{before}members:{re.sub(PLACE, '', members)}"
    drawing = plan(reviewed(text), "")
    assert not drawing.body
    assert len(drawing.to_add) == 2
    assert drawing.to_add[0].startswith("`over`, `from` and `to` of member CJ1 (")


def test_two_ends_in_one_point_are_no_line() -> None:
    drawing = plan(reviewed(FRAME.replace("to: [10 ft, 14 ft]", "to: [10 ft, 0 ft]")))
    assert "B1" not in drawing.shows
    assert any("another point as `to` of member B1" in note for note in drawing.notes)


@pytest.mark.parametrize("name", ['"><script>alert(1)</script>', "</title></svg>", "Über-Träger", "x" * 2000])
def test_a_name_is_lettering_and_nothing_else(name: str) -> None:
    quoted = name.replace('"', '\\"')
    found = reviewed(FRAME.replace("B1", f'"{quoted}"').replace("name: Den", f'name: "{quoted}"'))
    drawing = plan(found)
    assert "<script" not in drawing.svg()
    assert drawing.svg().count("</svg>") == 1
    assert drawing.frame[2] <= 9.5 * 96


def test_a_house_without_members_has_no_framing_plan() -> None:
    found = reviewed(FRAME[: FRAME.index("members:")])
    assert not [d for d in all_drawings(Source(House(found.project), ())) if "Framing" in d.title]
