"""Exact measures: a number in one canonical unit, and the text it was written as.

A measure never holds a float. Lengths are whole counts of 1/16 micrometer, which represents every multiple of 1/128 in
and of 1/16 um; whatever does not come out whole is a `Fraction`. So ``7 ft`` equals ``84 in`` and a riser of
``108 1/2 in / 14`` compares exactly with ``7 3/4 in``.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Any, ClassVar, Self, overload

from precheck.units.everyday import EXAMPLES, FOOT, HALF_MILLIMETER, METRIC, SIXTEENTH, Exact, with_article
from precheck.units.notation import read
from precheck.units.show import as_written, shown


def exact(number: Exact) -> Exact:
    """Return `number` as an int where it is whole, because ints compare several times faster than fractions."""
    if number.denominator == 1:
        return number.numerator
    if not isinstance(
        number, Fraction
    ):  # such as what is missing, which gives itself for everything that is asked of it
        raise TypeError(f"a measure has a number, not {number!r}")
    return number


class Measure:
    """A quantity of one dimension.

    `n` is the number in the canonical unit of the dimension, `text` what the author wrote (None for a derived value).
    Two measures compare only within their dimension; anything else is a TypeError, because it is a programmer's error.
    """

    __slots__ = ("n", "text")
    dimension: ClassVar[str] = ""
    example: ClassVar[str] = ""

    def __init_subclass__(cls) -> None:
        cls.example = EXAMPLES[cls.dimension]

    def __init__(self, n: Exact, text: str | None = None) -> None:
        self.n = exact(n)
        self.text = text

    @classmethod
    def parse(cls, text: str) -> Self:
        """Read trade notation, such as ``8'-6 1/2"``. Raises `NotationError`, which says what to write instead."""
        found: Self = _parse(cls, text)  # type: ignore[arg-type]  # a class is hashable; typeshed's stub says it is not
        return found

    @classmethod
    def a(cls) -> str:
        """Return the dimension with its article, for messages."""
        return with_article(cls.dimension)

    @property
    def is_metric(self) -> bool:
        """Whether it was written in a metric unit; what is derived shows it where its number is one of metric plans only."""
        return self.text is not None and METRIC.search(self.text) is not None

    @property
    def rounding(self) -> Self:
        """How far two printed figures for the same thing may be apart: half a per cent of it."""
        return type(self)((abs(self) / 200).n)

    def __str__(self) -> str:
        return shown(self.dimension, self.n) if self.text is None else as_written(self.dimension, self.n, self.text)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({str(self)!r})"

    def __hash__(self) -> int:
        return hash((type(self), self.n))

    def __eq__(self, other: object) -> bool:
        return type(other) is type(self) and other.n == self.n

    def __lt__(self, other: Self) -> bool:
        return self.n < self._same(other)

    def __le__(self, other: Self) -> bool:
        return self.n <= self._same(other)

    def __gt__(self, other: Self) -> bool:
        return self.n > self._same(other)

    def __ge__(self, other: Self) -> bool:
        return self.n >= self._same(other)

    def __add__(self, other: Self) -> Self:
        return type(self)(self.n + other.n) if type(other) is type(self) else NotImplemented

    def __sub__(self, other: Self) -> Self:
        alike = isinstance(other, type(self)) or isinstance(self, type(other))
        return type(self)(self.n - other.n) if alike else NotImplemented

    def __neg__(self) -> Self:
        return type(self)(-self.n)

    def __abs__(self) -> Self:
        return self if self.n >= 0 else -self

    def __mul__(self, factor: Exact) -> Self:
        return type(self)(self.n * factor) if isinstance(factor, int | Fraction) else NotImplemented

    @overload
    def __truediv__(self, other: Exact) -> Self: ...
    @overload
    def __truediv__(self, other: Self) -> Fraction: ...
    def __truediv__(self, other: Exact | Self) -> Self | Fraction:
        if isinstance(other, int | Fraction):
            return type(self)(Fraction(self.n) / other)
        return Fraction(self.n) / other.n if type(other) is type(self) else NotImplemented

    def _same(self, other: object) -> Exact:
        if isinstance(other, type(self)) or (isinstance(other, Measure) and isinstance(self, type(other))):
            return other.n
        raise TypeError(f"{self.a()} cannot be compared with {other!r}")

    @classmethod
    def form(cls) -> dict[str, Any]:
        """Return the JSON Schema of how a file gives the measure."""
        return {"type": "string", "description": f"A {cls.dimension} with its unit.", "examples": [cls.example]}

    @classmethod
    def from_file(cls, value: object) -> Self:
        """Return the measure that a field of a file gives. Raises ValueError, which says what to write instead."""
        if isinstance(value, cls):
            return value
        if not isinstance(value, str):
            raise ValueError(f"{cls.a()} belongs here; write it with its unit, such as {cls.example}")
        return cls.parse(value)


@lru_cache(maxsize=4096)
def _parse(cls: Any, text: str) -> Any:
    return cls(read(cls.dimension, text), text.strip())


class Length(Measure):
    """A length; canonical unit 1/16 micrometer. Lengths multiply to an `Area`."""

    __slots__ = ()
    dimension = "length"

    @property
    def is_metric(self) -> bool:
        """Whether it was written in metric; one that is derived, whether it is whole half millimeters and no 1/16 in."""
        if self.text is not None:
            return METRIC.search(self.text) is not None
        return self.n % HALF_MILLIMETER == 0 and self.n % SIXTEENTH != 0

    @property
    def rounding(self) -> Length:
        """1/32 in."""
        return Length(SIXTEENTH // 2)

    def rounded(self) -> Length:
        """Return the nearest sixteenth of an inch."""
        return Length(SIXTEENTH * round(Fraction(self.n) / SIXTEENTH))

    def rounded_up(self) -> Length:
        """Return the next sixteenth of an inch from here up."""
        return Length(SIXTEENTH * -(-self.n // SIXTEENTH))

    def rounded_down(self) -> Length:
        """Return the next sixteenth of an inch from here down."""
        return Length(SIXTEENTH * (self.n // SIXTEENTH))

    @overload  # type: ignore[override]  # a length times a length is an area, which no other measure can do
    def __mul__(self, factor: Exact) -> Length: ...
    @overload
    def __mul__(self, factor: Length) -> Area: ...
    def __mul__(self, factor: Exact | Length) -> Length | Area:
        if isinstance(factor, Length):
            return Area(self.n * factor.n)
        return super().__mul__(factor)


class Area(Measure):
    """An area; canonical unit the square of that of `Length`. Divided by a length it is a length."""

    __slots__ = ()
    dimension = "area"

    @property
    def rounding(self) -> Area:
        """1/20 sq ft."""
        return Area(Fraction(FOOT**2, 20))

    def over(self, length: Length) -> Length:
        """Return the other side of a rectangle of this area, one side of which is `length`."""
        return Length(Fraction(self.n) / length.n)
