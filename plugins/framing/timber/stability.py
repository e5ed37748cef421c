"""Stability factors: CL of a beam whose compression edge can move sideways, CP of a column.

Lengths in inches, stresses in psi. Formulas of NDS 3.3.3 and 3.7.1, from memory; they are also in any timber
engineering textbook.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, given, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection

GREATEST_RB = 50.0
GREATEST_COLUMN_SLENDERNESS = 50.0
SAWN_COLUMN_C = 0.8
COMPOSITE_COLUMN_C = 0.9
# For each loading: multiplier of lu below lu/d = 7, then multiplier of lu beside 3 d. NDS Table 3.3.3.
EFFECTIVE_LENGTH = {
    "any": (2.06, 1.63),
    "uniform": (2.06, 1.63),
    "point at center": (1.80, 1.37),
    "cantilever, uniform": (1.33, 0.90),
    "cantilever, point at end": (1.87, 1.44),
}


@fixed
class BeamStability:
    """CL with what it was computed from: lengths, breadth and depth (in), F*b and Emin' (psi)."""

    unbraced_in: float
    breadth_in: float
    depth_in: float
    effective_in: float
    effective_text: str
    star_psi: float
    modulus_min_psi: float

    @property
    def slenderness(self) -> float:
        """RB = sqrt(le d / b^2). NDS 3.3.3.6."""
        return sqrt(self.effective_in * self.depth_in) / self.breadth_in

    @property
    def critical_psi(self) -> float:
        """FbE = 1.20 Emin' / RB^2, psi. NDS 3.3.3.8."""
        return 1.20 * self.modulus_min_psi / self.slenderness**2

    @property
    def value(self) -> float:
        """CL. NDS 3.3.3.8."""
        ratio = self.critical_psi / self.star_psi
        half = (1 + ratio) / 1.9
        # The difference of near numbers loses digits for slender beams; this form of the same root does not.
        return ratio / 0.95 / (half + sqrt(half**2 - ratio / 0.95))

    def steps(self) -> tuple[Step, ...]:
        """Effective length, slenderness, critical stress and CL, with their numbers."""
        b, d, le, star, emin = map(
            number, (self.breadth_in, self.depth_in, self.effective_in, self.star_psi, self.modulus_min_psi)
        )
        rb, fbe = number(self.slenderness), number(self.critical_psi)
        half = f"(1 + {fbe} / {star}) / 1.9"
        cl = f"{half} - sqrt(({half})^2 - {fbe} / {star} / 0.95)"
        source = nds("3.3.3")
        return (
            given("lu", "unbraced length of the compression edge", self.unbraced_in, "in"),
            Step("le", "effective length", self.effective_text, self.effective_in, "in", nds("Table 3.3.3")),
            Step("RB", "slenderness", f"sqrt({le} * {d} / {b}^2)", self.slenderness, "", source),
            Step("FbE", "critical stress", f"1.2 * {emin} / {rb}^2", self.critical_psi, "psi", source),
            Step("CL", "beam stability", cl, self.value, "", source),
        )


def beam_stability(
    section: CrossSection, unbraced_in: float, star_psi: float, modulus_min_psi: float, loading: str = "any"
) -> BeamStability | None:
    """CL of a beam unbraced over `unbraced_in`; None where CL is 1: fully braced, or no deeper than wide.

    Built-up plies must be fastened so that they act at their full breadth. Raises OutsideMethodError when RB
    > 50 or the loading is not a key of EFFECTIVE_LENGTH. Source: NDS 3.3.3.
    """
    breadth_in, depth_in = section.breadth_in, section.depth_in
    if unbraced_in <= 0 or depth_in <= breadth_in:
        return None
    effective_in, text = effective_length(unbraced_in, depth_in, loading)
    found = BeamStability(unbraced_in, breadth_in, depth_in, effective_in, text, star_psi, modulus_min_psi)
    if found.slenderness > GREATEST_RB:
        raise OutsideMethodError(
            f"beam slenderness RB = {found.slenderness:.1f} is over 50; brace the compression edge"
        )
    return found


def effective_length(unbraced_in: float, depth_in: float, loading: str = "any") -> tuple[float, str]:
    """Effective length, in, and its arithmetic. Raises OutsideMethodError. NDS Table 3.3.3."""
    if loading not in EFFECTIVE_LENGTH:
        raise OutsideMethodError(f"no effective length for {loading!r}; known: {', '.join(EFFECTIVE_LENGTH)}")
    short, long = EFFECTIVE_LENGTH[loading]
    lu, d = number(unbraced_in), number(depth_in)
    slender = unbraced_in / depth_in
    if slender < 7:
        return short * unbraced_in, f"{short} * {lu}"
    if loading == "any" and slender > 14.3:
        return 1.84 * unbraced_in, f"1.84 * {lu}"
    return long * unbraced_in + 3 * depth_in, f"{long} * {lu} + 3 * {d}"


@fixed
class ColumnStability:
    """CP about one axis, with effective length and depth (in), F*c and Emin' (psi), c and Kf."""

    effective_in: float
    depth_in: float
    star_psi: float
    modulus_min_psi: float
    c: float
    built_up: float

    @property
    def slenderness(self) -> float:
        """le/d."""
        return self.effective_in / self.depth_in

    @property
    def critical_psi(self) -> float:
        """FcE = 0.822 Emin' / (le/d)^2, psi. NDS 3.7.1.5."""
        return 0.822 * self.modulus_min_psi / self.slenderness**2

    @property
    def value(self) -> float:
        """CP, with Kf of a built-up column. NDS 3.7.1.5, 15.3.2."""
        ratio = self.critical_psi / self.star_psi
        half = (1 + ratio) / (2 * self.c)
        return self.built_up * ratio / self.c / (half + sqrt(half**2 - ratio / self.c))

    def with_plies(self, built_up: float) -> ColumnStability:
        """The same axis of a built-up column, with its factor Kf. NDS 15.3.2."""
        return replace(self, built_up=built_up)

    def steps(self) -> tuple[Step, ...]:
        """Slenderness, critical stress and CP, with their numbers."""
        le, d, star, emin, c, kf = map(
            number, (self.effective_in, self.depth_in, self.star_psi, self.modulus_min_psi, self.c, self.built_up)
        )
        fce, slender = number(self.critical_psi), number(self.slenderness)
        half = f"(1 + {fce} / {star}) / (2 * {c})"
        cp = f"{kf} * ({half} - sqrt(({half})^2 - {fce} / {star} / {c}))"
        source = nds("3.7.1")
        return (
            given("le", f"effective length across {d} in", self.effective_in, "in"),
            given("d", "depth of the column in that direction", self.depth_in, "in"),
            given("c", "0.8 for sawn, 0.9 for composite lumber", self.c, "", source),
            given("Kf", "plies, about this axis", self.built_up, "", nds("15.3.2")),
            Step("le/d", "slenderness", f"{le} / {d}", self.slenderness, "", source),
            Step("FcE", "critical stress", f"0.822 * {emin} / {slender}^2", self.critical_psi, "psi", source),
            Step("CP", "column stability", cp, self.value, "", source),
        )


def column_stability(
    effective_in: float, depth_in: float, star_psi: float, modulus_min_psi: float, c: float = SAWN_COLUMN_C
) -> ColumnStability:
    """CP about the axis across `depth_in`. Raises OutsideMethodError unless 0 < le/d <= 50.

    Source: NDS 3.7.1; c is 0.8 for sawn lumber, 0.9 for structural composite lumber.
    """
    found = ColumnStability(effective_in, depth_in, star_psi, modulus_min_psi, c, 1.0)
    if not 0 < found.slenderness <= GREATEST_COLUMN_SLENDERNESS:
        raise OutsideMethodError(f"column slenderness le/d = {found.slenderness:.1f} is not within 0 to 50")
    return found
