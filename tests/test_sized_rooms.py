"""Rooms told by the size written in them where no outline closes as they do: found exactly, proposed, or left to a person."""

from random import Random

import pytest
import shapely
from drawn_plans import HOUSE, METERS, MILLIMETERS, DrawnPlan, Gap, Place, feet, house
from sampled import long_save
from test_drawn_plans import areas, drawn, grades, rooms

from precheck.importers.drawn.rooms import PRODUCT

CUTS = ((60, 0, 60, 120), (0, 50, 144, 50), (148.5, 70, 288.5, 70), (90, 171, 90, 321), (204.5, 230, 288.5, 230))
GIVEN = long_save(
    [{}, {"unit": METERS}, {"unit": MILLIMETERS, "moved": (9000, -500)}, {"turn": 20.0}, {"mirrored": True}], {}
)
OPEN = (
    Place("KITCHEN", 0, 0, 144, 120), Place("DINING", 144, 0, 120, 120), Place("BEDROOM", 0, 126, 264, 130),
    Place("BATH", 0, 262, 264, 80),
)  # fmt: skip
OPEN_DOORS = (Gap(100, 120, 32, 6, (100, 120), 0, -90), Gap(60, 256, 30, 6, (60, 256), 0, 90))


def furnished(places=HOUSE, **given):
    """Return the house with lines across its rooms on the layer of the walls, as furniture and dimension lines run."""
    plan = house(places, **given)
    for x1, y1, x2, y2 in CUTS:
        plan.line((x1, y1), (x2, y2), "A-WALL")
    return plan


@pytest.mark.parametrize("given", GIVEN)
def test_rooms_that_lines_of_other_things_cut_are_found_by_their_written_size(given):
    found = rooms(furnished(**given))
    assert areas(found) == drawn(HOUSE)
    assert set(grades(found).values()) == {"A"}


def test_a_written_size_that_no_walls_have_gives_no_room():
    plan = furnished(sizes=False)
    for room in HOUSE:
        plan.text(f"{feet(0.8 * room.wide)} x {feet(room.deep)}", room.middle[0], room.middle[1] - 5)
    assert "A" not in grades(rooms(plan)).values()


def test_an_open_space_is_divided_by_a_written_size_as_a_proposal_only():
    plan = house(OPEN, OPEN_DOORS, ())
    plan.shape(shapely.box(144, -1, 150, 60), "A-HALF-HIGH")
    found = rooms(plan)
    assert found["KITCHEN"].grade == "C"
    assert areas(found)["KITCHEN"] == 144 * 120
    assert "divide" in found["KITCHEN"].why
    assert found["BEDROOM"].grade == found["BATH"].grade == "A"
    assert areas(found)["DINING"] == pytest.approx(120 * 120, rel=0.06)


@pytest.mark.parametrize(("gap", "grade"), [(40, "A"), (64, "C")])
def test_a_room_of_a_written_size_is_asked_where_it_is_open_to_the_next_by_more_than_a_door(gap, grade):
    places = (Place("DINING", 0, 0, 150, 120), Place("LIVING", 156, 0, 140, 120), Place("BEDROOM", 0, 126, 296, 140))
    plan = DrawnPlan()
    plan.walls(places, (Gap(150, 30, 6, gap),))
    plan.names(places)
    plan.dimension((0, 0), (150, 0), feet(150))
    found = rooms(plan)
    assert grades(found) == {"DINING": grade, "LIVING": grade, "BEDROOM": "A"}
    assert areas(found) == drawn(places)


def test_a_name_whose_row_ends_in_a_sign_goes_on_in_the_next():
    places = [place._replace(name="") if place.name == "BATH" else place for place in HOUSE]
    plan = house(places)
    plan.text("BATH +", 246.5, 262)
    plan.text("TOILET", 246.5, 252)
    assert grades(rooms(plan))["BATH + TOILET"] == "A"


@pytest.mark.parametrize("given", GIVEN)
def test_a_dimension_line_on_the_pen_of_the_walls_cuts_no_room(given):
    plan = house(sizes=False, **given)
    for room in (HOUSE[0], HOUSE[3]):
        across = room.y + 30
        plan.line((room.x, across), (room.x + room.wide, across), "A-WALL")
        plan.text(feet(room.wide), room.middle[0], across + 6)
    found = rooms(plan)
    assert areas(found) == drawn(HOUSE)
    assert set(grades(found).values()) == {"B"}


def test_a_line_across_a_room_that_no_dimension_says_the_length_of_is_asked():
    plan = house(sizes=False)
    plan.line((0, 30), (144, 30), "A-WALL")
    plan.text(feet(100), 72, 36)
    assert grades(rooms(plan))["BEDROOM 1"] == "C"


def test_a_wall_as_long_as_the_dimension_beside_it_stays():
    plan = house(sizes=False)
    plan.text(feet(144), 72, 8)
    found = rooms(plan)
    assert areas(found) == drawn(HOUSE)
    assert grades(found)["BEDROOM 1"] == "B"


def to_middles(plan):
    """Write in each room its size to the middles of the walls, of which those outside are 6 in thick and the others 4.5."""
    for room in HOUSE:
        wide = 288.5 + 6 if room.name == "HALL" else room.wide + 5.25
        deep = room.deep + (4.5 if room.name == "HALL" else 5.25)
        plan.text(f"{feet(wide)} x {feet(deep)}", room.middle[0], room.middle[1] - 5)


@pytest.mark.parametrize(("written", "grade"), [(True, "B"), (False, "C")])
def test_steps_behind_a_wall_are_no_doubt_where_the_size_to_its_middle_is_written(written, grade):
    plan = house(sizes=False)
    for step in range(4):
        plan.line((-20, 332 + 4 * step), (320, 332 + 4 * step), "A-WALL")
    if written:
        to_middles(plan)
    found = rooms(plan)
    assert found["LIVING ROOM"].grade == grade
    assert areas(found) == drawn(HOUSE)


@pytest.mark.parametrize("back", long_save(range(1, 16), 2, 6))
def test_an_old_outline_is_never_taken_for_a_wall_whose_middle_a_size_is_written_to(back):
    plan = house(sizes=False)
    to_middles(plan)
    plan.line((-20, 120 - back), (320, 120 - back), "A-WALL")
    wanted, found = drawn(HOUSE), rooms(plan)
    taken = {name: area for name, area in areas(found).items() if found[name].grade != "C"}
    assert taken == pytest.approx({name: wanted[name] for name in taken}, rel=0.01)


def test_a_size_that_fits_between_two_pairs_of_walls_is_asked():
    plan = DrawnPlan()
    plan.walls([Place("", 0, 0, 120, 120), *HOUSE[4:]], ())
    for left in (14, 100):
        plan.shape(shapely.box(left, -1, left + 6, 121))
    plan.text("DEN", 60, 62)
    plan.text(f"{feet(100)} x {feet(120)}", 60, 52)
    plan.names(HOUSE[4:])
    assert grades(rooms(plan)) == {"DEN": "C", "BATH": "A"}


def test_letters_in_the_row_above_a_size_name_a_room_by_a_word_that_is_not_known():
    places = [place._replace(name="GUARAGEM") if place.name == "BATH" else place for place in HOUSE]
    found = rooms(furnished(places))
    assert grades(found)["GUARAGEM"] == "A"
    assert areas(found) == drawn(places)


def wrongly_sized(seed):
    """Return rooms of the first grade whose area is not that drawn, on a plan with lines at chance places on every pen."""
    chance, plan = Random(seed), house()
    for _ in range(30):
        lying, at = chance.random() < 0.5, chance.uniform(-6, 320)
        low = chance.uniform(-6, 250)
        start, end = (low, at), (low + chance.uniform(10, 90), at)
        layer = chance.choice(("A-WALL", "A-FURN"))
        plan.line(start if lying else start[::-1], end if lying else end[::-1], layer)
    wanted, found = {place.name: place.wide * place.deep for place in HOUSE}, rooms(plan)
    return [
        (name, area)
        for name, area in areas(found).items()
        if found[name].grade == "A" and abs(area - wanted[name]) > PRODUCT * wanted[name]
    ]


@pytest.mark.parametrize("seed", long_save(range(40), 0, 1))
def test_no_room_of_a_written_size_is_wrong_among_lines_of_other_things(seed):
    assert wrongly_sized(seed) == []
