"""A beam between two changes of its loads, where everything along it has a closed form.

Positions in inches from the left end, lb, lb per inch, lb-in. Shear is linear, the moment quadratic, the slope cubic and the
deflection quartic, so that what follows from two sets of loads adds up segment by segment, and peaks are found where they are.
Source: statics and the Euler-Bernoulli beam, in any textbook of mechanics of materials.
"""

from __future__ import annotations

from itertools import pairwise
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

MOST_TRIALS = 60
CLOSE = 1e-12


class Segment(NamedTuple):
    """From one change of load to the next, with its even load, and what is there at its start.

    Shear (lb), moment (lb-in, sagging positive), slope times EI (lb-in2, positive where the beam falls to the right) and
    deflection times EI (lb-in3, downward positive).
    """

    start_in: float
    end_in: float
    load: float
    shear: float
    moment: float
    slope: float
    sag: float

    @property
    def end_shear(self) -> float:
        """Shear at its end, lb."""
        return self.shear - self.load * (self.end_in - self.start_in)

    def shear_at(self, at_in: float) -> float:
        """Shear, lb."""
        return self.shear - self.load * (at_in - self.start_in)

    def moment_at(self, at_in: float) -> float:
        """Bending moment, lb-in."""
        s = at_in - self.start_in
        return self.moment + s * (self.shear - s * self.load / 2)

    def slope_at(self, at_in: float) -> float:
        """Slope times EI, lb-in2."""
        s = at_in - self.start_in
        return self.slope - s * (self.moment + s * (self.shear / 2 - s * self.load / 6))

    def sag_at(self, at_in: float) -> float:
        """Deflection times EI, lb-in3."""
        s = at_in - self.start_in
        return self.sag + s * (self.slope - s * (self.moment / 2 + s * (self.shear / 6 - s * self.load / 24)))

    def begun_at(self, at_in: float, end_in: float) -> Segment:
        """The part of it between two positions."""
        if at_in == self.start_in:
            return self if end_in == self.end_in else self._replace(end_in=end_in)
        x = at_in
        return Segment(x, end_in, self.load, self.shear_at(x), self.moment_at(x), self.slope_at(x), self.sag_at(x))

    def turned(self, at_start: float, slope: float) -> Segment:
        """The same piece of a beam that is set down elsewhere: moved at the left end of the beam, and turned."""
        sag = self.sag + at_start + slope * self.start_in
        return Segment(*self[:5], self.slope + slope, sag)

    def unsheared(self) -> Iterator[float]:
        """Where within it the shear is zero, so that the moment peaks."""
        after, before = self.shear, self.end_shear
        if after * before < 0:
            yield self.start_in + (self.end_in - self.start_in) * after / (after - before)

    def level(self, low_in: float, high_in: float) -> Iterator[float]:
        """Where between two positions within it the slope is zero, so that the deflection peaks.

        Between zeros of the moment the slope changes one way only, so that it has at most one zero.
        """
        bare = (self.start_in + s for s in _roots(-self.load / 2, self.shear, self.moment))
        places = (low_in, *sorted(x for x in bare if low_in < x < high_in), high_in)
        slopes = [self.slope_at(x) for x in places]
        for (a, b), (at_a, at_b) in zip(pairwise(places), pairwise(slopes), strict=True):
            if at_a * at_b < 0:
                yield _zero(self.slope_at, (a, at_a), (b, at_b))


def walked(breaks: Sequence[float], jumps: Mapping[float, float], loads: Sequence[float]) -> list[Segment]:
    """The segments between breaks (in), from the left end, which is level: upward forces by place (lb), and even loads."""
    found = []
    shear = moment = slope = sag = 0.0
    for (a, b), load in zip(pairwise(breaks), loads, strict=True):
        shear += jumps.get(a, 0.0)
        found.append(Segment(a, b, load, shear, moment, slope, sag))
        s = b - a
        sag += s * (slope - s * (moment / 2 + s * (shear / 6 - s * load / 24)))
        slope -= s * (moment + s * (shear / 2 - s * load / 6))
        moment += s * (shear - s * load / 2)
        shear -= s * load
    return found


def added(one: Sequence[Segment], other: Sequence[Segment]) -> tuple[Segment, ...]:
    """Two sets of segments of the same beam, added up on the breaks of both."""
    ends = sorted({*(s.end_in for s in one), *(s.end_in for s in other)})
    if not len(one) == len(ends) == len(other):
        one, other = broken_at(ends, one), broken_at(ends, other)
    return tuple(
        Segment(start, end, w1 + w2, v1 + v2, m1 + m2, t1 + t2, y1 + y2)
        for (start, end, w1, v1, m1, t1, y1), (_, _, w2, v2, m2, t2, y2) in zip(one, other, strict=True)
    )


def broken_at(ends: Sequence[float], segments: Sequence[Segment]) -> list[Segment]:
    """The same segments cut where others end too, in."""
    found, at, start = [], iter(segments), 0.0
    whole = next(at)
    for end in ends:
        if start >= whole.end_in:
            whole = next(at, whole)
        found.append(whole.begun_at(start, end))
        start = end
    return found


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Real roots of a x^2 + b x + c."""
    if a == 0:
        return () if b == 0 else (-c / b,)
    inside = b * b - 4 * a * c
    return () if inside < 0 else ((-b - sqrt(inside)) / (2 * a), (-b + sqrt(inside)) / (2 * a))


def _zero(value: Callable[[float], float], low: tuple[float, float], high: tuple[float, float]) -> float:
    """Where a function that changes sign between two positions, each with its value, is zero.

    False position, halving the value at an end that stays (the Illinois rule), which needs a few trials only.
    """
    (left, at_left), (right, at_right) = low, high
    close = CLOSE * max(abs(at_left), abs(at_right))
    middle = right
    for _ in range(MOST_TRIALS):
        middle = (left * at_right - right * at_left) / (at_right - at_left)
        here = value(middle)
        if abs(here) <= close:
            break
        if here * at_right < 0:
            left, at_left = right, at_right
        else:
            at_left /= 2
        right, at_right = middle, here
    return middle
