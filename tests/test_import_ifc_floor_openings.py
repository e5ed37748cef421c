"""Openings in the floors of IFC models: what is open to below is no floor area of the room, by its width times its depth."""

import pytest
from ifc_house import FOOT, Model, millimeters, read

from precheck.runs.desk import Desk, Run
from precheck.units import Area

JOISTS = [("Wood - Sheathing - plywood", 0.019), ("Wood - Dimensional Lumber", 0.286)]
CONCRETE = [("Concrete - Cast In Situ", 0.127)]
UP = 2.8


def house(*holes, wide=8.0, deep=5.0, below=True, layers=CONCRETE, **named):
    """Return a loft over a living room, with holes (x, y, dx, dy) in the slab between them."""
    model = Model(**named)
    upper = model.story("Upper floor", UP)
    model.space("01", "Living room", 0, 0, wide, deep)
    model.space("11", "Bedroom", 0, 0, wide, deep, z=UP, high=2.5, story=upper)
    if below:
        model.slab("1", 0, 0, wide, deep, 0.0, CONCRETE)
    slab = model.slab("2", -0.1, -0.1, wide + 0.2, deep + 0.2, UP, layers)
    for x, y, dx, dy in holes:
        hole = model.root("IfcOpeningElement", Name="hole", ObjectPlacement=model.placed(0, 0, 0),
                          Representation=model.box((x, y, UP - 1, dx, dy, 2)))  # fmt: skip
        model.root("IfcRelVoidsElement", RelatingBuildingElement=slab, RelatedOpeningElement=hole)
    return model


def square_meters(area):
    return float(area / Area.parse("1 m2"))


@pytest.mark.parametrize(("unit", "size"), [("METRE", 1.0), ("MILLI", 0.001), ("FOOT", FOOT)])
@pytest.mark.parametrize(
    ("holes", "gone"),
    [([(3, 1, 2, 1.5)], 3.0), ([(3, 1, 2, 1.5), (6, 2, 1, 1)], 4.0), ([(7, 3, 2, 3)], 2.0)],
    ids=["within the room", "two", "past its wall"],
)
def test_what_is_open_to_below_is_taken_off_and_told(holes, gone, unit, size, tmp_path):
    draft, project = read(house(*holes, unit=unit, size=size), tmp_path)
    assert square_meters(project.spaces[1].open_to_below) == pytest.approx(gone, abs=0.005)
    assert "open_to_below" not in project.spaces[0].model_fields_set
    assert any("what is open to below is taken off its area" in doubt for doubt in draft.doubts)


def test_an_area_that_is_stated_with_what_is_open_gives_way(tmp_path):
    model = house((3, 1, 2, 1.5))
    model.quantities(model.ifc.by_type("IfcSpace")[1], "BaseQuantities", NetFloorArea=40.0)
    draft, project = read(model, tmp_path)
    assert "area" not in project.spaces[1].model_fields_set
    assert any("the area stated counts what is open to below" in doubt for doubt in draft.doubts)


@pytest.mark.parametrize(("deep", "outcome"), [(1.2, "fail"), (0.6, "pass")])
def test_a_loft_is_as_large_as_its_floor(deep, outcome, tmp_path):
    path = house((1, 0.5, 1.2, deep), wide=3.0, deep=2.6).save(tmp_path)  # 7.8 m2 less 1.44 or 0.72, of 6.5 (70 sq ft)
    found = Desk(Run("irc-2021", topics=("rooms",))).review(str(path)).findings
    (one,) = [f for f in found if f.rule.name == "rooms.area" and "Bedroom" in str(f.subject)]
    assert one.outcome.word == outcome


def test_the_well_of_a_stair_is_no_floor_and_its_stair_no_drop(tmp_path):
    model = house((0.5, 0.4, 3.7, 1.2))
    model.stair(steps=15, riser=UP / 15, going=0.26)
    space = read(model, tmp_path)[1].spaces[1]
    assert square_meters(space.open_to_below) == pytest.approx(3.7 * 1.2, abs=0.005)
    assert "drop_at_edge" not in space.model_fields_set


@pytest.mark.parametrize(
    ("holes", "below"), [([(3, 1, 2, 1.5)], False), ([(3, 1, 0.08, 3)], True), ([], True)],
    ids=["no slab below", "a joint", "no hole"],
)  # fmt: skip
def test_no_opening_is_made_of_a_joint_or_where_a_slab_may_be_missing(holes, below, tmp_path):
    space = read(house(*holes, below=below), tmp_path)[1].spaces[1]
    assert "open_to_below" not in space.model_fields_set


@pytest.mark.parametrize(
    ("hole", "layers", "framed"),
    [((3, 1, 2, 1.5), JOISTS, 1), ((3, 1, 0.4, 0.4), JOISTS, 0), ((3, 1, 2, 1.5), CONCRETE, 0)],
    ids=["through joists", "for a duct", "through concrete"],
)
def test_an_opening_through_joists_is_framed_and_its_header_is_asked_for(hole, layers, framed, tmp_path):
    model = house(hole, layers=layers)
    draft, project = read(model, tmp_path)
    assert [one.through for one in project.framed_openings] == ["floor"] * framed
    assert any("its header span is not shown" in doubt for doubt in draft.doubts) is bool(framed)
    found = Desk(Run("irc-2021", topics=("framing",))).review(str(model.save(tmp_path))).findings
    outcomes = [
        f.outcome.word for f in found if f.rule.name == "framing.opening" and "framed opening" in str(f.subject)
    ]
    assert outcomes == ["not shown"] * framed


def joists(model, up_the_page):
    for i in range(3):
        start, end = ((2.6 + i, 0), (2.6 + i, 5)) if up_the_page else ((0, 1.2 + i), (8, 1.2 + i))
        model.line("IfcMember", f"J{i}", start, end, 0.038, 0.235, z=UP - 0.3).Name = "floor joist"


@pytest.mark.parametrize(("up_the_page", "span"), [(True, 2000), (False, 1500)])
def test_an_opening_through_joists_has_its_room_its_place_and_a_header_across_the_joists(up_the_page, span, tmp_path):
    model = house((3, 1, 2, 1.5), layers=JOISTS)
    joists(model, up_the_page)
    draft, project = read(model, tmp_path)
    (one,) = project.framed_openings
    assert (one.space, [millimeters(c) for c in one.rectangle.at]) == ("Bedroom", [3000, 1000])
    assert [millimeters(one.rectangle.width), millimeters(one.rectangle.depth)] == [2000, 1500]
    assert millimeters(one.header_drawn) == span
    assert "stair" not in one.model_fields_set
    assert not any("its header span is not shown" in doubt for doubt in draft.doubts)


def test_joists_that_are_modeled_under_a_floor_without_layers_carry_it(tmp_path):
    for modeled in (True, False):
        model = house((3, 1, 2, 1.5), layers=[("Plywood", 0.019)])
        if modeled:
            joists(model, up_the_page=True)
        assert len(read(model, tmp_path)[1].framed_openings) == modeled


def test_an_opening_names_the_stair_that_comes_up_through_it(tmp_path):
    model = house((0.5, 0.4, 3.7, 1.2), layers=JOISTS)
    model.stair(steps=15, riser=UP / 15, going=0.26)
    _, project = read(model, tmp_path)
    assert [(one.space, one.stair) for one in project.framed_openings] == [("Bedroom", project.stairs[0].id)]


def ending(outline, layers=JOISTS):
    """Return the house with a floor between its stories that is drawn with what it leaves open."""
    model = house(layers=layers)
    slab = next(one for one in model.ifc.by_type("IfcSlab") if one.Tag == "2")
    slab.Representation = model.prisms((outline, UP - 0.305, 0.305))
    return model


CORNER = [(0, 0), (5, 0), (5, 3), (8, 3), (8, 5), (0, 5)]
EDGE = [(0, 0), (5, 0), (5, 5), (0, 5)]


@pytest.mark.parametrize(("outline", "framed"), [(CORNER, 1), (EDGE, 0)], ids=["in a corner", "from wall to wall"])
def test_where_a_floor_of_joists_ends_in_a_corner_its_opening_is_framed_and_from_wall_to_wall_it_just_ends(
    outline, framed, tmp_path
):
    _, project = read(ending(outline), tmp_path)
    assert square_meters(project.spaces[1].open_to_below) == pytest.approx(9 if framed else 15, abs=0.005)
    found = [[millimeters(one.rectangle.width), millimeters(one.rectangle.depth)] for one in project.framed_openings]
    assert found == [[3000, 3000]] * framed


def test_a_notch_in_a_floor_of_joists_is_an_opening_where_a_stair_comes_up_in_it_be_there_a_room_or_not(tmp_path):
    for climbs in (True, False):
        model = ending([(0, 0), (8, 0), (8, 5), (0, 5), (0, 2), (4.4, 2), (4.4, 0.4), (0, 0.4)])
        upper = model.ifc.by_type("IfcSpace")[1]
        upper.Representation = model.box((4.4, 0, UP, 3.6, 5, 2.5))
        if climbs:
            model.stair(steps=15, riser=UP / 15, going=0.26)
        found = read(model, tmp_path)[1].framed_openings
        assert [millimeters(one.rectangle.width) for one in found] == [4400] * climbs
        assert not any("space" in one.model_fields_set for one in found)


def test_an_opening_that_is_no_rectangle_has_a_room_and_no_place(tmp_path):
    outline = [(0, 0), (5, 0), (5.5, 3), (8, 3), (8, 5), (0, 5)]
    draft, project = read(ending(outline), tmp_path)
    (one,) = project.framed_openings
    assert one.space == "Bedroom"
    assert "rectangle" not in one.model_fields_set
    assert any("no rectangle in plan" in doubt for doubt in draft.doubts)


def test_a_shaft_without_any_floor_of_its_own_is_not_said_to_be_open(tmp_path):
    model = house((5, 0, 3, 5))
    model.space("12", "Shaft", 5.2, 1, 2, 2, z=UP, high=2.5, story=model.ifc.by_type("IfcBuildingStorey")[1])
    assert "open_to_below" not in read(model, tmp_path)[1].spaces[2].model_fields_set
