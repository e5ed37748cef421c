"""The PDF: the page's content on letter paper, deterministic, and no name is read as an instruction."""

import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from precheck.checks import Outcome
from precheck.files.source import Unusable, read_text
from precheck.project import Project, project_from, read_project
from precheck.reports.opening import works_told
from precheck.reports.worklist import items_of
from precheck.review.finding import Review
from precheck.review.run import review
from precheck.testing import code, plugins

pytest.importorskip("typst")
from precheck.reports.pdf import render

MILL_LANE = Path(__file__).parent / "data" / "mill-lane.yaml"
needs_poppler = pytest.mark.skipif(not shutil.which("pdftotext"), reason="pdftotext is not installed")


def reviewed(project: Project) -> Review:
    return review(project, code("irc-2021"), plugins())


def text_of(pdf: bytes) -> str:
    return subprocess.run(
        ["pdftotext", "-layout", "-", "-"], input=pdf, capture_output=True, check=True
    ).stdout.decode()


@needs_poppler
def test_the_pdf_says_what_to_do_and_where_the_limit_stands() -> None:
    text = text_of(render([reviewed(read_project(MILL_LANE))]))
    for wanted in ("What to do", "lower the sill by 1 in", "1 in too high", "irc/escape.yaml:", "Section, stair S1",
                   "The local building department has the final say"):  # fmt: skip
        assert wanted in text


def test_the_same_review_gives_the_same_pdf() -> None:
    found = reviewed(read_project(MILL_LANE))
    assert render([found]) == render([found])


@needs_poppler
@pytest.mark.parametrize(
    "name", ["#panic(1) $x$ *b* `r` \\", "]]> <b>&amp;", "дверь باب ドア", "😀" * 40, "a" * 58 + "é😀", "x" * 10_000]
)
def test_names_are_set_as_text(name: str) -> None:
    quoted = name.replace("\\", "\\\\").replace('"', '\\"')
    text = MILL_LANE.read_text(encoding="utf-8").replace("14 Mill Lane, garage to bedroom", f'"{quoted}"')
    text = text.replace("name: New bedroom", f'name: "{quoted}"').replace("S1", f'"{quoted[:50]}"')
    pdf = render([reviewed(project_from(read_text(text, "p.yaml")))])
    assert name[:12].split()[0] in text_of(pdf) or not name.isascii()


def test_without_typst_the_message_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(Unusable, match=r"precheck\[pdf\]"):
        render([])


@needs_poppler
def test_a_word_longer_than_a_line_is_broken_and_stays_on_the_sheet() -> None:
    text = MILL_LANE.read_text(encoding="utf-8").replace("14 Mill Lane, garage to bedroom", "x" * 10_000)
    pdf = render([reviewed(project_from(read_text(text, "p.yaml")))])
    command = ["pdftotext", "-f", "1", "-l", "1", "-bbox", "-", "-"]
    boxes = subprocess.run(command, input=pdf, capture_output=True, check=True).stdout.decode()
    rights = [float(right) for right in re.findall(r'xMax="([\d.]+)"', boxes)]
    assert len(rights) > 50
    assert max(rights) <= 612 - 0.7 * 72  # points from the left edge to the right margin of a letter sheet


def page_of(pdf: bytes, number: int) -> str:
    command = ["pdftotext", "-f", str(number), "-l", str(number), "-", "-"]
    return subprocess.run(command, input=pdf, capture_output=True, check=True).stdout.decode()


@needs_poppler
def test_the_first_page_has_the_works_and_the_ten_things_to_do_first() -> None:
    found = reviewed(read_project(MILL_LANE))
    first = page_of(render([found]), 1)
    assert "The work, as read from the file" in first
    assert all(one.name in " ".join(first.split()) for one in works_told(found))
    todo = first[first.index(f"What to do first (10 of {len(items_of(found))})") :]
    assert {str(number) for number in range(1, 11)} <= set(todo.split())


def in_reading_order(pdf: bytes) -> str:
    """Return the text column by column."""
    return subprocess.run(["pdftotext", "-", "-"], input=pdf, capture_output=True, check=True).stdout.decode()


@needs_poppler
def test_the_checks_that_are_met_are_named() -> None:
    found = reviewed(read_project(MILL_LANE))
    met = Counter(f.rule.name for f in found.findings if f.outcome is Outcome.PASS)
    text = " ".join(in_reading_order(render([found])).split())
    text = text.replace("-", "")  # names are broken at their dashes, which are lost there
    text = text[text.index(f"Met ({met.total()})") :]
    for rule in met:
        topic, _, name = rule.partition(".")
        assert f"{topic.replace('-', '')}:" in text
        assert re.search(rf"\b{re.escape(name.replace('-', ''))}\b", text)


@needs_poppler
def test_two_narrow_drawings_stand_side_by_side() -> None:
    text = MILL_LANE.read_text(encoding="utf-8")
    window = text[text.index("  - id: W1") :]
    window = window[: window.index("\n  -", 5) + 1] if "\n  -" in window[5:] else window
    both = text.replace(window, window + window.replace("W1", "W9"), 1)
    shown = text_of(render([reviewed(project_from(read_text(both, "p.yaml")))]))
    assert re.search(r"Elevation from inside, window W1 +Elevation from inside, window W9", shown)
