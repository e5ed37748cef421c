"""Where openings stand in plan: the distances between them do not depend on how the plan is drawn."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precheck.files.missing import Missing
from precheck.files.source import read_text
from precheck.project import Opening, Project, project_from
from precheck.survey import (
    House,
    Stretch,
    apart,
    at_right_angle,
    depth_from,
    from_point,
    gap_between,
    in_one_plane,
    line_of,
    outline_of,
    stands_before,
    stretch_of,
    to_outline,
    uncovered,
    wall_of,
)
from precheck.units import Length

INCH = Length.parse("1 in").n


def project(given_: dict[str, Any]) -> Project:
    return project_from(read_text(json.dumps({"project": "plan", **given_}), "plan.yaml"))


def room(*, middle: list[str], width: str = "3 ft", outline: list[list[str]] | None = None) -> tuple[House, Opening]:
    """Return a house of one room, 20 ft by 12 ft unless it has an outline, with one window in it."""
    drawn: dict[str, Any] = {"rectangle": {"at": ["0 ft", "0 ft"], "width": "20 ft", "depth": "12 ft"}}
    space = {"id": "den", "use": "family room", **({"outline": outline} if outline else drawn)}
    made = project(
        {"spaces": [space], "windows": [{"id": "W1", "space": "den", "unit size": f"{width} x 4 ft", "middle": middle}]}
    )
    return House(made), made.windows[0]


def inches(*points: tuple[int, int]) -> tuple[tuple[int, int], ...]:
    return tuple((x * INCH, y * INCH) for x, y in points)


def line(*points: tuple[int, int]) -> Stretch:
    return Stretch(*inches(*points))


def test_an_opening_takes_up_its_width_along_the_nearest_wall() -> None:
    house, window = room(middle=["5 ft", "0 ft"])
    assert stretch_of(window, house) == line((42, 0), (78, 0))
    house, window = room(middle=["20 ft", "4 ft"])
    assert stretch_of(window, house) == line((240, 30), (240, 66))


def test_an_opening_on_the_outer_face_of_a_thick_wall_is_still_in_it() -> None:
    house, window = room(middle=["5 ft", "-10 in"])
    assert stretch_of(window, house) == line((42, -10), (78, -10))


@pytest.mark.parametrize("middle", [["5 ft", "6 ft"], ["5 ft", "-2 ft"]])
def test_an_opening_away_from_every_wall_has_no_place(middle: list[str]) -> None:
    house, window = room(middle=middle)
    assert isinstance(stretch_of(window, house), Missing)


def test_an_opening_in_a_slanted_wall_runs_along_it() -> None:
    slanted = [["0 ft", "0 ft"], ["30 ft", "40 ft"], ["0 ft", "40 ft"]]
    house, window = room(middle=["15 ft", "20 ft"], width="5 ft", outline=slanted)
    assert stretch_of(window, house) == line((162, 216), (198, 264))


def test_a_door_is_placed_by_either_of_its_rooms() -> None:
    made = project({
        "spaces": [{"id": "den"}, {"id": "hall", "rectangle": {"at": ["0 ft", "0 ft"], "width": "4 ft", "depth": "9 ft"}}],
        "doors": [{"id": "D1", "between": ["den", "hall"], "clear width": "32 in", "middle": ["2 ft", "9 ft"]}],
    })  # fmt: skip
    assert stretch_of(made.doors[0], House(made)) == line((8, 108), (40, 108))


def test_an_opening_is_in_the_nearest_wall_of_its_room() -> None:
    made = project({
        "spaces": [{"id": "den"}],
        "walls": [
            {"id": "south", "between": ["den", "outside"], "from": ["2 ft", "30 ft"], "to": ["22 ft", "30 ft"]},
            {"id": "east", "between": ["den", "outside"], "from": ["22 ft", "30 ft"], "to": ["22 ft", "42 ft"]},
        ],
        "windows": [
            {"id": "W1", "space": "den", "middle": ["7 ft", "30 ft"]},
            {"id": "W2", "space": "den", "middle": ["22 ft", "41 ft"]},
            {"id": "W3", "space": "den", "middle": ["7 ft", "7 ft"]},
        ],
    })  # fmt: skip
    walls = [wall_of(window, House(made)) for window in made.windows]
    assert [wall and wall.id for wall in walls] == ["south", "east", None]
    assert [line_of(wall) for wall in made.walls] == [line((24, 360), (264, 360)), line((264, 360), (264, 504))]


def test_an_opening_along_an_axis_is_placed_and_measured_exactly() -> None:
    width = Length.parse("36 1/128 in")
    for middle, along in ((["5 ft", "0 ft"], 0), (["20 ft", "5 ft"], 1)):
        house, window = room(middle=middle, width="36 1/128 in")
        glass = stretch_of(window, house)
        assert isinstance(glass, Stretch)
        assert glass.end[along] - 60 * INCH == 60 * INCH - glass.start[along] == Fraction(width.n, 2)
        assert gap_between(line((0, 0), (12, 0)) if along == 0 else line((240, 0), (240, 12)), glass) == Length(
            48 * INCH - Fraction(width.n, 2)
        )


def test_what_lacks_for_a_place_is_named() -> None:
    made = project({"spaces": [{"id": "den"}], "windows": [
        {"id": "W1", "space": "den", "unit size": "3 ft x 4 ft"}, {"id": "W2", "space": "den", "middle": ["1 ft", "0 ft"]},
        {"id": "W3", "space": "den", "unit size": "3 ft x 4 ft", "middle": ["1 ft", "0 ft"]},
    ]})  # fmt: skip
    found = [stretch_of(window, House(made)) for window in made.windows]
    assert [str(need) for lack in found for need in lack.needs] == [  # type: ignore[union-attr]
        "middle of window W1", "unit size of window W2", "the outline of its room of window W3",
    ]  # fmt: skip


def test_two_openings_in_one_wall_are_a_gap_apart() -> None:
    door, glass = line((42, 0), (78, 0)), line((98, 0), (134, 0))
    assert in_one_plane(door, glass)
    assert not at_right_angle(door, glass)
    assert gap_between(door, glass) == gap_between(glass, door) == Length.parse("20 in")
    assert gap_between(door, line((70, 0), (90, 0))) == Length(0)


def test_an_opening_round_the_corner_is_square_to_the_other() -> None:
    door, glass = line((180, 0), (216, 0)), line((240, 24), (240, 60))
    assert at_right_angle(door, glass)
    assert not in_one_plane(door, glass)
    assert apart(door, glass) == Length(round((24**2 + 24**2) ** 0.5 * INCH))


def test_walls_that_continue_each_other_may_be_a_little_out_of_line() -> None:
    assert in_one_plane(line((0, 0), (1000, 0)), line((1000, 0), (2000, 9)))
    assert not in_one_plane(line((0, 0), (1000, 0)), line((1000, 0), (2000, 11)))


def test_parallel_walls_across_a_room_are_not_one_plane() -> None:
    assert not in_one_plane(line((0, 0), (36, 0)), line((40, 30), (76, 30)))


def test_what_lies_in_front_of_an_opening() -> None:
    glass, tub = line((18, 96), (42, 96)), inches((0, 60), (60, 60), (60, 90), (0, 90))
    assert stands_before(glass, tub)
    assert not stands_before(line((60, 96), (84, 96)), tub)
    assert to_outline(glass, tub) == Length.parse("6 in")
    assert to_outline(line((10, 70), (20, 70)), tub) == Length(0)


def test_the_depth_of_a_closet_is_measured_square_to_its_door() -> None:
    closet = inches((0, 0), (96, 0), (96, -36), (0, -36))
    assert depth_from(line((30, 0), (60, 0)), closet) == Length.parse("36 in")
    assert depth_from(line((0, -30), (0, -6)), closet) == Length.parse("96 in")


SPAN = st.integers(-400, 400)
TURNS = (lambda x, y: (x, y), lambda x, y: (-y, x), lambda x, y: (-x, -y), lambda x, y: (y, x), lambda x, y: (x, -y))


@given(st.tuples(SPAN, SPAN, st.integers(1, 200)), st.tuples(SPAN, SPAN, st.integers(1, 200)), SPAN, SPAN)
def test_turning_mirroring_and_moving_the_plan_changes_no_distance(
    one: tuple[int, int, int], other: tuple[int, int, int], dx: int, dy: int
) -> None:
    """Two openings in parallel walls, and then square to each other."""
    (x, y, width), (u, v, size) = one, other
    for second in (((u, v), (u + size, v)), ((u, v), (u, v + size))):
        drawn = [((x, y), (x + width, y)), second]
        before = [line(*pair) for pair in drawn]
        for turn in TURNS:
            after = [line(*(turn(px + dx, py + dy) for px, py in pair)) for pair in drawn]
            assert apart(*after) == apart(*before)
            assert gap_between(*after) == gap_between(*before)
            assert in_one_plane(*after) == in_one_plane(*before)
            assert at_right_angle(*after) == at_right_angle(*before)


def test_the_outline_of_a_rectangle_begins_at_its_corner() -> None:
    made = project({"spaces": [{"id": "den", "rectangle": {"at": ["1 ft", "2 ft"], "width": "3 ft", "depth": "4 ft"}}]})
    space = made.spaces[0]
    assert not isinstance(space.rectangle, Missing)
    assert outline_of(space.rectangle) == inches((12, 24), (48, 24), (48, 72), (12, 72)) == House(made).outline(space)


def test_a_point_beyond_a_slanted_wall_is_as_far_as_its_nearest_end() -> None:
    slanted = line((0, 0), (30, 40))
    before, beyond, beside = inches((-3, -4), (36, 48), (15 - 4, 20 + 3))
    assert from_point(before, slanted) == Length.parse("5 in")
    assert from_point(beyond, slanted) == Length.parse("10 in")
    assert from_point(beside, slanted) == Length.parse("5 in")


def test_what_no_wall_covers_of_a_line_is_counted_before_between_and_after() -> None:
    whole = line((0, 0), (120, 0))
    walls = [line((12, 0), (48, 0)), line((60, 0), (96, 0))]
    assert uncovered(whole, walls) == Length.parse("48 in")
    assert uncovered(whole, []) == Length.parse("120 in")
    assert uncovered(whole, [line((-12, 0), (132, 0))]) == Length.parse("0 in")
    assert uncovered(whole, [line((200, 0), (240, 0))]) == Length.parse("120 in")


def test_an_opening_is_in_the_nearest_of_two_walls_that_part_the_same() -> None:
    walls = [
        {
            "id": "far",
            "phase": "new",
            "between": ["den", "outside"],
            "from": ["0 ft", "10 in"],
            "to": ["20 ft", "10 in"],
        },
        {
            "id": "near",
            "phase": "new",
            "between": ["den", "outside"],
            "from": ["0 ft", "2 in"],
            "to": ["20 ft", "2 in"],
        },
        {"id": "other", "phase": "new", "between": ["den", "hall"], "from": ["0 ft", "0 ft"], "to": ["20 ft", "0 ft"]},
    ]
    made = project(
        {
            "spaces": [{"id": "den"}, {"id": "hall"}],
            "walls": walls,
            "windows": [{"id": "W1", "space": "den", "middle": ["5 ft", "0 ft"]}],
        }
    )
    wall = wall_of(made.windows[0], House(made))
    assert wall is not None
    assert wall.id == "near"


def test_an_opening_without_a_place_is_in_the_only_wall_between_its_rooms() -> None:
    def wall_between(*ids: str, between: list[str]) -> str | None:
        made = project(
            {
                "spaces": [{"id": "den"}, {"id": "hall"}],
                "walls": [{"id": one, "phase": "new", "between": between} for one in ids],
                "doors": [{"id": "D1", "between": between}],
            }
        )
        found = wall_of(made.doors[0], House(made))
        return None if found is None else found.id

    assert wall_between("P1", between=["den", "hall"]) == "P1"
    assert wall_between("P1", "P2", between=["den", "hall"]) is None
    assert wall_between("P1", between=["den", "outside"]) is None
