"""What the page may ask of a section: a height that is typed in the picture, and the shape of a ceiling."""

from __future__ import annotations

from typing import Literal

from precheck.board.asking import AskedByPage, Id, Text


class TypeHeight(AskedByPage):
    """Give a height of a section by the name that the section gives it; an empty value takes it out."""

    do: Literal["height"]
    part: Id
    key: Id
    value: Text


class ShapeCeiling(AskedByPage):
    """Give a room a flat ceiling, one that slopes across it one way or both ways, or one with a lower border round it."""

    do: Literal["ceiling"]
    part: Id
    shape: Literal["flat", "one slope", "two slopes", "tray"]
    low: Text
    high: Text = ""
    border: Text = ""
    across: Literal["width", "depth"] = "width"
