"""From a key to what is seen of it on the board, for the big example, beside one reading and one check of the same file.

Run it by hand: ``python tests/benchmarks/board.py``; without Chromium it tells the answers alone.
"""

from __future__ import annotations

import gc
import shutil
import statistics
import tempfile
import threading
from importlib.util import find_spec
from pathlib import Path

from timing import interleaved

from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.board.server import Served
from precheck.files.source import read_text
from precheck.project import project_from
from precheck.runs.desk import Desk, Run

ROOT = Path(__file__).parents[2]
BIG = ROOT / "examples" / "alder-court" / "proposed.yaml"
RUNS = 20
PAINTED = """value => new Promise(done => {
  const field = document.querySelector('#part [data-field="sill height"]');
  const undo = document.getElementById('undo'), saved = document.getElementById('live');
  saved.textContent = '';
  field.value = value;
  const from = performance.now();
  const look = () => saved.textContent
    ? requestAnimationFrame(() => setTimeout(() => done(performance.now() - from), 0)) : setTimeout(look, 0);
  field.form.requestSubmit();
  look();
})"""


def measure() -> None:
    """Print how long a typed value takes to its answer, and to its picture where there is a browser."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "house.yaml"
        shutil.copy(BIG, path)
        board = HouseBoard(path, Desk(Run()))
        gc.collect()
        gc.freeze()
        check, answer = _answers(board)
        print(
            f"board: read and check {1000 * check:.0f} ms; a typed value to its answer {1000 * answer:.0f} ms ({answer / check:.2f} x)"
        )
        painted = _painted(board)
        if painted:
            print(
                f"board: key to paint, median {statistics.median(painted):.0f} ms, minimum {min(painted):.0f} ms; 150 ms is asked"
            )


def _answers(board: HouseBoard) -> list[float]:
    """Return the median times of one check of the file as it stands, and of one value written, checked and answered."""
    heights = iter(range(10 * RUNS))

    def check() -> None:
        text = board.file.text
        board.desk.review_of(project_from(read_text(text, "house.yaml"), board.desk.plugins.added), "house.yaml")

    def answer() -> None:
        value = f"{38 + next(heights) % 5} in"
        assert "refused" not in board.do(
            REQUEST.validate_python({"do": "set", "part": "W1", "key": "sill height", "value": value})
        )

    gc.disable()
    try:
        return interleaved([check, answer], RUNS)
    finally:
        gc.enable()


def _painted(board: HouseBoard) -> list[float]:
    """Return the milliseconds from Enter to the picture, one by one; none where no browser is here."""
    chromium = shutil.which("chromium") or shutil.which("google-chrome")
    if find_spec("playwright") is None or chromium is None:
        return []
    from playwright.sync_api import sync_playwright

    served = Served(board)
    thread = threading.Thread(target=served.run, daemon=True)
    thread.start()
    try:
        with sync_playwright() as started:
            page = started.chromium.launch(executable_path=chromium, args=["--no-sandbox"]).new_page(
                viewport={"width": 1400, "height": 900}
            )
            page.goto(served.address)
            page.locator('#plan [data-part="W1"]').press("Enter")
            page.locator('#part [data-field="sill height"]').wait_for(state="attached")
            found = []
            for number in range(RUNS):
                page.wait_for_timeout(400)
                found.append(float(page.evaluate(PAINTED, f"{38 + number % 5}.5 in")))
            return found[2:]  # the first ones warm the browser
    finally:
        served.stop()
        thread.join(timeout=20)


if __name__ == "__main__":
    measure()
