"""The load cases of a member: every combination of its loads, every pattern of them, and what each asks of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from precheck_plugins.framing.drawn.load_path import Loading
from precheck_plugins.framing.drawn.loads import DEAD, LIVE, ROOF_LIVE, SNOW
from precheck_plugins.framing.members.capacity import DemandCapacity, SizedMember, check_member
from precheck_plugins.framing.members.demands import Demand, UniformSpan, loaded_beam
from precheck_plugins.framing.members.patterns import live_patterns
from precheck_plugins.framing.members.sistered import Sistered, sistered
from precheck_plugins.framing.timber.steps import Step

TOGETHER = 0.75


@dataclass(frozen=True)
class LoadCase:
    """A member under one combination of its loads: every comparison, the greatest reaction, the lines behind them."""

    name: str
    comparisons: tuple[DemandCapacity, ...]
    reaction_lb: float
    bearing_needed_in: float
    length_in: float
    written: Callable[[], tuple[Step, ...]]


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


def cases_of(
    bent: SizedMember, sisters: tuple[SizedMember, ...], sound: tuple[bool, ...], loading: Loading
) -> tuple[LoadCase, ...]:
    """Check a member under every combination, and under every pattern of load where it has an overhang."""
    return tuple(
        case
        for load, factors in combinations(loading.kinds)
        for case in _cases(replace(bent, use=replace(bent.use, load=load)), sisters, sound, loading, factors)
    )


def _cases(
    bent: SizedMember,
    sisters: tuple[SizedMember, ...],
    sound: tuple[bool, ...],
    loading: Loading,
    factors: dict[str, float],
) -> Iterator[LoadCase]:
    varying = {kind: factor for kind, factor in factors.items() if kind != DEAD}
    name = " and ".join(f"{'' if factor == 1 else f'{factor:g} '}{kind}" for kind, factor in factors.items())
    for demand in _demands(loading, varying):
        if sisters:
            group = sistered([bent, *(replace(s, use=bent.use) for s in sisters)], sound)
            found = group.check(demand)
            needed = max(c.demand / c.capacity * bent.bearing_in for c in found if c.what.startswith("bearing"))
            written = partial(_group_steps, group, demand, found)
            yield LoadCase(name, found, demand.reaction_lb, needed, loading.span_in, written)
        else:
            check = check_member(bent, demand)
            yield LoadCase(
                name, check.comparisons, demand.reaction_lb, check.bearing_needed_in, loading.span_in, check.steps
            )


def _group_steps(group: Sistered, demand: Demand, found: tuple[DemandCapacity, ...]) -> tuple[Step, ...]:
    depth = group.shares[0].member.section.depth_in
    return (*demand.steps(depth), *group.steps(), *(step for compared in found for step in compared.steps()))


def _demands(loading: Loading, varying: dict[str, float]) -> Iterator[Any]:
    if not loading.points and loading.overhang_in == 0:
        spread = sum(loading.total(kind) * factor for kind, factor in varying.items())
        yield UniformSpan(loading.span_in, loading.total(DEAD), spread).demand()
        return
    dead = loading.beam({DEAD: 1.0})
    for live in live_patterns(loading.beam(varying)):
        yield loaded_beam(dead, live).demand()


def name_of(case: LoadCase, compared: DemandCapacity) -> str:
    """Say one comparison in words: ``bending 1,203 of 1,138 psi under dead and live load``."""
    demand, capacity = map(_rounded, (compared.demand, compared.capacity))
    return f"{compared.what} {demand} of {capacity} {compared.unit} under {case.name} load"


def _rounded(value: float) -> str:
    return f"{value:,.0f}" if value >= 100 else f"{value:.2f}"
