"""Members, columns, ties, notches, footings and remedies in plain cases, checked by hand."""

from __future__ import annotations

from functools import partial

import pytest
from precheck_plugins.framing.adjusted import Conditions
from precheck_plugins.framing.columns import Column, check_column
from precheck_plugins.framing.combinations import LineLoads, check_combinations
from precheck_plugins.framing.demands import UniformSpan, loaded_beam
from precheck_plugins.framing.footings import footing
from precheck_plugins.framing.headers import HeaderLoads, header_span
from precheck_plugins.framing.lumber import published_values
from precheck_plugins.framing.members import Member, Serviceability, check_member, check_uniform
from precheck_plugins.framing.nds import OutsideMethodError
from precheck_plugins.framing.notches import CutLimits, Hole, Notch, check_hole, check_notch
from precheck_plugins.framing.patterns import check_patterns, live_patterns
from precheck_plugins.framing.sections import dressed_section
from precheck_plugins.framing.sistered import sistered
from precheck_plugins.framing.sizing import lightest_member, passing_spacing, passing_whole_inch, plies_needed
from precheck_plugins.framing.spans import FAMILIES, SpanLoads, family_span, longest_span
from precheck_plugins.framing.statics import BeamError, PointLoad, UniformLoad, overhanging_beam, simple_beam
from precheck_plugins.framing.ties import check_tie, rafter_pair

FIR = partial(published_values, "Douglas fir-larch", "No.2")
# Shares of depth as they stand in IRC R502.8.1, as numbers passed in; the rulesets hold the real ones.
JOIST_CUTS = CutLimits("R502.8.1", 1 / 6, 1 / 3, 1 / 4, 1 / 3, 2.0)


def joist(size: str, *, repetitive: bool = True) -> Member:
    return Member(dressed_section(size), FIR(dressed_section(size)), Conditions(repetitive=repetitive))


def at_16_in(span_in: float) -> UniformSpan:
    return UniformSpan(span_in, 10 * 16 / 12, 40 * 16 / 12)


def test_a_joist_passes_at_its_tabulated_span_and_fails_beyond() -> None:
    # Recipe of the floor table: Douglas fir-larch No.2 2x10 at 16 in, 40 + 10 psf, 15-7.
    section = dressed_section("2x10")
    span = family_span(FAMILIES["floor"], section, FIR(section), SpanLoads(40, 10, 16, 360))
    assert span.tabulated_in == 187
    assert check_uniform(joist("2x10"), at_16_in(187)).passes
    failed = check_uniform(joist("2x10"), at_16_in(189))
    assert not failed.passes
    assert failed.governing.what == "bending"


def test_the_remedies_of_an_overspanned_joist() -> None:
    drawn, span = joist("2x8"), at_16_in(187)
    lightest = lightest_member(drawn, span.demand(), FIR)
    plies = plies_needed(drawn, span.demand())
    spacing = passing_spacing(drawn, span, 16)
    assert lightest.found is not None
    assert lightest.found.member.section.label == "2x10"
    assert [c.member.section.label for c in lightest.tried] == ["2x4", "2x6", "2x8", "2x10"]
    assert plies.found is not None
    assert plies.found.member.section.label == "2-2x8"
    assert spacing.layout_in == 8
    # By hand: 384 E I / (5 n L^3) = 2.486 lb/in of live load, so 8.95 in.
    assert spacing.greatest_in == pytest.approx(8.95, abs=0.005)
    assert passing_whole_inch(spacing) == 8


def test_no_remedy_is_said_rather_than_guessed() -> None:
    remedy = lightest_member(joist("2x8"), at_16_in(480).demand(), FIR)
    assert remedy.found is None
    assert len(remedy.tried) == 6
    assert passing_spacing(joist("2x4"), at_16_in(200), 16).layout_in is None


def test_dead_load_creeps_and_live_load_does_not() -> None:
    limits = Serviceability(live_ratio=None, total_ratio=240, creep=2.0)
    member = Member(dressed_section("2x10"), FIR(dressed_section("2x10")), limits=limits)
    check = check_uniform(member, UniformSpan(180, 20, 40))
    total = next(c for c in check.comparisons if c.what.startswith("total"))
    ei = 1.6e6 * member.section.inertia_in4
    assert total.demand == pytest.approx(5 * (40 + 2 * 20) / 12 * 180**4 / 384 / ei)


def test_bearing_needed_follows_from_the_reaction() -> None:
    check = check_uniform(joist("2x10"), UniformSpan(180, 100, 300))
    assert check.bearing_needed_in == pytest.approx(400 / 12 * 180 / 2 / (625 * 1.5))


def test_an_overhang_is_limited_on_twice_its_length() -> None:
    live = overhanging_beam(120, 0, 24, [PointLoad(144, 200)])
    demand = loaded_beam(overhanging_beam(120, 0, 24), live).demand()
    check = check_member(joist("2x8"), demand)
    overhang = next(c for c in check.comparisons if "right overhang" in c.what)
    # P a^2 (L + a) / 3 EI at the tip, from any beam table.
    assert overhang.demand * 1.6e6 * dressed_section("2x8").inertia_in4 == pytest.approx(200 * 24**2 * 144 / 3)
    assert overhang.capacity == pytest.approx(48 / 360)
    assert demand.least_reaction_lb == pytest.approx(-40)


def test_a_point_load_at_midspan_bends_as_a_beam_table_says() -> None:
    beam = simple_beam(96, [PointLoad(48, 1000)])
    assert beam.greatest_moment().value == pytest.approx(1000 * 96 / 4)
    assert beam.greatest_deflection_ei(0, 96).value == pytest.approx(1000 * 96**3 / 48)


def test_loads_off_the_beam_and_unlike_beams_are_refused() -> None:
    with pytest.raises(BeamError, match="not on a beam"):
        simple_beam(96, [PointLoad(97, 1)])
    with pytest.raises(BeamError, match="span over 0"):
        simple_beam(0)
    with pytest.raises(BeamError, match="same beam"):
        loaded_beam(simple_beam(96), simple_beam(97))


def test_a_sistered_pair_hands_the_load_over_and_is_checked_piece_by_piece() -> None:
    group = sistered([joist("2x8"), joist("2x12")])
    assert group.transfer_plf(100, loaded=0) == pytest.approx(78.9, abs=0.05)
    found = {c.what for c in group.check(at_16_in(160).demand())}
    assert {"bending of the group", "shear of 2x8", "bearing of 2x12", "live deflection of span"} <= found


def test_a_group_without_a_sound_member_is_refused() -> None:
    with pytest.raises(OutsideMethodError):
        sistered([joist("2x8")], sound=[False])


def test_a_post_by_hand() -> None:
    # Douglas fir-larch No.1 6x6 post, 8 ft: F*c 1000, FcE 0.822 x 580,000 / 17.45^2 = 1565, c 0.8.
    section = dressed_section("6x6")
    column = Column(section, published_values("Douglas fir-larch", "No.1", section), 96, 96)
    check = check_column(column, 20_000)
    ratio = 0.822 * 580_000 / (96 / 5.5) ** 2 / 1000
    half = (1 + ratio) / 1.6
    assert check.stability == pytest.approx(half - (half**2 - ratio / 0.8) ** 0.5)
    assert check.capacity_lb == pytest.approx(1000 * check.stability * 30.25)
    assert check.passes


def test_a_post_of_plies_must_say_how_they_are_fastened() -> None:
    section = dressed_section("3-2x6")
    with pytest.raises(OutsideMethodError, match="nailed or bolted"):
        check_column(Column(section, FIR(section), 96, 96), 1000)


def test_a_nailed_post_keeps_60_percent_about_its_plies_only() -> None:
    # NDS 15.3.2, from memory; the 40 percent loss also in the article named among the worked examples.
    section = dressed_section("3-2x6")
    nailed, bolted = (check_column(Column(section, FIR(section), 96, 96, fastening=f), 1) for f in ("nailed", "bolted"))
    strong, weak = nailed.axes
    assert weak.value / bolted.axes[1].value == pytest.approx(0.60 / 0.75)
    assert strong.value == bolted.axes[0].value
    assert nailed.capacity_lb == pytest.approx(weak.value * nailed.star.psi * section.area_in2)


def test_a_ceiling_joist_that_ties_rafters_adds_tension_to_bending() -> None:
    member, demand = joist("2x6"), UniformSpan(144, 5 * 16 / 12, 10 * 16 / 12).demand()
    check = check_tie(member, demand, rafter_pair(40, 288, 72).thrust_lb)
    fb, ft = demand.moment_inlb / 7.5625, 480 / 8.25
    assert check.comparisons[0].demand == pytest.approx(ft / (575 * 1.3) + fb / (900 * 1.3 * 1.15))
    assert check.passes
    assert not check_tie(member, demand, 9_000).passes


def test_a_tie_at_the_ridge_is_refused() -> None:
    with pytest.raises(OutsideMethodError, match="below the ridge"):
        rafter_pair(40, 288, 72, 72)


def test_notches_are_compared_with_the_limits_given() -> None:
    fits, deep = (check_notch(Notch(d, 3, 20), 9.25, 180, JOIST_CUTS) for d in (1.5, 1.6))
    assert all(c.passes for c in fits)
    assert [c.passes for c in deep] == [False, True]
    end = check_notch(Notch(2.3, 2, 0, at_end=True), 9.25, 180, JOIST_CUTS)
    assert [c.passes for c in end] == [True]


def test_a_notch_in_the_middle_third_fails_however_small() -> None:
    assert not check_notch(Notch(0.25, 1, 90), 9.25, 180, JOIST_CUTS)[0].passes


def test_holes_are_compared_by_diameter_and_edge() -> None:
    assert all(c.passes for c in check_hole(Hole(3, 2), 9.25, JOIST_CUTS))
    assert [c.passes for c in check_hole(Hole(3.2, 1.9), 9.25, JOIST_CUTS)] == [False, False]


def test_a_limit_that_is_not_given_is_not_checked() -> None:
    assert check_hole(Hole(9, 0), 9.25, CutLimits("none")) == ()


def test_a_footing_under_6000_lb_on_1500_psf_is_24_in_square() -> None:
    found = footing(6000, 1500)
    assert (found.area_ft2, found.side_in) == (pytest.approx(4.0), 24)
    assert footing(6001, 1500).side_in == 26
    assert footing(6000, 1500, 12).side_in == 26


def test_soil_that_only_carries_the_footing_is_refused() -> None:
    with pytest.raises(OutsideMethodError):
        footing(100, 100, 12)


def test_a_header_without_a_braced_top_spans_70_percent() -> None:
    # IRC R602.7(1) footnote, read in a published copy of the 2018 code
    section, loads = dressed_section("2-2x10"), HeaderLoads(50, 24)
    assert header_span(section, loads, top_braced=False).span_in == pytest.approx(
        0.7 * header_span(section, loads).span_in
    )


@pytest.mark.parametrize("loads", [HeaderLoads(50, 24, 2), HeaderLoads(50, 0)])
def test_header_loads_that_the_recipe_was_not_found_on_are_refused(loads: HeaderLoads) -> None:
    with pytest.raises(OutsideMethodError):
        header_span(dressed_section("2-2x10"), loads)


def test_a_span_without_live_load_is_refused() -> None:
    section = dressed_section("2x10")
    with pytest.raises(OutsideMethodError):
        longest_span(section, FIR(section), SpanLoads(0, 10, 16, 360), Conditions())


def test_a_uniform_load_over_part_of_the_span() -> None:
    beam = simple_beam(100, uniforms=[UniformLoad(0, 50, 10)])
    assert beam.reactions_lb == (pytest.approx(375), pytest.approx(125))
    assert beam.greatest_moment().at_in == pytest.approx(37.5)


def test_live_load_on_the_span_alone_bends_it_more_than_load_everywhere() -> None:
    live = overhanging_beam(120, 0, 36, (), [UniformLoad(0, 156, 5)])
    everywhere, span, overhang = live_patterns(live)
    assert span.greatest_moment().value == pytest.approx(5 * 120**2 / 8)
    assert span.greatest_moment().value > everywhere.greatest_moment().value
    assert overhang.reactions_lb[0] == pytest.approx(-5 * 36**2 / 2 / 120)
    assert live_patterns(simple_beam(120)) == (simple_beam(120),)


def test_the_worst_pattern_comes_first() -> None:
    dead, live = (overhanging_beam(120, 0, 36, (), [UniformLoad(0, 156, w)]) for w in (1, 5))
    ratios = [check.governing.ratio for check in check_patterns(joist("2x8"), dead, live)]
    assert len(ratios) == 3
    assert ratios == sorted(ratios, reverse=True)


def test_a_longer_lasting_smaller_load_may_govern() -> None:
    # Dead load 0.9 against snow 1.15: with little snow the dead load alone is worse. NDS 2.3.2, from memory.
    heavy_dead = check_combinations(joist("2x10"), 150, LineLoads(90, snow_plf=10))
    assert heavy_dead.governing.load == "dead"
    floor_and_snow = LineLoads(20, live_plf=60, snow_plf=60)
    assert [c.load for c in floor_and_snow.combinations()] == ["dead", "occupancy", "snow", "snow"]
    assert floor_and_snow.combinations()[3].plf == pytest.approx(20 + 0.75 * 120)


def test_every_combination_has_to_pass() -> None:
    check = check_combinations(joist("2x8"), 170, LineLoads(15, live_plf=55))
    assert not check.passes
    assert check.governing.load == "occupancy"
