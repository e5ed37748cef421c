"""Where each pound of a footing comes from: the loads of every member above it, what each brings down, and their sum."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import fsum

from precheck_plugins.framing.drawn.load_cases import combinations
from precheck_plugins.framing.drawn.load_path import at_support, loading_of, reactions_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD
from precheck_plugins.framing.drawn.resting import leans_at, resting_on
from precheck_plugins.framing.drawn.setting import Setting
from precheck_plugins.framing.members.patterns import Reach
from precheck_plugins.framing.members.written_out import reaction_steps
from precheck_plugins.framing.timber.steps import STATICS, Step, number

from precheck import Member, is_missing

SIDES = ("greatest", "least")


def chain_of(ends: tuple[tuple[Member, int], ...], setting: Setting) -> tuple[Step, ...]:
    """Return the lines from the top down: each member once, after those that rest on it, then the sums at the footing.

    Raises OutsideMethodError for what the method does not cover. What is missing leaves its lines out.
    """
    told: dict[str, None] = {}
    lines = [step for member, _ in ends for step in _down(member, setting, told)]
    forces: dict[str, Reach] = {}
    for member, index in ends:
        reactions = reactions_of(member, setting)
        if not is_missing(reactions):
            for kind, reach in at_support(reactions, index).items():
                lines.append(
                    Step("P", f"{kind} load from {member.id}", number(reach.greatest), reach.greatest, "lb", STATICS)
                )
                own = forces.get(kind, Reach(0.0, 0.0))
                forces[kind] = Reach(own.greatest + reach.greatest, own.least + reach.least)
    return (*lines, *_sums(forces))


def _down(member: Member, setting: Setting, told: dict[str, None]) -> Iterator[Step]:
    """Yield the lines of a member, after those of what rests on it."""
    if member.id in told:
        return
    told[member.id] = None
    for other, _, _ in resting_on(member, setting):
        yield from _down(other, setting, told)
    loading = loading_of(member, setting)
    if is_missing(loading):
        return
    for step in loading.steps():
        yield replace(step, meaning=f"{member.id}: {step.meaning}")
    reactions = reactions_of(member, setting)
    for kind in loading.kinds:
        if member.role != "post" and leans_at(member, setting) is None:
            yield from _reactions(member, loading, kind)
        if not is_missing(reactions):
            for place, reach in enumerate(reactions[kind], 1):
                yield from _brought(
                    member, kind, reach, f"at support {place}" if member.role != "post" else "at its foot"
                )


def _reactions(member: Member, loading: Loading, kind: str) -> Iterator[Step]:
    """Yield the reactions of all of one kind of load at once, with their arithmetic."""
    for step in reaction_steps(loading.beam({kind: 1.0})):
        yield replace(step, meaning=f"{member.id}: {kind} load on all of it, {step.meaning}")


def _brought(member: Member, kind: str, reach: Reach, where: str) -> Iterator[Step]:
    sides = SIDES[:1] if kind == DEAD or reach.least == 0 else SIDES
    for side, lb in zip(sides, reach, strict=False):
        name = "" if kind == DEAD else f"{side} "
        yield Step("R", f"{member.id} brings down {where}: {name}{kind} load", number(lb), lb, "lb", STATICS)


def _sums(forces: dict[str, Reach]) -> Iterator[Step]:
    for _, factors in combinations(tuple(forces)):
        parts = [(forces[kind].greatest, factor) for kind, factor in factors.items() if kind in forces]
        text = " + ".join(number(lb) if factor == 1 else f"{number(factor)} * {number(lb)}" for lb, factor in parts)
        name = " and ".join(f"{'' if factor == 1 else f'{factor:g} '}{kind}" for kind, factor in factors.items())
        yield Step(
            "P", f"on the footing under {name} load", text, fsum(lb * factor for lb, factor in parts), "lb", STATICS
        )
