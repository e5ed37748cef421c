"""What the page may ask for, each with its values; anything else is refused before it is looked at."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from precheck.board.asked_of_sections import ShapeCeiling, TypeHeight
from precheck.board.asked_of_shapes import AddStory, Divide, Jog, JoinRooms, MoveWall
from precheck.board.asked_of_tray import MoveBy, Put, PutHole, PutMember, PutStair, SetPlace
from precheck.board.asking import AskedByPage, Id, Inches, Phase, Text, WallNumber
from precheck.board.later import TO_FIND_OUT, Whose
from precheck.project.space import Drawn, ToDraw


class Begin(AskedByPage):
    """Make the file from the first answers. `inside` are the works that are ticked, besides the kind of job."""

    do: Literal["begin"]
    name: Text
    where: Text
    applied_on: Text
    kind: Text
    inside: tuple[Text, ...] = Field(default=(), max_length=40)
    room: Text = ""
    garage_remains: bool = False
    outside_of_job: tuple[Text, ...] = Field(default=(), max_length=60)


class SetValue(AskedByPage):
    """Give one value of a part, or of the job where `part` is empty; an empty value takes it out."""

    do: Literal["set"]
    part: Id
    key: Text
    value: Text


class GiveAnswer(AskedByPage):
    """Answer what an item waits for: one value, or those of a new part by their labels; `also` for parts that are alike."""

    do: Literal["answer"]
    item: Id
    need: Annotated[int, Field(ge=0)]
    value: Text = ""
    values: dict[str, Text] = Field(default={}, max_length=40)
    also: tuple[Id, ...] = Field(default=(), max_length=60)


class ApplyRemedy(AskedByPage):
    """Make the changes that the remedy of an item says."""

    do: Literal["apply"]
    item: Id


class AddRoom(AskedByPage):
    """Add a room of a typed size, beside another one, or with its corner at a point, or with a place drawn."""

    do: Literal["room"]
    name: Text = ""
    use: Text
    was: Text = ""
    phase: Phase
    story: Id = ""
    size: Text = ""
    beside: Id = ""
    side: Literal["east", "north", "west", "south"] = "east"
    at: tuple[Inches, Inches] | None = None


class SetRectangle(AskedByPage):
    """Give a space or stair another rectangle: a size as typed, or a place as drawn, or both; also one that has none yet.

    `work` says that the work moves the walls of a room that stands, so that how it was stays in the file.
    """

    do: Literal["shape"]
    part: Id
    size: Text = ""
    at: tuple[Inches, Inches] | None = None
    width: Inches | None = None
    depth: Inches | None = None
    beside: Id = ""
    side: Literal["east", "north", "west", "south"] = "east"
    work: bool = False


class AddOpening(AskedByPage):
    """Put a door or window into a wall of a room, a typed distance from one of its corners; `part` where it is in the file.

    `like` is another one of the same make, whose size and make it takes where nothing else is typed.
    """

    do: Literal["opening"]
    kind: Literal["door", "window"]
    room: Id
    wall: WallNumber
    distance: Text
    from_end: bool = False
    size: Text = ""
    operation: Text = ""
    sill: Text = ""
    like: Id = ""
    phase: Phase = "new"
    part: Id = ""


class Slide(AskedByPage):
    """Move a door or window along its wall: its middle as drawn."""

    do: Literal["slide"]
    part: Id
    middle: tuple[Inches, Inches]


class TakeOut(AskedByPage):
    """Take a part out: what stands today is marked as removed, what was only drawn leaves the file."""

    do: Literal["take out"]
    part: Id
    from_file: bool = False


class TakeLetter(AskedByPage):
    """Take the text of the town's letter in; an empty one takes it out."""

    do: Literal["letter"]
    text: Annotated[str, Field(max_length=200_000)]


class AnswerLetter(AskedByPage):
    """Answer an item of the town's letter by its number."""

    do: Literal["answer letter"]
    item: Id
    answer: Text


class RuleOut(AskedByPage):
    """Say that something is not in this job, and why."""

    do: Literal["rule out"]
    what: Text
    why: Text


class MakeAgree(AskedByPage):
    """Make what a part says twice say the same: which of its facts, and in which of the ways that it offers."""

    do: Literal["agree"]
    part: Id
    fact: Text
    way: Annotated[int, Field(ge=0, le=9)]


class LeaveForLater(AskedByPage):
    """Say of a value that an item waits for that nobody here knows it yet, or that the drafter shows it; or take it up again.

    Without `need` it is all that the item waits for; `also` are other parts of which the same is asked.
    """

    do: Literal["later"]
    item: Id
    need: Annotated[int, Field(ge=0)] | None = None
    left: bool = True
    to: Whose = TO_FIND_OUT
    also: tuple[Id, ...] = Field(default=(), max_length=60)


class LeaveTheRest(AskedByPage):
    """Leave to the drafter all that is still open of what the plans have to show; or take up again all that was left there."""

    do: Literal["leave the rest"]
    left: bool = True


class SayDrawn(AskedByPage):
    """Say what of a story is drawn completely, so that what is not there is none; and what of the rest is still to draw."""

    do: Literal["drawn"]
    story: Id
    what: tuple[Drawn, ...] | None = Field(default=None, max_length=3)
    to_draw: tuple[ToDraw, ...] | None = Field(default=None, max_length=9)


class UndoOrRedo(AskedByPage):
    """Take the last change back, or make it again."""

    do: Literal["undo", "redo"]


Request = (
    Begin
    | SetValue
    | GiveAnswer
    | ApplyRemedy
    | AddRoom
    | SetRectangle
    | AddOpening
    | Slide
    | Put
    | PutStair
    | PutHole
    | PutMember
    | SetPlace
    | MoveBy
    | TypeHeight
    | ShapeCeiling
    | MoveWall
    | Jog
    | Divide
    | JoinRooms
    | AddStory
    | TakeOut
    | TakeLetter
    | AnswerLetter
    | RuleOut
    | MakeAgree
    | LeaveForLater
    | LeaveTheRest
    | SayDrawn
    | UndoOrRedo
)
REQUEST: TypeAdapter[Request] = TypeAdapter(Annotated[Request, Field(discriminator="do")])
