"""Openings and outlets placed on a wall stand where their point of the plan, written by hand, would put them."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from precheck.files.missing import is_missing
from precheck.files.source import Block, Unusable, read_file, read_text
from precheck.project import Opening, Project, project_from, read_project
from precheck.project.on_wall import THICKEST_WALL
from precheck.reports import words
from precheck.review.run import review
from precheck.runs.desk import Desk, Run
from precheck.survey import House
from precheck.survey.fit import walls_around
from precheck.survey.openings import from_point, stretch_of
from precheck.units import Length

EXAMPLES = sorted(Path(__file__).parents[1].glob("examples/**/*.yaml"))
ENDS = {"north": ("west", "east"), "south": ("west", "east"), "east": ("south", "north"), "west": ("south", "north")}


def projects() -> Iterator[tuple[Path, Project]]:
    for path in EXAMPLES:
        try:
            project = read_project(path)
        except Unusable:  # a ruleset, or a record of what is accepted
            continue
        if any(not is_missing(opening.middle) for opening in (*project.doors, *project.windows)):
            yield path, project


def places(opening: Opening, house: House) -> Iterator[dict[str, str]]:
    """Yield the ways in which the place of `opening` can be given on the walls of its rooms."""
    middle = (opening.middle[0].n, opening.middle[1].n)
    rooms = [room for name in getattr(opening, "between", None) or (opening.space,) if (room := house.space(name))]  # type: ignore[attr-defined]
    for room in rooms:
        corners = house.outline(room) or ()
        for number, (start, end) in enumerate(zip(corners, (*corners[1:], *corners[:1]), strict=True), 1):
            if from_point(middle, (start, end)).n <= THICKEST_WALL.n / 2:  # type: ignore[arg-type]
                axis = 0 if start[1] == end[1] else 1
                yield {"room": room.id, "wall": str(number), "distance": written(abs(middle[axis] - start[axis]))}
                low = min(start[axis], end[axis])
                side = sided(corners, axis, start[1 - axis])
                if side:
                    away = {
                        "room": room.id,
                        "side": side,
                        "from": ENDS[side][0],
                        "distance": written(middle[axis] - low),
                    }
                    yield away


def sided(corners: tuple[Any, ...], axis: int, at: Any) -> str:
    """Return which side of a rectangle lies at a coordinate; empty for another outline."""
    if len(corners) != 4:
        return ""
    lower = at == min(corner[1 - axis] for corner in corners)
    return ("south" if lower else "north") if axis == 0 else ("west" if lower else "east")


def written(n: Any) -> str:
    return f"{Length(n).n / Length.parse('1 in').n:.4f} in"


def moved_onto_walls(path: Path, chosen: dict[str, dict[str, str]]) -> Project:
    block = read_file(path)
    for key in ("doors", "windows"):
        for part in block.get(key) or ():
            if part["id"] in chosen:
                place = Block(part.at, part.file)
                place.update(chosen[part["id"]])
                del part["middle"]
                part["on"] = place
    return project_from(block)


def test_every_opening_of_the_examples_can_be_placed_on_its_wall_and_stays_where_it_is() -> None:
    tried = 0
    for path, project in projects():
        house = House(project)
        ways = {o.id: [*places(o, house)] for o in (*project.doors, *project.windows) if walls_around(o, house)}
        assert all(ways.values()), path
        for turn in range(max(map(len, ways.values()))):
            other = moved_onto_walls(path, {name: found[turn % len(found)] for name, found in ways.items()})
            for name in ways:
                before: Any = project.by_id[name]
                after: Any = other.by_id[name]
                assert after.middle == before.middle, (path, name, after.middle, before.middle)
                assert stretch_of(after, House(other)) == stretch_of(before, house)
                tried += 1
    assert tried > 40


@pytest.mark.long
def test_the_report_of_an_example_is_the_same_with_its_openings_on_their_walls() -> None:
    path, project = next(projects())
    house = House(project)
    chosen = {o.id: next(places(o, house)) for o in (*project.doors, *project.windows) if walls_around(o, house)}
    desk = Desk(Run())
    code = desk.code_for(project)
    one, other = (
        [(f.rule.name, f.subject.label, words.message(f)) for f in review(p, code, desk.plugins).findings]
        for p in (project, moved_onto_walls(path, chosen))
    )
    assert one == other


ROOM = """\
project: P
spaces:
  - {{id: a, outline: [{corners}]}}
windows:
  - {{id: W1, space: a, on: {{room: a, {place}}}}}
"""
L_SHAPE = ["[0 ft, 0 ft]", "[20 ft, 0 ft]", "[20 ft, 8 ft]", "[12 ft, 8 ft]", "[12 ft, 16 ft]", "[0 ft, 16 ft]"]


def middle(place: str, corners: list[str] = L_SHAPE) -> tuple[str, str]:
    project = project_from(read_text(ROOM.format(corners=", ".join(corners), place=place), "p"))
    x, y = project.windows[0].middle
    return str(x), str(y)


@given(st.integers(1, 95), st.booleans(), st.integers(0, 5))
@settings(deadline=None)
def test_a_distance_from_one_corner_is_the_rest_of_the_wall_from_the_other(
    inches: int, clockwise: bool, start: int
) -> None:
    turned = [*L_SHAPE[start:], *L_SHAPE[:start]]
    corners = turned[::-1] if clockwise else turned
    west = middle(f"side: west, from: south, distance: {inches} in", corners)
    assert west == middle(f"side: west, from: north, distance: {16 * 12 - inches} in", corners)
    assert west[0] == "0 in"
    south = middle(f"side: south, from: west, distance: {inches} in", corners)
    assert south == middle(f"side: south, from: east, distance: {20 * 12 - inches} in", corners)


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("distance: 3 ft", "name the wall by `side: south`"),
        ("side: south, wall: 1, from: west, distance: 3 ft", "name the wall by `side: south`"),
        ("side: north, from: west, distance: 3 ft", "2 walls on its north side; write `wall: 3` or `wall: 5`"),
        ("wall: 7, distance: 3 ft", "a has 6 walls; there is no wall 7"),
        ("side: south, distance: 3 ft", "from which corner"),
        ("side: south, from: north, distance: 3 ft", "that wall has no north end"),
        ("side: south, from: west, distance: -3 ft", "above zero"),
    ],
)
def test_a_place_that_names_no_one_wall_is_refused_at_its_line(place: str, told: str) -> None:
    with pytest.raises(Unusable, match=told) as refused:
        middle(place)
    assert refused.value.problems[0].place.line == 5


def test_on_a_slanted_wall_the_distance_runs_along_it() -> None:
    corners = ["[0 ft, 0 ft]", "[3 ft, 4 ft]", "[0 ft, 4 ft]"]
    assert middle("wall: 1, distance: 30 in", corners) == ("18 in", "24 in")
    assert middle("wall: 1, from: north, distance: 30 in", corners) == ("18 in", "24 in")


def test_a_room_that_is_not_drawn_leaves_its_outline_to_ask_for() -> None:
    text = "project: P\nspaces: [{id: a}]\nwindows: [{id: W1, space: a, on: {room: a, wall: 1, distance: 3 ft}}]\n"
    found = project_from(read_text(text, "p")).windows[0].middle
    assert is_missing(found)
    assert [str(need) for need in found.needs] == ["rectangle of space a"]


MEMBERS = """\
project: P
stories: [{{id: main, level: ground}}]
spaces:
  - {{id: a, story: main, use: {use}, rectangle: {{at: [0 ft, 0 ft], width: 20 ft, depth: 16 ft}}}}
  - {{id: b, story: main, use: kitchen, rectangle: {{at: [{gap}, 0 ft], width: 12 ft, depth: 16 ft}}}}
doors:
  - {{id: D1, between: [a, b], on: {place}}}
members:
  - {{id: P1, role: post, on: {place}}}
  - {{id: B1, role: beam, on: {long}}}
  - {{id: H1, role: header, from: [{x}, {start}], to: [{x}, {end}]}}
"""


@given(
    st.integers(60, 130), st.integers(6, 120), st.integers(0, 14), st.booleans(), st.sampled_from(["bedroom", "porch"])
)
@settings(deadline=None, max_examples=40)
def test_a_post_or_beam_on_a_wall_stands_where_its_points_written_by_hand_would_put_it(
    distance: int, length: int, thick: int, from_south: bool, use: str
) -> None:
    corner = "south" if from_south else "north"
    place = f"room: a, side: east, from: {corner}, distance: {distance} in"
    deep = {"bedroom": thick / 2, "porch": thick}[use]  # between a porch and a room the face of the house counts
    middle_up = distance if from_south else 16 * 12 - distance
    way = 1 if from_south else -1
    text = MEMBERS.format(
        use=use,
        gap=f"{240 + thick} in",
        place=f"{{{place}}}",
        long=f"{{{place}, length: {length} in}}",
        x=f"{240 + deep} in",
        start=f"{middle_up - way * length / 2} in",
        end=f"{middle_up + way * length / 2} in",
    )
    project = project_from(read_text(text, "p"))
    post, beam, by_hand = project.members
    assert post.at == project.doors[0].middle
    assert (beam.from_, beam.to) == (by_hand.from_, by_hand.to)
    assert is_missing(beam.at)
    assert is_missing(post.from_)


@pytest.mark.parametrize(
    ("member", "told"),
    [
        ("role: post, on: {ON, length: 3 ft}", "a post, which stands at one point"),
        ("role: beam, on: {ON}", "say how long member M1 is"),
        ("role: post, at: [0 ft, 0 ft], on: {ON}", "has its place twice, `on` a wall and `at`"),
        ("role: beam, from: [0 ft, 0 ft], on: {ON, length: 3 ft}", "has its place twice, `on` a wall and `from`"),
        ("role: beam, on: {ON, length: 9 ft}", "reaches 18 in past the end of that wall, which is 20"),
        ("role: beam, on: {room: a, side: north, from: west, distance: 3 ft, length: 3 ft}", "2 walls on its north"),
    ],
)
def test_a_member_whose_place_on_a_wall_cannot_be_is_refused_at_its_line(member: str, told: str) -> None:
    text = f"project: P\nspaces: [{{id: a, outline: [{', '.join(L_SHAPE)}]}}]\nmembers:\n  - {{id: M1, {member}}}\n"
    with pytest.raises(Unusable, match=told) as refused:
        project_from(read_text(text.replace("ON", "room: a, side: south, from: west, distance: 3 ft"), "p"))
    assert refused.value.problems[0].place.line == 4


def test_a_beam_on_a_wall_whose_room_is_not_drawn_leaves_its_outline_to_ask_for() -> None:
    on = "{room: a, side: south, from: west, distance: 3 ft, length: 2 ft}"
    text = f"project: P\nspaces: [{{id: a}}]\nmembers: [{{id: B1, role: beam, on: {on}}}]\n"
    found = project_from(read_text(text, "p")).members[0].to
    assert is_missing(found)
    assert [str(need) for need in found.needs] == ["rectangle of space a"]


def test_a_beam_on_a_slanted_wall_runs_along_it() -> None:
    text = """\
project: P
spaces: [{id: a, outline: [[0 ft, 0 ft], [3 ft, 4 ft], [0 ft, 4 ft]]}]
members: [{id: B1, role: beam, on: {room: a, wall: 1, distance: 30 in, length: 40 in}}]
"""
    beam = project_from(read_text(text, "p")).members[0]
    ends = [tuple(map(str, point)) for point in (beam.from_, beam.to)]
    assert ends == [("6 in", "8 in"), ("30 in", "40 in")]
