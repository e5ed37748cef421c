"""A plan behind the sketch in a real browser: sent, set to scale, traced over, by hand and by keys."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from board_pictures import pdf, scan
from test_board import SKETCH
from test_board_browser import CHROMIUM, axe, chromium, desk, opened, served, violations, with_sketch

from precheck.board.server import Served

pytestmark = [pytest.mark.browser, pytest.mark.skipif(not CHROMIUM, reason="Chromium is not installed")]
__all__ = ["axe", "chromium", "desk", "served"]
EMPTY = SKETCH[: SKETCH.index("spaces:")] + "spaces: [{id: hall, phase: existing, use: hall, story: ground}]\n"
ONE, OTHER = (40, 150), (210, 150)  # two points of the scan, 170 pixels apart
SCAN = scan(300, 200, frozenset([ONE, OTHER, (40, 48)]))


def sent(page: Any, data: bytes, name: str) -> None:
    page.locator('[data-tool="underlay"]').click()
    page.locator("[data-field=file]").set_input_files(
        {"name": name, "mimeType": "application/octet-stream", "buffer": data}
    )
    page.get_by_text("It is not to scale yet").wait_for()
    page.wait_for_function("() => document.querySelector('img.under').naturalWidth > 0")


def on_screen(page: Any, pixel: tuple[float, float], size: tuple[int, int] = (300, 200)) -> tuple[float, float]:
    """Return where a point of an upright picture is on the screen."""
    box = page.locator("img.under").bounding_box()
    return box["x"] + box["width"] * pixel[0] / size[0], box["y"] + box["height"] * pixel[1] / size[1]


def laid(served: Served) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(served.board.underlays.list.read_text())["underlays"][0]
    return found


def to_scale(page: Any, distance: str = "14'-2\"") -> None:
    page.locator("[data-field=scale]").click()
    for pixel in (ONE, OTHER):
        page.mouse.click(*on_screen(page, pixel))
    page.locator("[data-field=distance]").fill(distance)
    page.keyboard.press("Enter")
    page.get_by_text("It is set to scale.").wait_for()


def test_a_room_traced_over_a_scan_set_to_scale_has_its_true_size(chromium: Any, served: Served) -> None:
    with_sketch(served, EMPTY)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    sent(page, SCAN, "plan.png")
    to_scale(page)
    assert laid(served)["scale"] == pytest.approx(1.0, rel=0.01)
    page.wait_for_timeout(300)
    corner, across = on_screen(page, ONE), on_screen(page, (OTHER[0], 48))
    page.locator('[data-tool="room"]').click()
    page.wait_for_timeout(300)
    page.mouse.move(*corner)
    page.mouse.down()
    page.mouse.move(*across, steps=5)
    page.mouse.up()
    size = page.locator("#part").get_by_label("Size: across, then up the page")
    assert size.input_value() in {"14'-0\" x 8'-6\"", "14'-6\" x 8'-6\""}  # 170 x 102 in, to the 6 in of the grid
    page.locator("#part select").first.select_option("bedroom")
    size.fill("14'-2\" x 8'-6\"")
    size.press("Enter")
    page.locator("#undo:not([disabled])").wait_for()
    assert "width: 14'-2\"" in served.board.file.path.read_text(encoding="utf-8")
    assert "underlay" not in served.board.file.path.read_text(encoding="utf-8")


def test_by_keys_alone_it_is_set_to_scale_moved_turned_faded_and_taken_out(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    sent(page, SCAN, "plan.png")
    page.locator("[data-field=scale]").focus()
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "plan"
    page.keyboard.press("Shift+ArrowLeft")
    page.keyboard.press("Enter")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.dataset.field") == "distance"
    page.keyboard.type("100 in")
    page.keyboard.press("Enter")
    page.get_by_text("It is set to scale.").wait_for()
    first = laid(served)
    assert first["to_scale"]
    page.locator("[data-field=move]").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Alt+ArrowDown")
    page.keyboard.press("Escape")
    page.wait_for_timeout(400)
    assert (laid(served)["x"] - first["x"], laid(served)["y"] - first["y"]) == pytest.approx((12, 0.75))
    assert served.board.file.path.read_text(encoding="utf-8") == SKETCH  # and no room was moved by it
    page.locator("[data-field=angle]").fill("1.5")
    page.keyboard.press("Enter")
    page.wait_for_timeout(400)
    page.locator("[data-field=seen]").focus()
    page.keyboard.press("End")
    page.wait_for_timeout(400)
    page.locator("[data-field=hidden]").focus()
    page.keyboard.press("Space")
    page.wait_for_timeout(600)
    assert (laid(served)["angle"], laid(served)["seen"], laid(served)["hidden"]) == (1.5, 100, True)
    assert page.locator("img.under").is_hidden()
    page.get_by_role("button", name="Take the picture out").press("Enter")
    page.get_by_label("Choose a PDF, JPEG, PNG or WebP").wait_for()
    assert [path.name for path in served.board.underlays.folder.iterdir()] == ["underlay.json"]


def test_a_page_of_a_pdf_is_chosen_made_level_and_is_there_after_a_restart(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    sent(page, pdf(3), "plan.pdf")
    page.get_by_role("button", name="Next page").click()
    page.locator("img.under[src$='-2']").wait_for(state="attached")
    page.locator("[data-field=level]").click()
    for pixel in ((200, 1800), (1500, 1700)):
        page.mouse.click(*on_screen(page, pixel, (1700, 2200)))
    page.wait_for_function("() => document.querySelector('[data-field=angle]').value !== '0'")
    assert laid(served)["angle"] == pytest.approx(-4.4, abs=0.3)
    page.reload()
    page.locator("img.under[src$='-2']").wait_for(state="attached")
    page.wait_for_function("() => document.querySelector('img.under').naturalWidth === 1700")


def test_a_photo_that_the_camera_laid_on_its_side_is_shown_upright_at_its_true_shape(
    chromium: Any, served: Served, tmp_path: Path
) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    page.screenshot(path=tmp_path / "a.jpg", type="jpeg", clip={"x": 0, "y": 0, "width": 300, "height": 200})
    jpeg = (tmp_path / "a.jpg").read_bytes()
    exif = bytes.fromhex("ffe1002245786966000049492a0008000000010012010300010000000600000000000000")
    sent(page, jpeg[:2] + exif + jpeg[2:], "photo.jpg")
    assert laid(served)["size"] == [200, 300]
    assert page.evaluate("(({naturalWidth: w, naturalHeight: h}) => [w, h])(document.querySelector('img.under'))") == [
        200,
        300,
    ]
    assert page.locator("img.under.askew").count() == 0


def test_a_picture_that_is_dropped_on_the_page_lies_behind_the_sketch_and_leaves_the_page_as_it_is(
    chromium: Any, served: Served
) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    address = page.url
    page.evaluate(
        """bytes => {
            const data = new DataTransfer();
            data.items.add(new File([new Uint8Array(bytes)], "plan.png"));
            const drop = new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true });
            document.getElementById("plan").dispatchEvent(drop);
            document.body.dataset.kept = String(drop.defaultPrevented);
        }""",
        list(SCAN),
    )
    page.get_by_text("It is not to scale yet").wait_for()
    assert page.evaluate("document.body.dataset.kept") == "true"
    assert (page.url, laid(served)["size"]) == (address, [300, 200])


def test_a_point_of_the_picture_is_laid_on_a_corner_of_a_room_exactly(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    sent(page, SCAN, "plan.png")
    to_scale(page)
    page.wait_for_timeout(300)
    page.locator("[data-field=point]").click()
    page.mouse.click(*on_screen(page, ONE))
    room = page.locator('[data-part="hall"] .room').bounding_box()
    page.mouse.click(room["x"] + 4, room["y"] + room["height"] - 4)  # near its corner at the origin of the plan
    page.wait_for_timeout(500)
    found = laid(served)
    assert (found["x"] + found["scale"] * ONE[0], found["y"] - found["scale"] * ONE[1]) == pytest.approx(
        (0, 0), abs=1.5
    )


def test_another_distance_that_the_plan_states_is_checked_on_a_picture_set_to_scale(
    chromium: Any, served: Served
) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    sent(page, SCAN, "plan.png")
    to_scale(page)
    page.wait_for_timeout(300)
    before = laid(served)
    page.locator("[data-field=check]").click()
    for pixel in (ONE, (40, 48)):
        page.mouse.click(*on_screen(page, pixel))
    page.locator("#part").get_by_text(re.compile("8'-[567]\"")).wait_for()  # 102 in
    assert laid(served) == before


def test_what_is_no_picture_is_told_with_what_to_send(chromium: Any, served: Served) -> None:
    with_sketch(served)
    page = opened(chromium, served)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    page.locator('[data-tool="underlay"]').click()
    for name, data, says in (
        ("a.heic", b"\0\0\0\x18ftypheic", "Send it as JPEG"),
        ("a.png", b"<svg onload=alert(1)>", "can carry programs"),
        ("a.pdf", pdf(1)[:90], "cannot be read"),
    ):
        page.locator("[data-field=file]").set_input_files({"name": name, "mimeType": "image/png", "buffer": data})
        page.locator("#part .refused").get_by_text(says).wait_for()
    assert not served.board.underlays.folder.exists()


@pytest.mark.parametrize(("width", "scheme"), [(1400, "light"), (390, "dark")])
def test_axe_finds_nothing_to_mend_while_tracing(
    chromium: Any, served: Served, axe: str, width: int, scheme: str
) -> None:
    with_sketch(served)
    page = opened(chromium, served, width, color_scheme=scheme)
    page.locator("#name").get_by_text("Mill Lane").wait_for()
    page.locator('[data-tool="underlay"]').click()
    if width < 800:
        page.get_by_role("button", name="This part").click()
    page.locator("[data-field=file]").set_input_files({"name": "a.png", "mimeType": "image/png", "buffer": SCAN})
    page.get_by_text("It is not to scale yet").wait_for()
    assert violations(page, axe) == []
    page.locator("[data-field=scale]").click()
    assert violations(page, axe) == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
