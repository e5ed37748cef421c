"""Receptacles, lights, circuits, counters, the panel, the service and cables."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.on_wall import OnWall
from precheck.project.part import Count, Gap, Number, Part, Point, Size, SpaceId
from precheck.units import Area, Force, Length, Ratio


class Receptacle(Part):
    """A receptacle outlet; `at` is its place on the plan, or `on` the wall that it is in.

    `serves` says what it is for besides the walls of a room.
    """

    kind = "receptacle"
    space: SpaceId
    at: Maybe[Point] = NOT_GIVEN
    on: Maybe[OnWall] = NOT_GIVEN
    height: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    in_floor: Maybe[bool] = NOT_GIVEN
    switched_in_place_of_light: Maybe[bool] = NOT_GIVEN
    part_of_appliance: Maybe[bool] = NOT_GIVEN
    serves: Maybe[
        Literal["walls", "counter", "island", "basin", "laundry", "outdoors", "vehicle bay", "equipment", "appliance"]
    ] = NOT_GIVEN
    side: Maybe[Literal["front", "back", "side"]] = NOT_GIVEN
    reached_from_grade: Maybe[bool] = NOT_GIVEN
    below_counter: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN
    to_basin: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    to_sink: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    to_tub_or_shower: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    to_equipment: Maybe[Annotated[Gap, Between("1/2 in", "200 ft")]] = NOT_GIVEN
    volts: Maybe[Annotated[Number, Between(1, 600)]] = NOT_GIVEN
    damp_location: Maybe[bool] = NOT_GIVEN
    food_preparation: Maybe[bool] = NOT_GIVEN
    gfci: Maybe[bool] = NOT_GIVEN
    gfci_reached_readily: Maybe[bool] = NOT_GIVEN
    tamper_resistant: Maybe[bool] = NOT_GIVEN
    weather_resistant: Maybe[bool] = NOT_GIVEN
    in_use_cover: Maybe[bool] = NOT_GIVEN


class WallBreak(Part):
    """A fireplace, fixed cabinet or wide way through that breaks a wall along the floor; `at` is its middle."""

    kind = "wall break"
    space: SpaceId
    what: Literal["fireplace", "fixed cabinet", "way through", "stair"]
    at: Point
    width: Annotated[Size, Between("1/2 in", "100 ft")]


class Counter(Part):
    """A kitchen counter: its length along the wall (or its size), with its receptacles measured from its left end."""

    kind = "counter"
    space: SpaceId
    form: Literal["wall", "island", "peninsula"] = "wall"
    length: Maybe[Annotated[Size, Between("1 in", "60 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1 in", "12 ft")]] = NOT_GIVEN
    receptacles_at: tuple[Annotated[Gap, Between("1/64 in", "200 ft")], ...] = ()
    receptacles: Maybe[Annotated[Count, Between(1, 100)]] = NOT_GIVEN
    provision_for_later: Maybe[bool] = NOT_GIVEN
    height_above: Maybe[Annotated[Gap, Between("1/4 in", "10 ft")]] = NOT_GIVEN


class Light(Part):
    """A light, and where it is switched; `at` is its place on the plan, or `on` the wall that it is on."""

    kind = "light"
    space: Maybe[SpaceId] = NOT_GIVEN
    outside_door: Maybe[str] = NOT_GIVEN
    over_stair: Maybe[str] = NOT_GIVEN
    switched_at: tuple[SpaceId, ...] = ()
    wall_switch: Maybe[bool] = NOT_GIVEN
    switched_receptacle: Maybe[bool] = NOT_GIVEN
    form: Maybe[
        Literal[
            "surface LED", "enclosed bulb", "open bulb", "pendant", "fluorescent", "recessed", "track", "fan", "other"
        ]
    ] = NOT_GIVEN
    to_storage: Maybe[Annotated[Gap, Between("1/16 in", "40 ft")]] = NOT_GIVEN
    from_tub: Maybe[Annotated[Gap, Between("1/16 in", "100 ft")]] = NOT_GIVEN
    above_tub: Maybe[Annotated[Gap, Between("1 in", "40 ft")]] = NOT_GIVEN
    in_insulated_ceiling: Maybe[bool] = NOT_GIVEN
    ic_rated_and_airtight: Maybe[bool] = NOT_GIVEN
    fan_box_listed: Maybe[bool] = NOT_GIVEN
    fan_weight: Maybe[Annotated[Force, Between("1 lb", "500 lb")]] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN
    on: Maybe[OnWall] = NOT_GIVEN


class Circuit(Part):
    """A branch circuit: what it is for, and the spaces it serves."""

    kind = "circuit"
    purpose: Literal["general", "small appliance", "laundry", "bathroom", "garage", "appliance"] = "general"
    amps: Maybe[Annotated[Number, Between(1, 400)]] = NOT_GIVEN
    serves: tuple[SpaceId, ...] = ()
    other_outlets: Maybe[bool] = NOT_GIVEN
    afci: Maybe[bool] = NOT_GIVEN
    extended_by: Maybe[Annotated[Gap, Between("1 in", "500 ft")]] = NOT_GIVEN
    adds_outlets: Maybe[bool] = NOT_GIVEN


class Panel(Part):
    """The electrical panel and the room kept around it; `at` is its place on the plan, or `on` the wall that it is in."""

    kind = "panel"
    space: Maybe[SpaceId] = NOT_GIVEN
    clear_depth: Maybe[Annotated[Gap, Between("1 in", "60 ft")]] = NOT_GIVEN
    clear_width: Maybe[Annotated[Gap, Between("1 in", "60 ft")]] = NOT_GIVEN
    clear_height: Maybe[Annotated[Gap, Between("1 in", "40 ft")]] = NOT_GIVEN
    panel_width: Maybe[Annotated[Size, Between("2 in", "6 ft")]] = NOT_GIVEN
    over_steps: Maybe[bool] = NOT_GIVEN
    free_space_above: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    foreign_pipes_or_ducts: Maybe[bool] = NOT_GIVEN
    circuits_labeled: Maybe[bool] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN
    on: Maybe[OnWall] = NOT_GIVEN


class Electrode(Record):
    """One grounding electrode; `apart` is its distance from the next, `ohms` what it measures to the earth alone."""

    kind = "electrode"
    what: Literal["rod", "plate", "concrete-encased", "ground ring", "metal water pipe"]
    length: Maybe[Annotated[Size, Between("1 in", "200 ft")]] = NOT_GIVEN
    apart: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    ohms: Maybe[Annotated[Number, Between(1, 10000)]] = NOT_GIVEN


class Grounding(Record):
    """How the service is grounded. `conductor_gage` is that of copper: a smaller number is thicker."""

    kind = "grounding"
    electrodes: tuple[Electrode, ...] = ()
    conductor_gage: Maybe[Annotated[Number, Between(1, 30)]] = NOT_GIVEN
    metal_water_pipes: Maybe[bool] = NOT_GIVEN
    water_pipes_bonded: Maybe[bool] = NOT_GIVEN


class Service(Part):
    """The electrical service."""

    kind = "service"
    amps: Maybe[Annotated[Number, Between(10, 2000)]] = NOT_GIVEN
    calculated_load: Maybe[Annotated[Number, Between(1, 2000)]] = NOT_GIVEN
    surge_protection: Maybe[bool] = NOT_GIVEN
    disconnect_outdoors: Maybe[bool] = NOT_GIVEN
    grounding: Maybe[Grounding] = NOT_GIVEN


class Cable(Part):
    """A cable: through framing, over attic joists or underground."""

    kind = "cable"
    runs: Literal["through framing", "in attic", "underground"]
    from_stud_edge: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    plate: Maybe[Annotated[Size, Between("1/1000 in", "1 in")]] = NOT_GIVEN
    guarded: Maybe[bool] = NOT_GIVEN
    to_hatch: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    above_attic_floor: Maybe[Annotated[Gap, Between("1/16 in", "40 ft")]] = NOT_GIVEN
    permanent_stair: Maybe[bool] = NOT_GIVEN
    method: Maybe[Literal["direct burial", "metal conduit", "plastic conduit", "GFCI branch circuit"]] = NOT_GIVEN
    depth: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN


__all__ = [
    "Area",
    "Cable",
    "Circuit",
    "Counter",
    "Electrode",
    "Grounding",
    "Length",
    "Light",
    "Panel",
    "Ratio",
    "Receptacle",
    "Service",
    "WallBreak",
]
