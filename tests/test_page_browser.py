"""The page in a real browser, headless Chromium on an empty profile each time. Skipped where it is absent."""

import html
import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from precheck.project import read_project
from precheck.reports.html import render
from precheck.review.run import review
from precheck.testing import code, plugins

MILL_LANE = Path(__file__).parent / "data" / "mill-lane.yaml"
CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser", "google-chrome") if (found := shutil.which(name))), ""
)
FLAGS = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--hide-scrollbars",
         "--disable-background-networking", "--disable-component-update", "--disable-sync"]  # fmt: skip
SECONDS = 120
AXE = "axe-core@4"
POLICY = re.compile('<meta http-equiv="Content-Security-Policy"[^>]*>')
WAIT = "await new Promise(r => setTimeout(r, 500));"

pytestmark = [pytest.mark.browser, pytest.mark.skipif(not CHROMIUM, reason="Chromium is not installed")]


def run(folder: Path, *arguments: str) -> str:
    profile = folder / "profile"
    shutil.rmtree(profile, ignore_errors=True)
    command = [CHROMIUM, *FLAGS, f"--user-data-dir={profile}", *arguments]
    return subprocess.run(command, capture_output=True, text=True, timeout=SECONDS, check=True).stdout


def ask(
    page: Path, script: str, fragment: str = "", size: str = "1280,900", head: str = "", flags: tuple[str, ...] = ()
) -> Any:
    """Return what the JavaScript `script`, which may await, finds on a copy of `page`."""
    copy = page.with_name("asked.html")
    asked = (
        f"<script type=module>const found = await (async () => {{ {script} }})();"
        "document.documentElement.dataset.found = JSON.stringify(found)</script></body>"
    )
    text = page.read_text(encoding="utf-8").replace("</head>", f"{head}</head>").replace("</body>", asked)
    text = POLICY.sub("", text)  # under which the page runs no script, not even one that asks it something
    copy.write_text(text, encoding="utf-8")
    flags = (*flags, f"--window-size={size}", "--virtual-time-budget=20000", "--dump-dom")
    dom = run(page.parent, *flags, f"file://{copy}{fragment}")
    answer = re.search(r'<html[^>]* data-found="([^"]*)"', dom)
    assert answer, dom[:2000]
    return json.loads(html.unescape(answer[1]))


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("page") / "report.html"
    path.write_text(render([review(read_project(MILL_LANE), code("irc-2021"), plugins())]), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def axe(tmp_path_factory: pytest.TempPathFactory) -> str:
    npm = shutil.which("npm")
    if not npm:
        pytest.skip("npm is not installed, so axe cannot be fetched")
    folder = tmp_path_factory.mktemp("axe")
    command = [npm, "install", "--no-audit", "--no-fund", "--silent", "--prefix", str(folder), AXE]
    if subprocess.run(command, capture_output=True, timeout=SECONDS, check=False).returncode:
        pytest.skip("axe cannot be fetched here")
    return (folder / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


@pytest.mark.parametrize("size", ["1280,900", "500,900"])
def test_axe_finds_nothing_to_mend(page: Path, axe: str, size: str) -> None:
    script = (
        "const r = await axe.run(document); return [r.passes.length, r.violations.map(v => [v.id, v.nodes[0].html])]"
    )
    passes, violations = ask(page, script, size=size, head=f"<script>{axe}</script>")
    assert violations == []
    assert passes > 30


def test_axe_would_find_something_on_a_worse_page(page: Path, axe: str) -> None:
    worse = page.with_name("worse.html")
    worse.write_text(page.read_text(encoding="utf-8").replace('lang="en"', "").replace("--soft:#4a5a64", "--soft:#ccc"))
    script = "const r = await axe.run(document); return r.violations.map(v => v.id)"
    assert {"html-has-lang", "color-contrast"} <= set(ask(worse, script, head=f"<script>{axe}</script>"))


@pytest.mark.parametrize("size", ["390,844", "800,1100", "1280,900"])
def test_nothing_but_a_drawing_scrolls_sideways(page: Path, size: str) -> None:
    framed = page.with_name("framed.html")
    width = int(size.partition(",")[0])
    framed.write_text(
        f'<head></head><body><iframe src="report.html" style="width:{width}px;height:900px;border:0"></iframe></body>'
    )
    script = (
        f"{WAIT} const d = document.querySelector('iframe').contentDocument;"
        "return [d.documentElement.scrollWidth, d.documentElement.clientWidth]"
    )
    scrolled, room = ask(framed, script, flags=("--allow-file-access-from-files",))
    assert room == width
    assert scrolled <= room


def test_an_item_answers_when_its_mark_is_followed(page: Path) -> None:
    script = (
        f"{WAIT} const t = document.querySelector(':target'); const b = t.getBoundingClientRect();"
        "return [t.id, getComputedStyle(t).outlineStyle, b.top >= -5 && b.top < innerHeight]"
    )
    assert ask(page, script, "#item-3") == ["item-3", "solid", True]


def test_a_part_on_the_plan_answers_when_its_item_is_followed(page: Path) -> None:
    target = re.search(r'href="#(plan-[^"]+)"', page.read_text(encoding="utf-8"))
    assert target
    script = (
        f"{WAIT} const t = document.querySelector(':target'); const b = t.getBoundingClientRect();"
        "const other = document.querySelector('.part:not(:target) > path');"
        "const wide = e => parseFloat(getComputedStyle(e).strokeWidth);"
        "return [t.id, wide(t.querySelector('path')) > wide(other), b.bottom > 0 && b.top < innerHeight]"
    )
    assert ask(page, script, f"#{target[1]}") == [target[1], True, True]


def test_every_link_and_fold_can_be_reached_by_keyboard(page: Path) -> None:
    script = (
        "const all = [...document.querySelectorAll('a, summary, .paper')];"
        "return all.filter(e => e.tabIndex < 0 || !(e.textContent.trim() || e.getAttribute('aria-label'))).length"
    )
    assert ask(page, script) == 0


def test_it_prints_to_a_pdf_whose_drawings_keep_their_scale(page: Path) -> None:
    pdf = page.with_name("printed.pdf")
    run(page.parent, "--no-pdf-header-footer", f"--print-to-pdf={pdf}", f"file://{page}")
    assert pdf.read_bytes().startswith(b"%PDF-")
    assert len(re.findall(rb"/Type\s*/Page\b", pdf.read_bytes())) >= 3
    widths = [
        float(w) for w in re.findall(r'<svg xmlns="[^"]+" class="drawing" [^>]*width="([\d.]+)in"', page.read_text())
    ]
    assert len(widths) >= 5
    assert all(width <= 7.07 for width in widths)  # inches between the margins of A4, the narrower sheet
