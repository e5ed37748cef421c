"""Each way into an IFC file, on small models written here, in both schemas; and what exporters get wrong."""

import os
from pathlib import Path

import pytest
from ifc_house import FOOT, Model, millimeters, read

from precheck import importers
from precheck.files.source import Unusable
from precheck.importers import Mapping, project_of, project_text, read_here, read_mapping
from precheck.importers.mapping import PROPERTIES
from precheck.project import read_project
from precheck.runs.desk import Desk, Run
from precheck.units import Length

pytest.importorskip("ifcopenshell")
SCHEMAS = ("IFC2X3", "IFC4")
DUPLEX = Path(
    os.environ.get("PRECHECK_DUPLEX")
    or Path(__file__).parents[2] / "shared" / "reference" / "ifc" / "duplex-architecture.ifc"
)


def two_stories(schema="IFC4", unit="METRE", size=1.0):
    model = Model(schema, unit, size)
    model.upper = model.story("Upper floor", 2.66)
    model.space("01", "Hall", 0, 0, 5, 2)
    model.space("11", "Landing hall", 0, 0, 5, 2, z=2.66, story=model.upper)
    return model


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize(("unit", "size"), [("METRE", 1.0), ("MILLI", 0.001), ("FOOT", FOOT)])
def test_a_room_has_its_outline_height_use_story_and_floor_in_every_unit(schema, unit, size, tmp_path):
    model = Model(schema, unit, size)
    model.space("01", "Bedroom 1", 1, 2, 12 * FOOT, 10 * FOOT, z=0.02, high=8 * FOOT)
    _, project = read(model, tmp_path)
    room = project.spaces[0]
    assert (room.id, room.name, room.use, room.story) == ("Bedroom-1", "Bedroom 1 / 01", "bedroom", "Ground-floor")
    assert room.ceiling.height == Length.parse("8 ft")
    assert sorted(millimeters(x) for x, _ in room.outline) == pytest.approx([1000, 1000, 4657.6, 4657.6], abs=0.01)
    assert millimeters(project.by_id[room.floor].finished_level) == pytest.approx(20, abs=0.01)
    assert project.stories[0].level == "ground"
    assert project.project == "Wren Lane 4"
    assert room.drawn_from.startswith("IfcSpace 0000")


def test_a_metric_file_gives_metric_lengths_and_a_file_in_feet_inches(tmp_path):
    for unit, size, told in (("MILLI", 0.001, "height: 2438.4 mm  #"), ("FOOT", FOOT, "height: 96 in  #")):
        model = Model("IFC4", unit, size)
        model.space("01", "Bedroom", 0, 0, 4, 3, high=8 * FOOT)
        assert told in project_text(read(model, tmp_path)[0])


def test_the_area_stated_is_taken_where_the_outline_bears_it_out_and_told_where_it_does_not(tmp_path):
    model = Model()
    model.quantities(model.space("01", "Kitchen", 0, 0, 4, 3), "BaseQuantities", NetFloorArea=12.0)
    model.quantities(model.space("02", "Kitchen", 6, 0, 4, 3), "BaseQuantities", NetFloorArea=13.5)
    draft, project = read(model, tmp_path)
    assert str(project.spaces[0].area).startswith("12 m2")
    assert "area" not in project.spaces[1].model_fields_set
    assert any("02 (13.5 m2, drawn 12 m2)" in doubt for doubt in draft.doubts)


def test_a_name_that_says_no_use_or_two_gives_none_and_says_so_and_a_mapping_file_settles_it(tmp_path):
    model = Model()
    model.space("01", "Zimmer 1", 0, 0, 4, 3)
    model.space("02", "Living/Dining", 5, 0, 4, 3)
    draft, project = read(model, tmp_path)
    assert [space.model_fields_set & {"use"} for space in project.spaces] == [set(), set()]
    assert any('"Zimmer 1"' in doubt for doubt in draft.doubts)
    assert any("dining room and living room at once" in doubt for doubt in draft.doubts)
    (tmp_path / "names.yaml").write_text("uses: {Zimmer 1: bedroom, Living/Dining: living room}\n")
    _, project = read(model, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert [space.use for space in project.spaces] == ["bedroom", "living room"]


def test_a_mapping_file_with_a_use_that_does_not_exist_is_refused_at_its_line(tmp_path):
    (tmp_path / "names.yaml").write_text("uses:\n  Zimmer: bedrom\n")
    with pytest.raises(Unusable, match=r"names.yaml:2:.*not known"):
        read_mapping(tmp_path / "names.yaml")


@pytest.mark.parametrize("schema", SCHEMAS)
def test_a_door_joins_what_lies_on_both_sides_whichever_way_its_wall_runs(schema, tmp_path):
    model = Model(schema)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 4.12, 0, 2, 3)
    model.opening("IfcDoor", "1", 4.06, 1.5, 0, 0.8, 2.03, turned=True)
    outer = model.opening("IfcDoor", "2", 2, -0.06, 0, 0.9, 2.03)
    model.properties(outer, "Pset_DoorCommon", IsExternal=True, FireRating="20 min")
    kinds = ("IfcDoorStyle", {"ConstructionType": "WOOD", "ParameterTakesPrecedence": False, "Sizeable": False}) if (
        schema == "IFC2X3") else ("IfcDoorType", {"PredefinedType": "DOOR"})  # fmt: skip
    model.typed(outer, kinds[0], Name="Front", OperationType="SINGLE_SWING_LEFT", **kinds[1])
    _, project = read(model, tmp_path)
    inner, front = project.doors
    assert set(inner.between) == {"Bedroom", "Hall"}
    assert front.between == ("Bedroom", "outside")
    assert front.operation == "side-hinged"
    assert str(front.fire_rating) == "20 min"
    assert millimeters(inner.unit_size.width) == 800
    assert [millimeters(c) for c in inner.middle] == pytest.approx([4060, 1500])


def test_a_door_whose_other_side_nobody_says_is_left_out_by_name(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, -6, 4, 3)  # somewhere beyond it
    model.opening("IfcDoor", "7", 2, -0.06, 0, 0.9, 2.03)
    draft, project = read(model, tmp_path)
    assert project.doors == ()
    assert any(d.startswith("left out: door D7") and "not said to be external" in d for d in draft.doubts)


OUT = {
    "a property": lambda model, wall, door, room: model.properties(door, "Pset_DoorCommon", IsExternal=True),
    "a space boundary": lambda model, wall, door, room: setattr(
        model.bounds(room, door), "InternalOrExternalBoundary", "EXTERNAL"
    ),
    "its wall": lambda model, wall, door, room: model.properties(wall, "Pset_WallCommon", IsExternal=True),
}  # fmt: skip
TOLD = {"a property": "IsExternal TRUE", "a space boundary": "an external space boundary",
        "its wall": "in a wall with IsExternal TRUE"}  # fmt: skip


@pytest.mark.parametrize("kind", ["IfcDoor", "IfcWindow"])
@pytest.mark.parametrize("said", OUT)
def test_an_opening_leads_outside_by_a_property_a_boundary_or_its_wall(said, kind, tmp_path):
    model = Model()
    room = model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, -6, 4, 3)  # somewhere beyond it
    wall = model.wall("W1", (-0.1, -0.06), (4.1, -0.06))
    opening = model.opening(kind, "7", 2, -0.06, 0, 0.9, 2.03)
    model.fills(opening, wall)
    OUT[said](model, wall, opening, room)
    draft, project = read(model, tmp_path)
    (found,) = draft.parts["doors" if kind == "IfcDoor" else "windows"]
    assert found["between" if kind == "IfcDoor" else "space"].source.endswith(f"; {TOLD[said]}")
    assert project.doors or project.windows


def test_a_door_beyond_which_no_space_lies_leads_outside_and_that_is_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.opening("IfcDoor", "7", 2, -0.06, 0, 0.9, 2.03)
    draft, project = read(model, tmp_path)
    assert project.doors[0].between == ("Bedroom", "outside")
    assert any(d.startswith("D7: is not said to be external; no space lies beyond") for d in draft.doubts)


def test_a_window_that_is_said_not_to_be_external_gives_no_daylight(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    window = model.opening("IfcWindow", "7", 2, -0.06, 0.9, 0.9, 1.2)
    model.properties(window, "Pset_WindowCommon", IsExternal=False)
    model.space("02", "Sunroom", 5, 0, 4, 3)
    model.space("03", "Bedroom", 9.12, 0, 4, 3)
    model.opening("IfcWindow", "8", 9.06, 1.5, 0.9, 0.9, 1.2, turned=True)
    draft, project = read(model, tmp_path)
    assert project.windows == ()
    assert any("window W7" in d and "said not to be external" in d for d in draft.doubts)
    assert any("window W8" in d and "it stands between Sunroom and Bedroom-03" in d for d in draft.doubts)


def test_space_boundaries_settle_a_door_without_a_body(tmp_path):
    model = Model()
    one, two = model.space("01", "Bedroom", 0, 0, 4, 3), model.space("02", "Hall", 4.12, 0, 2, 3)
    door = model.opening("IfcDoor", "1", 40, 40, 0, 0.8, 2.03)
    door.Representation = None
    model.bounds(one, door)
    model.bounds(two, door)
    _, project = read(model, tmp_path)
    assert set(project.doors[0].between) == {"Bedroom", "Hall"}
    assert "middle" not in project.doors[0].model_fields_set


def test_a_size_in_another_unit_than_the_body_is_not_shown_and_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.opening("IfcWindow", "1", 2, -0.06, 0.9, 0.9, 1.2, stated=(0.9 / FOOT, 1.2 / FOOT))
    draft, project = read(model, tmp_path)
    assert "unit_size" not in project.windows[0].model_fields_set
    assert any("contradict the body" in d and "as feet it would fit" in d for d in draft.doubts)


def test_a_window_has_its_sill_above_the_floor_and_a_stated_one_that_differs_is_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3, z=0.02)
    model.properties(model.opening("IfcWindow", "1", 1, -0.06, 0.9, 0.9, 1.2), "House set", **{"Sill Height": 0.9})
    model.properties(model.opening("IfcWindow", "2", 3, -0.06, 0.9, 0.9, 1.2), "House set", **{"Sill Height": 1.4})
    draft, project = read(model, tmp_path)
    assert millimeters(project.windows[0].sill_height) == pytest.approx(880)
    assert "sill_height" not in project.windows[1].model_fields_set
    assert any("W2" in d and "says 1400 mm" in d for d in draft.doubts)


def test_a_window_that_lies_in_a_roof_is_a_skylight_of_the_space_below(tmp_path):
    model = Model()
    model.space("01", "Hall", 0, 0, 4, 3)
    flat = model.opening("IfcWindow", "1", 2, 1.5, 3.0, 1.0, 1.0)
    flat.Representation = model.box((-0.5, -0.5, 0, 1.0, 1.0, 0.15))
    _, project = read(model, tmp_path)
    assert project.windows == ()
    assert project.skylights[0].space == "Hall"


def test_a_placeholder_is_no_value(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    door = model.opening("IfcDoor", "1", 2, -0.06, 0, 0.9, 2.03)
    model.properties(door, "Pset_DoorCommon", IsExternal=True, FireRating="Fire Rating")
    draft, project = read(model, tmp_path)
    assert "fire_rating" not in project.doors[0].model_fields_set
    assert "D1: FireRating holds its own name in place of a value; not taken" in draft.doubts


def test_a_phase_is_taken_from_the_standard_property_and_an_unknown_one_is_told(tmp_path):
    model = Model()
    model.properties(model.space("01", "Bedroom", 0, 0, 4, 3), "Pset_SpaceCommon", Status="EXISTING")
    model.properties(model.space("02", "Hall", 5, 0, 4, 3), "Pset_SpaceCommon", Status="PHASE 7")
    draft, project = read(model, tmp_path)
    assert project.spaces[0].phase == "existing"
    assert "phase" not in project.spaces[1].model_fields_set
    assert any("`PHASE 7` is not known" in d for d in draft.doubts)


def test_rooms_pass_into_each_other_only_along_a_boundary_that_both_say_is_virtual(tmp_path):
    model = Model()
    living, dining = model.space("01", "Living room", 0, 0, 4, 3), model.space("02", "Dining room", 4, 0, 3, 3)
    model.space("03", "Hall", 0, 3, 7, 1)
    model.bounds(living, None, virtual=True)
    model.bounds(dining, None, virtual=True)
    _, project = read(model, tmp_path)
    assert [space.open_to for space in project.spaces] == [("Dining-room",), ("Living-room",), ()]
    assert [(door.id, door.operation) for door in project.doors] == [("O-Living-room-Dining-room", "cased opening")]
    assert millimeters(project.doors[0].unit_size.width) == pytest.approx(3000)


def test_an_alarm_hangs_in_the_space_that_holds_it_and_one_in_none_is_told(tmp_path):
    model = Model()
    bedroom = model.space("01", "Bedroom", 0, 0, 4, 3)
    one = model.root("IfcSensor", Name="ceiling device", Tag="1", PredefinedType="SMOKESENSOR")
    model.root("IfcRelContainedInSpatialStructure", RelatedElements=[one], RelatingStructure=bedroom)
    model.root("IfcAlarm", Name="Smoke and carbon monoxide alarm", Tag="2", ObjectPlacement=model.placed(0, 0, 0),
               Representation=model.box((2, 1, 2.5, 0.1, 0.1, 0.05)))  # fmt: skip
    model.root("IfcSensor", Name="device", Tag="3", PredefinedType="COSENSOR")
    draft, project = read(model, tmp_path)
    assert [(one.id, one.space, one.detects) for one in project.alarms] == [
        ("AL-1", "Bedroom", ("smoke",)), ("AL-2", "Bedroom", ("carbon monoxide", "smoke")),
    ]  # fmt: skip
    assert any(doubt.startswith("left out: alarm AL-3") for doubt in draft.doubts)


def test_a_sloped_ceiling_and_a_ceiling_below_the_body_are_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3, high=3.0)
    cover = model.root("IfcCovering", Name="ceiling", PredefinedType="CEILING", ObjectPlacement=model.placed(0, 0, 0),
                       Representation=model.box((0, 0, 2.4, 4, 3, 0.02)))  # fmt: skip
    model.root("IfcRelContainedInSpatialStructure", RelatedElements=[cover], RelatingStructure=model.ground)
    draft, project = read(model, tmp_path)
    assert millimeters(project.spaces[0].ceiling.height) == pytest.approx(2400)
    assert any("does not end at the ceiling modeled" in d for d in draft.doubts)
    assert not any("IfcCovering" in d for d in draft.doubts)


def test_a_room_under_a_roof_shows_no_one_ceiling_height(tmp_path):
    model = Model()
    room = model.space("01", "Bedroom", 0, 0, 4, 3, high=2.0)
    room.Representation = model.box((0, 0, 0, 4, 3, 2.0), (0, 0, 2.0, 2, 3, 0.8))
    draft, project = read(model, tmp_path)
    assert "ceiling" not in project.spaces[0].model_fields_set
    assert "Bedroom: its ceiling is modeled on more than one level: ceiling height not shown" in draft.doubts


def test_a_property_of_the_house_is_read_where_the_mapping_file_names_it(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    door = model.opening("IfcDoor", "1", 2, -0.06, 0, 0.9, 2.03)
    model.properties(door, "Office door data", Outside=True, Rated="45 min", Number="Front")
    names = "properties: {external: [Office door data.Outside], fire rating: ['*.Rated'], id: ['*.Number']}\n"
    (tmp_path / "names.yaml").write_text(names)
    _, project = read(model, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert (project.doors[0].id, project.doors[0].between) == ("Front", ("Bedroom", "outside"))
    assert str(project.doors[0].fire_rating) == "45 min"


@pytest.mark.parametrize("schema", SCHEMAS)
def test_a_flight_states_what_its_treads_bear_out(schema, tmp_path):
    model = two_stories(schema)
    model.stair(
        said=(0.19, 0.26), Pset_StairFlightCommon={"RiserHeight": 0.19, "TreadLength": 0.26, "NosingLength": 0.02}
    )
    draft, project = read(model, tmp_path)
    stair = project.stairs[0]
    flight = stair.flights[0]
    assert stair.between == ("Hall", "Landing-hall")
    assert millimeters(stair.total_rise) == 2660
    assert (flight.risers, millimeters(flight.riser), millimeters(flight.tread)) == (14, 190, 260)
    assert millimeters(flight.width) == pytest.approx(950)
    assert millimeters(flight.nosing.projection) == 20
    assert not any("riser" in doubt for doubt in draft.doubts)


@pytest.mark.parametrize("schema", SCHEMAS)
def test_feet_in_a_file_of_meters_are_caught_by_the_property_set_the_treads_and_the_rise(schema, tmp_path):
    model = two_stories(schema)
    model.stair(said=(0.19 / FOOT, 0.26 / FOOT), Pset_StairFlightCommon={"RiserHeight": 0.19, "TreadLength": 0.26})
    draft, project = read(model, tmp_path)
    flight = project.stairs[0].flights[0]
    assert (millimeters(flight.riser), millimeters(flight.tread)) == (190, 260)
    assert any(
        "a riser is written in feet" in d and "not used" in d and "total rise over 14" in d for d in draft.doubts
    )


def test_feet_in_a_file_of_meters_are_corrected_where_only_the_geometry_says_so(tmp_path):
    model = two_stories()
    model.stair(said=(0.19 / FOOT, 0.26 / FOOT))
    draft, project = read(model, tmp_path)
    flight = project.stairs[0].flights[0]
    assert millimeters(flight.riser) == pytest.approx(190)
    assert any("a riser is written in feet" in d and "corrected" in d for d in draft.doubts)
    assert "RiserHeight, corrected from 0.6234" in project_text(draft)


def test_a_riser_that_the_treads_contradict_in_every_unit_is_left_as_not_shown(tmp_path):
    model = two_stories()
    model.stair(said=(0.17, 0.26))
    draft, project = read(model, tmp_path)
    flight = project.stairs[0].flights[0]
    assert "riser" not in flight.model_fields_set
    assert millimeters(flight.tread) == pytest.approx(260)
    assert any("the model contradicts; not shown" in d and "0.17" in d for d in draft.doubts)


def test_a_wrong_riser_is_never_passed_on_in_silence_by_the_check_itself(tmp_path):
    model = two_stories()
    model.stair(steps=14, riser=0.19, said=(0.19 / FOOT, 0.26 / FOOT))
    path = model.save(tmp_path)
    found = Desk(Run(ruleset="irc-2021")).review(str(path))
    said = {f.rule.name: f for f in found.findings if f.rule.name == "stairs.riser-height"}
    assert said["stairs.riser-height"].outcome.word in ("pass", "warn")  # 190 mm is under 7 3/4 in
    assert any("written in feet" in line for line in found.not_checked)


def test_a_finding_stands_at_the_line_of_the_entity_in_the_design_file(tmp_path):
    model = Model()
    space = model.space("01", "Bedroom", 0, 0, 4, 3)
    path = model.save(tmp_path)
    found = Desk(Run(ruleset="irc-2021")).review(str(path))
    place = next(f.place for f in found.findings if getattr(f.subject, "id", "") == "Bedroom")
    line = path.read_text().splitlines()[place.line - 1]
    assert place.file == str(path)
    assert line.startswith(f"#{space.id()}=IFCSPACE")


def test_what_is_written_is_read_back_as_the_same_project(tmp_path):
    model = two_stories()
    model.stair(said=(0.19, 0.26))
    model.opening("IfcWindow", 'W "1": a #b', 2, -0.06, 0.9, 0.9, 1.2)
    draft, project = read(model, tmp_path)
    (tmp_path / "house.yaml").write_text(project_text(draft))
    again = read_project(tmp_path / "house.yaml")
    assert [part.id for part in again.spaces] == [part.id for part in project.spaces]
    assert again.windows[0].unit_size == project.windows[0].unit_size
    assert project_text(draft) == project_text(read(model, tmp_path)[0])


def test_coordinates_of_a_map_move_to_an_origin_of_the_plan_and_it_is_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 500_000, 4_000_000, 4, 3)
    draft, project = read(model, tmp_path)
    assert max(millimeters(c) for corner in project.spaces[0].outline for c in corner) == pytest.approx(4000, abs=100)
    assert any("coordinates are those of a map" in d for d in draft.doubts)


def test_heights_above_the_sea_move_to_a_datum_and_it_is_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3, z=1609.0)
    model.space("02", "Hall", 4, 0, 4, 3, z=1609.5)
    draft, project = read(model, tmp_path)
    levels = [millimeters(floor.finished_level) for floor in project.floors]
    assert levels == pytest.approx([0, 500], abs=1)
    assert any("heights are those above the sea" in doubt for doubt in draft.doubts)


def test_a_value_that_cannot_be_is_told_and_spoils_nothing_else(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 4.12, 0, 900, 3)
    door = model.opening("IfcDoor", "1", 2, -0.06, 0, 0.9, 2.03, stated=(-0.9, 2.03))
    door.Representation = None
    model.properties(door, "Pset_DoorCommon", IsExternal=True)
    model.bounds(model.ifc.by_type("IfcSpace")[0], door)
    draft, project = read(model, tmp_path)
    assert [space.id for space in project.spaces] == ["Bedroom", "Hall"]
    assert project.spaces[0].outline
    assert not project.spaces[1].outline
    assert "unit_size" not in project.doors[0].model_fields_set
    told = [doubt for doubt in draft.doubts if "cannot be so and is not shown" in doubt]
    assert len(told) == 2


def test_elements_that_no_part_is_made_from_are_counted(tmp_path):
    model = Model()
    for _ in range(3):
        model.root("IfcFurnishingElement", Name="chair")
    model.root("IfcBuildingElementProxy", Name="thing")
    draft, _ = read(model, tmp_path)
    assert "in the file and not taken over: furniture (3), objects of no kind (1)" in draft.doubts
    assert draft.warning.startswith("This model has no rooms")


needs_duplex = pytest.mark.skipif(
    not DUPLEX.is_file(), reason="the duplex model is not here; name it with PRECHECK_DUPLEX"
)


@needs_duplex
def test_the_duplex_model_becomes_a_project_with_its_rooms_doors_windows_and_stairs():
    draft = read_here(DUPLEX, "duplex.ifc", Mapping(), lambda done, total: None)
    project = project_of(draft, DUPLEX)
    left_out = [d for d in draft.doubts if d.startswith("left out")]
    assert len(project.spaces) + len(left_out) == 21
    assert len([door for door in project.doors if door.operation != "cased opening"]) == 14
    assert (len(project.windows), len(project.skylights), len(project.stairs)) == (22, 2, 2)
    for stair in project.stairs:  # the finished floors lie 19 mm above what the flight stands on
        first, *middle, last = [millimeters(one) for one in stair.flights[0].riser_heights]
        assert (first, {*middle}, last) == (174.653, {193.75}, 212.847)
    assert {millimeters(s.flights[0].tread) for s in project.stairs} == {250}
    assert sum("written in feet" in d for d in draft.doubts) == 2


@needs_duplex
def test_the_duplex_model_is_checked_as_it_is():
    found = Desk(Run(ruleset="irc-2021", topics=("stairs",))).review(str(DUPLEX))
    said = {(f.rule.name, getattr(f.subject, "label", "")): f.outcome.word for f in found.findings}
    treads = [word for (rule, _), word in said.items() if rule == "stairs.tread-depth"]
    risers = [word for (rule, _), word in said.items() if rule == "stairs.riser-height"]
    assert treads == ["fail", "fail"]  # 250 mm is under 10 in
    assert risers == ["fail", "fail"]  # 193.75 mm is 7 5/8 in, and the last riser 212.847 mm


def with_heat(model, element, **values):
    """Say the transmittance and solar heat gain of `element`, each under the measure that its set asks for."""
    kinds = {
        "ThermalTransmittance": "IfcThermalTransmittanceMeasure",
        "SolarHeatGainTransmittance": "IfcNormalisedRatioMeasure",
    }
    for key, value in values.items():
        of = "Pset_DoorWindowGlazingType" if key == "SolarHeatGainTransmittance" else f"Pset_{element.is_a()[3:]}Common"
        one = model.make("IfcPropertySingleValue", key, None, model.make(kinds[key], value))
        group = model.root("IfcPropertySet", Name=of, HasProperties=[one])
        model.root("IfcRelDefinesByProperties", RelatedObjects=[element], RelatingPropertyDefinition=group)


def glazed(schema="IFC4"):
    model = Model(schema)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    window, door = (
        model.opening("IfcWindow", "1", 2, -0.06, 0.9, 0.9, 1.2),
        model.opening("IfcDoor", "2", 3, -0.06, 0, 0.9, 2.03),
    )
    model.properties(door, "Pset_DoorCommon", IsExternal=True)
    return model, window, door


@pytest.mark.parametrize("schema", SCHEMAS)
def test_a_window_and_a_door_have_the_u_factor_and_solar_heat_gain_of_the_file(schema, tmp_path):
    model, window, door = glazed(schema)
    with_heat(model, window, ThermalTransmittance=1.4, SolarHeatGainTransmittance=0.4)
    with_heat(model, door, ThermalTransmittance=1.70348)
    draft, project = read(model, tmp_path)
    assert str(project.windows[0].u_factor) == "1.4 W/m2K"
    assert str(project.doors[0].u_factor) == "U-0.3"
    assert project.windows[0].shgc.n == pytest.approx(0.4)
    assert "shgc" not in project.doors[0].model_fields_set
    assert any("1: solar heat gain is that of the glass" in doubt for doubt in draft.doubts)


def test_a_u_factor_is_read_in_the_unit_of_the_file(tmp_path):
    model, window, _ = glazed()
    with_heat(model, window, ThermalTransmittance=0.3)
    meter, kelvin, watt = (
        model.make("IfcSIUnit", UnitType=kind, Name=name)
        for kind, name in (("LENGTHUNIT", "METRE"), ("THERMODYNAMICTEMPERATUREUNIT", "KELVIN"), ("POWERUNIT", "WATT"))
    )
    none = model.make("IfcDimensionalExponents", 0, 0, 0, 0, 0, 0, 0)

    def unit(kind, name, factor, of):
        measure = model.make("IfcMeasureWithUnit", model.ifc.create_entity("IfcReal", factor), of)
        return model.make("IfcConversionBasedUnit", none, kind, name, measure)

    parts = [
        (unit("POWERUNIT", "BTU PER HOUR", 0.29307107, watt), 1),
        (unit("LENGTHUNIT", "FOOT", FOOT, meter), -2),
        (unit("THERMODYNAMICTEMPERATUREUNIT", "FAHRENHEIT", 5 / 9, kelvin), -1),
    ]
    elements = [model.make("IfcDerivedUnitElement", one, exponent) for one, exponent in parts]
    units = model.project.UnitsInContext
    units.Units = [*units.Units, model.make("IfcDerivedUnit", elements, "THERMALTRANSMITTANCEUNIT")]
    _, project = read(model, tmp_path)
    assert str(project.windows[0].u_factor) == "U-0.3"


def test_a_u_factor_without_a_unit_or_that_nothing_has_is_not_taken_and_told(tmp_path):
    model, window, door = glazed()
    model.properties(window, "Pset_WindowCommon", ThermalTransmittance=1.4)
    with_heat(model, door, ThermalTransmittance=0.0, SolarHeatGainTransmittance=1.2)
    draft, project = read(model, tmp_path)
    assert not {"u_factor", "shgc"} & (project.windows[0].model_fields_set | project.doors[0].model_fields_set)
    assert any("its unit is not known" in doubt for doubt in draft.doubts)
    assert any("ThermalTransmittance is 0.0, which no window or door has" in doubt for doubt in draft.doubts)
    assert any("SolarHeatGainTransmittance is 1.2, which no glass has" in doubt for doubt in draft.doubts)


def test_a_mapping_file_names_the_property_that_holds_a_firms_u_factor(tmp_path):
    model, window, _ = glazed()
    value = model.make("IfcThermalTransmittanceMeasure", 1.1)
    group = model.root(
        "IfcPropertySet", Name="Office", HasProperties=[model.make("IfcPropertySingleValue", "Uw", None, value)]
    )
    model.root("IfcRelDefinesByProperties", RelatedObjects=[window], RelatingPropertyDefinition=group)
    (tmp_path / "names.yaml").write_text("properties: {u factor: [Office.Uw]}\n")
    _, project = read(model, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert str(project.windows[0].u_factor) == "1.1 W/m2K"


def test_every_property_that_a_mapping_file_can_name_is_read():
    read_by = "".join(
        path.read_text(encoding="utf-8") for path in (Path(importers.__file__).parent / "ifc").glob("*.py")
    )
    assert [field for field in PROPERTIES if f'"{field}"' not in read_by] == []


def test_a_floor_below_the_datum_and_one_as_high_above_it_are_two(tmp_path):
    model = Model()
    model.space("01", "Cellar", 0, 0, 4, 3, z=-2.9)
    model.space("02", "Hall", 0, 0, 4, 3)
    model.space("03", "Bedroom", 0, 0, 4, 3, z=2.9)
    draft, project = read(model, tmp_path)
    assert len({space.floor for space in project.spaces}) == 3
    assert {space.floor for space in project.spaces} == {floor.id for floor in project.floors}
    assert not any("cannot be so" in doubt for doubt in draft.doubts)
