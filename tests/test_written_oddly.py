"""Values and ids as nobody means them: refused with their line and in words, or read as they are seen."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from precheck.files.source import Unusable, read_text
from precheck.project import Project, Section, project_from
from precheck.project.section_check import problems_of
from precheck.runs.desk import Desk, Run
from precheck.survey import House
from precheck.units import Area, Length, NotationError

HOUSE = """\
project: Mill Lane
jurisdiction: irc-2021
applied on: {day}
stories: [{{id: ground, level: ground, phase: existing}}]
spaces:
  - {{id: {one}, phase: existing, use: hall, story: ground}}
  - {{id: {other}, phase: existing, use: bedroom, story: ground}}
windows: [{{id: W1, phase: new, space: {one}, shgc: {shgc}, sill height: {sill}}}]
"""
AS_MEANT = {"day": "2026-03-02", "one": "hall", "other": "suite", "shgc": "0.25", "sill": "36 in"}


def read(**odd: str) -> Project:
    return project_from(read_text(HOUSE.format(**{**AS_MEANT, **odd}), "house.yaml"))


def told(**odd: str) -> str:
    with pytest.raises(Unusable) as refused:
        read(**odd)
    assert len(refused.value.problems) == 1
    return str(refused.value.problems[0])


@pytest.mark.parametrize(
    "day",
    ["1772409600", "86400", "0", "-1", "20260302", "1772409600.0", "2026-03-02T00:00:00Z", "2026-03-02 00:00", "2026-W10-1",
     "\uff12026-03-02", "2026-3-2", "0000-00-00", '" 2026-03-02"'],
)  # fmt: skip
def test_a_day_is_written_as_one_and_a_number_is_none(day: str) -> None:
    assert told(day=day) == (
        f"house.yaml:3:1: applied on: `{day.strip(chr(34))}` is not a date; write year-month-day, such as 2026-03-02"
    )


@pytest.mark.parametrize("day", ["[2026-03-02]", "{day: 2026-03-02}"])
def test_a_list_where_a_day_is_due_is_told_in_words(day: str) -> None:
    assert told(day=day) == "house.yaml:3:1: applied on: a date belongs here; write year-month-day, such as 2026-03-02"


@pytest.mark.parametrize(
    "shgc", ["0.2_5", "1e-1", "+.3", "-0.0", "\uff10.3", "0x0", "nan", ".inf", "30 %", "1e999999999", "0,3 5", "1/0"]
)
def test_a_factor_is_digits_alone_and_a_huge_one_is_refused_at_once(shgc: str) -> None:
    began = time.process_time()
    assert told(shgc=f'"{shgc}"').startswith("house.yaml:8:45: shgc: ")
    assert time.process_time() - began < 1


@pytest.mark.parametrize("text", ["36.5 1/2 in", "36 3/2 in", "36 2/2 in", "3 ft 6 5/4 in", "36 1/0 in", "1.5-1/2 in"])
def test_a_fraction_that_does_not_go_on_from_its_number_is_refused(text: str) -> None:
    with pytest.raises(NotationError, match="write"):
        Length.parse(text)
    assert told(sill=text).startswith("house.yaml:8:")


def outline(*corners: tuple[int, int]) -> str:
    """A room with that outline, as it stands behind its id."""
    return f"suite, outline: [{', '.join(f'[{x} ft, {y} ft]' for x, y in corners)}]"


@pytest.mark.parametrize(
    "corners",
    [
        ((0, 0), (10, 0), (10, 10), (0, 10), (0, 0), (10, 0), (10, 10), (0, 10)),  # 200 sq ft of a room of 100
        ((0, 0), (5, 5), (12, 12), (12, 0), (5, 5), (0, 10)),
        ((0, 0), (12, 12), (12, 0), (5, 5), (0, 10)),
        ((0, 0), (10, 0), (10, 10), (0, 10), (0, 0), (4, 0), (4, 4), (0, 4)),
    ],
)
def test_an_outline_that_crosses_itself_at_a_corner_or_goes_round_twice_is_refused(
    corners: tuple[tuple[int, int], ...],
) -> None:
    assert told(other=outline(*corners)).startswith(
        "house.yaml:7:17: outline: the outline crosses itself at a corner, or goes round the same floor twice"
    )


@pytest.mark.parametrize(
    ("corners", "square_feet"),
    [
        (
            (
                (0, 0),
                (20, 0),
                (20, 20),
                (10, 20),
                (10, 15),
                (15, 15),
                (15, 5),
                (5, 5),
                (5, 15),
                (10, 15),
                (10, 20),
                (0, 20),
            ),
            300,
        ),
        (((0, 0), (10, 0), (10, 10), (20, 10), (20, 20), (10, 20), (10, 10), (0, 10)), 200),
        (((0, 0), (10, 0), (10, 10), (10, 15), (10, 10), (0, 10)), 100),
        (((0, 0), (10, 0), (10, 10), (0, 10), (0, 0)), 100),
        (((0, 10), (5, 10), (10, 10), (10, 0), (0, 0)), 100),
    ],
)
def test_an_outline_that_touches_itself_has_the_floor_that_it_goes_round(
    corners: tuple[tuple[int, int], ...], square_feet: int
) -> None:
    project = read(other=outline(*corners))
    assert House(project).area(project.spaces[1]) == Area.parse(f"{square_feet} sq ft")


def test_a_fraction_by_itself_may_be_over_one_as_the_trade_names_boards() -> None:
    assert Length.parse("5/4 in") == Length.parse("1 1/4 in") == Length.parse("1-1/4 in") == Length.parse("1.25 in")


@pytest.mark.parametrize(
    ("one", "other"),
    [("caf\u00e9", "cafe\u0301"), ("hall", '"hall\u00a0"'), ("hall", '"ha\u200bll"'), ("hall", '"ha\u00adll"'), ("fig", "\ufb01g"),
     ("hall", "\uff48\uff41\uff4c\uff4c"), ("north hall", '"north  hall"')],
)  # fmt: skip
def test_two_ids_that_look_alike_are_refused_at_the_second(one: str, other: str) -> None:
    assert told(one=one, other=other).startswith("house.yaml:7:6: the id ")
    assert "looks like the one in line 6" in told(one=one, other=other)


@pytest.mark.parametrize("other", ['""', '" "', '"\u200b"', '"\u00ad\u200d"'])
def test_an_id_that_nobody_sees_is_refused(other: str) -> None:
    assert told(other=other) == "house.yaml:7:6: the id has nothing that can be seen; write one, such as `N1`"


@pytest.mark.parametrize("other", ["HALL", "Hall 2", "h\u00e4ll", "2", "yes", "../hall"])
def test_ids_that_can_be_told_apart_are_taken_as_they_are_written(other: str) -> None:
    assert [space.id for space in read(other=other).spaces] == ["hall", other]


HUGE = "9" * 5000
TOWN = "jurisdiction: Alder Township\nadopts: irc-2021\nin force: 2025-07-01\nby: Ordinance 1\namendments:\n  - {{{}, by: Ordinance 2}}\n"


@pytest.mark.parametrize(
    "amendment",
    [
        f"amend: stairs.riser-height.maximum, was: 7 3/4 in, to: {HUGE}",
        f"delete: chapters 1 to {HUGE}",
        "delete: chapters \u0661 to \u0663",
        f"add: alder.risers, check: {{part: stair, when: {{risers: {HUGE}}}, measure: risers, comparison: required}}",
        "amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 8 1/4 in, from: 1767225600",
    ],
)
def test_numbers_in_a_ruleset_that_nobody_means_are_refused_with_their_line(tmp_path: Path, amendment: str) -> None:
    path = tmp_path / "2025-07-01.yaml"
    path.write_text(TOWN.format(amendment), encoding="utf-8")
    with pytest.raises(Unusable) as refused:
        Desk(Run()).rulesets.adopt(str(path))
    assert {problem.place.line for problem in refused.value.problems} == {6}


@pytest.mark.parametrize("written", [HUGE, f"{HUGE}.5", "\u0663", "1e400", "nan"])
def test_numbers_of_an_added_section_that_nobody_means_are_refused_with_their_line(written: str) -> None:
    section = Section("slopes", {"type": "object", "properties": {"count": {"type": "number"}}})
    block = read_text(f"project: Mill Lane\nslopes:\n  count: {written}\n", "house.yaml")
    assert [problem.place.line for problem in problems_of(section, block)] == [3]
