"""The further kinds of measure that plans carry: shares, slopes, loads, ratings and the like."""

from __future__ import annotations

from functools import lru_cache

from precheck.units.measure import Area, Length, Measure
from precheck.units.notation import recognized


class Ratio(Measure):
    """A share of a whole; canonical unit the plain ratio. It equals and compares with a `Slope` or a `PlainNumber`."""

    __slots__ = ()
    dimension = "share"

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Ratio) and other.n == self.n

    def __hash__(self) -> int:
        return hash((Ratio, self.n))


class Slope(Ratio):
    """Rise over run; canonical unit the plain ratio. It compares with a `Ratio`, for ``2 %`` is written for both."""

    __slots__ = ()
    dimension = "slope"


class PlainNumber(Ratio):
    """A plain number with decimals, such as an SHGC or air changes per hour. It compares with a `Ratio`."""

    __slots__ = ()
    dimension = "factor"


class Angle(Measure):
    """An angle; canonical unit the degree."""

    __slots__ = ()
    dimension = "angle"


class Volume(Measure):
    """A volume; canonical unit the cubic foot."""

    __slots__ = ()
    dimension = "volume"


class Pressure(Measure):
    """A load on an area; canonical unit the pound per square foot."""

    __slots__ = ()
    dimension = "load"


class Force(Measure):
    """A load at a point; canonical unit the pound."""

    __slots__ = ()
    dimension = "force"


class LineLoad(Measure):
    """A load along a member; canonical unit the pound per foot."""

    __slots__ = ()
    dimension = "line load"


class Duration(Measure):
    """A time, such as a fire rating; canonical unit the minute."""

    __slots__ = ()
    dimension = "time"


class AirFlow(Measure):
    """A rate of air; canonical unit the cubic foot per minute."""

    __slots__ = ()
    dimension = "air flow"


class HeatRate(Measure):
    """An input rating; canonical unit the Btu per hour."""

    __slots__ = ()
    dimension = "input rating"


class Insulation(Measure):
    """A thermal resistance; canonical unit the R-value, h ft2 F/Btu."""

    __slots__ = ()
    dimension = "R-value"


class Transmittance(Measure):
    """A thermal transmittance; canonical unit the U-factor, Btu/(h ft2 F)."""

    __slots__ = ()
    dimension = "U-factor"


class Illuminance(Measure):
    """A light level; canonical unit the footcandle."""

    __slots__ = ()
    dimension = "light level"


class Speed(Measure):
    """A wind speed; canonical unit the mile per hour."""

    __slots__ = ()
    dimension = "speed"


class Temperature(Measure):
    """A temperature; canonical unit the degree Fahrenheit."""

    __slots__ = ()
    dimension = "temperature"


KINDS: dict[str, type[Measure]] = {
    kind.dimension: kind
    for kind in (
        Length,
        Area,
        Slope,
        Ratio,
        PlainNumber,
        Angle,
        Volume,
        Pressure,
        Force,
        LineLoad,
        Duration,
        AirFlow,
        HeatRate,
        Insulation,
        Transmittance,
        Illuminance,
        Speed,
        Temperature,
    )
}


@lru_cache(maxsize=4096)
def recognize(text: str) -> Measure | None:
    """Return the measure that `text` writes in an everyday unit, of whichever dimension; None where it writes none."""
    found = recognized(text)
    return KINDS[found[0]](found[1], text) if found is not None else None
