"""Properties that must hold whatever the input, by generated cases. Source: logic and statics."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from precheck_plugins.framing.members.beams import overhanging_beam, simple_beam
from precheck_plugins.framing.members.capacity import MemberCheck, Seat, Serviceability, SizedMember, check_member
from precheck_plugins.framing.members.columns import Column, check_column
from precheck_plugins.framing.members.demands import UniformSpan, loaded_beam
from precheck_plugins.framing.members.footings import footing
from precheck_plugins.framing.members.sistered import sistered
from precheck_plugins.framing.members.statics import PointLoad, UniformLoad
from precheck_plugins.framing.members.ties import rafter_pair
from precheck_plugins.framing.tables.joists_and_rafters import FAMILIES, SpanLoads, family_span, longest_span
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.factors import LOAD_DURATION
from precheck_plugins.framing.timber.lumber import DesignValues, published_values
from precheck_plugins.framing.timber.notched import notched_end
from precheck_plugins.framing.timber.sections import JOIST_SIZES, dressed_section
from precheck_plugins.framing.timber.stability import beam_stability, column_stability

# A busy machine is not a failure.
UNTIMED = settings(deadline=None)
SPECIES = st.sampled_from(["Douglas fir-larch", "Hem-fir", "Southern pine", "Spruce-pine-fir"])
GRADES = st.sampled_from(["SS", "No.1", "No.2", "No.3"])
SIZES = st.sampled_from(JOIST_SIZES)
SPANS = st.floats(24, 400)
LOADS = st.floats(1, 400)
USES = st.builds(
    Conditions,
    load=st.sampled_from(sorted(LOAD_DURATION)),
    repetitive=st.booleans(),
    wet=st.booleans(),
    incised=st.booleans(),
    unbraced_in=st.sampled_from([0.0, 16.0, 24.0, 48.0]),
)
LIMITS = st.builds(
    Serviceability,
    live_ratio=st.sampled_from([None, 180, 240, 360, 480]),
    total_ratio=st.sampled_from([None, 240]),
    creep=st.sampled_from([1.0, 1.5, 2.0]),
)
TABLE_LOADS = st.builds(SpanLoads, st.floats(5, 100), st.floats(0, 40), st.floats(8, 24), st.just(360))


def values_of(species: str, grade: str, size: str) -> DesignValues:
    return published_values(species, grade, dressed_section(size))


@st.composite
def members(draw: st.DrawFn) -> SizedMember:
    size = draw(SIZES)
    values = values_of(draw(SPECIES), draw(GRADES), size)
    seats = (Seat(draw(st.floats(1.5, 5.5))), Seat(draw(st.floats(1.5, 5.5))))
    return SizedMember(dressed_section(size), values, draw(USES), draw(LIMITS), seats)


@UNTIMED
@given(members(), SPANS, LOADS, LOADS, st.floats(0, 200))
def test_more_load_never_passes_what_less_load_failed(
    member: SizedMember, span: float, dead: float, live: float, more: float
) -> None:
    less_load = check_member(member, UniformSpan(span, dead, live).demand())
    for heavier in (UniformSpan(span, dead + more, live), UniformSpan(span, dead, live + more)):
        more_load = check_member(member, heavier.demand())
        assert less_load.passes or not more_load.passes
        assert more_load.governing.ratio >= less_load.governing.ratio * (1 - 1e-12)


@UNTIMED
@given(members(), SPANS, LOADS, LOADS, st.floats(0, 100))
def test_a_longer_span_never_passes_what_a_shorter_one_failed(
    member: SizedMember, span: float, dead: float, live: float, longer: float
) -> None:
    short = check_member(member, UniformSpan(span, dead, live).demand())
    assert short.passes or not check_member(member, UniformSpan(span + longer, dead, live).demand()).passes


@UNTIMED
@given(SPECIES, GRADES, st.sampled_from(sorted(FAMILIES)), TABLE_LOADS, st.sampled_from([180, 240, 360]))
def test_a_deeper_member_never_spans_less(
    species: str, grade: str, family: str, loads: SpanLoads, ratio: float
) -> None:
    wanted = replace(loads, deflection_ratio=ratio)
    spans = [
        family_span(FAMILIES[family], dressed_section(size), values_of(species, grade, size), wanted).span_in
        for size in JOIST_SIZES
    ]
    assert all(shallow <= deep for shallow, deep in pairwise(spans)), spans


@UNTIMED
@given(SPECIES, GRADES, USES, TABLE_LOADS)
def test_more_load_or_wider_spacing_never_spans_more(
    species: str, grade: str, use: Conditions, loads: SpanLoads
) -> None:
    section, values = dressed_section("2x10"), values_of(species, grade, "2x10")
    span = longest_span(section, values, loads, use).span_in
    heavier = (
        replace(loads, live_psf=loads.live_psf + 1),
        replace(loads, dead_psf=loads.dead_psf + 1),
        replace(loads, spacing_in=loads.spacing_in + 1),
    )
    assert all(longest_span(section, values, more, use).span_in <= span for more in heavier)


@UNTIMED
@given(members(), st.integers(1, 5))
def test_equal_members_share_equally(member: SizedMember, count: int) -> None:
    group = sistered([member] * count)
    assert [share.part for share in group.shares] == pytest.approx([1 / count] * count)
    assert group.moment_capacity_inlb == pytest.approx(count * group.shares[0].moment_capacity_inlb)


@UNTIMED
@given(st.lists(members(), min_size=1, max_size=4))
def test_sistered_members_share_everything_and_reach_no_more_than_the_sum(group_of: list[SizedMember]) -> None:
    group = sistered(group_of)
    assert sum(share.part for share in group.shares) == pytest.approx(1)
    alone = [share.moment_capacity_inlb for share in group.shares]
    assert group.moment_capacity_inlb <= sum(alone) * (1 + 1e-9)
    governing = min(alone[i] / share.part for i, share in enumerate(group.shares))
    assert group.moment_capacity_inlb == pytest.approx(governing)


@UNTIMED
@given(members(), members())
def test_a_member_that_is_not_sound_takes_nothing(sound: SizedMember, cracked: SizedMember) -> None:
    group = sistered([cracked, sound], sound=[False, True])
    assert [share.part for share in group.shares] == [0, 1]
    assert group.moment_capacity_inlb == pytest.approx(sistered([sound]).moment_capacity_inlb)


@UNTIMED
@given(SIZES, st.floats(400, 3000), st.floats(3e5, 1e6), st.floats(1, 90), st.floats(0, 10))
def test_cl_falls_as_the_unbraced_length_grows(size: str, star: float, emin: float, length: float, more: float) -> None:
    section = dressed_section(size)
    short, long = (beam_stability(section, x, star, emin) for x in (length, length + more))
    assert short is not None
    assert long is not None
    # Table 3.3.3 steps down by 0.03 percent of length where lu/d passes 7; CL follows by no more than that.
    assert 0 < long.value <= short.value * (1 + 5e-4) <= 1 + 5e-4


@UNTIMED
@given(st.floats(100, 3000), st.floats(3e5, 1e6), st.floats(1, 49), st.floats(0, 1), st.sampled_from([0.8, 0.9]))
def test_cp_falls_as_slenderness_grows(star: float, emin: float, slender: float, more: float, c: float) -> None:
    stout, thin = (column_stability(x * 3.5, 3.5, star, emin, c).value for x in (slender, slender + more))
    assert 0 < thin <= stout * (1 + 1e-12) <= 1 + 1e-9


@UNTIMED
@given(st.floats(24, 150), st.floats(24, 70))
def test_nailed_plies_never_carry_more_than_solid_wood(long: float, weak: float) -> None:
    section, values = dressed_section("3-2x6"), values_of("Hem-fir", "No.2", "2x6")
    nailed, bolted = (check_column(Column(section, values, long, weak, fastening=f), 1.0).capacity_lb
                      for f in ("nailed", "bolted"))  # fmt: skip
    assert nailed <= bolted


@UNTIMED
@given(SIZES, st.floats(0, 3), st.floats(0, 0.4), st.floats(50, 300))
def test_a_deeper_notch_leaves_less_shear(size: str, notch: float, deeper: float, shear: float) -> None:
    section = dressed_section(size)
    assert notched_end(section, notch + deeper, shear).capacity_lb <= notched_end(section, notch, shear).capacity_lb


@UNTIMED
@given(st.floats(100, 30_000), st.floats(1000, 4000), st.sampled_from([0.0, 6.0, 12.0]))
def test_a_footing_bears_its_load_and_one_step_smaller_does_not(load: float, soil: float, thick: float) -> None:
    found = footing(load, soil, thick)
    assert found.side_in % 2 == 0
    assert (found.side_in / 12) ** 2 * found.net_psf >= load * (1 - 1e-6)
    assert ((found.side_in - 2) / 12) ** 2 * found.net_psf < load


@UNTIMED
@given(st.floats(1, 200), st.floats(96, 480), st.floats(24, 200), st.floats(0, 0.6), st.floats(0, 0.3))
def test_a_higher_tie_pulls_harder_and_bends_the_rafter_more(
    load: float, width: float, rise: float, low: float, higher: float
) -> None:
    lower, upper = (rafter_pair(load, width, rise, part * rise) for part in (low, low + higher))
    assert upper.thrust_lb >= lower.thrust_lb
    assert upper.greatest_moment_inlb >= lower.greatest_moment_inlb * (1 - 1e-9)


@UNTIMED
@given(st.floats(1, 200), st.floats(96, 480), st.floats(24, 200), st.floats(0, 0.9))
def test_rafters_do_not_bend_at_the_ridge(load: float, width: float, rise: float, tie: float) -> None:
    pair = rafter_pair(load, width, rise, tie * rise)
    assert pair.moment_inlb(width / 2) == pytest.approx(0, abs=1e-6 * load * width**2)


def test_a_tie_at_the_plate_leaves_the_rafter_a_simple_span() -> None:
    pair = rafter_pair(40, 288, 72)
    assert pair.greatest_moment_inlb == pytest.approx(40 / 12 * 144**2 / 8)


@UNTIMED
@given(st.floats(60, 300), st.floats(0, 1), st.floats(1, 3000), st.floats(1, 60))
def test_two_loads_act_as_the_sum_of_each(span: float, part: float, force: float, spread: float) -> None:
    point, uniform = PointLoad(part * span, force), UniformLoad(0, span, spread)
    both = simple_beam(span, [point], [uniform])
    alone = (simple_beam(span, [point]), simple_beam(span, (), [uniform]))
    for at in (0.2 * span, 0.5 * span, 0.9 * span):
        assert both.deflection_ei(at) == pytest.approx(sum(b.deflection_ei(at) for b in alone))
        assert both.moment_inlb(at) == pytest.approx(sum(b.moment_inlb(at) for b in alone))


@UNTIMED
@given(members(), st.floats(60, 200), st.floats(6, 40), LOADS, st.floats(0, 100))
def test_more_load_never_helps_a_beam_with_an_overhang(
    member: SizedMember, span: float, overhang: float, load: float, more: float
) -> None:
    def check(plf: float) -> MemberCheck:
        dead, live = (overhanging_beam(span, 0, overhang, (), [UniformLoad(0, span + overhang, w / 12)])
                      for w in (10.0, plf))  # fmt: skip
        return check_member(member, loaded_beam(dead, live).demand())

    assert check(load).passes or not check(load + more).passes
