"""Three-valued comparisons and their evidence."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precheck import (
    Area,
    Check,
    Length,
    Look,
    Missing,
    Outcome,
    Ratio,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    exceeds,
    if_stated,
    is_missing,
    less_than,
    met,
    more_than,
    not_shown,
    one_of,
    recognize,
    required,
    when_given,
)
from precheck.checks.evidence import evidence_of
from precheck.checks.outcome import NewValue, as_reported
from precheck.files import missing
from precheck.files.missing import Need
from precheck.rulesets.limit import Limit

SEVEN = Limit("t.rule.tallest", Length.parse("7 in"), "R1", "tallest thing")
SILL = Missing(Need("window W1", "sill height"))


def length(text: str) -> Length:
    return Length.parse(text)


@pytest.mark.parametrize(
    ("compare", "measured", "outcome"),
    [
        (at_most, "7 in", Outcome.PASS),
        (at_most, "7 1/128 in", Outcome.FAIL),
        (at_least, "7 in", Outcome.PASS),
        (at_least, "6 127/128 in", Outcome.FAIL),
        (less_than, "7 in", Outcome.FAIL),
        (less_than, "6 127/128 in", Outcome.PASS),
    ],
)
def test_a_comparison_is_exact_at_its_limit(compare, measured, outcome):
    assert compare(length(measured), SEVEN).outcome is outcome


def test_what_is_not_given_is_not_shown_and_named():
    check = at_most(SILL, SEVEN)
    assert check.outcome is Outcome.NOT_SHOWN
    assert [str(need) for need in check.needs] == ["sill height of window W1"]
    assert evidence_of(check)[0].measured == "not shown"


def test_absence_passes_through_arithmetic_and_collects_needs():
    grade = Missing(Need("window W1", "grade"))
    both = (SILL - grade) / 2 + length("1 in")
    assert [need.key for need in both.needs] == ["sill height", "grade"]
    assert when_given(lambda a, b: a + b, length("1 in"), SILL).needs == SILL.needs


def test_values_are_had_together_or_all_that_is_lacking_is_told():
    grade = Missing(Need("window W1", "grade"))
    assert missing.given(length("1 in"), 3) == (length("1 in"), 3)
    lacking = missing.given(SILL, 3, grade)
    assert isinstance(lacking, Missing)
    assert [need.key for need in lacking.needs] == ["sill height", "grade"]


def test_absence_is_neither_true_nor_comparable():
    with pytest.raises(TypeError, match="neither true nor false"):
        assert not SILL
    with pytest.raises(TypeError, match="cannot be compared"):
        assert length("1 in") > SILL


def test_a_void_limit_does_not_apply_and_says_why():
    void = Limit("t.rule.tallest", None, "R1", "tallest thing", why_void="deleted by Ordinance 3")
    check = at_most(length("99 ft"), void)
    assert check.outcome is Outcome.DOES_NOT_APPLY
    assert check.why == "deleted by Ordinance 3"


def test_a_limit_that_the_jurisdiction_has_not_set_is_not_shown():
    unset = Limit("criteria.frost-depth", Missing(Need("the jurisdiction's ruleset", "frost depth")), "", "frost depth")
    assert at_least(length("36 in"), unset).outcome is Outcome.NOT_SHOWN


def test_good_practice_warns_and_never_fails():
    advised = Limit("t.rule.tallest", length("7 in"), "", "tallest thing", advised=True)
    for measured in (length("8 in"), SILL):
        check = at_most(measured, advised)
        assert check.outcome is Outcome.WARN
        assert check.looks == (Look.PRACTICE,)


def test_what_passes_within_the_field_tolerance_is_worth_a_look():
    close = Limit("t.rule.tallest", length("7 in"), "R1", "tallest thing", tolerance=length("1/8 in"))
    assert at_most(length("6 15/16 in"), close).looks == (Look.CLOSE,)
    assert at_most(length("6 7/8 in"), close).outcome is Outcome.PASS
    assert at_most(length("7 1/16 in"), close).outcome is Outcome.FAIL


def test_a_choice_and_a_presence_are_compared_too():
    kinds = Limit("t.rule.kinds", ("solid wood", "solid steel"), "R1", "kinds of door")
    assert one_of("solid wood", kinds).outcome is Outcome.PASS
    assert one_of("glass", kinds).outcome is Outcome.FAIL
    needed = Limit("t.rule.closer", True, "R1", "a closer")
    assert required(True, needed).outcome is Outcome.PASS
    assert required(False, needed).outcome is Outcome.FAIL
    assert required(SILL, needed).outcome is Outcome.NOT_SHOWN


@pytest.mark.parametrize(
    ("measured", "margin"),
    [("9'-2\"", "8'-7\" over"), ("1'-9\"", "1'-2\" over"), ("1'-7\"", "12 in over"), ("21 in", "14 in over")],
)
def test_a_margin_beside_feet_and_inches_is_told_so_from_more_than_a_foot_on(measured, margin):
    assert evidence_of(at_most(length(measured), SEVEN))[0].margin == margin


def sentence(check: Check) -> str:
    (evidence,) = evidence_of(check)
    return evidence.sentence


def limited(measures: str, value: object, **more: object) -> Limit:
    return Limit("t.rule.x", value, "R1", measures, **more)


SILL_HEIGHT = limited("sill height", length("44 in"))
CLOSER = limited("self-closing device", True)
DRAINS = limited("garage floor slopes toward", ("vehicle door", "drain"))


@pytest.mark.parametrize(
    ("check", "told"),
    [
        (at_most(length("46 in"), SILL_HEIGHT), "Sill height: 46 in, 44 in maximum (2 in too high)"),
        (at_most(length("44 in"), SILL_HEIGHT), "Sill height: 44 in, 44 in maximum"),
        (at_most(length("43 in"), SILL_HEIGHT), "Sill height: 43 in, 44 in maximum (1 in to spare)"),
        (at_most(SILL, SILL_HEIGHT), "Sill height: not shown, 44 in maximum"),
        (
            at_most(length("50 in") / 6, limited("riser height", length("8 in")), lambda: "50 in / 6 risers"),
            "Riser height: 50 in / 6 risers = 8 5/16 in (rounded), 8 in maximum (5/16 in too high)",
        ),
        (less_than(length("5 in"), limited("guard openings", length("4 in"))), "Guard openings: 5 in, must be under 4 in"),
        (at_least(0, limited("smoke alarms in the bedroom", 1)), "Smoke alarms in the bedroom: 0, 1 required"),
        (at_least(0, limited("covered stalls", 1, advised=True)), "Covered stalls: 0, 1 recommended"),
        (at_least(4, limited("bar number", 5, kind="number")), "Bar number: 4, 5 minimum (1 short)"),
        (at_most(2, limited("old layers of roofing", 1)), "Old layers of roofing: 2, 1 maximum"),
        (at_most(1, limited("doors to a bedroom", 0), "D6"), "Doors to a bedroom: 1, none allowed [D6]"),
        (required(False, CLOSER), "Self-closing device: none, required"),
        (required(True, CLOSER), "Self-closing device: shown, required"),
        (required(SILL, CLOSER), "Self-closing device: not shown, required"),
        (required(False, limited("landing", True), "at the top"), "Landing: none, required [at the top]"),
        (required(False, limited("truss tags", True, advised=True)), "Truss tags: none, recommended"),
        (one_of("house", DRAINS), "Garage floor slopes toward: house, must be vehicle door or drain"),
        (one_of("pea", limited("gravel", ("a", "b", "c"), advised=True)), "Gravel: pea, should be a, b or c"),
        (one_of("smooth", limited("finish", "broom")), "Finish: smooth, must be broom"),
        (agrees(length("8 ft"), length("95 in"), "ceiling height", derived="built up"),
         "Ceiling height: given as 8 ft, comes to 95 in [built up]"),
        (agrees(False, True, "safety glazing"), "Safety glazing: given as no, comes to yes"),
    ],
)  # fmt: skip
def test_a_comparison_is_one_sentence_as_a_plan_reviewer_writes_it(check, told):
    assert sentence(check) == told


@pytest.mark.parametrize(
    ("compare", "measured", "measures", "value", "margin"),
    [
        (at_least, "35 in", "clear width of a hall", "36 in", "1 in too narrow"),
        (at_least, "35 in", "landing depth", "36 in", "1 in too shallow"),
        (at_least, "7 ft", "clear length of the landing", "8 ft", "12 in too short"),
        (at_least, "1/2 in", "thickness of gypsum board", "5/8 in", "1/8 in too thin"),
        (at_most, "1:8", "slope of a ramp", "1:12", "1/2 in per ft too steep"),
        (at_most, "25 in", "spacing of the fasteners", "24 in", "1 in too far apart"),
        (at_least, "2 ft", "distance of the outlet from the house", "10 ft", "8'-0\" too close"),
        (at_least, "5.2 sq ft", "net clear opening", "5.7 sq ft", "0.5 sq ft too small"),
        (at_least, "2 in", "lap over the flashing", "4 in", "2 in short"),
        (at_least, "30 psf", "live load", "40 psf", "10 psf short"),
        (at_most, "U-0.35", "U-factor", "U-0.30", "U-0.05 over"),
    ],
)
def test_a_margin_is_named_by_what_is_measured_and_on_which_side_it_lies(compare, measured, measures, value, margin):
    made = compare(recognize(measured), limited(measures, recognize(value)))
    assert evidence_of(made)[0].margin == margin


def test_the_margin_and_the_derivation_are_told():
    evidence = evidence_of(at_most(length("108 9/16 in") / 14, SEVEN, "108 9/16 in / 14 risers"))[0]
    assert evidence.derived == "108 9/16 in / 14 risers"
    assert evidence.margin == "3/4 in over"


def test_a_length_that_rounds_to_its_limit_says_so_without_decimals_and_any_other_measure_is_told_finely():
    over = at_most(length("7 in") + length("1/1024 in"), SEVEN)
    assert sentence(over) == "Tallest thing: 7 in (rounded), 7 in maximum (less than 1/16 in over)"
    share = limited("share", Ratio.parse("40 %"))
    assert sentence(at_most(Ratio(Fraction(40001, 100000)), share)) == "Share: 40.001 %, 40 % maximum (0.001 % over)"


def test_the_thickness_of_a_sheet_is_told_in_decimals_as_its_limit_is():
    pan = limited("thickness of a pan", length("0.0236 in"))
    assert evidence_of(at_least(length("0.02 in"), pan))[0].margin == "0.0036 in too thin"


def test_square_inches_do_not_stand_beside_square_feet():
    vents, clear = limited("vent area", Area.parse("28.8 sq in")), limited("net clear opening", Area.parse("5.7 sq ft"))
    assert sentence(at_least(Area.parse("0.19 sq ft"), vents)) == (
        "Vent area: 27.4 sq in (rounded), 28.8 sq in minimum (1.4 sq in too small)"
    )
    assert sentence(at_least(Area.parse("819 sq in"), clear)) == (
        "Net clear opening: 5.69 sq ft (rounded), 5.7 sq ft minimum (0.01 sq ft too small)"
    )


def test_a_condition_that_is_not_given_leaves_open_only_what_hangs_on_it():
    fail, good = at_most(length("8 in"), SEVEN), at_most(length("6 in"), SEVEN)
    assert decide(SILL, good, good).outcome is Outcome.PASS
    assert decide(SILL, fail, good).outcome is Outcome.NOT_SHOWN
    assert decide(SILL, fail, good).needs == SILL.needs
    assert decide(True, fail, good).outcome is Outcome.FAIL
    aside = does_not_apply("not asked here")
    assert decide(SILL, good, aside).outcome is decide(SILL, aside, good).outcome is Outcome.PASS
    assert decide(SILL, fail, aside).outcome is Outcome.NOT_SHOWN


def test_a_remedy_is_worked_out_only_for_what_is_not_met():
    calls = []
    at_most(length("6 in"), SEVEN).or_fix(lambda: calls.append(1) or "x").remedy  # noqa: B018
    assert not calls
    assert at_most(length("8 in"), SEVEN).or_fix(lambda: "saw it off").remedy == "saw it off"


OUTCOMES = st.sampled_from([Outcome.FAIL, Outcome.NOT_SHOWN, Outcome.WARN, Outcome.PASS, Outcome.DOES_NOT_APPLY])


def checked(outcome: Outcome) -> Check:
    return not_shown(SILL) if outcome is Outcome.NOT_SHOWN else Check(outcome)


@given(st.lists(OUTCOMES, min_size=1, max_size=5))
def test_all_of_is_as_bad_as_its_worst_part(outcomes):
    assert all_of(*map(checked, outcomes)).outcome is min(outcomes)


@given(st.lists(OUTCOMES, min_size=1, max_size=5))
def test_any_of_is_as_good_as_its_best_part_that_applies(outcomes):
    applying = [o for o in outcomes if o is not Outcome.DOES_NOT_APPLY]
    assert any_of(*map(checked, outcomes)).outcome is (max(applying) if applying else Outcome.DOES_NOT_APPLY)


@given(st.lists(OUTCOMES, min_size=1, max_size=4), st.integers(0, 3))
def test_learning_what_was_not_shown_never_turns_a_fail_of_all_into_a_pass(outcomes, index):
    """Kleene logic is monotone: more information refines an answer, it does not contradict it."""
    known = [Outcome.PASS if o is Outcome.NOT_SHOWN else o for o in outcomes]
    if all_of(*map(checked, outcomes)).outcome is Outcome.FAIL:
        assert all_of(*map(checked, known)).outcome is Outcome.FAIL


def test_a_part_that_does_not_apply_stands_aside():
    good = at_most(length("6 in"), SEVEN)
    assert all_of(does_not_apply("no beam"), good).outcome is Outcome.PASS
    assert any_of(does_not_apply("no beam"), good).outcome is Outcome.PASS


def test_what_is_said_of_a_check_is_said_of_a_copy_for_two_branches_may_share_one():
    shared = at_most(length("8 in"), SEVEN)
    stored = shared.because("things are stored in it").or_fix("lower it").with_work(lambda: ())
    assert (stored.why, stored.remedy) == ("things are stored in it", "lower it")
    assert (shared.why, shared.remedy, shared.work_of) == ("", "", None)
    both = all_of(shared, does_not_apply("no beam"))
    assert {leaf.bound for leaf in both.citing(SEVEN).leaves()} == {SEVEN}
    assert {leaf.bound for leaf in both.leaves()} == {SEVEN, None}
    with pytest.raises(AttributeError):
        shared.outcome = Outcome.PASS


@pytest.mark.parametrize(
    ("outcome", "advised", "may_remain"),
    [
        (Outcome.FAIL, Outcome.WARN, Outcome.WARN),
        (Outcome.NOT_SHOWN, Outcome.WARN, Outcome.DOES_NOT_APPLY),
        (Outcome.WARN, Outcome.WARN, Outcome.WARN),
        (Outcome.PASS, Outcome.PASS, Outcome.PASS),
        (Outcome.DOES_NOT_APPLY, Outcome.DOES_NOT_APPLY, Outcome.DOES_NOT_APPLY),
        (Outcome.ERROR, Outcome.ERROR, Outcome.ERROR),
    ],
)
def test_good_practice_and_existing_parts_are_reported_more_mildly_and_a_requirement_as_it_is(
    outcome, advised, may_remain
):
    assert as_reported(outcome) is outcome
    assert as_reported(outcome, advised=True) is advised
    assert as_reported(outcome, may_remain=True) is may_remain


def test_what_need_not_be_stated_is_compared_where_it_is_and_stands_aside_where_it_is_not():
    stated = if_stated(length("8 in"), at_most, SEVEN, "as drawn")
    assert (stated.outcome, evidence_of(stated)[0].derived) == (Outcome.FAIL, "as drawn")
    silent = if_stated(SILL, at_most, SEVEN)
    assert (silent.outcome, silent.why) == (Outcome.DOES_NOT_APPLY, "tallest thing: not stated")
    assert all_of(silent, does_not_apply("no beam")).outcome is Outcome.DOES_NOT_APPLY
    assert all_of(silent, at_most(length("6 in"), SEVEN)).outcome is Outcome.PASS


def test_nothing_is_met_without_a_fact_that_meets_it():
    with pytest.raises(ValueError, match="does_not_apply"):
        met("")


def test_the_metric_figure_that_the_code_prints_beside_the_other_complies():
    limit = limited("width", Length.parse("36 in"), metric=Length.parse("914 mm"))
    assert at_least(Length.parse("914 mm"), limit).outcome is Outcome.PASS
    assert at_least(Length.parse("913 mm"), limit).outcome is Outcome.FAIL
    assert at_least(Length.parse("35 31/32 in"), limit).outcome is Outcome.FAIL
    assert (
        at_most(Length.parse("1118 mm"), limited("sill", Length.parse("44 in"), metric=Length.parse("1118 mm"))).outcome
        is Outcome.PASS
    )
    assert (
        at_least(Area.parse("6.5 m2"), limited("area", Area.parse("70 sq ft"), metric=Area.parse("6.5 m2"))).outcome
        is Outcome.PASS
    )


def test_what_complies_with_the_metric_figure_is_told_no_margin_that_it_lacks():
    limit = limited("width", Length.parse("36 in"), metric=Length.parse("914 mm"))
    (complies,), (misses,) = (evidence_of(at_least(Length.parse(text), limit)) for text in ("914 mm", "913 mm"))
    assert complies.margin == "none"
    assert misses.margin.endswith("too narrow")


def test_what_must_be_over_its_limit_does_not_comply_at_it():
    limit = limited("open share", Ratio.parse("40 %"))
    assert more_than(Ratio.parse("40 %"), limit).outcome is Outcome.FAIL
    assert more_than(Ratio.parse("41 %"), limit).outcome is Outcome.PASS
    assert sentence(more_than(Ratio.parse("40 %"), limit)) == "Open share: 40 %, must be over 40 %"


def test_a_metric_figure_lets_no_larger_sphere_pass():
    limit = limited("opening", Length.parse("4 in"), metric=Length.parse("102 mm"))
    assert less_than(Length.parse("4 in"), limit).outcome is Outcome.FAIL
    assert less_than(Length.parse("101.6 mm"), limit).outcome is Outcome.FAIL
    assert less_than(Length.parse("101 mm"), limit).outcome is Outcome.PASS


def test_a_limit_that_calls_for_something_is_exceeded_in_inches_and_in_metric():
    limit = limited("drop", Length.parse("72 in"), metric=Length.parse("1829 mm"))
    assert exceeds(Length.parse("72 1/2 in"), limit) is True
    assert exceeds(Length.parse("1829 mm"), limit) is False
    assert exceeds(Length.parse("1830 mm"), limit) is True
    assert exceeds(Length.parse("73 in"), limited("drop", None)) is False
    assert is_missing(exceeds(SILL, limit))


def test_a_metric_figure_that_is_no_rounding_serves_metric_drawings_alone():
    limit = limited("width", Length.parse("31 1/2 in"), metric=Length.parse("787 mm"))
    assert at_least(Length.parse("787 mm"), limit).outcome is Outcome.PASS
    assert at_least(Length.parse("500 mm") + Length.parse("287 mm"), limit).outcome is Outcome.PASS
    assert at_least(Length.parse("31 in"), limit).outcome is Outcome.FAIL


def test_a_remedy_as_data_is_told_where_the_check_is_not_met():
    change = NewValue(object(), "sill_height", Length.parse("44 in"))
    failed = at_most(Length.parse("46 in"), limited("sill", Length.parse("44 in"))).or_fix(
        "lower the sill by 2 in", lambda: (change,)
    )
    assert failed.changes == (change,)
    assert all_of(at_most(Length.parse("40 in"), limited("sill", Length.parse("44 in"))), failed).changes == (change,)
    assert (
        at_most(Length.parse("40 in"), limited("sill", Length.parse("44 in")))
        .or_fix("nothing", lambda: (change,))
        .changes
        == ()
    )


@pytest.mark.parametrize(("other", "same"), [("95 63/64 in", True), ("95 31/32 in", False), ("8.0013 ft", True)])
def test_lengths_that_no_sheet_tells_apart_agree(other, same):
    assert (agrees(length("8 ft"), length(other), "ceiling height").outcome.word == "pass") is same


def test_a_remedy_that_is_no_data_says_what_a_person_decides_first():
    tall = at_most(length("8 in"), SEVEN).or_fix("move a wall by 1 in", list, "how the plan changes")
    assert (tall.decide, all_of(tall).decide) == ("how the plan changes", "how the plan changes")
    change = NewValue(None, "rise", length("7 in"))
    assert tall.or_fix("make it 7 in", lambda: [change], "where it goes").decide == ""
    assert at_most(length("6 in"), SEVEN).or_fix("nothing", decide="where it goes").decide == ""
    assert agrees(length("6 in"), length("7 in"), "the rise").decide == "which sheet is right"
