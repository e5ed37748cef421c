"""What is asked of several parts of a kind in the same words, so that one answer may do for those that a person says."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

from precheck.board.forms import called, needs_of
from precheck.files.missing import Need
from precheck.project import Part
from precheck.questions.question import Questions
from precheck.reports.worklist import Item


def asked_alike(questions: Questions, items: Collection[Item], need: Need) -> list[dict[str, Any]]:
    """Return the other parts of which the same is asked, as the page calls them."""
    return [{"id": part.id, "label": called(part)} for part, _ in needs_alike(questions, items, need)]


def needs_alike(questions: Questions, items: Collection[Item], need: Need) -> Iterator[tuple[Part, Need]]:
    """Yield what is asked in the words of `need` of other parts of the same kind, each with its part."""
    owner = questions.owner(need)
    seen = {need}
    for part, other in _of_parts(questions, items, need.key):
        if isinstance(owner, Part) and part.kind == owner.kind and part is not owner and other not in seen:
            seen.add(other)
            yield part, other


def _of_parts(questions: Questions, items: Collection[Item], key: str) -> Iterator[tuple[Part, Need]]:
    for need in (need for item in items for need in needs_of(item) if need.key == key):
        part = questions.owner(need)
        if isinstance(part, Part):
            yield part, need
