"""Beams whose reactions, moments and deflections are printed: coefficients of handbooks, and problems of textbooks.

Steel Construction Manual (AISC), Tables 3-22c and 3-23, from memory, which Beam Formulas (AWC, Design Aid 6) prints too;
each other page is named. Loads and spans are 1, so that a coefficient is the result. Pages that can be opened print again

- even loads on equal spans: the book of formulas named beside EQUAL_SPANS below;
- at https://www.piping-designer.com/disciplines/civil/structural/, by the number before each title: 2403 three spans; 2405
  three spans with the ends loaded; 2404 with two on one side; 2408 four spans, first and third loaded (its M4 is misprinted);
  2401 case 31; 2378 case 24; 2382 case 25; 2358, 2359, 2360 and 2361 cases 8 to 11.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

import pytest
from precheck_plugins.framing.members.beams import beam_over, overhanging_beam, simple_beam
from precheck_plugins.framing.members.patterns import live_patterns, reach_of
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad


class Printed(NamedTuple):
    """Equal spans of 1 under a load of 1 on each that is named: reactions, moments at supports, greatest between them."""

    spans: int
    loaded: tuple[int, ...]
    reactions: tuple[float, ...]
    over_supports: tuple[float, ...]
    between: tuple[tuple[int, float], ...] = ()
    bends: float | None = None


UNIFORM = {
    "Table 3-22c, two spans": Printed(2, (0, 1), (0.375, 1.25, 0.375), (-0.125,), ((0, 0.0703),), 0.0054),
    "Table 3-23, case 29, two spans, one loaded": Printed(2, (0,), (0.4375, 0.625, -0.0625), (-0.0625,), ((0, 0.0957),), 0.0092),
    "Table 3-22c, three spans": Printed(3, (0, 1, 2), (0.4, 1.1, 1.1, 0.4), (-0.1, -0.1), ((0, 0.08), (1, 0.025)), 0.0069),
    "Table 3-23, three spans, ends loaded": Printed(3, (0, 2), (0.45, 0.55, 0.55, 0.45), (-0.05, -0.05), ((0, 0.1013),), 0.0099),
    "Table 3-23, three spans, two on one side, and https://piping-designer.com/disciplines/civil/structural/2404-three-span-"
    "continuous-beam-equal-spans-uniform-load-on-two-spans-to-one-side": Printed(
        3, (0, 1), (0.383, 1.2, 0.45, -0.033), (-0.1167, -0.0333), ((0, 0.0735), (1, 0.0534)), 0.0059),
    "Table 3-22c, four spans": Printed(
        4, (0, 1, 2, 3), (0.393, 1.143, 0.929, 1.143, 0.393), (-0.1071, -0.0714, -0.1071), ((0, 0.0772), (1, 0.0364)), 0.0065),
    "Table 3-23, four spans, third bare": Printed(
        4, (0, 1, 3), (0.38, 1.223, 0.357, 0.598, 0.442), (-0.1205, -0.0179, -0.058), ((0, 0.072), (1, 0.0611), (3, 0.0977)), 0.0094),
    "Table 3-23, four spans, first and third loaded": Printed(
        4, (0, 2), (0.446, 0.572, 0.464, 0.572, -0.054), (-0.0536, -0.0357, -0.0536), ((0, 0.0996), (2, 0.0805)), 0.0097),
    "Table 3-22c, five spans": Printed(
        5, (0, 1, 2, 3, 4), (0.395, 1.132, 0.974, 0.974, 1.132, 0.395), (-0.1053, -0.0789, -0.0789, -0.1053),
        ((0, 0.0779), (1, 0.0332), (2, 0.0461))),
}  # fmt: skip
AT_MIDDLES = {
    "Table 3-22c, two spans": Printed(2, (0, 1), (0.3125, 1.375, 0.3125), (-0.188,), ((0, 0.156),)),
    "Table 3-23, case 30, two spans, one loaded": Printed(2, (0,), (0.40625, 0.6875, -0.09375), (-0.09375,), ((0, 0.203),), 0.015),
    "Table 3-22c, three spans": Printed(3, (0, 1, 2), (0.35, 1.15, 1.15, 0.35), (-0.15, -0.15), ((0, 0.175), (1, 0.1))),
    "Table 3-22c, four spans": Printed(
        4, (0, 1, 2, 3), (0.339, 1.214, 0.893, 1.214, 0.339), (-0.161, -0.107, -0.161), ((0, 0.17), (1, 0.116))),
}  # fmt: skip
AT_THIRDS = {
    "Table 3-22c, two spans": Printed(2, (0, 1), (0.667, 2.667, 0.667), (-0.333,), ((0, 0.222),)),
    "Table 3-22c, three spans": Printed(3, (0, 1, 2), (0.733, 2.267, 2.267, 0.733), (-0.267, -0.267), ((0, 0.244), (1, 0.067))),
}  # fmt: skip
PLACES = {"middles": (0.5,), "thirds": (1 / 3, 2 / 3)}
LAST_DIGIT = 6e-4
CASES = [
    *((name, None, case) for name, case in UNIFORM.items()),
    *((name, "middles", case) for name, case in AT_MIDDLES.items()),
    *((name, "thirds", case) for name, case in AT_THIRDS.items()),
]


def loaded(case: Printed, at: str | None) -> Beam:
    points = [PointLoad(n + place, 1) for n in case.loaded for place in (PLACES[at] if at else ())]
    uniforms = [] if at else [UniformLoad(n, n + 1, 1) for n in case.loaded]
    return beam_over((1.0,) * case.spans, 0, 0, points, uniforms)


@pytest.mark.parametrize(
    ("name", "at", "case"), CASES, ids=[f"{name}, {at or 'uniform'}"[:60] for name, at, _ in CASES]
)
def test_a_continuous_beam_comes_out_as_the_handbook_prints_it(name: str, at: str | None, case: Printed) -> None:
    beam = loaded(case, at)
    assert beam.reactions_lb == pytest.approx(case.reactions, abs=LAST_DIGIT)
    assert [beam.moment_inlb(x) for x in beam.supports_in[1:-1]] == pytest.approx(case.over_supports, abs=LAST_DIGIT)
    for span, moment in case.between:
        peak = max(beam.moment_inlb(span + i / 1000) for i in range(1001))
        assert peak == pytest.approx(moment, abs=LAST_DIGIT), span
    if case.bends is not None:
        assert abs(beam.greatest_deflection_ei(0, case.spans).value) == pytest.approx(case.bends, abs=6e-5)


@pytest.mark.parametrize(
    ("name", "at", "case"), CASES, ids=[f"{name}, {at or 'uniform'}"[:60] for name, at, _ in CASES]
)
def test_the_worst_arrangement_of_live_load_is_no_less_than_any_that_a_handbook_prints(
    name: str, at: str | None, case: Printed
) -> None:
    full = loaded(case._replace(loaded=tuple(range(case.spans))), at)
    for (greatest, least), printed in zip(reach_of(full), case.reactions, strict=True):
        assert least - LAST_DIGIT <= printed <= greatest + LAST_DIGIT
    worst = max(abs(one.greatest_moment().value) for one in live_patterns(full))
    assert worst >= max(map(abs, (*case.over_supports, *(moment for _, moment in case.between)))) - LAST_DIGIT


A, B, L = 3.0, 2.0, 12.0
"""Lengths of the cases below: a, b, and the span."""


@pytest.mark.parametrize(
    ("beam", "reactions", "moment", "bends"),
    [
        (simple_beam(L, uniforms=[UniformLoad(0, L, 1)]), (L / 2, L / 2), L**2 / 8, 5 * L**4 / 384),
        (simple_beam(L, uniforms=[UniformLoad(0, A, 1)]), (A * (2 * L - A) / (2 * L), A**2 / (2 * L)),
         (A * (2 * L - A) / (2 * L)) ** 2 / 2, None),
        (simple_beam(L, uniforms=[UniformLoad(A, A + B, 1)]), (B * (2 * (L - A - B) + B) / (2 * L), B * (2 * A + B) / (2 * L)),
         B * (2 * (L - A - B) + B) / (2 * L) * (A + B * (2 * (L - A - B) + B) / (2 * L) / 2), None),
        (simple_beam(L, [PointLoad(L / 2, 1)]), (0.5, 0.5), L / 4, L**3 / 48),
        (simple_beam(L, [PointLoad(L - A, 1)]), (A / L, 1 - A / L), A * (L - A) / L,
         (L - A) * A * (L - A + 2 * A) * sqrt(3 * (L - A) * (L - A + 2 * A)) / (27 * L)),
        (simple_beam(L, [PointLoad(A, 1), PointLoad(L - A, 1)]), (1.0, 1.0), A, A * (3 * L**2 - 4 * A**2) / 24),
        (simple_beam(L, [PointLoad(A, 1), PointLoad(L - B, 1)]), ((L - A + B) / L, (L - B + A) / L), (L - A + B) / L * A, None),
        (simple_beam(L, [PointLoad(A, 3), PointLoad(L - B, 2)]), ((3 * (L - A) + 2 * B) / L, (3 * A + 2 * (L - B)) / L),
         (3 * (L - A) + 2 * B) / L * A, None),
    ],
    ids=["1 uniform", "5 from one end", "4 on a part", "7 at the middle", "8 anywhere", "9 two alike", "10 two not alike placed",
         "11 two unlike"],
)  # fmt: skip
def test_a_simple_beam_comes_out_by_its_case_of_table_3_23(
    beam: Beam, reactions: tuple[float, ...], moment: float, bends: float | None
) -> None:
    assert beam.reactions_lb == pytest.approx(reactions)
    assert beam.greatest_moment().value == pytest.approx(moment)
    if bends is not None:
        assert beam.greatest_deflection_ei(0, L).value == pytest.approx(bends, rel=1e-4)


@pytest.mark.parametrize(
    ("beam", "reactions", "over", "tip", "between"),
    [
        (overhanging_beam(L, 0, A, uniforms=[UniformLoad(0, L + A, 1)]), ((L**2 - A**2) / (2 * L), (L + A) ** 2 / (2 * L)),
         -(A**2) / 2, A * (4 * A**2 * L - L**3 + 3 * A**3) / 24, None),
        (overhanging_beam(L, 0, A, uniforms=[UniformLoad(L, L + A, 1)]), (-(A**2) / (2 * L), A * (2 * L + A) / (2 * L)),
         -(A**2) / 2, A**3 * (4 * L + 3 * A) / 24, 0.03208 * A**2 * L**2),
        (overhanging_beam(L, 0, A, [PointLoad(L + A, 1)]), (-A / L, (L + A) / L), -A, A**2 * (L + A) / 3, 0.06415 * A * L**2),
        (overhanging_beam(L, 0, A, uniforms=[UniformLoad(0, L, 1)]), (L / 2, L / 2), 0.0, -(L**3) * A / 24, 5 * L**4 / 384),
    ],
    ids=["24 on all of it", "25 on the overhang", "26 at its tip", "27 between the supports"],
)  # fmt: skip
def test_an_overhanging_beam_comes_out_by_its_case_of_table_3_23(
    beam: Beam, reactions: tuple[float, ...], over: float, tip: float, between: float | None
) -> None:
    assert beam.reactions_lb == pytest.approx(reactions)
    assert beam.moment_inlb(L) == pytest.approx(over, abs=1e-9)
    assert beam.deflection_ei(L + A) == pytest.approx(tip)
    if between is not None:
        assert abs(beam.greatest_deflection_ei(0, L).value) == pytest.approx(between, rel=2e-4)


def test_unequal_spans_by_their_printed_formula() -> None:
    # https://www.piping-designer.com/disciplines/civil/structural/2398-two-span-continuous-beam-unequal-spans-uniformly-
    # distributed-load: M1 = (w b^3 + w a^3) / (8 (a + b)), for 10 ft and 14 ft.
    beam = beam_over((120, 168), 0, 0, uniforms=[UniformLoad(0, 288, 5)])
    assert -beam.moment_inlb(120) == pytest.approx((5 * 168**3 + 5 * 120**3) / (8 * 288))


def test_two_spans_of_a_lecture_on_the_three_moment_equation() -> None:
    # https://archive.nptel.ac.in/content/storage2/courses/105101085/Slides/Module-5/Lecture-4/5.4_4.html, Example 5.22: 120 kN
    # at the middle of one span of 3 m and 40 kN/m on the other, as its sum of forces has them; -56.25 kN m, 157.5 kN.
    beam = beam_over((3, 3), 0, 0, [PointLoad(1.5, 120)], [UniformLoad(3, 6, 40)])
    assert beam.moment_inlb(3) == pytest.approx(-56.25)
    assert beam.reactions_lb == pytest.approx((41.25, 157.5, 41.25))


def test_overhangs_that_make_three_reactions_alike() -> None:
    # https://www.mathalino.com/tag/reviewer/three-moment-equation: 300 N/m on supports 3 m apart; x 1.319 m, -207 N m, 863.8 N.
    beam = beam_over((3, 3), 1.319, 1.319, uniforms=[UniformLoad(0, 8.638, 300)])
    assert beam.reactions_lb == pytest.approx((863.8,) * 3, abs=0.3)
    assert beam.moment_inlb(4.319) == pytest.approx(-207, abs=0.6)


def test_overhangs_that_leave_a_beam_the_least_moment() -> None:
    # https://mathalino.com/board-problem/structural-engineering-and-construction/node-18679: 10 m under 15 kN/m; 37.5 kN m with
    # overhangs of 2 m, none in the middle with 2.5 m, and the least anywhere with a span of 5.86 m.
    def over(span: float) -> Beam:
        return overhanging_beam(span, (10 - span) / 2, (10 - span) / 2, uniforms=[UniformLoad(0, 10, 15)])

    assert over(6).moment_inlb(5) == pytest.approx(37.5)
    assert over(5).moment_inlb(5) == pytest.approx(0, abs=1e-9)
    assert min((5.80, 5.84, 5.86, 5.88, 5.92), key=lambda span: abs(over(span).greatest_moment().value)) == 5.86


@pytest.mark.parametrize(
    ("panels", "reaction", "moment", "bends"),
    [(2, 0.5, 0.25, 0.021), (3, 1.0, 0.333, 0.036), (4, 1.5, 0.5, 0.050), (5, 2.0, 0.6, 0.063)],
)
def test_equal_loads_that_divide_a_simple_beam_by_table_3_22a(
    panels: int, reaction: float, moment: float, bends: float
) -> None:
    beam = simple_beam(1, [PointLoad(i / panels, 1) for i in range(1, panels)])
    assert beam.reactions_lb == pytest.approx((reaction, reaction))
    assert beam.greatest_moment().value == pytest.approx(moment, abs=LAST_DIGIT)
    assert beam.greatest_deflection_ei(0, 1).value == pytest.approx(bends, abs=LAST_DIGIT)


def test_a_load_anywhere_on_one_of_two_spans_by_case_31() -> None:
    a, b = 0.3, 0.7
    beam = beam_over((1, 1), 0, 0, [PointLoad(a, 1)])
    printed = (b / 4 * (4 - a * (1 + a)), a / 2 * (2 + b * (1 + a)), -a * b / 4 * (1 + a))
    assert beam.reactions_lb == pytest.approx(printed)
    assert (beam.moment_inlb(a), beam.moment_inlb(1)) == pytest.approx((a * printed[0], -a * b / 4 * (1 + a)))


def test_a_beam_with_a_loaded_overhang_takes_both_its_loads_at_once() -> None:
    # Problem 527: https://mathalino.com/tag/reviewer/wood, solved at https://askfilo.com/user-question-answers-smart-solutions/situation-no-1-
    # 10pts-each-a-wood-beam-6-in-wide-by-12-in-3434363833393230: 6 x 12 in, 1200 psi, 12 ft; P 7,200 lb, overhang 6.93 ft.
    past = 12 * 48**0.5
    assert past / 12 == pytest.approx(6.93, abs=5e-3)
    beam = overhanging_beam(144, 0, past, [PointLoad(72, 7200)], [UniformLoad(144, 144 + past, 50)])
    allowed = 1200 * 6 * 12**2 / 6
    assert (beam.moment_inlb(72), -beam.moment_inlb(144)) == (pytest.approx(allowed), pytest.approx(allowed))


def test_a_beam_fixed_at_one_end_is_half_of_one_that_runs_on_alike() -> None:
    # Example D.3: https://holooly.com/solutions-v20/determine-the-reactions-for-the-continuous-beam-shown-in-fig-d-5a-by-the-three-moment-
    # equation: 45 k at the middle of 20 ft, 1.8 k/ft on 30 ft, 90 k-ft from the overhang; -97.5 k-ft at the fixed end, -142.5 beside it.
    past = 10.0
    points = [PointLoad(0, 9), PointLoad(past + 40, 45), PointLoad(past + 60, 45), PointLoad(2 * past + 100, 9)]
    spread = [UniformLoad(past, past + 30, 1.8), UniformLoad(past + 70, past + 100, 1.8)]
    beam = beam_over((30, 20, 20, 30), past, past, points, spread)
    assert [beam.moment_inlb(x) for x in beam.supports_in] == pytest.approx([-90, -142.5, -97.5, -142.5, -90])


# Spans, shears beside each support from the left as parts of w L. Civil Engineering Formulas, Table 2.1:
# https://digilib.universitaspertamina.ac.id/ebook/Civil%20Engineering%20Formulas/files/basic-html/page96.html
EQUAL_SPANS = {
    2: (3 / 8, 5 / 8),
    3: (4 / 10, 6 / 10, 5 / 10),
    4: (11 / 28, 17 / 28, 15 / 28, 13 / 28),
    5: (15 / 38, 23 / 38, 20 / 38, 18 / 38, 19 / 38),
    6: (41 / 104, 63 / 104, 55 / 104, 49 / 104, 51 / 104, 53 / 104),
    7: (56 / 142, 86 / 142, 75 / 142, 67 / 142, 70 / 142, 72 / 142, 71 / 142),
}


@pytest.mark.parametrize("spans", EQUAL_SPANS)
def test_equal_spans_under_an_even_load_shear_as_a_book_of_formulas_prints_them(spans: int) -> None:
    beam = beam_over((1.0,) * spans, 0, 0, uniforms=[UniformLoad(0, spans, 1)])
    printed = EQUAL_SPANS[spans]
    right = [beam.shear_lb(x) for x in beam.supports_in[:-1]]
    left = [-beam.shear_before_lb(x) for x in beam.supports_in[1:]]
    in_a_row = [shear for pair in zip(right, left, strict=True) for shear in pair]
    assert in_a_row[: len(printed)] == pytest.approx(printed)


def test_a_beam_without_an_overhang_ends_on_its_last_support_whatever_its_spans_add_up_to() -> None:
    beam = beam_over((60.0, 166.97020728074597, 60.97020728074597), 30.0, 0, uniforms=[UniformLoad(0, 300, 2)])
    assert beam.length_in == beam.supports_in[-1]
    assert len(beam.stretches_in) == 4
