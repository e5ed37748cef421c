"""Exact measures and trade notation."""

from precheck.units.everyday import Exact
from precheck.units.kinds import (
    AirFlow,
    Angle,
    Duration,
    Force,
    HeatRate,
    Illuminance,
    Insulation,
    LineLoad,
    Pressure,
    Ratio,
    Slope,
    Speed,
    Temperature,
    Transmittance,
    Volume,
    recognize,
)
from precheck.units.measure import Area, Length, Measure
from precheck.units.notation import NotationError
from precheck.units.show import decimal
from precheck.units.wording import derived, finely, in_feet, in_square_inches, like

__all__ = [
    "AirFlow",
    "Angle",
    "Area",
    "Duration",
    "Exact",
    "Force",
    "HeatRate",
    "Illuminance",
    "Insulation",
    "Length",
    "LineLoad",
    "Measure",
    "NotationError",
    "Pressure",
    "Ratio",
    "Slope",
    "Speed",
    "Temperature",
    "Transmittance",
    "Volume",
    "decimal",
    "derived",
    "finely",
    "in_feet",
    "in_square_inches",
    "like",
    "recognize",
]
