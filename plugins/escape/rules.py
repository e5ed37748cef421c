"""Emergency escape and rescue (egress) openings: where, how large, how high, and what is outside."""

from __future__ import annotations

from typing import Any, Literal

from precheck_plugins.escape.clear import at_best, at_least_possible, cleared
from precheck_plugins.escape.openings import EscapeOpening, EscapeRoom

from precheck import (
    Area,
    Check,
    Door,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Ratio,
    WidthHeight,
    Window,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    look_at,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

RELIEF = "escape.replacement.relief"
POSSIBLE = "escape.clear-opening-possible."


class WhereLimits(Limits):
    minimum: Limit[int]
    sleeping_loft: Limit[bool]
    mechanical_basement: Limit[Area]
    sprinkler_relief: Limit[str]
    altered_basement: Limit[str]


@rule("escape.where")
def where(need: EscapeRoom, limit: WhereLimits) -> Check:
    """Each bedroom, each basement and each habitable attic has an egress window or door.

    A basement that has bedrooms needs one in each of them and no other; one that has none needs one in all. The openings
    of a room that stands and is left alone need not be drawn.
    """
    if need.known:
        return at_least(len(need.known), limit.minimum).because(need.why)
    if need.candidates:
        return not_shown(need.candidates[0].absent("operation")).because(need.why)
    remedy = f"add a window or door to the outside in {need.room.id}"
    lacking = at_least(0, limit.minimum).because(need.why).or_fix(remedy, decide="where it goes")
    if need.loft is not None:
        ask = (
            f"people sleep in {need.loft.id}, and no egress opening is drawn there or below it; ask whether one is due"
        )
        return lacking if limit.sleeping_loft.value is not None else look_at(Look.OFFICIAL, ask)
    if need.phase == "existing":
        return does_not_apply("the room stands, and the work leaves its openings as they are")
    if need.mechanical_only:
        return any_of(at_most(need.area, limit.mechanical_basement), lacking)
    if need.is_altered_basement and limit.altered_basement.value is not None:
        return does_not_apply("an existing basement is altered, and no bedroom is made in it")
    if not need.basement or not need.room.is_sleeping or limit.sprinkler_relief.value is None:
        return lacking
    sprinklers = "sprinklers may stand in for it where the basement has other ways out; show them"
    return decide(need.sprinklered, look_at(Look.OFFICIAL, sprinklers), lacking)


class AreaLimits(Limits):
    minimum: Limit[Area]
    existing: Limit[Area]
    at_grade: Limit[Area]
    grade_within: Limit[Length]
    below_grade: Limit[str]
    relief: Limit[str] = reads(RELIEF)
    hung: Limit[Ratio] = reads(POSSIBLE + "hung")
    sliding: Limit[Ratio] = reads(POSSIBLE + "sliding")
    frame: Limit[Length] = reads(POSSIBLE + "frame")


@rule("escape.area", stage="framing")
def area(way: EscapeOpening, limit: AreaLimits) -> Check:
    """The net clear opening has the minimum area; a grade-floor opening may be somewhat smaller.

    Up to 2018 an opening below grade may as well, however deep its sill lies; later editions count the distance both ways.
    The unit size does not tell the clear opening, which the manufacturer's table gives, but a unit may be too small at best.
    """
    how, best = _how(way), at_best(way.opening, limit.hung, limit.sliding, limit.frame)
    most = when_given(lambda box: box.area, best)

    def judged(least: Limit[Area]) -> Check:
        return at_least_possible(way.area, most, least, how).or_fix(
            lambda: _larger(way, least.value), lambda: _opened_to(way, least.value, best), decide="which way to take"
        )

    above, low = judged(limit.minimum), judged(limit.at_grade)
    relieved = limit.at_grade.value is not None and limit.grade_within.value is not None
    at_grade = at_most(way.sill_from_grade, limit.grade_within)
    near = when_given(lambda *_: at_grade.outcome is not Outcome.FAIL, way.sill_from_grade, limit.grade_within.value)
    near = True if way.sill_below_grade is True and limit.below_grade.value is not None else near
    either = above if is_missing(near) and low.outcome is Outcome.FAIL else decide(near, low, above)
    due = either if relieved and isinstance(way.opening, Window) else above
    return _or_replaced(way, limit.relief, _or_existing(way, way.area, limit.existing, due).because(way.chosen))


def _or_existing(way: EscapeOpening, measured: Any, least: Limit[Any], due: Check) -> Check:
    """Return `due`, or that an existing window may be smaller where a bedroom is made in a basement, or of an addition."""
    if not way.may_be_smaller or least.value is None or due.outcome is not Outcome.FAIL:
        return due
    return at_least(measured, least, "an existing window").or_fix(lambda: due.remedy, lambda: due.changes, due.decide)


def _or_replaced(way: EscapeOpening, relief: Limit[str], due: Check) -> Check:
    """Return `due`, or where a replacement window falls short of it, that the official decides whether it may."""
    if due.outcome is not Outcome.FAIL or not way.is_replacement or relief.value is None:
        return due
    why = (
        f"a smaller replacement may do where it is the largest standard size that fits and {way.room.id} keeps its use"
    )
    return look_at(Look.OFFICIAL, why)


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
    height = least.over(box.width).rounded_up()
    return f"at {box.width} of clear width the clear height must be {height} or more; or choose a wider unit"


def _opened_to(way: EscapeOpening, least: Area, best: WidthHeight | Missing) -> list[NewValue]:
    box, opening = way.opening.net_clear_opening, way.opening
    if is_missing(box) and is_missing(opening.unit_size) and not is_missing(opening.net_clear_area):
        return [NewValue(opening, "net_clear_area", least)]
    if not isinstance(box, WidthHeight):
        return []
    return cleared(opening, best, {"height": least.over(box.width).rounded_up()})


class SideLimits(Limits):
    minimum: Limit[Length]
    existing: Limit[Length]
    unit: Limit[Length]
    relief: Limit[str] = reads(RELIEF)
    hung: Limit[Ratio] = reads(POSSIBLE + "hung")
    sliding: Limit[Ratio] = reads(POSSIBLE + "sliding")
    frame: Limit[Length] = reads(POSSIBLE + "frame")


@rule("escape.height", stage="framing")
def height(way: EscapeOpening, limit: SideLimits) -> Check:
    """The net clear opening is high enough; some jurisdictions ask for a minimum unit as well."""
    return _side(way, "height", limit)


@rule("escape.width", stage="framing")
def width(way: EscapeOpening, limit: SideLimits) -> Check:
    """The net clear opening is wide enough; some jurisdictions ask for a minimum unit as well."""
    return _side(way, "width", limit)


def _side(way: EscapeOpening, name: Literal["height", "width"], limit: SideLimits) -> Check:
    best, clear = at_best(way.opening, limit.hung, limit.sliding, limit.frame), getattr(way, name)
    due = at_least_possible(clear, when_given(lambda box: getattr(box, name), best), limit.minimum).or_fix(
        lambda: f"choose a unit that opens {limit.minimum.value} {'high' if name == 'height' else 'wide'} or more",
        lambda: cleared(way.opening, best, {name: limit.minimum.value}),
        decide="which way to take",
    )
    due = _or_existing(way, clear, limit.existing, due)
    unit = at_least(getattr(way.opening.unit_size, name), limit.unit)
    return _or_replaced(way, limit.relief, _with_unit(way, due, unit))


def _with_unit(way: EscapeOpening, clear: Check, unit: Check) -> Check:
    """Return both checks, the one of the unit for windows alone and where the jurisdiction asks for it."""
    asked = isinstance(way.opening, Window) and unit.outcome is not Outcome.DOES_NOT_APPLY
    return (all_of(clear, unit) if asked else clear).because(way.chosen)


class SillLimits(Limits):
    maximum: Limit[Length]
    relief: Limit[str] = reads(RELIEF)


@rule("escape.sill", stage="framing")
def sill(way: EscapeOpening, limit: SillLimits, house: House) -> Check:
    """The sill of the egress window is no higher above the finished floor than people can climb over."""
    window = way.opening
    if not isinstance(window, Window):
        return does_not_apply("a door serves")
    due = at_most(way.sill, limit.maximum).or_fix(
        lambda: f"lower the sill by {way.sill - limit.maximum.value}, or raise the finished floor by as much",
        lambda: [NewValue(window, *to) for to in house.sill_set(window, limit.maximum.value)],
    )
    return _or_replaced(way, limit.relief, due.because(way.chosen))


class ReleaseLimits(Limits):
    without_key: Limit[bool]


@rule("escape.release", stage="final")
def release(way: EscapeOpening, limit: ReleaseLimits) -> Check:
    """The egress window opens from inside without a key, a tool or special knowledge.

    The hardware is looked at in the field; the plans need not say it.
    """
    return if_stated(way.opening.opens_without_key, required, limit.without_key).or_fix(
        "fit hardware that opens from inside without a key", lambda: [NewValue(way.opening, "opens_without_key", "yes")]
    )


def _said(opening: Opening, fact: bool | Missing, key: str) -> bool | Missing:
    """Return a fact that is a yes or no, so that its absence tells what to write."""
    return opening.absent(f"`{key}: yes or no`") if is_missing(fact) else fact


class DoorFormLimits(Limits):
    kinds: Limit[tuple[str, ...]]


@rule("escape.door-form")
def door_form(way: EscapeOpening, limit: DoorFormLimits) -> Check:
    """A door that serves as the egress opening swings on side hinges or slides."""
    door = way.opening
    return one_of(door.operation, limit.kinds) if isinstance(door, Door) else does_not_apply("a window serves")


class BarsLimits(Limits):
    release_inside: Limit[bool]


@rule("escape.bars", stage="final")
def bars(way: EscapeOpening, limit: BarsLimits) -> Check:
    """Bars, grilles and covers over the opening release from inside without a key or tool."""
    if way.opening.has_bars is not True:
        return does_not_apply("no bars or covers are drawn")
    releases = _said(way.opening, way.opening.bars_release_inside, "bars release inside")
    return required(releases, limit.release_inside).or_fix(
        "use bars that release from inside without a key or tool",
        lambda: [NewValue(way.opening, "bars_release_inside", "yes")],
    )


class ReplacementLimits(Limits):
    relief: Limit[str]
    large: Limit[Area] = reads("escape.area.minimum")


@rule("escape.replacement")
def replacement(way: EscapeOpening, limit: ReplacementLimits) -> Check:
    """A replacement window in a room whose use stays may be smaller, if it is the largest standard size that fits."""
    if not way.replaced or limit.relief.value is None:
        return does_not_apply("not a replacement window")
    if not way.is_replacement:
        return does_not_apply(f"{way.room.id} was a {way.room.was}, so its window must meet the sizes for new work")
    if at_least(way.area, limit.large).outcome is Outcome.PASS:
        return does_not_apply("it is as large as a new one must be")
    return look_at(Look.OFFICIAL, "show that it is the manufacturer's largest standard size for this opening")
