"""Adjusted design values: the reference value times its factors, kept as data.

Which factor applies to which value follows NDS Table 4.3.1 (from memory). Stresses in psi, lengths in inches.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber import factors
from precheck_plugins.framing.timber.factors import Factor
from precheck_plugins.framing.timber.lumber import MADE, OTHER_SIDE
from precheck_plugins.framing.timber.stability import BeamStability, beam_stability
from precheck_plugins.framing.timber.steps import Step, given, nds, product

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.lumber import DesignValues
    from precheck_plugins.framing.timber.sections import CrossSection

BENDING = ("Fb", OTHER_SIDE)
SIZED = (*BENDING, "Ft", "Fc")
HELD = Factor("CL", 1.0, "compression edge held, or no deeper than wide", nds("3.3.3"))
NAMES = {
    "Fb": "bending",
    OTHER_SIDE: "bending with the other side in tension",
    "Ft": "tension",
    "Fv": "shear",
    "Fc_perp": "bearing across the grain",
    "Fc": "compression along the grain",
    "E": "modulus of elasticity",
    "Emin": "modulus of elasticity for stability",
}


@fixed
class Conditions:
    """How a member is used: shortest load of the combination, repetition, moisture, heat, incising, bracing.

    `unbraced_in` is the length of compression edge free to move sideways, 0 when sheathing holds it, and
    `unbraced_below_in` that of the lower edge where a beam hogs. `length_in` is the longest span, for the volume of glued
    laminated timber; 0 where it is none.
    """

    load: str = "occupancy"
    repetitive: bool = False
    wet: bool = False
    incised: bool = False
    hottest_f: float = 100.0
    unbraced_in: float = 0.0
    unbraced_loading: str = "any"
    unbraced_below_in: float = 0.0
    length_in: float = 0.0


@fixed
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
        kept = [f.value for f in self.factors if f.symbol not in ("CL", "CV or CL")]
        star = product((self.reference_psi, *kept))
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


def adjusted_bending(
    values: DesignValues, section: CrossSection, use: Conditions, hogging: bool = False
) -> AdjustedValue:
    """F'b with CL, psi; of a made product with the lesser of CL and a CV under 1. Raises LumberError, OutsideMethodError.

    Where the beam is `hogging` its lower edge is compressed, and glued laminated timber bends the other way, for which it
    has a value of its own. Source: NDS Table 4.3.1, 3.3.3, 5.3.6, 8.3.6.
    """
    symbol = OTHER_SIDE if hogging and values.knows(OTHER_SIDE) else "Fb"
    found = adjusted_value(symbol, values, section, use)
    free = use.unbraced_below_in if hogging else use.unbraced_in
    if free <= 0:
        return replace(found, factors=(*found.factors, HELD))
    emin = adjusted_value("Emin", values, section, use)
    cv = next((f for f in found.factors if f.symbol == "CV" and f.value <= 1), None) if values.lumber in MADE else None
    star = found.psi / cv.value if cv else found.psi
    stability = beam_stability(section, free, star, emin.psi, use.unbraced_loading)
    if stability is None:
        return replace(found, factors=(*found.factors, HELD))
    cl = Factor("CL", stability.value, "beam stability", nds("3.3.3"))
    if cv is None:
        return replace(found, factors=(*found.factors, cl), psi=star * cl.value, stability=stability, modulus_min=emin)
    return _lesser(replace(found, stability=stability, modulus_min=emin), cv, cl, star)


def _lesser(found: AdjustedValue, cv: Factor, cl: Factor, star_psi: float) -> AdjustedValue:
    """The value with the lesser of two factors, which do not act together. Source: NDS 5.3.6, 8.3.6."""
    least = min(cv.value, cl.value)
    both = Factor("CV or CL", least, f"lesser of CV {cv.value:.4g}, {cv.reason}, and CL {cl.value:.4g}", cv.source)
    kept = tuple(f for f in found.factors if f is not cv)
    return replace(found, factors=(*kept, both), psi=star_psi * least)


def _factors(
    symbol: str, reference_psi: float, values: DesignValues, section: CrossSection, use: Conditions
) -> tuple[Factor, ...]:
    sized = (factors.size(symbol, values, section, use.length_in),) if symbol in SIZED else ()
    with_size = reference_psi * (sized[0].value if sized else 1.0)
    own = (factors.flat_use(section), factors.repetitive(values, use.repetitive)) if symbol in BENDING else ()
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
