"""A house in IFC that is moved, turned, raised or given in other units says the same; one that is changed does not."""

import pytest
from ifc_house import Model, millimeters, read

from precheck.importers import project_text
from precheck.reports.words import lines_of
from precheck.runs.desk import Desk, Run
from precheck.units import Length

NEAR = Length.parse("1/100 in")


def house(unit="METRE", size=1.0):
    """Two stories with rooms, outside walls, a door, windows and a stair."""
    model = Model(unit=unit, size=size)
    upper = model.story("Upper floor", 2.8)
    hall = model.space("01", "Hall", 0, 0, 4.0, 5.0)
    model.space("02", "Bedroom", 4.12, 0, 3.0, 5.0)
    model.space("11", "Landing", 0, 0, 4.0, 5.0, z=2.8, story=upper)
    model.wall("W1", (-0.1, -0.1), (7.2, -0.1), thick=0.2, external=True, layers=[("wood stud", 0.2)])
    model.wall("W2", (4.06, 0), (4.06, 5.0), thick=0.12)
    model.opening("IfcDoor", "D1", 4.06, 2.0, 0, 0.9, 2.1, turned=True)
    model.opening("IfcWindow", "F1", 5.5, -0.1, 0.9, 1.2, 1.2)
    model.stair(steps=14, riser=0.2, going=0.25)
    assert hall
    return model


def told(model, folder):
    """Return what is read of a model, without what only says where it stood there."""
    draft, project = read(model, folder)
    draft.head = {}
    lines = [line.split("  # from ")[0] for line in project_text(draft).splitlines()]
    return draft, project, [line for line in lines if not line.lstrip().startswith("#")]


@pytest.mark.parametrize(
    "site",
    [
        {"z": 112.0}, {"x": 3400000.0, "y": 5400000.0}, {"degrees": 34.0},
        {"x": -40.0, "y": 12.0, "z": -3.0, "degrees": 210.0},
    ],
    ids=["raised", "moved", "turned", "all of it"],
)  # fmt: skip
def test_a_house_on_a_site_elsewhere_is_the_same_house(site, tmp_path):
    plain = told(house(), tmp_path)
    model = house()
    model.stand(**site)
    moved = told(model, tmp_path)
    assert moved[2] == plain[2]
    assert [str(doubt) for doubt in moved[0].doubts] == plain[0].doubts


def test_a_house_drawn_at_a_slant_in_its_building_is_turned_upright(tmp_path):
    model = house()
    model.stand(degrees=34.0)
    model.building.ObjectPlacement.PlacementRelTo = None
    for placed in model.ifc.by_type("IfcLocalPlacement"):
        if placed.PlacementRelTo == model.building.ObjectPlacement:
            placed.PlacementRelTo = model.ifc.by_type("IfcSite")[0].ObjectPlacement
    _, project, _ = told(model, tmp_path)
    xs, ys = ({round(float(corner[i].n), 2) for corner in project.spaces[0].outline} for i in (0, 1))
    assert (len(xs), len(ys)) == (2, 2)


@pytest.mark.parametrize(("unit", "size"), [("MILLI", 0.001), ("FOOT", 0.3048)])
def test_a_house_in_other_units_is_the_same_house_to_a_hundredth_of_an_inch(unit, size, tmp_path):
    _, meters, _ = told(house(), tmp_path)
    _, other, _ = told(house(unit, size), tmp_path)
    for one, another in zip(meters.spaces, other.spaces, strict=True):
        for here, there in zip(one.outline, another.outline, strict=True):
            assert abs(here[0] - there[0]) < NEAR
            assert abs(here[1] - there[1]) < NEAR
    assert len(meters.parts) == len(other.parts)


def risers(model, folder):
    """Return the outcome of the check of risers, its sentence, and what is in doubt."""
    path = model.save(folder)
    found = Desk(Run("irc-2021", topics=("stairs",))).review(str(path))
    (one,) = [finding for finding in found.findings if finding.rule.name == "stairs.riser-height"]
    return one.outcome.word, " ".join(lines_of(one)), " ".join(found.not_checked)


def test_a_stair_whose_risers_are_alike_from_floor_to_floor_passes(tmp_path):
    outcome, _, doubts = risers(house_with_stair(0.0), tmp_path)
    assert outcome == "pass"
    assert "not alike" not in doubts


@pytest.mark.parametrize(("lifted", "first"), [(0.04, "230 mm"), (-0.03, "160 mm")])
def test_a_stair_that_is_lifted_off_its_floor_fails_by_its_first_or_last_riser(lifted, first, tmp_path):
    outcome, said, doubts = risers(house_with_stair(lifted), tmp_path)
    assert outcome == "fail"
    assert "230 mm" in said or "220 mm" in said
    assert f"first {first}" in doubts


def house_with_stair(lifted):
    """Return the house with a stair of fifteen risers of 190 mm, lifted off the floor by so much."""
    model = Model()
    upper = model.story("Upper floor", 2.85)
    model.space("01", "Hall", 0, 0, 5.0, 5.0)
    model.space("11", "Landing", 0, 0, 5.0, 5.0, z=2.85, story=upper)
    model.stair(steps=15, riser=0.19, going=0.26)
    flight = model.ifc.by_type("IfcStairFlight")[0]
    flight.ObjectPlacement = model.placed(0, 0, lifted)
    return model


def glazed(curtain, windows=True):
    """Return a living room of 12 m2 with a window of 1.5 m2, and perhaps two panels of glass and one of wood."""
    model = Model()
    model.space("01", "Living room", 0, 0, 4, 3)
    if windows:
        window = model.opening("IfcWindow", "F1", 2, -0.06, 0.9, 1.5, 1.0)
        model.properties(window, "Pset_WindowCommon", IsExternal=True)
    if curtain:
        wall = model.root("IfcCurtainWall", Name="Front glass", Tag="Front")
        model.properties(wall, "Pset_CurtainWallCommon", IsExternal=True)
        panels = []
        for number, name in enumerate(("Glass", "Glass", "Oak")):
            panel = model.root("IfcPlate", Name="panel", ObjectPlacement=model.placed(0, 0, 0),
                               Representation=model.box((number * 1.2, 3.02, 0, 1.1, 0.02, 2.0)))  # fmt: skip
            model.of(panel, model.make("IfcMaterial", Name=name))
            panels.append(panel)
        model.within(wall, panels)
    return model


def light(model, folder):
    """Return the outcome of the check of glass for daylight, with its sentence."""
    found = Desk(Run("irc-2021", topics=("light-and-air",))).review(str(model.save(folder)))
    (one,) = [f for f in found.findings if f.rule.name == "light-and-air.glazing"]
    return one.outcome.word, " ".join(lines_of(one))


def test_panels_of_glass_in_a_curtain_wall_give_daylight_and_those_of_wood_do_not(tmp_path):
    draft, project, _ = told(glazed(curtain=True, windows=False), tmp_path)
    assert [str(window.glazed_area) for window in project.windows] == ["2.2 m2"] * 2
    assert {str(window.operation) for window in project.windows} == {"fixed"}
    assert any("is not said to be glass" in doubt for doubt in draft.doubts)
    assert light(glazed(curtain=True, windows=False), tmp_path)[0] == "pass"


def test_a_room_whose_glass_is_removed_fails_and_one_that_keeps_its_curtain_wall_does_not(tmp_path):
    assert light(glazed(curtain=True), tmp_path)[0] in ("pass", "not shown")  # the glass of the window is not told
    assert light(glazed(curtain=False, windows=False), tmp_path)[0] == "fail"


def test_a_stair_whose_last_tread_is_not_modeled_shows_no_risers(tmp_path):
    model = house_with_stair(0.0)
    flight = model.ifc.by_type("IfcStairFlight")[0]
    body = flight.Representation.Representations[0]
    body.Items, flight.NumberOfRisers = body.Items[:-1], None
    outcome, _, doubts = risers(model, tmp_path)
    assert outcome == "not shown"
    assert "room for another tread" in doubts


def test_a_landing_in_a_stair_and_the_beams_under_its_treads_are_told_apart_from_treads(tmp_path):
    model = house_with_stair(0.0)
    flight = model.ifc.by_type("IfcStairFlight")[0]
    boxes = [(0.5 + i * 0.26, 0.5, (i + 1) * 0.19 - 0.04, 0.26, 0.95, 0.04) for i in range(14)]
    under = [(x, y, z - 0.1, 0.2, wide, 0.05) for x, y, z, _, wide, _ in boxes]
    boxes[6] = (boxes[6][0], 0.5, boxes[6][2], 0.26, 4.0, 0.04)  # as wide as a landing
    flight.Representation = model.box(*boxes, *under)
    assert risers(model, tmp_path)[0] == "pass"


@pytest.mark.parametrize(("edge", "headroom", "outcome"), [(1.5, 1679.231, "fail"), (0.9, 2117.692, "pass")])
def test_headroom_is_measured_at_the_edge_of_the_floor_that_the_stair_climbs_through(edge, headroom, outcome, tmp_path):
    model = house_with_stair(0.0)
    model.slab("1", -1, -1, edge + 1, 6, 2.85, [("Concrete", 0.25)])
    path = model.save(tmp_path)
    found = Desk(Run("irc-2021", topics=("stairs",))).review(str(path))
    assert millimeters(found.project.stairs[0].flights[0].headroom) == pytest.approx(headroom, abs=0.5)
    assert {f.rule.name: f.outcome.word for f in found.findings}["stairs.headroom"] == outcome


def test_headroom_under_nothing_that_is_modeled_is_not_shown(tmp_path):
    _, project, _ = told(house_with_stair(0.0), tmp_path)
    assert "headroom" not in project.stairs[0].flights[0].model_fields_set


@pytest.mark.parametrize(("said", "form"), [("STRAIGHT_RUN_STAIR", "straight"), ("SPIRAL_STAIR", None)])
def test_the_form_of_a_stair_is_taken_where_its_treads_bear_it_out(said, form, tmp_path):
    model = house_with_stair(0.0)
    model.ifc.by_type("IfcStair")[0].PredefinedType = said
    draft, project, _ = told(model, tmp_path)
    assert project.stairs[0].model_fields_set & {"form"} == ({"form"} if form else set())
    assert any("not borne out by its treads" in doubt for doubt in draft.doubts) is not bool(form)
