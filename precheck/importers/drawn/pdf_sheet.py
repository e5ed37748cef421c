"""A page of a PDF as a sheet: its strokes and fills as lines on layers of color and width, its arcs and its texts."""

from __future__ import annotations

from typing import Any

from precheck.importers.drawn.joined_sizes import sizes_joined
from precheck.importers.drawn.pdf_arcs import arcs_apart
from precheck.importers.drawn.pdf_page import PdfPage
from precheck.importers.drawn.pdf_solids import solids_united
from precheck.importers.drawn.pdf_texts import PageLetters
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet

FEW = 20  # lines of a page, below which it shows no drawing
COVERED = 0.4  # of a page that pictures cover from which it is a picture


class PageSheet:
    """A page that was read, with what tells why it may not be a drawing that can be used."""

    def __init__(self, document: Any, number: int, hidden: frozenset[str] = frozenset()) -> None:
        page = PdfPage(document, number, hidden)
        self.number, self.size = number, page.size
        self.sheet = DrawnSheet()
        self.sheet.lines, self._widths = self._lines(page)
        self.pictures = page.pictures
        letters = PageLetters(page)
        self.sheet.texts = sizes_joined(letters.texts())
        if page.full or letters.full:
            self.sheet.told.append("the page holds more than is read; what comes last on it is left out")
        if page.left:
            listed = "; ".join(f"{what} ({count})" for what, count in sorted(page.left.items()))
            self.sheet.told.append(f"not read on the page: {listed}")

    def _lines(self, page: PdfPage) -> tuple[list[DrawnLine], dict[str, float]]:
        found: list[DrawnLine] = []
        widths: dict[str, float] = {}
        width, height = page.size
        for path in page.paths():
            lines, arcs = arcs_apart(path)
            widths[path.layer] = path.width
            found += [
                line for line in lines if any(0 <= x <= width and 0 <= y <= height for x, y in (line.start, line.end))
            ]
            self.sheet.swings += arcs
        return found, widths

    def united(self) -> DrawnSheet:
        """Return the sheet with the solids that were filled by strokes as their outlines."""
        self.sheet.lines = solids_united(self.sheet.lines, self._widths)
        return self.sheet

    @property
    def why_not(self) -> str:
        """Why the page is no drawing whose rooms could be found, and the way out; empty where it may be one."""
        said = any(any(c.isalpha() for c in text.text) for text in self.sheet.texts)
        if len(self.sheet.lines) < FEW:
            if self.pictures >= COVERED:
                return "is a picture, as of a scan, which is not read; plot the drawing as PDF from the program that drew it"
            return "holds no drawing of lines"
        if not said:
            return (
                "has its texts as lines, so that no room has a name that can be read; plot it again with its texts as"
                " text (fonts of Windows instead of those of the drafting program), or take the drawing as DXF"
            )
        return ""


__all__ = ["PageSheet"]
