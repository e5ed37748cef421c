"""What the page may ask of its tray: things, stairs and members that are put on the plan, placed anew and moved."""

from __future__ import annotations

from typing import Literal

from precheck.board.asking import AskedByPage, Id, Inches, Phase, Spot, Text


class Put(Spot):
    """Put a thing into a room: an alarm, a light, a receptacle, a fixture, an appliance, a fan, a panel."""

    do: Literal["put"]
    section: Literal["alarms", "lights", "receptacles", "fixtures", "appliances", "exhausts", "panels"]
    what: Text = ""
    room: Id
    size: Text = ""
    phase: Phase = "new"


class PutStair(AskedByPage):
    """Put a stair on the plan: its width and run as typed, which way it climbs, and which rooms it joins."""

    do: Literal["stair"]
    lower: Id
    upper: Id
    width: Text
    run: Text
    climbs: Literal["left", "right", "up the page", "down the page"]
    risers: Text = ""
    tread: Text = ""
    at: tuple[Inches, Inches] | None = None
    from_west: Text = ""
    from_south: Text = ""
    phase: Phase = "new"
    part: Id = ""


class PutHole(Spot):
    """Put an opening through the floor, ceiling or roof of a room: its size as typed, or that of the stair that comes up there."""

    do: Literal["hole"]
    room: Id
    through: Literal["floor", "ceiling", "roof"]
    size: Text = ""
    stair: Id = ""
    joists: Literal["", "along the page", "up the page"] = ""
    phase: Phase = "new"
    part: Id = ""


class PutMember(Spot):
    """Put a post at a point or on a wall; or a beam or header between two points, along a wall, or over an opening."""

    do: Literal["member"]
    role: Literal["post", "beam", "header", "ridge beam", "trimmer"]
    room: Id = ""
    story: Id = ""
    to: tuple[Inches, Inches] | None = None
    length: Text = ""
    opening: Id = ""
    size: Text = ""
    phase: Phase = "new"
    part: Id = ""


class SetPlace(Spot):
    """Give a thing, stair or post that is in the file its place: typed distances, or a point."""

    do: Literal["place"]
    part: Id
    room: Id = ""


class MoveBy(AskedByPage):
    """Move what is drawn by inches to the east and to the north."""

    do: Literal["move"]
    part: Id
    by: tuple[Inches, Inches]
