"""Generated members against a second statement of the timber formulas, and against finite elements over several spans.

The formulas are written here anew from the wood standard (NDS 2018 chapters 3, 4, 5, 8 and 15, and the values of its Supplement,
both from memory), without a line of the code that they check. Ours must not find more capacity than they do. Not taken is the
tenth more that Table 4B allows for Southern pine 4 in thick and 8 in deep or more: both are on the safe side of it.
"""

from __future__ import annotations

from math import sqrt
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from precheck_plugins.framing.members.beams import beam_over
from precheck_plugins.framing.members.capacity import Seat, Serviceability, SizedMember, check_member
from precheck_plugins.framing.members.columns import Column, check_column
from precheck_plugins.framing.members.demands import UniformSpan
from precheck_plugins.framing.members.eccentric import Bending, bent_column
from precheck_plugins.framing.members.patterns import live_patterns, reach_of
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.lumber import Depth, maker_values, published_values
from precheck_plugins.framing.timber.notched import notched_end
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import dressed_section, made_section
from Pynite import FEModel3D

SAME = 1 + 1e-9
MANY = settings(max_examples=750, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
SOME = settings(MANY, max_examples=250)
FEW = settings(max_examples=100, deadline=None, derandomize=True)
DEPTHS = {4: 3.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25}
BREADTHS = {2: 1.5, 4: 3.5}
SIZE = {4: (1.5, 1.5, 1.15), 6: (1.3, 1.3, 1.1), 8: (1.2, 1.3, 1.05), 10: (1.1, 1.2, 1.0), 12: (1.0, 1.1, 1.0)}
NO_2 = {
    "Douglas fir-larch": (900, 180, 625, 1350, 1.6e6, 580_000),
    "Hem-fir": (850, 150, 405, 1300, 1.3e6, 470_000),
    "Spruce-pine-fir": (875, 135, 425, 1150, 1.4e6, 510_000),
}
PINE = {4: (1100, 1450), 6: (1000, 1400), 8: (925, 1350), 10: (800, 1300), 12: (750, 1250)}
DURATIONS = {"dead": 0.9, "occupancy": 1.0, "snow": 1.15, "roof live": 1.25}


class Wood(NamedTuple):
    """A piece of No.2 lumber as it is used."""

    species: str
    thick: int
    deep: int
    load: str
    wet: bool
    incised: bool

    @property
    def size(self) -> str:
        """Nominal size."""
        return f"{self.thick}x{self.deep}"

    @property
    def b(self) -> float:
        """Breadth, in."""
        return BREADTHS[self.thick]

    @property
    def d(self) -> float:
        """Depth, in."""
        return DEPTHS[self.deep]

    @property
    def numbers(self) -> tuple[float, ...]:
        """Fb with CF, Fv, Fc across, Fc with CF, E, Emin."""
        if self.species == "Southern pine":
            fb, fc = PINE[self.deep]
            return fb, 175, 565, fc, 1.4e6, 510_000
        fb, fv, across, fc, e, emin = NO_2[self.species]
        on_edge, thick, along = SIZE[self.deep]
        return fb * (thick if self.thick == 4 else on_edge), fv, across, fc * along, e, emin

    def fb_star(self, sharing: bool) -> float:
        """F*b, psi."""
        fb = self.numbers[0]
        moist = 0.85 if self.wet and fb > 1150 else 1.0
        return fb * DURATIONS[self.load] * moist * (0.8 if self.incised else 1) * (1.15 if sharing else 1)

    def fc_star(self) -> float:
        """F*c, psi."""
        fc = self.numbers[3]
        return fc * DURATIONS[self.load] * (0.8 if self.wet and fc > 750 else 1) * (0.8 if self.incised else 1)

    @property
    def fv(self) -> float:
        """F'v, psi."""
        return self.numbers[1] * DURATIONS[self.load] * (0.97 if self.wet else 1) * (0.8 if self.incised else 1)

    @property
    def across(self) -> float:
        """Compression across the grain, psi."""
        return self.numbers[2] * (0.67 if self.wet else 1)

    def stiff(self, which: int) -> float:
        """E' or E'min, psi."""
        return self.numbers[which] * (0.9 if self.wet else 1) * (0.95 if self.incised else 1)

    def fb(self, sharing: bool, free: float) -> float:
        """F'b with CL for the lower of the table's effective lengths for any loading."""
        star = self.fb_star(sharing)
        if free == 0 or self.d <= self.b:
            return star
        ratio = free / self.d
        le = 2.06 * free if ratio < 7 else 1.63 * free + 3 * self.d if ratio <= 14.3 else 1.84 * free
        slender = sqrt(le * self.d / self.b**2)
        if slender > 50:
            raise OutsideMethodError("too slender")
        f = 1.2 * self.stiff(5) / slender**2 / star
        return star * ((1 + f) / 1.9 - sqrt(((1 + f) / 1.9) ** 2 - f / 0.95))

    def cp(self, length: float, side: float) -> float:
        """CP across one side."""
        f = 0.822 * self.stiff(5) / (length / side) ** 2 / self.fc_star()
        return (1 + f) / 1.6 - sqrt(((1 + f) / 1.6) ** 2 - f / 0.8)

    def use(self, sharing: bool = False, free: float = 0.0) -> Conditions:
        """The same use as our code takes it."""
        return Conditions(load=self.load, repetitive=sharing, wet=self.wet, incised=self.incised, unbraced_in=free)


WOODS = st.builds(
    Wood, st.sampled_from((*NO_2, "Southern pine")), st.sampled_from((2, 4)), st.sampled_from(tuple(DEPTHS)),
    st.sampled_from(tuple(DURATIONS)), st.booleans(), st.booleans(),
)  # fmt: skip


def values_of(wood: Wood):  # type: ignore[no-untyped-def]
    return published_values(wood.species, "No.2", dressed_section(wood.size))


@SOME
@given(WOODS, st.booleans(), st.floats(36, 240), st.floats(0, 100), st.floats(10, 600), st.sampled_from((0.0, 16.0, 24.0, 48.0)),
       st.floats(1.5, 5.5), st.booleans())  # fmt: skip
def test_a_generated_joist_or_beam_takes_no_more_than_the_formulas_give(
    wood: Wood, sharing: bool, span: float, dead: float, live: float, free: float, seat: float, inner: bool
) -> None:
    member = SizedMember(
        dressed_section(wood.size), values_of(wood), wood.use(sharing, free), Serviceability(360, 240),
        (Seat(seat, 12 if inner else 0),) * 2,
    )  # fmt: skip
    try:
        allowed = wood.fb(sharing, free)
    except OutsideMethodError:
        with pytest.raises(OutsideMethodError):
            check_member(member, UniformSpan(span, dead, live).demand())
        return
    w = (dead + live) / 12
    short = (seat + 0.375) / seat if inner and seat < 6 else 1.0
    formulas = {
        "bending": w * span**2 / 8 * 6 / (wood.b * wood.d**2) / allowed,
        "shear": 1.5 * w * max(span / 2 - wood.d, 0) / (wood.b * wood.d) / wood.fv,
        "bearing 1": w * span / 2 / (wood.b * seat) / (wood.across * short),
        "live deflection of span": 5 * live / 12 * span**4 / (32 * wood.stiff(4) * wood.b * wood.d**3) / (span / 360),
        "total deflection of span": 5 * w * span**4 / (32 * wood.stiff(4) * wood.b * wood.d**3) / (span / 240),
    }
    ours = {c.what: c.ratio for c in check_member(member, UniformSpan(span, dead, live).demand()).comparisons}
    for what, ratio in formulas.items():
        assert ratio / SAME <= ours[what], what
        assert ours[what] == pytest.approx(ratio, rel=1e-9, abs=1e-12), what


@MANY
@given(WOODS, st.floats(0.1, 1), st.floats(0.1, 1), st.floats(24, 172), st.floats(500, 20_000))
@pytest.mark.long
def test_a_generated_post_takes_no_more_than_the_formulas_give(
    wood: Wood, part_deep: float, part_wide: float, high: float, load: float
) -> None:
    deep, wide = high * part_deep, high * part_wide
    column = Column(dressed_section(wood.size), values_of(wood), deep, wide, wood.use())
    if max(deep / wood.d, wide / wood.b) > 50:
        with pytest.raises(OutsideMethodError):
            check_column(column, load)
        return
    capacity = wood.fc_star() * min(wood.cp(deep, wood.d), wood.cp(wide, wood.b)) * wood.b * wood.d
    found = check_column(column, load)
    assert found.capacity_lb <= capacity * SAME
    assert found.capacity_lb == pytest.approx(capacity, rel=1e-9)


@SOME
@given(WOODS, st.floats(24, 72), st.floats(0.05, 0.9), st.floats(0, 3), st.floats(0, 4000), st.booleans())
def test_a_generated_post_under_a_load_beside_its_middle_takes_no_more_than_the_formulas_give(
    wood: Wood, high: float, share: float, off: float, side: float, across_depth: bool
) -> None:
    axes = {True: wood.cp(high, wood.d), False: wood.cp(high, wood.b)}
    allowed = wood.fc_star() * min(axes.values())
    load = share * allowed * wood.b * wood.d
    d = wood.d if across_depth else wood.b
    fc, critical = load / (wood.b * wood.d), 0.822 * wood.stiff(5) / (high / d) ** 2
    bending = wood.fb(False, high if across_depth and wood.d > wood.b else 0.0)
    thrown = fc * 6 * off / d * (1 + 0.234 * fc / critical)
    pushed = side * 6 / (wood.b * wood.d * d)
    total = (fc / allowed) ** 2 + (pushed + thrown) / (bending * (1 - fc / critical)) if fc < critical else 99.0
    column = check_column(Column(dressed_section(wood.size), values_of(wood), high, high, wood.use()), load)
    found = bent_column(column, load, Bending(off, side), across_depth).comparison.ratio
    assert found >= total / SAME
    assert found == pytest.approx(total, rel=1e-9)


@MANY
@given(st.floats(1.75, 5.25), st.floats(7.25, 24), st.floats(96, 360), st.sampled_from((0.1, 0.05)), st.floats(0.08, 0.2),
       WOODS, st.floats(0, 0.5), st.floats(0, 6))  # fmt: skip
@pytest.mark.long
def test_made_products_and_notches_count_no_more_than_the_formulas_give(
    breadth: float, depth: float, span: float, x: float, exponent: float, wood: Wood, part: float, past: float
) -> None:
    numbers = {"Fb": 2400, "Fv": 265, "Fc_perp": 650, "E": 1.8e6}
    section, demand = made_section(breadth, depth), UniformSpan(span, 100, 300).demand()
    stress = 400 / 12 * span**2 / 8 * 6 / (breadth * depth**2)
    glued = maker_values("glulam", "24F", "stamp", numbers, Depth("volume", x, 12))
    volume = min((252 / span * 12 / depth * 5.125 / breadth) ** x, 1.0)
    of_length = Conditions(length_in=span)
    ours = check_member(SizedMember(section, glued, of_length), demand).comparisons[0].ratio
    assert ours == pytest.approx(stress / (2400 * volume), rel=1e-9)
    layered = maker_values("LVL", "2.0E", "guide", numbers, Depth("guide", exponent, 12))
    ours = check_member(SizedMember(section, layered), demand).comparisons[0].ratio
    assert ours == pytest.approx(stress / (2400 * (12 / depth) ** exponent), rel=1e-9)
    left = wood.d * (1 - part)
    below = 2 / 3 * wood.fv * wood.b * left * (left / wood.d) ** 2
    above = 2 / 3 * wood.fv * wood.b * (left if past > left else wood.d - (wood.d - left) * past / left)
    sawn = dressed_section(wood.size)
    assert notched_end(sawn, wood.d * part, wood.fv).capacity_lb == pytest.approx(below, rel=1e-9)
    assert notched_end(sawn, wood.d * part, wood.fv, past).capacity_lb == pytest.approx(above, rel=1e-9)


@st.composite
def runs(draw: st.DrawFn) -> Beam:
    spans = draw(st.lists(st.floats(60, 200), min_size=2, max_size=4))
    first, last = draw(st.sampled_from((0.0, 30.0))), draw(st.sampled_from((0.0, 40.0)))
    length = first + sum(spans) + last
    points = [
        PointLoad(draw(st.floats(0, 1)) * length, draw(st.floats(100, 3000))) for _ in range(draw(st.integers(0, 2)))
    ]
    return beam_over(spans, first, last, points, [UniformLoad(0, length, draw(st.floats(2, 60)))])


def finite_elements(beam: Beam) -> FEModel3D:
    model = FEModel3D()
    model.add_material("wood", 1e6, 4e5, 0.3, 0.0)
    model.add_section("any", 100.0, 100.0, 100.0, 200.0)
    places = sorted({0.0, beam.length_in, *beam.supports_in})
    for place in places:
        model.add_node(f"n{place}", place, 0, 0)
        if place in beam.supports_in:
            model.def_support(f"n{place}", place == beam.left_in, True, True, place == beam.left_in, False, False)
    model.add_member("beam", f"n{places[0]}", f"n{places[-1]}", "wood", "any")
    for point in beam.points:
        model.add_member_pt_load("beam", "Fy", -point.force_lb, point.at_in)
    for u in beam.uniforms:
        model.add_member_dist_load("beam", "Fy", -u.lb_per_in, -u.lb_per_in, u.start_in, u.end_in)
    model.analyze(check_statics=False)
    return model


@FEW
@given(runs(), st.integers(0, 63))
def test_a_generated_beam_over_several_spans_agrees_with_finite_elements_and_its_patterns_cover_any(
    beam: Beam, chosen: int
) -> None:
    stretches = beam.stretches_in
    bare = [stretch for n, stretch in enumerate(stretches) if chosen >> n & 1]
    some = [UniformLoad(start, end, beam.uniforms[0].lb_per_in) for start, end in bare]
    first, last = beam.left_in, beam.length_in - beam.right_in
    spans = [end - start for start, end in zip(beam.supports_in, beam.supports_in[1:], strict=False)]
    partly = beam_over(spans, first, last, (), some)
    worst = max(abs(one.greatest_moment().value) for one in live_patterns(beam))
    for own in (beam, partly):
        model = finite_elements(own)
        member = model.members["beam"]
        reactions = [float(model.nodes[f"n{place}"].RxnFY["Combo 1"]) for place in own.supports_in]
        assert own.reactions_lb == pytest.approx(reactions, rel=1e-6, abs=1e-2)
        places = [own.length_in * (i + 0.37) / 7 for i in range(7)]
        moments = [-float(member.moment("Mz", x, "Combo 1")) for x in places]
        bent = [-float(member.deflection("dy", x, "Combo 1")) * 1e8 for x in places]
        assert [own.moment_inlb(x) for x in places] == pytest.approx(moments, rel=1e-6, abs=1.0)
        assert [own.deflection_ei(x) for x in places] == pytest.approx(bent, rel=1e-5, abs=max(map(abs, bent)) * 1e-5)
        for (greatest, least), reaction in zip(reach_of(beam), reactions, strict=True):
            assert least - 0.01 <= reaction <= greatest + 0.01
        assert max(map(abs, moments)) <= worst * SAME + 1
