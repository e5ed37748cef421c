"""Treads of winders and spiral stairs in IFC models, held against the sines of their turns."""

from math import cos, hypot, radians, sin

import pytest
from ifc_house import Model, millimeters, read

from precheck.runs.desk import Desk, Run

RISER, GOING, WIDE, WALKLINE = 0.19, 0.26, 0.95, 0.3048
WINDERS, SPIRAL = 3, 14


def sector(center, inner, start, end, level, wide=WIDE):
    """Return the body of a tread between two angles about a center, whose front edge lies at the first of them."""
    corners = [(inner, start), (inner + wide, start), (inner + wide, end), (inner, end)]
    points = [(center[0] + r * cos(radians(a)), center[1] + r * sin(radians(a))) for r, a in corners]
    return points, level - 0.04, 0.04


def box(x, y, dx, dy, level):
    return [(x, y), (x + dx, y), (x + dx, y + dy), (x, y + dy)], level - 0.04, 0.04


def with_winders(newel, under=0.0):
    """Return six straight treads, three winders of 30 degrees around a newel, and five straight treads to the left."""
    center = (0.5 + 6 * GOING, 0.5 + WIDE + newel)
    ahead = [box(0.5 + i * GOING, 0.5, GOING, WIDE, (i + 1) * RISER) for i in range(6)]
    turn = [sector(center, newel, -90 + 30 * i, -60 + 30 * i + under, (7 + i) * RISER) for i in range(WINDERS)]
    left = [box(center[0] + newel, center[1] + i * GOING, WIDE, GOING, (10 + i) * RISER) for i in range(5)]
    return ahead + turn + left


def spiral(post, step):
    return [sector((2.5, 2.5), post, step * i, step * (i + 1), (i + 1) * RISER) for i in range(SPIRAL)]


def house(treads, shape_type=None):
    model = Model()
    top = (len(treads) + 1) * RISER
    upper = model.story("Upper floor", top)
    model.space("01", "Hall", 0, 0, 5.0, 5.0)
    model.space("11", "Landing", 0, 0, 5.0, 5.0, z=top, story=upper)
    stair = model.stair(steps=len(treads) + 1)
    stair.PredefinedType = shape_type
    model.ifc.by_type("IfcStairFlight")[0].Representation = model.prisms(*treads)
    return model


def outcomes(model, folder):
    found = Desk(Run("irc-2021", topics=("stairs", "special-stairs"))).review(str(model.save(folder)))
    return {f.rule.name: f.outcome.word for f in found.findings}


@pytest.mark.parametrize("under", [0.0, 5.0], ids=["side by side", "reaching under the next one"])
@pytest.mark.parametrize(("newel", "outcome"), [(0.16, "fail"), (0.24, "fail"), (0.30, "pass")])
def test_winders_are_as_deep_at_the_walkline_and_the_newel_as_their_turn_says(newel, outcome, under, tmp_path):
    model = house(with_winders(newel, under), "QUARTER_WINDING_STAIR")
    draft, project = read(model, tmp_path)
    turn = project.stairs[0].flights[0].winders
    assert turn.count == WINDERS
    depth = (newel + WALKLINE) * sin(radians(30)) * 1000
    assert [millimeters(one) for one in turn.depths_at_walkline] == pytest.approx([depth] * WINDERS, abs=0.6)
    assert millimeters(turn.narrow_end) == pytest.approx(2 * newel * sin(radians(15)) * 1000, abs=0.6)
    assert any("measured 12 in from their narrow side" in doubt for doubt in draft.doubts)
    assert outcomes(model, tmp_path)["stairs.winders"] == outcome


@pytest.mark.parametrize(("post", "step", "outcome"), [(0.05, 25.0, "fail"), (0.08, 30.0, "pass")])
def test_a_spiral_stair_has_its_treads_measured_12_in_from_its_post(post, step, outcome, tmp_path):
    model = house(spiral(post, step), "SPIRAL_STAIR")
    _, project = read(model, tmp_path)
    flight = project.stairs[0].flights[0]
    depth = (post + WALKLINE) * sin(radians(step)) * 1000
    assert [millimeters(one) for one in flight.tread_depths] == pytest.approx([depth] * SPIRAL, abs=0.6)
    assert millimeters(flight.walkline_radius) == pytest.approx((post + WALKLINE) * 1000, abs=0.6)
    assert outcomes(model, tmp_path)["special-stairs.spiral-treads"] == outcome


@pytest.mark.parametrize(
    ("post", "step", "form"),
    [(0.08, 30.0, "spiral"), (0.6, 30.0, None), (0.08, 12.0, None)],
    ids=["about a post", "about a well", "by less than a half turn"],
)
def test_a_stair_of_no_said_form_is_a_spiral_where_its_treads_wind_about_one_post(post, step, form, tmp_path):
    model = house(spiral(post, step))
    draft, project = read(model, tmp_path)
    (stair,) = project.stairs
    assert stair.model_fields_set & {"form"} == ({"form"} if form else set())
    assert ("winders" in stair.flights[0].model_fields_set) is not bool(form)
    said = outcomes(model, tmp_path)
    assert ("special-stairs.spiral-treads" in said, "stairs.winders" in said) == (bool(form), not form)
    assert any("taken for one by its treads about a post" in doubt for doubt in draft.doubts) is bool(form)
    if form:
        assert said["special-stairs.spiral-treads"] == "pass"
        assert millimeters(stair.flights[0].width) == pytest.approx(WIDE * 1000, abs=0.6)


def test_treads_of_two_lengths_about_a_post_are_winders_and_no_spiral(tmp_path):
    treads = spiral(0.08, 30.0)
    treads[4:8] = [sector((2.5, 2.5), 0.08, 30 * i, 30 * (i + 1), (i + 1) * RISER, WIDE + 0.2) for i in range(4, 8)]
    assert "winders" in read(house(treads), tmp_path)[1].stairs[0].flights[0].model_fields_set


def fanned(count):
    """Return treads along a straight inner side, 150 mm deep there and 300 mm at the outer one."""
    ends = [((1 + 0.15 * i, 2.5), (1 + 0.30 * i, 2.5 - WIDE)) for i in range(count + 1)]
    return [([inner, outer, ends[i + 1][1], ends[i + 1][0]], (i + 1) * RISER - 0.04, 0.04)
            for i, (inner, outer) in enumerate(ends[:-1])]  # fmt: skip


def test_the_walkline_lies_12_in_from_a_straight_inner_side_however_slanted_the_treads(tmp_path):
    turn = read(house(fanned(8)), tmp_path)[1].stairs[0].flights[0].winders
    apart = 0.15 + 0.15 * WALKLINE / WIDE  # along the walkline
    square = [apart * WIDE / hypot(0.15 * (i + 1), WIDE) * 1000 for i in range(8)]  # square to the more slanted edge
    found = [millimeters(one) for one in turn.depths_at_walkline]
    assert found[:-1] == pytest.approx(square[:-1], abs=0.6)
    assert square[-1] - 5 < found[-1] <= square[-1]  # where the inner side ends, its end is what the 12 in count from
    assert millimeters(turn.narrow_end) == pytest.approx(150, abs=0.6)


def test_a_last_winder_whose_end_lies_under_the_floor_above_is_asked_for(tmp_path):
    model = house(with_winders(0.30, 5.0)[:9], "QUARTER_WINDING_STAIR")
    turn = read(model, tmp_path)[1].stairs[0].flights[0].winders
    assert (turn.count, len(turn.depths_at_walkline)) == (WINDERS, WINDERS - 1)
    assert outcomes(model, tmp_path)["stairs.winders"] == "not shown"


def test_winders_whose_edges_do_not_tell_them_are_asked_for_and_said_not_to_be_taken(tmp_path):
    treads = with_winders(0.30)
    treads[7] = ([(x + 0.001 * i, y) for i, (x, y) in enumerate(bowed(treads[7][0]))], *treads[7][1:])
    model = house(treads)
    draft, _ = read(model, tmp_path)
    assert any("their edges do not tell their depth" in doubt for doubt in draft.doubts)
    assert outcomes(model, tmp_path)["stairs.winders"] == "not shown"


def bowed(points):
    """Return the outline of a tread with front and back edges that bend at every fifth of their length."""
    (a, b, c, d) = points
    return [between(a, b, i) for i in range(5)] + [between(b, c, 0)] + [between(c, d, i) for i in range(5)] + [d]


def between(one, other, fifths):
    share, off = fifths / 5, 0.02 * (fifths % 2)
    return one[0] + (other[0] - one[0]) * share + off, one[1] + (other[1] - one[1]) * share + off


def test_a_landing_that_turns_a_stair_is_no_winder(tmp_path):
    treads = with_winders(0.0)
    landing = [*treads[:6], box(0.5 + 6 * GOING, 0.5, WIDE, WIDE, 7 * RISER)]
    left = [(points, z - 2 * RISER, high) for points, z, high in treads[9:]]
    flight = read(house(landing + left), tmp_path)[1].stairs[0].flights[0]
    assert "winders" not in flight.model_fields_set
