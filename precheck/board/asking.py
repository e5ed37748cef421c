"""What every request of the page is made of: its base, and the kinds of values that the page may send."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Text = Annotated[str, Field(max_length=4000)]
Id = Annotated[str, Field(max_length=200)]
Inches = Annotated[float, Field(ge=-12_000, le=12_000, allow_inf_nan=False)]
Phase = Literal["existing", "new", "altered", "removed"]
WallNumber = Annotated[int, Field(ge=0, le=1000)]


class AskedByPage(BaseModel):
    """Something that the page asks for."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Spot(AskedByPage):
    """A place in a room: a point as drawn, typed distances from its west and south walls, or one along a wall from a corner."""

    at: tuple[Inches, Inches] | None = None
    from_west: Text = ""
    from_south: Text = ""
    wall: WallNumber | None = None
    distance: Text = ""
    from_end: bool = False
