"""Braced wall lines: where one is due, how far lines and panels stand apart, how many panels, their ends."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from precheck_plugins.bracing.rules.shown import wall_line

from precheck import (
    Area,
    BracedLine,
    BracedPanel,
    Check,
    Door,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Opening,
    Outcome,
    Part,
    Settled,
    Wall,
    Window,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    faces_out,
    fact,
    if_stated,
    is_furring,
    is_missing,
    is_replaced,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    wall_of,
    when_given,
)

OFF = "panel from the end of the line"


@fact
class CutLine(Fact):
    """Work on an outside wall that changes what braces the house: a new or altered wall, or an opening made or widened."""

    part: Part

    @classmethod
    def found_in(cls, house: House) -> Iterator[CutLine]:
        """Yield new and altered outside walls, doors and windows, save what is of masonry or only lines a wall.

        An opening in a wall that is yielded needs no line of its own.
        """
        cut = {part.id: part for part in house.project.parts if _is_cut(part, house)}
        for part in cut.values():
            wall = wall_of(part, house) if isinstance(part, Opening) else None
            if wall is None or wall.id not in cut:
                yield cls(part, part)


def _is_cut(part: Part, house: House) -> bool:
    """Return whether a part is a new or altered outside wall or opening, not of masonry and no mere lining."""
    outside = faces_out(part, house) if isinstance(part, Wall | Door) else isinstance(part, Window)
    kept = is_furring(part, house) if isinstance(part, Wall) else False
    kept = kept or (isinstance(part, Window) and is_replaced(part, house))
    return outside and part.phase in ("new", "altered") and not kept and not _in_masonry(part, house)


def _in_masonry(part: Part, house: House) -> bool:
    """Return whether a wall, or the wall that an opening is in, is drawn as masonry or concrete.

    A window of a basement whose wall is not drawn is in the foundation wall.
    """
    wall = part if isinstance(part, Wall) else wall_of(part, house) if isinstance(part, Opening) else None
    if wall is None and isinstance(part, Window):
        space = house.space(part.space)
        return space is not None and house.story_level(space) == "basement"
    return wall is not None and wall.is_framed is False


class DueLimits(Limits):
    line: Limit[bool]


@rule("bracing.line-shown", stage="plan")
def line_shown(cut: CutLine, limit: DueLimits, house: House) -> Check:
    """A wall to the outside that is new, filled or opened up belongs to a braced wall line, which is checked anew."""
    found = wall_line(cut.part, house)
    shown = found if is_missing(found) else True
    return required(shown, limit.line).because(f"{cut.part.label} is {cut.part.phase}")


class SpacingLimits(Limits):
    apart: Settled[Length]
    seismic_spacing: Settled[Length]
    seismic_large_room: Settled[Length]
    large_room: Settled[Area]
    categories: Settled[tuple[str, ...]]
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.line-spacing", stage="plan")
def line_spacing(line: BracedLine, limit: SpacingLimits, house: House) -> Check:
    """Parallel braced wall lines are no farther apart than the limit; closer in SDC D0 to D2.

    There one pair of lines may stand farther apart around one large room.
    """
    if not is_missing(line.designed_by):
        return met(f"designed by {line.designed_by}")
    room = when_given(lambda area: area <= limit.large_room.value, line.largest_room)
    wider = decide(room, _apart(line, limit.seismic_large_room), _apart(line, limit.seismic_spacing))
    shaken = _apart(line, limit.seismic_spacing) if is_missing(line.largest_room) else wider
    return decide(house.is_shaken(limit.seismic.value, limit.categories.value), shaken, _apart(line, limit.apart))


def _apart(line: BracedLine, limit: Limit[Length]) -> Check:
    own = line.to_next_line
    if is_missing(own) or own <= limit.value:
        return at_most(own, limit)
    return look_at(
        Look.ENGINEER,
        f"the next line is {own} off, {own - limit.value} over {limit.value}; a line between, or a design",
    )


class PlaceLimits(Limits):
    offset: Limit[Length]
    first: Limit[Length]
    gap: Limit[Length]


@rule("bracing.panel-places", stage="framing", engineered="stands aside")
def panel_places(line: BracedLine, limit: PlaceLimits) -> Check:
    """Panels begin near both ends of a line, leave no wide gaps, and step out of line only a little."""
    if not line.panels:
        return not_shown(line.absent("panels"))
    placed = [when_given(lambda at, long: (at, at + long), panel.at, panel.length) for panel in line.panels]
    absent = missing_of(*placed, line.length)
    if absent is not None:
        return not_shown(absent)
    runs = sorted(run for run in placed if not is_missing(run))
    ends = (runs[0][0], line.length - max(end for _, end in runs))
    gaps = [start - end for (_, end), (start, _) in pairwise(runs)]
    out = [if_stated(panel.offset, at_most, limit.offset) for panel in line.panels]
    return all_of(
        *(at_most(end, limit.first, "from the end of the line to its first panel") for end in ends),
        *(at_most(gap, limit.gap, "between two panels") for gap in gaps),
        *out,
    ).or_fix(
        f"one more panel, so that none is over {limit.gap.value} from the next and {limit.first.value} from an end",
        decide="where it goes",
    )


class CountLimits(Limits):
    minimum: Settled[int]
    short_line: Settled[Length]
    single: Limit[Length]


@rule("bracing.panel-count", stage="framing", engineered="stands aside")
def panel_count(line: BracedLine, limit: CountLimits) -> Check:
    """A line has two panels; a short one may have a single long one, and one as long as two counts as two."""
    if not line.panels:
        return not_shown(line.absent("panels"))
    if len(line.panels) >= limit.minimum.value:
        return at_least(len(line.panels), limit.minimum)
    short = when_given(lambda length: length <= limit.short_line.value, line.length)
    only = line.panels[0].length
    long = at_least(only, limit.single, "the only panel")
    if (
        isinstance(limit.single.value, Length)
        and not is_missing(only)
        and only >= limit.single.value * limit.minimum.value
    ):
        return met(f"the only panel, {only} long, is as long as {limit.minimum.value}")
    return decide(short, long, at_least(len(line.panels), limit.minimum))


class EndLimits(Limits):
    at_end: Limit[Length]
    near_end: Limit[Length]
    ways_near_end: Limit[tuple[str, ...]]
    near_methods: Limit[tuple[str, ...]]
    near_alone: Limit[tuple[str, ...]]
    ends: Limit[tuple[str, ...]]
    sheathed: Limit[bool]
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.line-ends", stage="framing", engineered="stands aside")
def line_ends(line: BracedLine, limit: EndLimits, house: House) -> Check:
    """Continuous sheathing covers all of a wall and is held at its ends; in SDC D0 to D2 panels stand there.

    There a line of wood panels may begin a little off its end, with a panel around the corner or a hold-down.
    """
    if is_missing(line.method):
        return not_shown(line.method)
    held = one_of(line.end_conditions, limit.ends)
    if line.method.startswith("CS"):
        return all_of(required(line.fully_sheathed, limit.sheathed), held)
    if not line.panels:
        return not_shown(line.absent("panels"))
    return decide(
        house.is_shaken(limit.seismic.value, limit.categories.value),
        _end_panels(line, limit),
        does_not_apply("no panel is asked at the ends"),
    )


def _end_panels(line: BracedLine, limit: EndLimits) -> Check:
    first, last = line.panels[0], line.panels[-1]
    return all_of(
        _at_an_end(line, first, first.at, limit), _at_an_end(line, last, line.length - last.at - last.length, limit)
    )


def _at_an_end(line: BracedLine, panel: BracedPanel, off: Length | Missing, limit: EndLimits) -> Check:
    """Check the panel nearest to one end: there, or a little off it where it or the end of the line is held."""
    placed = at_most(off, limit.at_end, OFF)
    near = at_most(off, limit.near_end, OFF)
    if placed.outcome is Outcome.PASS:
        return placed
    if not is_missing(panel.portal) and panel.portal.method in (limit.near_alone.value or ()):
        return near.or_fix("a panel at each end of the line")
    if is_missing(line.end_conditions) or line.method not in (limit.near_methods.value or ()):
        return placed.or_fix("a panel at each end of the line")
    held = all_of(near, one_of(line.end_conditions, limit.ways_near_end))
    return held.or_fix("a panel at each end of the line, or around each corner")


class RoofLimits(Limits):
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")
    open_up_to: Settled[Length]
    blocked_up_to: Settled[Length]
    blocked: Limit[bool]


@rule("bracing.roof-connection", stage="framing")
def roof_connection(line: BracedLine, limit: RoofLimits, house: House) -> Check:
    """Rafters stand on the panels of a line; a gap between them is blocked where it is high, or designed if higher.

    Where the ground shakes, a low gap is blocked too.
    """
    if not is_missing(line.stories_above) and line.stories_above:
        return does_not_apply("a floor stands on it")
    gap = line.roof_gap
    blocked = required(line.roof_gap_blocked, limit.blocked)
    if is_missing(gap) or gap <= limit.open_up_to.value:
        shaken = house.is_shaken(limit.seismic.value, limit.categories.value)
        return decide(shaken, all_of(at_most(gap, limit.blocked_up_to), blocked), at_most(gap, limit.open_up_to))
    if gap <= limit.blocked_up_to.value:
        return blocked
    over = gap - limit.blocked_up_to.value
    return look_at(
        Look.ENGINEER, f"the gap of {gap} is {over} over what blocking alone may fill; a drawn detail or a design"
    )
