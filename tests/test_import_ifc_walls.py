"""Walls of IFC models: what lies on both sides, where along the wall that changes, layers and which way they run."""

import pytest
from ifc_house import FOOT, Model, millimeters, read

from precheck.importers import Mapping, project_text, read_here, read_mapping
from precheck.importers.again import brought_up_to_date
from precheck.project import read_project
from precheck.runs.desk import Desk, Run
from precheck.units import Length

SCHEMAS = ("IFC2X3", "IFC4")
GYPSUM, STUDS, BRICK = ("Plasterboard", 0.0125), ("Wood Stud", 0.09), ("Masonry - Brick", 0.1)
PARTITION = [GYPSUM, STUDS, GYPSUM]
OUTER = [BRICK, ("Plywood", 0.012), STUDS, GYPSUM]


def layers(wall):
    return [layer.material for layer in wall.layers]


def two_rooms(schema="IFC4", unit="METRE", size=1.0):
    model = Model(schema, unit, size)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 4.115, 0, 2, 3)
    return model


def flanked(model):
    return model.wall("1", (4.0575, 0), (4.0575, 3), 0.115, layers=PARTITION)


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize(("unit", "size"), [("METRE", 1.0), ("MILLI", 0.001), ("FOOT", FOOT)])
def test_a_wall_parts_the_rooms_on_both_sides_and_has_its_middle_line_story_and_layers(schema, unit, size, tmp_path):
    model = two_rooms(schema, unit, size)
    flanked(model)
    wall = read(model, tmp_path)[1].walls[0]
    assert wall.id == "WL1"
    assert set(wall.between) == {"Bedroom", "Hall"}
    assert wall.story == "Ground-floor"
    assert [millimeters(c) for end in (wall.from_, wall.to) for c in end] == pytest.approx(
        [4057.5, 0, 4057.5, 3000], abs=0.1
    )
    assert layers(wall) == ["gypsum", "wood studs", "gypsum"]
    assert [millimeters(layer.thickness) for layer in wall.layers] == pytest.approx([12.5, 90, 12.5], abs=0.1)
    assert wall.drawn_from.startswith("IfcWallStandardCase 0000")


@pytest.mark.parametrize("schema", SCHEMAS)
@pytest.mark.parametrize("sense", ["POSITIVE", "NEGATIVE"])
@pytest.mark.parametrize("turned", [False, True])
def test_layers_run_from_the_inner_side_out_whichever_way_the_wall_and_its_usage_run(schema, sense, turned, tmp_path):
    model = Model(schema)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    ends = [(0, -0.10725), (4, -0.10725)]  # the room is to the left as it runs
    listed = OUTER if (sense == "POSITIVE") != turned else OUTER[::-1]
    model.wall("1", *(ends[::-1] if turned else ends), 0.2145, layers=listed, sense=sense, external=True)
    wall = read(model, tmp_path)[1].walls[0]
    assert wall.between == ("Bedroom", "outside")
    assert layers(wall) == ["gypsum", "wood studs", "plywood", "brick"]
    assert [layer.material for layer in wall.finish_on("Bedroom")] == ["gypsum"]
    assert wall.is_framed is True


def test_a_wall_beside_several_rooms_becomes_a_part_for_each_pair_and_grows_over_what_ends_at_it(tmp_path):
    model = Model()
    for number, y in (("01", 0), ("02", 2.1), ("03", 4.2)):
        model.space(number, "Bedroom", 0, y, 4, 2)
    model.space("04", "Hall", 4.115, 0, 1, 6.2)
    model.wall("1", (4.0575, 0), (4.0575, 6.2), 0.115, layers=PARTITION)
    model.wall("2", (0, 2.05), (4, 2.05), 0.1)
    model.wall("3", (0, 4.15), (4, 4.15), 0.1)
    parts = [wall for wall in read(model, tmp_path)[1].walls if "Hall" in wall.between]
    assert [wall.id for wall in parts] == ["WL1-1", "WL1-2", "WL1-3"]
    assert [sorted(wall.between) for wall in parts] == [[f"Bedroom-0{n}", "Hall"] for n in (1, 2, 3)]
    assert [millimeters(wall.to[1]) for wall in parts] == pytest.approx([2050, 4150, 6200])
    assert len({wall.drawn_from for wall in parts}) == 3


def test_a_wall_through_two_stories_has_a_part_on_each(tmp_path):
    model = Model()
    upper = model.story("Upper floor", 2.8)
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("11", "Bedroom", 0, 0, 4, 3, z=2.8, story=upper)
    model.wall("1", (0, -0.1), (4, -0.1), 0.2, high=5.4, external=True)
    walls = read(model, tmp_path)[1].walls
    assert [(wall.between[0], wall.story) for wall in walls] == [
        ("Bedroom-01", "Ground-floor"),
        ("Bedroom-11", "Upper-floor"),
    ]


def test_a_side_that_is_no_space_is_outside_only_where_the_file_says_so_or_nothing_lies_beyond(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, 6, 4, 3)
    model.wall("1", (0, 3.06), (4, 3.06), 0.12)  # what lies between it and the hall is not modeled
    model.wall("2", (0, -0.06), (4, -0.06), 0.12)
    model.wall("3", (-0.06, 0), (-0.06, 3), 0.12, external=False)
    draft, project = read(model, tmp_path)
    assert [(wall.id, wall.between) for wall in project.walls] == [("WL2", ("Bedroom", "outside"))]
    assert any("WL2: whether the wall is external is not said" in d for d in draft.doubts)
    assert any(d.startswith("1, 3: a wall left out") and "not said to be external" in d for d in draft.doubts)
    assert not any("in the file and not taken over" in d for d in draft.doubts)  # which would tell the two again


def test_space_boundaries_say_that_a_wall_is_external(tmp_path):
    model = Model()
    room = model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Hall", 0, 6, 4, 3)
    wall = model.wall("1", (0, 3.06), (4, 3.06), 0.12)
    model.bounds(room, wall)
    model.ifc.by_type("IfcRelSpaceBoundary")[0].InternalOrExternalBoundary = "EXTERNAL"
    assert read(model, tmp_path)[1].walls[0].between == ("Bedroom", "outside")


def test_a_wall_that_lines_another_adds_its_layers_and_is_no_wall_of_its_own(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.wall("1", (0, -0.2), (4, -0.2), 0.3, layers=[("Concrete Masonry Units", 0.3)], external=True)
    model.wall("2", (0, -0.025), (4, -0.025), 0.05, layers=[("Metal Stud", 0.04), ("Gypsum Wall Board", 0.01)])
    draft, project = read(model, tmp_path)
    wall = project.walls[0]
    assert [one.id for one in project.walls] == ["WL1"]
    assert layers(wall) == ["gypsum", "metal studs", "concrete block"]
    assert wall.is_framed is False
    assert any("it lines a thicker wall" in doubt for doubt in draft.doubts)


def test_layers_without_a_direction_are_shown_only_where_they_read_the_same_both_ways(tmp_path):
    model = two_rooms()
    model.wall("1", (4.0575, 0), (4.0575, 3), 0.115, layers=PARTITION, sense=None)
    model.wall("2", (0, -0.10725), (4, -0.10725), 0.2145, layers=OUTER, sense=None, external=True)
    draft, project = read(model, tmp_path)
    assert layers(project.walls[0]) == ["gypsum", "wood studs", "gypsum"]
    assert project.walls[1].layers == ()
    assert any("which side its first layer lies on is not said" in doubt for doubt in draft.doubts)


def test_layers_that_do_not_lie_where_the_body_does_are_not_shown_and_told(tmp_path):
    model = two_rooms()
    model.wall("1", (4.0575, 0), (4.0575, 3), 0.115, layers=[GYPSUM, ("Wood Stud", 0.14), GYPSUM])
    draft, project = read(model, tmp_path)
    assert project.walls[0].layers == ()
    assert any("165 mm of layers, a body of 115 mm" in doubt for doubt in draft.doubts)


def test_a_material_that_is_not_known_keeps_its_name_is_told_and_a_mapping_file_settles_it(tmp_path):
    model = two_rooms()
    odd = [("Gipskarton, 12.5", 0.0125), STUDS, ("Gipskarton, 12.5", 0.0125)]
    model.wall("1", (4.0575, 0), (4.0575, 3), 0.115, layers=odd)
    draft, project = read(model, tmp_path)
    assert layers(project.walls[0])[0] == "gipskarton 12 5"
    assert any("the material `Gipskarton, 12.5` is under its own name" in doubt for doubt in draft.doubts)
    (tmp_path / "names.yaml").write_text("materials: {'Gipskarton, 12.5': gypsum}\n")
    draft, project = read(model, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert layers(project.walls[0]) == ["gypsum", "wood studs", "gypsum"]
    assert not any("own name" in doubt for doubt in draft.doubts)


def test_a_wall_without_an_axis_runs_along_its_body_and_a_bent_one_is_left_out(tmp_path):
    model = two_rooms()
    model.wall("1", (4.0575, 0), (4.0575, 3), 0.115, axis=None)
    model.wall("2", (0, -0.06), (4, -0.06), 0.12, axis=((0, 0), (2, 1)), external=True)
    draft, project = read(model, tmp_path)
    assert [set(wall.between) for wall in project.walls] == [{"Bedroom", "Hall"}]
    assert any(
        d.startswith("a wall left out: its axis is curved or bent") or "curved or bent" in d for d in draft.doubts
    )


def test_foundations_and_walls_without_a_body_are_left_out_with_the_reason(tmp_path):
    model = two_rooms()
    model.wall("1", (0, -0.1), (4, -0.1), 0.2, high=1.0, z=-1.2, external=True)
    model.wall("2", (0, -0.1), (4, -0.1), 0.2).Representation = None
    draft, project = read(model, tmp_path)
    assert project.walls == ()
    assert any("as beside a foundation" in doubt for doubt in draft.doubts)
    assert any("it has no body that can be built" in doubt for doubt in draft.doubts)


def test_rating_and_phase_of_a_wall_come_from_its_properties(tmp_path):
    model = two_rooms()
    model.properties(flanked(model), "Pset_WallCommon", FireRating="60 min", Status="EXISTING")
    wall = read(model, tmp_path)[1].walls[0]
    assert (str(wall.fire_rating), wall.phase) == ("60 min", "existing")


def test_a_garage_wall_shows_its_board_to_the_rule_for_separation(tmp_path):
    for board, outcome in ((0.0127, "pass"), (0.0095, "fail")):
        model = Model()
        model.space("01", "Garage", 0, 0, 4, 3)
        model.space("02", "Hall", 4.115, 0, 2, 3)
        side = ("Gypsum Wall Board", board)
        model.wall("1", (4.0575, 0), (4.0575, 3), 0.09 + 2 * board, layers=[side, STUDS, side])
        found = Desk(Run(ruleset="irc-2021", topics=("separation",))).review(str(model.save(tmp_path)))
        said = {f.rule.name: f.outcome.word for f in found.findings if getattr(f.subject, "label", "") == "wall WL1"}
        assert said["separation.common-wall"] == outcome


def test_masonry_walls_are_not_asked_for_studs_bolts_or_bracing_and_framed_ones_are(tmp_path):
    asked = {}
    for name, built in (("masonry", [("Concrete Block", 0.2)]), ("framed", OUTER[::-1])):
        model = Model()
        model.space("01", "Bedroom", 0, 0, 4, 3)
        thick = sum(each for _, each in built)
        wall = model.wall("1", (0, -thick / 2), (4, -thick / 2), thick, layers=built, sense="NEGATIVE", external=True)
        window = model.opening("IfcWindow", "1", 2, -thick / 2, 0.9, 0.9, 1.2)
        for one in (wall, window):
            model.properties(one, "House", Phase="new")
        topics = ("walls", "bracing", "anchorage", "foundations", "fireblocking")
        found = Desk(Run(ruleset="irc-2021", topics=topics)).review(str(model.save(tmp_path)))
        asked[name] = {f.rule.name for f in found.findings if f.outcome.word == "not shown"}
    assert {"bracing.line-shown", "walls.studs", "fireblocking.walls"} <= asked["framed"]
    assert not {name for name in asked["masonry"] if name.startswith(("walls.", "bracing.line", "fireblocking.walls"))}
    assert "foundations.outside-wall" in asked["masonry"]


def test_importing_again_keeps_a_wall_that_a_person_named_and_added_to(tmp_path):
    model = two_rooms()
    flanked(model)
    path = tmp_path / "house.yaml"
    path.write_text(project_text(read(model, tmp_path)[0]).replace("id: WL1 ", "id: hall-wall "))
    text = path.read_text().replace("    from: ", "    fire rating: 20 min  # asked on site\n    from: ")
    hand = "  - {id: by-hand, phase: existing, between: [Bedroom, outside]}\n"
    path.write_text(text.replace("walls:\n", f"walls:\n{hand}"))
    model = two_rooms()
    model.wall(
        "1", (4.0575, 0), (4.0575, 3), 0.115, layers=[("Gypsum, Type X", 0.0125), STUDS, ("Gypsum, Type X", 0.0125)]
    )
    again, changes = brought_up_to_date(path, read(model, tmp_path)[0])
    path.write_text(again)
    walls = {wall.id: wall for wall in read_project(path).walls}
    assert set(walls) == {"by-hand", "hall-wall"}
    assert str(walls["hall-wall"].fire_rating) == "20 min"
    assert walls["hall-wall"].layers[0].type_x is True
    assert "fire rating: 20 min  # asked on site" in again
    assert any(change.startswith("hall-wall: layers was") for change in changes)


def test_a_name_that_would_break_the_file_breaks_nothing(tmp_path):
    model = two_rooms()
    model.wall('1": [a, #b', (4.0575, 0), (4.0575, 3), 0.115, layers=[("a, ] } # : 'x'\n- id: z", 0.115)])
    draft, project = read(model, tmp_path)
    (tmp_path / "house.yaml").write_text(project_text(draft))
    wall = read_project(tmp_path / "house.yaml").walls[0]
    assert (wall.id, layers(wall)) == (project.walls[0].id, ["a x id z"])
    assert wall.layers[0].thickness == Length.parse("115 mm")


def test_walls_with_broken_pieces_are_told_and_spoil_nothing_else(tmp_path):
    model = two_rooms()
    flanked(model)
    axis = model.wall("2", (0, -0.06), (4, -0.06), external=True).Representation.Representations[0]
    axis.Items[0].Points = axis.Items[0].Points[:1]
    model.wall("3", (0, 3.06), (4, 3.06), external=True, layers=[("Plasterboard", 0.2), ("Stud", -0.08)])
    nameless = model.wall("4", (-0.06, 0), (-0.06, 3), external=True)
    nameless.Representation.Representations[0].Items = []
    layer = model.make("IfcMaterialLayer", None, 0.12)
    model.of(nameless, model.make("IfcMaterialLayerSet", MaterialLayers=[layer]))
    far = model.wall("5", (0, 0), (4, 0))
    far.ObjectPlacement = None
    draft, project = read(model, tmp_path)
    found = {wall.id: wall for wall in project.walls}
    assert {"WL1", "WL3", "WL4"} <= set(found)
    assert found["WL4"].layers[0].material == "layer"
    assert found["WL3"].layers == ()
    assert any("its axis" in doubt for doubt in draft.doubts)
    assert read_here_of(tmp_path, project_text(draft)).walls


def read_here_of(folder, text):
    (folder / "again.yaml").write_text(text)
    return read_project(folder / "again.yaml")


def test_a_material_relation_that_leads_nowhere_is_no_material(tmp_path):
    model = two_rooms()
    flanked(model)
    relation = model.ifc.by_type("IfcRelAssociatesMaterial")[0]
    path = model.save(tmp_path)
    text = path.read_text().replace(f"#{relation.RelatingMaterial.id()});", "$);")
    path.write_text(text)
    draft = read_here(path, "house.ifc", Mapping(), lambda done, total: None)
    assert draft.parts["walls"][0]["id"].text == "WL1"
    assert "layers" not in draft.parts["walls"][0]
