"""A member under its loads: bending, shear, deflection and bearing, as demand over capacity.

Stresses in psi, lengths and deflections in inches, forces in lb. Allowable stress design after the NDS.
"""

from __future__ import annotations

from dataclasses import field
from functools import cached_property
from itertools import chain
from math import prod
from typing import TYPE_CHECKING, NamedTuple

from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, Conditions, adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.factors import bearing_area
from precheck_plugins.framing.timber.lumber import OTHER_SIDE
from precheck_plugins.framing.timber.steps import GIVEN, STATICS, Step, filled, given, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from precheck_plugins.framing.members.demands import DeflectionDemand, Demand
    from precheck_plugins.framing.timber.lumber import DesignValues
    from precheck_plugins.framing.timber.sections import CrossSection

SHORTEST_BEARING_IN = 1.5
LONG_BEARING_IN = 6.0
SHORT_BEARING_IN = 0.375
# Sums of floats may stand a hair over a limit that they meet exactly.
ROUNDING = 1e-9


@fixed
class Serviceability:
    """Deflection limits L/n for live and for total load, None where there is none, and creep of dead load.

    Creep multiplies dead load deflection: 1 for none, 1.5 for seasoned and 2 for wet lumber (NDS 3.5.2).
    """

    live_ratio: float | None = 360
    total_ratio: float | None = None
    creep: float = 1.0
    source: str = GIVEN

    def steps(self) -> tuple[Step, ...]:
        """The limits and the creep factor."""
        limits = (("live", self.live_ratio), ("total", self.total_ratio))
        ratios = (given("n", f"limit L/n of {load} load deflection", n, "", self.source) for load, n in limits if n)
        return (*ratios, given("Kcr", "creep of dead load deflection", self.creep, "", nds("3.5.2")))


class DemandCapacity(NamedTuple):
    """One comparison: what, its symbol, demand and capacity in `unit`, the clause; its arithmetic is written when asked."""

    what: str
    symbol: str
    demand: float
    capacity: float
    unit: str
    clause: str
    demand_form: str
    demand_numbers: tuple[float, ...]
    capacity_form: str = ""
    capacity_numbers: tuple[float, ...] = ()

    @property
    def ratio(self) -> float:
        """Demand over capacity; 1 is just enough."""
        return self.demand / self.capacity if self.capacity > 0 else float("inf")

    @property
    def passes(self) -> bool:
        """Whether capacity covers demand."""
        return self.ratio <= 1 + ROUNDING

    def steps(self) -> tuple[Step, ...]:
        """Demand, capacity, and their ratio."""
        clause = nds(self.clause)
        share = f"{number(self.demand)} / {number(self.capacity)}"
        demand = filled(self.demand_form, self.demand_numbers)
        capacity = filled(self.capacity_form, self.capacity_numbers) or number(self.capacity)
        return (
            Step(self.symbol, f"{self.what}, demand", demand, self.demand, self.unit, STATICS),
            Step(f"{self.symbol} max", f"{self.what}, capacity", capacity, self.capacity, self.unit, clause),
            Step("D/C", f"{self.what}, demand over capacity", share, self.ratio, "", clause),
        )


@fixed
class Seat:
    """Where a member bears: the length of its bearing, and how far that is from the end of the member, in."""

    length_in: float = SHORTEST_BEARING_IN
    from_end_in: float = 0.0


@fixed
class SizedMember:
    """A straight bending member: its section, its lumber, its use, its limits and its seats, one for each support.

    A support without a seat has the shortest bearing, at the end.
    """

    section: CrossSection
    values: DesignValues
    use: Conditions = field(default_factory=Conditions)
    limits: Serviceability = field(default_factory=Serviceability)
    seats: tuple[Seat, ...] = ()

    def seat(self, support: int) -> Seat:
        """The seat on a support, counted from 0."""
        return self.seats[support] if support < len(self.seats) else Seat()

    def steps(self) -> tuple[Step, ...]:
        """Section, bearing lengths and deflection limits."""
        seats = self.seats or (Seat(),)
        bearings = (given("lb", f"bearing length {i}", seat.length_in, "in") for i, seat in enumerate(seats, 1))
        return (*self.section.steps(), *bearings, *self.limits.steps())


@fixed
class WoodValues:
    """What the wood of a member takes in its use, worked out when first asked; raises LumberError, OutsideMethodError."""

    member: SizedMember

    @cached_property
    def bending(self) -> AdjustedValue:
        """F'b."""
        return adjusted_bending(self.member.values, self.member.section, self.member.use)

    @cached_property
    def hogging(self) -> AdjustedValue:
        """F'b where the lower edge is compressed."""
        return adjusted_bending(self.member.values, self.member.section, self.member.use, hogging=True)

    @cached_property
    def shear(self) -> AdjustedValue:
        """F'v."""
        return self._adjusted("Fv")

    @cached_property
    def bearing(self) -> AdjustedValue:
        """F'c across the grain, before the factor for a short bearing."""
        return self._adjusted("Fc_perp")

    @cached_property
    def stiffness(self) -> AdjustedValue:
        """E'."""
        return self._adjusted("E")

    def hogs_apart(self, demand: Demand) -> bool:
        """Whether hogging is compared apart from sagging."""
        own = self.member.use.unbraced_below_in > 0 or self.member.values.knows(OTHER_SIDE)
        return own and demand.hogging_inlb > 0

    def _adjusted(self, symbol: str) -> AdjustedValue:
        return adjusted_value(symbol, self.member.values, self.member.section, self.member.use)


@fixed
class MemberCheck:
    """A member, the demand on it, its adjusted values, and every comparison."""

    member: SizedMember
    demand: Demand
    values: tuple[AdjustedValue, ...]
    comparisons: tuple[DemandCapacity, ...]

    @property
    def governing(self) -> DemandCapacity:
        """The comparison with the greatest demand over capacity."""
        return max(self.comparisons, key=lambda found: found.ratio)

    @property
    def passes(self) -> bool:
        """Whether every comparison passes."""
        return all(found.passes for found in self.comparisons)

    @property
    def bearing_psi(self) -> float:
        """Compression across the grain that the wood takes, psi, before the factor for a short bearing."""
        return next(value.psi for value in self.values if value.symbol == "Fc_perp")

    def bearings_needed_in(self) -> tuple[float, ...]:
        """Bearing length, in, for each support that keeps compression across the grain within its value."""
        per_inch = self.bearing_psi * self.member.section.breadth_in
        return tuple(
            bearing_length_in(max(reaction, 0.0), per_inch, self.member.seat(i))
            for i, reaction in enumerate(self.demand.reactions_lb)
        )

    @property
    def bearing_needed_in(self) -> float:
        """The longest of the bearing lengths needed, in."""
        return max(self.bearings_needed_in())

    def steps(self) -> tuple[Step, ...]:
        """The whole calculation in order: section, loads, values, comparisons."""
        section = self.member.section
        values = chain.from_iterable(value.steps() for value in self.values)
        compared = chain.from_iterable(comparison.steps() for comparison in self.comparisons)
        return (*self.member.steps(), *self.demand.steps(section.depth_in), *values, *compared)


def bearing_length_in(reaction_lb: float, lb_per_inch: float, seat: Seat) -> float:
    """Bearing length, in, for a reaction on wood that takes so much an inch; less where Cb applies. NDS 3.10.2, 3.10.4."""
    plain = reaction_lb / lb_per_inch
    if bearing_area(SHORTEST_BEARING_IN, seat.from_end_in).value == 1:
        return plain
    short = max(plain - SHORT_BEARING_IN, 0.0)
    return short if short < LONG_BEARING_IN else plain


def check_member(member: SizedMember, demand: Demand, wood: WoodValues | None = None) -> MemberCheck:
    """Compare a member with a demand. Raises LumberError or OutsideMethodError. Source: NDS chapter 3.

    `wood` is what the member takes, worked out once for many demands under the same load. A beam that hogs is compared for
    that apart where its lower edge is free, or its other side has a value of its own.
    """
    wood = wood or WoodValues(member)
    comparisons = (*_within(wood, demand), *_bearings(member, demand, wood.bearing.psi))
    over = (wood.hogging,) if wood.hogs_apart(demand) else ()
    return MemberCheck(member, demand, (wood.bending, *over, wood.shear, wood.bearing, wood.stiffness), comparisons)


def holds(wood: WoodValues, demand: Demand) -> bool:
    """Whether a member is strong and stiff enough; the first comparison that does not pass answers. Raises as check_member."""
    return all(compared.passes for compared in _within(wood, demand))


def _within(wood: WoodValues, demand: Demand) -> Iterator[DemandCapacity]:
    """Bending, shear and deflection, one after the other."""
    section = wood.member.section
    if wood.hogs_apart(demand):
        yield _bending("bending", section, demand.sagging_inlb, wood.bending.psi)
        yield _bending("bending over a support", section, demand.hogging_inlb, wood.hogging.psi)
    else:
        yield _bending("bending", section, demand.moment_inlb, wood.bending.psi)
    yield _shear(section, demand, wood.shear.psi)
    yield from compare_deflections(demand, wood.member.limits, (wood.stiffness.psi, section.inertia_in4))


def compare_deflections(
    demand: Demand, limits: Serviceability, ei_numbers: tuple[float, ...]
) -> tuple[DemandCapacity, ...]:
    """Deflection of every stretch against its limits; EI (lb-in2) is the product of its numbers. NDS 3.5."""
    wanted = (("live", None, limits.live_ratio), ("total", limits.creep, limits.total_ratio))
    return tuple(
        _deflection(f"{load} deflection of {stretch.where}", stretch, creep, ei_numbers, ratio)
        for stretch in demand.deflections
        for load, creep, ratio in wanted
        if ratio
    )


def _bending(what: str, section: CrossSection, moment_inlb: float, allowed_psi: float) -> DemandCapacity:
    modulus = section.modulus_in3
    numbers = (moment_inlb, modulus)
    return DemandCapacity(what, "fb", moment_inlb / modulus, allowed_psi, "psi", "3.3.1", "{} / {}", numbers)


def _shear(section: CrossSection, demand: Demand, allowed_psi: float) -> DemandCapacity:
    force, area = demand.shear_lb(section.depth_in), section.area_in2
    return DemandCapacity(
        "shear", "fv", 1.5 * force / area, allowed_psi, "psi", "3.4.2", "3 * {} / (2 * {})", (force, area)
    )


def _bearings(member: SizedMember, demand: Demand, allowed_psi: float) -> tuple[DemandCapacity, ...]:
    return tuple(_bearing(member, number, force, allowed_psi) for number, force in enumerate(demand.reactions_lb))


def _bearing(member: SizedMember, number: int, force_lb: float, allowed_psi: float) -> DemandCapacity:
    seat, breadth = member.seat(number), member.section.breadth_in
    force, factor = max(force_lb, 0.0), bearing_area(seat.length_in, seat.from_end_in).value
    capacity = ("{} * {}", (allowed_psi, factor)) if factor != 1 else ("", ())
    return DemandCapacity(
        f"bearing {number + 1}", "fc_perp", force / (breadth * seat.length_in), allowed_psi * factor, "psi", "3.10.2",
        "{} / ({} * {})", (force, breadth, seat.length_in), *capacity,
    )  # fmt: skip


def _deflection(
    what: str, stretch: DeflectionDemand, creep: float | None, ei_numbers: tuple[float, ...], ratio: float
) -> DemandCapacity:
    form = "{} * {}" if len(ei_numbers) > 1 else "{}"
    if creep is None:
        times_ei, form, numbers = stretch.live_ei, f"{{}} / ({form})", (stretch.live_ei, *ei_numbers)
    else:
        times_ei = stretch.live_ei + creep * stretch.dead_ei
        form = f"({{}} + {{}} * {{}}) / ({form})"
        numbers = (stretch.live_ei, creep, stretch.dead_ei, *ei_numbers)
    limit = ("{} / {}", (stretch.length_in, ratio))
    inches = times_ei / prod(ei_numbers)
    return DemandCapacity(what, "delta", inches, stretch.length_in / ratio, "in", "3.5", form, numbers, *limit)
