"""All loads on one member with its spans: as a beam under each kind of load, and what it brings to its supports."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from math import fsum

from precheck_plugins.framing.drawn.loads import DEAD, Piece
from precheck_plugins.framing.members.beams import beam_over, length_over
from precheck_plugins.framing.members.patterns import Reach, reach_of
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad
from precheck_plugins.framing.timber.steps import Step

from precheck import fixed


@fixed
class Loading:
    """All loads on one member, with its spans and overhangs, inches; a post has none.

    `own` is what it weighs itself (plf, of a post lb), None where that is within a load that is stated. `hung` says whether
    loads hang on its side, None where the drawings do not say. `veneer` says that it carries masonry veneer.
    """

    spans_in: tuple[float, ...]
    overhang_in: float
    pieces: tuple[Piece, ...]
    own: Step | None = None
    first_overhang_in: float = 0.0
    hung: bool | None = False
    veneer: bool = False

    @property
    def span_in(self) -> float:
        """The longest span, in; 0 of a post."""
        return max(self.spans_in, default=0.0)

    @property
    def supports(self) -> int:
        """How many supports hold it."""
        return len(self.spans_in) + 1

    @property
    def all_pieces(self) -> tuple[Piece, ...]:
        """Its loads with its own weight."""
        return self.pieces if self.own is None else (*self.pieces, Piece(DEAD, self.own.value, self.own))

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of load that it carries."""
        return tuple(dict.fromkeys(piece.kind for piece in self.all_pieces))

    @cached_property
    def is_even(self) -> bool:
        """Whether it is one span without overhangs under loads that lie evenly on all of it, and that nothing lifts."""
        bare = len(self.spans_in) == 1 and not self.overhang_in and not self.first_overhang_in
        return bare and all(piece.is_everywhere and piece.least >= 0 for piece in self.pieces)

    def total(self, kind: str) -> float:
        """The whole load of one kind, plf for what is spread; for a post, lb."""
        return fsum(piece.amount for piece in self.all_pieces if piece.kind == kind)

    def least(self, kind: str) -> float:
        """The least load of one kind on a post, lb: what is always there, and what may lift it."""
        return fsum(p.amount if kind == DEAD else p.least for p in self.all_pieces if p.kind == kind)

    def beam(self, factors: dict[str, float]) -> Beam:
        """The member as a beam under each kind of load times its factor. Raises BeamError."""
        return self._beam([(p, p.amount * factors[p.kind]) for p in self.all_pieces if p.kind in factors])

    @cached_property
    def dead(self) -> Beam:
        """The member as a beam under its dead load. Raises BeamError."""
        return self.beam({DEAD: 1.0})

    def lifted(self, factors: dict[str, float]) -> Beam | None:
        """The member under what members above may lift it by; None where none does."""
        lifting = [(p, p.least * factors[p.kind]) for p in self.pieces if p.kind in factors and p.least < 0]
        return self._beam(lifting) if lifting else None

    def reaches(self, kind: str) -> tuple[Reach, ...]:
        """The greatest and least that a kind of load brings to each support, lb; a post brings all to its foot."""
        if not self.spans_in:
            return (Reach(self.total(kind), self.least(kind)),)
        if kind == DEAD:
            return tuple(Reach(lb, lb) for lb in self.dead.reactions_lb)
        return reach_of(self.beam({kind: 1.0}), self.lifted({kind: 1.0}))

    def steps(self) -> tuple[Step, ...]:
        """Each load with where it comes from."""
        return tuple(piece.step for piece in self.all_pieces)

    def shorter(self, by_in: float) -> Loading:
        """The same loads on a single span that is a little shorter."""
        return replace(self, spans_in=(self.spans_in[0] - by_in,))

    def scaled(self, share: float) -> Loading:
        """A share of its loads, its own weight aside."""
        pieces = tuple(p._replace(amount=p.amount * share, least=p.least * share) for p in self.pieces)
        return replace(self, pieces=pieces)

    def _beam(self, loads: list[tuple[Piece, float]]) -> Beam:
        first = self.first_overhang_in
        length = length_over(self.spans_in, first, self.overhang_in)
        points = [PointLoad((p.at_in or 0.0) + first, lb) for p, lb in loads if p.is_point and lb]
        even = fsum(plf for p, plf in loads if p.is_everywhere)
        partial = [
            UniformLoad(
                0.0 if p.at_in is None else p.at_in + first, length if p.to_in is None else p.to_in + first, plf / 12
            )
            for p, plf in loads
            if not p.is_point and not p.is_everywhere and plf
        ]
        uniforms = [UniformLoad(0.0, length, even / 12), *partial] if even else partial
        return beam_over(self.spans_in, first, self.overhang_in, points, uniforms)
