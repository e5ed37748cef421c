"""Plumbing fixtures with the room around them, and pipes."""

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Part, Point, Size, SpaceId
from precheck.project.space import Rectangle
from precheck.units import Area, Insulation, Length, Slope, Temperature


class Fixture(Part):
    """A plumbing fixture. Side clearances run from its center line, to a wall or to the center of the next fixture.

    `at` is the middle of it on the plan, where no `rectangle` is drawn. `standing surface` is how high one stands in a tub above the floor.
    `replacement` says that it takes the place of another, on the same pipes.
    """

    kind = "fixture"
    space: SpaceId
    what: Literal["toilet", "bidet", "lavatory", "shower", "tub", "tub with shower", "kitchen sink", "clothes washer"]
    rectangle: Maybe[Rectangle] = NOT_GIVEN
    standing_surface: Maybe[Annotated[Gap, Between("1/64 in", "20 ft")]] = NOT_GIVEN
    to_wall: Maybe[Annotated[Gap, Between("1/2 in", "60 ft")]] = NOT_GIVEN
    to_next_fixture: Maybe[Annotated[Gap, Between("1/2 in", "60 ft")]] = NOT_GIVEN
    clear_in_front: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    hot_and_cold: Maybe[bool] = NOT_GIVEN
    inside_width: Maybe[Annotated[Size, Between("3 in", "30 ft")]] = NOT_GIVEN
    inside_depth: Maybe[Annotated[Size, Between("3 in", "30 ft")]] = NOT_GIVEN
    floor_area: Maybe[Annotated[Area, Between("20 sq in", "500 sq ft")]] = NOT_GIVEN
    size_held_to: Maybe[Annotated[Size, Between("3 in", "15 ft")]] = NOT_GIVEN
    opening: Maybe[Annotated[Size, Between("3 in", "20 ft")]] = NOT_GIVEN
    replaces_tub: Maybe[bool] = NOT_GIVEN
    replacement: Maybe[bool] = NOT_GIVEN
    valve_limit: Maybe[Annotated[Temperature, Between("40 F", "212 F")]] = NOT_GIVEN
    door: Maybe[Literal["opens out", "opens in", "opens both ways", "sliding", "curtain", "none"]] = NOT_GIVEN
    site_built_floor: Maybe[bool] = NOT_GIVEN
    floor_slope: Maybe[Annotated[Slope, Between("0.01%", "50%")]] = NOT_GIVEN
    standpipe: Maybe[Annotated[Size, Between("1 in", "12 ft")]] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN


class Pipe(Part):
    """A pipe: a drain, a vent, a supply, the water service or fuel gas. `serves` lists the rooms whose fixtures it serves."""

    kind = "pipe"
    what: Literal["drain", "vent", "hot water", "cold water", "water service", "refrigerant", "gas"]
    serves: tuple[SpaceId, ...] = ()
    size: Maybe[Annotated[Size, Between("1/8 in", "2 ft")]] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01%", "500%")]] = NOT_GIVEN
    material: Maybe[Literal["copper", "plastic", "steel", "cast iron"]] = NOT_GIVEN
    concealed_in_framing: Maybe[bool] = NOT_GIVEN
    from_stud_edge: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    shield_plates: Maybe[bool] = NOT_GIVEN
    depth: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    insulation: Maybe[Annotated[Insulation, Between("R-0.1", "R-50")]] = NOT_GIVEN
    insulation_thickness: Maybe[Annotated[Gap, Between("1/16 in", "12 in")]] = NOT_GIVEN
    outside_conditioned_space: Maybe[bool] = NOT_GIVEN


__all__ = ["Count", "Fixture", "Length", "Pipe"]
