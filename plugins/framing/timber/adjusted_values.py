"""Adjusted design values: the reference value times its factors, kept as data.

Which factor applies to which value follows NDS Table 4.3.1 (from memory). Stresses in psi, lengths in inches.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber import factors
from precheck_plugins.framing.timber.factors import Factor
from precheck_plugins.framing.timber.stability import BeamStability, beam_stability
from precheck_plugins.framing.timber.steps import Step, given, nds, product

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.lumber import DesignValues
    from precheck_plugins.framing.timber.sections import CrossSection

SIZED = ("Fb", "Ft", "Fc")
HELD = Factor("CL", 1.0, "compression edge held, or no deeper than wide", nds("3.3.3"))
NAMES = {
    "Fb": "bending",
    "Ft": "tension",
    "Fv": "shear",
    "Fc_perp": "bearing across the grain",
    "Fc": "compression along the grain",
    "E": "modulus of elasticity",
    "Emin": "modulus of elasticity for stability",
}


@dataclass(frozen=True, slots=True)
class Conditions:
    """How a member is used: shortest load of the combination, repetition, moisture, heat, incising, bracing.

    `unbraced_in` is the length of compression edge free to move sideways, 0 when sheathing holds it.
    """

    load: str = "occupancy"
    repetitive: bool = False
    wet: bool = False
    incised: bool = False
    hottest_f: float = 100.0
    unbraced_in: float = 0.0
    unbraced_loading: str = "any"


@dataclass(frozen=True, slots=True)
class AdjustedValue:
    """A design value after its factors, psi, with the factors and where the reference value comes from."""

    symbol: str
    reference_psi: float
    factors: tuple[Factor, ...]
    psi: float
    source: DesignValues
    stability: BeamStability | None = None
    modulus_min: AdjustedValue | None = None

    def steps(self) -> tuple[Step, ...]:
        """Reference value, each factor with its clause, and the product."""
        reference = given(
            self.symbol, f"{NAMES[self.symbol]}, reference", self.reference_psi, "psi", self.source.origin(self.symbol)
        )
        inner = self._stability_steps()
        listed = tuple(f.step() for f in self.factors if not (inner and f.symbol == "CL"))
        text = product((self.reference_psi, *(f.value for f in self.factors)))
        total = Step(f"{self.symbol}'", f"{NAMES[self.symbol]}, adjusted", text, self.psi, "psi", nds("Table 4.3.1"))
        return (reference, *listed, *inner, total)

    def _stability_steps(self) -> tuple[Step, ...]:
        if self.stability is None or self.modulus_min is None:
            return ()
        star = product((self.reference_psi, *(f.value for f in self.factors if f.symbol != "CL")))
        line = Step("F*b", "bending, adjusted but for CL", star, self.stability.star_psi, "psi", nds("3.3.3.8"))
        return (*self.modulus_min.steps(), line, *self.stability.steps())


def adjusted_value(
    symbol: str, values: DesignValues, section: CrossSection, use: Conditions, further: Factor | None = None
) -> AdjustedValue:
    """One of Fb (without CL), Ft, Fv, Fc_perp, Fc (without CP), E or Emin, adjusted, psi.

    `further` is one more factor, such as Cb. Raises LumberError for an unknown value, OutsideMethodError for
    a use that is not covered. Source: NDS Table 4.3.1.
    """
    reference = values.reference(symbol)
    found = _factors(symbol, reference, values, section, use)
    if further is not None:
        found = (*found, further)
    psi = reference
    for factor in found:
        psi *= factor.value
    return AdjustedValue(symbol, reference, found, psi, values)


def adjusted_bending(values: DesignValues, section: CrossSection, use: Conditions) -> AdjustedValue:
    """F'b with CL, psi. Raises LumberError or OutsideMethodError. Source: NDS Table 4.3.1, 3.3.3.

    CL and a maker's depth factor both apply here, which is on the safe side of NDS 8.3.6.
    """
    star = adjusted_value("Fb", values, section, use)
    if use.unbraced_in <= 0:
        return AdjustedValue("Fb", star.reference_psi, (*star.factors, HELD), star.psi, values)
    emin = adjusted_value("Emin", values, section, use)
    stability = beam_stability(section, use.unbraced_in, star.psi, emin.psi, use.unbraced_loading)
    cl = Factor("CL", stability.value, "beam stability", nds("3.3.3")) if stability else HELD
    return AdjustedValue("Fb", star.reference_psi, (*star.factors, cl), star.psi * cl.value, values, stability, emin)


def _factors(
    symbol: str, reference_psi: float, values: DesignValues, section: CrossSection, use: Conditions
) -> tuple[Factor, ...]:
    sized = (factors.size(symbol, values, section),) if symbol in SIZED else ()
    with_size = reference_psi * (sized[0].value if sized else 1.0)
    own = (factors.flat_use(section), factors.repetitive(values, use.repetitive)) if symbol == "Fb" else ()
    # Duration of load never raises stiffness or bearing across the grain: NDS 2.3.2.
    lasting = () if symbol in ("E", "Emin", "Fc_perp") else (factors.load_duration(use.load),)
    return (
        *lasting,
        factors.wet_service(symbol, values, with_size, use.wet),
        factors.temperature(symbol, use.hottest_f, use.wet),
        *sized,
        *own,
        factors.incising(symbol, values, use.incised),
    )
