"""Emergency escape and rescue openings: where, how large, how high, and what is outside."""

from __future__ import annotations

from typing import NamedTuple

from precheck_plugins.escape.openings import EscapeOpening, EscapeRoom

from precheck import (
    Area,
    Check,
    Door,
    Length,
    Limit,
    Look,
    Outcome,
    WidthHeight,
    Window,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    required,
    rule,
    when_given,
)


class WhereLimits(NamedTuple):
    least: Limit[int]
    mechanical_basement: Limit[Area]
    sprinkler_relief: Limit[str]


@rule("escape.where", existing="may stay")
def where(need: EscapeRoom, limit: WhereLimits) -> Check:
    """A sleeping room, a basement and a habitable attic have an opening through which people can leave and be rescued."""
    if need.candidates:
        return at_least(len(need.candidates), limit.least).because(need.why)
    lacking = (
        at_least(0, limit.least).because(need.why).or_fix(f"add a window or door to the outside in {need.room.id}")
    )
    if need.basement and need.room.mechanical_only is True:
        return any_of(at_most(need.area, limit.mechanical_basement), lacking)
    relief = limit.sprinkler_relief.value is not None and need.basement and need.room.is_sleeping
    sprinklers = look_at(
        Look.OFFICIAL, "sprinklers may stand in for it where the basement has other ways out; show them"
    )
    return decide(need.sprinklered, sprinklers, lacking) if relief else lacking


class AreaLimits(NamedTuple):
    least: Limit[Area]
    at_grade: Limit[Area]
    grade_within: Limit[Length]


@rule("escape.area", stage="framing")
def area(way: EscapeOpening, limit: AreaLimits) -> Check:
    """The net clear opening has the least area; a grade-floor opening may be somewhat smaller.

    The unit size says nothing of the clear opening: ask the maker's table.
    """
    at_grade = at_most(way.sill_from_grade, limit.grade_within)
    near = when_given(lambda _: at_grade.outcome is not Outcome.FAIL, way.sill_from_grade)
    how = _how(way)
    above = at_least(way.area, limit.least, how).or_fix(lambda: _larger(way, limit.least.value))
    low = at_least(way.area, limit.at_grade, how).or_fix(lambda: _larger(way, limit.at_grade.value))
    return decide(near, low, above).because(way.chosen)


def _how(way: EscapeOpening) -> str:
    box = way.opening.net_clear_opening
    return (
        "as stated" if is_missing(box) or not is_missing(way.opening.net_clear_area) else f"{box.width} x {box.height}"
    )


def _larger(way: EscapeOpening, least: Area) -> str:
    """Say how high the clear opening must be at its width; the nearest compliant size."""
    box = way.opening.net_clear_opening
    if not isinstance(box, WidthHeight):
        return f"choose a unit with {least} of net clear opening"
    height = least.over(box.width)
    return f"at {box.width} of clear width the clear height must be {height} or more; or choose a wider unit"


class HeightLimits(NamedTuple):
    least: Limit[Length]


@rule("escape.height", stage="framing")
def height(way: EscapeOpening, limit: HeightLimits) -> Check:
    """The net clear opening is high enough."""
    return at_least(way.height, limit.least).because(way.chosen)


class WidthLimits(NamedTuple):
    least: Limit[Length]


@rule("escape.width", stage="framing")
def width(way: EscapeOpening, limit: WidthLimits) -> Check:
    """The net clear opening is wide enough."""
    return at_least(way.width, limit.least).because(way.chosen)


class SillLimits(NamedTuple):
    highest: Limit[Length]


@rule("escape.sill", stage="framing")
def sill(way: EscapeOpening, limit: SillLimits) -> Check:
    """The bottom of the clear opening is within reach above the finished floor."""
    return (
        at_most(way.sill, limit.highest)
        .because(way.chosen)
        .or_fix(lambda: f"lower the sill by {way.sill - limit.highest.value}, or raise the finished floor by as much")
    )


class ReleaseLimits(NamedTuple):
    without_key: Limit[bool]


@rule("escape.release", stage="final")
def release(way: EscapeOpening, limit: ReleaseLimits) -> Check:
    """The opening works from inside without a key, a tool or special knowledge."""
    return required(way.opening.opens_without_key, limit.without_key, "opening from inside without a key")


class WayOutLimits(NamedTuple):
    leads_to: Limit[tuple[str, ...]]
    path_width: Limit[Length]
    path_height: Limit[Length]


@rule("escape.way-out")
def way_out(way: EscapeOpening, limit: WayOutLimits) -> Check:
    """The opening leads to a public way, or to a yard or court from which one is reached."""
    opening = way.opening
    leads = one_of(opening.opens_to, limit.leads_to).or_fix(
        "move the opening to a wall on a yard that reaches the street"
    )
    if opening.opens_to == "closed yard":
        return all_of(leads, at_least(opening.path_width, limit.path_width))
    if opening.opens_to in ("under deck", "porch"):
        return all_of(leads, at_least(opening.path_height, limit.path_height))
    return leads


class DoorFormLimits(NamedTuple):
    kinds: Limit[tuple[str, ...]]


@rule("escape.door-form")
def door_form(way: EscapeOpening, limit: DoorFormLimits) -> Check:
    """A door that serves as the escape opening swings on side hinges or slides."""
    door = way.opening
    return one_of(door.operation, limit.kinds) if isinstance(door, Door) else does_not_apply("a window serves")


class WellLimits(NamedTuple):
    area: Limit[Area]
    projection: Limit[Length]
    width: Limit[Length]
    opens_fully: Limit[bool]


@rule("escape.well", stage="foundation")
def well(way: EscapeOpening, limit: WellLimits) -> Check:
    """In front of a sill below grade there is a window well, large enough, that lets the window open fully."""
    return decide(way.sill_below_grade, _well(way, limit), does_not_apply("the sill is not below grade"))


def _well(way: EscapeOpening, limit: WellLimits) -> Check:
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return not_shown(window.absent("well"))
    size = window.well
    floor = when_given(lambda width, projection: width * projection, size.width, size.projection)
    return all_of(
        at_least(floor, limit.area, f"{size.width} x {size.projection}"),
        at_least(size.projection, limit.projection),
        at_least(size.width, limit.width),
        required(size.window_opens_fully, limit.opens_fully, "full opening of the window"),
    )


class LadderLimits(NamedTuple):
    from_: Limit[Length]
    encroachment: Limit[Length]
    rung_width: Limit[Length]
    rung_spacing: Limit[Length]
    rung_projection: Limit[Length]


@rule("escape.well-ladder", stage="final")
def well_ladder(way: EscapeOpening, limit: LadderLimits) -> Check:
    """A deep window well has a fixed ladder or steps, usable with the window open."""
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return does_not_apply("no window well is drawn")
    shallow = at_most(window.well.depth, limit.from_)
    if shallow.outcome in (Outcome.PASS, Outcome.WARN):
        return does_not_apply(f"the well is no deeper than {limit.from_.value}")
    return shallow if is_missing(window.well.depth) else _ladder(window, limit)


def _ladder(window: Window, limit: LadderLimits) -> Check:
    ladder = window.well.ladder
    if window.well.has_ladder is False:
        return at_most(window.well.depth, limit.from_).or_fix("add a fixed ladder or steps to the well")
    if is_missing(ladder):
        return not_shown(ladder)
    taken = at_most(ladder.encroachment, limit.encroachment)
    return all_of(
        at_least(ladder.rung_width, limit.rung_width),
        at_most(ladder.rung_spacing, limit.rung_spacing),
        at_least(ladder.rung_projection, limit.rung_projection),
        does_not_apply("no encroachment is drawn") if is_missing(ladder.encroachment) else taken,
    )


class DrainageLimits(NamedTuple):
    drained: Limit[bool]


@rule("escape.well-drainage", stage="foundation")
def well_drainage(way: EscapeOpening, limit: DrainageLimits) -> Check:
    """A window well drains."""
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return does_not_apply("no window well is drawn")
    return required(window.well.drained, limit.drained, "drainage of the well")


class BarsLimits(NamedTuple):
    release_inside: Limit[bool]


@rule("escape.bars", stage="final")
def bars(way: EscapeOpening, limit: BarsLimits) -> Check:
    """Bars, grilles and covers over the opening release from inside without a key or tool."""
    if way.opening.has_bars is not True:
        return does_not_apply("no bars or covers are drawn")
    return required(way.opening.bars_release_inside, limit.release_inside, "release from inside")


class ReplacementLimits(NamedTuple):
    relief: Limit[str]


@rule("escape.replacement")
def replacement(way: EscapeOpening, limit: ReplacementLimits) -> Check:
    """A replacement window in a room whose use stays may be smaller, if it is the largest standard size that fits."""
    window = way.opening
    if not isinstance(window, Window) or window.replacement is not True or limit.relief.value is None:
        return does_not_apply("not a replacement window")
    room = way.room
    if not is_missing(room.was) and room.was != room.use:
        return met(f"{room.id} was a {room.was}, so its window must meet the sizes for new work")
    return look_at(
        Look.OFFICIAL, "a smaller replacement may be accepted if it is the maker's largest standard size here"
    )
