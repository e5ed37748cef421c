"""Sizes of less common units, from pint on a small definitions file of our own. The only importer of pint."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

_PINT_NAMES = {"sq ft": "ft ** 2", "cu ft": "ft ** 3", "psf": "lbf / ft ** 2", "lb": "lbf", "plf": "lbf / ft", "cfm": "ft ** 3 / min",
               "Btu/h": "Btu / hour", "fc": "footcandle", "degrees": "degree", "in": "inch", "%": "percent",
               "F": "degF", "h ft2 F/Btu": "hour * ft ** 2 * degF / Btu",
               "Btu/(h ft2 F)": "Btu / (hour * ft ** 2 * degF)"}  # fmt: skip


@cache
def registry() -> Any:
    """Return the unit registry: exact fractions, and only the units of `definitions.txt`."""
    import pint

    return pint.UnitRegistry(str(files("precheck.units").joinpath("definitions.txt")), non_int_type=Fraction)


def size_in(unit: str, canonical: str) -> Fraction | None:
    """Return how many `canonical` units one `unit` holds, or None where there is no such unit or it measures else."""
    import pint

    ureg = registry()
    try:
        return Fraction(ureg.Quantity(Fraction(1), unit).m_as(_PINT_NAMES.get(canonical, canonical)))
    except (pint.PintError, AttributeError):
        return None
