"""Window wells in front of egress openings: their size, the ladder in a deep one, and drainage."""

from __future__ import annotations

from precheck_plugins.escape.openings import EscapeOpening

from precheck import (
    Area,
    Check,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Outcome,
    Window,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)


class WellLimits(Limits):
    area: Limit[Area]
    projection: Limit[Length]
    width: Limit[Length]
    opens_fully: Limit[bool]


@rule("escape.well", stage="foundation")
def well(way: EscapeOpening, limit: WellLimits) -> Check:
    """In front of a sill below grade there is a window well, large enough, that lets the window open fully.

    A window that takes the place of another is not asked where the ground lies: its well, if any, stands.
    """
    if way.is_replacement and is_missing(way.sill_below_grade):
        return does_not_apply("it takes the place of a window, and the ground outside stays")
    return decide(way.sill_below_grade, _well(way, limit), does_not_apply("the sill is not below grade"))


def _well(way: EscapeOpening, limit: WellLimits) -> Check:
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return not_shown(window.absent("well"))
    size = window.well
    sides = (_printed(size.width, limit.width), _printed(size.projection, limit.projection))
    floor = when_given(lambda width, projection: width * projection, *sides)
    large = all_of(
        at_least(floor, limit.area, f"{size.width} x {size.projection}"),
        at_least(size.projection, limit.projection),
        at_least(size.width, limit.width),
    )
    short = [
        NewValue(size, name, least.value)
        for name, least in (("width", limit.width), ("projection", limit.projection))
        if at_least(getattr(size, name), least).outcome is Outcome.FAIL
    ]
    words = {"width": "make it {} wide", "projection": "dig it {} out from the wall"}
    opens = required(size.window_opens_fully, limit.opens_fully)
    return all_of(large.or_fix("; ".join(words[one.field].format(one.value) for one in short), lambda: short), opens)


def _printed(side: Length | Missing, limit: Limit[Length]) -> Length | Missing:
    """Return the limit itself for a side that is the metric figure beside it, so that 914 mm by 914 mm is 9 sq ft."""
    return limit.value if not is_missing(side) and side == limit.metric else side


class LadderLimits(Limits):
    without_ladder: Limit[Length]
    encroachment: Limit[Length]
    rung_width: Limit[Length]
    rung_spacing: Limit[Length]
    rung_projection: Limit[Length]
    well_projection: Limit[Length] = reads("escape.well.projection")


@rule("escape.well-ladder", stage="final")
def well_ladder(way: EscapeOpening, limit: LadderLimits) -> Check:
    """A deep window well has a fixed ladder or steps, usable with the window open.

    It may take a little of the size that the well must have, and as much as it likes of what the well has beyond that.
    """
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return does_not_apply("no window well is drawn")
    shallow = at_most(window.well.depth, limit.without_ladder)
    if shallow.outcome in (Outcome.PASS, Outcome.WARN):
        return does_not_apply(f"the well is no deeper than {limit.without_ladder.value}")
    return shallow if shallow.outcome is not Outcome.FAIL else _ladder(window, limit)


def _ladder(window: Window, limit: LadderLimits) -> Check:
    size, ladder = window.well, window.well.ladder
    if size.has_ladder is False:
        return at_most(window.well.depth, limit.without_ladder).or_fix("add a fixed ladder or steps to the well")
    if is_missing(ladder):
        return not_shown(ladder)
    needed = Length(0) if limit.well_projection.value is None else limit.well_projection.value
    spare = when_given(_beyond, size.projection, needed)
    taken = when_given(_beyond, ladder.encroachment, spare)
    return all_of(
        at_least(ladder.rung_width, limit.rung_width),
        at_most(ladder.rung_spacing, limit.rung_spacing),
        at_least(ladder.rung_projection, limit.rung_projection),
        at_most(taken, limit.encroachment, lambda: f"{ladder.encroachment} less {spare} to spare"),
    )


def _beyond(own: Length, least: Length) -> Length:
    return max(own - least, Length(0))


class DrainageLimits(Limits):
    drained: Limit[bool]


@rule("escape.well-drainage", stage="foundation")
def well_drainage(way: EscapeOpening, limit: DrainageLimits) -> Check:
    """A window well drains."""
    window = way.opening
    if not isinstance(window, Window) or is_missing(window.well):
        return does_not_apply("no window well is drawn")
    return required(window.well.drained, limit.drained).or_fix(
        "drain the well", lambda: [NewValue(window.well, "drained", "yes")]
    )
