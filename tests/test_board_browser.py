"""The board in a real browser: a job described from nothing, by hand and by keys alone, small, dark, and with hostile names.

Skipped where Chromium or the library that drives it is absent.
"""

from __future__ import annotations

import shutil
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from test_board import SKETCH, running
from test_page_browser import AXE, SECONDS

from precheck.board.board import HouseBoard
from precheck.board.server import Served
from precheck.project import read_project
from precheck.reports import words
from precheck.runs.desk import Desk, Run

playwright = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), ""
)
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
BY_HAND = """\
project: 9 Fern Walk
jurisdiction: irc-2021
applied on: 2026-03-02
work: [garage to room]
stories: [{id: ground, level: ground, phase: existing, drawn: [rooms, doors, windows]}]
sheets: [{id: A1, title: Plans}, {id: A2, title: Sections}]
floors:
  - {id: house-floor, phase: existing, finished level: 0 in, sheets: [A2]}
  - {id: new-floor, phase: new, base: slab, sheets: [A2]}
spaces:
  - id: house
    name: The house as it is
    phase: existing
    use: hall
    story: ground
    floor: house-floor
    sheets: [A1]
    rectangle: {at: [0 in, 0 in], width: 20 ft, depth: 24 ft}
  - id: new-room
    name: New bedroom
    phase: altered
    use: bedroom
    was: garage
    story: ground
    floor: new-floor
    sheets: [A1]
    rectangle: {at: [20'-4 1/2", 0 in], width: 12 ft, depth: 14'-6"}
    ceiling: {height: 8 ft}
windows:
  - id: W1
    phase: new
    space: new-room
    operation: casement
    unit size: 3'-0" x 4'-0"
    sill height: 40 in
    on: {room: new-room, side: south, from: west, distance: 5'-6"}
doors:
  - id: D1
    phase: new
    between: [new-room, house]
    operation: side-hinged
    unit size: 2'-8" x 6'-8"
    on: {room: new-room, side: west, from: north, distance: 3'-4"}
"""

pytestmark = [pytest.mark.browser, pytest.mark.skipif(not CHROMIUM, reason="Chromium is not installed")]


@pytest.fixture(scope="module")
def desk() -> Desk:
    return Desk(Run())


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    with playwright.sync_playwright() as started:
        browser = started.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def served(tmp_path: Path, desk: Desk) -> Iterator[Served]:
    found = Served(HouseBoard(tmp_path / "house.yaml", desk))
    with running(found):
        yield found


def opened(chromium: Any, served: Served, width: int = 1280, **more: Any) -> Any:
    page = chromium.new_page(viewport={"width": width, "height": 900}, **more)
    page.set_default_timeout(60_000)
    page.goto(served.address)
    return page


def at_rest(page: Any) -> Any:
    """Wait until the page has done what it was at; return it."""
    page.locator('html[data-working="0"]').wait_for(state="attached")
    return page


def with_sketch(served: Served, text: str = SKETCH) -> None:
    served.board.file.path.write_text(text, encoding="utf-8")


def put_on_wall(page: Any, room: str, tool: str, across: float, up: float) -> None:
    """Click the wall of a room at shares of its width and height, from its lower left corner, with a tool."""
    page.locator(f'[data-tool="{tool}"]').click()
    page.wait_for_timeout(800)  # until the plan has taken the room that is left to it
    box = page.locator(f'[data-part="{room}"] .room').bounding_box()
    page.mouse.click(box["x"] + box["width"] * across, box["y"] + box["height"] * (1 - up))


def typed(page: Any, label: str, text: str) -> None:
    """Type into a field of what is chosen, and press Enter until it is taken as it is read."""
    saved = page.locator("#undo").get_attribute("title")
    field = page.locator("#part").get_by_label(label, exact=True)
    field.fill(text)
    field.press("Enter")
    page.wait_for_timeout(300)
    if page.locator("#part .refused").filter(has_text="Press Enter").count():
        field.press("Enter")
    page.wait_for_function("was => document.getElementById('undo').title !== was", arg=saved)


def test_a_garage_conversion_described_from_nothing_gives_the_report_of_the_file_written_by_hand(
    chromium: Any, served: Served, tmp_path: Path, desk: Desk
) -> None:
    page = opened(chromium, served)
    page.get_by_label("What is the job called?").fill("9 Fern Walk")
    page.get_by_label("garage to room").check()
    page.get_by_label("If it is not in the list: which code does it use?").select_option("irc-2021")
    page.get_by_label("Date of the permit application").fill("2026-03-02")
    page.get_by_role("button", name="Begin the sketch").click()
    typed(page, "Size in plan", "20 x 24")
    page.locator("#loose button").get_by_text("New bedroom").click()
    page.locator("#part h2").get_by_text("New bedroom").wait_for()
    typed(page, "Size in plan", "12 x 14 6")
    put_on_wall(page, "new-room", "window", 0.45, 0)
    page.locator("#part h2").get_by_text("A window").wait_for()
    page.get_by_label("From the corner to its nearer jamb").fill("4 ft")
    page.get_by_label("Operation").select_option("casement")
    typed(page, "Size: width x height", "3'-0\" x 4'-0\"")
    put_on_wall(page, "new-room", "door", 0, 0.8)
    page.locator("#part h2").get_by_text("A door").wait_for()
    page.get_by_label("From the corner to its nearer jamb").fill("2 ft")
    page.get_by_label("Operation").select_option("side-hinged")
    typed(page, "Size: width x height", "2868")
    page.locator('[data-tool="select"]').click()
    page.locator('#plan [data-part="W1"]').click()
    page.locator("#part h2").get_by_text("window W1").wait_for()
    typed(page, "Sill height", "40")
    page.locator('#plan [data-part="new-room"]').click()
    page.locator("#part h2").get_by_text("New bedroom").wait_for()
    typed(page, "Ceiling height", "8 ft")
    for what in ("all rooms", "all doors", "all windows"):
        page.get_by_label(what).check()  # faster than the answers come
    file = served.board.file.path
    for _ in range(100):
        if "drawn: [rooms, doors, windows]" in file.read_text(encoding="utf-8"):
            break
        page.wait_for_timeout(200)
    page.wait_for_timeout(500)
    by_hand = tmp_path / "by-hand.yaml"
    by_hand.write_text(BY_HAND, encoding="utf-8")
    drawn, written = (outcomes(desk, path) for path in (file, by_hand))
    assert drawn == written
    assert len(drawn) > 100


def outcomes(desk: Desk, path: Path) -> dict[tuple[str, str], str]:
    review = desk.review_of(read_project(path, str(path), desk.plugins.added), str(path))
    return {(finding.rule.name, words.label(finding)): finding.outcome.word for finding in review.findings}


def test_keys_alone_choose_a_part_move_it_and_take_it_back(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    part = page.locator('#plan [data-part="W1"]')
    part.focus()
    part.press("Enter")
    page.locator("#part h2").get_by_text("window W1").wait_for()
    assert page.evaluate("document.activeElement.closest('#part') !== null")
    at_rest(page).locator('#plan [data-part="W1"]').focus()
    page.keyboard.press("Shift+ArrowRight")
    page.locator("#undo:not([disabled])").wait_for()
    assert "distance: 5'-4 1/2\"" in served.board.file.path.read_text(encoding="utf-8")
    at_rest(page).locator('#plan [data-part="W1"]').focus()
    page.keyboard.press("Control+z")
    page.locator("#undo[disabled]").wait_for()
    assert served.board.file.path.read_text(encoding="utf-8") == SKETCH


def test_a_value_typed_on_a_phone_settles_its_finding_and_nothing_scrolls_sideways(
    chromium: Any, served: Served
) -> None:
    with_sketch(served)
    page = opened(chromium, served, 390, has_touch=True)
    page.locator('#plan [data-part="W1"]').tap()
    page.locator("#part h2").get_by_text("window W1").wait_for()
    typed(page, "Sill height", "40 in")
    page.get_by_role("button", name="To do").tap()
    assert page.locator("#todo").get_by_text("46 in, 44 in maximum").count() == 0
    for tab in ("Plan", "This part", "To do"):
        page.get_by_role("button", name=tab).first.tap()
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


UNDER_44 = """() => [...document.querySelectorAll("button, #handouts a, select, summary, label:has([type=radio], [type=checkbox])")]
  .filter(one => one.offsetParent && !one.closest("svg") && one.getBoundingClientRect().height < 43.5)
  .map(one => one.textContent.trim())"""


def test_what_one_taps_on_a_phone_is_44_pixels_high(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served, 390, has_touch=True)
    page.locator("#handouts summary").tap()
    assert page.evaluate(UNDER_44) == []
    page.locator("#handouts summary").tap()
    page.locator('#plan [data-part="W1"]').tap()
    page.locator("#part h2").get_by_text("window W1").wait_for()
    assert page.evaluate(UNDER_44) == []
    page.get_by_role("button", name="To do").tap()
    assert page.evaluate(UNDER_44) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_what_another_writes_appears_and_what_is_typed_meanwhile_is_not_lost(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    with_sketch(served, SKETCH.replace("Mill Lane", "Fern Walk"))
    page.locator("#name").get_by_text("Fern Walk").wait_for()
    with_sketch(served, SKETCH + "doors: [\n")
    page.locator("#bar").get_by_text("cannot be read").wait_for()
    with_sketch(served)
    page.locator("#bar").wait_for(state="hidden")


def test_a_board_that_has_ended_says_so(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    served.stop()
    page.locator("#bar").get_by_text("Run precheck board again").wait_for()


def test_markup_in_names_is_text_everywhere(chromium: Any, served: Served) -> None:
    hostile = "<img src=x onerror=document.title='acted'>"
    text = SKETCH.replace("Mill Lane", hostile).replace("id: hall,", f'id: hall, name: "{hostile}",')
    with_sketch(served, text)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("onerror").wait_for()
    page.locator('#plan [data-part="hall"]').click()
    page.locator("#part h2").get_by_text("onerror").wait_for()
    assert page.locator("img:not(.under)").count() == 0
    assert not page.title().startswith("acted")


@pytest.fixture(scope="module")
def axe(tmp_path_factory: pytest.TempPathFactory) -> str:
    import subprocess

    npm = shutil.which("npm")
    folder = tmp_path_factory.mktemp("axe")
    command = [npm or "npm", "install", "--no-audit", "--no-fund", "--silent", "--prefix", str(folder), AXE]
    if npm is None or subprocess.run(command, capture_output=True, timeout=SECONDS, check=False).returncode:
        pytest.skip("axe cannot be fetched here")
    return (folder / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("width", "scheme"), [(1440, "light"), (1440, "dark"), (820, "light"), (820, "dark"), (390, "light"), (390, "dark")]
)
def test_axe_finds_nothing_to_mend(chromium: Any, served: Served, axe: str, width: int, scheme: str) -> None:
    page = opened(chromium, served, width, color_scheme=scheme)
    page.get_by_label("What is the job called?").wait_for()
    assert violations(page, axe) == []
    with_sketch(served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    page.evaluate(
        "document.querySelector('#plan [data-part=W1]')?.dispatchEvent(new KeyboardEvent('keydown', {key: 'Enter', bubbles: true}))"
    )
    page.wait_for_timeout(800)
    assert violations(page, axe) == []


def violations(page: Any, axe: str) -> list[Any]:
    page.evaluate(axe)
    found: list[Any] = page.evaluate(
        "axe.run().then(r => r.violations.map(v => [v.id, v.nodes[0].html, v.nodes[0].failureSummary]))"
    )
    return found


WHOLE = Path(__file__).parent.parent / "examples" / "alder-court" / "proposed.yaml"
LONG = pytest.mark.long


@pytest.mark.parametrize(
    ("width", "scheme"),
    [
        (1400, "dark"),
        (390, "light"),
        pytest.param(1400, "light", marks=LONG),
        pytest.param(820, "light", marks=LONG),
        pytest.param(820, "dark", marks=LONG),
        pytest.param(390, "dark", marks=LONG),
    ],
)
def test_axe_finds_nothing_to_mend_in_plan_section_and_menus_of_a_whole_house(
    chromium: Any, served: Served, axe: str, width: int, scheme: str
) -> None:
    with_sketch(served, WHOLE.read_text(encoding="utf-8"))
    page = opened(chromium, served, width, color_scheme=scheme)
    page.locator("#plan [data-part=suite]").wait_for()
    assert violations(page, axe) == []
    page.locator("#cut").click()
    page.locator("#section svg").wait_for()
    page.locator("#handouts summary").click()
    assert violations(page, axe) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_at_a_desk_all_of_the_board_is_in_one_screen_and_on_a_phone_the_plan_is_whole_before_anything_else(
    chromium: Any, served: Served
) -> None:
    with_sketch(served, WHOLE.read_text(encoding="utf-8"))
    page = opened(chromium, served, 1400)
    page.locator("#plan [data-part=suite]").wait_for()
    assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    foot = page.locator("#reminder").bounding_box()
    assert foot["y"] + foot["height"] <= 900
    page = opened(chromium, served, 390)
    page.locator("#plan [data-part=garage]").wait_for()
    plan = page.locator("#plan").bounding_box()
    assert plan["y"] + plan["height"] < 844
    assert plan["y"] < page.locator("#next").bounding_box()["y"]
    garage = page.locator("#plan [data-part=garage] .room").bounding_box()
    assert garage["x"] + garage["width"] <= plan["x"] + plan["width"]


def test_a_page_that_is_closed_tells_the_board(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    assert served.presence._left is None
    page.close()
    until = time.monotonic() + 20
    while served.presence._left is None and time.monotonic() < until:
        time.sleep(0.05)
    assert served.presence._left is not None
