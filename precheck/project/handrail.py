"""What goes with a stair or ramp: handrails, its light, and the space beneath it."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.part import Gap, LayerText, Size
from precheck.units import Illuminance


class Recess(Record):
    """The finger recess on both sides of a handrail that is too large to close a hand around."""

    kind = "recess"
    below_top: Maybe[Annotated[Gap, Between("1/64 in", "6 in")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/64 in", "3 in")]] = NOT_GIVEN
    depth_reached_within: Maybe[Annotated[Size, Between("1/64 in", "6 in")]] = NOT_GIVEN
    held_for: Maybe[Annotated[Size, Between("1/64 in", "6 in")]] = NOT_GIVEN
    width_above: Maybe[Annotated[Size, Between("1/8 in", "12 in")]] = NOT_GIVEN


class Handrail(Record):
    """One handrail: its height above the line of the nosings (or the ramp), its run, its ends and its profile."""

    kind = "handrail"
    height: Maybe[Annotated[Size, Between("3 in", "6 ft")]] = NOT_GIVEN
    projection: Maybe[Annotated[Gap, Between("1/4 in", "2 ft")]] = NOT_GIVEN
    narrowed_by_flight: Maybe[bool] = NOT_GIVEN
    beside_wall: Maybe[bool] = NOT_GIVEN
    clearance: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    continuous: Maybe[bool] = NOT_GIVEN
    broken_at: Maybe[Literal["newel at landing", "newel at winders", "newel over lowest tread", "elsewhere"]] = (
        NOT_GIVEN
    )
    ends: Maybe[
        Literal[
            "returned", "newel", "safety terminal", "volute over lowest tread", "volute over top landing", "open",
        ]
    ] = NOT_GIVEN  # fmt: skip
    end_gap: Maybe[Annotated[Gap, Between("1/64 in", "12 ft")]] = NOT_GIVEN
    profile: Maybe[Literal["round", "not round"]] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/4 in", "12 in")]] = NOT_GIVEN
    perimeter: Maybe[Annotated[Size, Between("1/2 in", "3 ft")]] = NOT_GIVEN
    cross_section: Maybe[Annotated[Size, Between("1/4 in", "12 in")]] = NOT_GIVEN
    recess: Maybe[Recess] = NOT_GIVEN


class StairLighting(Record):
    """The light of a stair and what switches it."""

    kind = "lighting"
    light: Maybe[bool] = NOT_GIVEN
    light_level: Maybe[Annotated[Illuminance, Between("0.05 fc", "500 fc")]] = NOT_GIVEN
    switch_at_each_floor: Maybe[bool] = NOT_GIVEN
    control: Maybe[Literal["wall switch", "remote", "central", "automatic"]] = NOT_GIVEN
    at_top_landing: Maybe[bool] = NOT_GIVEN
    at_bottom_landing: Maybe[bool] = NOT_GIVEN


class SpaceBeneath(Record):
    """The space under a stair: whether it is enclosed and can be entered, and what lines it."""

    kind = "space beneath"
    enclosed_and_entered: Maybe[bool] = NOT_GIVEN
    cover: tuple[LayerText, ...] = ()
