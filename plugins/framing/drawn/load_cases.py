"""The load cases of a member: every combination of its loads, every pattern of them, and what each asks of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD, LIVE, ROOF_LIVE, SNOW
from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember, check_member
from precheck_plugins.framing.members.demands import Demand, UniformSpan, loaded_beam
from precheck_plugins.framing.members.patterns import Reach, live_patterns
from precheck_plugins.framing.members.sistered import Sistered, sistered
from precheck_plugins.framing.timber.steps import Step

TOGETHER = 0.75


@dataclass(frozen=True)
class LoadCase:
    """A member under one combination and pattern of its loads: what it asks, every comparison, the lines behind them."""

    name: str
    load: str
    comparisons: tuple[DemandCapacity, ...]
    demand: Demand
    bearings_needed_in: tuple[float, ...]
    length_in: float
    written: Callable[[], tuple[Step, ...]]

    @property
    def reaction_lb(self) -> float:
        """The greatest reaction, lb."""
        return self.demand.reaction_lb


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
        [sum(getattr(forces[kind], which) * factor for kind, factor in factors.items() if kind in forces)
         for which in Reach._fields]
        for _, factors in combinations(tuple(forces))
    ]  # fmt: skip
    return Reach(max(greatest for greatest, _ in sums), min(least for _, least in sums))


def cases_of(
    bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...], loading: Loading
) -> tuple[LoadCase, ...]:
    """Check a member under every combination, and under every pattern of load where it has more than one span.

    Shear counts one depth away from the supports where loads lie on top of the member.
    """
    return tuple(case for each in combinations(loading.kinds) for case in _cases(bent, sisters, sound, loading, *each))


def each_case(
    bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...], loading: Loading
) -> Iterator[LoadCase]:
    """Yield the same cases one by one, those of most loads first: for whom the first that does not pass is enough."""
    for combination in reversed(tuple(combinations(loading.kinds))):
        yield from _cases(bent, sisters, sound, loading, *combination)


def _cases(
    member: SizedMember,
    sisters: tuple[SizedMember, ...],
    sound: tuple[bool, ...],
    loading: Loading,
    load: str,
    factors: dict[str, float],
) -> Iterator[LoadCase]:
    bent = replace(member, use=replace(member.use, load=load))
    varying = {kind: factor for kind, factor in factors.items() if kind != DEAD}
    name = " and ".join(f"{'' if factor == 1 else f'{factor:g} '}{kind}" for kind, factor in factors.items())
    for demand in _demands(loading, varying, at_depth=loading.hung is False):
        if sisters:
            group = sistered([bent, *(replace(s, use=bent.use) for s in sisters)], sound)
            found = group.check(demand)
            written = partial(_group_steps, group, demand, found)
            yield LoadCase(name, load, found, demand, group.bearings_needed_in(demand), loading.span_in, written)
        else:
            check = check_member(bent, demand)
            needed = check.bearings_needed_in
            yield LoadCase(name, load, check.comparisons, demand, needed, loading.span_in, check.steps)


def _group_steps(group: Sistered, demand: Demand, found: tuple[DemandCapacity, ...]) -> tuple[Step, ...]:
    depth = group.shares[0].member.section.depth_in
    return (*demand.steps(depth), *group.steps(), *(step for compared in found for step in compared.steps()))


def _demands(loading: Loading, varying: dict[str, float], at_depth: bool) -> Iterator[Demand]:
    if loading.is_even:
        spread = sum(loading.total(kind) * factor for kind, factor in varying.items())
        yield UniformSpan(loading.span_in, loading.total(DEAD), spread, at_depth).demand()
        return
    dead = loading.beam({DEAD: 1.0})
    for live in live_patterns(loading.beam(varying), loading.lifted(varying)):
        yield loaded_beam(dead, live, at_depth).demand()


def name_of(case: LoadCase, compared: DemandCapacity) -> str:
    """Say one comparison in words: ``bending 1,203 of 1,138 psi under dead and live load``."""
    demand, capacity = map(_rounded, (compared.demand, compared.capacity))
    return f"{compared.what} {demand} of {capacity} {compared.unit} under {case.name} load"


def _rounded(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.2f}"
