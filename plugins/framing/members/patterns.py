"""Live load where it does most harm to a beam: on all of it, on every other stretch, on both sides of each support.

A stretch is a span or an overhang. Load on one bends it most where its neighbors are bare, pulls hardest on a support
where both its sides are loaded, and may lift a support elsewhere. Source: influence lines of a continuous beam, in any
textbook of structures; spans in turn are also what ASCE 7-16 4.3.3 (partial loading, from memory) asks.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from precheck_plugins.framing.members.beams import with_loads
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad

MOST_IN_FULL = 3


class Reach(NamedTuple):
    """The greatest and the least that a load brings to one support, lb; upward is negative."""

    greatest: float
    least: float


@lru_cache(maxsize=64)
def live_patterns(live: Beam, lifted: Beam | None = None) -> tuple[Beam, ...]:
    """The beam with its live load on all of it, and on each choice of stretches that governs somewhere.

    `lifted` is the same beam under the least of its loads, which lie where the live load does not, for what members
    above may lift it by; without it a bare stretch carries nothing. A beam of one stretch has one pattern, or two.
    """
    stretches = live.stretches_in
    if len(stretches) == 1:
        return (live,) if lifted is None else (live, lifted)
    if not live.points and not live.uniforms and lifted is None:
        return (live,)
    return tuple(_pattern(live, lifted, loaded) for loaded in arrangements(len(stretches)))


def arrangements(stretches: int) -> tuple[frozenset[int], ...]:
    """Which of a row of stretches are loaded, by number: all choices of up to three, of more those that govern."""
    everything = frozenset(range(stretches))
    if stretches <= MOST_IN_FULL:
        some = [frozenset(i for i in range(stretches) if bits >> i & 1) for bits in range(1, 2**stretches)]
        return tuple(sorted(some, key=len, reverse=True))
    odd = frozenset(range(0, stretches, 2))
    found = [everything, odd, everything - odd]
    for right in range(
        1, stretches
    ):  # both sides of the support before stretch `right`, and every other one away from it
        both = {*range(right - 1, -1, -2), *range(right, stretches, 2)}
        found += [frozenset(both), everything - both]
    return tuple(dict.fromkeys(found))


def reach_of(live: Beam, lifted: Beam | None = None) -> tuple[Reach, ...]:
    """The greatest and least reaction of each support, lb, each stretch being loaded or bare as it does most harm."""
    if len(live.stretches_in) == 1 and lifted is None:
        return tuple(Reach(max(r, 0.0), min(r, 0.0)) for r in live.reactions_lb)
    sums = [[0.0, 0.0] for _ in live.supports_in]
    for number in range(len(live.stretches_in)):
        alone = [_pattern(beam, None, frozenset((number,))) for beam in (live, lifted) if beam is not None]
        for own, reactions in zip(sums, zip(*(beam.reactions_lb for beam in alone), strict=True), strict=True):
            own[0] += max(*reactions, 0.0)
            own[1] += min(*reactions, 0.0)
    return tuple(Reach(*own) for own in sums)


def _pattern(live: Beam, lifted: Beam | None, loaded: frozenset[int]) -> Beam:
    points, uniforms = _within(live, loaded)
    if lifted is not None:
        bare = frozenset(range(len(live.stretches_in))) - loaded
        up, along = _within(lifted, bare)
        points, uniforms = points + up, uniforms + along
    return with_loads(live, points, uniforms)


def _within(beam: Beam, numbers: frozenset[int]) -> tuple[list[PointLoad], list[UniformLoad]]:
    """The loads that lie on these stretches; one on a support goes with the stretch on its left."""
    chosen = [stretch for number, stretch in enumerate(beam.stretches_in) if number in numbers]
    points = [p for p in beam.points if any(start < p.at_in <= end or p.at_in == start == 0 for start, end in chosen)]
    clipped = [
        UniformLoad(max(u.start_in, start), min(u.end_in, end), u.lb_per_in)
        for u in beam.uniforms
        for start, end in chosen
    ]
    return points, [u for u in clipped if u.end_in > u.start_in]
