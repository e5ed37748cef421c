"""The distance of what is drawn from a lot line: square to the line, along the line's own length, and exact."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from precheck_plugins.zoning.lot_lines import least_distance

COORDINATES = st.integers(-2000, 2000)
ABOVE = st.integers(1, 2000)


def box(x: int, y: int, width: int, depth: int) -> tuple[tuple[int, int], ...]:
    return ((x, y), (x + width, y), (x + width, y + depth), (x, y + depth), (x, y))


@given(COORDINATES, ABOVE, ABOVE, ABOVE)
def test_a_box_beside_a_line_is_as_far_as_its_near_edge(y: int, away: int, width: int, depth: int) -> None:
    line = ((0, y - 1), (0, y + depth + 1))
    found = least_distance(box(away, y, width, depth), *line)
    assert found is not None
    assert found[0] == away


@given(COORDINATES, ABOVE, ABOVE, ABOVE)
def test_which_way_the_line_is_drawn_makes_no_difference(y: int, away: int, width: int, depth: int) -> None:
    one = least_distance(box(away, y, width, depth), (0, -5000), (0, 5000))
    other = least_distance(box(away, y, width, depth), (0, 5000), (0, -5000))
    assert one is not None
    assert other is not None
    assert one[0] == other[0]


@given(ABOVE, ABOVE, ABOVE, ABOVE)
def test_a_box_beyond_the_ends_of_a_line_does_not_face_it(away: int, gap: int, width: int, depth: int) -> None:
    assert least_distance(box(away, 100 + gap, width, depth), (0, 0), (0, 100)) is None


def test_only_the_stretch_beside_the_line_counts() -> None:
    slanting = ((10, 0), (2, 200), (60, 200), (60, 0), (10, 0))  # its nearest corner lies past the end of the line
    found = least_distance(slanting, (0, 0), (0, 100))
    assert found is not None
    assert found[0] == 6


def test_a_slanting_line_with_whole_sides_is_measured_exactly() -> None:
    triangle = ((10, 0), (20, 0), (20, -10), (10, 0))
    found = least_distance(triangle, (-300, -400), (300, 400))
    assert found is not None
    assert found[0] == Fraction(8)


def test_a_line_without_length_has_no_distance() -> None:
    assert least_distance(box(1, 1, 1, 1), (0, 0), (0, 0)) is None
