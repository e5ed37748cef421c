"""The town's letter on the page: kept as text beside the project file, with the answers in a file that `papers letter` reads."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from precheck.files.atomic import put
from precheck.files.source import Place, Problem, Unusable, text_of
from precheck.reports.papers.letter import answers_file, items_of_letter, matched, read_letter_answers, render, told_of
from precheck.review.finding import Review


class TownLetter:
    """The letter on one project, and the answers to it."""

    def __init__(self, project: Path) -> None:
        self.text_at = project.with_name(f"{project.stem}.letter.txt")
        self.answers_at = project.with_name(f"{project.stem}.letter-answers.yaml")

    @property
    def text(self) -> str:
        """The text of the letter; empty where there is none."""
        return text_of(self.text_at, self.text_at.name) if self.text_at.is_file() else ""

    @property
    def answers(self) -> dict[str, str]:
        """The answers by the numbers of the items."""
        return read_letter_answers(self.answers_at) if self.answers_at.is_file() else {}

    def take(self, text: str) -> None:
        """Keep `text` as the letter, unless what is kept cannot be read: raises `Unusable`.

        The answers stay, for a letter that comes again has the same numbers.
        """
        kept = text.strip() + "\n" if text.strip() else ""
        if kept != self.text:
            _write(self.text_at, kept)

    def answer(self, item: str, text: str) -> None:
        """Keep the answer to an item. Raises ValueError where the letter has no such item."""
        if item not in {one.number for one in items_of_letter(self.text)}:
            raise ValueError(f"the letter has no item {item}")
        _write(self.answers_at, answers_file({**self.answers, item: text}))

    def shown(self, review: Review) -> dict[str, Any]:
        """Return the items with what each is about, as the page shows them; `refused` where they cannot be read."""
        try:
            return self._shown(review)
        except Unusable as error:
            return {"text": "", "items": [], "refused": "; ".join(map(str, error.problems))}

    def _shown(self, review: Review) -> dict[str, Any]:
        answers = self.answers
        items = [
            {
                "number": item.number,
                "text": item.text,
                "open": item.is_open,
                "told": list(told_of(item)),
                "answer": answers.get(item.number, ""),
            }
            for item in matched(items_of_letter(self.text), review)
        ]
        return {"text": self.text, "items": items}

    def response(self, review: Review) -> str:
        """Return the response letter, in Markdown."""
        return render(review, self.text, self.answers)


def _write(path: Path, text: str) -> None:
    try:
        put(path, [text.encode()])
    except OSError as error:
        raise Unusable([Problem(Place(str(path), 1, 1), f"cannot be written ({error.strerror})")]) from None
