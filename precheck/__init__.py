"""A pre-check of residential remodeling drawings against amendable rulesets: all that plugins import.

Each name is loaded when it is first used, so that ``precheck --help`` stays quick.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from precheck.checks import (
        Check,
        Look,
        Outcome,
        agrees,
        all_of,
        any_of,
        at_least,
        at_most,
        broken,
        decide,
        does_not_apply,
        every,
        less_than,
        look_at,
        met,
        not_shown,
        one_of,
        required,
    )
    from precheck.hooks import (
        Section,
        hookimpl,
    )
    from precheck.limits import (
        Limit,
    )
    from precheck.missing import (
        Missing,
        is_missing,
        first_given,
        missing_of,
        when_given,
    )
    from precheck.project import (
        OUTSIDE,
        AddressSign,
        Appliance,
        BesideDoor,
        BesideStair,
        BesideWetArea,
        Ceiling,
        CoveredArea,
        Door,
        Duct,
        Dwelling,
        Easement,
        Face,
        Flight,
        FloodOpening,
        Floor,
        Guard,
        Handrail,
        Hatch,
        Landing,
        Layer,
        Lot,
        LotLine,
        Note,
        Opening,
        Pane,
        ParkingStall,
        Part,
        Passage,
        Penetration,
        Project,
        RailBefore,
        Ramp,
        RampLanding,
        Recess,
        ScheduleRow,
        Setback,
        Sheet,
        Skylight,
        Space,
        SpaceBeneath,
        Stair,
        StairLanding,
        StairLighting,
        Storey,
        Submittal,
        Support,
        Wall,
        WetArea,
        WidthHeight,
        Window,
        Work,
        thickness_of,
    )
    from precheck.rules import (
        Rule,
        reads,
        rule,
        rules_in,
    )
    from precheck.survey import (
        Fact,
        House,
        Stretch,
        apart,
        at_right_angle,
        depth_from,
        edges,
        from_point,
        gap_between,
        in_one_plane,
        stands_before,
        stretch_of,
        to_outline,
    )
    from precheck.units import (
        AirFlow,
        Angle,
        Area,
        Duration,
        Exact,
        Force,
        HeatRate,
        Illuminance,
        Insulation,
        Length,
        Measure,
        Pressure,
        Ratio,
        Slope,
        Speed,
        Temperature,
        Transmittance,
        Volume,
        decimal,
    )

__version__ = "0.1.0"

_HOME_OF = {
    name: home
    for home, names in {
        "checks": (
            "Check Look Outcome agrees all_of any_of at_least at_most broken decide does_not_apply every "
            "less_than look_at met not_shown one_of required"
        ),
        "hooks": "Section hookimpl",
        "limits": "Limit",
        "missing": "Missing first_given is_missing missing_of when_given",
        "project": (
            "OUTSIDE AddressSign Appliance BesideDoor BesideStair BesideWetArea Ceiling CoveredArea Door "
            "Duct Dwelling Easement Face Flight FloodOpening Floor Guard Handrail Hatch Landing Layer Lot "
            "LotLine Note Opening Pane ParkingStall Part Passage Penetration Project RailBefore Ramp "
            "RampLanding Recess ScheduleRow Setback Sheet Skylight Space SpaceBeneath Stair StairLanding "
            "StairLighting Storey Submittal Support Wall WetArea WidthHeight Window Work thickness_of"
        ),
        "rules": "Rule reads rule rules_in",
        "survey": (
            "Fact House Stretch apart at_right_angle depth_from edges from_point gap_between in_one_plane "
            "stands_before stretch_of to_outline"
        ),
        "units": (
            "AirFlow Angle Area Duration Exact Force HeatRate Illuminance Insulation Length Measure Pressure "
            "Ratio Slope Speed Temperature Transmittance Volume decimal"
        ),
    }.items()
    for name in names.split()
}

__all__ = [
    "OUTSIDE",
    "AddressSign",
    "AirFlow",
    "Angle",
    "Appliance",
    "Area",
    "BesideDoor",
    "BesideStair",
    "BesideWetArea",
    "Ceiling",
    "Check",
    "CoveredArea",
    "Door",
    "Duct",
    "Duration",
    "Dwelling",
    "Easement",
    "Exact",
    "Face",
    "Fact",
    "Flight",
    "FloodOpening",
    "Floor",
    "Force",
    "Guard",
    "Handrail",
    "Hatch",
    "HeatRate",
    "House",
    "Illuminance",
    "Insulation",
    "Landing",
    "Layer",
    "Length",
    "Limit",
    "Look",
    "Lot",
    "LotLine",
    "Measure",
    "Missing",
    "Note",
    "Opening",
    "Outcome",
    "Pane",
    "ParkingStall",
    "Part",
    "Passage",
    "Penetration",
    "Pressure",
    "Project",
    "RailBefore",
    "Ramp",
    "RampLanding",
    "Ratio",
    "Recess",
    "Rule",
    "ScheduleRow",
    "Section",
    "Setback",
    "Sheet",
    "Skylight",
    "Slope",
    "Space",
    "SpaceBeneath",
    "Speed",
    "Stair",
    "StairLanding",
    "StairLighting",
    "Storey",
    "Stretch",
    "Submittal",
    "Support",
    "Temperature",
    "Transmittance",
    "Volume",
    "Wall",
    "WetArea",
    "WidthHeight",
    "Window",
    "Work",
    "__version__",
    "agrees",
    "all_of",
    "any_of",
    "apart",
    "at_least",
    "at_most",
    "at_right_angle",
    "broken",
    "decide",
    "decimal",
    "depth_from",
    "does_not_apply",
    "edges",
    "every",
    "first_given",
    "from_point",
    "gap_between",
    "hookimpl",
    "in_one_plane",
    "is_missing",
    "less_than",
    "look_at",
    "met",
    "missing_of",
    "not_shown",
    "one_of",
    "reads",
    "required",
    "rule",
    "rules_in",
    "stands_before",
    "stretch_of",
    "thickness_of",
    "to_outline",
    "when_given",
]


def __getattr__(name: str) -> Any:
    home = _HOME_OF.get(name)
    if home is None:
        raise AttributeError(f"precheck offers no {name}")
    value = getattr(import_module(f"precheck.{home}"), name)
    globals()[name] = value
    return value
