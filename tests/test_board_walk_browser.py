"""A garage made a bedroom, told on the board from nothing by someone who knows houses: what it takes, counted.

An entry is a press, a choice or a typed value, at six seconds each; what is on the screen is read once, 200 words a
minute; and the page's own time is waited for. Skipped where Chromium or the library that drives it is absent.
"""

from __future__ import annotations

import time
from typing import Any

from test_board_browser import chromium, desk, opened, pytestmark, served

from precheck.board.server import Served
from precheck.project import read_project

__all__ = ["chromium", "desk", "pytestmark", "served"]

SECONDS_OF_AN_ENTRY, WORDS_A_MINUTE = 6, 200
ON_SCREEN = """() => {
  const found = [], all = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (all.nextNode()) {
    const node = all.currentNode, held = node.parentElement, range = document.createRange();
    if (!node.textContent.trim() || held.closest('option, select, script, svg')) continue;
    range.selectNodeContents(node);
    const box = range.getBoundingClientRect(), scrolled = held.closest('#part, #todo')?.getBoundingClientRect();
    if (!box.width || box.bottom < 0 || box.top > innerHeight) continue;
    if (scrolled && (box.bottom < scrolled.top || box.top > scrolled.bottom)) continue;
    const folded = held.closest('details');
    if (!folded || folded.open || held.closest('summary')) found.push(node.textContent.trim());
  }
  return found;
}"""
STEADY = """() => new Promise((done) => {
  let last = performance.now();
  const seen = new MutationObserver(() => { last = performance.now(); });
  seen.observe(document.body, { subtree: true, childList: true, attributes: true, characterData: true });
  const look = () => (performance.now() - last > 250 ? (seen.disconnect(), done()) : setTimeout(look, 20));
  look();
})"""


class Person:
    """Someone at the page: every entry is counted, and every line of the screen is read at its first sight."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.entries, self.words, self.waited = 0, 0, 0.0
        self._read: set[str] = set()
        self.settle(0)

    @property
    def minutes(self) -> float:
        """What it took: entries, reading and waiting."""
        return (self.entries * SECONDS_OF_AN_ENTRY + self.waited) / 60 + self.words / WORDS_A_MINUTE

    @property
    def next(self) -> str:
        """What the page says comes next."""
        return str(self.page.locator("#next span").inner_text())

    def press(self, name: str, within: str = "body") -> None:
        """Press a button, or tick a box, by its name."""
        self.page.locator(within).get_by_role("button", name=name, exact=True).first.click()
        self.settle()

    def tick(self, name: str, on: bool = True) -> None:
        """Tick a box, or untick it."""
        self.page.get_by_label(name, exact=True).set_checked(on)
        self.settle()

    def type(self, name: str, text: str, within: str = "#part", *, last: bool = False) -> None:
        """Type into a field, read what it is short for, and press Enter with the last."""
        field = self._field(name, within)
        field.fill(text)
        if last:
            self.settle(0)
            field.press("Enter")
        self.settle()
        if self.page.locator(".refused", has_text="Press Enter").count():
            field.press("Enter")
            self.settle()

    def choose(self, name: str, what: str, within: str = "#part") -> None:
        """Choose in a field."""
        field = self._field(name, within)
        field.focus()
        field.select_option(what)
        field.press("Enter")
        self.settle()

    def open_item(self, text: str) -> Any:
        """Open what is to do by what it says."""
        found = self.page.locator("#todo details[data-item]", has_text=text).first
        found.locator("summary").first.click()
        self.settle()
        return found

    def click_wall(self, room: str, across: float, up: float) -> None:
        """Click a wall of a room, at shares of its width and height from its lower left corner."""
        box = self.page.locator(f'#plan [data-part="{room}"] .room').bounding_box()
        self.page.mouse.click(box["x"] + box["width"] * across, box["y"] + box["height"] * (1 - up))
        self.settle()

    def _field(self, name: str, within: str) -> Any:
        called = self.page.locator(f"{within} label").filter(has=self.page.locator(f'span:text-is("{name}")'))
        return called.locator("input, select").first

    def settle(self, entries: int = 1) -> None:
        """Wait until the page is as it will stay, and read what is new on it."""
        self.entries += entries
        began = time.monotonic()
        self.page.evaluate(STEADY)
        self.waited += max(0.0, time.monotonic() - began - 0.25)
        for line in self.page.evaluate(ON_SCREEN):
            if line not in self._read:
                self._read.add(line)
                self.words += len(line.split())


JAMB, SIZE = "From the corner to its nearer jamb", "Size: width x height"


def drawn(person: Person, tool: str, at: tuple[float, float], dist: str, size: str, operation: str = "") -> None:
    """Put an opening into a wall of the new room where one clicks, and type its place and size."""
    person.press(tool, "#tools")
    person.click_wall("new-room", *at)
    person.type(JAMB, dist)
    if operation:
        person.choose("Operation", operation)
    person.type(SIZE, size, last=True)


def begun(person: Person) -> None:
    """Say what the job is, where, and what is in it; then draw the two rooms."""
    person.type("What is the job called?", "9 Fern Walk", "#begin")
    person.tick("overhead door closed")
    person.tick("Plumbing", on=False)
    person.type("Which town?", "Linden Ford", "#begin")
    person.press("Begin the sketch")
    person.press("Begin the sketch")  # the town is shown in full before it is taken
    person.page.locator("#plan").wait_for()
    person.type("Size in plan", "20 x 24", last=True)
    person.press("Go there", "#next")
    person.type("Size in plan", "12 x 20", last=True)
    person.tick("all rooms")


def test_a_garage_made_a_bedroom_is_told_in_twenty_minutes_to_what_is_handed_to_a_drafter(
    chromium: Any, served: Served
) -> None:
    person = Person(opened(chromium, served, 1400))
    begun(person)
    person.tick("As it is")
    drawn(person, "Door", (0, 0.85), "2 ft", "2868", "side-hinged")
    drawn(person, "Vehicle door", (0.5, 0), "18 in", "9x7")
    person.press("Take it out", "#part")
    person.tick("The work")
    drawn(person, "Window", (0.5, 0), "4 ft", "4050", "casement")
    person.tick("all doors")
    person.tick("all windows")
    person.type("Sill height", "36 in", last=True)
    person.type("Sill above the ground outside", "44 in", last=True)
    person.choose("What lies outside it", "yard to public way")
    for item, field, said in (
        ("Ceiling height", "Ceiling height", "8 ft"), ("evel of the slab", "Level of the slab or joists", "-4 in"),
    ):  # fmt: skip
        person.open_item(item)
        person.type(field, said, "#todo", last=True)
    for item, field in (
        ("fuel-burning", "Does anything in the house burn gas, oil or wood?"), ("flood hazard", "Is the lot in a flood hazard area?"),
    ):  # fmt: skip
        person.open_item(item)
        person.choose(field, "no", "#todo")
    for room in ("new-room", "house"):
        person.press("Alarm", "#tools")
        person.click_wall(room, 0.6, 0.7)
    assert "open things to the drafter" in person.page.locator("#next .rest").inner_text()
    person.press(person.page.locator("#next .rest").inner_text(), "#next")
    assert person.next.startswith("Next: Hand it out: ")
    assert person.next.endswith("for the drafter to show.")
    told = person.page.locator("#verdict").inner_text()
    assert "to fix" not in told
    assert told.startswith("NOT READY to submit"), "what is left to others is never taken for shown"
    person.press("Hand out", "#next")
    assert person.page.locator("#handouts").get_attribute("open") is not None
    project = read_project(served.board.file.path)
    assert [(door.id, door.phase) for door in project.doors] == [("D1", "existing"), ("D2", "removed")]
    assert [len(parts) for parts in (project.windows, project.alarms)] == [1, 2]
    print(f"{person.entries} entries, {person.words} words, {person.waited:.1f} s waited: {person.minutes:.1f} minutes")
    assert person.entries <= 48
    assert person.entries * SECONDS_OF_AN_ENTRY / 60 + person.words / WORDS_A_MINUTE < 20
