"""The isolated footing under a post or beam reaction. Inches, lb, psf of soil bearing."""

from __future__ import annotations

from math import ceil, sqrt

from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, given, number

from precheck.immutable import fixed

CONCRETE_PCF = 150.0
SIDE_STEP_IN = 2.0


@fixed
class SquareFooting:
    """A square footing: load (lb), allowable soil bearing (psf), own thickness (in), whose weight counts.

    Plain concrete weighs 150 pcf (common practice); it takes its share of the soil bearing first.
    """

    load_lb: float
    soil_psf: float
    thickness_in: float = 0.0

    @property
    def net_psf(self) -> float:
        """Soil bearing left for the load, psf."""
        return self.soil_psf - CONCRETE_PCF * self.thickness_in / 12

    @property
    def area_ft2(self) -> float:
        """Area needed, sq ft."""
        return self.load_lb / self.net_psf

    @property
    def exact_side_in(self) -> float:
        """Side of the square of that area, in."""
        return 12 * sqrt(self.area_ft2)

    @property
    def side_in(self) -> float:
        """Side rounded up to the next 2 in, in."""
        return SIDE_STEP_IN * ceil(self.exact_side_in / SIDE_STEP_IN - 1e-9)

    def steps(self) -> tuple[Step, ...]:
        """Load, soil, area and side with their numbers."""
        load, soil, thick, net = map(number, (self.load_lb, self.soil_psf, self.thickness_in, self.net_psf))
        side = f"{number(SIDE_STEP_IN)} * ceil({number(self.exact_side_in)} / {number(SIDE_STEP_IN)})"
        return (
            given("P", "load on the footing", self.load_lb, "lb"),
            given("q", "allowable soil bearing", self.soil_psf, "psf"),
            given("t", "thickness of the footing", self.thickness_in, "in"),
            Step("q net", "bearing left for the load", f"{soil} - {number(CONCRETE_PCF)} * {thick} / 12",
                 self.net_psf, "psf", STATICS),
            Step("A", "area", f"{load} / {net}", self.area_ft2, "sq ft", STATICS),
            Step("side exact", "side", f"12 * sqrt({number(self.area_ft2)})", self.exact_side_in, "in",
                 STATICS),
            Step("side", "side, up to the next 2 in", side, self.side_in, "in", STATICS),
        )  # fmt: skip


def footing(load_lb: float, soil_psf: float, thickness_in: float = 0.0) -> SquareFooting:
    """A square footing under a load (lb, psf, in). Raises OutsideMethodError where soil leaves nothing."""
    found = SquareFooting(load_lb, soil_psf, thickness_in)
    if found.net_psf <= 0 or load_lb < 0:
        raise OutsideMethodError(f"soil bearing of {soil_psf:g} psf leaves nothing for a load of {load_lb:g} lb")
    return found
