"""Drawing on the board in a real browser: the tray, sections and shapes of rooms, by hand and by keys alone.

Skipped where Chromium or the library that drives it is absent.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from test_board_browser import at_rest, axe, chromium, desk, opened, pytestmark, served, violations, with_sketch
from test_board_keys import Keys
from test_board_sections import HOUSE as TWO_STORIES
from test_board_shapes import HOUSE as L_SHAPED

from precheck.board.server import Served
from precheck.project import Project, read_project

__all__ = ["axe", "chromium", "desk", "pytestmark", "served"]


def project(served: Served) -> Project:
    return read_project(served.board.file.path)


def saved(page: Any) -> Any:
    return page.locator("#undo").get_attribute("title")


def wait_for_change(page: Any, was: Any) -> None:
    page.wait_for_function("was => document.getElementById('undo').title !== was", arg=was)


def on_plan(page: Any, part: str, across: float, up: float) -> tuple[float, float]:
    """Return the point of the window at shares of a room's width and height, from its lower left corner."""
    box = page.locator(f'#plan [data-part="{part}"] .room').bounding_box()
    return box["x"] + box["width"] * across, box["y"] + box["height"] * (1 - up)


def pulled(page: Any, start: tuple[float, float], by: tuple[float, float]) -> None:
    was = saved(page)
    page.mouse.move(*start)
    page.mouse.down()
    for share in (0.4, 0.8, 1.0):
        page.mouse.move(start[0] + by[0] * share, start[1] + by[1] * share)
    page.mouse.up()
    wait_for_change(page, was)
    at_rest(page)


def test_a_stair_drawn_by_hand_goes_up_toward_where_the_hand_went(chromium: Any, served: Served) -> None:
    with_sketch(served, TWO_STORIES.split("stairs:")[0])
    page = opened(chromium, served, 1400)
    page.locator('[data-tool="stair"]').click()
    at_rest(page)
    x, y = on_plan(page, "suite", 0.1, 0.1)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 30, y - 60)
    page.mouse.move(x + 60, y - 180)
    page.mouse.up()
    form = page.locator("#part")
    form.locator("label", has_text="Up to").locator("select").last.select_option("loft")
    was = saved(page)
    form.get_by_role("button", name="Put it on the plan").click()
    wait_for_change(page, was)
    (stair,) = project(served).stairs
    assert (stair.between, stair.climbs) == (("suite", "loft"), "up the page")
    assert stair.rectangle.depth > stair.rectangle.width
    assert page.locator('#plan [data-part="ST1"] text').get_by_text("UP").count() == 1


def test_by_keys_alone_a_post_is_put_on_a_wall_and_moved_along_it(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served, 1400)
    page.locator("#plan [data-part]").first.wait_for()
    keys = Keys(page)
    at_rest(page).locator('#plan [data-part="hall"]').focus()
    keys.press("o")
    keys.into("In", "suite", "#part")
    keys.into("Where", "on its east wall", "#part")
    keys.into("From the corner to its middle", "7 ft", "#part")
    keys.enter()
    (post,) = project(served).members
    assert (post.role, post.on.side, str(post.on.distance)) == ("post", "east", "7 ft")
    at_rest(page).locator('#plan [data-part="P1"]').focus()
    keys.press("Enter")
    was = saved(page)
    at_rest(page).locator('#plan [data-part="P1"]').focus()
    keys.press("Shift+ArrowUp")
    wait_for_change(page, was)
    assert str(project(served).members[0].on.distance) == "6 ft"  # from the corner that is the nearer one now


def test_by_keys_alone_an_opening_is_put_over_a_stair_moved_and_taken_back(chromium: Any, served: Served) -> None:
    placed = "rectangle: {at: [12 ft, 1 ft], width: 3 ft, depth: 130 in}, climbs: up the page"
    with_sketch(served, TWO_STORIES.replace("width: 3 ft, risers", f"width: 3 ft, {placed}, risers"))
    page = opened(chromium, served, 1400)
    page.locator("#plan [data-part]").first.wait_for()
    keys = Keys(page)
    page.locator('#plan [data-part="suite"]').focus()
    keys.press("PageUp")
    at_rest(page).locator('#plan [data-part="loft"]').focus()
    keys.press("c")
    keys.into("Which way the joists run", "east", "#part")
    keys.tab_to("Put it on the plan", "#part")
    keys.enter()
    (hole,) = project(served).framed_openings
    assert (hole.space, hole.stair, hole.joists_run) == ("loft", "ST1", "along the page")
    drawn = at_rest(page).locator(f'#plan [data-part="{hole.id}"]')
    assert drawn.locator(".cut-out").count() == 2, "dashed, and with a cross"
    was, before = saved(page), str(hole.rectangle.at[0])
    drawn.focus()
    keys.press("Shift+ArrowRight")
    wait_for_change(page, was)
    assert str(project(served).framed_openings[0].rectangle.at[0]) != before
    at_rest(page).locator("#plan [data-part]").first.focus()
    keys.press("Control+z")
    at_rest(page)
    assert str(project(served).framed_openings[0].rectangle.at[0]) == before


def test_a_height_is_typed_in_the_section_by_keys_alone_and_its_finding_goes(chromium: Any, served: Served) -> None:
    with_sketch(served, TWO_STORIES)
    page = opened(chromium, served, 1400)
    keys = Keys(page)
    page.locator("#plan [data-part]").first.wait_for()
    at_rest(page).locator("#cut").focus()
    keys.press("Enter")
    at_rest(page).get_by_label("Through").focus()
    page.keyboard.type("stair ST1")
    height = page.locator('#section g[data-height="headroom"]')
    height.wait_for()
    assert "fail" in height.get_attribute("class")
    height.focus()
    keys.press("Enter")
    keys.press("Control+a")
    page.keyboard.type("6'-8\"")
    was = saved(page)
    keys.press("Enter")
    wait_for_change(page, was)
    page.locator('#section g[data-height="headroom"]:not(.fail)').wait_for()
    assert str(project(served).stairs[0].headroom) == "6'-8\""
    assert page.evaluate("document.activeElement.dataset.height") == "headroom"


def test_a_wall_of_an_l_is_pulled_by_hand_and_part_of_one_with_alt(chromium: Any, served: Served) -> None:
    with_sketch(served, L_SHAPED)
    page = opened(chromium, served, 1400)
    page.locator('#tools [data-tool="select"]').click()
    page.mouse.click(*on_plan(page, "kitchen", 0.25, 0.4))
    page.locator("#part h2").get_by_text("kitchen").wait_for()
    page.wait_for_timeout(500)
    x, y = on_plan(page, "kitchen", 0.0, 0.5)
    pulled(page, (x + 3, y), (-40, 0))
    kitchen = project(served).spaces[0]
    assert len(kitchen.outline) == 6
    assert kitchen.outline[0][0].n < 0
    assert (kitchen.phase, len(kitchen.before.outline)) == ("altered", 6)
    page.keyboard.down("Alt")
    x, y = on_plan(page, "kitchen", 0.2, 0.0)
    pulled(page, (x, y - 3), (0, 40))
    page.keyboard.up("Alt")
    assert len(project(served).spaces[0].outline) == 8
    page.locator("label", has_text="As it is").locator("input").check()
    assert page.locator("#plan .was").count() == 0


def test_on_a_phone_a_section_is_whole_and_its_heights_are_a_list(
    chromium: Any, served: Served, tmp_path: Path
) -> None:
    with_sketch(served, TWO_STORIES)
    page = opened(chromium, served, 390)
    page.locator("#cut").click()
    page.locator("#section svg").wait_for()
    page.get_by_label("Through").select_option("ST1")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    was = saved(page)
    field = page.locator('#section [data-height="list headroom"]')
    field.fill("6'-10\"")
    field.press("Enter")
    wait_for_change(page, was)
    assert str(project(served).stairs[0].headroom) == "6'-10\""


@pytest.mark.parametrize("width", [1400, 390])
def test_axe_finds_nothing_in_a_section_and_in_the_forms_of_the_tray(
    chromium: Any, served: Served, axe: str, width: int
) -> None:
    with_sketch(served, TWO_STORIES.replace("elevation: 0 ft}", "elevation: 0 ft, drawn: [rooms], to draw: [alarms]}"))
    page = opened(chromium, served, width)
    page.locator("#cut").click()
    page.get_by_label("Through").select_option("ST1")
    page.locator('#section g[data-height="headroom"]').wait_for()
    assert violations(page, axe) == []
    page.locator("#cut").click()
    for tool in ("stair", "beam", "appliance", "story"):
        page.locator(f'[data-tool="{tool}"]').click()
        page.locator("#part form").first.wait_for(state="attached")
        assert violations(page, axe) == [], tool
        if width == 390:
            page.locator("#tabs button").first.click()
