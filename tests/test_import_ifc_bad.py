"""Models that cannot be read as they are, or not wholly: what is told, and what is checked of them still."""

from zipfile import ZipFile

import pytest
from click.testing import CliRunner
from ifc_house import Model, read

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.importers import Mapping, read_here
from precheck.project import read_project
from precheck.reports import renderer
from precheck.runs.desk import Desk, Run


def two_stories():
    model = Model()
    upper = model.story("Upper floor", 2.85)
    model.stair(steps=15, riser=0.19, going=0.26)
    model.wall("W9", (0, 0), (4, 0))
    door = model.opening("IfcDoor", "1", 2, 0, 0, 0.9, 2.03)
    model.properties(door, "Pset_DoorCommon", IsExternal=True)
    model.opening("IfcDoor", "2", 3, 0, 0, 0.9, 2.03)
    model.held(model.root("IfcWall", Name="W10", Representation=model.box((0, 3, 2.85, 4, 0.1, 2.5)),
                          ObjectPlacement=model.placed(0, 0, 0)), upper)  # fmt: skip
    return model


def test_a_model_without_rooms_says_so_first_and_its_stair_is_checked_still(tmp_path):
    found = Desk(Run("irc-2021", topics=("stairs",))).review(str(two_stories().save(tmp_path)))
    assert found.understood.startswith("This model has no rooms")
    assert "1 of 2 doors" in found.understood
    assert "1 of 1 stairs" in found.understood
    said = {finding.rule.name: finding.outcome.word for finding in found.findings}
    assert said["stairs.riser-height"] == "pass"
    assert "This model has no rooms" in renderer("text")(found)


def test_a_stair_in_a_model_without_rooms_is_held_to_the_levels_of_its_stories(tmp_path):
    model = two_stories()
    model.ifc.by_type("IfcStairFlight")[0].ObjectPlacement = model.placed(0, 0, 0.04)
    found = Desk(Run("irc-2021", topics=("stairs",))).review(str(model.save(tmp_path)))
    assert {f.rule.name: f.outcome.word for f in found.findings}["stairs.riser-height"] == "fail"


def test_the_report_opens_with_what_was_read_of_how_many(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Roof", 0, 0, 4, 3, z=3)
    model.opening("IfcWindow", "1", 2, -0.06, 0.9, 1, 1)
    model.opening("IfcWindow", "2", 40, 40, 0.9, 1, 1)
    draft, _ = read(model, tmp_path)
    assert draft.told == "Read from house.ifc: 1 of 2 rooms, 1 of 2 windows."
    done = CliRunner().invoke(cli, ["import", str(tmp_path / "house.ifc")])
    assert done.exit_code == 0
    assert draft.told in done.output
    assert draft.told in (tmp_path / "house.yaml").read_text()


def zipped(folder, *models, name="house.ifczip"):
    path = folder / name
    with ZipFile(path, "w") as packed:
        for inner, text in models:
            packed.writestr(inner, text)
    return path


def test_a_zipped_model_is_read_like_a_plain_one(tmp_path):
    plain = two_stories().save(tmp_path)
    path = zipped(tmp_path, ("house.ifc", plain.read_text()))
    packed = read_here(path, "house.ifczip", Mapping(), lambda done, total: None)
    assert packed.parts == read_here(plain, "house.ifc", Mapping(), lambda done, total: None).parts
    checked = CliRunner().invoke(cli, ["check", str(path), "--ruleset", "irc-2021", "--topic", "stairs"])
    assert checked.exit_code == 1, checked.output


@pytest.mark.parametrize(
    ("models", "told"),
    [((), "holds no files that end in .ifc"), ((("a.ifc", "x"), ("b.ifc", "x")), "holds 2 files that end in .ifc")],
)
def test_a_zip_file_without_exactly_one_model_is_refused(models, told, tmp_path):
    with pytest.raises(Unusable, match=told):
        read_here(zipped(tmp_path, *models), "x.ifczip", Mapping(), lambda done, total: None)


def test_a_broken_zip_file_is_refused(tmp_path):
    path = tmp_path / "x.ifczip"
    path.write_bytes(b"PK but no more")
    with pytest.raises(Unusable, match="cannot be unpacked"):
        read_here(path, "x.ifczip", Mapping(), lambda done, total: None)


def test_a_model_of_an_old_schema_is_refused_with_the_schemas_that_are_read(tmp_path):
    path = tmp_path / "old.ifc"
    path.write_text("ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('IFC2X_FINAL'));\nENDSEC;\nEND-ISO-10303-21;\n")
    with pytest.raises(Unusable, match="written as IFC2X_FINAL, which is no longer read; export it as IFC4"):
        read_here(path, "old.ifc", Mapping(), lambda done, total: None)


@pytest.mark.parametrize(
    ("size", "told"),
    [
        (0.001, "not in the unit that it declares"),
        (1000.0, "export the model again"),
        (1000.0, r"room is 0\.000012 m2, so its"),
    ],
)
def test_a_model_whose_lengths_are_in_another_unit_than_it_declares_is_refused(size, told, tmp_path):
    model = Model(size=size)  # declares meters
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.opening("IfcWindow", "1", 2, -0.06, 0.9, 1, 1)
    with pytest.raises(Unusable, match=told):
        read_here(model.save(tmp_path), "house.ifc", Mapping(), lambda done, total: None)


def test_names_that_are_not_understood_begin_a_mapping_file_that_makes_them_so(tmp_path):
    model = Model()
    model.space("1", "Schlafzimmer", 0, 0, 4, 3)
    model.space("2", "Kabuff", 5, 0, 4, 3)
    window = model.opening("IfcWindow", "F1", 2, -0.06, 0.9, 1, 1)
    model.properties(window, "Pset_WindowCommon", Status="Existing")
    model.wall("W1", (0, -0.1), (4, -0.1), thick=0.2, external=True, layers=[("Kalksandstein", 0.2)])
    path, names = model.save(tmp_path), tmp_path / "names.yaml"
    done = CliRunner().invoke(cli, ["import", str(path), "--begin-mapping", str(names)])
    assert done.exit_code == 0, done.output
    assert "3 names to say the meaning of" in done.output
    assert not (tmp_path / "house.yaml").exists()
    text = names.read_text()
    assert "#  Kabuff:" in text
    names.write_text(text.replace("# phase otherwise: existing", "phase otherwise: new"))
    done = CliRunner().invoke(cli, ["import", str(path), "--mapping", str(names)])
    assert done.exit_code == 0, done.output
    project = read_project(tmp_path / "house.yaml")
    assert project.spaces[0].use == "bedroom"
    assert "use" not in project.spaces[1].model_fields_set
    assert project.walls[0].layers[0].material == "concrete block"
    assert {part.id: part.phase for part in project.parts if part.kind in ("space", "window", "wall", "floor")} == {
        "Schlafzimmer": "new", "Kabuff": "new", "F1": "existing", "W1": "new", "floor-0": "new"
    }  # fmt: skip
    again = CliRunner().invoke(cli, ["import", str(path), "--begin-mapping", str(names)])
    assert "is there already" in str(again.exception)


def test_a_tag_that_only_a_program_made_gives_way_to_the_name_that_people_gave(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    door = model.opening("IfcDoor", "E605AACB-6C4E-458D-93-46-5D9D8C7C21D3", 2, -0.06, 0, 0.9, 2.03)
    door.Name = "Front door"
    window = model.opening("IfcWindow", "00000000-0000-0000-00-00-000000000000", 1, -0.06, 0.9, 0.9, 1.2)
    window.Name = "Kitchen window"
    _, project = read(model, tmp_path)
    assert [project.doors[0].id, project.windows[0].id] == ["Front-door", "Kitchen-window"]


def test_an_import_says_what_was_understood_then_what_was_not_and_what_to_look_over(tmp_path):
    model = Model()
    model.space("01", "Bedroom", 0, 0, 4, 3)
    model.space("02", "Zimmer", 5, 0, 4, 3)
    model.opening("IfcWindow", "1", 2, -0.06, 0.9, 1, 1)
    for number in range(2):
        model.held(model.root("IfcFurnishingElement", Name=f"chair {number}"))
    path = model.save(tmp_path)
    done = CliRunner().invoke(cli, ["import", str(path)])
    assert done.exit_code == 0, done.output
    said = done.output.splitlines()
    assert said[:2] == ["Read from house.ifc: 2 of 2 rooms, 1 of 1 windows.", "Rooms: Bedroom / 01, Zimmer / 02."]
    missing, looked_over = said.index("Not read, or not understood:"), said.index("Read, and to be looked over:")
    assert missing < said.index("- in the file and not taken over: furniture (2)") < looked_over
    assert any("1 name is not understood" in line for line in said[looked_over:])
    assert all(len(line) <= 80 for line in said if str(tmp_path) not in line)


def test_a_doubt_is_told_as_missing_or_to_be_looked_over_and_never_as_both(tmp_path):
    draft, _ = read(two_stories(), tmp_path)
    assert [*draft.missing, *draft.to_look_over] == draft.doubts
    assert any("left out" in line for line in draft.missing)
    assert not any("left out" in line for line in draft.to_look_over)
