"""Door and window schedules: each opening of the work has a row, and the rows say what the plan says."""

from __future__ import annotations

from typing import Any

from precheck_plugins.package.sheets import row_of

from precheck import (
    Check,
    House,
    Limit,
    Limits,
    Missing,
    Opening,
    ScheduleRow,
    agrees,
    all_of,
    does_not_apply,
    required,
    rule,
)

SAME = {
    "unit size": "unit_size", "operation": "operation", "net clear opening": "net_clear_opening",
    "net clear area": "net_clear_area", "clear width": "clear_width", "sill height": "sill_height",
    "safety glazing": "safety_glazing", "U-factor": "u_factor", "thickness": "thickness", "construction": "construction",
    "fire rating": "fire_rating", "self-closing device": "self_closing",
}  # fmt: skip


@rule("package.schedule-agrees", stage="intake", existing="must comply")
def schedule_agrees(row: ScheduleRow, house: House) -> Check:
    """The door and window schedule matches the plan."""
    opening = house.project.by_id[row.of]
    checks = [agrees(getattr(row, field), on_plan(opening, field), what) for what, field in SAME.items()]
    return all_of(*checks)


def on_plan(opening: Any, field: str) -> Any:
    """Return what the plan says of `opening`; an absence where such an opening has no such value."""
    return getattr(opening, field, Missing())


class RowLimits(Limits):
    given: Limit[bool]


@rule("package.schedule-complete", stage="intake")
def schedule_complete(opening: Opening, limit: RowLimits, house: House) -> Check:
    """Each new or altered door and window is in the schedule, where the set has one."""
    if opening.is_existing:
        return does_not_apply("it stands and stays")
    if not house.project.schedule:
        return does_not_apply("the set has no schedule, which the rule for sheets judges")
    return required(row_of(house, opening.id) is not None, limit.given)
