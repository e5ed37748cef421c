"""The board by keys alone: what a person does who has no mouse, or wants none.

Skipped where Chromium or the library that drives it is absent.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from test_board_browser import BY_HAND, at_rest, chromium, desk, opened, outcomes, pytestmark, served

from precheck.board.server import Served
from precheck.runs.desk import Desk

__all__ = ["chromium", "desk", "pytestmark", "served"]


class Keys:
    """A person who has no mouse: Tab until what is wanted has the focus, then type."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.pressed = 0

    def press(self, key: str) -> None:
        """Press a key, or keys together, once the page is as it will stay."""
        at_rest(self.page)
        self.page.keyboard.press(key)
        self.pressed += 1

    def tab_to(self, name: str, within: str = "body") -> None:
        """Press Tab until what has the focus is called `name`, as a screen reader would say it."""
        for _ in range(150):
            if self.page.evaluate(NAMED, within) == name:
                return
            self.press("Tab")
        raise AssertionError(f"Tab does not come to {name!r}")

    def into(self, name: str, text: str, within: str = "body") -> None:
        """Come to a field and write into it, or choose in it."""
        self.tab_to(name, within)
        if self.page.evaluate("document.activeElement.matches('input')"):
            self.press("Control+a")
        self.page.keyboard.type(text)

    def enter(self) -> None:
        """Press Enter, and again where what was typed is shown in full first; wait until it is saved."""
        saved = self.page.locator("#undo").get_attribute("title")
        for _ in range(3):
            self.press("Enter")
            self.page.wait_for_function(ANSWERED, arg=saved)
            if self.page.locator("#undo").get_attribute("title") != saved:
                return
        raise AssertionError("Enter does not save it")

    def choose(self, part: str) -> None:
        """Find a part by its name, and come to its values."""
        self.press("Escape")
        self.press("/")
        self.page.keyboard.type(part)
        self.press("Enter")
        self.page.locator("#part h2").get_by_text(part).wait_for()


ANSWERED = """saved => document.getElementById('undo').title !== saved
  || [...document.querySelectorAll('#part .refused')].some((one) => one.textContent.includes('Press Enter') && !one.dataset.read
    && (one.dataset.read = 'yes'))"""
NAMED = """within => {
  const it = document.activeElement;
  if (!it.closest(within)) return "";
  const label = it.labels?.[0];
  const text = label ? [...label.childNodes].filter((one) => one !== it).map((one) => one.textContent).join("") : it.textContent;
  return (it.getAttribute("aria-label") ?? text).trim();
}"""


def test_the_same_job_described_by_keys_alone_gives_the_same_report(
    chromium: Any, served: Served, tmp_path: Path, desk: Desk
) -> None:
    page = opened(chromium, served)
    page.get_by_label("What is the job called?").wait_for()
    keys = Keys(page)
    keys.into("What is the job called?", "9 Fern Walk")
    keys.tab_to("garage to room")
    keys.into("If it is not in the list: which code does it use?", "International Residential Code 2021")
    keys.into("Date of the permit application", "03022026")
    keys.press("Enter")
    page.locator("#part h2").get_by_text("The house as it is").wait_for()
    keys.into("Size in plan", "20 x 24")
    keys.enter()
    keys.tab_to("New bedroom", "#loose")
    keys.press("Enter")
    page.locator("#part h2").get_by_text("New bedroom").wait_for()
    keys.into("Size in plan", "12 x 14 6")
    keys.enter()
    for kind, wall, corner, distance, size, how in (
        ("w", "south", "its west corner", "4 ft", "3'-0\" x 4'-0\"", "casement"),
        ("d", "west", "its north corner", "2 ft", "2868", "side-hinged"),
    ):
        keys.press("Escape")
        keys.press(kind)
        keys.into("In", "New bedroom", "#part")
        keys.into("In which wall", wall, "#part")
        keys.into("From which corner", corner, "#part")
        keys.into("From the corner to its nearer jamb", distance, "#part")
        keys.into("Operation", how, "#part")
        keys.press("Shift+Tab")
        keys.into("Size: width x height", size, "#part")
        keys.enter()
    keys.choose("window W1")
    keys.into("Sill height", "40", "#part")
    keys.enter()
    keys.choose("New bedroom")
    keys.into("Ceiling height", "8 ft", "#part")
    keys.enter()
    for what in ("all rooms", "all doors", "all windows"):
        keys.tab_to(what)
        saved = page.locator("#undo").get_attribute("title")
        keys.press("Space")
        page.wait_for_function("was => document.getElementById('undo').title !== was", arg=saved)
    page.wait_for_function("() => document.querySelectorAll('#complete [name=drawn]:checked').length === 3")
    by_hand = tmp_path / "by-hand.yaml"
    by_hand.write_text(BY_HAND, encoding="utf-8")
    drawn, written = (outcomes(desk, path) for path in (served.board.file.path, by_hand))
    assert drawn == written
    assert keys.pressed < 600
