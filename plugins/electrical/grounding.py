"""How the service is grounded, and the directory of circuits at the panel."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from precheck import (
    Check,
    Electrode,
    Grounding,
    Length,
    Limit,
    Limits,
    Panel,
    Service,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    every,
    if_stated,
    is_missing,
    not_shown,
    required,
    rule,
    when_given,
)

SINGLE = frozenset(("concrete-encased", "ground ring"))


class GroundingLimits(Limits):
    minimum: Limit[int]
    alone_at: Limit[int]
    rod: Limit[Length]
    apart: Limit[Length]
    conductor: Limit[dict[str, int]]
    rod_conductor: Limit[int]
    encased_conductor: Limit[int]
    pipes_bonded: Limit[bool]


@rule("electrical.grounding", stage="rough-in")
def grounding(service: Service, limit: GroundingLimits) -> Check:
    """A service has its grounding electrodes and conductor, and metal water pipes are bonded.

    A concrete-encased electrode or a ring does alone, and so does a rod or plate whose resistance to earth is low. A metal
    water pipe in the ground always has another beside it. Rods are long enough and stand apart.
    """
    found = service.grounding
    if is_missing(found) or not found.electrodes:
        return not_shown(found if is_missing(found) else found.absent("electrodes"))
    electrodes = found.electrodes
    rods = [one for one in electrodes if one.what in ("rod", "plate")]
    alone = any(one.what in SINGLE for one in electrodes)
    low = at_most(rods[0].ohms, limit.alone_at) if len(rods) == 1 else does_not_apply("not a single rod or plate")
    count = at_least(len(electrodes), limit.minimum).or_fix(
        lambda: f"drive a second rod {limit.apart.value} away", decide="where it goes"
    )
    enough = does_not_apply("this electrode does alone") if alone else count
    pipes = decide(
        found.metal_water_pipes,
        required(found.water_pipes_bonded, limit.pipes_bonded),
        does_not_apply("no metal water pipes"),
    )
    single = any_of(enough, low) if len(electrodes) == 1 and rods and count.outcome is count.outcome.FAIL else enough
    return all_of(single, every(_rods(rods, limit), "no rods"), _conductor(found, service.amps, limit), pipes)


def _rods(rods: list[Electrode], limit: GroundingLimits) -> list[Check]:
    long = [at_least(rod.length, limit.rod) for rod in rods if rod.what == "rod"]
    return [*long, *(at_least(rod.apart, limit.apart) for rod in rods[1:])]


def _conductor(found: Grounding, amps: Any, limit: GroundingLimits) -> Check:
    """Compare the gage with the row of the smallest service that is no smaller, or with what rods or concrete alone ask."""
    kinds = {one.what for one in found.electrodes}
    lone = limit.rod_conductor if kinds <= {"rod", "plate"} else limit.encased_conductor
    simple = kinds <= {"rod", "plate"} or kinds == {"concrete-encased"}
    how = "gage number of copper; a smaller one is thicker"
    gage, table = found.conductor_gage, limit.conductor
    by_size = at_most(gage, replace(table, value=_row(amps, found, table.value)), how)
    return any_of(by_size, at_most(gage, lone, how)) if simple else by_size


def _row(amps: Any, found: Grounding, rows: Any) -> Any:
    if rows is None or is_missing(rows):
        return rows
    sizes = sorted((int(name.split()[0]), gage) for name, gage in rows.items())
    larger = found.absent("conductor of a service so large, by its designer")
    return when_given(lambda own: next((gage for size, gage in sizes if size >= own), larger), amps)


class DirectoryLimits(Limits):
    labeled: Limit[bool]


@rule("electrical.directory", stage="final")
def directory(panel: Panel, limit: DirectoryLimits) -> Check:
    """The panel has a circuit directory."""
    return if_stated(panel.circuits_labeled, required, limit.labeled)
