"""Every request is in words: those of a reviewer on a letter, and of a carpenter on site, and none of the keys of the file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import pytest
from case_houses import TOPICS, TRIED, Tried
from job_files import FOLDER, reviewed
from sampled import long_save

from precheck.board.guide import next_step
from precheck.board.measured import measured
from precheck.board.todo import without_marks
from precheck.checks import Outcome
from precheck.files.missing import Need
from precheck.files.record import Record, fields_of
from precheck.project import Project
from precheck.questions.answer import record_type
from precheck.reports.asked_as import EVERYWHERE, OF_KIND, phrase_for
from precheck.reports.asked_as.framing import FRAMING
from precheck.reports.asked_as.rooms import ROOMS
from precheck.reports.asked_as.shell import SHELL
from precheck.reports.asked_as.systems import SYSTEMS
from precheck.reports.wanted import Wanted
from precheck.reports.worklist import items_of
from precheck.review.finding import Finding

STIFF = re.compile(
    r"\(yes or no\)"
    r"|\b(least|greatest|fewest|highest|lowest(?! floor)|storey|centre)\b"
    r"|\bits (below|above|to|from|on|at|over|between|toward|beneath)\b"
    r"|(^|: )(below|above|to|from|on|at|over|between|toward|beneath)( of .*)?$"
    r"|\b(shgc|u factor|r value|afci|gfci)\b"
)
"""What a person does not say: bare answers, the code's old words, and keys of the file that are half a sentence."""
LONGEST = 80
_ASKING = (Outcome.NOT_SHOWN, Outcome.FAIL, Outcome.WARN)  # what is wrong may wait for a value as well
LONG = {
    "where the equipment stands, with its disconnect, service receptacle and condensate drain",
    "depth exponent with its reference depth, or `at this depth` of its bending value",
    "a span rating of its panels that is listed",
}
"""Requests for several things that stand together on one sheet, or that name all that may be written."""


def _requests(findings: Iterable[Finding]) -> Iterator[str]:
    for finding in findings:
        if finding.outcome in _ASKING and finding.accepted is None:
            for need in finding.check.needs:
                yield without_marks(Wanted((need,), (finding,)).text_for(need.owner))


def _stiff(texts: Iterable[str]) -> list[str]:
    """Return what no one would say; of what is too long, what stands in brackets does not count."""
    bare = {text: re.sub(r" \([^)]*\)", "", text).partition(";")[0] for text in texts}
    long = {text for text, one in bare.items() if len(one) > LONGEST and not one.startswith(tuple(LONG))}
    odd = {
        text for text, one in bare.items() if STIFF.search(text) or one.endswith((".", ",", ":", " ")) or "  " in one
    }
    return sorted(odd | long)


@pytest.mark.parametrize("topic", long_save(TOPICS, "escape", "stairs"))
@TRIED
def test_what_a_rule_asks_for_is_said_in_words(topic: str, tried: Tried) -> None:
    assert _stiff(text for house in tried(topic) for text in _requests(house.findings())) == []


@pytest.mark.parametrize(
    "path", long_save(sorted(FOLDER.glob("*.first.yaml")), FOLDER / "deck-with-stair.first.yaml"), ids=str
)
def test_what_a_job_is_asked_for_is_said_in_words(path: str) -> None:
    assert _stiff(_requests(reviewed(path).findings)) == []


def test_the_next_step_shows_a_thing_and_says_a_fact() -> None:
    found = items_of(reviewed(FOLDER / "deck-with-stair.first.yaml"))
    said = {next_step({"loose": [], "stories": [], "rooms": []}, [item], {})["said"] for item in found}
    assert not [
        text for text in said if re.search(r"show (the )?(whether|how|what|which|where)\b|say (?!how|wh|that)", text)
    ]


def _kinds(model: type[Record], found: dict[str, set[str]]) -> dict[str, set[str]]:
    """Return the keys of every kind of record below a model."""
    new = {field.key for field in fields_of(model).values()}
    if not new <= found.get(model.kind, set()):
        found[model.kind] = found.get(model.kind, set()) | new
        for field in fields_of(model).values():
            below = record_type(field.annotation)
            if below is not None:
                _kinds(below, found)
    return found


def test_each_phrase_is_for_a_value_that_its_kind_of_record_has() -> None:
    kinds, counted = _kinds(Project, {}), ("receptacle", "cost of work", "building value above zero")
    strange = [
        (k, key) for k, said in OF_KIND.items() for key in said if key not in kinds.get(k, ()) and key not in counted
    ]
    assert strange == []


def test_no_phrase_is_the_key_itself() -> None:
    assert [key for said in (EVERYWHERE, *OF_KIND.values()) for key, phrase in said.items() if key == phrase] == []


@pytest.mark.parametrize(
    ("need", "asked"),
    [
        (Need("space den", "least width"), "smallest width of the room"),
        (Need("handrail 2 of stair ST1", "continuous", None, True), "handrail 2: whether it is continuous"),
        (Need("wall framing of wall A", "stud"), "stud size"),
        (Need("window W1", "`opens without key: yes or no`"), "whether it opens without a key"),
        (Need("the project", "flood hazard area (of the lot)"), "whether the lot is in a flood hazard area"),
        (Need("footing F1", "below grade"), "depth of its bottom below the ground"),
        (Need("slab S1", "below grade"), "whether it lies below the ground outside"),
    ],
)
def test_one_key_is_asked_for_by_what_it_is_of(need: Need, asked: str) -> None:
    assert phrase_for(need) == asked


def test_what_is_lacking_of_another_part_is_asked_for_by_its_name() -> None:
    of_room = Wanted((Need("space den", "phase"),), ())
    assert of_room.text_for("space den") == "whether it is existing, new, altered or removed"
    assert of_room.text_for("the project") == "space den: whether it is existing, new, altered or removed"
    of_rail = Wanted((Need("handrail 2 of stair ST1", "continuous"),), ())
    assert (
        of_rail.text_for("stair ST1")
        == of_rail.text_for("handrail 2 of stair ST1")
        == "handrail 2: whether it is continuous"
    )


def test_a_field_of_the_page_is_called_as_the_request_for_it() -> None:
    assert measured("slab", "retarder").label == "Vapor retarder under it"


def test_each_kind_of_record_has_its_phrases_in_one_place() -> None:
    places = (ROOMS, FRAMING, SHELL, SYSTEMS)
    assert sum(map(len, places)) == len(OF_KIND), "a kind that stands in two places has lost the phrases of one"
