"""A column that also bends: under a load beside its middle, or a push from the side. Inches, lb, psi.

Source: NDS 3.9.2 and 15.4.1, from memory.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.capacity import DemandCapacity
from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, adjusted_bending
from precheck_plugins.framing.timber.steps import STATICS, Step, given, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.members.columns import ColumnCheck
    from precheck_plugins.framing.timber.stability import ColumnStability

BUCKLED = 99.0
"""What stands for a load above that which buckles the column: far over 1."""


@fixed
class Bending:
    """What bends a column about one axis: how far off its middle its load is (in), and a moment from the side (lb-in)."""

    off_center_in: float = 0.0
    side_inlb: float = 0.0


@fixed
class BentColumn:
    """A column with what bends it across its depth, or across its breadth, and the comparison of both together."""

    column: ColumnCheck
    bending: Bending
    across_depth: bool
    value: AdjustedValue
    comparison: DemandCapacity

    def steps(self) -> tuple[Step, ...]:
        """The column, the bending value, and both together."""
        off = given("e", "load off the middle of the column", self.bending.off_center_in, "in")
        side = given("M side", "moment from the side", self.bending.side_inlb, "lb-in")
        return (*self.column.steps(), off, side, *self.value.steps(), *self.comparison.steps())


def bent_column(column: ColumnCheck, load_lb: float, bending: Bending, across_depth: bool = True) -> BentColumn:
    """Compare a column that also bends about one axis. Raises LumberError, OutsideMethodError. Source: NDS 15.4.1.

    (fc / F'c)^2 + (fb + fc (6 e / d) (1 + 0.234 fc / FcE)) / (F'b (1 - fc / FcE)) is at most 1. The bending value about the
    weak axis takes no flat use factor, which is on the safe side.
    """
    section, axis = column.column.section, column.axes[0 if across_depth else 1]
    free = axis.effective_in if across_depth and section.depth_in > section.breadth_in else 0.0
    value = adjusted_bending(column.column.values, section, replace(column.column.use, unbraced_in=free))
    return BentColumn(column, bending, across_depth, value, _compared(column, load_lb, bending, value.psi, axis))


def _compared(
    column: ColumnCheck, load_lb: float, bending: Bending, allowed_psi: float, axis: ColumnStability
) -> DemandCapacity:
    section = column.column.section
    modulus = section.area_in2 * axis.depth_in / 6
    fc, fb = load_lb / section.area_in2, bending.side_inlb / modulus
    fc_allowed = column.capacity_lb / column.column.shared_by / section.area_in2
    critical = axis.critical_psi
    room = 1 - fc / critical
    numbers = (
        fc, fc_allowed, fb, fc, bending.off_center_in, axis.depth_in, fc, critical, allowed_psi, fc, critical,
    )  # fmt: skip
    form = "({} / {})^2 + ({} + {} * 6 * {} / {} * (1 + 0.234 * {} / {})) / ({} * (1 - {} / {}))"
    if room <= 0:
        return DemandCapacity("compression and bending", "sum", BUCKLED, 1.0, "", "15.4.1", "{}", (BUCKLED,))
    thrown = fc * 6 * bending.off_center_in / axis.depth_in * (1 + 0.234 * fc / critical)
    total = (fc / fc_allowed) ** 2 + (fb + thrown) / (allowed_psi * room)
    return DemandCapacity("compression and bending", "sum", total, 1.0, "", "15.4.1", form, numbers)


def pushed_at_the_top_inlb(force_lb: float, lever_in: float) -> Step:
    """The moment at the foot of a post that is pushed at its top, lb-in."""
    text = f"{number(force_lb)} * {number(lever_in)}"
    return Step("M", "moment at the fixing of the post", text, force_lb * lever_in, "lb-in", STATICS)
