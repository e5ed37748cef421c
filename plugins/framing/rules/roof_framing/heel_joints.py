"""Roofs: the nails that tie rafters to ceiling joists at their feet, by the table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import Any

from precheck_plugins.framing.drawn.gable import Gable
from precheck_plugins.framing.drawn.setting import snow_of
from precheck_plugins.framing.rules.header_rows import step_of

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Missing,
    NewValue,
    Pressure,
    Ratio,
    Settled,
    Slope,
    all_of,
    at_least,
    does_not_apply,
    first_given,
    given,
    is_missing,
    look_at,
    not_shown,
    reads,
    rule,
)


class HeelLimits(Limits):
    nails: Settled[Mapping[str, Any]]
    raised_tie: Settled[Mapping[str, Any]]
    raised_freely: Settled[Ratio]
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("roof-framing.heel-joint", stage="framing")
def heel_joint(gable: Gable, limit: HeelLimits) -> Check:
    """Rafter and ceiling joist or tie are nailed together at the heel for the thrust of the roof.

    The number is that of the table for the slope, the spacing and the span of the roof and its snow, times a factor for a
    tie above the plates, and times the spacing of the ties over that of the rafters where they stand farther apart. Where
    the table does not reach, the joint is engineered.
    """
    tie = gable.frame.tie
    if gable.frame.ridge == "beam" or is_missing(tie) or gable.has_ties is False:
        return does_not_apply("no tie takes the thrust of these rafters") if not is_missing(tie) else not_shown(tie)
    snow = snow_of(gable.house.project, limit.snow)
    load = Pressure(0) if snow is None else snow
    roof = given(gable.slope, gable.spacing, load, gable.frame.width)
    ties = given(_ties_apart(gable), tie.height_above_plate, gable.rise)
    if is_missing(roof) or is_missing(ties):
        return not_shown(roof if is_missing(roof) else ties).citing(limit.nails)  # type: ignore[arg-type]  # one is the need
    apart, high, rise = ties
    return _joint(gable, _cell(limit.nails.value, *roof), high / rise, apart / roof[1], limit)


def _ties_apart(gable: Gable) -> Length | Missing:
    """Return the spacing of the ties: as drawn, else that of the member that they are."""
    tie = gable.frame.tie
    member = None if is_missing(tie.member) else gable.house.project.by_id.get(tie.member)
    return first_given(tie.spacing, member.spacing) if isinstance(member, Member) else tie.spacing


def _joint(gable: Gable, cell: int | None, part: Fraction, apart: Fraction, limit: HeelLimits) -> Check:
    raised = step_of(limit.raised_tie.value, Ratio, Ratio(part))
    if cell is None or raised is None:
        told = f"slope {gable.slope}, spacing {gable.spacing}, width {gable.frame.width}, its snow or the height of its tie"
        return look_at(Look.ENGINEER, f"{told} is not in the table of nails").citing(limit.nails)
    nails = ceil(cell * Fraction(raised.n) * max(apart, Fraction(1)))
    check = at_least(gable.frame.tie.nails, replace(limit.nails, value=nails)).or_fix(
        f"{nails} nails, 16d common, at each heel", lambda: [NewValue(gable.frame.tie, "nails", nails)]
    )
    if part <= limit.raised_freely.value.n:
        return check
    told = (
        f"a tie {gable.frame.tie.height_above_plate} above the plates bends the rafters, whose spans the table reduces"
    )
    return all_of(check, look_at(Look.ENGINEER, told).citing(limit.raised_freely))


def _cell(table: Any, slope: Slope, spacing: Length, snow: Pressure, width: Length) -> int | None:
    """Return the number for the next lower slope, and the next wider spacing and roof and more snow, that the table lists."""
    low = [(Slope.parse(name), cells) for name, cells in table.items() if Slope.parse(name) <= slope]
    found: Any = max(low, key=lambda pair: pair[0], default=(None, None))[1]
    for kind, wanted in ((Length, spacing), (Pressure, snow), (Length, width)):
        found = None if found is None else step_of(found, kind, wanted)
    return None if found is None else int(found)
