"""Floors, slabs, roofs, members, fittings, guards, door swing and dwelling units of IFC models."""

import os
from pathlib import Path

import pytest
from ifc_house import FOOT, Model, millimeters, read

from precheck.importers import Mapping, project_of, read_here, read_mapping
from precheck.runs.desk import Desk, Run
from precheck.units import Length, Slope

SCHEMAS = ("IFC2X3", "IFC4")
INCH = 0.0254
FINISH = [("Wood - Flooring", 0.016), ("Semi-rigid insulation", 0.003)]
JOISTS = [("Wood - Sheathing - plywood", 0.019), ("Wood - Dimensional Lumber", 0.286)]
CONCRETE = [("Concrete - Cast In Situ", 0.127)]
DUPLEX = Path(
    os.environ.get("PRECHECK_DUPLEX")
    or Path(__file__).parents[2] / "shared" / "reference" / "ifc" / "duplex-architecture.ifc"
)


def names(layered):
    return [layer.material for layer in layered]


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("turned", [False, True])
def test_a_floor_is_built_up_from_what_carries_it_whichever_way_its_layers_are_listed(schema, turned, tmp_path):
    model = Model(schema)
    model.space("01", "Bedroom", 0, 0, 4, 3, z=0.019)
    model.slab("1", 0, 0, 4, 3, 0.019, FINISH[::-1] if turned else FINISH)
    model.slab("2", 0, 0, 8, 3, 0.0, JOISTS[::-1] if turned else JOISTS)
    draft, project = read(model, tmp_path)
    floor = project.floors[0]
    assert (floor.base, names(floor.layers)) == ("joists", ["plywood", "insulation", "wood flooring"])
    assert millimeters(floor.base_level) == pytest.approx(-19)
    assert millimeters(floor.finished_level) == pytest.approx(19)
    assert not any("IfcSlab" in doubt for doubt in draft.doubts)


def test_rooms_on_one_level_with_different_finishes_show_no_layers(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3, z=0.019)
    model.space("02", "Hall", 5, 0, 4, 3, z=0.019)
    model.slab("1", 0, 0, 4, 3, 0.019, FINISH)
    model.slab("2", 5, 0, 4, 3, 0.019, [("Ceramic Tile", 0.016), ("Grout", 0.003)])
    model.slab("3", 0, 0, 9, 3, 0.0, CONCRETE)
    draft, project = read(model, tmp_path)
    assert "layers" not in project.floors[0].model_fields_set
    assert any("built up differently" in doubt for doubt in draft.doubts)


def test_layers_of_a_slab_whose_top_is_not_clear_are_not_shown(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3, z=0.019)
    model.slab("1", 0, 0, 4, 3, 0.019, [("Board A", 0.016), ("Board B", 0.003)])
    model.slab("2", 0, 0, 4, 3, 0.0, CONCRETE)
    draft, project = read(model, tmp_path)
    assert "layers" not in project.floors[0].model_fields_set
    assert any("which of its layers is on top is not clear" in doubt for doubt in draft.doubts)


def test_a_slab_on_the_ground_is_a_slab_of_the_largest_room_over_it_and_one_over_a_room_is_none(tmp_path):
    model = Model()
    upper = model.story("Upper floor", 2.8)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Closet", 4.1, 0, 1, 3)
    model.space("11", "Bedroom", 0, 0, 4, 3, z=2.8, story=upper)
    model.slab("1", 0, 0, 5.1, 3, 0.0, CONCRETE, kind="BASESLAB")
    model.slab("2", 0, 0, 4, 3, 2.8, CONCRETE, kind="BASESLAB")
    model.slab("3", 20, 0, 4, 3, 0.0, CONCRETE, Name="Slab on grade")
    draft, project = read(model, tmp_path)
    assert [(slab.id, millimeters(slab.thickness)) for slab in project.slabs] == [("SL1", 127), ("SL3", 127)]
    assert project.slabs[0].space == "Bedroom-01"
    assert "space" not in project.slabs[1].model_fields_set
    assert any("SL1: a slab under 2 spaces" in doubt for doubt in draft.doubts)
    assert any("only in its name" in doubt for doubt in draft.doubts)
    assert project.by_id[project.spaces[0].floor].base == "slab"


def gable(model, tag, rise, **named):
    """A roof plane of 2 m by 5 m, as a prism that falls to one side."""
    points = [(0, 0), (2, 0), (2, 0.2), (0, 0.2)]
    profile = model.make("IfcArbitraryClosedProfileDef", "AREA", None, model.make(
        "IfcPolyline", [model.make("IfcCartesianPoint", (x, y + x * rise))
                        for x, y in [*points, points[0]]]))  # fmt: skip
    upright = model.make("IfcAxis2Placement3D", model.point(0, 0, 3), model.make("IfcDirection", (0.0, -1.0, 0.0)),
                         model.make("IfcDirection", (1.0, 0.0, 0.0)))  # fmt: skip
    solid = model.make("IfcExtrudedAreaSolid", profile, upright, model.make("IfcDirection", (0.0, 0.0, 1.0)), 5.0)
    shape = model.make("IfcShapeRepresentation", model.context, "Body", "SweptSolid", [solid])
    body = model.make("IfcProductDefinitionShape", Representations=[shape])
    return model.held(model.root("IfcSlab", Tag=tag, PredefinedType="ROOF", Representation=body,
                                 ObjectPlacement=model.placed(0, 0, 0), **named))  # fmt: skip


@pytest.mark.parametrize(("rise", "told"), [(0.5, "6:12"), (1 / 3, "4:12")])
def test_a_roof_has_the_slope_of_what_faces_up_and_the_covering_that_one_layer_says(rise, told, tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    roof = gable(model, "1", rise)
    model.built_of(roof, [("Asphalt Shingle, dark", 0.01), ("Plywood", 0.19)], axis="AXIS3")
    project = read(model, tmp_path)[1]
    assert (project.roofs[0].slope, project.roofs[0].covering) == (Slope.parse(told), "asphalt shingles")


def test_a_roof_that_is_modeled_level_shows_no_slope_and_two_slopes_are_two_roofs(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.slab("1", 0, 0, 4, 3, 3.2, [("EPDM Membrane", 0.2)], kind="ROOF")
    whole = model.root("IfcRoof", Tag="2", ObjectPlacement=model.placed(0, 0, 0))
    model.within(whole, [gable(model, "3", 0.5), gable(model, "4", 0.25)])
    model.held(whole)
    draft, project = read(model, tmp_path)
    found = {roof.id: roof for roof in project.roofs}
    assert "slope" not in found["RF1"].model_fields_set
    assert {str(found[name].slope) for name in ("RF2-1", "RF2-2")} == {"6:12", "3:12"}
    assert any("RF1: a roof is modeled level" in doubt for doubt in draft.doubts)
    assert any("what covers the roof is not clear" in doubt for doubt in draft.doubts)


def test_cladding_is_taken_by_its_material_and_coverings_of_no_part_are_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    for tag, kind, material in (
        ("1", "CLADDING", "Fiber cement planks"),
        ("2", "CLADDING", "Stuff"),
        ("3", "INSULATION", "Wool"),
    ):
        cover = model.held(model.root("IfcCovering", Name="cover", Tag=tag, PredefinedType=kind))
        model.of(cover, model.make("IfcMaterial", Name=material))
    draft, project = read(model, tmp_path)
    assert [(one.id, one.what) for one in project.claddings] == [("CL1", "fiber cement")]
    assert any("its material says no kind that is known" in doubt for doubt in draft.doubts)
    assert any("insulation is left out" in doubt for doubt in draft.doubts)
    assert any("coverings (2)" in doubt for doubt in draft.doubts)


@pytest.mark.parametrize(("unit", "size"), [("METRE", 1.0), ("MILLI", 0.001), ("FOOT", FOOT)])
def test_a_beam_has_its_ends_span_story_and_lumber_size(unit, size, tmp_path):
    model = Model("IFC4", unit, size)
    model.space("01", "Living room", 0, 0, 4, 3)
    model.line("IfcBeam", "1", (0, 1), (4, 1), 3.5 * INCH, 9.25 * INCH, z=2.6)
    beam = read(model, tmp_path)[1].members[0]
    assert (beam.id, beam.role, beam.size, beam.plies, beam.over) == ("M1", "beam", "4x10", 1, "Ground-floor")
    assert [millimeters(c) for end in (beam.from_, beam.to) for c in end] == pytest.approx(
        [0, 1000, 4000, 1000], abs=0.1
    )
    assert millimeters(beam.span) == pytest.approx(4000, abs=0.1)


def test_a_post_stands_at_a_point_and_a_role_that_is_not_said_is_counted(tmp_path):
    model = Model()
    model.space("01", "Living room", 0, 0, 4, 3)
    model.held(model.root("IfcColumn", Tag="1", ObjectPlacement=model.placed(0, 0, 0),
                          Representation=model.box((2, 1, 0, 5.5 * INCH, 5.5 * INCH, 2.6))))  # fmt: skip
    model.line("IfcMember", "2", (0, 1), (4, 1), 1.5 * INCH, 9.25 * INCH, z=2.6)
    model.line("IfcMember", "3", (0, 2), (4, 2), 1.5 * INCH, 9.25 * INCH, z=2.6, ObjectType="Floor joist")
    model.line("IfcBeam", "4", (0, 2.5), (4, 2.5), 0.1, 0.3, z=2.6)
    draft, project = read(model, tmp_path)
    found = {member.id: member for member in project.members}
    assert set(found) == {"PO1", "M3", "M4"}
    assert (found["PO1"].role, found["PO1"].size, millimeters(found["PO1"].height)) == ("post", "6x6", 2600)
    assert [millimeters(c) for c in found["PO1"].at] == pytest.approx([2069.85, 1069.85])
    assert (found["M3"].role, found["M3"].size) == ("floor joist", "2x10")
    assert "size" not in found["M4"].model_fields_set
    assert any("whether it is a joist, rafter or beam is not said" in doubt for doubt in draft.doubts)
    assert "2: a member left out: whether it is a joist, rafter or beam is not said" in draft.missing


def test_a_steel_beam_is_a_made_product(tmp_path):
    model = Model()
    model.space("01", "Living room", 0, 0, 4, 3)
    beam = model.line("IfcBeam", "1", (0, 1), (4, 1), 0.2, 0.3, z=2.6)
    beam.Name = "Wide Flange:W310X60:1"
    model.of(beam, model.make("IfcMaterial", Name="Metal - Steel 345 MPa"))
    made = read(model, tmp_path)[1].members[0].maker
    assert (made.product, made.grade) == ("steel", "W310X60")


def test_receptacles_and_lights_of_both_schemas_hang_in_the_space_that_holds_them(tmp_path):
    model = Model("IFC4")
    model.space("01", "Bedroom", 0, 0, 4, 3)
    box = model.box((3.9, 1, 0.3, 0.1, 0.1, 0.1))
    for tag, kind in (("1", "POWEROUTLET"), ("2", "DATAOUTLET")):
        model.held(model.root("IfcOutlet", Tag=tag, PredefinedType=kind, Representation=box,
                              ObjectPlacement=model.placed(0, 0, 0)))  # fmt: skip
    model.held(model.root("IfcLightFixture", Tag="3", Name="Recessed downlight", Representation=model.box((2, 1, 2.5, 0.1, 0.1, 0.1)),
                          ObjectPlacement=model.placed(0, 0, 0)))  # fmt: skip
    model.held(model.root("IfcLightFixture", Tag="4", Name="Pole light", Representation=model.box((90, 1, 2.5, 0.1, 0.1, 0.1)),
                          ObjectPlacement=model.placed(0, 0, 0)))  # fmt: skip
    draft, project = read(model, tmp_path)
    outlet = project.receptacles[0]
    assert (len(project.receptacles), outlet.id, outlet.space, millimeters(outlet.height)) == (1, "R1", "Bedroom", 350)
    assert [millimeters(c) for c in outlet.at] == pytest.approx([3950, 1050])
    assert [(light.id, light.space, light.form) for light in project.lights] == [("LT3", "Bedroom", "recessed")]
    assert any("LT4: left out of the lights" in doubt for doubt in draft.doubts)

    older = Model("IFC2X3")
    room = older.space("01", "Bedroom", 0, 0, 4, 3)
    for tag, kind, said in (
        ("1", "IfcOutletType", "POWEROUTLET"),
        ("2", "IfcLightFixtureType", "POINTSOURCE"),
        ("3", "IfcValveType", "GASTAP"),
    ):
        element = older.root("IfcFlowTerminal" if kind != "IfcValveType" else "IfcFlowController", Tag=tag)
        older.held(element, room)
        older.typed(element, kind, Name=kind, PredefinedType=said)
    draft, project = read(older, tmp_path)
    assert [(one.id, one.space) for one in (*project.receptacles, *project.lights)] == [
        ("R1", "Bedroom"),
        ("LT2", "Bedroom"),
    ]
    assert any("has no body: its place in the room is not shown" in doubt for doubt in draft.doubts)


def test_a_guard_beside_no_stair_has_its_height_above_the_floor_and_an_unnamed_railing_is_left_out(tmp_path):
    model = Model()
    upper = model.story("Upper floor", 2.8)
    model.space("01", "Living room", 0, 0, 6, 3)
    model.space("11", "Hall", 0, 0, 3, 3, z=2.8, story=upper)
    for tag, kind, z in (("1", "GUARDRAIL", 2.8), ("2", "NOTDEFINED", 2.8), ("3", "BALUSTRADE", 30.0)):
        model.held(model.root("IfcRailing", Tag=tag, PredefinedType=kind, Representation=model.box((2.9, 0, z, 0.05, 3, 0.95)),
                              ObjectPlacement=model.placed(0, 0, 0)))  # fmt: skip
    draft, project = read(model, tmp_path)
    guard = project.guards[0]
    assert (len(project.guards), guard.along, guard.level, millimeters(guard.height)) == (1, "Hall", True, 950)
    assert any("whether it is a guard is not said" in doubt for doubt in draft.doubts)
    assert any("which space it stands along is not clear" in doubt for doubt in draft.doubts)


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize(
    ("operation", "hinges"),
    [("SINGLE_SWING_LEFT", 1600), ("SINGLE_SWING_RIGHT", 2400), ("DOUBLE_DOOR_SINGLE_SWING", None)],
)
def test_a_door_swings_to_the_positive_y_of_its_placement_with_its_hinges_left_or_right(
    schema, operation, hinges, tmp_path
):
    model = Model(schema)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, 3.12, 4, 2)
    door = model.opening("IfcDoor", "1", 2, 3.06, 0, 0.8, 2.03)
    style = {"ConstructionType": "WOOD", "ParameterTakesPrecedence": False, "Sizeable": False}
    more = style if schema == "IFC2X3" else {"PredefinedType": "DOOR"}
    model.typed(
        door, "IfcDoorStyle" if schema == "IFC2X3" else "IfcDoorType", Name="D", OperationType=operation, **more
    )
    draft, project = read(model, tmp_path)
    found = project.doors[0]
    assert found.swings_into == "Hall"
    if hinges is None:
        assert "hinges" not in found.model_fields_set
    else:
        assert [millimeters(c) for c in found.hinges] == pytest.approx([hinges, 3060])
    assert any("nothing else bears them out" in doubt for doubt in draft.doubts)


def test_a_door_that_slides_or_is_drawn_across_its_own_axes_shows_no_swing(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, 3.12, 4, 2)
    sliding = model.opening("IfcDoor", "1", 1, 3.06, 0, 0.8, 2.03, OperationType="SLIDING_TO_LEFT")
    across = model.opening("IfcDoor", "2", 3, 3.06, 0, 0.8, 2.03, turned=True, OperationType="SINGLE_SWING_LEFT")
    across.Representation = model.box((-0.06, -0.4, 0, 0.12, 0.8, 2.03))
    draft, project = read(model, tmp_path)
    assert [door.model_fields_set & {"swings_into", "hinges"} for door in project.doors] == [set(), set()]
    assert any("D2: its placement does not say which way it swings" in doubt for doubt in draft.doubts)
    assert sliding.OperationType == "SLIDING_TO_LEFT"


def two_units():
    model = Model()
    model.space("A101", "Hall", 0, 0, 4, 3)
    model.space("A102", "Kitchen", 0, 3.1, 4, 3)
    model.space("B101", "Hall", 4.3, 0, 4, 3)
    model.space("B102", "Kitchen", 4.3, 3.1, 4, 3)
    return model


def test_names_that_look_like_those_of_units_are_a_doubt_and_a_mapping_file_makes_them_a_fact(tmp_path):
    model = two_units()
    draft, project = read(model, tmp_path)
    assert not any("unit" in space.model_fields_set for space in project.spaces)
    assert any("begin with A and B" in doubt and "which is not taken" in doubt for doubt in draft.doubts)
    (tmp_path / "names.yaml").write_text('units: {"A*": Unit A, "B*": Unit B}\n')
    draft, project = read(model, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert [space.unit for space in project.spaces] == ["Unit A", "Unit A", "Unit B", "Unit B"]
    assert not any("begin with A and B" in doubt for doubt in draft.doubts)


def test_a_zone_that_is_named_as_a_dwelling_gives_the_unit_and_is_told_and_another_zone_does_not(tmp_path):
    model = two_units()
    spaces = model.ifc.by_type("IfcSpace")
    for name, held in (
        ("Apartment 1", spaces[:2]),
        ("Heating zone 2", spaces),
        ("Flat 2", spaces[3:]),
        ("Unit 9", spaces[3:]),
    ):
        zone = model.root("IfcZone", Name=name)
        model.root("IfcRelAssignsToGroup", RelatedObjects=held, RelatingGroup=zone)
    draft, project = read(model, tmp_path)
    assert [space.model_fields_set & {"unit"} for space in project.spaces] == [{"unit"}, {"unit"}, set(), set()]
    assert project.spaces[0].unit == "Apartment 1"
    assert any(
        "Hall-A101, Kitchen-A102: taken to be in the dwelling unit `Apartment 1`" in doubt for doubt in draft.doubts
    )
    assert any("Kitchen-B102: in several zones" in doubt for doubt in draft.doubts)


needs_duplex = pytest.mark.skipif(
    not DUPLEX.is_file(), reason="the duplex model is not here; name it with PRECHECK_DUPLEX"
)


@needs_duplex
def test_the_duplex_model_has_its_walls_floors_slabs_roof_and_beams():
    project = project_of(read_here(DUPLEX, "duplex.ifc", Mapping(), lambda done, total: None), DUPLEX)
    outer = {tuple(layer.material for layer in wall.layers) for wall in project.walls if wall.between[1] == "outside"}
    assert {built[0] for built in outer} == {"gypsum"}
    assert {built[-1] for built in outer} == {"brick"}
    assert all(wall.layers for wall in project.walls)
    party = {
        frozenset(wall.between)
        for wall in project.walls
        if {side.split("-")[-1][0] for side in wall.between} == {"A", "B"}
    }
    assert frozenset(("Bedroom-2-A203", "Bedroom-1-B202")) in party
    assert [(floor.base, len(floor.layers)) for floor in project.floors] == [
        ("slab", 2),
        ("slab", 2),
        ("joists", 3),
        ("joists", 3),
    ]
    assert all(
        floor.base_level + sum((one.thickness for one in floor.layers), Length(0)) == floor.finished_level
        for floor in project.floors
    )
    assert (len(project.slabs), len(project.roofs), len(project.members)) == (4, 1, 8)
    assert sum("swings_into" in door.model_fields_set for door in project.doors) == 14


@needs_duplex
def test_the_duplex_model_asks_for_no_bracing_of_masonry_and_no_zone_between_two_rooms():
    found = Desk(Run(ruleset="irc-2021", topics=("bracing", "energy"))).review(str(DUPLEX))
    assert not [f for f in found.findings if f.rule.name == "bracing.line-shown"]
    inner = [f for f in found.findings if f.rule.name == "energy.glass" and str(f.subject.label).startswith("door O-")]
    assert {str(f.check.missing.needs[0]) for f in inner} == {"use of space Stair", "use of space Room"}


def test_a_wall_names_the_footing_under_the_wall_that_it_stands_on_and_a_footing_of_no_known_form_is_told(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.wall("1", (0, -0.1), (4, -0.1), 0.2, external=True)
    model.wall("2", (0, -0.1), (4, -0.1), 0.2, high=1.0, z=-1.0)
    model.wall("3", (-0.1, 0), (-0.1, 3), 0.2, external=True)  # nothing stands between it and the footing
    for tag, kind, x, y, wide, deep in (
        ("1", "STRIP_FOOTING", -0.5, -0.4, 5, 0.6), ("2", "STRIP_FOOTING", -0.4, 0.2, 0.6, 4), ("3", "PAD_FOOTING", 20, 0, 0.9, 1.2),
        ("4", "NOTDEFINED", 30, 0, 1, 1),
    ):  # fmt: skip
        model.held(model.root("IfcFooting", Tag=tag, PredefinedType=kind, ObjectPlacement=model.placed(0, 0, 0),
                              Representation=model.box((x, y, -1.25, wide, deep, 0.25))))  # fmt: skip
    draft, project = read(model, tmp_path)
    found = {footing.id: footing for footing in project.footings}
    assert {name: (one.form, millimeters(one.width), millimeters(one.thickness)) for name, one in found.items()} == {
        "F1": ("continuous", pytest.approx(600), pytest.approx(250)),
        "F2": ("continuous", pytest.approx(600), pytest.approx(250)),
        "F3": ("isolated", pytest.approx(900), pytest.approx(250)),
    }
    walls = {wall.id: wall for wall in project.walls}
    assert walls["WL1"].footing == "F1"
    assert "footing" not in walls["WL3"].model_fields_set
    assert any("whether it runs on or stands alone is not said" in doubt for doubt in draft.doubts)
    assert any(doubt.startswith("4: a footing left out") for doubt in draft.missing)


def test_a_room_under_a_roof_has_the_profile_of_its_ceiling_and_floor_counts_under_it(tmp_path):
    model = Model()
    model.attic("01", 1.6, [(0, 0), (5, 0), (5, 0.8), (2.5, 2.9), (0, 0.8)])
    _, project = read(model, tmp_path)
    points = [
        (round(millimeters(p.across)), round(millimeters(p.height), 1)) for p in project.spaces[0].ceiling.profile
    ]
    assert points == [(0, 800), (2500, 2900), (5000, 800)]
    found = Desk(Run("irc-2021", topics=("ceilings",))).review(str(tmp_path / "house.ifc"))
    said = {finding.rule.name: finding.outcome.word for finding in found.findings}
    assert said["ceilings.sloped"] == "fail"  # 31 sq ft of the 35 that count are 7 ft high


def test_a_room_under_a_roof_that_no_section_tells_is_sloped_and_its_heights_are_not_shown(tmp_path):
    model = Model()
    model.attic("01", 4.0, [(0, 0), (5, 0), (5, 0.8), (2.5, 2.9), (0, 0.8)])
    hip = model.ifc.by_type("IfcExtrudedAreaSolid")[0]
    cut = model.make("IfcHalfSpaceSolid", model.make("IfcPlane", model.make(
        "IfcAxis2Placement3D", model.point(0, 4.0, 0.8), model.make("IfcDirection", (0.0, 0.7, 0.7)), None)), False)  # fmt: skip
    shape = next(one for one in model.ifc.by_type("IfcShapeRepresentation") if hip in one.Items)
    shape.Items, shape.RepresentationType = [model.make("IfcBooleanClippingResult", "DIFFERENCE", hip, cut)], "Clipping"
    draft, project = read(model, tmp_path)
    assert project.spaces[0].ceiling.sloped is True
    assert project.spaces[0].ceiling.profile == ()
    assert any("no one section tells it" in doubt for doubt in draft.doubts)


def gallery(tmp_path, rail=1.0, at=5.0):
    """Return a draft and project of an upper room whose floor ends at 5 of its 8 m, with a railing that has no name."""
    model = Model()
    upper = model.story("Upper floor", 2.8)
    model.space("01", "Living room", 0, 0, 8, 5)
    model.space("11", "Gallery", 0, 0, 8, 5, z=2.8, high=2.5, story=upper)
    model.slab("1", 0, 0, 8, 5, 0.0, CONCRETE)
    model.slab("2", 0, 0, 5, 5, 2.8, CONCRETE)
    model.root("IfcRailing", Name="", ObjectPlacement=model.placed(0, 0, 0),
               Representation=model.box((at - 0.05, 0, 2.8, 0.05, 5, rail)))  # fmt: skip
    return read(model, tmp_path)


def test_a_floor_that_ends_within_its_room_is_told_with_its_drop(tmp_path):
    draft, project = gallery(tmp_path)
    assert millimeters(project.spaces[1].drop_at_edge) == 2800
    assert any("Gallery (15 m2 of 40 m2, in 1): no slab carries all" in doubt for doubt in draft.doubts)
    assert "drop_at_edge" not in project.spaces[0].model_fields_set


def test_a_railing_as_high_as_a_guard_at_the_edge_of_a_drop_is_one_and_that_is_told(tmp_path):
    draft, project = gallery(tmp_path)
    (guard,) = project.guards
    assert (guard.along, millimeters(guard.height), guard.level) == ("Gallery", 1000, True)
    assert any("taken for one by its height and place" in doubt for doubt in draft.doubts)


@pytest.mark.parametrize(("rail", "at"), [(0.4, 5.0), (1.0, 2.5)], ids=["low", "within the floor"])
def test_a_railing_that_is_low_or_stands_within_a_floor_is_no_guard(rail, at, tmp_path):
    draft, project = gallery(tmp_path, rail, at)
    assert project.guards == ()
    assert any("whether it is a guard is not said" in doubt for doubt in draft.doubts)
