"""Builders of beams: on two supports, with overhangs, or running on over more supports.

Inches, lb, lb per inch. The reactions of the supports between the first and the last are those under which the
beam does not sink there, EI being the same all along. Source: the force method of any textbook of structures.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import accumulate
from math import fsum, isfinite
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.segments import CLOSE, added, walked
from precheck_plugins.framing.members.statics import Beam, BeamError, PointLoad, UniformLoad, resultants

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from precheck_plugins.framing.members.segments import Segment

Rows = tuple[tuple[float, ...], ...]


def simple_beam(span_in: float, points: Iterable[PointLoad] = (), uniforms: Iterable[UniformLoad] = ()) -> Beam:
    """A beam on supports at its ends; in, lb, lb per in. Raises BeamError for loads off the beam."""
    return beam_over((span_in,), 0.0, 0.0, points, uniforms)


def overhanging_beam(
    span_in: float,
    left_overhang_in: float,
    right_overhang_in: float,
    points: Iterable[PointLoad] = (),
    uniforms: Iterable[UniformLoad] = (),
) -> Beam:
    """A beam on two supports that runs past them, inches; positions count from its left end. Raises BeamError."""
    return beam_over((span_in,), left_overhang_in, right_overhang_in, points, uniforms)


def beam_over(
    spans_in: Sequence[float],
    left_overhang_in: float,
    right_overhang_in: float,
    points: Iterable[PointLoad] = (),
    uniforms: Iterable[UniformLoad] = (),
) -> Beam:
    """A beam over one or more spans, inches, and past its ends; positions count from its left end. Raises BeamError."""
    length_in = length_over(spans_in, left_overhang_in, right_overhang_in)
    if not (spans_in and min(spans_in) > 0 and min(left_overhang_in, right_overhang_in) >= 0 and isfinite(length_in)):
        told = ", ".join(f"{span:g}" for span in spans_in)
        raise BeamError(f"a beam needs spans over 0 and overhangs of 0 or more, not spans of {told or 'none'} in")
    supports = tuple(accumulate(spans_in, initial=left_overhang_in))
    beam = Beam(length_in, supports, tuple(points), tuple(uniforms))
    _check_places(beam)
    return standing(beam)


def length_over(spans_in: Sequence[float], left_overhang_in: float, right_overhang_in: float) -> float:
    """The length of a beam, in, added up as its supports are, so that a beam without an overhang ends on its last one."""
    *_, last_support = accumulate(spans_in, initial=left_overhang_in)
    return last_support + right_overhang_in


def with_loads(beam: Beam, points: Iterable[PointLoad], uniforms: Iterable[UniformLoad]) -> Beam:
    """The same beam under other loads."""
    return standing(Beam(beam.length_in, beam.supports_in, tuple(points), tuple(uniforms)))


def together(one: Beam, other: Beam) -> Beam:
    """The same beam under the loads of both: what follows from each adds up."""
    reactions = tuple(a + b for a, b in zip(one.reactions_lb, other.reactions_lb, strict=True))
    points, uniforms = one.points + other.points, one.uniforms + other.uniforms
    segments = added(one.segments, other.segments)
    return Beam(one.length_in, one.supports_in, points, uniforms, reactions, segments)


@lru_cache(maxsize=256)
def standing(beam: Beam) -> Beam:
    """The beam with its reactions and what follows from them, kept because a search for a remedy asks of the same loads again."""
    inner = _inner_reactions(beam) if len(beam.supports_in) > 2 else ()
    return _on_ends(beam, inner)


def _on_ends(beam: Beam, inner_lb: tuple[float, ...]) -> Beam:
    """The beam on its first and last support, the supports between them pushing up with these forces."""
    left_in, span_in = beam.left_in, beam.span_in
    pushed = tuple(zip(beam.supports_in[1:-1], inner_lb, strict=True))
    loads = (*resultants(beam), *((-force, at_in) for at_in, force in pushed))
    right = fsum(force * (at_in - left_in) for force, at_in in loads) / span_in
    left = fsum(force for force, _ in loads) - right
    jumps: dict[float, float] = {}
    for at_in, force in ((left_in, left), (beam.right_in, right), *pushed, *((x, -lb) for x, lb in beam.points)):
        jumps[at_in] = jumps.get(at_in, 0.0) + force
    segments = _set_down(beam, walked(*_changes(beam, jumps)))
    return Beam(beam.length_in, beam.supports_in, beam.points, beam.uniforms, (left, *inner_lb, right), segments)


def _changes(beam: Beam, jumps: dict[float, float]) -> tuple[list[float], dict[float, float], list[float]]:
    """Where loads or supports start or end (in), the single forces there (lb), and the even load after each (lb per in)."""
    ends = {x for u in beam.uniforms for x in (u.start_in, u.end_in)}
    breaks = sorted({0.0, beam.length_in, *beam.supports_in, *ends, *jumps})
    spread = [fsum(w for start, end, w in beam.uniforms if start <= x < end) for x in breaks[:-1]]
    return breaks, jumps, spread


def _set_down(beam: Beam, level: list[Segment]) -> tuple[Segment, ...]:
    """The segments of a beam that begins level, moved and turned onto its first and last support."""
    at_left, at_right = (next(s.sag_at(x) for s in level if x <= s.end_in) for x in (beam.left_in, beam.right_in))
    slope = (at_left - at_right) / beam.span_in
    at_start = -at_left - slope * beam.left_in
    return tuple(segment.turned(at_start, slope) for segment in level)


def _inner_reactions(beam: Beam) -> tuple[float, ...]:
    """The forces, lb, that lift the inner supports back by as much as the loads would sink them."""
    ends = (beam.left_in, beam.right_in)
    sunk = _on_ends(Beam(beam.length_in, ends, beam.points, beam.uniforms), ())
    inner = beam.supports_in[1:-1]
    by = tuple(sunk.deflection_ei(at_in) for at_in in inner)
    return tuple(
        fsum(share * d for share, d in zip(row, by, strict=True)) for row in _stiffness(beam.length_in, ends, inner)
    )


@lru_cache(maxsize=256)
def _stiffness(length_in: float, ends: tuple[float, float], inner: tuple[float, ...]) -> Rows:
    """The inverse of the sinking of each inner support under 1 lb at each of them."""
    rows = []
    for at_in in inner:
        single = _on_ends(Beam(length_in, ends, (PointLoad(at_in, 1.0),), ()), ())
        rows.append([single.deflection_ei(other) for other in inner])
    return _inverse(rows)


def _inverse(rows: list[list[float]]) -> Rows:
    """The inverse of a small, well-behaved matrix, by elimination."""
    size = len(rows)
    work = [[*row, *(1.0 if i == j else 0.0 for j in range(size))] for i, row in enumerate(rows)]
    for i in range(size):
        lead = work[i][i]
        work[i] = [value / lead for value in work[i]]
        for j in range(size):
            if j != i and work[j][i]:
                times = work[j][i]
                work[j] = [a - times * b for a, b in zip(work[j], work[i], strict=True)]
    return tuple(tuple(row[size:]) for row in work)


def _check_places(beam: Beam) -> None:
    places = [(p.at_in, p.at_in) for p in beam.points] + [(u.start_in, u.end_in) for u in beam.uniforms]
    for start, end in places:
        if not 0 <= start <= end <= beam.length_in * (1 + CLOSE):
            raise BeamError(f"a load from {start:g} to {end:g} in is not on a beam of {beam.length_in:g} in")
