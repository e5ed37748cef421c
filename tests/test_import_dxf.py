"""Drawings as projects: small ones written here, with layers, blocks and texts as offices draw them."""
# ruff: noqa: D101, D102  # what these helpers draw is in their names

from pathlib import Path

import pytest

from precheck.files.source import Unusable
from precheck.importers import Mapping, project_of, project_text, read_here, read_mapping
from precheck.importers.again import brought_up_to_date
from precheck.project import read_project
from precheck.units import Length

ezdxf = pytest.importorskip("ezdxf")
INCHES, MILLIMETRES = 1, 4


class Drawing:
    def __init__(self, unit=INCHES):
        self.document = ezdxf.new()
        self.document.header["$INSUNITS"] = unit
        self.space = self.document.modelspace()

    def room(self, *corners, layer="A-AREA", close=True):
        return self.space.add_lwpolyline(corners, close=close, dxfattribs={"layer": layer})

    def box(self, x, y, wide, deep, **named):
        return self.room((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep), **named)

    def text(self, words, x, y, layer="A-AREA-IDEN"):
        self.space.add_text(words, dxfattribs={"layer": layer, "insert": (x, y)})

    def block(self, layer, x, y, turn=0, by_jamb=None, **said):
        name = f"B{len(self.document.blocks)}"
        block = self.document.blocks.new(name)
        if by_jamb:
            block.add_line((0, 0), (by_jamb, 0))
        insert = self.space.add_blockref(name, (x, y), dxfattribs={"layer": layer, "rotation": turn})
        insert.add_auto_attribs({})
        for tag, value in said.items():
            insert.add_attrib(tag, value, (x, y))
        return insert

    def save(self, folder):
        path = folder / "plan.dxf"
        self.document.saveas(path)
        return path


def read(drawing, folder, mapping=None):
    path = drawing.save(folder)
    draft = read_here(path, "plan.dxf", mapping or Mapping(), lambda done, total: None)
    return draft, project_of(draft, path)


def two_rooms(unit=INCHES):
    drawing = Drawing(unit)
    drawing.box(0, 0, 144, 120)
    drawing.text("BEDROOM 1", 60, 60)
    drawing.box(148.5, 0, 60, 120)
    drawing.text("HALL", 170, 60)
    return drawing


def test_closed_lines_are_spaces_named_by_the_text_in_them(tmp_path):
    _, project = read(two_rooms(), tmp_path)
    bedroom, hall = project.spaces
    assert (bedroom.id, bedroom.use, hall.use) == ("BEDROOM-1", "bedroom", "hall")
    assert bedroom.outline[1] == (Length.parse("12 ft"), Length.parse("0 in"))
    assert hall.outline[0][0] == Length.parse("148 1/2 in")


@pytest.mark.parametrize(
    ("unit", "told"), [(1, "144 in"), (2, "1728 in"), (4, "144 mm"), (5, "1440 mm"), (6, "144000 mm")]
)
def test_the_unit_of_the_drawing_is_honoured(unit, told, tmp_path):
    draft, _ = read(two_rooms(unit), tmp_path)
    assert told in project_text(draft)


def test_a_drawing_without_a_unit_is_refused_until_a_mapping_file_says_it(tmp_path):
    drawing = two_rooms(unit=0)
    with pytest.raises(Unusable, match=r"does not say its unit .*drawing unit: inches"):
        read(drawing, tmp_path)
    (tmp_path / "names.yaml").write_text("drawing unit: inches\n")
    _, project = read(drawing, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert project.spaces[0].outline[1][0] == Length.parse("12 ft")


def test_rooms_that_no_room_can_be_so_large_are_told(tmp_path):
    draft, _ = read(two_rooms(unit=6), tmp_path)
    assert any("which is no room; check the unit" in doubt for doubt in draft.doubts)


def test_a_block_is_a_door_between_the_spaces_on_both_sides(tmp_path):
    drawing = two_rooms()
    drawing.block("A-DOOR", 146.25, 60, turn=90, MARK="3", WIDTH="2'-8\"", HEIGHT="80", TYPE="Side-hinged")
    _, project = read(drawing, tmp_path)
    door = project.doors[0]
    assert (door.id, set(door.between), door.operation) == ("D3", {"BEDROOM-1", "HALL"}, "side-hinged")
    assert (door.unit_size.width, door.unit_size.height) == (Length.parse("32 in"), Length.parse("80 in"))
    assert door.middle == (Length.parse("146 1/4 in"), Length.parse("60 in"))


def test_a_block_placed_by_its_jamb_stands_at_its_middle(tmp_path):
    drawing = two_rooms()
    drawing.block("A-DOOR", 146.25, 44, turn=90, by_jamb=32, MARK="3", WIDTH="32", HEIGHT="80")
    _, project = read(drawing, tmp_path)
    assert project.doors[0].middle[1] == Length.parse("60 in")


def test_an_opening_with_one_space_beside_it_leads_outside_and_it_is_told(tmp_path):
    drawing = two_rooms()
    drawing.block("A-DOOR", 60, -3, MARK="1", WIDTH="36", HEIGHT="80")
    drawing.block("A-GLAZ", 100, -3, MARK="1", WIDTH="48", HEIGHT="42", TYPE="slider", SILL="40")
    draft, project = read(drawing, tmp_path)
    assert project.doors[0].between == ("BEDROOM-1", "outside")
    assert (project.windows[0].space, project.windows[0].operation) == ("BEDROOM-1", "slider")
    assert project.windows[0].sill_height == Length.parse("40 in")
    assert any("D1: no space is drawn on its other side" in doubt for doubt in draft.doubts)


def test_a_block_beside_no_space_and_one_without_attributes_are_told(tmp_path):
    drawing = two_rooms()
    drawing.block("A-DOOR", 900, 900, MARK="9", WIDTH="36", HEIGHT="80")
    drawing.block("A-DOOR", 60, -3, WIDTH="wide", HEIGHT="80")
    draft, project = read(drawing, tmp_path)
    assert any(doubt.startswith("left out: door D9") for doubt in draft.doubts)
    assert any("holds no length that is understood" in doubt and "(wide)" in doubt for doubt in draft.doubts)
    assert "unit_size" not in project.doors[0].model_fields_set


def test_text_in_a_closet_within_a_room_names_the_closet(tmp_path):
    drawing = two_rooms()
    drawing.box(100, 80, 40, 30)
    drawing.text("CLOSET", 110, 90)
    _, project = read(drawing, tmp_path)
    assert [space.name for space in project.spaces] == ["BEDROOM 1", "HALL", "CLOSET"]


def test_a_written_area_that_is_not_the_drawn_one_is_told(tmp_path):
    drawing = two_rooms()
    drawing.text("120 SF", 60, 50)
    drawing.text("75 SF", 170, 50)
    draft, _ = read(drawing, tmp_path)
    told = [doubt for doubt in draft.doubts if "written in it is not the area drawn" in doubt]
    assert len(told) == 1
    assert "HALL (75 SF" in told[0]
    assert "BEDROOM" not in told[0]


def test_lines_that_are_open_or_curved_are_told_and_other_layers_counted(tmp_path):
    drawing = two_rooms()
    drawing.room((300, 0), (400, 0), (400, 100), close=False)
    drawing.space.add_lwpolyline([(500, 0, 0, 0, 0.5), (600, 0, 0, 0, 0), (600, 90, 0, 0, 0)], close=True,
                                 dxfattribs={"layer": "A-AREA"})  # fmt: skip
    drawing.space.add_line((0, 0), (9, 9), dxfattribs={"layer": "A-WALL"})
    draft, project = read(drawing, tmp_path)
    assert len(project.spaces) == 2
    assert any("not closed; not taken over" in doubt for doubt in draft.doubts)
    assert any("has a curved side" in doubt for doubt in draft.doubts)
    assert "in the file and not taken over: entities on layer A-WALL (1)" in draft.doubts


def test_a_line_whose_ends_meet_is_closed_without_the_flag(tmp_path):
    drawing = Drawing()
    drawing.room((0, 0), (120, 0), (120, 100), (0, 100), (0, 0), close=False)
    _, project = read(drawing, tmp_path)
    assert len(project.spaces[0].outline) == 4


def test_a_mapping_file_names_the_layers_and_tags_of_an_office(tmp_path):
    drawing = Drawing()
    drawing.box(0, 0, 144, 120, layer="Raum")
    drawing.text("Kammer", 60, 60, layer="Raumtext")
    drawing.block("Tueren", 60, -3, BREITE="36", HOEHE="80", NUMMER="4")
    names = """\
uses: {Kammer: storage}
layers: {spaces: [raum], names: [raumtext], doors: [tueren]}
attributes: {width: [Breite], height: [Hoehe], mark: [Nummer]}
"""
    (tmp_path / "names.yaml").write_text(names)
    _, project = read(drawing, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert (project.spaces[0].use, project.doors[0].id) == ("storage", "D4")
    assert project.doors[0].unit_size.width == Length.parse("36 in")


def test_what_is_written_is_read_back_and_the_part_stands_at_its_handle(tmp_path):
    drawing = two_rooms()
    draft, project = read(drawing, tmp_path)
    (tmp_path / "plan.yaml").write_text(project_text(draft))
    assert read_project(tmp_path / "plan.yaml").spaces[1].outline == project.spaces[1].outline
    handle = project.spaces[1].drawn_from.split()[1]
    lines = (tmp_path / "plan.dxf").read_text().splitlines()
    assert lines[project.spaces[1].place.line - 1].strip() == handle
    assert Path(project.spaces[1].place.file).name == "plan.dxf"


def test_middle_lines_of_walls_on_a_mapped_layer_become_a_wall_for_each_pair_of_spaces(tmp_path):
    drawing = two_rooms()
    drawing.space.add_line((146.25, 0), (146.25, 120), dxfattribs={"layer": "WALL-CENTER"})
    drawing.space.add_line((0, -3), (208.5, -3), dxfattribs={"layer": "WALL-CENTER"})
    (tmp_path / "names.yaml").write_text("layers: {walls: [WALL-CENTER]}\nwall thickness: 4 1/2 in\n")
    draft, project = read(drawing, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert [wall.between for wall in project.walls] == [
        ("BEDROOM-1", "HALL"), ("BEDROOM-1", "outside"), ("HALL", "outside"),
    ]  # fmt: skip
    assert project.walls[0].from_ == (Length.parse("146 1/4 in"), Length.parse("0 in"))
    assert project.walls[1].to[0] == project.walls[2].from_[0] == Length.parse("146 1/4 in")
    assert len({wall.drawn_from for wall in project.walls}) == 3
    assert any("taken for the outside" in doubt for doubt in draft.doubts)


def test_walls_need_their_thickness_and_a_layer_that_is_mapped(tmp_path):
    drawing = two_rooms()
    drawing.space.add_line((146.25, 0), (146.25, 120), dxfattribs={"layer": "WALL-CENTER"})
    draft, project = read(drawing, tmp_path)
    assert project.walls == ()
    assert any("entities on layer WALL-CENTER (1)" in doubt for doubt in draft.doubts)
    (tmp_path / "names.yaml").write_text("layers: {walls: [WALL-CENTER]}\n")
    draft, project = read(drawing, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert project.walls == ()
    assert any("write `wall thickness: 4 1/2 in`" in doubt for doubt in draft.doubts)


def test_a_wall_before_a_space_that_is_not_drawn_is_left_out(tmp_path):
    drawing = two_rooms()
    drawing.box(0, 300, 144, 120)
    drawing.space.add_line((0, 122.25), (144, 122.25), dxfattribs={"layer": "W"})
    (tmp_path / "names.yaml").write_text("layers: {walls: [W]}\nwall thickness: 4 1/2 in\n")
    draft, project = read(drawing, tmp_path, read_mapping(tmp_path / "names.yaml"))
    assert project.walls == ()
    assert any("what lies on both sides of it is not drawn" in doubt for doubt in draft.doubts)


def test_beams_are_lines_and_posts_blocks_on_their_layers(tmp_path):
    drawing = two_rooms()
    drawing.space.add_line((0, 60), (144, 60), dxfattribs={"layer": "S-BEAM"})
    drawing.space.add_lwpolyline([(0, 20), (50, 20), (50, 100)], dxfattribs={"layer": "S-BEAM"})
    drawing.block("S-COLS", 72, 60, MARK="P1", PHASE="existing")
    _, project = read(drawing, tmp_path)
    beams = [member for member in project.members if member.role == "beam"]
    assert [str(beam.span) for beam in beams] == ["144 in", "50 in", "80 in"]
    assert beams[0].to == (Length.parse("144 in"), Length.parse("60 in"))
    post = project.by_id["P1"]
    assert (post.role, post.phase, post.at) == ("post", "existing", (Length.parse("72 in"), Length.parse("60 in")))


def test_receptacles_and_lights_are_blocks_in_the_space_round_them_or_beside_their_wall(tmp_path):
    drawing = two_rooms()
    drawing.block("E-POWR", 144, 60, MARK="7")
    drawing.block("E-POWR", 146.25, 30)
    drawing.block("E-POWR", 900, 900)
    drawing.block("E-LITE", 170, 60)
    draft, project = read(drawing, tmp_path)
    assert [(one.id, one.space) for one in project.receptacles] == [("R7", "BEDROOM-1")]
    assert project.receptacles[0].at == (Length.parse("144 in"), Length.parse("60 in"))
    assert [light.space for light in project.lights] == ["HALL"]
    assert any("it is drawn between BEDROOM-1 and HALL" in doubt for doubt in draft.doubts)
    assert any("no space is drawn round it" in doubt for doubt in draft.doubts)


def test_importing_a_drawing_again_keeps_what_a_person_wrote_of_a_wall_and_a_beam(tmp_path):
    (tmp_path / "names.yaml").write_text("layers: {walls: [W]}\nwall thickness: 4 1/2 in\n")
    mapping = read_mapping(tmp_path / "names.yaml")
    drawing = two_rooms()
    wall = drawing.space.add_line((146.25, 0), (146.25, 120), dxfattribs={"layer": "W"})
    beam = drawing.space.add_line((0, 60), (144, 60), dxfattribs={"layer": "S-BEAM"})
    path = tmp_path / "plan.yaml"
    text = project_text(read(drawing, tmp_path, mapping)[0])
    text = text.replace("    between: [BEDROOM-1, HALL]", "    phase: existing  # seen\n    between: [BEDROOM-1, HALL]")
    path.write_text(text.replace("    role: beam", "    size: 4x10  # measured\n    role: beam"))
    beam.dxf.end, wall.dxf.end = (140, 60), (146.25, 118)
    again, changes = brought_up_to_date(path, read(drawing, tmp_path, mapping)[0])
    path.write_text(again)
    project = read_project(path)
    assert (project.walls[0].phase, str(project.walls[0].to[1])) == ("existing", "118 in")
    assert (project.members[0].size, str(project.members[0].span)) == ("4x10", "140 in")
    assert "size: 4x10  # measured" in again
    assert len(changes) == 3
