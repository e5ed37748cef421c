"""Columns: studs, posts and built-up posts under axial load.

Inches, lb, psi. Source: NDS 3.6, 3.7 and 15.3, from memory.
"""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.capacity import DemandCapacity
from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, Conditions, adjusted_value
from precheck_plugins.framing.timber.factors import Factor, built_up_column
from precheck_plugins.framing.timber.lumber import MADE, DesignValues
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.stability import (
    COMPOSITE_COLUMN_C,
    SAWN_COLUMN_C,
    ColumnStability,
    column_stability,
)
from precheck_plugins.framing.timber.steps import Step, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection


@fixed
class Column:
    """A column: section, lumber, use, and effective lengths (in) across its depth and across its breadth.

    `fastening` is `solid`, `nailed` or `bolted`: how the plies of a built-up column hold together. `shared_by` is how many
    alike share the load, each on its own.
    """

    section: CrossSection
    values: DesignValues
    across_depth_in: float
    across_breadth_in: float
    use: Conditions = field(default_factory=Conditions)
    fastening: str = "solid"
    shared_by: int = 1


@fixed
class ColumnCheck:
    """A column with F*c, Emin', CP about both axes, and its load compared with its capacity (lb)."""

    column: Column
    star: AdjustedValue
    modulus_min: AdjustedValue
    fastening: Factor
    axes: tuple[ColumnStability, ColumnStability]
    comparison: DemandCapacity

    @property
    def stability(self) -> float:
        """CP, the lesser of both axes."""
        return min(axis.value for axis in self.axes)

    @property
    def capacity_lb(self) -> float:
        """F*c CP A, lb."""
        return self.comparison.capacity

    @property
    def passes(self) -> bool:
        """Whether the capacity covers the load."""
        return self.comparison.passes

    def steps(self) -> tuple[Step, ...]:
        """The whole calculation in order."""
        axes = (*self.axes[0].steps(), *self.axes[1].steps())
        numbers = ", ".join(number(axis.value) for axis in self.axes)
        least = Step("CP", "lesser of both axes", f"min({numbers})", self.stability, "", nds("3.7.1"))
        values = (*self.star.steps(), *self.modulus_min.steps())
        return (*self.column.section.steps(), *values, *axes, least, *self.comparison.steps())


def check_column(column: Column, load_lb: float) -> ColumnCheck:
    """Compare an axial load, lb, with the column. Raises OutsideMethodError for le/d over 50, LumberError.

    A nailed or bolted built-up column takes Kf about its weak axis only. Source: NDS 3.7.1, 15.3.2.
    """
    section, values = column.section, column.values
    star = adjusted_value("Fc", values, section, column.use)
    emin = adjusted_value("Emin", values, section, column.use)
    fastening = _fastening(column)
    c = COMPOSITE_COLUMN_C if values.lumber in MADE else SAWN_COLUMN_C
    strong = column_stability(column.across_depth_in, section.depth_in, star.psi, emin.psi, c)
    weak = column_stability(column.across_breadth_in, section.breadth_in, star.psi, emin.psi, c)
    axes = (strong, weak.with_plies(fastening.value))
    return ColumnCheck(column, star, emin, fastening, axes, _comparison(column, star.psi, axes, load_lb))


def _fastening(column: Column) -> Factor:
    if column.section.plies > 1 and column.fastening == "solid":
        raise OutsideMethodError(f"{column.section.label} has plies; say whether they are nailed or bolted")
    return built_up_column(column.fastening)


def _comparison(
    column: Column, star_psi: float, axes: tuple[ColumnStability, ColumnStability], load_lb: float
) -> DemandCapacity:
    cp, area = min(axis.value for axis in axes), column.section.area_in2 * column.shared_by
    numbers = (star_psi, cp, area)
    capacity = star_psi * cp * area
    sources = ("3.6.3", "{}", (load_lb,), "{} * {} * {}", numbers)
    return DemandCapacity("compression", "P", load_lb, capacity, "lb", *sources)
