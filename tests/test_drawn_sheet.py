"""A DXF drawing as a sheet: blocks taken apart, hidden layers left out, arcs, texts and dimensions as a plot shows them."""

import ezdxf
import pytest

from precheck.importers.drawn import dxf_sheet as reader
from precheck.importers.drawn.dxf_sheet import dxf_sheet
from precheck.importers.drawn.sizes import area_in, ceiling_height_in, length_in, opening_code, sizes_in


@pytest.fixture
def document():
    return ezdxf.new()


def lines(document):
    return [(tuple(round(n, 6) for n in (*one.start, *one.end)), one.layer) for one in dxf_sheet(document).lines]


def test_what_lies_in_a_block_on_layer_0_is_on_the_layer_of_the_insert_at_any_depth(document):
    inner, outer = document.blocks.new("INNER"), document.blocks.new("OUTER")
    inner.add_line((0, 0), (1, 0))
    inner.add_line((0, 0), (0, 1), dxfattribs={"layer": "A-OWN"})
    outer.add_blockref("INNER", (10, 0), dxfattribs={"rotation": 90})
    insert = document.modelspace().add_blockref(
        "OUTER", (100, 0), dxfattribs={"layer": "A-WALL", "xscale": 2, "yscale": 2}
    )
    assert lines(document) == [((120, 0, 120, 2), "A-WALL"), ((120, 0, 118, 0), "A-OWN")]
    assert {one.handle for one in dxf_sheet(document).lines} == {insert.dxf.handle}


def test_layers_that_are_off_or_frozen_and_what_is_invisible_are_not_read(document):
    for name in ("OFF", "FROZEN", "ON"):
        document.layers.add(name)
        document.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": name})
    document.layers.get("OFF").off()
    document.layers.get("FROZEN").freeze()
    document.modelspace().add_line((0, 0), (2, 0), dxfattribs={"layer": "ON", "invisible": 1})
    assert lines(document) == [((0, 0, 1, 0), "ON")]


def test_a_layer_of_a_bound_reference_is_called_by_its_own_name(document):
    document.modelspace().add_line((0, 0), (1, 0), dxfattribs={"layer": "floor$0$A-Wall"})
    assert lines(document) == [((0, 0, 1, 0), "A-WALL")]


def test_quarter_arcs_are_swings_also_in_polylines_and_mirrored_blocks_and_other_arcs_are_lines(document):
    space, block = document.modelspace(), document.blocks.new("DOOR")
    block.add_arc((0, 0), 30, 0, 90)
    space.add_blockref("DOOR", (100, 0), dxfattribs={"xscale": -1})
    space.add_lwpolyline([(0, 0, 0.41421356), (30, 30, 0)], format="xyb")
    space.add_arc((0, 0), 50, 0, 180)
    sheet = dxf_sheet(document)
    (mirrored, bulged) = sorted(sheet.swings, key=lambda one: -one.center[0])
    assert (mirrored.center, mirrored.radius, round(mirrored.begins), round(mirrored.ends)) == ((100, 0), 30, 90, 180)
    assert bulged.radius == pytest.approx(30, abs=1e-4)
    assert len(sheet.lines) > 6


def test_texts_stand_at_the_middle_of_their_box_however_they_are_placed(document):
    space = document.modelspace()
    space.add_text("HALL", height=10).set_placement((50, 50), align=ezdxf.enums.TextEntityAlignment.MIDDLE_CENTER)
    space.add_text("HALL", height=10, dxfattribs={"insert": (35, 45)})
    space.add_mtext(
        "{\\fArial|b0;HALL}\\P10' x 12'", dxfattribs={"insert": (50, 50), "char_height": 10, "attachment_point": 5}
    )
    block = document.blocks.new("TAG")
    block.add_attdef("NAME", (0, 0))
    tag = space.add_blockref("TAG", (0, 0), dxfattribs={"layer": "TAGS"})
    tag.add_attrib("NAME", "BATH", (5, 5)).dxf.height = 4
    sheet = dxf_sheet(document)
    assert [text.text for text in sheet.texts] == ["HALL", "HALL", "HALL 10' x 12'", "BATH"]
    assert all(text.at == pytest.approx((50, 50), abs=1) for text in sheet.texts[:3])
    assert sheet.blocks[0].said == (("NAME", "BATH"),)


def test_a_dimension_says_what_it_measures_and_what_it_shows(document):
    space = document.modelspace()
    space.add_linear_dim(base=(0, -20), p1=(0, 0), p2=(144, 0), text="12'-0\"").render()
    space.add_linear_dim(base=(0, -40), p1=(0, 0), p2=(144, 0)).render()
    first, second = dxf_sheet(document).dimensions
    assert (first.measured, first.shown) == (144, "12'-0\"")
    assert second.shown == "144"
    assert dxf_sheet(document).lines == []


def test_a_drawing_that_is_too_large_is_read_in_part_and_that_is_told(document, monkeypatch):
    monkeypatch.setattr(reader, "MOST", 50)
    for n in range(80):
        document.modelspace().add_line((0, n), (1, n))
    sheet = dxf_sheet(document)
    assert len(sheet.lines) == 51
    assert "more than 50 lines" in sheet.told[0]


def test_blocks_nested_too_deeply_are_left_out_and_told(document):
    for n in range(12):
        block = document.blocks.new(f"B{n}")
        block.add_line((0, 0), (1, 0))
        if n:
            block.add_blockref(f"B{n - 1}", (0, 0))
    document.modelspace().add_blockref("B11", (0, 0))
    sheet = dxf_sheet(document)
    assert len(sheet.lines) == reader.DEEPEST
    assert "blocks nested too deeply" in sheet.told[0]


@pytest.mark.parametrize(("text", "sides"), [
    ("10'-0\" x 12'-4 1/2\"", (120, 148.5)), ("BEDROOM 1 10' X 12'", (120, 144)), ("12'4\"x9'", (148, 108)),
    ("3.20 x 4.10", (3.2 / 0.0254, 4.1 / 0.0254)), ("3,20 m x 4,10 m", (3.2 / 0.0254, 4.1 / 0.0254)),
    ("3200x4100", (3.2 / 0.0254, 4.1 / 0.0254)), ("10’-6” × 9’", (126, 108)),
])  # fmt: skip
def test_sizes_are_read_as_drafters_write_them(text, sides):
    (size,) = sizes_in(text)
    assert (size.first / 0.0254, size.second / 0.0254) == pytest.approx(sides)


def test_call_outs_areas_heights_and_lengths_are_read_and_other_numbers_are_none():
    assert opening_code("2668") == pytest.approx((30 * 0.0254, 80 * 0.0254))
    assert opening_code("16070") == pytest.approx((192 * 0.0254, 84 * 0.0254))
    assert opening_code("12") is opening_code("A2668") is opening_code("0668") is None
    assert area_in("A = 12,5 m2") == 12.5
    assert area_in("1,200 SQ. FT.") == pytest.approx(111.48, abs=0.01)
    assert area_in("ROOM 12") is None
    assert ceiling_height_in("CLG. HT. 8'-1 1/2\"")[0] == pytest.approx(97.5 * 0.0254)
    assert ceiling_height_in("8'-1\" WALL") is None
    assert length_in("12'-6\"") == pytest.approx(150 * 0.0254)
    assert list(sizes_in("2x6 @ 16 in, 5/8 x 1")) == []


def test_what_has_no_numbers_for_its_place_is_left_out_and_told(document):
    space, nowhere = document.modelspace(), float("nan")
    space.add_line((0, 0), (nowhere, 0))
    space.add_line((0, 0), (1e300, 0))
    space.add_arc((0, 0), nowhere, 0, 90)
    space.add_text("HALL", dxfattribs={"insert": (nowhere, 0)})
    space.add_line((0, 0), (1, 0))
    sheet = dxf_sheet(document)
    assert (len(sheet.lines), sheet.swings, sheet.texts) == (1, [], [])
    assert sheet.told == ["not read in the drawing: 1 broken ARC, 2 broken LINE"]
