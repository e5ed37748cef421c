"""Shear that a rectangular member keeps beside a notch at its end. Inches, psi, lb."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection


@fixed
class NotchedEnd:
    """Shear that a rectangular member keeps beside a notch at its end (in, psi, lb).

    On the tension side, the bottom of a simple span, it counts by the square of what is left. On the compression side it
    counts by how far it reaches past the support, `past_in`, which is None for the tension side.
    """

    breadth_in: float
    depth_in: float
    remaining_in: float
    shear_psi: float
    past_in: float | None = None

    @property
    def capacity_lb(self) -> float:
        """(2/3) F'v b dn (dn/d)^2, lb, or (2/3) F'v b (d - (d - dn) e / dn). NDS 3.4.3.2(a) and (e).

        The first power of dn/d, as in old texts, is unsafe.
        """
        per_inch = 2 / 3 * self.shear_psi * self.breadth_in
        dn, d, e = self.remaining_in, self.depth_in, self.past_in
        if e is None:
            return per_inch * dn * (dn / d) ** 2
        return per_inch * (dn if e > dn else d - (d - dn) * e / dn)

    def steps(self) -> tuple[Step, ...]:
        """The capacity with its numbers."""
        b, d, dn, fv = map(number, (self.breadth_in, self.depth_in, self.remaining_in, self.shear_psi))
        if self.past_in is None:
            left, clause = f"{dn} * ({dn} / {d})^2", "3.4.3.2(a)"
        elif self.past_in > self.remaining_in:
            left, clause = dn, "3.4.3.2(e)"
        else:
            left, clause = f"({d} - ({d} - {dn}) * {number(self.past_in)} / {dn})", "3.4.3.2(e)"
        text = f"2 / 3 * {fv} * {b} * {left}"
        return (Step("Vr'", "shear at a notched end", text, self.capacity_lb, "lb", nds(clause)),)


def notched_end(section: CrossSection, notch_in: float, shear_psi: float, past_in: float | None = None) -> NotchedEnd:
    """A square notch `notch_in` deep at a support; F'v in psi. Raises OutsideMethodError.

    On the compression side it reaches `past_in` past the inner edge of the support. Source: NDS 3.4.3.2.
    """
    if not 0 <= notch_in < section.depth_in or math.isnan(notch_in):
        raise OutsideMethodError(f"a notch of {notch_in:g} in does not leave wood in {section.label}")
    return NotchedEnd(section.breadth_in, section.depth_in, section.depth_in - notch_in, shear_psi, past_in)
