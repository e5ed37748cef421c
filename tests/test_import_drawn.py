"""A drawn plan as a project: what no person confirmed is not shown, what is confirmed is used, and a changed thing is asked anew."""

import json
from math import hypot

import pytest
from click.testing import CliRunner
from drawn_plans import HOUSE, INCHES, METERS, WINDOWS, DrawnPlan, feet, house
from jsonschema import validate

from precheck.cli import cli
from precheck.files.missing import is_missing
from precheck.files.source import read_text
from precheck.importers import Mapping, project_of, project_text, read_here, read_mapping
from precheck.importers.again import brought_up_to_date
from precheck.importers.begun_mapping import begun_mapping
from precheck.project import project_from, read_project
from precheck.reports.recognized import render
from precheck.units import Length

ezdxf = pytest.importorskip("ezdxf")
ROOMS = {"BEDROOM-1", "KITCHEN", "HALL", "LIVING-ROOM", "BATH"}


def read(plan, folder, mapping=None):
    path = plan.save(folder)
    draft = read_here(path, "plan.dxf", mapping or Mapping(), lambda done, total: None)
    return draft, project_of(draft, path)


def confirmed(folder, draft, without=()):
    """Return the mapping that a person makes of a begun one, by taking the marks away before all but some."""
    rows = begun_mapping(draft).split("\n")
    start = rows.index("confirmed:")
    kept = [row.removeprefix("#") for row in rows[start:] if not any(f" {name}:" in row for name in without)]
    path = folder / "mapping.yaml"
    path.write_text("\n".join([*rows[:start], *kept]), encoding="utf-8")
    return read_mapping(path)


def run(*words):
    return CliRunner().invoke(cli, [str(word) for word in words])


def outcomes(path, mapping=None):
    more = ("--mapping", mapping) if mapping else ()
    result = run("check", path, "--ruleset", "irc-2021", "--report", "json", *more)
    found = json.loads(result.stdout)
    return {(f["rule"], f["subject"]["id"]): f["outcome"] for f in found["findings"]}


def test_rooms_that_nobody_confirmed_have_their_names_and_no_outline(tmp_path):
    draft, project = read(house(), tmp_path)
    assert {space.id for space in project.spaces} == ROOMS
    assert not any(space.outline for space in project.spaces)
    assert (project.doors, project.windows) == ((), ())
    assert project.stories[0].not_drawn == ("rooms", "doors", "windows")
    assert "5 of 5 names of rooms in an outline of their own, 0 of 5 rooms confirmed" in draft.told


def test_no_pass_rests_on_an_outline_that_nobody_confirmed(tmp_path):
    path = house().save(tmp_path)
    passes = {rule for (rule, _), outcome in outcomes(path).items() if outcome == "pass"}
    assert passes <= {"package.room-use", "package.forms", "plan.stories"}
    (tmp_path / "map.yaml").write_text("confirmed: {}\n", encoding="utf-8")
    assert outcomes(path)["rooms.area", "BEDROOM-1"] == "not shown"
    assert outcomes(path)["rooms.hall-width", "HALL"] == "not shown"


def test_what_a_person_confirmed_is_used_with_its_exact_size(tmp_path):
    draft, _ = read(house(), tmp_path)
    _, project = read(house(), tmp_path, confirmed(tmp_path, draft))
    bedroom = next(space for space in project.spaces if space.id == "BEDROOM-1")
    xs = {x for x, _ in bedroom.outline}
    assert max(xs) - min(xs) == Length.parse("12 ft")
    hall = next(space for space in project.spaces if space.id == "HALL")
    assert max(y for _, y in hall.outline) - min(y for _, y in hall.outline) == Length.parse("42 in")
    assert {frozenset(door.between) for door in project.doors} == {
        frozenset(pair)
        for pair in (
            ("BEDROOM-1", "HALL"),
            ("KITCHEN", "HALL"),
            ("LIVING-ROOM", "HALL"),
            ("BATH", "HALL"),
            ("HALL", "outside"),
        )
    }
    assert sorted(window.space for window in project.windows) == ["BATH", "BEDROOM-1", "KITCHEN", "LIVING-ROOM"]
    assert next(door for door in project.doors if "BEDROOM-1" in door.between).swings_into == "BEDROOM-1"


def test_confirmed_rooms_pass_what_they_meet(tmp_path):
    path = house().save(tmp_path)
    draft = read_here(path, "plan.dxf", Mapping(), lambda done, total: None)
    confirmed(tmp_path, draft)
    found = outcomes(path, tmp_path / "mapping.yaml")
    assert found["rooms.area", "BEDROOM-1"] == found["rooms.hall-width", "HALL"] == "pass"


def test_a_door_beside_a_room_that_is_not_confirmed_is_left_out_and_told(tmp_path):
    draft, _ = read(house(), tmp_path)
    again, project = read(house(), tmp_path, confirmed(tmp_path, draft, without=("BATH",)))
    assert not any("BATH" in door.between for door in project.doors)
    assert not next(space for space in project.spaces if space.id == "BATH").outline
    assert any("a room beside it is not" in doubt for doubt in again.doubts)
    assert len(project.doors) == 4


def test_a_room_that_changed_since_it_was_confirmed_is_asked_anew(tmp_path):
    draft, _ = read(house(), tmp_path)
    mapping = confirmed(tmp_path, draft)
    wider = tuple(p._replace(deep=126) if p.name in ("LIVING ROOM", "BATH") else p for p in HOUSE)
    plan = house(rooms=wider, windows=())
    again, project = read(plan, tmp_path, mapping)
    assert not next(space for space in project.spaces if space.id == "LIVING-ROOM").outline
    assert next(space for space in project.spaces if space.id == "BEDROOM-1").outline
    assert any("confirmed as something else" in doubt and "LIVING-ROOM" in doubt for doubt in again.doubts)


def test_a_doubtful_room_is_left_out_until_a_person_confirms_it(tmp_path):
    plan = house(sizes=False)
    plan.text("DINING", 30, 190)
    draft, project = read(plan, tmp_path)
    assert {space.id for space in project.spaces} == ROOMS - {"LIVING-ROOM"}
    assert any("several names" in doubt for doubt in draft.doubts)
    _, project = read(plan, tmp_path, confirmed(tmp_path, draft))
    one = next(space for space in project.spaces if "DINING" in space.name)
    assert one.outline
    assert one.use != "living room"


def test_a_call_out_of_the_drawn_width_gives_the_size_and_another_one_is_told(tmp_path):
    plan = house()
    plan.text("2668", 115, 114, height=4)
    plan.text("3068", 216, 114, height=4)
    draft, _ = read(plan, tmp_path)
    _, project = read(plan, tmp_path, confirmed(tmp_path, draft))
    bedroom = next(door for door in project.doors if "BEDROOM-1" in door.between)
    kitchen = next(door for door in project.doors if "KITCHEN" in door.between)
    assert str(bedroom.unit_size) == "30 in x 80 in"
    assert is_missing(kitchen.unit_size)
    assert any("of another width" in doubt and "3068" in doubt for doubt in draft.doubts)


def test_the_unit_of_the_header_is_told_where_the_drawing_says_another(tmp_path):
    draft, _ = read(house(unit=INCHES, said=METERS), tmp_path)
    assert draft.form == "DXF in inches"
    assert any("its header says meters, and it is read in inches" in doubt for doubt in draft.doubts)


def test_a_plan_on_which_no_window_was_found_says_so_and_the_layer_named_then_gives_them(tmp_path):
    plan = house(windows=[])
    for gap in WINDOWS:
        plan.window(gap, layer="LINES")
    draft, _ = read(plan, tmp_path)
    assert (
        "no windows were recognized; name the layer that holds them under `layers: windows:` in a mapping file"
        in draft.doubts
    )
    (tmp_path / "mapping.yaml").write_text('phases: {}\nlayers: {windows: ["LINES"]}\n', encoding="utf-8")
    found, _ = read(plan, tmp_path, read_mapping(tmp_path / "mapping.yaml"))
    assert len([one for one in found.recognized.things if one.kind == "window"]) == len(WINDOWS)
    assert not [one for one in found.doubts if "no windows" in one]


def test_a_unit_that_cannot_be_told_is_asked_and_a_mapping_file_gives_it(tmp_path):
    plan = DrawnPlan(said=METERS)
    plan.walls(HOUSE, ())
    plan.names(HOUSE, sizes=False)
    draft, project = read(plan, tmp_path)
    assert project.spaces == ()
    assert any("what unit it is drawn in cannot be told" in doubt for doubt in draft.doubts)
    path = tmp_path / "m.yaml"
    path.write_text("drawing unit: inches\n", encoding="utf-8")
    assert len(read(plan, tmp_path, read_mapping(path))[1].spaces) == len(HOUSE)


def test_a_drawing_without_a_named_room_is_no_plan_and_that_is_said(tmp_path):
    plan = DrawnPlan()
    plan.walls(HOUSE, ())
    draft, project = read(plan, tmp_path)
    assert project.spaces == ()
    assert draft.told.startswith("No floor plan was recognized")


def test_a_plan_that_is_turned_lies_along_its_own_axes_and_says_where_in_the_drawing(tmp_path):
    draft, _ = read(house(turn=30), tmp_path)
    _, project = read(house(turn=30), tmp_path, confirmed(tmp_path, draft))
    assert float(project.design_file.turned / type(project.design_file.turned).parse("1 deg")) == pytest.approx(
        30, abs=0.01
    )
    bedroom = next(space for space in project.spaces if space.id == "BEDROOM-1")
    assert len({round(float(x / Length.parse("1 in")), 1) for x, _ in bedroom.outline}) == 2


def test_plans_beside_each_other_are_stories_of_their_own(tmp_path):
    plan = house()
    upper = tuple(p._replace(name=f"{p.name} UP", x=p.x + 800) for p in HOUSE[:1])
    plan.walls([p._replace(wide=130) for p in upper], ())
    plan.text("BEDROOM 4", 860, 60)
    plan.text(f"{feet(130)} x {feet(120)}", 860, 50)
    draft, project = read(plan, tmp_path)
    assert [story.id for story in project.stories] == ["plan-1", "plan-2"]
    assert any("plans lie beside each other" in doubt for doubt in draft.doubts)


def test_the_written_project_is_read_back_and_imported_again_keeps_what_a_person_wrote(tmp_path):
    draft, _ = read(house(), tmp_path)
    mapping = confirmed(tmp_path, draft)
    full, _ = read(house(), tmp_path, mapping)
    path = tmp_path / "plan.yaml"
    text = project_text(full).replace("use: bedroom  #", "phase: existing\n    use: bedroom  #")
    path.write_text(text, encoding="utf-8")
    assert len(read_project(path).spaces) == len(HOUSE)
    brought, changes = brought_up_to_date(path, read(house(), tmp_path, mapping)[0])
    assert (brought, changes) == (text, [])


def test_a_begun_mapping_is_read_back_and_names_the_layers_that_were_taken(tmp_path):
    draft, _ = read(house(), tmp_path)
    path = tmp_path / "begun.yaml"
    path.write_text(begun_mapping(draft), encoding="utf-8")
    begun = read_mapping(path)
    assert (begun.layers.wall_faces, begun.layers.doors, begun.layers.windows) == (
        ("A-WALL",),
        ("A-DOOR",),
        ("A-GLAZ",),
    )
    assert begun.drawing_unit == "inches"
    assert not begun.confirmed
    schema = json.loads(run("schema", "mapping").stdout)
    validate(json.loads(json.dumps(read_text(begun_mapping(draft), ""))), schema)


def test_the_picture_shows_each_room_with_its_grade_and_closes_doubtful_gaps_with_dashes(tmp_path):
    plan = house()
    plan.text("LAUNDRY <x>", -3, 60)
    draft, _ = read(plan, tmp_path)
    picture = render(draft.recognized)
    assert all(f"{name} (A)" in picture for name in ROOMS)
    assert "<x>" not in picture


def test_import_draws_the_picture_begins_the_mapping_and_opens_with_what_was_understood(tmp_path):
    path = house().save(tmp_path)
    result = run("import", path, "--picture", tmp_path / "plan.svg")
    lines = result.stderr.splitlines()
    assert "5 of 5 names of rooms in an outline of their own" in " ".join(lines)
    assert max(map(len, lines)) <= 80
    assert (tmp_path / "plan.svg").read_text(encoding="utf-8").startswith("<svg")
    assert run("import", path, "--begin-mapping", tmp_path / "m.yaml").exit_code == 0
    assert project_from(read_text((tmp_path / "plan.yaml").read_text(encoding="utf-8"), "")).spaces


def test_numbers_of_findings_stand_where_a_part_lies_in_a_drawing_that_is_turned_against_the_plan(tmp_path):
    plan = house(turn=30, moved=(2000.0, 3000.0))
    path = plan.save(tmp_path)
    confirmed(tmp_path, read_here(path, "plan.dxf", Mapping(), lambda done, total: None))
    run("check", path, "--mapping", tmp_path / "mapping.yaml", "--ruleset", "irc-2021", "--report", "dxf",
        "--output", tmp_path / "out.dxf")  # fmt: skip
    rings = [e for e in ezdxf.readfile(tmp_path / "out.dxf").modelspace().query("CIRCLE") if e.dxf.layer == "PRECHECK"]
    for window in WINDOWS:
        at = plan.at(window.x + window.wide / 2, window.y + window.deep / 2)
        assert min(hypot(ring.dxf.center.x - at[0], ring.dxf.center.y - at[1]) for ring in rings) < 2
