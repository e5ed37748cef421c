"""What the page may ask of rooms and stories: a wall moved or made so long, a jog, a room divided or joined, a story added.

`work` says that the work does it, so that how the room was before stays in the file.
"""

from __future__ import annotations

from typing import Literal

from precheck.board.asking import AskedByPage, Id, Inches, Phase, Text, WallNumber


class MoveWall(AskedByPage):
    """Move a wall out of its room by inches, or make it as long as typed by moving the wall at its end."""

    do: Literal["wall"]
    part: Id
    wall: WallNumber
    by: Inches = 0.0
    length: Text = ""
    work: bool = False


class Jog(AskedByPage):
    """Split a wall, and move a stretch of it out of the room, or into it: from so far off a corner, so long, so deep."""

    do: Literal["jog"]
    part: Id
    wall: WallNumber
    start: Text
    length: Text
    deep: Text
    inward: bool = False
    work: bool = False


class Divide(AskedByPage):
    """Divide a room by a wall across it, so far from its west or south wall; the other part is a room of its own."""

    do: Literal["divide"]
    part: Id
    from_side: Literal["west", "south"]
    distance: Text
    name: Text = ""
    use: Text = ""
    phase: Phase = "new"
    work: bool = False


class JoinRooms(AskedByPage):
    """Join a room and one beside it to one room; the wall between them goes."""

    do: Literal["join"]
    part: Id
    other: Id
    work: bool = False


class AddStory(AskedByPage):
    """Add a story with its level, and how high its finished floor is above the datum where that is known."""

    do: Literal["story"]
    level: Literal["basement", "ground", "upper", "attic"]
    elevation: Text = ""
    phase: Phase = "existing"
    rooms_on: Literal["", "basement", "ground", "upper", "attic"] = ""
