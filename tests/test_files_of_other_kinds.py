"""What people hand in instead of a project, a model or a drawing: one clear sentence each, with what to do, and exit 2."""

from __future__ import annotations

import gzip
from pathlib import Path
from zipfile import ZipFile

import pytest
from click.testing import CliRunner
from ifc_house import Model

from precheck.cli import cli, main
from precheck.files.foreign import ENDINGS, KINDS, kind_of, refuse_foreign
from precheck.files.source import Unusable

DWG, PDF, ZIP = b"AC1027\x00\x00\x00", b"%PDF-1.7\n%\xe2\xe3\n", b"PK\x03\x04\x14\x00"
RVT, SKP = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"\xff\xfe\xff\x0eS\0k\0e\0t\0c\0h\0U\0p\0"
PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0\x00\x10JFIF"
IFC, DXF = b"ISO-10303-21;\nHEADER;\n", b"  0\r\nSECTION\r\n  2\r\nHEADER\r\n"
HANDED_IN = [
    ("house.dwg", DWG, "a DWG drawing is not read as it is; save it as DXF"),
    ("house.rvt", RVT, "export the house as IFC, or its plan as DXF"),
    ("house.skp", SKP, "export the house as IFC, or its plan as DXF"),
    ("house.png", PNG, "a picture is not read as it is; take the drawing as DXF or IFC"),
    ("house.docx", ZIP, "a document of an office program is not read"),
    ("house.zip", ZIP, "a zip file is not read as it is; unpack it and name the file in it"),
    ("house.yaml", PDF, "this is a PDF under another name; give it a name that ends in .pdf"),
    ("house.yaml", DWG, "this is a DWG drawing under another name; save it as DXF"),
    ("house.yaml", ZIP, "this is a zip file under another name; unpack it"),
    ("house.yaml", IFC, "this is an IFC model under another name; give it a name that ends in .ifc"),
    ("house.yaml", DXF, "this is a DXF drawing under another name; give it a name that ends in .dxf"),
    ("house.dxf", DWG, "this is a DWG drawing under the name of a DXF drawing; save it as DXF"),
    ("house.dxf", PDF, "this is a PDF under the name of a DXF drawing; give it a name that ends in .pdf"),
    ("house.dxf", SKP, "under the name of a DXF drawing; export the house as IFC"),
    ("house.dxf", IFC, "this is an IFC model under the name of a DXF drawing; give it a name that ends in .ifc"),
    ("house.dxf", gzip.compress(DXF, mtime=0), "this is a packed file under the name of a DXF drawing; unpack it"),
    ("house.dxf", DXF, "the file is cut off: its last line, EOF, is not there; save or copy it again"),
    ("house.dxf", b"hall\nbath\n", "this is no DXF drawing, whatever its name says; save it as DXF"),
    ("house.dxf", b"", "the file is empty; save or copy it again"),
    ("house.ifc", RVT, "under the name of an IFC model; export the house as IFC"),
    ("house.ifc", DXF, "this is a DXF drawing under the name of an IFC model; give it a name that ends in .dxf"),
    ("house.ifc", ZIP, "this is a zip file under the name of an IFC model; unpack it"),
    ("house.ifc", IFC, "the file is cut off: its last line, END-ISO-10303-21, is not there; export or copy it again"),
    ("house.ifc", b"\n", "the file is empty; save or copy it again"),
    ("house.ifczip", IFC, "this zip file cannot be unpacked (File is not a zip file); export or copy it again"),
    ("house.ifczip", ZIP, "this zip file cannot be unpacked"),
]  # fmt: skip


def told_of(command: str, path: Path) -> str:
    """Return the one problem that a command tells of a file."""
    done = CliRunner().invoke(cli, [command, str(path)])
    assert isinstance(done.exception, Unusable), done.output
    (problem,) = done.exception.problems
    assert problem.place[:2] == (str(path), 1)
    assert not (path.parent / "house-2.yaml").exists()
    return problem.what


@pytest.mark.parametrize("command", ["check", "import"])
@pytest.mark.parametrize(("name", "held", "told"), HANDED_IN, ids=[f"{name}: {told}" for name, _, told in HANDED_IN])
def test_each_is_refused_in_one_sentence_with_what_to_do(
    command: str, name: str, held: bytes, told: str, tmp_path: Path
) -> None:
    path = tmp_path / name
    path.write_bytes(held)
    assert told in told_of(command, path)


@pytest.mark.parametrize("command", ["check", "import"])
def test_a_model_whose_lengths_are_in_another_unit_is_refused(command: str, tmp_path: Path) -> None:
    model = Model(size=0.001)  # declares meters
    model.space("01", "Bedroom", 0, 0, 4, 3)
    assert "not in the unit that it declares; export the model again" in told_of(command, model.save(tmp_path))


@pytest.mark.parametrize("held", [[], ["a.ifc", "b.ifc"], ["plan.dwg"]])
def test_a_zip_file_without_one_model_says_what_to_put_in_it(held: list[str], tmp_path: Path) -> None:
    with ZipFile(tmp_path / "house.ifczip", "w") as packed:
        for name in held:
            packed.writestr(name, IFC)
    assert "files that end in .ifc; put exactly one in it" in told_of("check", tmp_path / "house.ifczip")


@pytest.mark.parametrize("command", ["check", "import"])
def test_what_cannot_be_used_exits_with_2(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "house.dwg").write_bytes(DWG)
    monkeypatch.setattr("sys.argv", ["precheck", command, str(tmp_path / "house.dwg")])
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 2
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.parametrize(("ending", "kind"), ENDINGS.items())
def test_each_ending_that_is_known_says_what_to_do_instead(ending: str, kind: str) -> None:
    with pytest.raises(Unusable) as refused:
        refuse_foreign(f"plan{ending.upper()}")
    assert refused.value.problems[0].what == f"{KINDS[kind].name} is not read as it is; {KINDS[kind].instead}"


@pytest.mark.parametrize("text", ["project: A house\n", "# AC1027\nproject: A house\n", "\ufeffproject: P\n", ""])
def test_a_project_file_is_taken_for_nothing_else(text: str, tmp_path: Path) -> None:
    assert kind_of(text.encode()) == ""
    path = tmp_path / "house.yaml"
    path.write_text(text, encoding="utf-8")
    refuse_foreign(path)


@pytest.mark.parametrize(
    ("start", "kind"), [(DXF, "DXF"), (b"999\nmade by hand\n  0\nSECTION\n", "DXF"), (JPEG, "picture")]
)
def test_a_kind_is_told_by_how_a_file_begins(start: bytes, kind: str) -> None:
    assert kind_of(start) == kind
