"""The way of the loads: from each member to what it bears on, down to the ground.

A member gets the reactions of all members that bear on it: of a row of joists as a load along it, of a beam or post as
a load at a point. Reactions are kept by kind of load.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from precheck_plugins.framing.drawn.loads import Piece, own_pieces
from precheck_plugins.framing.drawn.setting import Setting, inches
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad, overhanging_beam
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, number

from precheck import Bearing, Member, Missing, is_missing

ENDS = ("first", "second")
MOST_SUPPORTS = 2


@dataclass(frozen=True)
class Loading:
    """All loads on one member with its span and overhang, inches; a post has neither."""

    span_in: float
    overhang_in: float
    pieces: tuple[Piece, ...]

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of load that it carries."""
        return tuple(dict.fromkeys(piece.kind for piece in self.pieces))

    @property
    def points(self) -> bool:
        """Whether any load stands at a point."""
        return any(piece.step.unit == "lb" for piece in self.pieces)

    def total(self, kind: str) -> float:
        """The whole load of one kind, plf for what is spread; for a post, lb."""
        return sum(piece.amount for piece in self.pieces if piece.kind == kind)

    def beam(self, factors: dict[str, float]) -> Beam:
        """The member as a beam under each kind of load times its factor."""
        length = self.span_in + self.overhang_in
        spread = sum(p.amount * factors.get(p.kind, 0.0) for p in self.pieces if p.step.unit == "plf")
        points = [
            PointLoad(min(p.at_in or 0.0, length), p.amount * factors[p.kind])
            for p in self.pieces
            if p.step.unit == "lb" and p.kind in factors
        ]
        uniforms = [UniformLoad(0.0, length, spread / 12)] if spread else []
        return overhanging_beam(self.span_in, 0.0, self.overhang_in, points, uniforms)

    def steps(self) -> tuple[Step, ...]:
        """Each load with where it comes from."""
        return tuple(piece.step for piece in self.pieces)


def loading_of(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> Loading | Missing:
    """Return the loads on a member. Raises OutsideMethodError where members bear on each other in a circle."""
    if member.id in above:
        raise OutsideMethodError(f"{' bears on '.join((*above, member.id))}: members cannot carry each other")
    if len(member.bears_on) > MOST_SUPPORTS:
        raise OutsideMethodError(
            f"{member.id} has {len(member.bears_on)} supports; over more than {MOST_SUPPORTS} is outside this method: "
            "draw each span as a member of its own, or have it designed"
        )
    is_post = member.role == "post"
    span = None if is_post else member.span
    if is_missing(span):
        return span
    pieces = _pieces(member, setting, (*above, member.id))
    if is_missing(pieces):
        return pieces
    past = 0.0 if is_post or is_missing(member.overhang) else inches(member.overhang)
    return Loading(0.0 if span is None else inches(span), past, pieces)


def _pieces(member: Member, setting: Setting, above: tuple[str, ...]) -> tuple[Piece, ...] | Missing:
    found: list[Piece] = []
    groups = [*(own_pieces(member, load, setting) for load in member.carries), *_brought(member, setting, above)]
    for group in groups:
        if is_missing(group):
            return group
        found.extend(group)
    return tuple(found) if found else member.absent("carries")


def _brought(member: Member, setting: Setting, above: tuple[str, ...]) -> Iterator[tuple[Piece, ...] | Missing]:
    for other, index, bearing in resting_on(member, setting):
        reactions = reactions_of(other, setting, above)
        if is_missing(reactions):
            yield reactions
        else:
            forces = {kind: ends[min(index, 1)] for kind, ends in reactions.items()}
            yield _landed(member, other, bearing, forces)


def resting_on(member: Member, setting: Setting) -> Iterator[tuple[Member, int, Bearing]]:
    """Yield each end of another member that bears on `member`."""
    for other in setting.project.members:
        if not other.is_removed:
            for index, bearing in enumerate(other.bears_on):
                if bearing.on == member.id:
                    yield other, index, bearing


def reactions_of(
    member: Member, setting: Setting, above: tuple[str, ...] = ()
) -> dict[str, tuple[float, float]] | Missing:
    """Return what a member brings to its first and second support, lb by kind; a post brings all to its foot."""
    loading = loading_of(member, setting, above)
    if is_missing(loading):
        return loading
    if member.role == "post":
        return {kind: (loading.total(kind), 0.0) for kind in loading.kinds}
    found = {kind: loading.beam({kind: 1.0}).reactions_lb for kind in loading.kinds}
    leaning = leans_at(member, setting)
    return {kind: ends if leaning is None else _to_plate(ends, leaning) for kind, ends in found.items()}


def leans_at(member: Member, setting: Setting) -> int | None:
    """Return which support of a rafter is a ridge board, against which it leans; None where it has none."""
    for index, bearing in enumerate(member.bears_on):
        on = None if is_missing(bearing.on) else setting.project.by_id.get(bearing.on)
        if bearing.onto == "ridge" or (isinstance(on, Member) and on.role == "ridge board"):
            return index
    return None


def _to_plate(ends: tuple[float, float], ridge: int) -> tuple[float, float]:
    whole = sum(ends)
    return (0.0, whole) if ridge == 0 else (whole, 0.0)


def _landed(member: Member, other: Member, bearing: Bearing, forces: dict[str, float]) -> tuple[Piece, ...] | Missing:
    if member.role == "post":
        return tuple(_point(other, kind, lb, 0.0) for kind, lb in forces.items())
    if other.is_repeated:
        if is_missing(other.spacing):
            return other.spacing
        apart = inches(other.spacing)
        return tuple(_line(other, kind, lb, apart) for kind, lb in forces.items())
    if is_missing(bearing.at):
        return bearing.at
    place_in = inches(bearing.at)
    return tuple(_point(other, kind, lb, place_in) for kind, lb in forces.items())


def _line(other: Member, kind: str, lb: float, apart_in: float) -> Piece:
    plf = lb * 12 / apart_in
    text = f"{number(lb)} * 12 / {number(apart_in)}"
    return Piece(kind, plf, None, Step("w", f"{kind} load from {other.id}", text, plf, "plf", STATICS))


def _point(other: Member, kind: str, lb: float, at_in: float) -> Piece:
    return Piece(kind, lb, at_in, Step("P", f"{kind} load from {other.id}", number(lb), lb, "lb", STATICS))
