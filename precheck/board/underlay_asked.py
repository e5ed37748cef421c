"""What the page may ask of the pictures behind the sketch, and what is done then."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field, TypeAdapter

from precheck.board.asking import AskedByPage, Id, Inches, Text
from precheck.board.placing import leveled, moved, scaled, turned
from precheck.board.typed import length_in_inches
from precheck.board.underlay import Underlays
from precheck.board.underlay_records import Count, Number
from precheck.questions.typed import DISTANCE

Pixels = Annotated[float, Field(ge=-100_000, le=100_000, allow_inf_nan=False)]
Pixel = tuple[Pixels, Pixels]


class UsePicture(AskedByPage):
    """Lay a page of what was sent before behind a story."""

    do: Literal["use"]
    story: Id
    source: Number
    page: Count = 1


class SetToScale(AskedByPage):
    """Say how far two points of the picture are apart."""

    do: Literal["scale"]
    story: Id
    points: tuple[Pixel, Pixel]
    distance: Text


class MakeLevel(AskedByPage):
    """Say of which line of the picture, by two points of it, that it runs level."""

    do: Literal["level"]
    story: Id
    points: tuple[Pixel, Pixel]


class TurnPicture(AskedByPage):
    """Turn the picture to an angle in degrees, counterclockwise."""

    do: Literal["turn"]
    story: Id
    angle: Text


class MovePicture(AskedByPage):
    """Move the picture across and up the plan: by inches as drawn, or by lengths as typed."""

    do: Literal["move"]
    story: Id
    by: tuple[Inches, Inches] = (0.0, 0.0)
    right: Text = ""
    up: Text = ""


class SeePicture(AskedByPage):
    """Show the picture stronger or fainter, in percent, or hide it."""

    do: Literal["see"]
    story: Id
    seen: Annotated[int, Field(ge=5, le=100)]
    hidden: bool


class TakePictureOut(AskedByPage):
    """Take the picture behind a story out, and take it from the disk where no other story shows it."""

    do: Literal["remove"]
    story: Id


class StepPictureBack(AskedByPage):
    """Take back how a picture was moved, turned, scaled or shown last."""

    do: Literal["back"]


PictureRequest = (
    UsePicture | SetToScale | MakeLevel | TurnPicture | MovePicture | SeePicture | TakePictureOut | StepPictureBack
)
PICTURE_REQUEST: TypeAdapter[PictureRequest] = TypeAdapter(Annotated[PictureRequest, Field(discriminator="do")])


def do_with_picture(underlays: Underlays, asked: AskedByPage) -> None:
    """Do what the page asks for. Raises ValueError, `MeantError` and `Unusable` with what is wrong, for a person."""
    if isinstance(asked, StepPictureBack):
        underlays.step_back()
    elif isinstance(asked, TakePictureOut):
        underlays.take_out(asked.story)
    elif isinstance(asked, SeePicture):
        found = underlays.of(asked.story)
        underlays.place(found.model_copy(update={"seen": asked.seen, "hidden": asked.hidden}))
    elif isinstance(asked, SetToScale):
        found = underlays.of(asked.story)
        distance = length_in_inches(asked.distance, DISTANCE)
        underlays.place(found.placed(scaled(found.placing, *asked.points, distance), to_scale=True))
    elif isinstance(asked, MakeLevel):
        found = underlays.of(asked.story)
        underlays.place(found.placed(leveled(found.placing, *asked.points)))
    elif isinstance(asked, TurnPicture):
        found = underlays.of(asked.story)
        underlays.place(found.placed(turned(found.placing, _degrees(asked.angle), found.size)))
    elif isinstance(asked, MovePicture):
        found = underlays.of(asked.story)
        underlays.place(found.placed(moved(found.placing, _by(asked))))


def _by(asked: MovePicture) -> tuple[float, float]:
    right, up = (length_in_inches(text, DISTANCE) if text.strip() else 0.0 for text in (asked.right, asked.up))
    return asked.by[0] + right, asked.by[1] + up


def _degrees(text: str) -> float:
    try:
        return float(text.strip().lower().removesuffix("degrees").removesuffix("\N{DEGREE SIGN}").strip())
    except ValueError:
        raise ValueError(f"`{text}` is no angle; type degrees, such as 90 or -1.5") from None
