"""Foam plastic insulation: what its label says of fire, and the board or other cover between it and the rooms."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck import (
    Assembly,
    Check,
    Fact,
    FoamPlastic,
    House,
    Layer,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    fact,
    if_stated,
    is_missing,
    look_at,
    met,
    not_shown,
    required,
    rule,
)

ALSO_CALLED = {
    "wood structural panel": ("wood structural panel", "plywood", "oriented strand", "osb"),
    "gypsum": ("gypsum", "drywall"),
    "concrete or masonry": ("concrete", "masonry", "brick", "block"),
    "mineral fiber": ("mineral fiber", "mineral wool", "rock wool"),
    "cellulose": ("cellulose",),
    "fiber cement": ("fiber cement", "fiber-cement"),
}


FOAMS = ("foam", "polystyrene", "polyiso", "polyurethane", "xps", "eps")


@fact
class FoamIn(Fact):
    """Foam plastic in an assembly; missing where a layer is foam by its name, and nothing more is said of it.

    `of_new_room` says that the work makes a room of the space that the assembly encloses.
    """

    assembly: Assembly
    foam: FoamPlastic | Missing
    of_new_room: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[FoamIn]:
        """Yield the foam plastic of every assembly that is said to have some, or has a layer of it."""
        for assembly in house.subjects(Assembly):
            named = any(word in layer.material.lower().split() for layer in assembly.layers for word in FOAMS)
            if named or not is_missing(assembly.foam_plastic):
                space = None if is_missing(assembly.space) else house.space(assembly.space)
                made = space is not None and space.is_habitable and (space.changes_use or space.phase == "new")
                yield cls(assembly, assembly, assembly.foam_plastic, made)

    @property
    def phase(self) -> Any:
        """``altered`` for old foam around a room that the work makes."""
        return "altered" if self.of_new_room and not self.assembly.is_removed else self.assembly.phase


class CoverLimits(Limits):
    toward_rooms: Limit[dict[str, Length]]
    toward_attic: Limit[dict[str, Length]]
    toward_crawl_space: Limit[dict[str, Length]]
    sill_thickness: Limit[Length]
    sill_flame_spread: Limit[int]
    sill_density: Limit[bool]


@rule("energy.foam-cover", stage="insulation")
def foam_cover(found: FoamIn, limit: CoverLimits) -> Check:
    """Foam plastic has a thermal barrier, such as gypsum board, toward the rooms.

    In an attic or crawl space that is entered for service alone a thinner cover does. Thin spray foam on sill plates and
    headers needs none, and neither does what was tested as it is built.
    """
    foam = found.foam
    if is_missing(foam):
        return not_shown(foam)
    if foam.where == "none toward inside":
        return does_not_apply("it lies outside of sheathing or masonry, or under a slab")
    rooms = _covered(foam, limit.toward_rooms)
    attic, crawl_space = (_covered(foam, one) for one in (limit.toward_attic, limit.toward_crawl_space))
    alone = all_of(
        at_most(foam.thickness, limit.sill_thickness),
        at_most(foam.flame_spread, limit.sill_flame_spread),
        required(foam.density_in_range, limit.sill_density),
    )
    due = {
        "room": rooms,
        "attic": decide(foam.entered_for_service_only, attic, rooms),
        "crawl space": decide(foam.entered_for_service_only, crawl_space, rooms),
        "sill plate or header": any_of(alone, rooms),
    }
    by_place = not_shown(foam.where) if is_missing(foam.where) else due[foam.where]
    return met("tested as it is built") if foam.tested_assembly is True else by_place


def _covered(foam: FoamPlastic, limit: Limit[Any]) -> Check:
    """Return the check that one layer of the cover is thick enough for what it is."""
    rows = limit.value
    if rows is None or is_missing(rows):
        return at_least(Missing(), limit)
    fix = f"cover it with {' or '.join(f'{thick} {name}' for name, thick in rows.items())}"
    first = "gypsum" if "gypsum" in rows else next(iter(rows))
    laid = [NewValue(foam, "cover", (f"{rows[first]} {first}",))]
    if foam.covered is False:
        return broken("nothing covers the foam").or_fix(fix, lambda: [NewValue(foam, "covered", "yes"), *laid])
    if not foam.cover:
        return not_shown(foam.absent("cover"))
    known = [(layer, name) for layer in foam.cover if (name := _named(layer, rows))]
    if not known:
        told = ", ".join(layer.material for layer in foam.cover)
        return look_at(Look.OFFICIAL, f"{told}: show the test that it serves as the cover of foam plastic")
    return any_of(*(at_least(layer.thickness, replace(limit, value=rows[name]), name) for layer, name in known)).or_fix(
        fix, lambda: laid
    )


def _named(layer: Layer, rows: dict[str, Length]) -> str | None:
    """Return the row of the table that a layer is, by one of the names that it goes by."""
    return next((name for name in rows if layer.is_any_of(ALSO_CALLED.get(name, (name,)))), None)


class LabelLimits(Limits):
    flame_spread: Limit[int]
    smoke_developed: Limit[int]


@rule("energy.foam-label", stage="insulation")
def foam_label(found: FoamIn, limit: LabelLimits) -> Check:
    """Foam plastic is within the maximum flame spread and smoke-developed indexes."""
    return all_of(
        if_stated(found.foam.flame_spread, at_most, limit.flame_spread),
        if_stated(found.foam.smoke_developed, at_most, limit.smoke_developed),
    )
