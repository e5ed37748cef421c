"""Rooms recognized from the lines of a plan: areas against the clear rectangles that it was drawn from, grades, doubts."""

from math import pi
from random import Random

import pytest
import shapely
from drawn_plans import (
    DOORS,
    HOUSE,
    INCHES,
    METERS,
    MILLIMETERS,
    WINDOWS,
    DrawnPlan,
    Gap,
    LooseLines,
    Place,
    by_single_lines,
    feet,
    house,
)

from precheck.importers.drawing import UNITS
from precheck.importers.drawn.dxf_sheet import dxf_sheet
from precheck.importers.drawn.recognize import recognize
from precheck.importers.mapping import Layers, Mapping, Names

SQUARE_INCH = 0.0254**2


def recognized(plan, **names):
    said = UNITS.get(plan.document.header["$INSUNITS"], ("", 0))[0]
    return recognize(dxf_sheet(plan.document, said), Mapping(Names(**names)))


def rooms(plan, **names):
    return {room.called: room for room in recognized(plan, **names).rooms}


def areas(found):
    return {name: round(room.face.area / SQUARE_INCH, 1) for name, room in found.items()}


def drawn(places):
    return {place.name: round(place.wide * place.deep, 1) for place in places}


def grades(found):
    return {name: room.grade for name, room in found.items()}


def test_rooms_whose_written_size_agrees_are_of_the_first_grade_with_their_clear_areas():
    found = rooms(house())
    assert areas(found) == drawn(HOUSE)
    assert set(grades(found).values()) == {"A"}


def test_rooms_without_a_size_are_of_the_second_grade_where_their_walls_are_drawn():
    found = rooms(house(sizes=False))
    assert areas(found) == drawn(HOUSE)
    assert set(grades(found).values()) == {"B"}


@pytest.mark.parametrize("said", [INCHES, MILLIMETERS, METERS, 0])
@pytest.mark.parametrize("unit", [INCHES, MILLIMETERS, METERS])
def test_the_unit_is_told_by_what_is_drawn_whatever_the_header_says(unit, said):
    assert areas(rooms(house(unit=unit, said=said))) == drawn(HOUSE)


@pytest.mark.parametrize("given", [
    {"turn": 10}, {"turn": 34}, {"turn": 90}, {"turn": -71.3}, {"moved": (40000.0, -90000.0)}, {"mirrored": True},
    {"turn": 34, "mirrored": True, "moved": (5000.0, 800.0), "unit": METERS},
])  # fmt: skip
def test_a_plan_turned_moved_or_mirrored_has_the_same_rooms(given):
    found = recognized(house(**given))
    assert areas({room.called: room for room in found.rooms}) == pytest.approx(drawn(HOUSE), rel=1e-3)
    assert {room.grade for room in found.rooms} == {"A"}
    assert len([swing for swing in found.swings if swing.closed]) == len(DOORS)


def test_a_leaf_that_reaches_the_opposite_wall_cuts_no_hall_in_two():
    rooms_ = [
        p._replace(deep=30.0) if p.name == "HALL" else p for p in HOUSE if p.name in ("HALL", "BEDROOM 1", "KITCHEN")
    ]
    leaf = Gap(100, 120, 30, 4.5, (100, 124.5), 0, 90)
    plan = DrawnPlan()
    plan.walls(rooms_, (leaf,))
    plan.swing(leaf, leaf_layer="A-WALL")
    plan.names(rooms_, sizes=False)
    assert areas(rooms(plan))["HALL"] == 288.5 * 30


@pytest.mark.parametrize("how", [
    LooseLines(over=3.0), LooseLines(over=3.0, caps=False), LooseLines(over=3.0, sizes=True), LooseLines(caps=False),
    LooseLines(over=-1.0), LooseLines(jitter=0.3, caps=False), LooseLines(windows=False, sizes=True),
])  # fmt: skip
def test_lines_that_run_over_stop_short_or_do_not_quite_meet_give_the_same_rooms(how):
    found = rooms(by_single_lines(how, Random(1)))
    assert areas(found) == pytest.approx(drawn(HOUSE), rel=0.01)
    assert set(grades(found).values()) == ({"A"} if how.sizes else {"B"})


def mistaken(seed):
    """Return the plan of the house with lines too many or too few on the layer of its walls."""
    chance = Random(seed)
    how = LooseLines(chance.choice([0, 0, 3]), chance.choice([0, 0, 0.05]), chance.random() < 0.7, chance.random() < 0.8,
                     chance.random() < 0.8)  # fmt: skip
    plan = by_single_lines(how, chance)
    room, x, y = chance.choice(HOUSE), chance.uniform(0, 290), chance.uniform(0, 320)
    back, wide, deep = chance.choice([1, 2, 4, 6, 10, 18, 24]), chance.uniform(12, 60), chance.uniform(12, 40)
    walls = [entity for entity in plan.space if entity.dxf.layer == "A-WALL"]
    mistakes = (
        lambda: plan.line((-20, y), (320, y), "A-WALL"),
        lambda: plan.line((x, -20), (x, 340), "A-WALL"),
        lambda: plan.line((room.x, room.y + back), (room.x + room.wide, room.y + back), "A-WALL"),
        lambda: plan.line((room.x + back, room.y), (room.x + back, room.y + room.deep), "A-WALL"),
        lambda: plan.shape(shapely.box(room.x, room.y, room.x + wide, room.y + deep)),
        lambda: plan.space.delete_entity(chance.choice(walls)),
    )
    chance.choice(mistakes)()
    return plan


def wrongly_taken(seed):
    found = recognized(mistaken(seed)).rooms
    return [
        (seed, room.called)
        for room in found
        if room.grade != "C" and abs(room.face.area / SQUARE_INCH / drawn(HOUSE)[room.called] - 1) > 0.05
    ]


@pytest.mark.parametrize("seed", range(8))
def test_no_room_is_taken_wrongly_where_one_line_is_too_many_or_missing(seed):
    assert wrongly_taken(seed) == []


@pytest.mark.long
def test_no_room_is_taken_wrongly_where_one_line_of_many_plans_is_too_many_or_missing():
    assert [one for seed in range(8, 300) for one in wrongly_taken(seed)] == []


def test_the_call_out_of_a_door_is_no_size_of_a_room():
    plan = house(sizes=False)
    plan.text("2'-6\" x 6'-8\"", 72, 48, height=4)
    found = rooms(plan)
    assert found["BEDROOM 1"].grade == "B"
    assert found["BEDROOM 1"].size is None


def test_a_plan_drawn_twice_gives_its_rooms_once():
    plan = house()
    for entity in list(plan.space.query("LINE ARC TEXT")):
        copy = entity.copy()
        plan.space.add_entity(copy)
        copy.translate(500, 0, 0)
    found = recognized(plan)
    assert sorted(room.called for room in found.rooms) == sorted(drawn(HOUSE))
    assert len(found.copies) == len(HOUSE)


def test_two_rooms_of_one_name_and_size_that_stand_alone_are_both_kept():
    two = [Place("CLOSET", 0, 0, 60, 30), Place("CLOSET", 64.5, 0, 60, 30), Place("BATH", 0, 34.5, 124.5, 90)]
    plan = DrawnPlan()
    plan.walls(two, ())
    plan.names(two)
    assert sorted(room.called for room in recognized(plan, drawing_unit="inches").rooms) == ["BATH", "CLOSET", "CLOSET"]


def test_the_body_of_a_thick_wall_is_no_room_though_a_name_stands_in_it():
    plan = DrawnPlan()
    plan.walls(HOUSE, (*DOORS, *(gap._replace(y=-18, deep=18) for gap in WINDOWS[:2])), thick=18.0)
    plan.names(HOUSE)
    for gap in DOORS:
        plan.swing(gap)
    plan.text("STORAGE", 297, 200)
    found = recognized(plan)
    assert "STORAGE" not in {room.called for room in found.rooms}
    assert [name.text for _, name in found.lost] == ["STORAGE"]
    assert areas({room.called: room for room in found.rooms}) == drawn(HOUSE)


def test_names_that_no_wall_parts_are_asked_for_and_taken_by_nobody():
    plan = house(sizes=False)
    plan.text("DINING", 30, 190)
    found = rooms(plan)
    assert found["LIVING ROOM / DINING"].grade == "C"
    assert "several names" in found["LIVING ROOM / DINING"].why


def test_an_old_outline_on_the_layer_of_walls_is_never_taken_for_a_wall_unasked():
    plan = house(sizes=False)
    plan.line((-20, 30), (320, 30), "A-WALL")
    found = rooms(plan)
    assert all(found[name].grade == "C" for name in ("BEDROOM 1", "KITCHEN"))
    assert all(found[name].grade == "B" for name in ("HALL", "LIVING ROOM", "BATH"))


@pytest.mark.parametrize("back", [2, 6, 12])
def test_an_old_outline_close_to_a_wall_is_not_taken_for_its_face(back):
    plan = house(sizes=False)
    plan.line((-20, 120 - back), (320, 120 - back), "A-WALL")
    wrong = [
        r
        for r in recognized(plan).rooms
        if r.grade in "AB" and abs(r.face.area / SQUARE_INCH - drawn(HOUSE)[r.called]) > 1
    ]
    assert wrong == []


def test_a_size_that_is_not_that_of_the_outline_is_asked():
    plan = house(sizes=False)
    plan.text(f"{feet(120)} x {feet(100)}", 72, 50)
    assert rooms(plan)["BEDROOM 1"].grade == "C"


def test_an_area_that_agrees_proves_a_room_and_another_one_asks():
    plan = house(sizes=False)
    plan.text("120 SF", 72, 50)
    plan.text("150 SF", 218, 50)
    found = rooms(plan)
    assert (found["BEDROOM 1"].grade, found["KITCHEN"].grade) == ("A", "C")


def test_single_lines_for_walls_are_asked_since_the_clear_size_is_not_drawn():
    plan = DrawnPlan()
    for place in HOUSE[:2]:
        plan.shape(shapely.box(place.x, place.y, place.x + place.wide, place.y + place.deep))
    plan.names(HOUSE[:2], sizes=False)
    found = rooms(plan, drawing_unit="inches")
    assert set(grades(found).values()) == {"C"}
    assert "no other face lies behind" in found["KITCHEN"].why


def test_a_gap_in_which_nothing_is_drawn_is_closed_and_asked():
    plan = DrawnPlan()
    wide = Gap(20, 120, 100, 4.5)
    plan.walls(HOUSE, (*DOORS[1:], wide))
    plan.names(HOUSE, sizes=False)
    for gap in DOORS[1:]:
        plan.swing(gap)
    found = rooms(plan)
    assert areas(found)["BEDROOM 1"] == 144 * 120
    assert found["BEDROOM 1"].grade == "C"
    assert found["BEDROOM 1"].face.doubtful


def test_a_name_in_no_outline_is_told_and_notes_name_no_room():
    plan = house()
    plan.text("LAUNDRY", -60, 60)
    for note in ("KITCHEN ELEVATION", "SEE BATH DETAIL 4", "EXISTING HALL TO BE PAINTED", "FLOOR PLAN"):
        plan.text(note, 60, -60)
    found = recognized(plan)
    assert [name.text for _, name in found.lost] == ["LAUNDRY"]
    assert len(found.rooms) == len(HOUSE)


def test_lines_without_a_name_in_them_are_no_plan():
    plan = DrawnPlan()
    plan.walls(HOUSE, (*DOORS, *WINDOWS))
    plan.text("NORTH ELEVATION", 60, 60)
    assert recognized(plan).rooms == []


def test_walls_on_no_layer_of_their_own_are_told_by_lines_that_run_in_pairs():
    plan = house()
    for entity in plan.space:
        if entity.dxf.layer == "A-WALL":
            entity.dxf.layer = "L3"
    found = recognized(plan)
    assert found.layering.walls == ("L3",)
    assert areas({room.called: room for room in found.rooms}) == drawn(HOUSE)


def test_a_mapping_file_says_the_layer_of_walls_and_the_unit():
    plan = house(sizes=False)
    for entity in plan.space:
        if entity.dxf.layer == "A-WALL":
            entity.dxf.layer = "FURNITURE"
    assert not rooms(plan)
    found = rooms(plan, layers=Layers(wall_faces=("FURN*",)), drawing_unit="inches")
    assert areas(found) == drawn(HOUSE)


def test_what_no_voice_tells_apart_has_no_unit():
    plan = DrawnPlan(said=0)
    plan.walls(HOUSE, ())
    plan.names(HOUSE, sizes=False)
    found = recognized(plan)
    assert (found.unit.unit, found.rooms) == ("", [])


def test_names_of_other_languages_are_names_of_rooms():
    other = [Place("DORMITORIO 1", 0, 0, 144, 120), Place("KÜCHE", 148.5, 0, 140, 120)]
    plan = DrawnPlan()
    plan.walls(other, ())
    plan.names(other)
    assert areas(rooms(plan, drawing_unit="inches")) == drawn(other)


@pytest.mark.parametrize("given", [{}, {"unit": METERS}, {"turn": 20.0}, {"moved": (9000, -500)}, {"mirrored": True}])
def test_a_word_for_a_room_that_has_no_use_names_its_outline_and_neighbor(given):
    other = [Place("TIENDA", 0, 0, 118, 138), Place("BANO", 124, 0, 60, 138), Place("AMBIENTE", 190, 0, 118, 138)]
    doors = [Gap(118, 60, 6, 30, (118, 60), 90, 180), Gap(184, 60, 6, 30, (184, 60), 90, 180)]
    assert areas(rooms(house(other, doors, (), sizes=False, **given))) == drawn(other)


def test_a_ceiling_height_is_read_from_the_room_it_stands_in():
    plan = house()
    plan.text("9'-0\" CLG.", 72, 40)
    assert rooms(plan)["BEDROOM 1"].height == pytest.approx((9 * 0.3048, "9'-0\""))
    assert rooms(plan)["KITCHEN"].height is None


def test_a_curved_wall_closes_its_room():
    plan = DrawnPlan()
    for radius in (60, 64.5):
        plan.space.add_arc((0, 0), radius, 0, 90, dxfattribs={"layer": "A-WALL"})
        plan.line((0, radius), (-200, radius), "A-WALL")
        plan.line((radius, 0), (radius, -100), "A-WALL")
    for away in (0, 4.5):
        plan.line((-200 - away, 60 + away), (-200 - away, -100 - away), "A-WALL")
        plan.line((-200 - away, -100 - away), (60 + away, -100 - away), "A-WALL")
    plan.text("DEN", -60, -20)
    (room,) = recognized(plan, drawing_unit="inches").rooms
    assert room.face.area / SQUARE_INCH == pytest.approx(260 * 160 - (60 * 60 - 60 * 60 * pi / 4), rel=0.005)


def test_a_name_in_two_rows_is_one_name():
    plan = house(sizes=False)
    plan.text("MASTER", 72, 74)
    plan.text("SEE NOTE", 218, 74)
    found = rooms(plan)
    assert found["MASTER BEDROOM 1"].grade == "B"
    assert "KITCHEN" in found


def test_a_size_to_the_middles_of_the_walls_is_no_objection_and_no_proof():
    plan = house(sizes=False)
    plan.text(f"{feet(144 + 5.25)} x {feet(120 + 5.25)}", 72, 50)
    plan.text(f"{feet(140 + 14)} x {feet(120 + 5.25)}", 218, 50)
    found = rooms(plan)
    assert (found["BEDROOM 1"].grade, found["KITCHEN"].grade) == ("B", "C")
