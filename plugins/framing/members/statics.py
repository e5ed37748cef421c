"""Statics of a straight beam on two or more supports, with overhangs, point loads and partial uniform loads.

Positions in inches from the left end, point loads in lb, uniform loads in lb per inch, moments in lb-in
(sagging is positive), deflections times EI in lb-in3 (downward is positive). Everything along the beam stands in its segments,
each with a closed form (segments.py). The builders stand in beams.py.
"""

from __future__ import annotations

from dataclasses import field
from itertools import pairwise
from math import fsum
from typing import TYPE_CHECKING, NamedTuple

from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.members.segments import Segment


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


@fixed
class Beam:
    """A beam of `length_in` on supports at `supports_in`, its loads, and what follows from them.

    Build it with a function of beams.py, which checks it and finds the rest: the reactions (lb, upward; a negative one is
    held down), and its segments from left to right, between positions where a load or support starts or ends.
    """

    length_in: float
    supports_in: tuple[float, ...]
    points: tuple[PointLoad, ...]
    uniforms: tuple[UniformLoad, ...]
    reactions_lb: tuple[float, ...] = field(default=(), compare=False)
    segments: tuple[Segment, ...] = field(default=(), compare=False)

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
        """Shear just right of a position, lb: forces on its left; none past the end."""
        return next((s.shear_at(at_in) for s in self.segments if at_in < s.end_in), 0.0)

    def shear_before_lb(self, at_in: float) -> float:
        """Shear just left of a position, lb; none before the left end."""
        return 0.0 if at_in <= 0 else self._before(at_in).shear_at(at_in)

    def moment_inlb(self, at_in: float) -> float:
        """Bending moment, lb-in."""
        return self._before(at_in).moment_at(at_in)

    def bent_inlb3(self, at_in: float) -> float:
        """The moment integrated twice from the left end, lb-in3: what the deflection lacks to the line of its first slope."""
        first = self.segments[0]
        return first.sag + first.slope * at_in - self.deflection_ei(at_in)

    def deflection_ei(self, at_in: float) -> float:
        """Downward deflection times EI, lb-in3; 0 at the supports."""
        return self._before(at_in).sag_at(at_in)

    def greatest_shear(self) -> Peak:
        """The largest shear on either side of any change of load, as a positive number, lb."""
        after = (Peak(abs(s.shear), s.start_in) for s in self.segments)
        before = (Peak(abs(s.end_shear), s.end_in) for s in self.segments)
        return max(*after, *before)

    def shear_away_from_supports(self, distance_in: float) -> Peak:
        """Shear with uniform loads nearer than this to a support ignored and point loads scaled by x/d, lb.

        Source: NDS 3.4.3.1 (from memory); allowed where the load acts on the side opposite the bearing.
        """
        near = ((self.from_support_in(p.at_in), p.force_lb) for p in self.points)
        scaled = fsum(abs(force) * away / distance_in for away, force in near if away < distance_in)
        places = {x for s in self.supports_in for x in (s - distance_in, s + distance_in)}
        places.update(self.breaks)
        clear = [x for x in places if self.is_clear(x, distance_in)]
        found = (max(abs(self.shear_lb(x)), abs(self.shear_before_lb(x))) for x in clear)
        least = Peak(scaled, self.left_in)
        return max((Peak(v + scaled, x) for v, x in zip(found, clear, strict=True)), default=least)

    def shear_beside_lb(self, support: int) -> float:
        """The greater shear on the two sides of a support, by its place in the row, as a positive number, lb."""
        at_in = self.supports_in[support]
        return max(abs(self.shear_before_lb(at_in)), abs(self.shear_lb(at_in)))

    def moments(self) -> tuple[Peak, ...]:
        """The moment, lb-in, wherever it may be greatest or least."""
        last = self.segments[-1]
        peaks = [Peak(s.moment, s.start_in) for s in self.segments]
        inside = [Peak(s.moment_at(x), x) for s in self.segments for x in s.unsheared()]
        return (*peaks, Peak(last.moment_at(last.end_in), last.end_in), *inside)

    def greatest_moment(self) -> Peak:
        """The moment of largest size, lb-in, negative where the beam hogs."""
        return max(self.moments(), key=_size)

    def greatest_deflection_ei(self, start_in: float, end_in: float) -> Peak:
        """The deflection of largest size between two positions, times EI, lb-in3."""
        found = []
        for segment in self.segments:
            low, high = max(start_in, segment.start_in), min(end_in, segment.end_in)
            if low < high:
                found += [Peak(segment.sag_at(x), x) for x in (low, high, *segment.level(low, high))]
        return max(found, key=_size)

    @property
    def breaks(self) -> tuple[float, ...]:
        """Every position where a load or support starts or ends, in."""
        return (0.0, *(s.end_in for s in self.segments))

    def from_support_in(self, at_in: float) -> float:
        """Distance to the nearest support, in."""
        return min(abs(at_in - support) for support in self.supports_in)

    def is_clear(self, at_in: float, distance_in: float) -> bool:
        """Whether a position is on the beam and this far (in) from every support."""
        return 0 <= at_in <= self.length_in and self.from_support_in(at_in) >= distance_in - 1e-9

    def _before(self, at_in: float) -> Segment:
        """The segment that ends at a position or holds it."""
        return next((s for s in self.segments if at_in <= s.end_in), self.segments[-1])


def resultants(beam: Beam) -> tuple[tuple[float, float], ...]:
    """Each load as its downward force (lb) and where its resultant acts (in)."""
    spread = ((w * (end - start), (start + end) / 2) for start, end, w in beam.uniforms)
    return (*((p.force_lb, p.at_in) for p in beam.points), *spread)


def _size(peak: Peak) -> float:
    return abs(peak.value)
