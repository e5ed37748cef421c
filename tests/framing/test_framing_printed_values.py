"""Adjusted values, columns and made products as textbooks, universities and permit records print them."""

from __future__ import annotations

import pytest
from precheck_plugins.framing.timber.adjusted_values import Conditions, adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.lumber import Depth, depth_factor, maker_values, published_values, size_factor
from precheck_plugins.framing.timber.sections import dressed_section, made_section
from precheck_plugins.framing.timber.stability import ColumnStability

HEM_FIR = "https://web.mst.edu/jthomas/classes/5260/problem/04/030/index.html, Problem 4.30"
FIR = "https://web.mst.edu/jthomas/classes/5260/problem/04/017/index.html, Problem 4.17"
# Of 4.17, what it multiplies each value by to make it a nominal one: 2.16 or 1.875 or 1.5 over its resistance factor.
NOMINAL = {
    "Fb": 2.16 / 0.85,
    "Ft": 2.16 / 0.80,
    "Fv": 2.16 / 0.75,
    "Fc_perp": 1.875 / 0.90,
    "Fc": 2.16 / 0.90,
    "Emin": 1.5 / 0.85,
}


@pytest.mark.parametrize(
    ("size", "printed"),
    [
        ("2x10", {"Fb": 850, "Ft": 525, "Fv": 150, "Fc_perp": 405, "Fc": 1300, "E": 1.3e6, "Emin": 470_000}),
        ("6x14", {"Fb": 675, "Ft": 350, "Fv": 140, "Fc_perp": 405, "Fc": 500, "E": 1.1e6, "Emin": 400_000}),
        ("6x6", {"Fb": 575, "Ft": 375, "Fv": 140, "Fc_perp": 405, "Fc": 575, "E": 1.1e6, "Emin": 400_000}),
    ],
    ids=["dimension lumber", "beams and stringers", "posts and timbers"],
)
def test_no_2_hem_fir_has_the_values_that_a_university_prints(size: str, printed: dict[str, float]) -> None:
    values = published_values("Hem-fir", "No.2", dressed_section(size))
    assert {symbol: values.reference(symbol) for symbol in printed} == printed, HEM_FIR


def test_roof_joists_of_hem_fir_under_snow_come_out_adjusted() -> None:
    section = dressed_section("2x10")
    values, use = published_values("Hem-fir", "No.2", section), Conditions(load="snow", repetitive=True)
    found = {s: adjusted_value(s, values, section, use).psi for s in ("Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")}
    assert adjusted_bending(values, section, use).psi == pytest.approx(1237, abs=0.5), HEM_FIR
    assert found == {
        "Ft": pytest.approx(664, abs=0.5), "Fv": pytest.approx(173, abs=0.51), "Fc_perp": 405, "Fc": pytest.approx(1495),
        "E": 1.3e6, "Emin": 470_000,
    }, HEM_FIR  # fmt: skip


def test_a_6x14_is_of_a_size_that_counts_less() -> None:
    section = dressed_section("6x14")
    values = published_values("Hem-fir", "No.2", section)
    assert size_factor(values, section, "Fb") == pytest.approx(0.9870, abs=5e-5), HEM_FIR
    assert adjusted_bending(values, section, Conditions(load="dead")).psi == pytest.approx(675 * 0.9 * 0.9870, abs=0.1)


@pytest.mark.parametrize(
    ("size", "printed"),
    [
        ("2x10", {"Fb": 2541, "Ft": 1823, "Fv": 518, "Fc_perp": 1302, "Fc": 3600, "Emin": 1_094_000}),
        ("6x14", {"Fb": 3431, "Ft": 1823, "Fv": 490, "Fc_perp": 1302, "Fc": 2220, "Emin": 1_024_000}),
        ("6x6", {"Fb": 3049, "Ft": 2228, "Fv": 490, "Fc_perp": 1302, "Fc": 2400, "Emin": 1_024_000}),
    ],
    ids=["dimension lumber", "beams and stringers", "posts and timbers"],
)
def test_no_1_fir_has_the_nominal_values_that_a_university_prints(size: str, printed: dict[str, float]) -> None:
    values = published_values("Douglas fir-larch", "No.1", dressed_section(size))
    found = {symbol: values.reference(symbol) * factor for symbol, factor in NOMINAL.items()}
    assert found == {s: pytest.approx(value, abs=500 if s == "Emin" else 0.5) for s, value in printed.items()}, FIR


@pytest.mark.parametrize(
    ("length_ft", "cp", "kips"),
    [(6, 0.6621, 16.8), (8, 0.4464, 11.3), (10, 0.3050, 7.7)],
    ids=["6 ft", "8 ft", "10 ft"],
)
def test_the_columns_of_a_textbook_buckle_as_it_prints(length_ft: float, cp: float, kips: float) -> None:
    # Gere, Mechanics of Materials, 7th edition, problem 11.9-31: https://www.coursehero.com/file/6641253/. 3.5 x 7.25 in, 1,000
    # psi, E 1,300,000 psi, critical stress 0.3 E / (L / d)^2, c 0.8.
    column = ColumnStability(length_ft * 12, 3.5, 1000, 0.3 * 1.3e6 / 0.822, 0.8, 1.0)
    assert column.value == pytest.approx(cp, abs=5e-5)
    assert 1000 * column.value * 3.5 * 7.25 / 1000 == pytest.approx(kips, abs=0.05)


@pytest.mark.parametrize(
    ("length_in", "depth_in", "critical", "cp", "allowed"),
    [(30, 1.5, 1130, 0.497, 943), (120, 5.5, 950, 0.434, 823)],
    ids=["weak axis, braced", "strong axis"],
)
def test_a_2x6_column_braced_one_way_comes_out(
    length_in: float, depth_in: float, critical: float, cp: float, allowed: float
) -> None:
    # http://www.wikiengineer.com/Structural/ColumnStabilityFactorEx1, Example 1. Its critical stresses are 1 percent under its own
    # formula, 0.822 * 555,000 / (L / d)^2; from them on it agrees.
    assert ColumnStability(length_in, depth_in, 1898, 555_000, 0.8, 1.0).critical_psi == pytest.approx(
        critical, rel=0.011
    )
    column = ColumnStability(length_in, depth_in, 1898, critical * (length_in / depth_in) ** 2 / 0.822, 0.8, 1.0)
    assert column.value == pytest.approx(cp, abs=1e-3)
    assert column.value * 1898 == pytest.approx(allowed, abs=2)


def test_the_lvl_of_a_permit_record_takes_what_its_drawing_prints() -> None:
    # http://publicrecords.tigard-or.gov/Public/DocView.aspx?dbid=0&id=696492: three plies of 1 3/4 x 18, 2900Fb, 64,657 ft-lb and
    # 17,955 lb. The exponent 1/7 from 12 in is what its moment comes to.
    values = maker_values(
        "LVL", "2900Fb-2.0E", "permit record 696492", {"Fb": 2900, "Fv": 285}, Depth("as printed", 1 / 7, 12)
    )
    section = made_section(1.75, 18, 3)
    moment = 2900 * depth_factor(values, section, 0) * section.modulus_in3 / 12
    assert moment == pytest.approx(64_657, rel=1e-3)
    assert 285 * section.area_in2 / 1.5 == pytest.approx(17_955)
