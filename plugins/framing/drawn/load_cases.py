"""The load cases of a member: every combination of its loads, every pattern of them, and what each asks of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cached_property, lru_cache, partial
from math import fsum

from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD, LIVE, ROOF_LIVE, SNOW
from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember, WoodValues, check_member, holds
from precheck_plugins.framing.members.demands import Demand, UniformSpan, loaded_beam
from precheck_plugins.framing.members.patterns import Reach, live_patterns
from precheck_plugins.framing.members.sistered import Sistered, sistered
from precheck_plugins.framing.timber.steps import Step

from precheck import fixed

TOGETHER = 0.75
KEPT = 256  # members whose cases the next check of the same house asks for again; a house has some ten


@fixed
class LoadCase:
    """A member under one combination and pattern of its loads: what it asks, every comparison, the lines behind them."""

    name: str
    load: str
    comparisons: tuple[DemandCapacity, ...]
    demand: Demand
    bearings: Callable[[], tuple[float, ...]]
    length_in: float
    written: Callable[[], tuple[Step, ...]]

    @property
    def reaction_lb(self) -> float:
        """The greatest reaction, lb."""
        return self.demand.reaction_lb

    @cached_property
    def bearings_needed_in(self) -> tuple[float, ...]:
        """The bearing length that each support needs, in."""
        return self.bearings()


def combinations(kinds: tuple[str, ...]) -> Iterator[tuple[str, dict[str, float]]]:
    """Yield each combination of ASCE 7 2.4.1 for the kinds at hand: its shortest load, and the factor of each kind."""
    yield "dead", {DEAD: 1.0}
    if LIVE in kinds:
        yield "occupancy", {DEAD: 1.0, LIVE: 1.0}
    for kind in (ROOF_LIVE, SNOW):
        if kind in kinds:
            yield kind, {DEAD: 1.0, kind: 1.0}
            if LIVE in kinds:
                yield kind, {DEAD: 1.0, LIVE: TOGETHER, kind: TOGETHER}


def combined(forces: dict[str, Reach]) -> Reach:
    """Return the greatest and the least of all combinations of what is kept by kind, lb."""
    sums = [
        [fsum(getattr(forces[kind], which) * factor for kind, factor in factors.items() if kind in forces)
         for which in Reach._fields]
        for _, factors in combinations(tuple(forces))
    ]  # fmt: skip
    return Reach(max(greatest for greatest, _ in sums), min(least for _, least in sums))


@lru_cache(maxsize=KEPT)
def cases_of(
    bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...], loading: Loading
) -> tuple[LoadCase, ...]:
    """Check a member under every combination, and under every pattern of load where it has more than one span.

    Shear counts one depth away from the supports where loads lie on top of the member.
    """
    return tuple(case for each in combinations(loading.kinds) for case in _cases(bent, sisters, sound, loading, *each))


def all_hold(bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...], loading: Loading) -> bool:
    """Whether strength and stiffness hold in each case; those of most loads first, because the first that fails answers."""
    for load, factors in reversed(tuple(combinations(loading.kinds))):
        member, demands = _under(load, bent), _demands(loading, factors)
        if sisters:
            group = _grouped(member, sisters, sound)
            held = all(c.passes for d in demands for c in group.check(d) if not c.what.startswith("bearing"))
        else:
            wood = WoodValues(member)
            held = all(holds(wood, demand) for demand in demands)
        if not held:
            return False
    return True


def _cases(
    member: SizedMember,
    sisters: tuple[SizedMember, ...],
    sound: tuple[bool, ...],
    loading: Loading,
    load: str,
    factors: dict[str, float],
) -> Iterator[LoadCase]:
    bent = _under(load, member)
    wood, group = WoodValues(bent), _grouped(bent, sisters, sound) if sisters else None
    name = " and ".join(f"{'' if factor == 1 else f'{factor:g} '}{kind}" for kind, factor in factors.items())
    for demand in _demands(loading, factors):
        if group is not None:
            found = group.check(demand)
            needed, written = partial(group.bearings_needed_in, demand), partial(_group_steps, group, demand, found)
            yield LoadCase(name, load, found, demand, needed, loading.span_in, written)
        else:
            own = check_member(bent, demand, wood)
            yield LoadCase(name, load, own.comparisons, demand, own.bearings_needed_in, loading.span_in, own.steps)


def _under(load: str, member: SizedMember) -> SizedMember:
    return member if member.use.load == load else replace(member, use=replace(member.use, load=load))


def _grouped(bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...]) -> Sistered:
    return sistered([bent, *(replace(s, use=bent.use) for s in sisters)], sound)


def _group_steps(group: Sistered, demand: Demand, found: tuple[DemandCapacity, ...]) -> tuple[Step, ...]:
    depth = group.shares[0].member.section.depth_in
    return (*demand.steps(depth), *group.steps(), *(step for compared in found for step in compared.steps()))


def _demands(loading: Loading, factors: dict[str, float]) -> Iterator[Demand]:
    """What one combination asks of the member, pattern by pattern; shear counts one depth away under loads on its top."""
    at_depth, varying = loading.hung is False, {kind: factor for kind, factor in factors.items() if kind != DEAD}
    if loading.is_even:
        spread = fsum(loading.total(kind) * factor for kind, factor in varying.items())
        yield UniformSpan(loading.span_in, loading.total(DEAD), spread, at_depth).demand()
        return
    for live in live_patterns(loading.beam(varying), loading.lifted(varying)):
        yield loaded_beam(loading.dead, live, at_depth).demand()


def name_of(case: LoadCase, compared: DemandCapacity) -> str:
    """Say one comparison in words: ``bending 1,203 of 1,138 psi under dead and live load``."""
    demand, capacity = map(_rounded, (compared.demand, compared.capacity))
    return f"{compared.what} {demand} of {capacity} {compared.unit} under {case.name} load"


def _rounded(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.2f}"
