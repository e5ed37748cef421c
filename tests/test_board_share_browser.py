"""The board to read on a phone, in a real browser."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from test_board import SKETCH, running
from test_board_browser import CHROMIUM, axe, chromium, desk, violations

from precheck.board.board import HouseBoard
from precheck.board.server import Served
from precheck.runs.desk import Desk

pytestmark = [pytest.mark.browser, pytest.mark.skipif(not CHROMIUM, reason="Chromium is not installed")]
__all__ = ["axe", "chromium", "desk"]


@pytest.fixture
def sharing(tmp_path: Path, desk: Desk) -> Iterator[Served]:
    (tmp_path / "house.yaml").write_text(SKETCH, encoding="utf-8")
    found = Served(HouseBoard(tmp_path / "house.yaml", desk), share="127.0.0.1")
    with running(found):
        yield found


def opened_on_phone(chromium: Any, sharing: Served, **more: Any) -> Any:
    assert sharing.shared is not None
    page = chromium.new_page(viewport={"width": 390, "height": 844}, **{"has_touch": True, **more})
    page.set_default_timeout(60_000)
    page.goto(sharing.shared.address)
    page.locator("#field h2").wait_for()
    return page


def test_on_a_phone_the_plan_comes_first_and_is_whole_and_a_part_tells_what_is_to_do_about_it(
    chromium: Any, sharing: Served
) -> None:
    page = opened_on_phone(chromium, sharing)
    plan = page.locator("#plan").bounding_box()
    assert page.locator("#name").bounding_box()["y"] < plan["y"]
    assert plan["y"] + plan["height"] < 844
    assert plan["y"] < page.locator("#todo").bounding_box()["y"] < page.locator("#field").bounding_box()["y"]
    for room in ("hall", "suite"):
        box = page.locator(f'[data-part="{room}"] .room').bounding_box()
        assert box["x"] >= plan["x"]
        assert box["x"] + box["width"] <= plan["x"] + plan["width"]
        assert box["y"] >= plan["y"]
        assert box["y"] + box["height"] <= plan["y"] + plan["height"]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.locator('#plan [data-part="W1"]').tap()
    page.locator("#todo h2").get_by_text("window W1").wait_for()
    assert page.locator("#todo").get_by_text("Sill height: 46 in").count() == 1
    assert page.locator("input, select, textarea, form").count() == 0
    page.get_by_role("button", name="Show all").tap()
    page.locator("#todo h2").get_by_text("What to do").wait_for()


def test_what_is_changed_at_the_desk_appears_on_the_phone_and_the_end_of_the_board_is_told(
    chromium: Any, sharing: Served
) -> None:
    page = opened_on_phone(chromium, sharing)
    sharing.board.file.path.write_text(SKETCH.replace("Mill Lane", "Fern Walk"), encoding="utf-8")
    page.locator("#name").get_by_text("Fern Walk").wait_for()
    sharing.stop()
    page.locator("#bar").get_by_text("The board has ended").wait_for()


def test_dragging_with_a_mouse_changes_nothing_there(chromium: Any, sharing: Served) -> None:
    page = opened_on_phone(chromium, sharing, has_touch=False)
    page.locator('#plan [data-part="suite"]').click()
    page.evaluate("scrollTo(0, 0)")
    box = page.locator('[data-part="suite"] .room').bounding_box()
    page.mouse.move(box["x"] + box["width"], box["y"] + 20)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] + 40, box["y"] + 20, steps=4)
    page.mouse.up()
    page.wait_for_timeout(300)
    assert sharing.board.file.path.read_text(encoding="utf-8") == SKETCH
    assert page.locator('[data-part="suite"] .room').bounding_box()["width"] == pytest.approx(box["width"], abs=1)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_to_mend_on_the_phone(chromium: Any, sharing: Served, axe: str, scheme: str) -> None:
    page = opened_on_phone(chromium, sharing, color_scheme=scheme)
    assert violations(page, axe) == []


def test_the_address_stands_on_the_page_at_the_desk_in_large_letters_and_as_a_code(
    chromium: Any, sharing: Served, axe: str
) -> None:
    page = chromium.new_page(viewport={"width": 1400, "height": 900})
    page.goto(sharing.address)
    page.get_by_text("On a phone").click()
    assert sharing.shared is not None
    page.get_by_text(sharing.shared.address).wait_for()
    page.wait_for_function("() => document.querySelector('#phone img').naturalWidth > 100")
    assert violations(page, axe) == []


def test_markup_in_names_is_text_on_the_phone_too(chromium: Any, sharing: Served) -> None:
    hostile = "<img src=x onerror=document.title='acted'>"
    text = SKETCH.replace("Mill Lane", hostile).replace("id: hall,", f'id: hall, name: "{hostile}",')
    sharing.board.file.path.write_text(text, encoding="utf-8")
    page = opened_on_phone(chromium, sharing)
    page.locator("#name").get_by_text("onerror").wait_for()
    page.locator('#plan [data-part="hall"]').tap()
    page.locator("#todo h2").get_by_text("onerror").wait_for()
    assert page.locator("img").count() == 0
    assert not page.title().startswith("acted")
    page.get_by_text("The sheet, to print").tap()
    page.get_by_text("onerror").first.wait_for()
    assert page.locator("img").count() == 0
    assert not page.title().startswith("acted")
