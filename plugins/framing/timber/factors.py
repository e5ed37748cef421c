"""Adjustment factors of the National Design Specification, allowable stress design, each with its clause.

Clause numbers follow the 2018 printing. Contents are from memory; the span tables confirm CD, CF, Cr, and
the deck table confirms CM and Ci for bending and stiffness.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.lumber import (
    COMPOSITE,
    GLUED,
    GLUED_BREADTH_IN,
    GLUED_LENGTH_IN,
    MADE,
    OTHER_SIDE,
    TIMBER,
    DesignValues,
    depth_factor,
    size_factor,
)
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection

LOAD_DURATION = {"dead": 0.9, "occupancy": 1.0, "snow": 1.15, "roof live": 1.25, "wind or seismic": 1.6, "impact": 2.0}
MODULI = ("E", "Emin")
WET_DIMENSION = {"Fb": 0.85, "Ft": 1.0, "Fv": 0.97, "Fc_perp": 0.67, "Fc": 0.8, "E": 0.9, "Emin": 0.9}
WET_TIMBER = {"Fb": 1.0, "Ft": 1.0, "Fv": 1.0, "Fc_perp": 0.67, "Fc": 0.91, "E": 1.0, "Emin": 1.0}
WET_GLUED = {"Fb": 0.8, OTHER_SIDE: 0.8, "Ft": 0.8, "Fv": 0.875, "Fc_perp": 0.53, "Fc": 0.73, "E": 0.833, "Emin": 0.833}
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


@fixed
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

    Raises OutsideMethodError for LVL and the like, whose maker says. NDS 4.3.3, 5.3.3, Supplement Tables 4A, 4B, 4D, 5A.
    """
    if not wet:
        return DRY
    if values.lumber == GLUED:
        return Factor("CM", WET_GLUED[symbol], "wet in use, glued laminated", nds("5.3.3"))
    if values.lumber == COMPOSITE:
        raise OutsideMethodError(f"{values.name} in wet service: the manufacturer's literature decides")
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


def size(symbol: str, values: DesignValues, section: CrossSection, length_in: float = 0.0) -> Factor:
    """CF of Fb, Ft or Fc; of a made product its depth factor, of glued laminated timber its volume factor.

    `length_in` is the span of glued laminated timber, in; 0 takes the length that its factor is 1 for. Raises
    LumberError, also where nobody says how a made product goes with depth. NDS 4.3.6, 5.3.6, 8.3.6.
    """
    if values.lumber not in MADE:
        return Factor(
            "CF", size_factor(values, section, symbol), f"size of {section.label}, {values.species}", nds("4.3.6")
        )
    if symbol not in ("Fb", OTHER_SIDE):
        return Factor("CV", 1.0, f"of bending, not of {symbol}", nds("8.3.6"))
    value = depth_factor(values, section, length_in or GLUED_LENGTH_IN)
    clause = "5.3.6" if values.lumber == GLUED else "8.3.6"
    return Factor("CV", value, _how_deep(values, section, length_in), nds(clause))


def _how_deep(values: DesignValues, section: CrossSection, length_in: float) -> str:
    depth = values.depth
    assert depth is not None  # depth_factor refuses it
    if not depth.exponent:
        return depth.ground
    ratio = f"{number(depth.reference_in)} / {number(section.depth_in)}"
    if values.lumber == GLUED:
        long = number(length_in or GLUED_LENGTH_IN)
        ratio += (
            f" * {number(GLUED_LENGTH_IN)} / {long} * {number(GLUED_BREADTH_IN)} / {number(section.ply_breadth_in)}"
        )
    return f"({ratio})^{number(depth.exponent)}, {depth.ground}"


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
    """Ci of dimension lumber incised for treatment, which timbers do not take. NDS 4.3.8.

    Raises OutsideMethodError for made products.
    """
    if not incised:
        return NOT_INCISED
    if values.lumber in MADE:
        raise OutsideMethodError(f"incised {values.name} is not covered")
    if values.lumber in TIMBER:
        return Factor("Ci", 1.0, "incised; the factor is that of dimension lumber", nds("4.3.8"))
    return Factor("Ci", INCISED[symbol], "incised", nds("4.3.8"))


def repetitive(values: DesignValues, repeats: bool) -> Factor:
    """Cr of three or more members in contact or at 24 in or less, joined to share load. NDS 4.3.9, 8.3.7."""
    if not repeats or values.lumber in (*TIMBER, GLUED):
        return ALONE
    if values.lumber == COMPOSITE:
        return Factor("Cr", REPETITIVE_COMPOSITE, "three or more sharing load", nds("8.3.7"))
    return SHARING


@lru_cache(maxsize=64)
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
