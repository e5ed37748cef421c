"""The command: a project file from a design file; again after a revision, with what a person added kept; bad files."""

import importlib
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from sampled import long_save

from precheck.cli import cli
from precheck.files.source import Unusable
from precheck.importers import Mapping
from precheck.importers.again import brought_up_to_date
from precheck.importers.apart import read_apart
from precheck.importers.bounded import MEMORY, SECONDS
from precheck.importers.draft import Draft, Value
from precheck.importers.writing import project_text
from precheck.project import read_project


def space(part, name, width, **more):
    corners = f"[[0 in, 0 in], [{width}, 0 in], [{width}, 9 ft], [0 in, 9 ft]]"
    return {
        "id": Value(part, "#1"), "drawn from": Value(f"IfcSpace guid-{part}"), "name": Value(name, "#1 LongName"),
        "outline": Value(corners, "its body"), "ceiling": {"height": Value("96 in", "its body")}, **more,
    }  # fmt: skip


def draft(*spaces, doubts=()):
    made = Draft("house.ifc", "IFC4", "House")
    for entry in spaces:
        made.add("spaces", entry)
    for doubt in doubts:
        made.doubt(doubt)
    return made


def window(part, where):
    return {"id": Value(part, "#9"), "drawn from": Value(f"IfcWindow guid-{part}"), "space": Value(where, "beside it")}


@pytest.fixture
def file(tmp_path):
    path = tmp_path / "house.yaml"
    text = project_text(draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft"), doubts=["something old"]))
    text = text.replace("project: House\n", "project: House\njurisdiction: irc-2021  # ours\n")
    text = text.replace("    name: Bedroom", "    use: bedroom  # asked on site\n    name: Bedroom")
    path.write_text(text)
    return path


def test_a_changed_value_is_brought_up_to_date_and_what_a_person_added_stays(file):
    text, changes = brought_up_to_date(file, draft(space("01", "Bedroom", "11 ft"), space("02", "Hall", "5 ft")))
    file.write_text(text)
    project = read_project(file)
    assert str(project.spaces[0].outline[1][0]) == "11 ft"
    assert project.spaces[0].use == "bedroom"
    assert "use: bedroom  # asked on site" in text
    assert "jurisdiction: irc-2021  # ours" in text
    assert len(changes) == 1
    assert "outline was `[[0 in, 0 in], [10 ft, 0 in]" in changes[0]


def test_the_doubts_at_the_top_are_those_of_the_new_revision(file):
    text, _ = brought_up_to_date(file, draft(space("01", "Bedroom", "10 ft"), doubts=["something new"]))
    assert "something new" in text
    assert "something old" not in text
    assert text.count("# In doubt:") == 1


def test_nothing_changes_where_the_design_file_did_not(file):
    before = file.read_text()
    text, changes = brought_up_to_date(
        file, draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft"), doubts=["something old"])
    )
    assert changes == []
    assert text == before


def test_a_part_that_a_person_renamed_is_known_by_its_source_and_references_follow(file):
    file.write_text(file.read_text().replace("id: 01", "id: main-bedroom"))
    again = draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft"))
    again.add("windows", window("W1", "01"))
    text, _ = brought_up_to_date(file, again)
    file.write_text(text)
    project = read_project(file)
    assert [one.id for one in project.spaces] == ["main-bedroom", "02"]
    assert project.windows[0].space == "main-bedroom"


def test_a_value_that_the_new_revision_no_longer_gives_is_no_longer_a_value(file):
    with_area = draft(
        space("01", "Bedroom", "10 ft", area=Value("90 sq ft", "#2 NetFloorArea")), space("02", "Hall", "5 ft")
    )
    file.write_text(brought_up_to_date(file, with_area)[0])
    assert str(read_project(file).spaces[0].area) == "90 sq ft"
    assert "area: 90 sq ft  # from #2 NetFloorArea" in file.read_text()
    text, changes = brought_up_to_date(file, draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft")))
    file.write_text(text)
    assert "area" not in read_project(file).spaces[0].model_fields_set
    assert read_project(file).spaces[0].use == "bedroom"
    assert "    # area: 90 sq ft" in text
    assert "01: area was `90 sq ft`, and this revision does not give it; now a comment" in changes


def test_what_stands_after_a_value_names_the_entities_of_the_new_revision(file):
    again = draft(space("01", "Bedroom", "11 ft"), space("02", "Hall", "5 ft"))
    again.parts["spaces"][1]["name"] = Value("Hall", "#77 LongName")
    again.parts["spaces"][0]["ceiling"]["height"] = Value("96 in", "#78 its body")
    text, changes = brought_up_to_date(file, again)
    assert "name: Hall  # from #77 LongName" in text
    assert "height: 96 in  # from #78 its body" in text
    assert len(changes) == 1


def test_what_a_person_put_in_place_of_an_imported_value_stays_and_the_other_is_told(file):
    file.write_text(
        file.read_text().replace("name: Hall  # from #1 LongName", "name: Back hall  # as the owner calls it")
    )
    text, changes = brought_up_to_date(file, draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft")))
    assert "name: Back hall  # as the owner calls it" in text
    assert changes == ["02: name stays `Back hall`, as a person wrote; the design file says `Hall` (from #1 LongName)"]


def test_a_new_part_is_added_to_its_list_and_one_that_is_gone_is_told_and_kept(file):
    text, changes = brought_up_to_date(file, draft(space("01", "Bedroom", "10 ft"), space("03", "Bath", "6 ft")))
    file.write_text(text)
    assert [one.id for one in read_project(file).spaces] == ["01", "02", "03"]
    assert "03: new in this revision" in changes
    assert "02: no longer in the design file; take it out, or mark it `phase: removed`" in changes


def test_a_part_that_a_person_wrote_stays_and_a_new_one_of_its_id_takes_another(file):
    file.write_text(file.read_text() + "\nwindows:\n  - {id: W1, space: 01, operation: fixed}\n")
    again = draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft"))
    again.add("windows", window("W1", "02"))
    text, _ = brought_up_to_date(file, again)
    file.write_text(text)
    project = read_project(file)
    assert [(one.id, one.space) for one in project.windows] == [("W1", "01"), ("W1-new", "02")]
    assert project.windows[0].operation == "fixed"


def test_a_list_that_a_person_indents_otherwise_takes_new_parts_in_its_own_column(file):
    file.write_text(file.read_text() + "windows:\n- id: W0\n  space: 01\n")
    again = draft(space("01", "Bedroom", "10 ft"), space("02", "Hall", "5 ft"))
    again.add("windows", window("W1", "02"))
    text, _ = brought_up_to_date(file, again)
    file.write_text(text)
    assert [one.id for one in read_project(file).windows] == ["W0", "W1"]


def test_a_project_file_that_cannot_be_read_is_left_as_it_is(file):
    file.write_text("spaces: [\n")
    with pytest.raises(Unusable):
        brought_up_to_date(file, draft())
    assert file.read_text() == "spaces: [\n"


def drawing(folder, wide=144):
    ezdxf = pytest.importorskip("ezdxf")
    document = ezdxf.new()
    document.header["$INSUNITS"] = 1
    corners = [(0, 0), (wide, 0), (wide, 120), (0, 120)]
    document.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "A-AREA"})
    document.modelspace().add_text("BEDROOM", dxfattribs={"layer": "A-AREA-IDEN", "insert": (60, 60)})
    document.saveas(folder / "plan.dxf")
    return folder / "plan.dxf"


def run(*arguments):
    return CliRunner().invoke(cli, [str(one) for one in arguments], catch_exceptions=True)


def test_the_command_writes_a_project_file_beside_the_design_file_and_says_the_doubts(tmp_path):
    result = run("import", drawing(tmp_path))
    assert result.exit_code == 0
    assert "plan.yaml: 1 part; no doubt" in result.output
    assert read_project(tmp_path / "plan.yaml").spaces[0].use == "bedroom"
    assert "entities on layer" not in result.output


def test_the_command_brings_a_file_up_to_date_and_check_reads_both(tmp_path):
    run("import", drawing(tmp_path))
    path = tmp_path / "plan.yaml"
    path.write_text(path.read_text().replace("    name: ", "    phase: altered\n    name: "))
    result = run("import", drawing(tmp_path, wide=150))
    assert result.exit_code == 0
    assert "outline was" in result.output
    project = read_project(path)
    assert (project.spaces[0].phase, str(project.spaces[0].outline[1][0])) == ("altered", "150 in")
    assert run("check", path, "--ruleset", "irc-2021").exit_code == 1
    direct = run("check", tmp_path / "plan.dxf", "--ruleset", "irc-2021")
    assert direct.exit_code == 1
    assert "BEDROOM" in direct.output


IFC = "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\nFILE_NAME('','',(''),(''),'','','');\n"
HOSTILE = {
    "empty.ifc": b"",
    "text.ifc": b"a shopping list\n",
    "cut-off.ifc": (IFC + "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n#1=IFCWALL('x").encode(),
    "no-project.ifc": (IFC + "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n").encode(),
    "other-schema.ifc": (IFC + "FILE_SCHEMA(('AP214'));\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n").encode(),
    "nonsense.ifc": (
        IFC + "FILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n#1=IFCSPACE(#1,#1);\nENDSEC;\nEND-ISO-10303-21;\n"
    ).encode(),
    "noise.ifc": b"ISO-10303-21;" + bytes(range(256)) * 40 + b"END-ISO-10303-21;",
    "empty.dxf": b"",
    "text.dxf": b"a shopping list\n",
    "cut-off.dxf": b"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n",
    "drawing.dxf": b"AC1032" + bytes(500),
    "noise.dxf": bytes(range(1, 256)) * 40 + b"\n0\nEOF\n",
    "no-header.dxf": b"0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n",
}


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("command", ["check", "import"])
def test_a_file_that_is_broken_or_no_design_file_ends_in_a_message(name, command, tmp_path, monkeypatch, capsys):
    pytest.importorskip("ifcopenshell" if name.endswith("ifc") else "ezdxf")
    (tmp_path / name).write_bytes(HOSTILE[name])
    monkeypatch.setattr(sys, "argv", ["precheck", command, str(tmp_path / name)])
    from precheck.cli import main

    with pytest.raises(SystemExit) as stopped:
        main()
    assert stopped.value.code == 2
    said = capsys.readouterr().err
    assert f"{name}:1:1: " in said
    assert "Traceback" not in said
    assert not (tmp_path / name).with_suffix(".yaml").exists()


def test_a_design_file_that_is_not_there_and_a_file_of_another_kind_are_refused(tmp_path):
    (tmp_path / "house.txt").write_text("a house")
    (tmp_path / "folder.ifc").mkdir()
    for name, told in (
        ("house.ifc", "there is no such file"), ("house", "there is no such file"), ("house.txt", "this is no design file"),
        ("folder.ifc", "this is a folder; name the model or drawing in it"),
    ):  # fmt: skip
        with pytest.raises(Unusable, match=told):
            CliRunner().invoke(cli, ["import", str(tmp_path / name)], catch_exceptions=False, standalone_mode=False)


@pytest.mark.parametrize("command", ["import", "check"])
def test_standard_input_is_refused_with_what_to_do(command, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Unusable, match="standard input has no name by which its kind is known; save it to a file"):
        CliRunner().invoke(cli, [command, "-"], input="ISO-10303-21;", catch_exceptions=False, standalone_mode=False)


def test_a_missing_package_is_named_with_its_extra(tmp_path, monkeypatch):
    path = drawing(tmp_path)
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(Unusable, match=r"precheck\[dxf\]"):
        CliRunner().invoke(cli, ["check", str(path)], catch_exceptions=False, standalone_mode=False)


@pytest.mark.parametrize(
    ("does", "told"),
    [("os.abort()", "the reader broke off"), ("raise KeyError('#7')", "KeyError: '#7'"), ("os._exit(0)", "broke off"),
     ("bytearray(10**15)", "more memory than there is; export less of it")],
)  # fmt: skip
def test_a_reader_that_breaks_off_ends_in_a_message(does, told, tmp_path, monkeypatch):
    module = f"reader_that_{len(does)}"
    (tmp_path / f"{module}.py").write_text(f"import os\n\ndef read(path, name, mapping, tick):\n    {does}\n")
    monkeypatch.syspath_prepend(tmp_path)
    reader = importlib.import_module(module).read
    with pytest.raises(Unusable, match=told):
        read_apart(reader, tmp_path / "a.ifc", "a.ifc", Mapping(), lambda done, total: None)


@pytest.mark.parametrize("ending", long_save([".pdf", ".dxf"], ".pdf"))
def test_a_drawing_that_takes_too_long_ends_at_the_limit_with_what_to_do(ending, tmp_path, monkeypatch):
    limits = pytest.importorskip("resource")
    module = f"reader_of_too_much_{ending[1:]}"
    does = (
        "    held = resource.getrlimit(resource.RLIMIT_CPU)[0], resource.getrlimit(resource.RLIMIT_AS)[0]\n"
        f"    assert held == ({SECONDS}, {MEMORY}), held\n    resource.setrlimit(resource.RLIMIT_CPU, (1, 3))\n"
        "    while True:\n        pass\n"
    )
    (tmp_path / f"{module}.py").write_text(f"import resource\n\ndef read(path, name, mapping, tick):\n{does}")
    monkeypatch.syspath_prepend(tmp_path)
    reader = importlib.import_module(module).read
    with pytest.raises(Unusable, match=f"takes more than {SECONDS} s of work; .* the plan alone"):
        read_apart(reader, tmp_path / f"a{ending}", f"a{ending}", Mapping(), lambda done, total: None)
    assert limits.getrlimit(limits.RLIMIT_CPU)[0] != SECONDS  # of this process


def test_checking_a_project_file_loads_no_reader_of_design_files():
    import subprocess

    code = "import sys; from precheck.cli import main\ntry: main()\nexcept SystemExit: pass\n"
    code += "print([m for m in ('ifcopenshell', 'ezdxf', 'numpy', 'precheck.importers') if m in sys.modules])"
    example = Path(__file__).parents[1] / "examples" / "sketch" / "sketch.yaml"
    call = [sys.executable, "-c", code, "check", "--ruleset", "irc-2021", str(example)]
    assert subprocess.run(call, capture_output=True, text=True, check=True).stdout.splitlines()[-1] == "[]"
