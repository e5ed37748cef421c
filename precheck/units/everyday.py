"""The units that plans are written in, each with its exact size in the canonical unit of its dimension.

The tables are keyed by the name of the dimension. They stand here, and not only in the definitions file that pint reads,
because loading pint alone would double the time of a check. A test holds every entry against pint.
"""

import re
from fractions import Fraction

Exact = int | Fraction

INCH = 406_400  # 1/16 um: 25.4 mm exactly, by the international yard and pound agreement of 1959
METRE = 16_000_000
FOOT = 12 * INCH
HALF_MILLIMETER, SIXTEENTH = METRE // 2000, INCH // 16
METRIC = re.compile(r"(?:mm|cm|m|m2|mm2|cm2|sq m|m3|kPa|kN|L/s|m/s|lux|m2 ?K/W|W/m2K|W/\(m2 K\))\s*$")
"""Finds the metric unit at the end of what was written."""

POUND_NEWTONS = Fraction("4.4482216152605")
_FT_M = Fraction("0.3048")
_R_SI = Fraction("5.678263337")  # h ft2 F/Btu in one m2 K/W, as ASHRAE tabulates it, to ten digits

_LENGTHS = {"mm": METRE // 1000, "cm": METRE // 100, "m": METRE, "in": INCH, "inch": INCH, "inches": INCH,
            "ft": FOOT, "foot": FOOT, "feet": FOOT, "yd": 3 * FOOT}  # fmt: skip
_SQUARES = {"sq in": "in", "sq. in": "in", "in2": "in", "sq ft": "ft", "sq. ft": "ft", "sqft": "ft", "sf": "ft",
            "ft2": "ft", "square feet": "ft", "square inches": "in", "m2": "m", "sq m": "m", "cm2": "cm",
            "mm2": "mm"}  # fmt: skip

EVERYDAY: dict[str, dict[str, int | Fraction]] = {
    "length": dict(_LENGTHS),
    "area": {name: _LENGTHS[side] ** 2 for name, side in _SQUARES.items()},
    "slope": {"%": Fraction(1, 100), "percent": Fraction(1, 100)},
    "share": {"%": Fraction(1, 100), "percent": Fraction(1, 100)},
    "factor": {"": 1, "%": Fraction(1, 100), "percent": Fraction(1, 100)},
    "angle": {"degrees": 1, "degree": 1, "deg": 1},
    "volume": {"cu ft": 1, "ft3": 1, "cubic feet": 1, "m3": 1 / _FT_M**3},
    "load": {
        "psf": 1,
        "psi": 144,
        "ksi": 144_000,
        "lb/sq ft": 1,
        "kPa": 1000 * _FT_M**2 / POUND_NEWTONS,
        "kN/m2": 1000 * _FT_M**2 / POUND_NEWTONS,
        "MPa": 10**6 * _FT_M**2 / POUND_NEWTONS,
        "GPa": 10**9 * _FT_M**2 / POUND_NEWTONS,
        "N/mm2": 10**6 * _FT_M**2 / POUND_NEWTONS,
    },
    "force": {"lb": 1, "lbs": 1, "pounds": 1, "kip": 1000, "kN": 1000 / POUND_NEWTONS, "N": 1 / POUND_NEWTONS},
    "line load": {"plf": 1, "lb/ft": 1, "N/m": _FT_M / POUND_NEWTONS, "kN/m": 1000 * _FT_M / POUND_NEWTONS},
    "time": {"min": 1, "minute": 1, "minutes": 1, "h": 60, "hour": 60, "hours": 60, "hr": 60},
    "air flow": {"cfm": 1, "L/s": Fraction(60, 1000) / _FT_M**3},
    "input rating": {"btu/h": 1, "Btu/h": 1, "btuh": 1, "kBtu/h": 1000},
    "R-value": {"h ft2 F/Btu": 1, "m2K/W": _R_SI, "m2 K/W": _R_SI},
    "U-factor": {"Btu/(h ft2 F)": 1, "W/m2K": 1 / _R_SI, "W/(m2 K)": 1 / _R_SI},
    "light level": {"fc": 1, "footcandle": 1, "footcandles": 1, "lux": _FT_M**2},
    "speed": {"mph": 1, "m/s": 3600 / (5280 * _FT_M)},
    "temperature": {"F": 1, "deg F": 1, "degrees F": 1},
}

CANONICAL: dict[str, str] = {
    "length": "in",
    "area": "sq ft",
    "slope": "%",
    "share": "%",
    "factor": "",
    "angle": "degrees",
    "volume": "cu ft",
    "load": "psf",
    "force": "lb",
    "line load": "plf",
    "time": "min",
    "air flow": "cfm",
    "input rating": "Btu/h",
    "R-value": "h ft2 F/Btu",
    "U-factor": "Btu/(h ft2 F)",
    "light level": "fc",
    "speed": "mph",
    "temperature": "F",
}

EXAMPLES: dict[str, str] = {
    "length": "7 3/4 in",
    "area": "5.7 sq ft",
    "slope": "1/4 in per ft",
    "share": "50 %",
    "factor": "0.25",
    "angle": "30 degrees",
    "volume": "1,900 cu ft",
    "load": "40 psf",
    "force": "300 lb",
    "line load": "300 plf",
    "time": "20 min",
    "air flow": "50 cfm",
    "input rating": "38,000 Btu/h",
    "R-value": "R-13",
    "U-factor": "U-0.32",
    "light level": "1 fc",
    "speed": "115 mph",
    "temperature": "68 F",
}


def with_article(dimension: str) -> str:
    """Return the name of a dimension with its article, for messages."""
    return f"{'an' if dimension[0] in 'aeiou' or dimension == 'R-value' else 'a'} {dimension}"
