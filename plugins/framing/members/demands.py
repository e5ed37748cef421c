"""What loads ask of a member before its size is known: moment, shear, reaction, and deflection times EI.

Inches, lb, lb-in, lb-in3. Dead and live deflection are kept apart, because limits treat them differently and
wood creeps under dead load only. Each demand carries the lines of its calculation, written when asked.
"""

from __future__ import annotations

from functools import cached_property, lru_cache, partial
from itertools import chain, pairwise
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.beams import together
from precheck_plugins.framing.members.statics import Beam, BeamError, Peak
from precheck_plugins.framing.members.written_out import beam_steps, deflection_steps
from precheck_plugins.framing.timber.steps import STATICS, Step, given, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Callable


@fixed
class DeflectionDemand:
    """Deflection times EI (lb-in3) of one stretch, and the length (in) that its limit L/n refers to."""

    where: str
    length_in: float
    live_ei: float
    dead: Callable[[], float]

    @property
    def dead_ei(self) -> float:
        """The deflection under dead load times EI, lb-in3, worked out when a limit on the total asks."""
        return self.dead()


@fixed
class Demand:
    """What loads ask of a member: moments, reactions, shear, and deflections times EI, which are worked out when asked.

    The greatest sagging and hogging moment (lb-in, both positive), the reaction of each support (lb; a negative one is
    uplift that it must hold down), shear (lb) by depth of the member, and shear beside each support (lb), by its place.
    """

    sagging_inlb: float
    hogging_inlb: float
    reactions_lb: tuple[float, ...]
    shear_lb: Callable[[float], float]
    shear_beside_lb: Callable[[int], float]
    bends: Callable[[], tuple[DeflectionDemand, ...]]
    written: Callable[[float], tuple[Step, ...]]

    @property
    def shears_beside_lb(self) -> tuple[float, ...]:
        """Shear beside each support, lb."""
        return tuple(map(self.shear_beside_lb, range(len(self.reactions_lb))))

    @property
    def moment_inlb(self) -> float:
        """The greater of both moments, lb-in."""
        return max(self.sagging_inlb, self.hogging_inlb)

    @property
    def reaction_lb(self) -> float:
        """The greatest reaction, lb."""
        return max(self.reactions_lb)

    @property
    def least_reaction_lb(self) -> float:
        """The least reaction, lb."""
        return min(self.reactions_lb)

    @cached_property
    def deflections(self) -> tuple[DeflectionDemand, ...]:
        """The deflection of each span and overhang times EI."""
        return self.bends()

    def steps(self, depth_in: float) -> tuple[Step, ...]:
        """Loads, reaction, moment and shear of a member this deep (in), with their numbers."""
        return self.written(depth_in)


@fixed
class UniformSpan:
    """A simple span (in) under dead and live load (plf); `shear_at_depth`: shear counts one depth away."""

    span_in: float
    dead_plf: float
    live_plf: float
    shear_at_depth: bool = True

    @property
    def load_lb_per_in(self) -> float:
        """Dead and live load, lb per inch."""
        return (self.dead_plf + self.live_plf) / 12

    @property
    def moment_inlb(self) -> float:
        """Moment w L^2 / 8, lb-in."""
        return self.load_lb_per_in * self.span_in**2 / 8

    @property
    def reaction_lb(self) -> float:
        """Reaction w L / 2, lb."""
        return self.load_lb_per_in * self.span_in / 2

    def shear_lb(self, depth_in: float) -> float:
        """Shear w (L/2 - d) where allowed, else w L / 2, lb. NDS 3.4.3.1(a)."""
        away = depth_in if self.shear_at_depth else 0.0
        return self.load_lb_per_in * max(self.span_in / 2 - away, 0.0)

    def deflection_ei(self, plf: float) -> float:
        """5 w L^4 / 384, lb-in3, of a load in plf."""
        return 5 * plf / 12 * self.span_in**4 / 384

    def demand(self) -> Demand:
        """The span as a demand on a member."""
        lb = self.reaction_lb
        return Demand(self.moment_inlb, 0.0, (lb, lb), self.shear_lb, lambda _: lb, self._deflections, self.steps)

    def _deflections(self) -> tuple[DeflectionDemand, ...]:
        live_ei, dead = self.deflection_ei(self.live_plf), partial(self.deflection_ei, self.dead_plf)
        return (DeflectionDemand("span", self.span_in, live_ei, dead),)

    def steps(self, depth_in: float) -> tuple[Step, ...]:
        """Loads, span, reaction, moment and shear with their numbers; depth in inches."""
        w, span = number(self.load_lb_per_in), number(self.span_in)
        away = number(depth_in if self.shear_at_depth else 0.0)
        dead, live = number(self.dead_plf), number(self.live_plf)
        return (
            given("wD", "dead load", self.dead_plf, "plf"),
            given("wL", "live load", self.live_plf, "plf"),
            given("L", "clear span", self.span_in, "in"),
            Step("w", "total load", f"({dead} + {live}) / 12", self.load_lb_per_in, "lb/in", STATICS),
            Step("R", "reaction", f"{w} * {span} / 2", self.reaction_lb, "lb", STATICS),
            Step("M", "moment", f"{w} * {span}^2 / 8", self.moment_inlb, "lb-in", STATICS),
            Step("V", "shear", f"max({w} * ({span} / 2 - {away}), 0)", self.shear_lb(depth_in), "lb",
                 nds("3.4.3.1(a)")),
            *(Step(f"delta {name} EI", f"{name} load deflection times EI",
                   f"5 * {load} / 12 * {span}^4 / 384", self.deflection_ei(plf), "lb-in3", STATICS)
              for name, load, plf in (("live", live, self.live_plf), ("dead", dead, self.dead_plf))),
        )  # fmt: skip


@fixed
class BeamPart:
    """A part of a beam between two positions (in) and the length (in) that its deflection limit refers to."""

    where: str
    start_in: float
    end_in: float
    length_in: float


@fixed
class LoadedBeam:
    """Two load cases on the same beam, dead, and live everywhere at once, as a demand on a member.

    Live load on some spans or overhangs alone is another case: see patterns.py. Build it with
    `loaded_beam`, which adds the two cases up.
    """

    dead: Beam
    live: Beam
    both: Beam
    shear_at_depth: bool

    @property
    def stretches(self) -> tuple[BeamPart, ...]:
        """Each span, and each overhang, limited on twice its length. IRC Table R301.7 (from memory)."""
        return _parts(self.live.length_in, self.live.supports_in)

    def shear(self, depth_in: float) -> Peak:
        """Greatest shear, lb, for a member this deep (in). NDS 3.4.3.1."""
        if self.shear_at_depth:
            return self.both.shear_away_from_supports(depth_in)
        return self.both.greatest_shear()

    def shear_lb(self, depth_in: float) -> float:
        """Greatest shear as a number, lb."""
        return self.shear(depth_in).value

    def demand(self) -> Demand:
        """The beam as a demand on a member. Source: statics."""
        both, moments = self.both, [peak.value for peak in self.both.moments()]
        sagging, hogging = max(*moments, 0.0), -min(*moments, 0.0)
        beside = both.shear_beside_lb
        return Demand(sagging, hogging, both.reactions_lb, self.shear_lb, beside, self._deflections, self.steps)

    def steps(self, depth_in: float) -> tuple[Step, ...]:
        """Loads, reactions, moment, shear and deflections with their numbers; depth in inches."""
        lines = beam_steps(self.both, self.shear(depth_in), depth_in if self.shear_at_depth else 0.0)
        cases = (("live", self.live), ("dead", self.dead))
        bent = (
            deflection_steps(beam, f"{load} {stretch.where}", stretch.start_in, stretch.end_in)
            for stretch in self.stretches
            for load, beam in cases
        )
        return (*lines, *chain.from_iterable(bent))

    def _deflections(self) -> tuple[DeflectionDemand, ...]:
        return tuple(map(self._deflection, self.stretches))

    def _deflection(self, stretch: BeamPart) -> DeflectionDemand:
        # The two peaks may lie apart; adding them is on the safe side.
        live_ei, dead = _bent_most(self.live, stretch), partial(_bent_most, self.dead, stretch)
        return DeflectionDemand(stretch.where, stretch.length_in, live_ei, dead)


@lru_cache(maxsize=256)
def _parts(length_in: float, supports_in: tuple[float, ...]) -> tuple[BeamPart, ...]:
    first, past, spans = supports_in[0], length_in - supports_in[-1], tuple(pairwise(supports_in))
    names = ["span"] if len(spans) == 1 else [f"span {number}" for number in range(1, len(spans) + 1)]
    found = (
        *(BeamPart(name, start, end, end - start) for name, (start, end) in zip(names, spans, strict=True)),
        BeamPart("left overhang", 0.0, first, 2 * first),
        BeamPart("right overhang", supports_in[-1], length_in, 2 * past),
    )
    return tuple(stretch for stretch in found if stretch.length_in > 0)


@lru_cache(maxsize=256)
def _bent_most(beam: Beam, stretch: BeamPart) -> float:
    """The greatest deflection of a stretch times EI, kept because a search for a remedy asks it of the same beam again."""
    return abs(beam.greatest_deflection_ei(stretch.start_in, stretch.end_in).value)


def loaded_beam(dead: Beam, live: Beam, shear_at_depth: bool = True) -> LoadedBeam:
    """Dead and live load on one beam. Raises BeamError when the two differ in length or supports (in)."""
    if (dead.length_in, dead.supports_in) != (live.length_in, live.supports_in):
        raise BeamError("dead and live load must act on the same beam; give both the same span and overhangs")
    return LoadedBeam(dead, live, together(dead, live), shear_at_depth)
