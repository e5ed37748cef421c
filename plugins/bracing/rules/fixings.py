"""What fixes braced panels: the nails of their sheathing, hold-downs, and the framing under panels inside the house."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from precheck import (
    BracedLine,
    BracedPanel,
    Check,
    Door,
    Force,
    House,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    Settled,
    Wall,
    Window,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    faces_out,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

AT_END = "at the end of the line"
ON_CONCRETE = ("slab", "foundation wall")
OVER_NOTHING = ("opening", "nothing")
STOUTEST = "8d common"  # of the nails in the table
OUTSIDE = "it stands on the outside wall"


class NailLimits(Limits):
    edge: Limit[Length]
    field: Limit[Length]
    wind: Settled[Mapping[str, Any]]
    wide_studs: Settled[Length]
    seen: Limit[bool]
    wind_speed: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")


@rule("bracing.panel-nails", stage="framing", engineered="stands aside")
def panel_nails(line: BracedLine, limit: NailLimits, house: House) -> Check:
    """The drawings call for nails of wood panels that are close enough, and stout enough for the wind of the place.

    They have the inspector see that the nails hit the studs before the wrap goes on: good practice. Nails of another kind
    go by their document.
    """
    if is_missing(line.method):
        return not_shown(line.method)
    if "WSP" not in line.method:
        return does_not_apply("no wood panels brace it")
    own = line.nails
    seen = required(own.seen_before_cover, limit.seen)
    if not is_missing(own.document):
        return all_of(met(f"nailed as {own.document} says"), seen)
    return all_of(at_most(own.edge, limit.edge), at_most(own.field, limit.field), _stout(line, limit, house), seen)


def _stout(line: BracedLine, limit: NailLimits, house: House) -> Check:
    wind = house.criterion(limit.wind_speed.value, "ultimate_wind_speed")
    exposure = house.criterion(limit.exposure.value, "wind_exposure")
    if wind is None or exposure is None:
        return does_not_apply("no wind is set")
    nail = line.nails.nail
    absent = missing_of(nail, line.stud_spacing, wind, exposure)
    if absent is not None:
        return not_shown(absent)
    name = f"{nail}, wide studs" if line.stud_spacing > limit.wide_studs.value else str(nail)
    row = limit.wind.value.get(name)
    if row is None or str(exposure) not in row:
        told = f"{nail} nails on studs {line.stud_spacing} apart in exposure {exposure} are not in the table of nails"
        return look_at(Look.ENGINEER, told)
    bound = replace(limit.wind, value=row[str(exposure)])
    stout = limit.wind.value[f"{STOUTEST}, wide studs" if name.endswith("wide studs") else STOUTEST]
    reach = stout.get(str(exposure))
    does = reach is not None and reach >= wind
    return at_most(wind, bound, f"{name}, exposure {exposure}").or_fix(
        f"{STOUTEST} nails, closer studs, or a design" if does else "closer studs, or a design",
        lambda: [NewValue(line.nails, "nail", STOUTEST)] if does else [],
    )


class HoldDownLimits(Limits):
    panel: Settled[Mapping[str, Any]]
    line_end: Limit[Force]
    seismic_line_end: Limit[Force]
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.hold-downs", stage="framing", engineered="stands aside")
def hold_downs(line: BracedLine, limit: HoldDownLimits, house: House) -> Check:
    """Hold-downs are strong enough: at the end of a line that has one instead of a return, and at alternate panels.

    Where the ground shakes, that of a line without continuous sheathing holds more.
    """
    end = at_least(line.end_hold_down, limit.line_end, AT_END)
    if not str(line.method).startswith("CS"):
        more = at_least(line.end_hold_down, limit.seismic_line_end, AT_END)
        end = decide(house.is_shaken(limit.seismic.value, limit.categories.value), more, end)
    none = does_not_apply("no hold-down is drawn at its ends")
    held = decide(when_given(lambda what: what == "hold-down", line.end_conditions), end, none)
    if is_missing(line.end_conditions) and not str(line.method).startswith("CS"):
        held = none  # the rule for the ends of lines says where other methods need something there
    short = [one for one in line.panels if not is_missing(one.portal) and one.portal.method == "ABW"]
    return all_of(held, *(_alternate(panel, limit) for panel in short))


def _alternate(panel: BracedPanel, limit: HoldDownLimits) -> Check:
    own, high = panel.portal, panel.owner.wall_height
    absent = missing_of(own.carries, high)
    if absent is not None:
        return not_shown(absent)
    row = sorted((Length.parse(name), force) for name, force in limit.panel.value.get(own.carries, {}).items())
    force = next((force for listed, force in row if listed >= high), None)
    if force is None:
        return look_at(Look.ENGINEER, f"the table of hold-downs holds no wall of {high}")
    return at_least(own.hold_down, replace(limit.panel, value=force), f"ABW under {own.carries}, wall {high} high")


class SupportLimits(Limits):
    stands_on: Limit[tuple[str, ...]]
    across: Limit[tuple[str, ...]]
    along: Limit[tuple[str, ...]]
    blocks_apart: Limit[Length]


@rule("bracing.panel-support", stage="framing", engineered="stands aside")
def panel_support(panel: BracedPanel, limit: SupportLimits, house: House) -> Check:
    """A braced panel stands on something: inside the house on blocking or a joist right below it, or on concrete.

    Where joists run along it and none lies below, blocks between the two next to it carry it, close together. A panel
    upstairs may stand over a wall, or on a floor that runs past its bearing; over an opening or open air it does not
    brace. Piers and posts under it are engineered.
    """
    inside = _inside(panel.owner, house)
    if is_missing(panel.over):
        upstairs = not_shown(panel.over) if _is_upstairs(panel.owner, house) else does_not_apply(OUTSIDE)
        return decide(inside, not_shown(panel.over), upstairs)
    if panel.over == "posts or piers":
        return look_at(Look.ENGINEER, "a braced panel on posts or piers, whose foundation is designed")
    if panel.over in OVER_NOTHING:
        return one_of(panel.over, limit.stands_on).or_fix(
            "a wall or floor framing under the whole panel, or another place for it"
        )
    if panel.over == "cantilever":
        return one_of(
            panel.over, limit.stands_on, "the floor below it runs past its bearing, which has a rule of its own"
        )
    if panel.over in ON_CONCRETE:
        return does_not_apply("it stands on concrete")
    across, along = (one_of(panel.under_it, ways) for ways in (limit.across, limit.along))
    below = across if panel.over == "joists across" else along
    blocks = at_most(panel.block_spacing, limit.blocks_apart, "blocks below the panel")
    close = blocks if panel.under_it == "blocks between joists" else does_not_apply("no single blocks carry it")
    held = all_of(below, close).or_fix("full-depth blocking or a joist below the whole panel")
    return decide(inside, held, does_not_apply(OUTSIDE))


def _is_upstairs(line: BracedLine, house: House) -> bool:
    """Return whether a line is of walls of an upper story, below which an opening or nothing may be."""
    walls = (house.project.by_id.get(name) for name in line.walls)
    stories = (house.project.by_id.get(w.story) for w in walls if isinstance(w, Wall) and not is_missing(w.story))
    return any(getattr(story, "level", None) in ("upper", "attic") for story in stories)


def _inside(line: BracedLine, house: House) -> Any:
    """Return whether a line is of inside walls; an absence where it names neither walls nor openings that tell."""
    parts = [house.project.by_id.get(name) for name in (*line.walls, *line.openings)]
    told = [
        isinstance(part, Window) or faces_out(part, house) for part in parts if isinstance(part, Wall | Door | Window)
    ]
    return not any(told) if told else line.absent("walls")
