"""Notches and holes in studs, and cuts through top plates."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.walls.framed import dressed

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    PlateCut,
    Ratio,
    Settled,
    StudCut,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    faces_out,
    if_stated,
    is_missing,
    missing_of,
    not_shown,
    rule,
    when_given,
)


class CutLimits(Limits):
    notch_bearing: Settled[Ratio]
    notch_free: Settled[Ratio]
    hole_bearing: Settled[Ratio]
    hole_free: Settled[Ratio]
    to_edge: Limit[Length]
    doubled_in_a_row: Limit[int]
    beside_notch: Limit[int]


def _share(limit: Limit[Ratio], width: Length) -> Any:
    most = width * Fraction(limit.value.n) if limit.value is not None else None
    return replace(limit, value=most)


@rule("walls.stud-cut", stage="rough-in")
def stud_cut(cut: StudCut, limit: CutLimits, house: House) -> Check:
    """Notches and holes in studs keep within the limits, which are stricter in bearing walls and outside walls."""
    framing = cut.owner
    absent = missing_of(framing.stud)
    if absent is not None:
        return not_shown(absent)
    width = dressed(framing.stud)
    outside = faces_out(framing.owner, house)
    bears = True if outside else when_given(lambda carries: carries != "nothing", framing.carries)
    if not is_missing(cut.depth):
        deep = (at_most(cut.depth, _share(one, width)) for one in (limit.notch_bearing, limit.notch_free))
        return decide(bears, *deep).or_fix(
            lambda: f"a notch of {_share(limit.notch_bearing, width).value.rounded_down()} or less",
            lambda: [NewValue(cut, "depth", _share(limit.notch_bearing, width).value.rounded_down())],
        )
    return all_of(_hole(cut, bears, width, limit), at_least(cut.to_edge, limit.to_edge), _apart(cut, limit))


def _hole(cut: StudCut, bears: Any, width: Length, limit: CutLimits) -> Check:
    small, large = (at_most(cut.diameter, _share(one, width)) for one in (limit.hole_bearing, limit.hole_free))
    pairs = at_most(cut.doubled_in_a_row, limit.doubled_in_a_row, "doubled studs bored in a row")
    bearing = any_of(small, all_of(large, pairs)) if cut.doubled is True else small
    return decide(bears, bearing, large).or_fix(
        lambda: f"a hole of {_share(limit.hole_bearing, width).value.rounded_down()} or less, or a doubled stud",
        lambda: [NewValue(cut, "diameter", _share(limit.hole_bearing, width).value.rounded_down())],
    )


def _apart(cut: StudCut, limit: CutLimits) -> Check:
    beside = when_given(int, cut.beside_notch)
    return if_stated(beside, at_most, limit.beside_notch, "holes at the place of a notch")


class PlateCutLimits(Limits):
    free_up_to: Settled[Ratio]
    gage: Limit[int]
    width: Limit[Length]
    nails: Limit[int]


def _strapped(cut: PlateCut, limit: PlateCutLimits) -> list[NewValue]:
    asked = (("tie_gage", limit.gage), ("tie_width", limit.width), ("nails_each_side", limit.nails))
    return [NewValue(cut, name, bound.value) for name, bound in asked]


@rule("walls.plate-cut", stage="rough-in")
def plate_cut(cut: PlateCut, limit: PlateCutLimits, house: House) -> Check:
    """A top plate that is cut through more than half its width has a metal strap across the cut."""
    framing = cut.owner
    most = when_given(lambda stud: dressed(stud) * Fraction(limit.free_up_to.value.n), framing.stud)
    small = when_given(lambda own, half: own <= half, cut.width, most)
    if cut.covered_with_panel is True:
        return does_not_apply("panels cover that side of the wall")
    tie = all_of(
        at_most(cut.tie_gage, limit.gage, "gage; a smaller number is thicker"),
        at_least(cut.tie_width, limit.width),
        at_least(cut.nails_each_side, limit.nails),
    ).or_fix(
        "a galvanized strap across the cut, nailed on both sides of it",
        lambda: [
            NewValue(cut, "tie_gage", limit.gage.value),
            NewValue(cut, "tie_width", limit.width.value),
            NewValue(cut, "nails_each_side", limit.nails.value),
        ],
    )
    if framing.carries == "nothing" and not faces_out(framing.owner, house):
        return does_not_apply("an inner wall that carries nothing")
    return decide(small, does_not_apply("no more than half of the plate is cut"), tie)
