"""Numbers of a design file as measures a person would write: metric where the file is metric, else feet and inches."""

from __future__ import annotations

from fractions import Fraction

INCH = 0.0254
FOOT = 0.3048
_SAME = 1e-6  # meters; what a length may be off its 1/64 in for the noise of floating point
_U_FACTOR = 5.678263337  # W/m2K in one Btu/(h ft2 F)
_SAME_U = 1e-5  # what a U-factor may be off its thousandth for the digits that a file keeps
_UNITS = {"feet": FOOT, "inches": INCH, "millimeters": 0.001, "centimeters": 0.01, "meters": 1.0}


def length(meters: float, imperial: bool = False) -> str:
    """Return a length as text: millimeters to the micrometer, or inches, as a fraction where it is one."""
    if not imperial:
        return f"{_decimal(meters * 1000, 3)} mm"
    inches = meters / INCH
    near = Fraction(round(inches * 64), 64)
    if abs(float(near) * INCH - meters) > _SAME:
        return f"{_decimal(inches, 4)} in"
    whole, part = divmod(abs(near), 1)
    sign = "-" if near < 0 else ""
    return f"{sign}{' '.join(str(n) for n in (whole, part) if n) or 0} in"


def area(square_meters: float, imperial: bool = False) -> str:
    """Return an area as text."""
    if imperial:
        return f"{_decimal(square_meters / FOOT**2, 3)} sq ft"
    return f"{_decimal(square_meters, 4)} m2"


def point(x: float, y: float, imperial: bool = False) -> str:
    """Return a point of the plan as text."""
    return f"[{length(x, imperial)}, {length(y, imperial)}]"


def box(width: float, height: float, imperial: bool = False) -> str:
    """Return a width and a height as text."""
    return f"{length(width, imperial)} x {length(height, imperial)}"


def transmittance(watts: float) -> str:
    """Return a thermal transmittance in W/m2K as text: as a U-factor where it is one to three places."""
    factor = watts / _U_FACTOR
    near = round(factor, 3)
    return f"U-{_decimal(near, 3)}" if abs(near - factor) <= _SAME_U else f"{_decimal(watts, 4)} W/m2K"


def unit_that_fits(number: float, meters: float, tolerance: float) -> str | None:
    """Return the unit in which `number` is the length `meters`; None where it is so in none."""
    return next((unit for unit, size in _UNITS.items() if abs(number * size - meters) <= tolerance), None)


def _decimal(number: float, places: int) -> str:
    text = f"{number:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


__all__ = ["FOOT", "INCH", "area", "box", "length", "point", "transmittance", "unit_that_fits"]
