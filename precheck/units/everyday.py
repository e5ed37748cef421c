"""The units that plans are written in, each with its exact size in the canonical unit of its dimension.

They stand here, and not only in the definitions file that pint reads, because loading pint alone would double the
time of a check. A test holds every entry against pint.
"""

from fractions import Fraction

from precheck.units.measure import (
    AirFlow,
    Angle,
    Area,
    Duration,
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

INCH = 406_400  # 1/16 um: 25.4 mm exactly, by the international yard and pound agreement of 1959
METRE = 16_000_000
FOOT = 12 * INCH
POUND_NEWTONS = Fraction("4.4482216152605")
_FT_M = Fraction("0.3048")
_R_SI = Fraction("5.678263337")  # h ft2 F/Btu in one m2 K/W, as ASHRAE tabulates it, to ten digits

_LENGTHS = {"mm": METRE // 1000, "cm": METRE // 100, "m": METRE, "in": INCH, "inch": INCH, "inches": INCH,
            "ft": FOOT, "foot": FOOT, "feet": FOOT, "yd": 3 * FOOT}  # fmt: skip
_SQUARES = {"sq in": "in", "sq. in": "in", "in2": "in", "sq ft": "ft", "sq. ft": "ft", "sqft": "ft", "sf": "ft",
            "ft2": "ft", "square feet": "ft", "square inches": "in", "m2": "m", "sq m": "m", "cm2": "cm",
            "mm2": "mm"}  # fmt: skip

EVERYDAY: dict[type[Measure], dict[str, int | Fraction]] = {
    Length: dict(_LENGTHS),
    Area: {name: _LENGTHS[side] ** 2 for name, side in _SQUARES.items()},
    Slope: {"%": Fraction(1, 100), "percent": Fraction(1, 100)},
    Ratio: {"%": Fraction(1, 100), "percent": Fraction(1, 100)},
    Angle: {"degrees": 1, "degree": 1, "deg": 1},
    Volume: {"cu ft": 1, "ft3": 1, "cubic feet": 1, "m3": 1 / _FT_M**3},
    Pressure: {"psf": 1, "psi": 144, "lb/sq ft": 1, "kPa": 1000 * _FT_M**2 / POUND_NEWTONS},
    Force: {"lb": 1, "lbs": 1, "pounds": 1, "kip": 1000, "kN": 1000 / POUND_NEWTONS},
    Duration: {"min": 1, "minute": 1, "minutes": 1, "h": 60, "hour": 60, "hours": 60, "hr": 60},
    AirFlow: {"cfm": 1, "L/s": Fraction(60, 1000) / _FT_M**3},
    HeatRate: {"btu/h": 1, "Btu/h": 1, "btuh": 1, "kBtu/h": 1000},
    Insulation: {"h ft2 F/Btu": 1, "m2K/W": _R_SI, "m2 K/W": _R_SI},
    Transmittance: {"Btu/(h ft2 F)": 1, "W/m2K": 1 / _R_SI, "W/(m2 K)": 1 / _R_SI},
    Illuminance: {"fc": 1, "footcandle": 1, "footcandles": 1, "lux": _FT_M**2},
    Speed: {"mph": 1, "m/s": 3600 / (5280 * _FT_M)},
    Temperature: {"F": 1, "deg F": 1, "degrees F": 1},
}

CANONICAL: dict[type[Measure], str] = {
    Length: "in",
    Area: "sq ft",
    Slope: "%",
    Ratio: "%",
    Angle: "degrees",
    Volume: "cu ft",
    Pressure: "psf",
    Force: "lb",
    Duration: "min",
    AirFlow: "cfm",
    HeatRate: "Btu/h",
    Insulation: "h ft2 F/Btu",
    Transmittance: "Btu/(h ft2 F)",
    Illuminance: "fc",
    Speed: "mph",
    Temperature: "F",
}
