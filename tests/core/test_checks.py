"""Three-valued comparisons and their evidence."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from precheck import (
    Check,
    Length,
    Look,
    Missing,
    Outcome,
    Ratio,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    less_than,
    not_shown,
    one_of,
    required,
    when_given,
)
from precheck.checks.evidence import evidence_of
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
    assert required(True, needed, "closer").outcome is Outcome.PASS
    assert required(False, needed, "closer").outcome is Outcome.FAIL
    assert required(SILL, needed, "closer").outcome is Outcome.NOT_SHOWN


@pytest.mark.parametrize(
    ("measured", "margin"),
    [("9'-2\"", "8'-7\" over"), ("1'-9\"", "1'-2\" over"), ("1'-7\"", "12 in over"), ("21 in", "14 in over")],
)
def test_a_margin_beside_feet_and_inches_is_told_so_from_more_than_a_foot_on(measured, margin):
    assert evidence_of(at_most(length(measured), SEVEN))[0].margin == margin


def test_the_margin_and_the_derivation_are_told():
    evidence = evidence_of(at_most(length("108 9/16 in") / 14, SEVEN, "108 9/16 in / 14 risers"))[0]
    assert evidence.derived == "108 9/16 in / 14 risers"
    assert evidence.margin == "about 3/4 in over"


def test_a_value_that_rounds_to_its_limit_is_told_finely():
    evidence = evidence_of(at_most(length("7 in") + length("1/1024 in"), SEVEN))[0]
    assert evidence.measured == "about 7.001 in"
    assert evidence.margin == "about 0.001 in over"
    share = Limit("t.rule.share", Ratio.parse("40 %"), "R1", "share")
    assert evidence_of(at_most(Ratio(Fraction(40001, 100000)), share))[0].measured == "40.001 %"


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
