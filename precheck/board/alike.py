"""What is asked of several parts of a kind in the same words, so that one answer may do for those that a person says."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any, NamedTuple

from precheck.board.forms import SHEETS, called, needs_of
from precheck.files.missing import Missing, Need
from precheck.project import Opening, Part
from precheck.questions.question import Question, Questions, plain_key
from precheck.reports.worklist import Item
from precheck.survey import House
from precheck.survey.infill import sides_of
from precheck.survey.openings import Stretch, stretch_of

OF_ITS_OWN = frozenset((
    "at", "between", "location", "middle", "openings", "serves", "space", "spaces", "switched at", "through",
    "title", "to", "walls", "where",
))  # fmt: skip
"""What no two parts have alike: where a thing stands, and what it belongs to."""
OF_A_WALL = "braced wall line"
"""What a wall has once, however many openings are in it."""


class Alike(NamedTuple):
    """Something else of which the same is asked: its id for the page, what that calls it, and what is asked."""

    id: str
    label: str
    need: Need


def asked_alike(questions: Questions, items: Collection[Item], need: Need) -> dict[str, Any]:
    """Return of what else the same is asked, as the page calls it, and whether one answer may do for all."""
    others = [{"id": one.id, "label": one.label} for one in needs_alike(questions, items, need)]
    return {"alike": others, "one_answer": is_one_answer(questions.question(need))}


def is_one_answer(question: Question | None) -> bool:
    """Return whether what answers a question can do for another part: no field of it says where, or of what."""
    return question is not None and not any(field.parts or field.label in OF_ITS_OWN for field in question.fields)


def needs_alike(questions: Questions, items: Collection[Item], need: Need) -> list[Alike]:
    """Return what is asked in the words of `need` of other parts of the same kind; with one sheet, the other sheets."""
    owner = questions.owner(need)
    if isinstance(owner, Part):
        return list(_of_parts(questions, items, need, owner))
    if plain_key(need.key) not in SHEETS:
        return []
    asked = dict.fromkeys(one for item in items for one in needs_of(item) if plain_key(one.key) in SHEETS)
    return [Alike(str(one), f"the {plain_key(one.key)}", one) for one in asked if one != need]


def _of_parts(questions: Questions, items: Collection[Item], need: Need, owner: Part) -> Iterator[Alike]:
    house = House(questions.project)
    seen = {need}
    for other in (one for item in items for one in needs_of(item) if one.key == need.key and one not in seen):
        part = questions.owner(other)
        if isinstance(part, Part) and part.kind == owner.kind and part is not owner:
            if need.key == OF_A_WALL and not in_one_wall(owner, part, house):
                continue
            seen.add(other)
            yield Alike(part.id, called(part), other)


def with_those_alike(
    questions: Questions, items: Collection[Item], needs: Collection[Need], also: Collection[str]
) -> Iterator[Need]:
    """Yield `needs`, what is asked in the same words of what `also` names, and what would be answered with any of them."""
    for need in needs:
        alike = [one.need for one in needs_alike(questions, items, need) if one.id in also]
        for one in (need, *alike):
            yield from (one, *met_together(questions, items, one))


def met_together(questions: Questions, items: Collection[Item], need: Need) -> list[Need]:
    """Return what else is asked of the same part with the same fields: the same new part would answer it."""
    adds = _adds(questions, need)
    if not adds:
        return []
    asked = dict.fromkeys(one for item in items for one in needs_of(item) if one.owner == need.owner and one != need)
    return [one for one in asked if _adds(questions, one) == adds]


def _adds(questions: Questions, need: Need) -> tuple[Any, ...]:
    question = questions.question(need)
    return (question.path, question.known) if question is not None and question.fields else ()


def in_one_wall(one: Part, other: Part, house: House) -> bool:
    """Return whether both are openings in one straight wall, as far as they are placed."""
    if not isinstance(one, Opening) or not isinstance(other, Opening) or sides_of(one, house) != sides_of(other, house):
        return False
    here, there = stretch_of(one, house), stretch_of(other, house)
    if isinstance(here, Missing) or isinstance(there, Missing):
        return False
    return all(_on_line(point, here) for point in there)


def _on_line(point: tuple[Any, Any], line: Stretch) -> bool:
    (ax, ay), (bx, by), (x, y) = line.start, line.end, point
    return bool((bx - ax) * (y - ay) == (by - ay) * (x - ax))
