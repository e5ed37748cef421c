"""Whether the glazed and openable areas that are given can be those of the unit."""

from __future__ import annotations

from precheck import (
    Area,
    Check,
    Limit,
    Limits,
    Opening,
    Outcome,
    Ratio,
    WidthHeight,
    Window,
    all_of,
    at_most,
    broken,
    does_not_apply,
    is_missing,
    met,
    not_shown,
    reads,
    rule,
)


class AreasLimits(Limits):
    hung: Limit[Ratio] = reads("escape.clear-opening-possible.hung")
    sliding: Limit[Ratio] = reads("escape.clear-opening-possible.sliding")


@rule("light-and-air.areas-agree", stage="intake", existing="must comply")
def areas_agree(opening: Opening, limit: AreasLimits) -> Check:
    """The glazed and openable areas of a window or door are no larger than the whole unit, or than what of it can open."""
    unit = opening.unit_size
    whole = unit.area if isinstance(unit, WidthHeight) else None
    stated = [("glazed", opening.glazed_area), ("openable", opening.openable_area)]
    given = [(what, a) for what, a in stated if not is_missing(a)]
    if not given or whole is None:
        return does_not_apply("its areas are given once, so there is nothing to hold them against")
    if isinstance(opening, Window) and not opening.can_open and not is_missing(opening.openable_area):
        fixed = f"it is a fixed window, of which {opening.openable_area} is said to open"
        return broken(fixed).or_fix("make the sheets agree: correct the operation or the openable area")
    larger = next(((what, a) for what, a in given if a > whole + whole.rounding), None)
    if larger is None:
        return all_of(met(f"within the unit, {unit}"), _can_open(opening, whole, limit))
    return broken(f"the {larger[0]} area, {larger[1]}, is larger than the whole unit, {unit}, {whole}").or_fix(
        "make the sheets agree: correct the area or the unit size"
    )


def _can_open(opening: Opening, whole: Area, limit: AreasLimits) -> Check:
    """A hung window opens about half its height, a slider half its width."""
    operation = opening.operation if isinstance(opening, Window) else ""
    share_of = {"single hung": limit.hung, "double hung": limit.hung, "slider": limit.sliding}.get(str(operation))
    if is_missing(opening.openable_area):
        return does_not_apply("openable area: not stated")
    if is_missing(operation) and at_most(Ratio(opening.openable_area / whole), limit.hung).outcome is Outcome.FAIL:
        return not_shown(opening.absent("operation"))
    if share_of is None:
        return does_not_apply("no half of it is fixed by its kind")
    how = f"{opening.openable_area} of {whole} opens"
    return at_most(Ratio(opening.openable_area / whole), share_of, how).or_fix(
        "enter the openable area of the manufacturer's table; no more than half of the unit opens"
    )
