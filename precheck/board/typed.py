"""What a person types into a box of the page: read, and shown in full before it is written where it was short for something."""

from __future__ import annotations

from contextlib import suppress

from precheck.files import spelling
from precheck.files.missing import is_missing
from precheck.project import Opening, Part
from precheck.questions.question import Question
from precheck.questions.typed import DISTANCE, HEIGHT, OPENING, ROOM, Likely, lengths_typed, sizes_typed
from precheck.reports.drawings.svg import inches
from precheck.units import Length, NotationError

A_LENGTH, A_SIZE = f"{Length.a()} with its unit", "width x height"

AN_OPENING, A_ROOM = "opening size", "room size"
LENGTHS = {"distance": DISTANCE, "height": HEIGHT, "wall": ROOM}
BOXES = (AN_OPENING, A_ROOM, *LENGTHS)


class MeantError(ValueError):
    """What was `typed` is short for something, which is to be shown before it is written; `meant` are the ways to read it."""

    def __init__(self, typed: str, meant: tuple[str, ...], told: str = "") -> None:
        names = meant[0] if len(meant) == 1 else f"{', '.join(meant[:-1])} or {meant[-1]}"
        asked = f"Read as {names}. Press Enter to take it." if len(meant) == 1 else f"Which is meant: {names}?"
        super().__init__(told or asked)
        self.typed = typed
        self.meant = meant


def length_in_inches(text: str, likely: Likely) -> float:
    """Return a typed length in inches. Raises ValueError with what to type, `MeantError` where it was short for something."""
    with suppress(NotationError):
        return inches(Length.parse(text))
    raise MeantError(text, lengths_typed(text, likely))


def room_size(text: str) -> tuple[float, float]:
    """Return two typed lengths in inches: across the plan, then up it. Raises as `length_in_inches` does."""
    return _pair(text, ROOM)


def opening_size(text: str, there: Part | None) -> tuple[str, str, float]:
    """Return size and operation of an opening as the file writes them, empty where not typed, and its width in inches."""
    if text.strip():
        bare, operation = spelling.call_out(text) or (text.strip(), "")
        try:
            width, _ = _pair(bare, OPENING)
        except MeantError as error:  # which way it opens stays in what is shown
            raise MeantError(text, tuple(f"{one}{text.strip()[len(bare) :]}" for one in error.meant)) from None
        return bare.strip(), operation, width
    if isinstance(there, Opening) and not is_missing(there.unit_size):
        return "", "", inches(there.unit_size.width)
    raise ValueError("type its size, such as 3'-0\" x 6'-8\" or 3068")


def in_full(question: Question, value: str) -> str:
    """Return `value` as the file takes it. Raises `MeantError` where a length or a size was typed short."""
    if question.form == A_SIZE:
        _pair(value, OPENING)
    elif question.form == A_LENGTH:
        length_in_inches(value, HEIGHT)
    return value


def read_as(what: str, text: str) -> list[str]:
    """Return the ways to read what stands in a box of the page, in full; none where it is in full, or no size at all.

    `what` is what the box is for, one of `BOXES`.
    """
    try:
        if what == AN_OPENING:
            opening_size(text, None)
        elif what == A_ROOM:
            room_size(text)
        elif what in LENGTHS:
            length_in_inches(text, LENGTHS[what])
    except MeantError as error:
        return list(error.meant)
    except ValueError:
        return []  # told when it is entered
    return []


def _pair(text: str, likely: Likely) -> tuple[float, float]:
    parts = [one.strip() for one in text.lower().replace("\N{MULTIPLICATION SIGN}", "x").split("x")]
    if len(parts) == 2:
        with suppress(NotationError):
            return inches(Length.parse(parts[0])), inches(Length.parse(parts[1]))
    raise MeantError(text, tuple(size.written for size in sizes_typed(text, likely)))
