"""Names of a model that would act on what shows them act on nothing in what goes back to the program that it comes from."""

from __future__ import annotations

import zipfile
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from test_inert import HOSTILE, acting, commands, precheck

pytestmark = pytest.mark.long


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a model whose rooms have every hostile name."""
    ifcopenshell = pytest.importorskip("ifcopenshell")
    made = tmp_path_factory.mktemp("model")
    model = ifcopenshell.file(schema="IFC4")
    owner = model.create_entity("IfcProject", GlobalId="0" * 22, Name=" ".join(HOSTILE))
    rooms = [
        model.create_entity("IfcSpace", GlobalId=f"{n:022}", Name=name, LongName=f"Bedroom {name}")
        for n, name in enumerate(HOSTILE, 1)
    ]
    model.create_entity("IfcRelAggregates", GlobalId="2" * 22, RelatingObject=owner, RelatedObjects=rooms)
    model.write(str(made / "h.ifc"))
    return made


@pytest.mark.parametrize("report", ["bcf", "bcf3", "ids"])
def test_hostile_names_of_a_model_act_on_nothing_in_what_goes_back_to_its_program(folder: Path, report: str) -> None:
    out = folder / f"out.{report}"
    found = precheck("check", "h.ifc", "--ruleset", "irc-2021", "--report", report, "--output", out.name, cwd=folder)
    assert found.returncode == 1, found.stderr
    assert commands(found.stderr.decode() + found.stdout.decode()) == []
    if not zipfile.is_zipfile(out):
        texts = {out.name: out.read_bytes()}
    else:
        with zipfile.ZipFile(out) as archive:
            texts = {name: archive.read(name) for name in archive.namelist()}
    for name, text in texts.items():
        assert name.isprintable()
        assert not name.startswith("/")
        assert ".." not in name
        if not name.endswith(".png"):
            assert acting(text.decode()) == [], name
            ET.fromstring(text)


def test_an_import_tells_hostile_names_without_acting_on_any(folder: Path) -> None:
    found = precheck("import", "h.ifc", "--output", "p.yaml", cwd=folder)
    told = found.stderr.decode() + found.stdout.decode()
    assert found.returncode == 0, told
    assert (acting(told), commands(told)) == ([], [])
    assert acting((folder / "p.yaml").read_text(encoding="utf-8")) == []
    assert precheck("check", "p.yaml", "--ruleset", "irc-2021", cwd=folder).returncode == 1
