"""Headers in exterior bearing walls, by the recipe that reproduces IRC Table R602.7(1).

The recipe was found by search on printed cells, so that its constants are fitted and not published: the
weakest No.2 of four species, Cr 1.10 for two plies and 1.15 for more, bending only, roof overhang 2 ft, dead
load 20 psf, snow on the near half of the roof, 121 plf of wall under a floor. Feet only for the building
width; else inches, plf, psi.
"""

from __future__ import annotations

from math import ceil, sqrt
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, Conditions, adjusted_value
from precheck_plugins.framing.timber.factors import Factor
from precheck_plugins.framing.timber.lumber import CURRENT, DesignValues, published_values
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, filled, given, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from precheck_plugins.framing.timber.sections import CrossSection

FITTED = "header recipe: fitted on the printed cells of R602.7(1)"
SPECIES = ("Douglas fir-larch", "Hem-fir", "Southern pine", "Spruce-pine-fir")
GRADE = "No.2"
OVERHANG_FT = 2.0
ROOF_DEAD_PSF = 20.0
WALL_PLF = 121.0
FLOOR_DEAD_PSF = 10.0
FLOOR_LIVE_PSF = 40.0
SHARING = {2: 1.10}
SHARING_OF_MORE = 1.15
JACK_BEARING_PSI = 405.0
JACK_IN = 1.5
UNBRACED_TOP = 0.70
UNBRACED_DEPTHS = (8, 10, 12)


@fixed
class Combination:
    """A combination: its shortest load, its sum (plf), its arithmetic as a form with numbers, its source."""

    load: str
    plf: float
    form: str
    numbers: tuple[float, ...]
    source: str

    def step(self) -> Step:
        """The combination with its numbers."""
        text = filled(self.form, self.numbers)
        return Step("w", f"governing combination, {self.load}", text, self.plf, "plf", self.source)


@fixed
class HeaderLoads:
    """What bears on the header: ground snow (psf), building width (ft), and 0 or 1 center-bearing floors."""

    ground_snow_psf: float
    width_ft: float
    floors: int = 0

    @property
    def roof_ft(self) -> float:
        """Half the width and the overhang, ft."""
        return self.width_ft / 2 + OVERHANG_FT

    @property
    def dead_plf(self) -> float:
        """Roof, and with a floor its dead load and the wall, plf."""
        floor = WALL_PLF + FLOOR_DEAD_PSF * self.width_ft / 4 if self.floors else 0.0
        return ROOF_DEAD_PSF * self.roof_ft + floor

    @property
    def snow_plf(self) -> float:
        """Reaction of ground snow on the near half of the roof, plf."""
        return self.ground_snow_psf * self.roof_ft * (0.75 + 1 / self.width_ft)

    @property
    def live_plf(self) -> float:
        """Live load of the floor, plf; its joists bear on a center line."""
        return FLOOR_LIVE_PSF * self.width_ft / 4 if self.floors else 0.0

    def combinations(self) -> tuple[Combination, ...]:
        """Dead with snow, and with a floor also dead with live, and dead with three quarters of both."""
        dead, snow, live = self.dead_plf, self.snow_plf, self.live_plf
        roof = Combination("snow", dead + snow, "{} + {}", (dead, snow), FITTED)
        if not self.floors:
            return (roof,)
        floor = Combination("occupancy", dead + live, "{} + {}", (dead, live), FITTED)
        both = Combination("snow", dead + 0.75 * (live + snow), "{} + 0.75 * ({} + {})", (dead, live, snow), FITTED)
        return (roof, both, floor)

    def steps(self) -> tuple[Step, ...]:
        """Dead, snow and live load of the header with their numbers."""
        width, roof, snow = map(number, (self.width_ft, self.roof_ft, self.ground_snow_psf))
        wall = f" + {number(WALL_PLF)} + {number(FLOOR_DEAD_PSF)} * {width} / 4" if self.floors else ""
        return (
            given("W", "building width", self.width_ft, "ft"),
            given("pg", "ground snow load", self.ground_snow_psf, "psf"),
            Step("a", "roof width borne", f"{width} / 2 + {number(OVERHANG_FT)}", self.roof_ft, "ft", FITTED),
            Step("D", "dead load", f"{number(ROOF_DEAD_PSF)} * {roof}{wall}", self.dead_plf, "plf", FITTED),
            Step("S", "snow load", f"{snow} * {roof} * (0.75 + 1 / {width})", self.snow_plf, "plf", FITTED),
            Step("L", "live load", f"{number(FLOOR_LIVE_PSF)} * {width} / 4 * {self.floors}", self.live_plf,
                 "plf", FITTED),
        )  # fmt: skip


@fixed
class HeaderSpan:
    """The longest span (in, not rounded) of a header, what governs it, and its jack studs."""

    section: CrossSection
    loads: HeaderLoads
    combination: Combination
    bending: AdjustedValue
    top_braced: bool

    @property
    def bracing(self) -> float:
        """1, or 0.70 for 2x8 to 2x12 whose top is not braced. IRC R602.7(1), footnote."""
        reduced = not self.top_braced and self.section.nominal_depth in UNBRACED_DEPTHS
        return UNBRACED_TOP if reduced else 1.0

    @property
    def span_in(self) -> float:
        """Longest span, in, before rounding."""
        return sqrt(8 * self.bending.psi * self.section.modulus_in3 / (self.combination.plf / 12)) * self.bracing

    @property
    def tabulated_in(self) -> int:
        """Longest span to the nearest inch, a tie downward."""
        return ceil(self.span_in - 0.5 - 1e-6)

    @property
    def reaction_lb(self) -> float:
        """Reaction w L / 2, lb."""
        return self.combination.plf / 12 * self.span_in / 2

    @property
    def jack_studs(self) -> int:
        """Jack studs at each end: reaction over Hem-fir bearing across the grain, 1-1/2 in each."""
        return ceil(self.reaction_lb / (JACK_BEARING_PSI * self.section.breadth_in) / JACK_IN)

    def steps(self) -> tuple[Step, ...]:
        """The whole calculation in order."""
        fb, s, w = number(self.bending.psi), number(self.section.modulus_in3), number(self.combination.plf)
        span = f"sqrt(8 * {fb} * {s} / ({w} / 12)) * {number(self.bracing)}"
        reaction, breadth = number(self.reaction_lb), number(self.section.breadth_in)
        jacks = f"ceil({reaction} / ({number(JACK_BEARING_PSI)} * {breadth})"
        return (
            *self.section.steps(), *self.loads.steps(), *self.bending.steps(),
            self.combination.step(),
            given("k", "0.70 for 2x8 to 2x12, top not braced", self.bracing, "", "IRC R602.7(1), footnote"),
            Step("L", "longest span", span, self.span_in, "in", nds("3.3")),
            Step("R", "reaction", f"{w} / 12 * {number(self.span_in)} / 2", self.reaction_lb, "lb", STATICS),
            Step("NJ", "jack studs", f"{jacks} / {number(JACK_IN)})", float(self.jack_studs), "", FITTED),
        )  # fmt: skip


def header_span(
    section: CrossSection, loads: HeaderLoads, supplement: str = CURRENT, top_braced: bool = True
) -> HeaderSpan:
    """The longest span of a built-up header of the weakest of four species, No.2.

    Raises OutsideMethodError for loads that the recipe was not found on, LumberError. Source: IRC Table
    R602.7(1).
    """
    if loads.floors not in (0, 1) or loads.width_ft <= 0 or section.plies < 2:
        raise OutsideMethodError(
            "the header recipe covers two plies or more, a roof, and no more than one center-bearing floor"
        )
    listed = [published_values(species, GRADE, section, supplement) for species in SPECIES]
    found = [
        HeaderSpan(section, loads, combination, _bending(values, section, combination.load), top_braced)
        for values in listed
        for combination in loads.combinations()
    ]
    return min(found, key=lambda header: header.span_in)


def _bending(values: DesignValues, section: CrossSection, load: str) -> AdjustedValue:
    sharing = SHARING.get(section.plies, SHARING_OF_MORE)
    plies = Factor("Cr plies", sharing, f"{section.plies} plies share load", FITTED)
    return adjusted_value("Fb", values, section, Conditions(load=load), plies)
