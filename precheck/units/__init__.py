"""Exact measures and trade notation."""

from precheck.units.measure import (
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
)
from precheck.units.notation import NotationError, recognise
from precheck.units.show import decimal, derived

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
    "recognise",
]
