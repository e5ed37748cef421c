"""Sizes of rooms as drafters type them: every mark, unit and separator, in one text, in two rows, or in pieces."""

import pytest
from drawn_plans import HOUSE, DrawnPlan, feet, house
from plotted_plans import plotted, written
from test_import_pdf import ROOMS, areas, grades, read

from precheck.importers.drawn.joined_sizes import sizes_joined
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.drawn.sizes import length_in, sizes_in, without_sizes

FOOT = 0.3048


@pytest.mark.parametrize(("text", "sides"), [
    ("15'-2\"X15'-2\"", (15 + 1 / 6, 15 + 1 / 6)), ("12'0\" x 11'6\"", (12, 11.5)), ("12' X 10'", (12, 10)),
    ("12'-0\"\u00d710'-6\"", (12, 10.5)), ("16'-7½\"X13'-0\"", (16.625, 13)), ("BEDROOM 12' X 10'", (12, 10)),
    ("12\u2032-0\u2033 x 10\u2032-6\u2033", (12, 10.5)), ("12'0'' x 11'6''", (12, 11.5)), ("16.5' x 12'", (16.5, 12)),
    ("12 ft x 10 ft", (12, 10)), ("12FT 6IN X 10FT", (12.5, 10)), ("12'-0\" by 11'-6\"", (12, 11.5)),
    ("11 x 12'", (11, 12)), ("4X4'9\"", (4, 4.75)),
])  # fmt: skip
def test_sizes_in_feet(text, sides):
    (size,) = sizes_in(text)
    assert (size.first / FOOT, size.second / FOOT) == pytest.approx(sides)
    assert without_sizes(text) in ("", "BEDROOM")


@pytest.mark.parametrize(("text", "sides"), [
    ("3.20 x 4.15", (3.2, 4.15)), ("3,20 x 4,15", (3.2, 4.15)), ("3200X4100", (3.2, 4.1)), ("3,20 \u00d7 4,15 m", (3.2, 4.15)),
    ("6 X 5.5 M", (6, 5.5)), ("3 x 4 m", (3, 4)), ("3.5m x 4m", (3.5, 4)), ("320 x 415", (3.2, 4.15)), ("4.5 x 4", (4.5, 4)),
])  # fmt: skip
def test_sizes_in_metric_units(text, sides):
    (size,) = sizes_in(text)
    assert (size.first, size.second) == pytest.approx(sides)


@pytest.mark.parametrize(
    "text", ["2 x 4", "4x4 post", "2x12 @ 16 in o.c.", "4 x 4 @ 16' o.c.", "22x30 attic access", "12 x 10"]
)
def test_what_may_be_lumber_or_anything_else_is_no_size_of_a_room(text):
    assert not list(sizes_in(text))


@pytest.mark.parametrize(("text", "feet"), [("9 ft", 9), ("8.5'", 8.5), ("12 ft 6 in", 12.5), ("120 sq ft", None)])
def test_lengths_in_words(text, feet):
    assert length_in(text) == (feet and pytest.approx(feet * FOOT))


def row(*pieces, across=((0.0, 0.0),), height=6.0):
    return [DrawnText(said, at, height, 0.0, "TEXT") for said, at in zip(pieces, across, strict=True)]


@pytest.mark.parametrize("texts", [
    row("12'-0\" X", "10'-6\"", across=((0, 0), (0, -9))), row("12'-0\"", "x 10'-6\"", across=((0, 0), (2, -10))),
    row("12'-0\"", "X", "10'-6\"", across=((0, 0), (24, 0), (50, 1))), row("3.66 x", "3.20", across=((0, 0), (30, 0))),
])  # fmt: skip
def test_a_size_in_pieces_is_one_text_between_them(texts):
    (one,) = sizes_joined(texts)
    (size,) = sizes_in(one.text)
    assert (size.first, size.second) == pytest.approx((3.66, 3.20), abs=0.003)
    assert one.at == pytest.approx([(texts[0].at[i] + texts[-1].at[i]) / 2 for i in (0, 1)])


@pytest.mark.parametrize("texts", [
    row("12'-0\" X", "10'-6\"", across=((0, 0), (0, -40))),  # too far
    row("12'-0\" X", "10'-6\"", "9'-0\"", across=((0, 0), (0, -9), (30, 0))),  # which of the two
    row("MAX", "10'-6\"", across=((0, 0), (20, 0))), row("12'-0\"", "10'-6\"", across=((0, 0), (0, -9))),
])  # fmt: skip
def test_pieces_that_make_no_size_for_sure_stay_as_they_are(texts):
    assert sizes_joined(texts) == texts


def in_two_rows():
    plan = house(sizes=False)
    for room in HOUSE:
        x, y = room.middle
        plan.text(f"{feet(room.wide)} X", x, y - 5)
        plan.text(feet(room.deep), x, y - 14)
    return plan


@pytest.mark.long
def test_rooms_whose_size_stands_in_two_rows_are_proven_by_it_in_both_forms(tmp_path):
    plan = in_two_rows()
    for draft in (read(plan.save(tmp_path)), read(written(tmp_path / "plan.pdf", plotted(plan)))):
        assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
        assert set(grades(draft).values()) == {"A"}


def test_name_and_size_in_one_text_name_and_prove_a_room(tmp_path):
    drawn = DrawnPlan()
    drawn.walls(HOUSE, ())
    for room in HOUSE:
        drawn.text(f"{room.name} {feet(room.wide)}X{feet(room.deep)}", *room.middle, height=3.0)
    draft = read(written(tmp_path / "plan.pdf", plotted(drawn)))
    assert areas(draft) == pytest.approx(ROOMS, rel=0.01)
    assert set(grades(draft).values()) == {"A"}
