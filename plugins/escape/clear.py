"""Whether the net clear opening that is given can be: no more than its own sides make, and than its unit lets open."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from precheck_plugins.escape.openings import EscapeOpening

from precheck import (
    Area,
    Check,
    Door,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Opening,
    Outcome,
    Ratio,
    WidthHeight,
    Window,
    agrees,
    at_least,
    at_most,
    broken,
    does_not_apply,
    every,
    given,
    is_missing,
    not_shown,
    rule,
)

SAME_AREA = Area.parse("0.05 sq ft")  # manufacturers' tables round to a tenth of a square foot
HUNG = ("double hung", "single hung")
TABLE = "enter the net clear opening of the manufacturer's table; this looks like the size of the unit"


@rule("escape.clear-opening-agrees", stage="intake", existing="must comply")
def clear_opening_agrees(way: EscapeOpening) -> Check:
    """The net clear area drawn is no more than the net clear width times height."""
    box, stated = way.opening.net_clear_opening, way.opening.net_clear_area
    if is_missing(box) or is_missing(stated) or stated <= box.area:
        return does_not_apply("the clear area is given once, or is no more than width times height")
    return agrees(stated, box.area, "the net clear area", SAME_AREA, f"{box.width} x {box.height}")


class PossibleLimits(Limits):
    hung: Limit[Ratio]
    sliding: Limit[Ratio]
    frame: Limit[Length]


def at_best(opening: Opening, hung: Limit[Ratio], sliding: Limit[Ratio], frame: Limit[Length]) -> WidthHeight | Missing:
    """Return the width and height of the largest clear opening that the unit of a window can give.

    Of a way to open that is not given the kindest is taken.
    """
    unit = opening.unit_size
    settled = given(unit, hung.value, sliding.value, frame.value)
    if isinstance(settled, Missing) or not isinstance(opening, Window) or None in settled:
        return opening.absent("net clear opening")
    across, up = unit.width - frame.value, unit.height - frame.value
    if opening.operation in HUNG:
        up = min(up, unit.height * hung.value.n)
    elif opening.operation == "slider":
        across = min(across, unit.width * sliding.value.n)
    return WidthHeight(across, up)


def cleared(opening: Opening, best: WidthHeight | Missing, sides: Mapping[str, Length]) -> list[NewValue]:
    """Return the net clear opening with its `sides` made as large, where the unit can give it and no area stands beside it."""
    box = opening.net_clear_opening
    if is_missing(box) or not is_missing(opening.net_clear_area):
        return []
    new = WidthHeight(*(max(own, sides.get(name, own)) for name, own in (("width", box.width), ("height", box.height))))
    fits = is_missing(best) or (new.width <= best.width and new.height <= best.height)
    return [NewValue(opening, "net_clear_opening", new)] if fits else []


def at_least_possible(own: Any, best: Any, limit: Limit[Any], how: str = "") -> Check:
    """Compare what is given with `limit`; where nothing is, what is too small at best fails."""
    possible = at_least(best, limit, "the most that a unit of this size opens")
    return possible if is_missing(own) and possible.outcome is Outcome.FAIL else at_least(own, limit, how)


@rule("escape.clear-opening-possible", stage="plan")
def clear_opening_possible(way: EscapeOpening, limit: PossibleLimits) -> Check:
    """The net clear opening is one that a unit of this size and operation can give.

    A hung window clears about half its height, a slider half its width; from a casement the frame and the open sash take
    their part. The size of the unit itself is never clear.
    """
    unit, box = way.opening.unit_size, way.box
    if not isinstance(unit, WidthHeight):
        return does_not_apply("the unit size is not given")
    if not isinstance(box, WidthHeight):
        return _possible_area(way.opening, unit, limit)
    return every(_within(way.opening, unit, box, limit), "it is no window whose unit tells").or_fix(TABLE)


def _within(opening: Opening, unit: WidthHeight, box: WidthHeight, limit: PossibleLimits) -> list[Check]:
    how = f"{box} clear in a unit of {unit}"
    wide, high = Ratio(box.width / unit.width), Ratio(box.height / unit.height)
    frames = (unit.width - box.width, unit.height - box.height)
    across, up = (at_least(taken, limit.frame, how) for taken in frames)
    half_wide, half_high = at_most(wide, limit.sliding, how), at_most(high, limit.hung, how)
    if isinstance(opening, Door):
        unsure = is_missing(opening.operation) and half_wide.outcome is Outcome.FAIL
        return (
            [not_shown(opening.absent("operation"))]
            if unsure
            else [half_wide]
            if opening.operation == "sliding"
            else []
        )
    if not isinstance(opening, Window) or is_missing(opening.operation):
        surely = all(half.is_met for half in (half_wide, half_high))
        return [across, up] if surely else [across, up, not_shown(opening.absent("operation"))]
    if opening.operation in HUNG:
        return [across, half_high]
    return [half_wide, up] if opening.operation == "slider" else [across, up]


def _possible_area(opening: Opening, unit: WidthHeight, limit: PossibleLimits) -> Check:
    stated: Any = opening.net_clear_area
    if is_missing(stated) or not isinstance(opening, Window):
        return does_not_apply("the net clear opening is not given")
    share_of_unit = Ratio(stated / unit.area)
    if is_missing(opening.operation) and at_most(share_of_unit, limit.hung).outcome is Outcome.FAIL:
        return not_shown(opening.absent("operation"))
    how, most = f"{stated} clear in a unit of {unit}", at_best(opening, limit.hung, limit.sliding, limit.frame)
    share = {"slider": limit.sliding}.get(str(opening.operation), limit.hung if opening.operation in HUNG else None)
    if not is_missing(most) and stated > most.area:
        return broken(f"{how}, which opens {most.area} at most", share or limit.frame, limit.frame).or_fix(TABLE)
    if share is not None:
        return at_most(share_of_unit, share, how).or_fix(TABLE)
    return does_not_apply("only its area is given") if stated < unit.area else agrees(stated, unit.area, "the unit")
