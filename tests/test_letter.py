"""The town's letter: its items by their numbers, what each is about, and a response by those numbers."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck.project import read_project
from precheck.reports import words
from precheck.reports.papers.letter import items_of_letter, matched, render
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.testing import code, plugins

LETTER = """\
City of Linden Ford, Building Department
June 3, 2026
Re: 12 Alder Court
Plan review comments:

1. Sheet A3: the sill of egress window W1 is too high.
   See R310.2.3.
2) Show the riser heights of the stair to the loft, R311.7.5.1.
Item 3: Provide a water heater permit.
(4) Guard at the loft: openings shall not pass a 4 inch sphere. R312.1.3
5 - The garage ceiling is to be 5/8 in Type X where there are rooms above, Section R302.6.
Please resubmit within 180 days.
"""


@pytest.fixture(scope="module")
def proposed() -> Review:
    path = Path(__file__).parent.parent / "examples" / "alder-court" / "proposed.yaml"
    return review(read_project(path), code("city-of-linden-ford"), plugins())


def test_items_are_told_apart_by_their_numbers_and_the_head_is_none() -> None:
    items = items_of_letter(LETTER)
    assert [item.number for item in items] == ["1", "2", "3", "4", "5"]
    assert items[0].text.endswith("See R310.2.3.")
    assert [item.sections for item in items] == [("R310.2.3",), ("R311.7.5.1",), (), ("R312.1.3",), ("R302.6",)]


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("", []),
        ("Dear owner, all is well.", []),
        ("A-1. one\nA-2. two", ["A-1", "A-2"]),
        ("1.1 - one\n1.2 - two\n  more of two", ["1.1", "1.2"]),
        ("a) one\nb) two", ["a", "b"]),
        ("1. the opening is\n1. still the first\n2. next", ["1", "2"]),
        ("2026. a year begins no letter\n1. one", ["1"]),
    ],
)
def test_usual_numberings_are_understood(text: str, numbers: list[str]) -> None:
    assert [item.number for item in items_of_letter(text)] == numbers


def test_items_find_what_they_are_about(proposed: Review) -> None:
    items = matched(items_of_letter(LETTER), proposed)
    rules = [{finding.rule.name for finding in item.findings} for item in items]
    assert "escape.sill" in rules[0]
    sills = [finding for finding in items[0].findings if finding.rule.name == "escape.sill"]
    assert [words.label(finding) for finding in sills] == ["window W1"]
    assert any(name.startswith("stairs.") for name in rules[1])
    assert any(name.startswith("guards.") for name in rules[3])
    assert any(name.startswith("separation.") for name in rules[4])
    assert items[0].is_open


def test_what_matches_nothing_is_left_to_a_person(proposed: Review) -> None:
    (item,) = matched(items_of_letter("1. Zzyzx the qwerty of the plover."), proposed)
    assert item.findings == ()
    assert item.is_open is None


def test_the_response_answers_by_the_numbers_of_the_letter_and_says_what_is_not_answered(proposed: Review) -> None:
    text = render(proposed, LETTER, {"1": "Sill lowered to 43 in <b>", "4": " "})
    assert "## Item 1" in text
    assert "- Answer: Sill lowered to 43 in \\<b\\>" in text
    assert "still to be answered: 2, 3, 4, 5" in text
    assert "still open: window W1: Sill height: 46 in" in text
    assert "final say" in text


def test_a_hostile_letter_is_bounded_and_inert(proposed: Review) -> None:
    hostile = "\n".join(f"{n}. ::error::<script>alert({n})</script> | [x](javascript:1)" for n in range(1, 2000))
    items = items_of_letter(hostile)
    assert len(items) <= 500
    assert "<script>" not in render(proposed, hostile[:5000], {})
