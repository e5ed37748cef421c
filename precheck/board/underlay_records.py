"""What lies behind the sketch, as it is written beside the project file: pictures that were sent, and one for each story.

Whatever is read from there is looked at as closely as what a page sends: it may have been written by anybody.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from precheck.board.placing import FAR, LEAST_SCALE, MOST_SCALE, Placing

MOST_KEPT = 40
Inches = Annotated[float, Field(ge=-2 * FAR, le=2 * FAR, allow_inf_nan=False)]
Count = Annotated[int, Field(ge=1, le=100_000)]
Number = Annotated[int, Field(ge=1, le=1_000_000_000)]


class _Kept(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class SentPicture(_Kept):
    """What a person sent: its number, which kind it is, and how many pages it has."""

    number: Number
    kind: Annotated[str, Field(pattern="^(pdf|jpg|png|webp)$")]
    pages: Count = 1

    @property
    def name(self) -> str:
        """The name of its file."""
        return f"source-{self.number}.{self.kind}"

    def picture(self, page: int) -> str:
        """Return the name of the file that shows a page of it."""
        return f"source-{self.number}-page-{page}.png" if self.kind == "pdf" else self.name


class Underlay(_Kept):
    """A picture behind one story: which page of what was sent, its size in pixels, where it lies, and how it is seen."""

    story: Annotated[str, Field(max_length=200)]
    source: Number
    page: Count
    size: tuple[Count, Count]
    x: Inches
    y: Inches
    angle: Annotated[float, Field(ge=-180, le=180, allow_inf_nan=False)]
    scale: Annotated[float, Field(ge=LEAST_SCALE, le=MOST_SCALE, allow_inf_nan=False)]
    to_scale: bool = False
    seen: Annotated[int, Field(ge=5, le=100)] = 50
    hidden: bool = False

    @property
    def placing(self) -> Placing:
        """Where it lies."""
        return Placing(self.x, self.y, self.angle, self.scale)

    def placed(self, placing: Placing, to_scale: bool | None = None) -> Underlay:
        """Return the underlay at another place."""
        more = {} if to_scale is None else {"to_scale": to_scale}
        return self.model_copy(update=placing._asdict() | more)


class Pictures(_Kept):
    """All that lies behind the stories of one house."""

    sources: Annotated[tuple[SentPicture, ...], Field(max_length=MOST_KEPT)] = ()
    underlays: Annotated[tuple[Underlay, ...], Field(max_length=MOST_KEPT)] = ()

    def of(self, story: str) -> Underlay | None:
        """Return what lies behind a story; None where nothing does."""
        return next((one for one in self.underlays if one.story == story), None)

    def source(self, number: int) -> SentPicture | None:
        """Return what was sent under a number; None where it is not kept."""
        return next((one for one in self.sources if one.number == number), None)

    def without(self, story: str) -> Pictures:
        """Return what is left when nothing lies behind a story; what no other story shows is kept no more."""
        underlays = tuple(one for one in self.underlays if one.story != story)
        used = {one.source for one in underlays}
        return Pictures(sources=tuple(one for one in self.sources if one.number in used), underlays=underlays)

    def having(self, underlay: Underlay, source: SentPicture | None = None) -> Pictures:
        """Return the pictures with `underlay` behind its story, in place of what was there."""
        sources = (*self.sources, source) if source is not None else self.sources
        underlays = (*(one for one in self.underlays if one.story != underlay.story), underlay)
        used = {one.source for one in underlays}
        return Pictures(sources=tuple(one for one in sources if one.number in used), underlays=underlays)
