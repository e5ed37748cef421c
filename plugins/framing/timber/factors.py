"""Adjustment factors of the National Design Specification, allowable stress design, each with its clause.

Clause numbers follow the 2018 printing. Contents are from memory; the span tables confirm CD, CF, Cr, and
the deck table confirms CM and Ci for bending and stiffness.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.lumber import COMPOSITE, TIMBER, DesignValues, size_factor
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, nds, number

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection

LOAD_DURATION = {"dead": 0.9, "occupancy": 1.0, "snow": 1.15, "roof live": 1.25, "wind or seismic": 1.6, "impact": 2.0}
MODULI = ("E", "Emin")
WET_DIMENSION = {"Fb": 0.85, "Ft": 1.0, "Fv": 0.97, "Fc_perp": 0.67, "Fc": 0.8, "E": 0.9, "Emin": 0.9}
WET_TIMBER = {"Fb": 1.0, "Ft": 1.0, "Fv": 1.0, "Fc_perp": 0.67, "Fc": 0.91, "E": 1.0, "Emin": 1.0}
WET_FROM_PSI = {"Fb": 1150.0, "Fc": 750.0}
HOT_DRY = (1.0, 0.8, 0.7)
HOT_WET = (1.0, 0.7, 0.5)
HOT_STIFFNESS = (1.0, 0.9, 0.9)
TEMPERATURE_STEPS_F = (100.0, 125.0, 150.0)
INCISED = {"E": 0.95, "Emin": 0.95, "Fb": 0.8, "Ft": 0.8, "Fc": 0.8, "Fv": 0.8, "Fc_perp": 1.0}
FLAT_2_OR_3_THICK = {2: 1.0, 3: 1.0, 4: 1.1, 5: 1.1, 6: 1.15, 8: 1.15}
FLAT_4_THICK = {4: 1.0, 5: 1.05, 6: 1.05, 8: 1.05}
REPETITIVE = 1.15
REPETITIVE_COMPOSITE = 1.04
WIDEST_REPETITIVE_IN = 24.0
BUILT_UP = {"solid": 1.0, "nailed": 0.6, "bolted": 0.75}


@dataclass(frozen=True, slots=True)
class Factor:
    """One adjustment factor: its symbol, value, why it has that value, and its source."""

    symbol: str
    value: float
    reason: str
    source: str

    def step(self) -> Step:
        """The factor as a line of the calculation."""
        return Step(self.symbol, self.reason, number(self.value), self.value, "", self.source)


# Made once, because most members have them and a search for a remedy asks hundreds of times.
DURATION = {
    load: Factor("CD", value, f"load duration: {load}", nds("Table 2.3.2")) for load, value in LOAD_DURATION.items()
}
DRY = Factor("CM", 1.0, "dry in use", nds("4.3.3"))
MILD = Factor("Ct", 1.0, "no hotter than 100 F for long", nds("Table 2.3.3"))
ON_EDGE = Factor("Cfu", 1.0, "loaded on the narrow face", nds("4.3.7"))
NOT_INCISED = Factor("Ci", 1.0, "not incised", nds("4.3.8"))
ALONE = Factor("Cr", 1.0, "acts alone", nds("4.3.9"))
SHARING = Factor("Cr", REPETITIVE, "three or more at 24 in or less sharing load", nds("4.3.9"))


def load_duration(load: str) -> Factor:
    """CD of the shortest load combined, a key of LOAD_DURATION. Raises OutsideMethodError. NDS 2.3.2."""
    if load not in LOAD_DURATION:
        raise OutsideMethodError(f"no load duration factor for {load!r}; known: {', '.join(LOAD_DURATION)}")
    return DURATION[load]


def wet_service(symbol: str, values: DesignValues, with_size_psi: float, wet: bool) -> Factor:
    """CM for lumber over 19 % moisture in use; `with_size_psi` is the reference value times CF.

    Raises OutsideMethodError for made products, whose maker says. NDS 4.3.3 and Supplement Tables 4A, 4B, 4D.
    """
    if not wet:
        return DRY
    if values.lumber == COMPOSITE:
        raise OutsideMethodError(f"{values.name} in wet use: the maker's document decides")
    if values.lumber in TIMBER:
        return Factor("CM", WET_TIMBER[symbol], "wet in use, timber", nds("4.3.3"))
    if with_size_psi <= WET_FROM_PSI.get(symbol, 0.0):
        return Factor("CM", 1.0, f"wet in use, {symbol} CF within {WET_FROM_PSI[symbol]:g} psi", nds("4.3.3"))
    return Factor("CM", WET_DIMENSION[symbol], "wet in use", nds("4.3.3"))


def temperature(symbol: str, hottest_f: float, wet: bool) -> Factor:
    """Ct for sustained heat up to 150 F. Raises OutsideMethodError above. NDS 2.3.3, Table 2.3.3."""
    if hottest_f <= TEMPERATURE_STEPS_F[0]:
        return MILD
    column = HOT_STIFFNESS if symbol in (*MODULI, "Ft") else HOT_WET if wet else HOT_DRY
    for limit_f, value in zip(TEMPERATURE_STEPS_F, column, strict=True):
        if hottest_f <= limit_f:
            return Factor("Ct", value, f"no hotter than {limit_f:g} F for long", nds("Table 2.3.3"))
    raise OutsideMethodError(f"{hottest_f:g} F for long is hotter than the 150 F that the method covers")


def size(symbol: str, values: DesignValues, section: CrossSection) -> Factor:
    """CF of Fb, Ft or Fc; of a made product its depth factor. Raises LumberError. NDS 4.3.6, 8.3.6."""
    value = size_factor(values, section, symbol)
    if values.lumber == COMPOSITE:
        return Factor("CV", value, f"depth {number(section.depth_in)} in", nds("8.3.6"))
    return Factor("CF", value, f"size of {section.label}, {values.species}", nds("4.3.6"))


def flat_use(section: CrossSection) -> Factor:
    """Cfu of dimension lumber laid flat. Raises OutsideMethodError for other members. NDS 4.3.7."""
    if not section.is_flat:
        return ON_EDGE
    if section.nominal_thickness not in (2, 3, 4):
        raise OutsideMethodError(f"{section.label} is not covered")
    thick = section.nominal_thickness == 4
    listed, widest = (FLAT_4_THICK, 1.1) if thick else (FLAT_2_OR_3_THICK, 1.2)
    return Factor("Cfu", listed.get(section.nominal_depth, widest), "loaded on the wide face", nds("4.3.7"))


def incising(symbol: str, values: DesignValues, incised: bool) -> Factor:
    """Ci of dimension lumber incised for treatment. Raises OutsideMethodError for other lumber. NDS 4.3.8."""
    if not incised:
        return NOT_INCISED
    if values.lumber in (*TIMBER, COMPOSITE):
        raise OutsideMethodError(f"incised {values.name} is not covered")
    return Factor("Ci", INCISED[symbol], "incised", nds("4.3.8"))


def repetitive(values: DesignValues, repeats: bool) -> Factor:
    """Cr of three or more members in contact or at 24 in or less, joined to share load. NDS 4.3.9, 8.3.7."""
    if not repeats or values.lumber in TIMBER:
        return ALONE
    if values.lumber == COMPOSITE:
        return Factor("Cr", REPETITIVE_COMPOSITE, "three or more sharing load", nds("8.3.7"))
    return SHARING


def bearing_area(bearing_in: float, from_end_in: float = 0.0) -> Factor:
    """Cb of a bearing shorter than 6 in (inches) and 3 in or more from the end. NDS 3.10.4.

    Raises OutsideMethodError for a bearing of no length.
    """
    if bearing_in <= 0:
        raise OutsideMethodError("a bearing of no length carries nothing")
    if from_end_in < 3 or bearing_in >= 6:
        return Factor("Cb", 1.0, "bearing at the end, or 6 in or longer", nds("3.10.4"))
    return Factor("Cb", (bearing_in + 0.375) / bearing_in, f"bearing of {number(bearing_in)} in", nds("3.10.4"))


def built_up_column(fastening: str) -> Factor:
    """Kf of a column of plies about its weak axis: `solid`, `nailed` or `bolted`. Raises OutsideMethodError.

    Source: NDS 15.3.2; 0.60 for nails also at jlconline.com (Woeste, built-up posts).
    """
    if fastening not in BUILT_UP:
        raise OutsideMethodError(f"no built-up factor for {fastening!r}; known: {', '.join(BUILT_UP)}")
    return Factor("Kf", BUILT_UP[fastening], f"plies are {fastening}", nds("15.3.2"))


@dataclass(frozen=True, slots=True)
class NotchedEnd:
    """Shear that a rectangular member keeps beside a notch on the tension side at its end (in, psi, lb)."""

    breadth_in: float
    depth_in: float
    remaining_in: float
    shear_psi: float

    @property
    def capacity_lb(self) -> float:
        """(2/3) F'v b dn (dn/d)^2, lb; the first power, as in old texts, is unsafe. NDS 3.4.3.2(a)."""
        whole = 2 / 3 * self.shear_psi * self.breadth_in * self.remaining_in
        return whole * (self.remaining_in / self.depth_in) ** 2

    def steps(self) -> tuple[Step, ...]:
        """The capacity with its numbers."""
        b, d, dn, fv = map(number, (self.breadth_in, self.depth_in, self.remaining_in, self.shear_psi))
        text = f"2 / 3 * {fv} * {b} * {dn} * ({dn} / {d})^2"
        return (Step("Vr'", "shear at a notched end", text, self.capacity_lb, "lb", nds("3.4.3.2(a)")),)


def notched_end(section: CrossSection, notch_in: float, shear_psi: float) -> NotchedEnd:
    """A square notch `notch_in` deep on the tension side at a support; F'v in psi. Raises OutsideMethodError.

    Source: NDS 3.4.3.2(a).
    """
    if not 0 <= notch_in < section.depth_in or math.isnan(notch_in):
        raise OutsideMethodError(f"a notch of {notch_in:g} in does not leave wood in {section.label}")
    return NotchedEnd(section.breadth_in, section.depth_in, section.depth_in - notch_in, shear_psi)
