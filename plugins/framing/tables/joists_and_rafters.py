"""Longest spans of joists and rafters, by the recipe that reproduces the printed span tables.

A simple span with uniform load, L being the clear span, own weight inside the dead load, everything on the
horizontal projection. Bending under dead and live load, deflection under live load only, reference E without
creep; rounded to the nearest inch. Shear never governs a printed cell but is computed all the same; bearing
is not part of the tables, so that the length it needs is given apart. Inches, psf, psi.
"""

from __future__ import annotations

from dataclasses import replace
from math import ceil, sqrt
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, Conditions, adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.factors import WIDEST_REPETITIVE_IN
from precheck_plugins.framing.timber.lumber import INCISED_FOR_TREATMENT, is_same
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, given, nds, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from precheck_plugins.framing.timber.lumber import DesignValues
    from precheck_plugins.framing.timber.sections import CrossSection

RECIPE = "span recipe: reproduces the printed tables"
TABLE = "loads of the table"
DECK_GROUPS = (
    ("Southern pine",),
    ("Douglas fir-larch", "Hem-fir", "Spruce-pine-fir"),
    ("Redwood", "Western cedars", "Northern species"),
)
"""Species that share a row of the deck tables, whose spans are those of the weakest; the last stands for ponderosa and red pine."""
# A printed span is a whole inch; within this of a half inch the lower one is taken.
TIE_IN = 1e-6


@fixed
class TableFamily:
    """What the tables of one use have in common: CD load, deflection limit L/n, longest span (in), exposure.

    `deflection_ratio` is the usual n of the family, `incised_species` those that a wet table takes as
    incised, `groups` the species that share its rows.
    """

    name: str
    load: str
    deflection_ratio: float
    longest_in: float = 312.0
    wet: bool = False
    incised_species: tuple[str, ...] = ()
    source: str = ""
    groups: tuple[tuple[str, ...], ...] = ()

    def conditions(self, species: str) -> Conditions:
        """How the table uses lumber of this species."""
        return Conditions(load=self.load, repetitive=True, wet=self.wet, incised=species in self.incised_species)

    def group_of(self, species: str) -> tuple[str, ...]:
        """The species whose row of the tables this one is read in; itself where the tables have a row for each."""
        return next((group for group in self.groups if any(is_same(one, species) for one in group)), (species,))


FAMILIES = {
    family.name: family
    for family in (
        TableFamily("floor", "occupancy", 360, source="IRC R502.3.1(1) and (2)"),
        TableFamily("ceiling", "occupancy", 240, source="IRC R802.5.1(1) and (2)"),
        TableFamily("rafter, roof live load", "roof live", 180, source="IRC R802.4.1(1) and (2)"),
        TableFamily("rafter, snow", "snow", 180, source="IRC R802.4.1(3) to (8); ground snow is not reduced"),
        TableFamily("deck", "occupancy", 360, 216.0, True, INCISED_FOR_TREATMENT, "AWC DCA 6 Table 2; IRC R507.6",
                    DECK_GROUPS),
    )
}  # fmt: skip


@fixed
class SpanLoads:
    """Live and dead load (psf on the horizontal projection), spacing (in), and the live load limit L/n.

    For snow the live load is the ground snow load, not reduced.
    """

    live_psf: float
    dead_psf: float
    spacing_in: float
    deflection_ratio: float

    @property
    def total_lb_per_in(self) -> float:
        """Dead and live load on one member, lb per inch."""
        return (self.live_psf + self.dead_psf) * self.spacing_in / 144

    @property
    def live_lb_per_in(self) -> float:
        """Live load on one member, lb per inch."""
        return self.live_psf * self.spacing_in / 144


@fixed
class LongestSpan:
    """Spans (in, not rounded) that bending, live load deflection and shear allow, with what they rest on.

    `shear_in` is infinite when the shear value of the lumber is not on record.
    """

    section: CrossSection
    loads: SpanLoads
    bending: AdjustedValue
    stiffness: AdjustedValue
    shear: AdjustedValue | None
    bearing: AdjustedValue | None
    longest_in: float
    bending_in: float
    deflection_in: float
    shear_in: float

    @property
    def span_in(self) -> float:
        """The longest span, in, before rounding and before the longest span that the table prints."""
        return min(self.bending_in, self.deflection_in, self.shear_in)

    @property
    def governs(self) -> str:
        """`bending`, `deflection`, `shear`, or `longest span of the table`."""
        if self.span_in > self.longest_in:
            return "longest span of the table"
        found = {"bending": self.bending_in, "deflection": self.deflection_in, "shear": self.shear_in}
        return min(found, key=lambda name: found[name])

    @property
    def tabulated_in(self) -> int:
        """The span as a table prints it: nearest inch, a tie downward, no longer than the table goes."""
        return ceil(min(self.span_in, self.longest_in) - 0.5 - TIE_IN)

    @property
    def bearing_in(self) -> float | None:
        """Bearing length that the printed span needs, in; None when the bearing value is not on record."""
        if self.bearing is None:
            return None
        return self.loads.total_lb_per_in * self.tabulated_in / 2 / (self.bearing.psi * self.section.breadth_in)

    def steps(self) -> tuple[Step, ...]:
        """The whole calculation in order, each value with its source."""
        lines = [*self.section.steps(), *_load_steps(self.loads)]
        for value in (self.bending, self.stiffness, self.shear, self.bearing):
            lines.extend(value.steps() if value else ())
        return (*lines, *_span_steps(self))


def longest_span(
    section: CrossSection, values: DesignValues, loads: SpanLoads, use: Conditions, longest_in: float = 312.0
) -> LongestSpan:
    """The longest simple span of a repeated member, no longer than `longest_in` as printed.

    Raises OutsideMethodError without load, LumberError for values not on record. Source: the recipe above;
    NDS 3.3, 3.5.
    """
    if min(loads.total_lb_per_in, loads.live_lb_per_in, loads.deflection_ratio) <= 0:
        raise OutsideMethodError("a longest span needs a live load, a spacing and a deflection limit over 0")
    bending, stiffness = adjusted_bending(values, section, use), adjusted_value("E", values, section, use)
    shear, bearing = (
        adjusted_value(symbol, values, section, use) if values.knows(symbol) else None for symbol in ("Fv", "Fc_perp")
    )
    w, live, n = loads.total_lb_per_in, loads.live_lb_per_in, loads.deflection_ratio
    by_bending = sqrt(8 * bending.psi * section.modulus_in3 / w)
    by_deflection = (384 * stiffness.psi * section.inertia_in4 / (5 * live * n)) ** (1 / 3)
    by_shear = 2 * (shear.psi * section.area_in2 / 1.5 / w + section.depth_in) if shear else float("inf")
    return LongestSpan(
        section, loads, bending, stiffness, shear, bearing, longest_in, by_bending, by_deflection, by_shear
    )


def family_span(family: TableFamily, section: CrossSection, values: DesignValues, loads: SpanLoads) -> LongestSpan:
    """The longest span as a table of this family gives it. Raises as longest_span. Source: the recipe.

    Members farther apart than 24 in share no load, so that Cr is left out there. NDS 4.3.9.
    """
    use = family.conditions(values.species)
    if loads.spacing_in > WIDEST_REPETITIVE_IN:
        use = replace(use, repetitive=False)
    return longest_span(section, values, loads, use, family.longest_in)


def weakest(spans: Iterable[LongestSpan]) -> LongestSpan:
    """The shortest of several, for a table row that covers several species. Raises ValueError for none."""
    return min(spans, key=lambda span: span.span_in)


def _load_steps(loads: SpanLoads) -> tuple[Step, ...]:
    live, dead, spacing = map(number, (loads.live_psf, loads.dead_psf, loads.spacing_in))
    return (
        given("L", "live load", loads.live_psf, "psf", TABLE),
        given("D", "dead load", loads.dead_psf, "psf", TABLE),
        given("s", "spacing", loads.spacing_in, "in", TABLE),
        given("n", "deflection limit L/n", loads.deflection_ratio, "", TABLE),
        Step("w", "total load", f"({live} + {dead}) * {spacing} / 144", loads.total_lb_per_in, "lb/in", STATICS),
        Step("wL", "live load", f"{live} * {spacing} / 144", loads.live_lb_per_in, "lb/in", STATICS),
    )


def _span_steps(span: LongestSpan) -> tuple[Step, ...]:
    section, w = span.section, number(span.loads.total_lb_per_in)
    fb, e, live = number(span.bending.psi), number(span.stiffness.psi), number(span.loads.live_lb_per_in)
    bending = f"sqrt(8 * {fb} * {number(section.modulus_in3)} / {w})"
    deflection = f"(384 * {e} * {number(section.inertia_in4)} / (5 * {live} * {number(span.loads.deflection_ratio)}))"
    lines = [
        Step("L bending", "span by bending", bending, span.bending_in, "in", nds("3.3")),
        Step("L deflection", "span by live load deflection", f"{deflection}^(1/3)", span.deflection_in, "in", RECIPE),
    ]
    return (*lines, *_shear_step(span), *_result_steps(span))


def _shear_step(span: LongestSpan) -> tuple[Step, ...]:
    if span.shear is None:
        return ()
    fv, area, depth = map(number, (span.shear.psi, span.section.area_in2, span.section.depth_in))
    text = f"2 * ({fv} * {area} / 1.5 / {number(span.loads.total_lb_per_in)} + {depth})"
    return (Step("L shear", "span by shear one depth from the bearing", text, span.shear_in, "in", nds("3.4.3.1(a)")),)


def _result_steps(span: LongestSpan) -> tuple[Step, ...]:
    spans = [span.bending_in, span.deflection_in, *([span.shear_in] if span.shear else [])]
    cap = given("L max", "longest span of the table", span.longest_in, "in", TABLE)
    least = f"min({', '.join(map(number, spans))}, {number(span.longest_in)})"
    printed = float(span.tabulated_in)
    lines = (
        cap,
        Step(
            "L least", f"longest span; {span.governs} governs", least, min(span.span_in, span.longest_in), "in", RECIPE
        ),
        Step("L", "nearest inch", f"round({number(min(span.span_in, span.longest_in))})", printed, "in", RECIPE),
    )
    if span.bearing is None or span.bearing_in is None:
        return lines
    text = (
        f"{number(span.loads.total_lb_per_in)} * {number(printed)} / 2 / "
        f"({number(span.bearing.psi)} * {number(span.section.breadth_in)})"
    )
    return (*lines, Step("lb", "bearing needed", text, span.bearing_in, "in", nds("3.10.2")))
