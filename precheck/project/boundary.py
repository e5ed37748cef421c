"""What bounds a garage: walls, ducts, penetrations, hatches, and what holds the ceiling up."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.missing import Missing, is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.project.between import Between
from precheck.project.opening import Box
from precheck.project.part import Layer, LayerText, Number, OpeningId, Part, Point, Side, Size, SpaceId, StoryId
from precheck.project.wall_framing import FireBlocks, SillPlate, WallFraming
from precheck.units import Area, Duration, Insulation, Length, Ratio

STUDS = ("stud", "lumber", "framing")
SOLID = ("concrete", "block", "cmu", "masonry", "stone", "brick")
WITHIN = (*STUDS, *SOLID, "insulation", "air space", "cavity")  # what a finish lies on
VENEER = "brick"  # which stands before studs without carrying


class Face(Record):
    """The finish on one side of a wall."""

    kind = "face"
    side: Side
    layers: tuple[LayerText, ...] = ()


class FootingId(Reference):
    """The id of what a wall stands on."""

    __slots__ = ()
    kinds = ("footing", "foundation wall")


class Wall(Part):
    """A wall between two spaces, or between a space and the outside, with the finish on each side.

    In plan its middle line runs `from` one point `to` another. `layers` are all that it is built of, from the first side
    of `between` to the second; `faces` are the finishes alone, and need not be given where the layers are.
    `opening filled` names the door or window that is taken out and that it closes.
    """

    kind = "wall"
    between: tuple[Side, Side]
    story: Maybe[StoryId] = NOT_GIVEN
    from_: Maybe[Point] = NOT_GIVEN
    to: Maybe[Point] = NOT_GIVEN
    layers: tuple[LayerText, ...] = ()
    faces: tuple[Face, ...] = ()
    opening_filled: Maybe[OpeningId] = NOT_GIVEN
    fire_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN
    carried_to_roof_deck: Maybe[bool] = NOT_GIVEN
    carried_to_foundation: Maybe[bool] = NOT_GIVEN
    draft_stop_above: Maybe[bool] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("0.5 sq ft", "10000 sq ft")]] = NOT_GIVEN
    open_area: Maybe[Annotated[Area, Between("0.1 sq ft", "5000 sq ft")]] = NOT_GIVEN
    footing: Maybe[FootingId] = NOT_GIVEN
    sill_plates: tuple[SillPlate, ...] = ()
    framing: Maybe[WallFraming] = NOT_GIVEN
    fire_blocks: Maybe[FireBlocks] = NOT_GIVEN
    shored: Maybe[bool] = NOT_GIVEN

    def finish_on(self, side: str) -> tuple[Layer, ...] | Missing:
        """Return the finish on `side`: as its face says, else the layers that lie before what carries or fills the wall."""
        face = next((face for face in self.faces if face.side == side and face.layers), None)
        if face is not None:
            return face.layers
        if not self.layers or side not in self.between:
            return self.absent(f"finish on the side of {side}")
        inward = self.layers if side == self.between[0] else self.layers[::-1]
        core = next((i for i, layer in enumerate(inward) if layer.is_any_of(WITHIN)), len(inward))
        return inward[:core]

    @property
    def is_framed(self) -> bool | Missing:
        """Whether studs carry it, rather than masonry or concrete: the thicker of both, where the layers show both."""
        if not is_missing(self.framing):
            return True
        studs = [layer.thickness for layer in self.layers if layer.is_any_of(STUDS)]
        solid = [layer for layer in self.layers if layer.is_any_of(SOLID)]
        bearing = [layer.thickness for layer in solid if not (studs and layer.is_any_of((VENEER,)))]
        if not studs or not bearing:
            return bool(studs) if studs or bearing else self.absent("framing")
        known = [[t for t in both if isinstance(t, Length)] for both in (studs, bearing)]
        return max(known[0]) >= max(known[1]) if all(known) else self.absent("thickness of its layers")


class Support(Part):
    """A wall, beam or post in a garage that holds up the ceiling which is the separation."""

    kind = "support"
    space: SpaceId
    what: Literal["wall", "beam", "post"]
    cover: tuple[LayerText, ...] = ()
    covered: Maybe[bool] = NOT_GIVEN


class Duct(Part):
    """A duct in a garage or through its walls or ceiling."""

    kind = "duct"
    space: SpaceId
    material: Maybe[Literal["sheet steel", "flexible", "duct board", "plastic", "other approved"]] = NOT_GIVEN
    gage: Maybe[Annotated[Number, Between(1, 40)]] = NOT_GIVEN
    opens_into_garage: Maybe[bool] = NOT_GIVEN
    carries: Maybe[Literal["supply air", "return air", "exhaust", "outdoor air"]] = NOT_GIVEN


class Penetration(Part):
    """A pipe, cable or other thing through the separation."""

    kind = "penetration"
    space: SpaceId
    what: str = ""
    sealed: Maybe[bool] = NOT_GIVEN


class Hatch(Part):
    """An attic hatch or pull-down stair in a ceiling, or an opening to an attic or crawl space through a wall or floor.

    `space` is the one that it opens from, `to` the attic or crawl space that it reaches.
    """

    kind = "hatch"
    space: Side
    to: Maybe[SpaceId] = NOT_GIVEN
    through: Maybe[Literal["ceiling", "wall", "floor"]] = NOT_GIVEN
    reached_by: Maybe[Literal["none", "ladder", "pull-down stair"]] = NOT_GIVEN
    rough_opening: Maybe[Annotated[Box, Between("3 in", "12 ft")]] = NOT_GIVEN
    headroom: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    readily_reached: Maybe[bool] = NOT_GIVEN
    below_grade: Maybe[bool] = NOT_GIVEN
    areaway: Maybe[Annotated[Box, Between("3 in", "20 ft")]] = NOT_GIVEN
    under_door: Maybe[bool] = NOT_GIVEN
    cover: tuple[LayerText, ...] = ()
    fire_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN
    listed_for_separation: Maybe[bool] = NOT_GIVEN
    weatherstripped: Maybe[bool] = NOT_GIVEN
    insulated_like_surface: Maybe[bool] = NOT_GIVEN
    average_r: Maybe[Annotated[Insulation, Between("R-0.5", "R-150")]] = NOT_GIVEN
    panel_r: Maybe[Annotated[Insulation, Between("R-0.5", "R-150")]] = NOT_GIVEN
    panel_share: Maybe[Annotated[Ratio, Between("0.1%", "100%")]] = NOT_GIVEN
    loose_fill_beside: Maybe[bool] = NOT_GIVEN
    dam_for_loose_fill: Maybe[bool] = NOT_GIVEN
