"""Beams against a general finite-element library, and section properties against direct integration.

The library is PyNiteFEA (import name Pynite), for tests only; it must be installed, so that these tests never
skip unseen. Section properties are integrated with numpy, which it brings along: a section library would
bring a mesher and much else to integrate rectangles.
"""

from __future__ import annotations

from random import Random

import numpy as np
import pytest
from precheck_plugins.framing.members.beams import overhanging_beam, simple_beam
from precheck_plugins.framing.members.demands import UniformSpan
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section, made_section
from Pynite import FEModel3D

EI = 1e8
CASES = 600
PLACES = 9


def generated_beam(seed: int) -> Beam:
    draw = Random(seed)
    span = draw.uniform(36, 300)
    left, right = (draw.choice([0.0, draw.uniform(6, span / 3)]) for _ in range(2))
    length = left + span + right
    points = [PointLoad(draw.uniform(0, length), draw.uniform(-300, 3000)) for _ in range(draw.randrange(4))]
    spread = [sorted(draw.uniform(0, length) for _ in range(2)) for _ in range(draw.randrange(3))]
    whole = UniformLoad(0, length, draw.uniform(0.5, 40))
    return overhanging_beam(
        span, left, right, points, [whole, *(UniformLoad(a, b, draw.uniform(1, 60)) for a, b in spread)]
    )


def finite_elements(beam: Beam) -> FEModel3D:
    model = FEModel3D()
    model.add_material("wood", 1e6, 4e5, 0.3, 0.0)
    model.add_section("any", 100.0, EI / 1e6, EI / 1e6, 200.0)
    for name, at_in in (("left", beam.left_in), ("right", beam.right_in)):
        model.add_node(name, at_in, 0, 0)
    start, end = ("left" if beam.left_in == 0 else "start", "right" if beam.right_in == beam.length_in else "end")
    for name, at_in in (("start", 0.0), ("end", beam.length_in)):
        if name in (start, end):
            model.add_node(name, at_in, 0, 0)
    model.add_member("beam", start, end, "wood", "any")
    model.def_support("left", True, True, True, True, False, False)
    model.def_support("right", False, True, True, False, False, False)
    for point in beam.points:
        model.add_member_pt_load("beam", "Fy", -point.force_lb, point.at_in)
    for u in beam.uniforms:
        model.add_member_dist_load("beam", "Fy", -u.lb_per_in, -u.lb_per_in, u.start_in, u.end_in)
    model.analyze(check_statics=False)
    return model


@pytest.mark.parametrize("batch", range(10))
def test_generated_beams_agree_with_finite_elements(batch: int) -> None:
    for seed in range(batch * CASES // 10, (batch + 1) * CASES // 10):
        beam = generated_beam(seed)
        model = finite_elements(beam)
        member = model.members["beam"]
        for name, reaction in zip(("left", "right"), beam.reactions_lb, strict=True):
            assert reaction == pytest.approx(float(model.nodes[name].RxnFY["Combo 1"]), rel=1e-6, abs=1e-3), seed
        places = [beam.length_in * (i + 0.37) / PLACES for i in range(PLACES)]
        moments = [-float(member.moment("Mz", x, "Combo 1")) for x in places]
        shears = [float(member.shear("Fy", x, "Combo 1")) for x in places]
        bent = [-float(member.deflection("dy", x, "Combo 1")) * EI for x in places]
        assert [beam.moment_inlb(x) for x in places] == pytest.approx(moments, rel=1e-6, abs=1e-2), seed
        assert [beam.shear_lb(x) for x in places] == pytest.approx(shears, rel=1e-6, abs=1e-3), seed
        assert [beam.deflection_ei(x) for x in places] == pytest.approx(bent, rel=1e-5, abs=max(map(abs, bent)) * 1e-6)


@pytest.mark.parametrize("seed", range(40))
def test_no_place_on_a_generated_beam_exceeds_the_greatest_values(seed: int) -> None:
    beam = generated_beam(seed)
    places = np.linspace(0, beam.length_in, 2001)
    moment = max(abs(beam.moment_inlb(x)) for x in places)
    shear = max(abs(beam.shear_lb(x)) for x in places)
    bent = max(abs(beam.deflection_ei(x)) for x in places if beam.left_in <= x <= beam.right_in)
    assert moment <= abs(beam.greatest_moment().value) * (1 + 1e-9) <= moment * 1.01
    assert shear <= beam.greatest_shear().value * (1 + 1e-9)
    assert bent <= abs(beam.greatest_deflection_ei(beam.left_in, beam.right_in).value) * (1 + 1e-9) <= bent * 1.001


def test_a_uniform_span_is_the_same_as_a_beam_with_that_load() -> None:
    span = UniformSpan(150, 20, 60)
    beam = simple_beam(150, uniforms=[UniformLoad(0, 150, 80 / 12)])
    assert span.moment_inlb == pytest.approx(beam.greatest_moment().value)
    assert span.shear_lb(9.25) == pytest.approx(beam.shear_away_from_supports(9.25).value)
    assert span.deflection_ei(80) == pytest.approx(beam.greatest_deflection_ei(0, 150).value)


def test_a_point_load_near_a_support_counts_for_shear_by_its_distance() -> None:
    # NDS 3.4.3.1(a)(2), from memory.
    beam = simple_beam(120, [PointLoad(3, 1000)])
    assert beam.shear_away_from_supports(9.25).value == pytest.approx(1000 * 3 / 9.25 + 1000 * 3 / 120)
    assert beam.greatest_shear().value == pytest.approx(1000 * 117 / 120)


def test_a_load_on_an_overhang_lifts_the_far_support() -> None:
    beam = overhanging_beam(96, 0, 48, [PointLoad(144, 100)])
    assert beam.reactions_lb == (pytest.approx(-50), pytest.approx(150))
    assert beam.greatest_moment().value == pytest.approx(-4800)


@pytest.mark.parametrize("section", [*map(dressed_section, ("2x4", "2x12", "4x10", "6x6", "6x12", "3-2x10")),
                                     made_section(1.75, 11.875, 2)])  # fmt: skip
def test_section_properties_agree_with_direct_integration(section: CrossSection) -> None:
    # Strips across the depth, midpoint rule: no formula of ours in it.
    strips = 20_000
    height = section.depth_in / strips
    y = (np.arange(strips) + 0.5) * height - section.depth_in / 2
    inertia = float(np.sum(y**2) * height * section.breadth_in)
    assert section.area_in2 == pytest.approx(strips * height * section.breadth_in)
    assert section.inertia_in4 == pytest.approx(inertia, rel=1e-6)
    assert section.modulus_in3 == pytest.approx(inertia / (section.depth_in / 2), rel=1e-6)
