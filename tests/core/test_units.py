"""Exact measures and trade notation."""

from __future__ import annotations

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precheck.project import WidthHeight
from precheck.units import (
    AirFlow,
    Angle,
    Area,
    Duration,
    HeatRate,
    Insulation,
    Length,
    Measure,
    NotationError,
    Pressure,
    Ratio,
    Slope,
    Temperature,
    Transmittance,
    derived,
    recognize,
)
from precheck.units.convert import size_in
from precheck.units.everyday import CANONICAL, EVERYDAY, INCH
from precheck.units.kinds import KINDS, PlainNumber
from precheck.units.wording import in_file

INCHES = {
    "8'-6\"": "102", "8'-6 1/2\"": "102.5", "8' 6\"": "102", "8 ft 6 in": "102", "8ft-6in": "102", "6'": "72",
    "7 3/4 in": "7.75", "7-3/4 in": "7.75", "7 3/4\"": "7.75", "1 1/2 inch": "1.5", "102 in": "102", ".5 in": "0.5",
    "-4 in": "-4", "16 in o.c.": "16", "½ in": "0.5", "8′–6½″": "102.5", "3.5 yd": "126", "25.4 mm": "1", "2.54 m": "100",
}  # fmt: skip


@pytest.mark.parametrize(("text", "inches"), INCHES.items())
def test_a_length_is_read_as_the_trade_writes_it(text, inches):
    assert Length.parse(text).n == Fraction(inches) * INCH


@pytest.mark.parametrize(
    ("kind", "text", "number"),
    [
        (Slope, "1/4 in per ft", Fraction(1, 48)),
        (Slope, "2 %", Fraction(1, 50)),
        (Slope, "6:12", Fraction(1, 2)),
        (Slope, "6 in 12", Fraction(1, 2)),
        (Slope, "20 mm per m", Fraction(1, 50)),
        (Pressure, "40 psf", 40),
        (Insulation, "R-13", 13),
        (Transmittance, "U-0.32", Fraction(8, 25)),
        (AirFlow, "50 cfm", 50),
        (Duration, "20 min", 20),
        (Duration, "1 h", 60),
        (Temperature, "20 C", 68),
        (HeatRate, "38,000 Btu/h", 38000),
        (Angle, "30°", 30),
        (Ratio, "50 %", Fraction(1, 2)),
        (Ratio, "1/150", Fraction(1, 150)),
        (Ratio, "L/360", Fraction(1, 360)),
        (PlainNumber, "0.25", Fraction(1, 4)),
        (PlainNumber, "2", 2),
        (PlainNumber, "150 %", Fraction(3, 2)),
    ],
)
def test_other_measures_are_read_with_their_units(kind, text, number):
    assert kind.parse(text).n == number


@pytest.mark.parametrize(
    ("kind", "text", "says"),
    [
        (Length, "7.75", "has no unit; write `7.75 in`"),
        (Length, "8'6", "lacks the mark of its inches"),
        (Length, "6'-14\"", "carry them over"),
        (Length, "1/0 in", "divides by zero"),
        (Length, "7 3/4 on", "`on` in `7 3/4 on` is not a unit of length"),
        (Length, "5 kg", "is not a unit of length"),
        (Length, "9**9**9 m", "is not a unit"),
        (Length, "9" * 400 + " in", "too long"),
        (Length, "", "is not a length"),
        (Slope, "6:0", "run of zero"),
        (Area, "5 ft", "is not a unit of area"),
        (Area, "10² sq ft", "is not a unit of area"),  # which is neither 102 nor 100
        (Length, "10³ in", "is not a unit of length"),
        (Length, "１０ in", "is not a length"),  # digits of other scripts, as with counts
        (Length, "1١ in", "is not a unit of length"),
        (Pressure, "40", "has no unit; write a load like `40 psf`"),
        (Pressure, "41", "has no unit; write `41 psf`, if that is meant, or a load like `40 psf`"),
        (Insulation, "13", "write an R-value like `R-13`"),
    ],
)
def test_what_cannot_be_read_says_what_to_write_instead(kind, text, says):
    with pytest.raises(NotationError) as refused:
        kind.parse(text)
    assert says in str(refused.value)


def test_whole_feet_equal_their_inches_which_floats_get_wrong():
    assert all(Length.parse(f"{feet} ft") == Length.parse(f"{feet * 12} in") for feet in range(1, 100))


def test_a_riser_worked_out_by_division_compares_exactly_with_its_limit():
    assert Length.parse("108 1/2 in") / 14 == Length.parse("7 3/4 in")
    assert Length.parse("108 9/16 in") / 14 > Length.parse("7 3/4 in")


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("102 in", "8'-6\""),
        ("72 1/2 in", "6'-0 1/2\""),
        ("44 in", "44 in"),
        ("7.75 in", "7 3/4 in"),
        ("-4 in", "-4 in"),
    ],
)
def test_a_derived_length_is_shown_in_feet_inches_and_fractions(text, shown):
    assert derived(Length.parse(text)) == shown


def test_a_rounded_length_says_about():
    assert str(Length.parse("109 in") / 14) == "about 7 13/16 in"


def test_a_length_is_exact_to_a_sixty_fourth_and_nothing_is_about_nothing():
    assert str(Length.parse("1 in") * 3 / 32) == "3/32 in"
    assert str(Length.parse("1 in") / 1000) == "less than 1/16 in"
    assert str(Ratio(Fraction(1, 300_000))) == "about 0.0003 %"


def test_what_the_author_wrote_is_shown_as_written_and_metric_with_its_inches():
    assert str(Length.parse("7-3/4 in")) == "7-3/4 in"
    assert str(Length.parse("2.54 m")) == "2.54 m (8'-4\")"


@pytest.mark.parametrize("dimension", EVERYDAY)
def test_every_everyday_unit_has_the_size_that_pint_gives_it(dimension):
    canonical = EVERYDAY[dimension][CANONICAL[dimension]]
    for unit, size in EVERYDAY[dimension].items():
        by_pint = size_in(_PINT.get(unit, unit), _PINT.get(CANONICAL[dimension], CANONICAL[dimension]))
        assert by_pint is not None, unit
        assert float(by_pint) == pytest.approx(float(Fraction(size) / canonical), rel=1e-8), unit


_PINT = {
    "sq ft": "ft ** 2", "sq. ft": "ft ** 2", "sqft": "ft ** 2", "sf": "ft ** 2", "ft2": "ft ** 2",
    "square feet": "ft ** 2", "sq in": "in ** 2", "sq. in": "in ** 2", "in2": "in ** 2", "square inches": "in ** 2",
    "m2": "m ** 2", "sq m": "m ** 2", "cm2": "cm ** 2", "mm2": "mm ** 2", "cu ft": "ft ** 3", "ft3": "ft ** 3",
    "cubic feet": "ft ** 3", "m3": "m ** 3", "%": "percent", "lb/sq ft": "lbf / ft ** 2", "lb": "lbf", "lbs": "lbf", "kN/m2": "kN / m ** 2",
    "N/mm2": "N / mm ** 2", "lb/ft": "lbf / ft",
    "pounds": "lbf", "minute": "min", "minutes": "min", "hours": "hour", "L/s": "L / s", "btu/h": "Btu / hour",
    "Btu/h": "Btu / hour", "btuh": "Btu / hour", "kBtu/h": "kBtu / hour", "footcandles": "footcandle",
    "h ft2 F/Btu": "hour * ft ** 2 * degF / Btu", "m2K/W": "m ** 2 * degC / W",
    "m2 K/W": "m ** 2 * degC / W", "Btu/(h ft2 F)": "Btu / (hour * ft ** 2 * degF)",
    "W/m2K": "W / (m ** 2 * degC)", "W/(m2 K)": "W / (m ** 2 * degC)", "F": "degF",
    "deg F": "degF", "degrees F": "degF", "degrees": "degree", "deg": "degree",
}  # fmt: skip


@given(st.integers(0, 50), st.integers(0, 11), st.integers(0, 127))
def test_any_multiple_of_a_128th_of_an_inch_is_held_as_a_whole_number(feet, inches, parts):
    length = Length.parse(f"{feet}'-{inches} {parts}/128\"")
    assert isinstance(length.n, int)
    assert length.n * 128 == (feet * 12 * 128 + inches * 128 + parts) * INCH


@given(st.text(max_size=30))
def test_no_text_does_more_than_parse_or_be_refused(text):
    for kind in (Length, Area, Slope, Insulation):
        with contextlib.suppress(NotationError):
            assert isinstance(kind.parse(text), kind)


def test_lengths_multiply_to_an_area_and_divide_to_a_plain_number():
    assert Length.parse("24 in") * Length.parse("36 in") == Area.parse("6 sq ft")
    assert Length.parse("3 ft") / Length.parse("2 ft") == Fraction(3, 2)
    assert Area.parse("6 sq ft").over(Length.parse("24 in")) == Length.parse("36 in")


def test_measures_of_different_dimension_do_not_compare():
    with pytest.raises(TypeError, match="cannot be compared"):
        assert Length.parse("1 in") < Area.parse("1 sq ft")


def test_a_slope_compares_with_a_share_written_in_percent():
    assert Slope.parse("1/4 in per ft") > Ratio.parse("2 %")


@pytest.mark.parametrize(
    ("text", "kind"), [("7 3/4 in", Length), ("5.7 sq ft", Area), ("20 min", Duration), ("30 psf", Pressure)]
)
def test_a_measure_is_recognized_by_its_unit(text, kind):
    found = recognize(text)
    assert isinstance(found, Measure)
    assert type(found) is kind


@given(st.sampled_from([*KINDS.values()]), st.integers(1, 10**9), st.integers(1, 10**5))
def test_any_measure_is_written_to_a_file_as_what_reads_back_as_the_same(kind, number, parts):
    one = kind(Fraction(number, parts))
    assert kind.parse(in_file(one)) == one


def test_what_is_written_to_a_file_is_what_the_author_wrote_and_no_more():
    told = [in_file(value) for value in (Length.parse("1118 mm"), Length.parse("7 1/4 in"), True, 14, "8d common")]
    assert told == ["1118 mm", "7 1/4 in", "yes", "14", "8d common"]
    assert in_file(WidthHeight(Length.parse("600 mm"), Length.parse("7 in") * 4)) == "600 mm x 28 in"


def test_a_fraction_stands_before_any_unit():
    assert AirFlow.parse("1/2 cfm") == AirFlow.parse("0.5 cfm")
    assert Area.parse("3/4 sq ft") == Area.parse("108 sq in")
