"""Rafter thrust and what takes it: ties at or above the plate, a ridge beam, ceiling joists in tension.

A symmetrical gable with its rafters leaning on each other, load in plf on the horizontal projection of one
pair, lengths in inches, forces in lb. Source: statics of a three-hinged frame.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember
from precheck_plugins.framing.timber.adjusted_values import adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, given, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Callable

    from precheck_plugins.framing.members.demands import Demand


@fixed
class RafterPair:
    """Two opposite rafters: load (plf), width between plates, rise of the ridge, height of the tie (in).

    `tie_above_plate_in` is 0 for ceiling joists at the plate. Build it with `rafter_pair`, which checks it.
    """

    load_plf: float
    width_in: float
    rise_in: float
    tie_above_plate_in: float = 0.0

    @property
    def thrust_lb(self) -> float:
        """T = w W^2 / (8 (h - y)), lb: what the tie pulls and the heel joint must hold."""
        return self.load_plf / 12 * self.width_in**2 / (8 * (self.rise_in - self.tie_above_plate_in))

    @property
    def plate_reaction_lb(self) -> float:
        """Reaction w W / 2 on each plate, lb."""
        return self.load_plf / 12 * self.width_in / 2

    @property
    def tie_at_in(self) -> float:
        """Horizontal distance from the plate to the tie, in."""
        return self.tie_above_plate_in * self.width_in / 2 / self.rise_in

    def moment_inlb(self, at_in: float) -> float:
        """Moment in a rafter at a horizontal distance from its plate (in), lb-in."""
        pull = self.thrust_lb * max(at_in - self.tie_at_in, 0.0) * 2 * self.rise_in / self.width_in
        return self.plate_reaction_lb * at_in - self.load_plf / 12 * at_in**2 / 2 - pull

    @property
    def greatest_moment_inlb(self) -> float:
        """Greatest moment in a rafter, lb-in; it grows with the height of the tie."""
        w = self.load_plf / 12
        free = self.width_in / 2 - 2 * self.thrust_lb * self.rise_in / (w * self.width_in) if w else 0.0
        return max(self.moment_inlb(max(self.tie_at_in, free)), self.moment_inlb(self.tie_at_in))

    def steps(self) -> tuple[Step, ...]:
        """Load, geometry, thrust and plate reaction with their numbers."""
        w, width, rise, tie = map(number, (self.load_plf, self.width_in, self.rise_in, self.tie_above_plate_in))
        thrust = f"{w} / 12 * {width}^2 / (8 * ({rise} - {tie}))"
        return (
            given("w", "load of one pair on the horizontal projection", self.load_plf, "plf"),
            given("W", "width between plates", self.width_in, "in"),
            given("h", "rise of the ridge above the plates", self.rise_in, "in"),
            given("y", "height of the tie above the plates", self.tie_above_plate_in, "in"),
            Step("T", "thrust", thrust, self.thrust_lb, "lb", STATICS),
            Step("R", "plate reaction", f"{w} / 12 * {width} / 2", self.plate_reaction_lb, "lb", STATICS),
        )


def rafter_pair(load_plf: float, width_in: float, rise_in: float, tie_above_plate_in: float = 0.0) -> RafterPair:
    """A pair of rafters (plf, in). Raises OutsideMethodError for a tie not below the ridge."""
    if not (width_in > 0 and 0 <= tie_above_plate_in < rise_in and load_plf >= 0):
        raise OutsideMethodError("rafters that lean on each other need a width, a rise, and a tie below the ridge")
    return RafterPair(load_plf, width_in, rise_in, tie_above_plate_in)


@fixed
class TieCheck:
    """A member in tension and bending: both comparisons of NDS 3.9.1 and the lines behind them."""

    comparisons: tuple[DemandCapacity, DemandCapacity]
    written: Callable[[], tuple[Step, ...]]

    @property
    def passes(self) -> bool:
        """Whether both comparisons pass."""
        return all(found.passes for found in self.comparisons)

    @property
    def governing(self) -> DemandCapacity:
        """The comparison with the greater ratio."""
        return max(self.comparisons, key=lambda found: found.ratio)

    def steps(self) -> tuple[Step, ...]:
        """The whole calculation in order."""
        return (*self.written(), *self.comparisons[0].steps(), *self.comparisons[1].steps())


def check_tie(member: SizedMember, demand: Demand, tension_lb: float) -> TieCheck:
    """A ceiling joist that bends and ties rafters: ft/F't + fb/F*b and (fb - ft)/F**b, each at most 1.

    Tension in lb at the gross section; notches and joint holes reduce it further. Raises LumberError for a
    tension value that is not on record, OutsideMethodError. Source: NDS 3.9.1.
    """
    section, values, use = member.section, member.values, member.use
    pull, star = (adjusted_value(s, values, section, use) for s in ("Ft", "Fb"))
    held = adjusted_bending(values, section, use)
    ft, fb = tension_lb / section.area_in2, demand.moment_inlb / section.modulus_in3
    both = ft / pull.psi + fb / star.psi
    comparisons = (
        DemandCapacity("tension and bending", "sum", both, 1.0, "", "3.9.1", "{} / {} + {} / {}",
                       (ft, pull.psi, fb, star.psi)),
        DemandCapacity("bending less tension", "rest", max(fb - ft, 0.0) / held.psi, 1.0, "", "3.9.1",
                       "max({} - {}, 0) / {}", (fb, ft, held.psi)),
    )  # fmt: skip

    def lines() -> tuple[Step, ...]:
        """The lines, when asked for."""
        loads = (*section.steps(), *demand.steps(section.depth_in), *pull.steps(), *star.steps())
        braced = held.steps() if held.stability else ()
        return (*loads, *braced, *_stress_steps(member, demand, tension_lb))

    return TieCheck(comparisons, lines)


def _stress_steps(member: SizedMember, demand: Demand, tension_lb: float) -> tuple[Step, ...]:
    area, modulus = member.section.area_in2, member.section.modulus_in3
    pull, moment = number(tension_lb), number(demand.moment_inlb)
    return (
        given("T", "tension", tension_lb, "lb"),
        Step("ft", "tension stress", f"{pull} / {number(area)}", tension_lb / area, "psi", STATICS),
        Step("fb", "bending stress", f"{moment} / {number(modulus)}", demand.moment_inlb / modulus, "psi", STATICS),
    )
