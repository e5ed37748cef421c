"""Statics of a straight beam on two or more supports, with overhangs, point loads and partial uniform loads.

Positions in inches from the left end, point loads in lb, uniform loads in lb per inch, moments in lb-in
(sagging is positive), deflections times EI in lb-in3 (downward is positive). Between changes of load shear is
linear, the moment quadratic and the deflection quartic, so that peaks are found where they are and not by
sampling. Source: statics and the Euler-Bernoulli beam, in any textbook of mechanics of materials. The builders
stand in beams.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import sqrt
from typing import TYPE_CHECKING, NamedTuple

from precheck_plugins.framing.timber.outside import OutsideMethodError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

MOST_TRIALS = 60
CLOSE = 1e-12


class BeamError(OutsideMethodError):
    """A beam that cannot stand or loads that miss it; the message says which."""


class PointLoad(NamedTuple):
    """A downward force of `force_lb` at `at_in` from the left end."""

    at_in: float
    force_lb: float


class UniformLoad(NamedTuple):
    """A downward load of `lb_per_in` from `start_in` to `end_in`, from the left end."""

    start_in: float
    end_in: float
    lb_per_in: float


class Peak(NamedTuple):
    """A greatest value and the position, in from the left end, where it occurs."""

    value: float
    at_in: float


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam of `length_in` on supports at `supports_in`, its loads, and what follows from them.

    Build it with a function of beams.py, which checks it and finds the rest: the reactions (lb, upward; a
    negative one is held down), every single force as position (in) and upward lb, every position where a load
    or support starts or ends, and the slope at the left end times EI (lb-in2).
    """

    length_in: float
    supports_in: tuple[float, ...]
    points: tuple[PointLoad, ...]
    uniforms: tuple[UniformLoad, ...]
    reactions_lb: tuple[float, ...] = ()
    upward: tuple[tuple[float, float], ...] = ()
    breaks: tuple[float, ...] = ()
    turn_ei: float = 0.0

    @property
    def left_in(self) -> float:
        """The first support, in."""
        return self.supports_in[0]

    @property
    def right_in(self) -> float:
        """The last support, in."""
        return self.supports_in[-1]

    @property
    def span_in(self) -> float:
        """Distance between the first and the last support, in."""
        return self.right_in - self.left_in

    @property
    def stretches_in(self) -> tuple[tuple[float, float], ...]:
        """Each overhang and each span from left to right as its start and end, in; none without length."""
        ends = (0.0, *self.supports_in, self.length_in)
        return tuple((start, end) for start, end in pairwise(ends) if end > start)

    def shear_lb(self, at_in: float) -> float:
        """Shear just right of a position, lb: forces on its left."""
        single = sum(force for x, force in self.upward if x <= at_in)
        return single - self._spread_lb(at_in)

    def shear_before_lb(self, at_in: float) -> float:
        """Shear just left of a position, lb."""
        single = sum(force for x, force in self.upward if x < at_in)
        return single - self._spread_lb(at_in)

    def moment_inlb(self, at_in: float) -> float:
        """Bending moment, lb-in."""
        single = sum(force * (at_in - x) for x, force in self.upward if x < at_in)
        return single - self._spread(at_in, 2) / 2

    def bent_inlb3(self, at_in: float) -> float:
        """The moment integrated twice from the left end, lb-in3."""
        single = sum(force * (at_in - x) ** 3 for x, force in self.upward if x < at_in)
        return single / 6 - self._spread(at_in, 4) / 24

    def slope_ei(self, at_in: float) -> float:
        """Slope times EI, lb-in2, positive where the beam falls to the right."""
        single = sum(force * (at_in - x) ** 2 for x, force in self.upward if x < at_in)
        return self.turn_ei - single / 2 + self._spread(at_in, 3) / 6

    def deflection_ei(self, at_in: float) -> float:
        """Downward deflection times EI, lb-in3; 0 at the supports."""
        return self.bent_inlb3(self.left_in) + self.turn_ei * (at_in - self.left_in) - self.bent_inlb3(at_in)

    def greatest_shear(self) -> Peak:
        """The largest shear on either side of any change of load, as a positive number, lb."""
        places = self.breaks
        after = (Peak(abs(self.shear_lb(x)), x) for x in places[:-1])
        before = (Peak(abs(self.shear_before_lb(x)), x) for x in places[1:])
        return max(*after, *before)

    def shear_away_from_supports(self, distance_in: float) -> Peak:
        """Shear with uniform loads nearer than this to a support ignored and point loads scaled by x/d, lb.

        Source: NDS 3.4.3.1 (from memory); allowed where the load acts on the side opposite the bearing.
        """
        near = ((self.from_support_in(p.at_in), p.force_lb) for p in self.points)
        scaled = sum(abs(force) * away / distance_in for away, force in near if away < distance_in)
        places = {x for s in self.supports_in for x in (s - distance_in, s + distance_in)}
        places.update(self.breaks)
        clear = [x for x in places if self.is_clear(x, distance_in)]
        found = (max(abs(self.shear_lb(x)), abs(self.shear_before_lb(x))) for x in clear)
        least = Peak(scaled, self.left_in)
        return max((Peak(v + scaled, x) for v, x in zip(found, clear, strict=True)), default=least)

    def shear_beside_lb(self, support: int) -> float:
        """The greater shear on the two sides of a support, by its place in the row, as a positive number, lb."""
        at_in = self.supports_in[support]
        return max(abs(self.shear_before_lb(at_in)), abs(self.shear_lb(at_in)) if at_in < self.length_in else 0.0)

    def moments(self) -> tuple[Peak, ...]:
        """The moment, lb-in, wherever it may be greatest or least."""
        return tuple(Peak(self.moment_inlb(x), x) for x in (*self.breaks, *self._zeros_of_shear()))

    def greatest_moment(self) -> Peak:
        """The moment of largest size, lb-in, negative where the beam hogs."""
        return max(self.moments(), key=_size)

    def greatest_deflection_ei(self, start_in: float, end_in: float) -> Peak:
        """The deflection of largest size between two positions, times EI, lb-in3."""
        within = (x for x in (*self.breaks, *self._zeros_of_moment()) if start_in < x < end_in)
        places = sorted({start_in, *within, end_in})
        # Between zeros of the moment the slope changes one way only, so that it has at most one zero.
        level = (_zero(self.slope_ei, a, b) for a, b in pairwise(places))
        return max((Peak(self.deflection_ei(x), x) for x in (*places, *level)), key=_size)

    def from_support_in(self, at_in: float) -> float:
        """Distance to the nearest support, in."""
        return min(abs(at_in - support) for support in self.supports_in)

    def is_clear(self, at_in: float, distance_in: float) -> bool:
        """Whether a position is on the beam and this far (in) from every support."""
        return 0 <= at_in <= self.length_in and self.from_support_in(at_in) >= distance_in - 1e-9

    def _spread_lb(self, at_in: float) -> float:
        return sum(w * (min(at_in, end) - start) for start, end, w in self.uniforms if at_in > start)

    def _spread(self, at_in: float, power: int) -> float:
        started = ((start, end, w) for start, end, w in self.uniforms if at_in > start)
        return sum(w * ((at_in - start) ** power - max(at_in - end, 0.0) ** power) for start, end, w in started)

    def _zeros_of_shear(self) -> Iterator[float]:
        for a, b in pairwise(self.breaks):
            after, before = self.shear_lb(a), self.shear_before_lb(b)
            if after * before < 0:
                yield a + (b - a) * after / (after - before)

    def _zeros_of_moment(self) -> Iterator[float]:
        for a, b in pairwise(self.breaks):
            after, before = self.shear_lb(a), self.shear_before_lb(b)
            load = (after - before) / (b - a)
            yield from (a + x for x in _roots(-load / 2, after, self.moment_inlb(a)) if 0 < x < b - a)


def resultants(beam: Beam) -> tuple[tuple[float, float], ...]:
    """Each load as its downward force (lb) and where its resultant acts (in)."""
    spread = ((w * (end - start), (start + end) / 2) for start, end, w in beam.uniforms)
    return (*((p.force_lb, p.at_in) for p in beam.points), *spread)


def _size(peak: Peak) -> float:
    return abs(peak.value)


def _roots(a: float, b: float, c: float) -> tuple[float, ...]:
    """Real roots of a x^2 + b x + c."""
    if a == 0:
        return () if b == 0 else (-c / b,)
    inside = b * b - 4 * a * c
    return () if inside < 0 else ((-b - sqrt(inside)) / (2 * a), (-b + sqrt(inside)) / (2 * a))


def _zero(value: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that changes sign between two positions is zero; the upper one if it does not.

    False position, halving the value at an end that stays (the Illinois rule), which needs a few trials only.
    """
    at_low, at_high = value(low), value(high)
    if at_low * at_high >= 0:
        return low if at_low == 0 else high
    close = CLOSE * max(abs(at_low), abs(at_high))
    middle = high
    for _ in range(MOST_TRIALS):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        here = value(middle)
        if abs(here) <= close:
            break
        if here * at_high < 0:
            low, at_low = high, at_high
        else:
            at_low /= 2
        high, at_high = middle, here
    return middle
