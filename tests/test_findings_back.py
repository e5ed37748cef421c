"""Findings that go back into the program a design file comes from: BCF, IDS, a marked drawing, ids of the model."""

from __future__ import annotations

import json
import os
from importlib.util import find_spec
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from ifc_house import Model

from precheck.files.source import Unusable
from precheck.reports import renderer
from precheck.reports.bcf.topics import topics_of
from precheck.reports.in_model import box_of, design_file, in_world
from precheck.review.finding import Review
from precheck.runs.desk import Desk, Run
from precheck.survey import House

TOPICS = ("rooms", "light-and-air", "doors", "escape")


def house(site: bool = True) -> Model:
    """Return a bedroom and a hall with a door, a window to the outside, and a site that is turned and raised."""
    model = Model()
    model.space("01", "Hall", 0, 0, 4.0, 5.0)
    model.space("02", "Bedroom", 4.12, 0, 3.0, 5.0)
    model.wall("W1", (-0.1, -0.1), (7.2, -0.1), thick=0.2, external=True)
    model.opening("IfcDoor", "D1", 4.06, 2.0, 0, 0.9, 2.1, turned=True)
    model.opening("IfcWindow", "F1", 5.5, -0.1, 1.3, 0.8, 0.8)
    if site:
        model.stand(x=100.0, y=20.0, z=112.0, degrees=34.0)
    return model


def reviewed(path: Path, **options: Any) -> Review:
    """Return the review of a design or project file for a few topics."""
    return Desk(Run("irc-2021", topics=TOPICS, **options)).review(str(path))


@pytest.fixture(scope="module")
def model_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the model of the house."""
    return house().save(tmp_path_factory.mktemp("model"))


@pytest.fixture(scope="module")
def review(model_file: Path) -> Review:
    """Return the review of the house."""
    return reviewed(model_file)


def packed(form: str, review: Review, folder: Path) -> Path:
    """Return the file of that format."""
    path = folder / f"findings.{form}zip"
    path.write_bytes(renderer(form)([review]))
    return path


def schemas(version: str) -> Path:
    """Return the folder with the published schemas of a version of BCF; skip where it is not on this machine."""
    pytest.importorskip("xmlschema")
    found = find_spec("bcf_api_xml") if version == "2.1" else None
    if found is not None and found.submodule_search_locations:
        return Path(found.submodule_search_locations[0]) / "Schemas"
    folder = Path(os.environ.get("PRECHECK_SCHEMAS", "")) / f"bcf-{version}"
    if not os.environ.get("PRECHECK_SCHEMAS") or not folder.is_dir():
        pytest.skip(f"PRECHECK_SCHEMAS names no folder with bcf-{version}/*.xsd, which buildingSMART publishes")
    return folder


def test_json_and_sarif_name_the_part_as_the_model_does(review: Review) -> None:
    ids = {part.id: part.drawn_from.split()[1] for part in review.project.parts if part.drawn_from}
    findings = json.loads(renderer("json")([review]))["findings"]
    of_parts = [one["subject"] for one in findings if one["subject"]["id"] in ids]
    assert of_parts
    assert all(subject["global_id"] == ids[subject["id"]] for subject in of_parts)
    results = json.loads(renderer("sarif")([review]))["runs"][0]["results"]
    assert {result["properties"]["globalId"] for result in results} <= {*ids.values(), ""}
    assert any(result["properties"]["globalId"] for result in results)


@pytest.mark.parametrize(("form", "version"), [("bcf", "2.1"), ("bcf3", "3.0")])
def test_bcf_is_valid_by_the_published_schemas(form: str, version: str, review: Review, tmp_path: Path) -> None:
    folder = schemas(version)
    import xmlschema

    kinds = {
        "markup.bcf": "markup",
        "viewpoint.bcfv": "visinfo",
        "bcf.version": "version",
        "extensions.xml": "extensions",
    }
    read = {name: xmlschema.XMLSchema(str(folder / f"{name}.xsd")) for name in {"markup", "visinfo", "version"}}
    if version == "3.0":
        read["extensions"] = xmlschema.XMLSchema(str(folder / "extensions.xsd"))
    with ZipFile(packed(form, review, tmp_path)) as made:
        for name in made.namelist():
            text = made.read(name).decode()
            assert [error.reason for error in read[kinds[name.rpartition("/")[2]]].iter_errors(text)] == []


@pytest.mark.parametrize(("form", "module"), [("bcf", "bcf.v2.bcfxml"), ("bcf3", "bcf.v3.bcfxml")])
def test_a_general_library_reads_every_topic_and_its_view_back(
    form: str, module: str, review: Review, tmp_path: Path
) -> None:
    library = pytest.importorskip(module)
    read = library.BcfXml.load(packed(form, review, tmp_path))
    made = {topic.guid: topic for topic in topics_of([review])}
    assert {guid.lower() for guid in read.topics} == set(made)
    for guid, topic in read.topics.items():
        assert topic.topic.title == made[guid].title
        (view,) = topic.viewpoints.values()
        chosen = view.visualization_info.components.selection
        given = tuple(one.ifc_guid for one in chosen.component) if chosen is not None else ()
        assert given == made[guid].view.selected


def test_each_finding_is_a_topic_and_the_first_says_what_was_checked(review: Review) -> None:
    first, *rest = topics_of([review])
    told = [f for f in review.findings if f.outcome.word in ("fail", "warn", "not shown", "error")]
    assert len(rest) == len(told) > 5
    assert first.title.startswith("What was checked")
    assert "NOT READY" in first.description
    assert "local building department has the final say" in first.description
    assert len({topic.guid for topic in (first, *rest)}) == len(rest) + 1
    assert {topic.created for topic in rest} == {"1980-01-01T00:00:00Z"}


def test_topics_are_dated_by_the_day_of_application(model_file: Path) -> None:
    from datetime import date

    dated = reviewed(model_file, on=date(2026, 3, 1))
    assert {topic.created for topic in topics_of([dated])} == {"2026-03-01T00:00:00Z"}


def test_the_same_review_gives_the_same_bytes(review: Review) -> None:
    for form in ("bcf", "bcf3", "ids"):
        assert renderer(form)([review]) == renderer(form)([review])


def test_the_view_of_a_window_looks_at_where_it_stands_in_the_world_of_the_model(review: Review) -> None:
    from math import cos, radians, sin

    part = next(part for part in review.project.windows)
    box = box_of(part, House(review.project))
    assert box is not None
    x, y, z = in_world(box.middle, design_file(review.project))
    c, s = cos(radians(34)), sin(radians(34))
    assert (x, y) == pytest.approx((100 + c * 5.5 + s * 0.1, 20 + s * 5.5 - c * 0.1), abs=0.07)
    assert z == pytest.approx(112 + 1.3 + 0.4, abs=0.01)


def test_a_project_that_is_drawn_from_no_model_has_topics_without_selection(tmp_path: Path) -> None:
    path = tmp_path / "plain.yaml"
    path.write_text("project: Plain\nspaces: [{id: den, use: office, phase: new}]\n")
    found = topics_of([reviewed(path)])
    assert len(found) > 1
    assert all(topic.view is None for topic in found)
    with pytest.raises(Unusable, match="drawn from an IFC model"):
        renderer("ids")([reviewed(path)])


def test_ids_is_valid_and_asks_the_elements_that_lack_a_value(review: Review, model_file: Path, tmp_path: Path) -> None:
    ids = pytest.importorskip("ifctester.ids")
    import ifcopenshell

    path = tmp_path / "wanted.ids"
    path.write_bytes(renderer("ids")([review]))
    asked = ids.open(str(path), validate=True)
    asked.validate(ifcopenshell.open(str(model_file)))
    assert len(asked.specifications) > 3
    assert all(one.applicable_entities for one in asked.specifications)
    assert not any(one.status for one in asked.specifications)
    names = {one.name for one in asked.specifications}
    assert {"IfcWindow: openable area", "IfcWindow: operation"} <= names


def test_ids_calls_a_value_within_a_part_by_words(tmp_path: Path) -> None:
    model = house(site=False)
    model.space("11", "Landing", 0, 0, 4.0, 5.0, z=2.8, story=model.story("Upper floor", 2.8))
    model.stair(steps=14, riser=0.2, going=0.25)
    found = Desk(Run("irc-2021", topics=("stairs",))).review(str(model.save(tmp_path)))
    text = renderer("ids")([found]).decode()
    assert 'name="IfcStair: headroom of flight 1"' in text
    assert "<simpleValue>flights.1.headroom</simpleValue>" in text  # what an import reads it by


def test_what_ids_asks_for_is_read_once_the_model_holds_it(tmp_path: Path) -> None:
    model = house()
    window = model.ifc.by_type("IfcWindow")[0]
    door = model.ifc.by_type("IfcDoor")[0]
    room = model.ifc.by_type("IfcSpace")[1]
    model.properties(window, "Precheck", **{"glazed area": "6 sq ft", "opens to": "sideways"})
    model.properties(door, "Precheck", glazed=False, middle="[0 mm, 0 mm]")
    model.properties(room, "Precheck", **{"ceiling.framing level": "9 ft", "nowhere.at all": "1"})
    found = reviewed(model.save(tmp_path))
    assert str(found.project.windows[0].glazed_area) == "6 sq ft"
    assert found.project.doors[0].glazed is False
    assert str(found.project.spaces[1].ceiling.framing_level) == "9 ft"
    told = " ".join(found.not_checked)
    assert "opens to cannot be so" in told
    assert "the model shows middle by itself" in told


def drawing(folder: Path) -> Path:
    """Return a drawing of two rooms and a door, in inches."""
    ezdxf = pytest.importorskip("ezdxf")
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 1
    space = document.modelspace()
    for x, name in ((0, "BEDROOM"), (130, "HALL")):
        corners = [(x, 0), (x + 120, 0), (x + 120, 100), (x, 100)]
        space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "A-AREA"})
        space.add_text(name, dxfattribs={"layer": "A-AREA-IDEN"}).set_placement((x + 60, 50))
    path = folder / "plan.dxf"
    document.saveas(path)
    return path


def test_a_drawing_comes_back_with_the_numbers_of_the_findings_on_their_rooms(tmp_path: Path) -> None:
    import ezdxf

    path = drawing(tmp_path)
    before = len(ezdxf.readfile(path).modelspace())
    found = reviewed(path)
    marked = tmp_path / "marked.dxf"
    marked.write_bytes(renderer("dxf")([found]))
    space = ezdxf.readfile(marked).modelspace()
    ours = [entity for entity in space if entity.dxf.layer == "PRECHECK"]
    assert len(space) - len(ours) == before
    numbers = [e for e in ours if e.dxftype() == "TEXT"]
    (listed,) = [e for e in ours if e.dxftype() == "MTEXT"]
    assert numbers
    assert all(f"{number.dxf.text}. " in listed.plain_text() for number in numbers)
    assert all(0 < number.dxf.align_point.y < 45 for number in numbers)  # below the names, and in their rooms
    assert {round(number.dxf.height, 1) for number in numbers} == {4.2}  # inches: a sixtieth of the plan
    assert "final say" in listed.plain_text()
    assert renderer("dxf")([found]) == marked.read_bytes()


def test_a_marked_drawing_is_marked_anew_and_not_twice(tmp_path: Path) -> None:
    import ezdxf

    path = drawing(tmp_path)
    path.write_bytes(renderer("dxf")([reviewed(path)]))
    once = len(ezdxf.readfile(path).modelspace())
    path.write_bytes(renderer("dxf")([reviewed(path)]))
    assert len(ezdxf.readfile(path).modelspace()) == once


def test_what_is_no_drawing_is_not_marked(review: Review) -> None:
    with pytest.raises(Unusable, match="not drawn from a DXF drawing"):
        renderer("dxf")([review])
    with pytest.raises(Unusable, match="one drawing at a time"):
        renderer("dxf")([review, review])
