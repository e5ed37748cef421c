"""What is handed on reads as one paper: names as on the plan, nothing said twice, lines to write on, the owner's on one page."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from precheck.board.handouts import handout
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.reports.papers import corrections, field, inspections, owner
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.runs.desk import Desk, Run
from precheck.testing import code, plugins

EXAMPLE = Path(__file__).parent.parent / "examples" / "alder-court" / "proposed.yaml"
LINES_OF_A_PAGE, LETTERS_OF_A_LINE = 52, 95
HOUSE = """\
project: P
jurisdiction: irc-2021
applied on: 2026-03-02
sheets: [{id: A1, title: Plans}]
spaces:
  - {id: den, name: New bedroom, phase: altered, use: bedroom, was: garage, sheets: [A1], ceiling: {height: 6 ft}}
alarms:
  - {id: SA1, phase: new, detects: [smoke], space: den}
  - {id: SA2, phase: new, detects: [smoke], space: den}
"""


@pytest.fixture(scope="module")
def found() -> Review:
    return review(project_from(read_text(HOUSE, "p.yaml")), code("irc-2021"), plugins())


def test_a_room_is_called_in_the_papers_as_it_is_lettered_on_the_plan(found: Review) -> None:
    for paper in (corrections, inspections, owner):
        assert "New bedroom (space den)" in paper.render(found)
    assert "## space den, New bedroom" in field.render(found)


def test_a_heading_of_the_correction_list_names_the_sheet_and_its_lines_do_not(found: Review) -> None:
    under = re.split(r"^## ", corrections.render(found), flags=re.MULTILINE)[1:]
    named = {part.partition(" (")[0].lower(): part for part in under}
    assert {"foundation plan", "electrical plan"} <= set(named)
    assert not [name for name, part in named.items() if rf"\[on the {name}\]" in part]
    assert "See also sheet wall section" not in corrections.render(found)


def test_parts_that_lack_the_same_are_one_line_after_what_is_drawn(found: Review) -> None:
    paper = inspections.render(found)
    assert "- [ ] alarm SA1, alarm SA2: how it is powered" in paper
    framing = paper.partition("## Framing inspection")[2].partition("\n## ")[0]
    assert framing.index("Ceiling height: 7 ft minimum") < framing.index(inspections.NOT_YET)


def test_a_sheet_to_write_on_has_lines_and_asks_yes_or_no_without_an_example(found: Review) -> None:
    sheet = handout("field", found, corrections.render) or ""
    assert "<span class=blank12></span>" in sheet
    assert "<span class=blank6></span>" in sheet
    assert "____" not in sheet
    assert "such as yes" not in sheet


def test_the_owner_reads_what_is_left_and_no_count_of_nothing(found: Review) -> None:
    paper = owner.render(found)
    assert " 0 thing" not in paper
    assert "## What the drawings still have to show" in paper
    assert "[on the" not in paper


def test_the_summary_of_a_large_job_stays_on_one_page() -> None:
    paper = owner.render(Desk(Run()).review(str(EXAMPLE)))
    assert sum(1 + len(line) // LETTERS_OF_A_LINE for line in paper.splitlines() if line) <= LINES_OF_A_PAGE
