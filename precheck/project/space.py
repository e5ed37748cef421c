"""Stories, floors and spaces: rooms, garages, carports and attics, with their floors and ceilings."""

from __future__ import annotations

from typing import Annotated, Literal, get_args

from precheck.files.missing import Missing, is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.files.values import After
from precheck.project.between import Between
from precheck.project.outline import closes
from precheck.project.part import Count, Gap, LayerText, Level, Number, Part, Phase, Point, Size, SpaceId, StoryId
from precheck.units import AirFlow, Area, Duration, Illuminance, Length, Pressure, Ratio, Slope

Use = Literal[
    "bedroom", "living room", "dining room", "kitchen", "family room", "office", "bathroom", "toilet room",
    "laundry", "hall", "closet", "storage", "utility", "workshop", "garage", "carport", "attic", "crawl space", "porch",
    "deck", "sunroom",
]  # fmt: skip
Drawn = Literal["rooms", "doors", "windows"]
ToDraw = Literal["stairs", "alarms", "lights", "receptacles", "fixtures", "appliances", "exhausts", "panels", "members"]
HABITABLE = frozenset(("bedroom", "living room", "dining room", "kitchen", "family room", "office"))
VEHICLE = frozenset(("garage", "carport"))
OUTDOOR = frozenset(("carport", "porch", "deck"))
UNFINISHED = frozenset(("attic", "crawl space"))


class FloorId(Reference):
    """The id of a floor."""

    __slots__ = ()
    kinds = ("floor",)


class Story(Part):
    """One level of the house. `elevation` is its finished floor above the datum, which tells two of one level apart.

    `drawn` lists what of it is drawn completely so far, while one draws it: what it leaves out is not drawn yet and is
    never taken for none. A story without it is as the file shows it. `to draw` lists what stands in the rooms, or carries
    them, that is still to come; all other things are as the file shows them.
    """

    kind = "story"
    level: Maybe[Literal["basement", "ground", "upper", "attic"]] = NOT_GIVEN
    elevation: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    drawn: Maybe[tuple[Drawn, ...]] = NOT_GIVEN
    to_draw: tuple[ToDraw, ...] = ()
    less_than_a_story_below: Maybe[StoryId] = NOT_GIVEN
    door_between: Maybe[bool] = NOT_GIVEN

    @property
    def not_drawn(self) -> tuple[str, ...]:
        """What of it is not drawn yet; nothing where it does not say."""
        drawn = self.drawn
        open_ = () if isinstance(drawn, Missing) else tuple(kind for kind in get_args(Drawn) if kind not in drawn)
        return (*open_, *self.to_draw)


class Floor(Part):
    """A floor as it is built up: the base that carries it, and the layers from the base up.

    Sleepers on a slab are `treated sleepers`, or lie on a `moisture barrier`.
    """

    kind = "floor"
    base: Maybe[Literal["slab", "joists"]] = NOT_GIVEN
    base_level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    layers: tuple[LayerText, ...] = ()
    finished_level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    treated_sleepers: Maybe[bool] = NOT_GIVEN
    moisture_barrier: Maybe[bool] = NOT_GIVEN
    fire_rating: Maybe[Annotated[Duration, Between("1 min", "8 hr")]] = NOT_GIVEN


class Drop(Record):
    """A beam, duct or other thing below the ceiling: the clear height under it, the clear way beside it."""

    kind = "drop"
    what: Literal["beam", "girder", "duct", "other"]
    clear_height: Maybe[Annotated[Size, Between("1 ft", "40 ft")]] = NOT_GIVEN
    clear_spacing: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    floor_under: Maybe[Annotated[Area, Between("0.1 sq ft", "5000 sq ft")]] = NOT_GIVEN


class CeilingPoint(Record):
    """A ceiling height at one distance across the room; points run from wall to wall, straight in between."""

    kind = "ceiling point"
    across: Annotated[Gap, Between("1/4 in", "100 ft")]
    height: Annotated[Gap, Between("1/4 in", "40 ft")]


class Ceiling(Record):
    """A ceiling: its finished height, or what it is built from; for a sloped one, its profile across the room."""

    kind = "ceiling"
    height: Maybe[Annotated[Size, Between("6 in", "40 ft")]] = NOT_GIVEN
    framing_level: Maybe[Annotated[Level, Between("-200 ft", "200 ft")]] = NOT_GIVEN
    layers: tuple[LayerText, ...] = ()
    profile: tuple[CeilingPoint, ...] = ()
    area_at_full_height: Maybe[Annotated[Area, Between("0.1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    area_above_lowest: Maybe[Annotated[Area, Between("0.1 sq ft", "20000 sq ft")]] = NOT_GIVEN
    sloped: Maybe[bool] = NOT_GIVEN
    drops: tuple[Drop, ...] = ()
    shower_clear_height: Maybe[Annotated[Size, Between("1 ft", "20 ft")]] = NOT_GIVEN
    shower_clear_area: Maybe[Annotated[tuple[Size, Size], Between("2 in", "20 ft")]] = NOT_GIVEN


class FloorFall(Record):
    """How a garage or carport floor falls."""

    kind = "floor fall"
    toward: Maybe[Literal["vehicle opening", "drain", "house", "level"]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01%", "30%")]] = NOT_GIVEN


class Rectangle(Record):
    """A space as drawn: its corner nearest the origin, its width along x and its depth along y."""

    kind = "rectangle"
    at: Point
    width: Annotated[Size, Between("1 in", "300 ft")]
    depth: Annotated[Size, Between("1 in", "300 ft")]


class SpaceBefore(Record):
    """A room as it stood before the work moved its walls: a `rectangle`, or an `outline` corner by corner."""

    kind = "room before the work"
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    outline: Annotated[tuple[Point, ...], After(closes)] = ()


class CrawlAir(Record):
    """How a crawl space is kept dry: by vents, or closed and with air or a dehumidifier of so many `pints per day`."""

    kind = "air of a crawl space"
    by: Maybe[Literal["vents", "exhaust fan", "supply air", "dehumidifier"]] = NOT_GIVEN
    free_area: Maybe[Annotated[Area, Between("1 sq in", "50 sq ft")]] = NOT_GIVEN
    vents_at_corners: Maybe[bool] = NOT_GIVEN
    flow: Maybe[Annotated[AirFlow, Between("0.1 cfm", "1000 cfm")]] = NOT_GIVEN
    ground_covered: Maybe[bool] = NOT_GIVEN
    cover_lap: Maybe[Annotated[Gap, Between("1/4 in", "6 ft")]] = NOT_GIVEN
    cover_up_wall: Maybe[Annotated[Gap, Between("1/4 in", "10 ft")]] = NOT_GIVEN
    cross_ventilated: Maybe[bool] = NOT_GIVEN
    pints_per_day: Maybe[Annotated[Number, Between(1, 500)]] = NOT_GIVEN


class CrawlGround(Record):
    """The ground of a crawl space beside the ground outside.

    `wet_site` says that groundwater can rise near the floor, or that rain does not run off; `drained` that a drain with an
    outlet empties the space.
    """

    kind = "ground of a crawl space"
    level: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    level_outside: Maybe[Annotated[Level, Between("-100 ft", "100 ft")]] = NOT_GIVEN
    wet_site: Maybe[bool] = NOT_GIVEN
    drained: Maybe[bool] = NOT_GIVEN
    outlet_marked: Maybe[bool] = NOT_GIVEN
    cleared: Maybe[bool] = NOT_GIVEN


def _above_zero(area: Area) -> Area:
    if area.n <= 0:
        raise ValueError(f"`{area}` cannot be; a room has a floor area above zero")
    return area


class Space(Part):
    """A room, garage, carport, attic or outdoor space.

    `was` is what it was used for before the work, `was conditioned` that it was heated or cooled then; `addition` says that
    it is built where no building stood, `roofed` that a roof is over a porch or deck.

    `before` is its outline before the work, where the work moves its walls: what it gains is new floor, and what it
    loses is where another room is parted off from it.

    `open to below` is what of its outline has no floor: a stairwell, or where it looks down into the room below.

    `unit` names the dwelling that it belongs to, where there are more than one; `shared` says that it serves all of them.
    """

    kind = "space"
    name: str = ""
    unit: Maybe[str] = NOT_GIVEN
    use: Maybe[Use] = NOT_GIVEN
    was: Maybe[Use] = NOT_GIVEN
    addition: Maybe[bool] = NOT_GIVEN
    roofed: Maybe[bool] = NOT_GIVEN
    story: Maybe[StoryId] = NOT_GIVEN
    floor: Maybe[FloorId] = NOT_GIVEN
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    outline: Annotated[tuple[Point, ...], After(closes)] = ()
    before: Maybe[SpaceBefore] = NOT_GIVEN
    area: Maybe[Annotated[Area, After(_above_zero), Between("2 sq ft", "20000 sq ft")]] = NOT_GIVEN
    open_to_below: Maybe[Annotated[Area, Between("0.5 sq ft", "10000 sq ft")]] = NOT_GIVEN
    ceiling: Maybe[Ceiling] = NOT_GIVEN
    rooms_above: tuple[SpaceId, ...] = ()
    rooms_beside: tuple[SpaceId, ...] = ()
    detached: Maybe[bool] = NOT_GIVEN
    distance_to_house: Maybe[Annotated[Gap, Between("1/4 in", "1000 ft")]] = NOT_GIVEN
    open_sides: Maybe[Annotated[Count, Between(1, 12)]] = NOT_GIVEN
    habitable_attic: Maybe[bool] = NOT_GIVEN
    mechanical_only: Maybe[bool] = NOT_GIVEN
    drop_at_edge: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    drop_measured_out: Maybe[Annotated[Gap, Between("1 in", "20 ft")]] = NOT_GIVEN
    open_edge: Maybe[bool] = NOT_GIVEN
    floor_surface: Maybe[str] = NOT_GIVEN
    floor_fall: Maybe[FloorFall] = NOT_GIVEN
    least_width: Maybe[Annotated[Size, Between("6 in", "100 ft")]] = NOT_GIVEN
    open_to: tuple[SpaceId, ...] = ()
    closet: Maybe[bool] = NOT_GIVEN
    sleeping_loft: Maybe[bool] = NOT_GIVEN
    finishes_opened: Maybe[bool] = NOT_GIVEN
    artificial_light: Maybe[Annotated[Illuminance, Between("0.1 fc", "500 fc")]] = NOT_GIVEN
    outdoor_air: Maybe[Annotated[AirFlow, Between("0.5 cfm", "2000 cfm")]] = NOT_GIVEN
    longer_side_open: Maybe[Annotated[Ratio, Between("0.1%", "100%")]] = NOT_GIVEN
    perimeter_open: Maybe[Annotated[Ratio, Between("0.1%", "100%")]] = NOT_GIVEN
    enclosed_by_roof: Maybe[bool] = NOT_GIVEN
    sides_closed_to: Maybe[Annotated[Gap, Between("1 in", "30 ft")]] = NOT_GIVEN
    vehicle_door_look_kept: Maybe[bool] = NOT_GIVEN
    beyond_walls_below: Maybe[bool] = NOT_GIVEN
    conditioned: Maybe[bool] = NOT_GIVEN
    was_conditioned: Maybe[bool] = NOT_GIVEN
    finished_since_built: Maybe[bool] = NOT_GIVEN
    built_with_permit: Maybe[bool] = NOT_GIVEN
    crawl_air: Maybe[CrawlAir] = NOT_GIVEN
    crawl_ground: Maybe[CrawlGround] = NOT_GIVEN
    farthest_wall_from_receptacle: Maybe[Annotated[Gap, Between("1 in", "60 ft")]] = NOT_GIVEN
    framing_height: Maybe[Annotated[Size, Between("1 in", "40 ft")]] = NOT_GIVEN
    area_at_access_height: Maybe[Annotated[Area, Between("0.1 sq ft", "10000 sq ft")]] = NOT_GIVEN
    attic_storage: Maybe[bool] = NOT_GIVEN
    live_load: Maybe[Annotated[Pressure, Between("1 psf", "500 psf")]] = NOT_GIVEN

    @property
    def is_habitable(self) -> bool:
        """Whether the stated use is living, sleeping, eating or cooking; an attic only where it is habitable."""
        return self.use in HABITABLE or self.habitable_attic is True

    @property
    def has_slope(self) -> bool:
        """Whether its ceiling is drawn as sloped: as stated, by a profile, or by the areas under it."""
        ceiling = self.ceiling
        if not isinstance(ceiling, Ceiling):
            return False
        areas = not is_missing(ceiling.area_at_full_height) or not is_missing(ceiling.area_above_lowest)
        return bool(ceiling.profile) or ceiling.sloped is True or areas

    @property
    def changes_use(self) -> bool:
        """Whether it is said to have been something else than it will be, as a garage that becomes a room."""
        return not isinstance(self.was, Missing) and self.was != self.use

    @property
    def keeps_its_use(self) -> bool:
        """Whether the work alters it and it stays what it is, as a kitchen from which a wall is taken out."""
        return self.phase == "altered" and not self.changes_use

    @property
    def is_sleeping(self) -> bool:
        """Whether the stated use is sleeping."""
        return self.use == "bedroom"

    @property
    def is_vehicle(self) -> bool:
        """Whether the space is for vehicles: a garage, or a carport (which may count as a garage)."""
        return self.use in VEHICLE


__all__ = ["Ceiling", "CeilingPoint", "Drop", "Floor", "FloorFall", "Length", "Phase", "Rectangle", "Space", "Story"]
