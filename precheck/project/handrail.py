"""What goes with a stair or ramp: handrails, its light, and the space beneath it."""

from __future__ import annotations

from typing import Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.part import Gap, LayerText, Size
from precheck.units import Illuminance


class Recess(Record):
    """The finger recess on both sides of a handrail that is too large to close a hand around."""

    kind = "recess"
    below_top: Maybe[Gap] = NOT_GIVEN
    depth: Maybe[Size] = NOT_GIVEN
    depth_reached_within: Maybe[Size] = NOT_GIVEN
    held_for: Maybe[Size] = NOT_GIVEN
    width_above: Maybe[Size] = NOT_GIVEN


class Handrail(Record):
    """One handrail: its height above the line of the nosings (or the ramp), its run, its ends and its profile."""

    kind = "handrail"
    height: Maybe[Size] = NOT_GIVEN
    projection: Maybe[Gap] = NOT_GIVEN
    narrowed_by_flight: Maybe[bool] = NOT_GIVEN
    beside_wall: Maybe[bool] = NOT_GIVEN
    clearance: Maybe[Gap] = NOT_GIVEN
    continuous: Maybe[bool] = NOT_GIVEN
    broken_at: Maybe[Literal["newel at landing", "newel at winders", "newel over lowest tread", "elsewhere"]] = (
        NOT_GIVEN
    )
    ends: Maybe[
        Literal[
            "returned", "newel", "safety terminal", "volute over lowest tread", "volute over top landing", "open",
        ]
    ] = NOT_GIVEN  # fmt: skip
    end_gap: Maybe[Gap] = NOT_GIVEN
    profile: Maybe[Literal["round", "not round"]] = NOT_GIVEN
    diameter: Maybe[Size] = NOT_GIVEN
    perimeter: Maybe[Size] = NOT_GIVEN
    cross_section: Maybe[Size] = NOT_GIVEN
    recess: Maybe[Recess] = NOT_GIVEN


class StairLighting(Record):
    """The light of a stair and what switches it."""

    kind = "lighting"
    light: Maybe[bool] = NOT_GIVEN
    light_level: Maybe[Illuminance] = NOT_GIVEN
    switch_at_each_floor: Maybe[bool] = NOT_GIVEN
    control: Maybe[Literal["wall switch", "remote", "central", "automatic"]] = NOT_GIVEN
    at_top_landing: Maybe[bool] = NOT_GIVEN
    at_bottom_landing: Maybe[bool] = NOT_GIVEN


class SpaceBeneath(Record):
    """The space under a stair: whether it is enclosed and can be entered, and what lines it."""

    kind = "space beneath"
    enclosed_and_entered: Maybe[bool] = NOT_GIVEN
    cover: tuple[LayerText, ...] = ()
