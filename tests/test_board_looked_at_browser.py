"""A job early, in its middle and late, at three widths, light and dark: nothing scrolls sideways and axe finds nothing.

Skipped where Chromium or the library that drives it is absent. Where `PRECHECK_PICTURES` names a folder, pictures are left there.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

import pytest
from sampled import long_save
from test_board_browser import (
    BY_HAND,
    at_rest,
    axe,
    chromium,
    desk,
    opened,
    pytestmark,
    served,
    violations,
    with_sketch,
)

from precheck.board.server import Served

__all__ = ["axe", "chromium", "desk", "pytestmark", "served"]
SEEN = [(width, scheme) for width in (390, 820, 1400) for scheme in ("light", "dark")]
PICTURES = os.environ.get("PRECHECK_PICTURES", "")


def to_stage(page: Any, stage: str) -> None:
    """Lead the page to how it is at a stage of the job."""
    if stage == "begun":
        page.locator("#begin").get_by_label("What is the job called?").wait_for()
        return
    page.locator("#plan [data-part]").first.wait_for(state="attached")
    for what in ("rooms", "doors", "windows"):
        at_rest(page).locator(f"#complete [value={what}]").check()
    if stage == "asked":
        at_rest(page).locator("#next").get_by_role("button", name="Answer", exact=True).click()
    elif stage == "chosen":
        at_rest(page).locator('#plan [data-part="new-room"]').focus()
        page.keyboard.press("Enter")
    else:
        at_rest(page).locator("#next .rest").click()
        at_rest(page).locator("#handouts summary").click()


def drawn_so_far() -> str:
    """The job written by hand, as it is before what is drawn of its story is ticked."""
    return BY_HAND.replace("drawn: [rooms, doors, windows]", "drawn: []")


@pytest.mark.parametrize("seen", long_save(SEEN, (390, "dark"), (1400, "light")))
def test_a_job_can_be_read_at_every_stage(chromium: Any, served: Served, axe: str, seen: tuple[int, str]) -> None:
    width, scheme = seen
    for stage in ("begun", "asked", "chosen", "late"):
        if stage != "begun":
            served.board.later.path.unlink(missing_ok=True)
            with_sketch(served, drawn_so_far())
        page = opened(chromium, served, width, color_scheme=scheme)
        to_stage(page, stage)
        at_rest(page)
        if PICTURES:
            page.screenshot(path=Path(PICTURES) / f"{stage}-{width}-{scheme}.png")
        assert not page.evaluate("document.documentElement.scrollWidth > innerWidth"), stage
        assert violations(page, axe) == [], stage
        page.close()
