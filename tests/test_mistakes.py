"""The mistakes that `mutate.py` makes stand where they say, and are spread over the topics."""

from __future__ import annotations

import ast
from itertools import islice

import pytest
from mistakes import ROOT, in_code, in_limits, shifted, spread

from precheck.files.source import read_file


@pytest.mark.parametrize(("number", "next_up"), [("36", "37"), ("0.35", "0.36"), ("3/4", "7/8")])
def test_a_number_is_shifted_to_the_next(number: str, next_up: str) -> None:
    assert shifted(number) == next_up


def test_a_mistake_stands_in_the_place_of_what_it_names_and_can_be_read() -> None:
    for mistake in (*in_code("stairs"), *in_limits("stairs")):
        right, wrong = (ROOT / mistake.path).read_text(encoding="utf-8"), mistake.made()
        assert right[mistake.start :].startswith(mistake.was), mistake.told
        assert wrong != right
        assert right.splitlines()[mistake.line - 1].strip() == mistake.within
        if mistake.path.suffix == ".py":
            ast.parse(wrong)


def test_mistakes_are_drawn_from_one_topic_after_the_other_in_an_order_of_the_seed() -> None:
    made = [*in_code("stairs"), *in_code("rooms"), *in_code("guards")]
    drawn = list(islice(spread(made, 1), 30))
    assert [sum(one.topic == topic for one in drawn) for topic in ("stairs", "rooms", "guards")] == [10, 10, 10]
    assert drawn == list(islice(spread(reversed(made), 1), 30))
    assert drawn != list(islice(spread(made, 2), 30))


@pytest.mark.long
def test_each_mistake_that_changes_nothing_can_still_be_made_and_says_why() -> None:
    folders = {folder.parent.name for folder in (ROOT / "plugins").glob("*/cases")}
    listed = read_file(ROOT / "tests" / "equal_mistakes.yaml")["mistakes"]
    can_be_made = {
        mistake.key for folder in folders & {m["file"].split("/")[1] for m in listed} for mistake in in_code(folder)
    }
    keys = [(m["file"], m["within"], str(m["was"]), str(m["to"])) for m in listed]
    assert [key for key in keys if key not in can_be_made] == []
    assert all(m["why"] for m in listed)
