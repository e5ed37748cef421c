"""Foundation walls by the tables: how thick, and which bars, for their height, their fill and its soil."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.foundations.wall_tables import NO_BARS, bars_of, cell, lateral_load, nominal

from precheck import (
    Check,
    FoundationWall,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Outcome,
    Ratio,
    Settled,
    all_of,
    at_least,
    at_most,
    decide,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    reads,
    rule,
)

CONCRETE = "concrete"
MASONRY = {"hollow masonry": "hollow", "solid masonry": "solid", "grouted masonry": "grouted"}


class TableLimits(Limits):
    plain_masonry: Settled[Mapping[str, Any]]
    reinforced_masonry: Settled[Mapping[str, Any]]
    bar_depth: Settled[Mapping[str, Length]]
    concrete: Settled[Mapping[str, Any]]
    concrete_thickness: Settled[Mapping[str, Length]]
    backfill: Settled[Mapping[str, Any]]
    plain_only: Settled[tuple[str, ...]]
    weaker_steel: Settled[Ratio]
    seismic_height: Limit[Length]
    seismic_fill: Limit[Length]
    seismic_thickness: Limit[Length]
    categories: Settled[tuple[str, ...]] = reads("foundations.turned-down-bars.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("foundations.wall-thickness", stage="foundation", engineered="stands aside")
def wall_thickness(wall: FoundationWall, limit: TableLimits, house: House) -> Check:
    """A foundation wall is thick enough, and has the bars, for its height and the earth that it holds.

    Plain masonry goes by its thickness; where that table has no cell, or a thicker one, by the bars of the tables of
    reinforced walls; flat concrete by its bars for its thickness. Where the ground shakes, walls are lower, hold less and are
    thicker. What the tables do not hold is engineered.
    """
    absent = missing_of(wall.built_of, wall.thickness, wall.height, wall.fill_held, wall.backfill)
    if absent is not None:
        return not_shown(absent)
    load = lateral_load(str(wall.backfill), limit.backfill.value)
    if load is None:
        return _engineered(f"soil of class {wall.backfill} against it is not in the tables")
    calm = _concrete(wall, load, limit) if wall.built_of == CONCRETE else _masonry(wall, load, limit)
    shaken = all_of(
        calm,
        at_most(wall.height, limit.seismic_height),
        at_most(wall.fill_held, limit.seismic_fill),
        at_least(wall.thickness, limit.seismic_thickness),
    ).or_fix("a wall that is designed")
    return decide(house.is_shaken(limit.seismic.value, limit.categories.value), shaken, calm)


def _engineered(why: str) -> Check:
    return look_at(Look.ENGINEER, f"{why}; it is designed")


def _masonry(wall: FoundationWall, load: str, limit: TableLimits) -> Check:
    kind = MASONRY.get(str(wall.built_of))
    if kind is None:
        return _engineered(f"a foundation wall of {wall.built_of} is not in the tables held here")
    needed = cell(limit.plain_masonry.value[kind], wall, load)
    plain = (
        None
        if needed is None
        else at_least(wall.thickness, replace(limit.plain_masonry, value=needed), _how(wall, load))
    )
    if plain is not None and (plain.outcome is Outcome.PASS or is_missing(wall.bars)):
        told = f"{kind} units {needed} thick, or the bars of the tables of reinforced walls"
        return plain.or_fix(told, lambda: [NewValue(wall, "thickness", needed)])
    if is_missing(wall.bars):
        return not_shown(wall.bars)
    return _reinforced(wall, load, limit)


def _reinforced(wall: FoundationWall, load: str, limit: TableLimits) -> Check:
    listed = {name: Length.parse(name) for name in limit.reinforced_masonry.value}
    thick = nominal(listed, wall.thickness)  # type: ignore[arg-type]  # given, or it were absent
    word = None if thick is None else cell(limit.reinforced_masonry.value[thick], wall, load)
    if wall.backfill in limit.plain_only.value:
        return _engineered(f"soil of class {wall.backfill} is not in the tables of reinforced walls")
    if thick is None or word is None:
        return _engineered(f"{_how(wall, load)}, {wall.thickness} thick, is beyond the tables of reinforced walls")
    deep = at_least(wall.bar_depth, replace(limit.bar_depth, value=limit.bar_depth.value[thick]), f"wall {thick} thick")
    return all_of(_barred(wall, word, limit.reinforced_masonry, load, limit), deep)


def _concrete(wall: FoundationWall, load: str, limit: TableLimits) -> Check:
    thick = nominal(limit.concrete_thickness.value, wall.thickness)  # type: ignore[arg-type]  # given, or it were absent
    least = min(limit.concrete_thickness.value.values())
    if thick is None:
        return at_least(wall.thickness, replace(limit.concrete_thickness, value=least))
    if wall.backfill in limit.plain_only.value:
        return _engineered(f"soil of class {wall.backfill} is not in the table of concrete walls")
    word = cell(limit.concrete.value[thick], wall, load)
    if word is None:
        return _engineered(f"{_how(wall, load)}, {wall.thickness} thick, is beyond the table of concrete walls")
    return _barred(wall, word, limit.concrete, load, limit)


def _barred(wall: FoundationWall, word: str, table: Limit[Any], load: str, limit: TableLimits) -> Check:
    """Check the vertical bars against a cell; weaker steel stands closer."""
    asked = bars_of(word)
    if asked is None:
        return met(f"{_how(wall, load)}, {wall.thickness} thick, takes {NO_BARS}")
    own = wall.bars
    absent = missing_of(own.upright_number, own.upright_spacing, own.steel)
    if absent is not None:
        return not_shown(absent)
    share = Fraction(limit.weaker_steel.value.n) if own.steel == "grade 40" else Fraction(1)
    number = at_least(own.upright_number, replace(table, value=asked.number), f"size of the bars, {_how(wall, load)}")
    apart = at_most(own.upright_spacing, replace(table, value=asked.spacing * share), f"{word} in Grade 60")
    return all_of(number, apart).or_fix(
        f"{word}, Grade 60",
        lambda: [
            NewValue(own, "upright_number", asked.number),
            NewValue(own, "upright_spacing", asked.spacing),
            NewValue(own, "steel", "grade 60"),
        ],
    )


def _how(wall: FoundationWall, load: str) -> str:
    return f"wall {wall.height} high, {wall.fill_held} of fill, soil {wall.backfill} at {load} per ft"
