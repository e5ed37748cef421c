"""Roof coverings with what lies under and along them, and attics with their vents."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.part import Count, Gap, Level, Number, Part, Size, SpaceId
from precheck.units import Area, Insulation, Length, Slope

LINEAR_VENTS = frozenset(("ridge", "soffit strip", "over fascia"))
HIGH_VENTS = frozenset(("ridge",))
LOW_VENTS = frozenset(("soffit strip", "soffit panel", "soffit hole", "over fascia"))

Covering = Literal[
    "asphalt shingles", "metal panels with open laps", "metal panels with sealed laps", "standing seam metal",
    "clay or concrete tile", "membrane", "coal-tar built-up", "wood shingles", "wood shakes", "slate",
    "metal shingles", "roll roofing",
]  # fmt: skip
OpenPart = Literal["none", "noncombustible", "ignition-resistant", "heavy timber", "other wood"]
Retarder = Literal["class I", "class II", "class III", "none"]


class Underlayment(Record):
    """What lies between the roof sheathing and the covering."""

    kind = "underlayment"
    layers: Maybe[Annotated[Count, Between(1, 6)]] = NOT_GIVEN
    side_lap: Maybe[Annotated[Gap, Between("1/8 in", "6 ft")]] = NOT_GIVEN
    end_lap: Maybe[Annotated[Gap, Between("1/8 in", "6 ft")]] = NOT_GIVEN
    standard: Maybe[str] = NOT_GIVEN
    self_adhered_all_over: Maybe[bool] = NOT_GIVEN


class IceBarrier(Record):
    """The ice barrier along the eaves."""

    kind = "ice barrier"
    inside_wall: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    along_slope: Maybe[Annotated[Gap, Between("1/4 in", "80 ft")]] = NOT_GIVEN


class DripEdge(Record):
    """The metal edge of a shingle roof."""

    kind = "drip edge"
    at_eaves: Maybe[bool] = NOT_GIVEN
    at_rakes: Maybe[bool] = NOT_GIVEN
    lap: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    below_sheathing: Maybe[Annotated[Gap, Between("1/64 in", "12 in")]] = NOT_GIVEN
    onto_deck: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    fastener_spacing: Maybe[Annotated[Size, Between("1/2 in", "6 ft")]] = NOT_GIVEN


class RoofNails(Record):
    """The nails of a shingle roof. `gage` is the number of the wire gage: a smaller one is thicker."""

    kind = "nails"
    gage: Maybe[Annotated[Number, Between(1, 40)]] = NOT_GIVEN
    head: Maybe[Annotated[Size, Between("1/32 in", "3 in")]] = NOT_GIVEN
    penetration: Maybe[Annotated[Size, Between("1/64 in", "6 in")]] = NOT_GIVEN
    through_deck: Maybe[bool] = NOT_GIVEN
    per_strip: Maybe[Annotated[Number, Between(1, 30)]] = NOT_GIVEN
    per_shingle: Maybe[Annotated[Number, Between(1, 30)]] = NOT_GIVEN


class WallJoint(Record):
    """Where the roof meets a side wall: the step or base flashing, and the kick-out at its lower end."""

    kind = "wall joint"
    height: Maybe[Annotated[Gap, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    width: Maybe[Annotated[Gap, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    metal_thickness: Maybe[Annotated[Size, Between("1/1000 in", "1 in")]] = NOT_GIVEN
    kick_out: Maybe[bool] = NOT_GIVEN


class RoofOpening(Record):
    """A chimney, skylight or other thing through the roof.

    Heights are above the highest place where it passes the roof; `nearby` is the highest part of a building around it.
    """

    kind = "roof opening"
    what: Literal["chimney", "curbed skylight", "other"]
    width: Maybe[Annotated[Size, Between("1/2 in", "30 ft")]] = NOT_GIVEN
    flashed: Maybe[bool] = NOT_GIVEN
    cricket: Maybe[bool] = NOT_GIVEN
    height_above_roof: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    nearby_above_roof: Maybe[Annotated[Level, Between("-60 ft", "60 ft")]] = NOT_GIVEN
    nearby_distance: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN


class RoofDrainage(Record):
    """Where the water of the roof goes. `inside_parapets` says that it cannot run off over the edge."""

    kind = "roof drainage"
    discharge_from_foundation: Maybe[Annotated[Gap, Between("1/4 in", "500 ft")]] = NOT_GIVEN
    inside_parapets: Maybe[bool] = NOT_GIVEN
    drains_at_low_points: Maybe[bool] = NOT_GIVEN
    overflow_above_low_point: Maybe[Annotated[Gap, Between("1/16 in", "6 ft")]] = NOT_GIVEN


class Roof(Part):
    """One roof plane or several alike, with its covering, what shows from below, and posts that stand in the open.

    `spaces` are those that it covers.
    """

    kind = "roof"
    spaces: tuple[SpaceId, ...] = ()
    covering: Maybe[Covering] = NOT_GIVEN
    slope: Maybe[Annotated[Slope, Between("0.01:12", "40:12")]] = NOT_GIVEN
    underlayment: Maybe[Underlayment] = NOT_GIVEN
    ice_barrier: Maybe[IceBarrier] = NOT_GIVEN
    detached_unheated: Maybe[bool] = NOT_GIVEN
    drip_edge: Maybe[DripEdge] = NOT_GIVEN
    nails: Maybe[RoofNails] = NOT_GIVEN
    wall_joints: tuple[WallJoint, ...] = ()
    openings: tuple[RoofOpening, ...] = ()
    open_valley_width: Maybe[Annotated[Size, Between("1/2 in", "10 ft")]] = NOT_GIVEN
    existing_layers: Maybe[Annotated[Count, Between(1, 10)]] = NOT_GIVEN
    existing_sound: Maybe[bool] = NOT_GIVEN
    drainage: Maybe[RoofDrainage] = NOT_GIVEN
    fire_class: Maybe[Literal["class A", "class B", "class C", "none"]] = NOT_GIVEN
    underside: Maybe[OpenPart] = NOT_GIVEN
    open_posts: Maybe[OpenPart] = NOT_GIVEN


class Vent(Record):
    """Vents of one kind in one place: strips by length, others by count, with the net free area their maker states."""

    kind = "vent"
    form: Literal[
        "ridge", "soffit strip", "over fascia", "soffit panel", "soffit hole", "gable", "box", "turbine", "power fan"
    ]
    length: Maybe[Annotated[Size, Between("1 in", "1000 ft")]] = NOT_GIVEN
    free_area_per_foot: Maybe[Annotated[Area, Between("0.1 sq in", "2 sq ft")]] = NOT_GIVEN
    count: Maybe[Annotated[Number, Between(1, 500)]] = NOT_GIVEN
    free_area_each: Maybe[Annotated[Area, Between("0.1 sq in", "50 sq ft")]] = NOT_GIVEN
    free_area: Maybe[Annotated[Area, Between("0.2 sq in", "200 sq ft")]] = NOT_GIVEN
    sits: Maybe[Literal["high", "low", "in between"]] = NOT_GIVEN
    below_top: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    above_floor: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN
    smallest_opening: Maybe[Annotated[Gap, Between("1/100 in", "10 ft")]] = NOT_GIVEN
    mesh: Maybe[Annotated[Gap, Between("1/100 in", "6 in")]] = NOT_GIVEN
    resists_embers: Maybe[bool] = NOT_GIVEN
    opens_to: Maybe[Literal["outdoors", "another attic", "soffit space", "other"]] = NOT_GIVEN
    keeps_rain_out: Maybe[bool] = NOT_GIVEN
    distance_to_lot_line: Maybe[Annotated[Gap, Between("1/4 in", "1000 ft")]] = NOT_GIVEN


class UnventedAssembly(Record):
    """What stands in for vents in an unvented attic or rafter space."""

    kind = "unvented assembly"
    inside_thermal_envelope: Maybe[bool] = NOT_GIVEN
    class_i_retarder_on_floor: Maybe[bool] = NOT_GIVEN
    wood_shingles: Maybe[bool] = NOT_GIVEN
    gap_under_shingles: Maybe[Annotated[Gap, Between("1/64 in", "12 in")]] = NOT_GIVEN
    impermeable_insulation: Maybe[Annotated[Insulation, Between("R-0.5", "R-150")]] = NOT_GIVEN
    impermeable_is_class_ii: Maybe[bool] = NOT_GIVEN


class Attic(Part):
    """An attic or an enclosed rafter space, and how it is vented. `height` is that of its highest point."""

    kind = "attic"
    space: Maybe[SpaceId] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("4 sq ft", "20000 sq ft")]] = NOT_GIVEN
    height: Maybe[Annotated[Size, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    vented: Maybe[bool] = NOT_GIVEN
    vents: tuple[Vent, ...] = ()
    unvented: Maybe[UnventedAssembly] = NOT_GIVEN
    vapor_retarder: Maybe[Retarder] = NOT_GIVEN
    insulation: Maybe[Literal["loose", "batts", "foam", "none"]] = NOT_GIVEN
    air_gap: Maybe[Annotated[Gap, Between("1/16 in", "20 ft")]] = NOT_GIVEN
    baffles: Maybe[bool] = NOT_GIVEN
    depth_markers: Maybe[Annotated[Count, Between(1, 500)]] = NOT_GIVEN
    marker_numbers: Maybe[Annotated[Size, Between("1/16 in", "2 ft")]] = NOT_GIVEN


__all__ = ["Attic", "Length", "Roof", "RoofOpening", "Vent", "WallJoint"]
