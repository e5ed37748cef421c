"""Three more jobs told on the board from nothing by someone who knows houses, to what is handed on: what each takes, counted.

A carport made a room with the carport that takes its place, a patio door in a wall, an attic floored for storage with its
stair. Skipped where Chromium or the library that drives it is absent.
"""

from __future__ import annotations

from typing import Any

from test_board_browser import chromium, desk, opened, pytestmark, served
from test_board_walk_browser import JAMB, SECONDS_OF_AN_ENTRY, SIZE, WORDS_A_MINUTE, Person

from precheck.board.server import Served
from precheck.project import Project, read_project

__all__ = ["chromium", "desk", "pytestmark", "served"]

ALL_DRAWN = ("all rooms", "all doors", "all windows")


def begun(person: Person, kind: str, *more: str) -> None:
    """Say what the job is, what is in it, and where."""
    person.type("What is the job called?", "9 Fern Walk", "#begin")
    for name, what in (("kind", kind), *(("more", one) for one in more)):
        person.page.locator(f'#begin [name="{name}"][value="{what}"]').check()
        person.settle()
    person.type("Which town?", "Linden Ford", "#begin")
    person.press("Begin the sketch")
    person.press("Begin the sketch")  # the town is shown in full before it is taken
    person.page.locator("#plan").wait_for()
    person.type("Size in plan", "20 x 24", last=True)


def placed(person: Person, tool: str, room: str, at: tuple[float, float], **said: str) -> None:
    """Put an opening into the wall that is clicked, and type its place and size."""
    person.press(tool, "#tools")
    person.click_wall(room, *at)
    person.type(JAMB, said["distance"])
    person.choose("Operation", said["operation"])
    person.type(SIZE, said["size"], last=True)


def answered(person: Person, item: str, field: str, said: str) -> None:
    """Open what is to do, and answer it there."""
    person.open_item(item)
    if person.page.locator("#todo label:visible").filter(has_text=field).locator("select").count():
        person.choose(field, said, "#todo")
    else:
        person.type(field, said, "#todo", last=True)


def handed_out(person: Person, served: Served, most: int) -> Project:
    """Leave the rest to the drafter, open the hand-outs, and hold what it took to `most` entries and twenty minutes."""
    rest = person.page.locator("#next .rest").inner_text()
    assert "to the drafter" in rest
    person.press(rest, "#next")
    assert person.next.endswith("for the drafter to show.")
    told = person.page.locator("#verdict").inner_text()
    assert told.startswith("NOT READY to submit")
    assert "to fix" not in told
    person.press("Hand out", "#next")
    taken = (
        f"{person.entries} entries, {person.words} words, {person.waited:.1f} s waited: {person.minutes:.1f} minutes"
    )
    print(taken)
    assert person.entries <= most, taken
    assert person.entries * SECONDS_OF_AN_ENTRY / 60 + person.words / WORDS_A_MINUTE < 20, taken
    for paper in ("corrections", "notes", "field", "inspections", "owner"):
        assert "9 Fern Walk" in (served.board.handout(paper) or "")
    return read_project(served.board.file.path)


def test_a_carport_made_a_bedroom_with_the_carport_that_takes_its_place(chromium: Any, served: Served) -> None:
    person = Person(opened(chromium, served, 1400))
    begun(person, "carport to room", "carport")
    person.press("Go there", "#next")
    person.type("Size in plan", "12 x 20", last=True)
    person.press("Room", "#tools")
    for field, said in (("Use", "carport"), ("Beside", "New bedroom"), ("On its side", "east")):
        person.choose(field, said)
    person.type("Name", "Carport")
    person.type("Size: across, then up the page", "12 x 20", last=True)
    person.tick("all rooms")
    person.tick("As it is")
    placed(person, "Door", "new-room", (0, 0.85), distance="2 ft", size="2868", operation="side-hinged")
    person.tick("The work")
    placed(person, "Window", "new-room", (0.5, 0), distance="4 ft", size="4050", operation="casement")
    person.type("Sill height", "36 in", last=True)
    person.tick("all doors")
    person.tick("all windows")
    answered(person, "fuel-burning", "Does anything in the house burn gas, oil or wood?", "no")
    answered(person, "flood hazard", "Is the lot in a flood hazard area?", "no")
    project = handed_out(person, served, MOST["carport"])
    assert [(space.id, space.phase, space.use) for space in project.spaces][-1] == ("carport", "new", "carport")


def test_a_patio_door_in_a_wall(chromium: Any, served: Served) -> None:
    person = Person(opened(chromium, served, 1400))
    begun(person, "opening made")
    person.tick("all rooms")
    placed(person, "Door", "house", (0.5, 0), distance="6 ft", size="6068", operation="sliding")
    person.tick("all doors")
    person.tick("all windows")
    project = handed_out(person, served, MOST["patio door"])
    (door,) = project.doors
    assert (door.phase, door.operation, str(door.unit_size)) == ("new", "sliding", "6'-0\" x 6'-8\"")


def test_an_attic_floored_for_storage_with_a_stair_to_it(chromium: Any, served: Served) -> None:
    person = Person(opened(chromium, served, 1400))
    begun(person, "attic storage", "stair")
    person.press("Go there", "#next")
    person.type("Size in plan", "20 x 12", last=True)
    for what in ALL_DRAWN:
        person.tick(what)
    person.page.get_by_role("button", name="Ground floor", exact=True).click()
    person.settle()
    for what in ALL_DRAWN:
        person.tick(what)
    person.press("Stair", "#tools")
    person.type("Clear width", "3 ft")
    person.type("Run: all treads together, on the level", "10'-6\"")
    person.type("From the west wall to the stair", "4 ft")
    person.type("From the south wall to the stair", "6 ft", last=True)
    project = handed_out(person, served, MOST["attic"])
    (stair,) = project.stairs
    assert stair.between == ("house", "attic"), "the one room over this story need not be chosen"


MOST = {"carport": 40, "patio door": 18, "attic": 25}
