"""What a report on the drawing itself shares, whatever the form of the drawing: where each number goes, and the list."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from precheck.files.source import Place, Problem, Unusable
from precheck.project import Space
from precheck.project.design_file import DesignFile
from precheck.reports import words
from precheck.reports.in_model import box_of, design_file, in_world
from precheck.reports.opening import verdict_line, works_told
from precheck.reports.worklist import Item
from precheck.review.finding import Review
from precheck.survey import House

BELOW = 2.2  # marks below the middle of a room, where two lines of its name and size end


class PlacedNumber(NamedTuple):
    """The number of an item at a point of the drawing, in meters; `before` is how many stand there already.

    `down` is how far it may move down from there and stay in its room, whose name stands in the middle; 0 of other parts.
    """

    item: Item
    x: float
    y: float
    before: int
    down: float

    def clear_of_the_name(self, size: float) -> float:
        """Return how far down in meters a mark of that size goes, so that the name of the room is read beside it."""
        return min(BELOW * size, max(self.down - size, 0.0))


def drawing_of(review: Review, form: str) -> tuple[Path, DesignFile]:
    """Return the drawing that a project is drawn from, which `form` says in words, and what is known of it.

    Raises `Unusable` where the project names none, or it is not beside the project.
    """
    drawn, place = design_file(review.project), Path(review.project.place.file)
    if drawn is None or not drawn.file:
        what = f"is not drawn from {form}, on which findings could be marked; import one, and check what comes of it"
        raise refused(review.project.place.file, what)
    path = place if place.name == drawn.file else place.parent / drawn.file
    if not path.is_file():
        what = "this drawing, which the project is drawn from, is not there; put it beside the project"
        raise refused(str(path), what)
    return path, drawn


def placed_numbers(review: Review, items: Iterable[Item]) -> Iterator[PlacedNumber]:
    """Yield each number where its parts stand in the drawing; what has no place there yields none."""
    house, drawn = House(review.project), design_file(review.project)
    taken: Counter[tuple[float, float]] = Counter()
    for item in items:
        for part in item.parts:
            box = box_of(part, house)
            if box is not None:
                x, y, _ = (round(n, 2) for n in in_world((*box.middle[:2], 0.0), drawn))
                down = (box.high[1] - box.low[1]) / 2 if isinstance(part, Space) else 0.0
                yield PlacedNumber(item, x, y, taken[x, y], down)
                taken[x, y] += 1


def list_lines(review: Review, items: tuple[Item, ...]) -> list[str]:
    """Return the list that the numbers are of, in lines: verdict and works, what is to be done, the reminder."""
    works = [f"{one.name}: {one.counted}" for one in works_told(review)]
    return [verdict_line(review), *works, words.code_line(review), *map(_line, items), words.REMINDER]


def _line(item: Item) -> str:
    remedy = f" ({'; '.join(item.remedies)})" if item.remedies else ""
    return f"{item.number}. {item.about(item.gist)}{remedy}"


def refused(place: str, what: str) -> Unusable:
    """Return what is raised for a drawing on which nothing can be marked."""
    return Unusable([Problem(Place(place, 1, 1), what)])


__all__ = ["PlacedNumber", "drawing_of", "list_lines", "placed_numbers", "refused"]
