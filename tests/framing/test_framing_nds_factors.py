"""Adjustment factors one by one. Source: NDS 2018 and its Supplement, from memory unless a test says more."""

from __future__ import annotations

import pytest
from precheck_plugins.framing.timber import factors
from precheck_plugins.framing.timber.adjusted_values import Conditions, adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.lumber import maker_values, published_values
from precheck_plugins.framing.timber.notched import notched_end
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import dressed_section
from precheck_plugins.framing.timber.stability import beam_stability, column_stability, effective_length

JOIST = dressed_section("2x10")
FIR = published_values("Douglas fir-larch", "No.2", JOIST)


@pytest.mark.parametrize(
    ("load", "value"),
    [("dead", 0.9), ("occupancy", 1.0), ("snow", 1.15), ("roof live", 1.25), ("wind or seismic", 1.6)],
)
def test_load_duration(load: str, value: float) -> None:
    assert factors.load_duration(load).value == value


def test_load_duration_never_touches_stiffness_or_bearing() -> None:
    for symbol in ("E", "Emin", "Fc_perp"):
        found = adjusted_value(symbol, FIR, JOIST, Conditions(load="snow"))
        assert found.psi == FIR.reference(symbol)


def test_wet_bending_is_reduced_only_above_1150_psi() -> None:
    # Confirmed by DCA 6 Table 2.
    assert factors.wet_service("Fb", FIR, 1150, True).value == 1.0
    assert factors.wet_service("Fb", FIR, 1151, True).value == 0.85


def test_wet_dimension_lumber() -> None:
    found = {s: factors.wet_service(s, FIR, 2000, True).value for s in ("Ft", "Fv", "Fc_perp", "Fc", "E")}
    assert found == {"Ft": 1.0, "Fv": 0.97, "Fc_perp": 0.67, "Fc": 0.8, "E": 0.9}


def test_incised_lumber() -> None:
    # 0.80 and 0.95 confirmed by DCA 6 Table 2.
    assert (factors.incising("Fb", FIR, True).value, factors.incising("E", FIR, True).value) == (0.8, 0.95)


def test_heat_beyond_150_f_is_outside_the_method() -> None:
    assert factors.temperature("Fb", 120, wet=True).value == 0.7
    assert factors.temperature("E", 120, wet=True).value == 0.9
    with pytest.raises(OutsideMethodError):
        factors.temperature("Fb", 151, wet=False)


def test_a_plank_laid_flat_takes_the_flat_use_factor() -> None:
    flat = JOIST.laid_flat()
    assert factors.flat_use(flat).value == 1.2
    assert flat.modulus_in3 == pytest.approx(9.25 * 1.5**2 / 6)
    assert factors.flat_use(JOIST).value == 1.0


def test_bearing_area_factor_away_from_the_end() -> None:
    assert factors.bearing_area(1.5, from_end_in=3).value == pytest.approx(1.25)
    assert factors.bearing_area(1.5).value == 1.0
    assert factors.bearing_area(6, from_end_in=12).value == 1.0


def test_effective_length_changes_rule_with_slenderness() -> None:
    assert effective_length(60, 10)[0] == pytest.approx(123.6)
    assert effective_length(100, 10)[0] == pytest.approx(193)
    assert effective_length(150, 10)[0] == pytest.approx(276)


def test_cl_by_hand() -> None:
    # By hand: le 123.6, RB 22.54, FbE 1369.9 for Emin 580,000; F*b 1138.5; CL from the quadratic.
    found = beam_stability(JOIST, 60, 1138.5, 580_000)
    assert found is not None
    assert found.slenderness == pytest.approx(22.54, abs=0.005)
    assert found.critical_psi == pytest.approx(1369.7, abs=0.5)
    half = (1 + found.critical_psi / 1138.5) / 1.9
    assert found.value == pytest.approx(half - (half**2 - found.critical_psi / 1138.5 / 0.95) ** 0.5)


def test_a_beam_no_deeper_than_wide_or_fully_braced_keeps_its_bending_value() -> None:
    assert beam_stability(dressed_section("6x6"), 120, 1000, 580_000) is None
    assert beam_stability(JOIST, 0, 1000, 580_000) is None


def test_a_beam_more_slender_than_50_is_outside_the_method() -> None:
    with pytest.raises(OutsideMethodError, match="50"):
        adjusted_bending(FIR, JOIST, Conditions(unbraced_in=400))


def test_a_column_more_slender_than_50_is_outside_the_method() -> None:
    with pytest.raises(OutsideMethodError, match="50"):
        column_stability(1.5 * 50.1, 1.5, 1500, 580_000)


def test_a_stocky_column_keeps_nearly_all_its_strength() -> None:
    assert column_stability(3.5, 3.5, 1000, 580_000).value == pytest.approx(1, abs=0.01)


@pytest.mark.parametrize("wrong", ["monsoon", ""])
def test_an_unknown_load_is_refused_with_what_is_known(wrong: str) -> None:
    with pytest.raises(OutsideMethodError, match="snow"):
        factors.load_duration(wrong)


def test_a_notch_through_the_member_is_refused() -> None:
    with pytest.raises(OutsideMethodError):
        notched_end(JOIST, 9.25, 180)


def test_wet_compression_is_reduced_only_above_750_psi() -> None:
    assert factors.wet_service("Fc", FIR, 750, True).value == 1.0
    assert factors.wet_service("Fc", FIR, 751, True).value == 0.8


def test_a_made_product_gains_4_percent_by_repetition_and_a_timber_nothing() -> None:
    lvl = maker_values("LVL", "2.0E", "guide of 2020", {"Fb": 2900})
    timber = published_values("Douglas fir-larch", "No.1", dressed_section("6x10"))
    assert [factors.repetitive(values, True).value for values in (FIR, lvl, timber)] == [1.15, 1.04, 1.0]
    assert factors.repetitive(FIR, False).value == 1.0


def test_a_made_product_in_wet_use_is_left_to_its_maker() -> None:
    with pytest.raises(OutsideMethodError, match="manufacturer"):
        factors.wet_service("Fb", maker_values("LVL", "2.0E", "guide of 2020", {"Fb": 2900}), 2900, True)


def test_wet_timber_keeps_its_bending_value() -> None:
    timber = published_values("Douglas fir-larch", "No.1", dressed_section("6x10"))
    found = [factors.wet_service(symbol, timber, 1350, True).value for symbol in ("Fb", "Fc_perp", "Fc", "E")]
    assert found == [1.0, 0.67, 0.91, 1.0]
