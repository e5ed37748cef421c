"""The published design values on record: complete, consistent, each with its basis."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from precheck_plugins.framing.timber import factors, lumber
from precheck_plugins.framing.timber.lumber import (
    AT_THIS_DEPTH,
    Depth,
    LumberError,
    maker_values,
    published_values,
    size_factor,
    supplement_of,
)
from precheck_plugins.framing.timber.sections import SizeError, dressed_section, made_section

ROWS = list(csv.DictReader((Path(lumber.__file__).parent / "design_values.csv").read_text("utf-8").splitlines()))
SPECIES = ("Douglas fir-larch", "Hem-fir", "Southern pine", "Spruce-pine-fir")
GRADES = ("SS", "No.1", "No.2", "No.3")


@pytest.mark.parametrize("species", SPECIES)
@pytest.mark.parametrize("grade", GRADES)
@pytest.mark.parametrize("size", ["2x4", "2x6", "2x8", "2x10", "2x12", "2x14", "4x10"])
def test_the_four_species_have_all_values_for_all_joist_sizes(species: str, grade: str, size: str) -> None:
    values = published_values(species, grade, dressed_section(size))
    assert all(values.knows(symbol) for symbol in lumber.SYMBOLS)


def test_every_row_names_its_basis_and_source() -> None:
    assert all(row["basis"] and row["source"] and row["supplement"] for row in ROWS)


def test_no_two_rows_answer_the_same_question() -> None:
    keys = [(r["species"], r["grade"], s, r["lumber"], r["width"]) for r in ROWS for s in r["supplement"].split("; ")]
    assert len(keys) == len(set(keys))


def test_emin_follows_from_e_in_every_row() -> None:
    # NDS Appendix D.4, from memory: 1.03 E (1 - 1.645 x 0.25) / 1.66, rounded to 10,000 psi.
    for row in (r for r in ROWS if r["Emin"]):
        assert float(row["Emin"]) == pytest.approx(1.03 * float(row["E"]) * (1 - 1.645 * 0.25) / 1.66, abs=5_100), row


def test_a_better_grade_is_never_weaker() -> None:
    for species in SPECIES:
        for size in ("2x4", "2x8", "2x12"):
            values = [published_values(species, grade, dressed_section(size)) for grade in GRADES]
            for symbol in ("Fb", "Ft", "Fc", "E"):
                numbers = [v.reference(symbol) for v in values]
                assert numbers == sorted(numbers, reverse=True), (species, size, symbol)


def test_southern_pine_takes_no_size_factor_up_to_12_in() -> None:
    for size in ("2x4", "2x6", "2x8", "2x10", "2x12"):
        section = dressed_section(size)
        values = published_values("Southern pine", "No.2", section)
        assert [size_factor(values, section, s) for s in ("Fb", "Ft", "Fc")] == [1, 1, 1]


@pytest.mark.parametrize(("size", "factor"), [("2x4", 1.5), ("2x6", 1.3), ("2x8", 1.2), ("2x10", 1.1), ("2x12", 1.0)])
def test_other_species_take_the_size_factor_of_their_depth(size: str, factor: float) -> None:
    # Confirmed by the span-table cells.
    section = dressed_section(size)
    assert size_factor(published_values("Hem-fir", "No.2", section), section, "Fb") == factor


def test_a_4x_beam_takes_its_own_size_factor() -> None:
    # NDS Supplement Table 4A, from memory.
    section = dressed_section("4x12")
    assert size_factor(published_values("Douglas fir-larch", "No.2", section), section, "Fb") == 1.1


def test_a_timber_is_a_beam_or_a_post_by_its_shape() -> None:
    # NDS Supplement Table 4D, from memory.
    assert published_values("Douglas fir-larch", "No.1", dressed_section("6x12")).reference("Fb") == 1350
    assert published_values("Douglas fir-larch", "No.1", dressed_section("6x6")).reference("Fb") == 1200


def test_southern_pine_changed_in_2013_and_existing_framing_keeps_its_values() -> None:
    section = dressed_section("2x10")
    before = published_values("Southern pine", "No.2", section, supplement_of("graded before 2013-06", "Southern pine"))
    assert before.reference("Fb") > published_values("Southern pine", "No.2", section).reference("Fb")


def test_stud_grade_wider_than_6_in_is_refused_with_what_to_write() -> None:
    section = dressed_section("2x8")
    with pytest.raises(LumberError, match=r"No\.3"):
        size_factor(published_values("Hem-fir", "Stud", section), section, "Fb")


@pytest.mark.parametrize("wrong", [("Oak", "No.2"), ("Hem-fir", "No.9")])
def test_an_unknown_species_or_grade_is_refused_with_what_is_listed(wrong: tuple[str, str]) -> None:
    with pytest.raises(LumberError, match="listed"):
        published_values(*wrong, dressed_section("2x10"))


def test_an_edition_that_is_not_on_record_is_refused() -> None:
    with pytest.raises(LumberError, match="IRC 2021"):
        supplement_of("IRC 1999", "Hem-fir")


def test_values_are_never_assumed_for_a_made_product() -> None:
    with pytest.raises(LumberError, match="maker"):
        published_values("LVL", "2.0E", made_section(1.75, 9.5))
    with pytest.raises(LumberError, match="literature"):
        maker_values("LVL", "2.0E", " ", {"Fb": 2900})


def test_a_value_that_is_not_on_record_is_refused_by_name() -> None:
    values = maker_values("LVL", "2.0E", "guide of 2020", {"Fb": 2900})
    with pytest.raises(LumberError, match="Fc_perp"):
        values.reference("Fc_perp")


def test_a_makers_depth_factor_applies_to_bending_only() -> None:
    # (12/d)^0.18, read in a maker's guide.
    values = maker_values("LVL", "3100Fb", "guide", {"Fb": 3100, "Ft": 2000}, Depth("guide", 0.18))
    section = made_section(1.75, 18)
    assert factors.size("Fb", values, section).value == pytest.approx((12 / 18) ** 0.18)
    assert factors.size("Ft", values, section).value == 1


def test_a_made_product_without_a_depth_factor_is_refused_and_not_taken_as_1() -> None:
    values = maker_values("LVL", "3100Fb", "guide", {"Fb": 3100})
    with pytest.raises(LumberError, match="goes with depth"):
        factors.size("Fb", values, made_section(1.75, 18))
    at_depth = maker_values("LVL", "3100Fb", "guide", {"Fb": 3100}, AT_THIS_DEPTH)
    assert (
        factors.size("Fb", at_depth, made_section(1.75, 18)).reason
        == "the manufacturer's value is the one at this depth"
    )


def test_glued_laminated_timber_loses_by_its_volume_and_gains_nothing() -> None:
    # NDS 5.3.6 with x = 10: (21/20 * 12/24 * 5.125/5.125)^0.1; a printed page of glulam gives the same formula.
    values = maker_values("glulam", "24F", "stamp", {"Fb": 2400}, Depth("volume factor", 0.1))
    assert factors.size("Fb", values, made_section(5.125, 24), 240).value == pytest.approx((21 / 20 / 2) ** 0.1)
    assert factors.size("Fb", values, made_section(3.125, 9), 120).value == 1


@pytest.mark.parametrize("wrong", ["2 by 10", "2x9", "0-2x10", "5x", "2x10x12", "10x2"])
def test_a_size_that_is_not_a_lumber_size_is_refused(wrong: str) -> None:
    with pytest.raises(SizeError):
        dressed_section(wrong)


def test_every_value_tells_where_it_comes_from() -> None:
    values = published_values("Douglas fir-larch", "No.2", dressed_section("2x10"))
    assert "confirmed by table cells" in values.origin("Fb")
    assert "from memory" in values.origin("Ft")
