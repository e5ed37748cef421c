"""The thermal envelope: assemblies with their insulation, slab edges, air sealing, ducts and lighting."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.values import Instead
from precheck.project.between import Between
from precheck.project.part import Count, Gap, LayerText, Number, Part, Size, SpaceId
from precheck.units import Area, Insulation, Length, Ratio, Transmittance
from precheck.units.kinds import PlainNumber
from precheck.units.notation import NotationError, number


def _heat_gain(value: Any) -> PlainNumber:
    """Read a solar heat gain coefficient as labels print it: ``0.25``."""
    try:
        share = number(str(value))
    except NotationError:
        raise ValueError(f"`{value}` is not a solar heat gain coefficient; write it like 0.25") from None
    return PlainNumber(share, str(value))


def _air_changes(value: Any) -> PlainNumber:
    """Read air changes in an hour as test reports print them: ``3.0``."""
    try:
        rate = number(str(value))
    except NotationError:
        raise ValueError(f"`{value}` is not a number of air changes in an hour; write it like 3.0") from None
    return PlainNumber(rate, str(value))


AirChanges = Annotated[
    PlainNumber,
    Instead(
        _air_changes,
        {"type": ["string", "number"], "description": "Air changes in an hour at 50 Pa.", "examples": ["3.0"]},
    ),
    Between("0.05", "100"),
]

HeatGain = Annotated[
    PlainNumber,
    Instead(
        _heat_gain, {"type": ["string", "number"], "description": "Solar heat gain coefficient.", "examples": ["0.25"]}
    ),
    Between("0.02", "1"),
]


class InsulationLayer(Record):
    """One layer of an assembly that counts: its R-value, or its thickness and R-value per inch."""

    kind = "insulation layer"
    material: str = ""
    continuous: Maybe[bool] = NOT_GIVEN
    r_value: Maybe[Annotated[Insulation, Between("R-0.1", "R-150")]] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    r_per_inch: Maybe[Annotated[Insulation, Between("R-0.1", "R-20")]] = NOT_GIVEN


class FoamPlastic(Record):
    """Foam plastic in an assembly: what its label says of fire, and what covers it toward the inside.

    `tested_assembly` says that it was tested with its covering, or without one, for just this use.
    """

    kind = "foam plastic"
    where: Maybe[Literal["room", "attic", "crawl space", "sill plate or header", "none toward inside"]] = NOT_GIVEN
    entered_for_service_only: Maybe[bool] = NOT_GIVEN
    cover: tuple[LayerText, ...] = ()
    covered: Maybe[bool] = NOT_GIVEN
    tested_assembly: Maybe[bool] = NOT_GIVEN
    thickness: Maybe[Annotated[Size, Between("1/16 in", "3 ft")]] = NOT_GIVEN
    flame_spread: Maybe[Annotated[Count, Between(1, 1000)]] = NOT_GIVEN
    smoke_developed: Maybe[Annotated[Count, Between(1, 5000)]] = NOT_GIVEN
    density_in_range: Maybe[bool] = NOT_GIVEN


class Assembly(Part):
    """A wall, ceiling or floor of the thermal envelope, with what insulates it."""

    kind = "assembly"
    what: Literal["wall", "mass wall", "ceiling", "floor", "basement wall", "crawl space wall"]
    space: Maybe[SpaceId] = NOT_GIVEN
    layers: tuple[InsulationLayer, ...] = ()
    cavity_r: Maybe[Annotated[Insulation, Between("R-0.5", "R-150")]] = NOT_GIVEN
    continuous_r: Maybe[Annotated[Insulation, Between("R-0.1", "R-150")]] = NOT_GIVEN
    u_factor: Maybe[Annotated[Transmittance, Between("U-0.002", "U-3")]] = NOT_GIVEN
    area: Maybe[Annotated[Area, Between("1 sq ft", "30000 sq ft")]] = NOT_GIVEN
    insulated_ceiling_area: Maybe[Annotated[Area, Between("1 sq ft", "30000 sq ft")]] = NOT_GIVEN
    no_attic_above: Maybe[bool] = NOT_GIVEN
    full_height_at_eaves: Maybe[bool] = NOT_GIVEN
    insulated_inside: Maybe[bool] = NOT_GIVEN
    cavity_opened: Maybe[bool] = NOT_GIVEN
    cavity_filled: Maybe[bool] = NOT_GIVEN
    vapor_retarder: Maybe[Literal["class I", "class II", "class III", "none"]] = NOT_GIVEN
    vented_cladding: Maybe[bool] = NOT_GIVEN
    sheathing: Maybe[Literal["wood structural panel", "fiberboard", "gypsum"]] = NOT_GIVEN
    studs: Maybe[Literal["2x4", "2x6"]] = NOT_GIVEN
    foam_plastic: Maybe[FoamPlastic] = NOT_GIVEN


class SlabEdge(Part):
    """The edge of a slab on ground under conditioned space."""

    kind = "slab edge"
    space: Maybe[SpaceId] = NOT_GIVEN
    below_grade: Maybe[Annotated[Gap, Between("1/16 in", "12 ft")]] = NOT_GIVEN
    r_value: Maybe[Annotated[Insulation, Between("R-0.1", "R-100")]] = NOT_GIVEN
    depth: Maybe[Annotated[Gap, Between("1/4 in", "20 ft")]] = NOT_GIVEN


class AirTightness(Part):
    """How the envelope is sealed and tested: air changes in an hour at 50 Pa."""

    kind = "air tightness"
    air_changes_at_50_pa: Maybe[AirChanges] = NOT_GIVEN
    sealed_as_listed: Maybe[bool] = NOT_GIVEN
    garage_wall_sealed: Maybe[bool] = NOT_GIVEN


class DuctRun(Part):
    """Heating or cooling ducts of one place."""

    kind = "duct run"
    where: Maybe[Literal["attic", "crawl space", "garage", "conditioned space", "outdoors"]] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/2 in", "4 ft")]] = NOT_GIVEN
    r_value: Maybe[Annotated[Insulation, Between("R-0.1", "R-50")]] = NOT_GIVEN
    extension_length: Maybe[Annotated[Size, Between("1 in", "500 ft")]] = NOT_GIVEN
    leakage_tested: Maybe[bool] = NOT_GIVEN
    uses_building_cavity: Maybe[bool] = NOT_GIVEN


class Heating(Part):
    """What heats (and cools) the rooms.

    `supply in` lists the rooms that get a supply register, `return from` those whose air gets back: by a return grille, a
    transfer grille or an undercut door.
    """

    kind = "heating"
    serves: tuple[SpaceId, ...] = ()
    permanent: Maybe[bool] = NOT_GIVEN
    room_temperature_kept: Maybe[bool] = NOT_GIVEN
    sized_by_load_calculation: Maybe[bool] = NOT_GIVEN
    forced_air: Maybe[bool] = NOT_GIVEN
    programmable_thermostat: Maybe[bool] = NOT_GIVEN
    supply_in: tuple[SpaceId, ...] = ()
    return_from: tuple[SpaceId, ...] = ()


class PermanentLighting(Part):
    """The fixed lights of the work, counted for the energy chapter."""

    kind = "permanent lighting"
    fixtures: Maybe[Annotated[Number, Between(1, 1000)]] = NOT_GIVEN
    efficient_fixtures: Maybe[Annotated[Count, Between(1, 1000)]] = NOT_GIVEN
    share_replaced: Maybe[Annotated[Ratio, Between("0.1%", "100%")]] = NOT_GIVEN


__all__ = ["Assembly", "DuctRun", "FoamPlastic", "Heating", "InsulationLayer", "Length", "SlabEdge"]
