"""A page of a PDF as a picture, from the process that draws it; whatever becomes of that process, the board goes on."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from importlib.util import find_spec
from typing import NamedTuple

PATIENCE = 30  # seconds for one page
HOW_TO_HAVE = (
    "A PDF page is drawn by a package that is not installed: run pip install 'precheck[board]', or send the page as a photo, "
    "scan or screenshot (JPEG or PNG)."
)
BROKE_OFF = "The page could not be drawn: the PDF asks for too much, or is damaged. Save the page as PNG and send that."


class PageDrawn(NamedTuple):
    """A page of a PDF: how many pages there are, its size in pixels, and the picture as PNG."""

    pages: int
    size: tuple[int, int]
    png: bytes


def drawn_page(data: bytes, page: int, patience: float = PATIENCE) -> PageDrawn:
    """Return a page of the PDF `data`, counted from 1. Raises ValueError with why it cannot be had, for a person."""
    if find_spec("pypdfium2") is None:
        raise ValueError(HOW_TO_HAVE)
    head, _, png = _answer(data, page, patience).partition(b"\n")
    try:
        told = json.loads(head)
        if "refused" in told:
            raise ValueError(told["refused"])
        return PageDrawn(int(told["pages"]), (int(told["width"]), int(told["height"])), png)
    except (json.JSONDecodeError, KeyError, TypeError):
        raise ValueError(BROKE_OFF) from None


def _answer(data: bytes, page: int, patience: float) -> bytes:
    """Return what the process writes, by way of files: it may write no more than its limit, and nobody waits on a pipe."""
    command = [sys.executable, "-P", "-m", "precheck.board.pdf_child", str(page)]
    with tempfile.TemporaryFile() as sent, tempfile.TemporaryFile() as answer:
        sent.write(data)
        sent.seek(0)
        try:
            done = subprocess.run(
                command, stdin=sent, stdout=answer, stderr=subprocess.DEVNULL, timeout=patience, check=False
            )
        except subprocess.TimeoutExpired:
            raise ValueError(BROKE_OFF) from None
        if done.returncode:
            raise ValueError(BROKE_OFF)
        answer.seek(0)
        return answer.read()
