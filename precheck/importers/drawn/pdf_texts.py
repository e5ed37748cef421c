"""The texts of a page of a PDF: letters that stand side by side on one line, read together."""

from __future__ import annotations

from collections import Counter
from ctypes import byref, c_double
from importlib import import_module
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any, NamedTuple

from precheck.importers.draft import plain
from precheck.importers.drawn.pdf_page import Matrix, PdfPage
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.plane import P2

MOST = 60_000  # letters of one page
APART = 1.6  # heights of letters from which what follows is another text
CLOSE = 1.2  # the same where the file ends a line between them, as it does between pieces of one text
ASIDE = 0.35  # heights of letters off the line
RAISED = {"2": "²", "3": "³"}  # of a meter
SPACE = 0.25  # heights of letters between pieces, from which a space stands there
CAPITAL = 0.7  # of the size of a font that its capital letters are high


class Letter(NamedTuple):
    """One letter: where its box begins and ends along its line, the line's height over the origin, its size and angle."""

    sign: str
    begins: float
    ends: float
    aside: float
    size: float
    angle: float


class PageLetters:
    """Joins the letters of a page to texts."""

    def __init__(self, page: PdfPage) -> None:
        self._pdf: Any = import_module("pypdfium2.raw")
        self._page = page
        self._read: Any = self._pdf.FPDFText_LoadPage(page.page.raw)
        self.full = False
        self._said: Counter[str] = Counter()

    def texts(self) -> list[DrawnText]:
        """Return the texts of the page, each at the middle of its box."""
        found: list[DrawnText] = []
        line: list[Letter] = []
        count = self._pdf.FPDFText_CountChars(self._read)
        self.full = count > MOST
        apart = APART
        for i in range(min(count, MOST)):
            sign = chr(self._pdf.FPDFText_GetUnicode(self._read, i))
            letter = self._letter(i, sign)
            if letter is None:
                apart = apart if sign == " " else CLOSE
                if sign == " " and line:
                    line[-1] = line[-1]._replace(sign=f"{line[-1].sign} ")
                continue
            if line and _is_raised(line[-1], letter):
                line[-1] = line[-1]._replace(sign=line[-1].sign + RAISED[sign], ends=letter.ends)
                continue
            if line and not _goes_on(line[-1], letter, apart):
                found += self._text(line)
                line = []
            elif line and apart == CLOSE and letter.begins - line[-1].ends > SPACE * letter.size:
                line[-1] = line[-1]._replace(sign=f"{line[-1].sign} ")
            line.append(letter)
            apart = APART
        found += self._text(line)
        self._pdf.FPDFText_ClosePage(self._read)
        return found

    def _letter(self, i: int, sign: str) -> Letter | None:
        """Return a letter; none for a space, which PDFium also puts where only a gap stands, and for the end of a line."""
        pdf = self._pdf
        if sign == " " or not sign.isprintable():
            return None
        if not self._page.is_shown(pdf.FPDFText_GetTextObject(self._read, i)):
            return None
        read = pdf.FS_MATRIX()
        if not pdf.FPDFText_GetMatrix(self._read, i, byref(read)):
            return None
        lies = self._page.upright.after(Matrix(read.a, read.b, read.c, read.d, read.e, read.f))
        angle = degrees(atan2(lies.b, lies.a))
        size = pdf.FPDFText_GetFontSize(self._read, i) * hypot(lies.c, lies.d)
        corners = self._box(i)
        if not corners or size <= 0:
            return None
        turned = [_along(corner, angle) for corner in corners]
        return Letter(sign, min(p[0] for p in turned), max(p[0] for p in turned), self._base(i, angle), size, angle)

    def _box(self, i: int) -> list[P2]:
        left, right, bottom, top = c_double(), c_double(), c_double(), c_double()
        if not self._pdf.FPDFText_GetCharBox(self._read, i, byref(left), byref(right), byref(bottom), byref(top)):
            return []
        at = self._page.upright.at
        return [at(x.value, y.value) for x in (left, right) for y in (bottom, top)]

    def _base(self, i: int, angle: float) -> float:
        x, y = c_double(), c_double()
        self._pdf.FPDFText_GetCharOrigin(self._read, i, byref(x), byref(y))
        return _along(self._page.upright.at(x.value, y.value), angle)[1]

    def _handle(self, said: str) -> str:
        """Return how a text is known on another plot of the page, where its place in the file is another."""
        self._said[said] += 1
        again = f" {self._said[said]}" if self._said[said] > 1 else ""
        return f"page {self._page.number} text {said[:40]}{again}"

    def _text(self, line: list[Letter]) -> list[DrawnText]:
        said = plain("".join(letter.sign for letter in line))
        if not said:
            return []
        size, angle = line[0].size, line[0].angle
        middle = (line[0].begins + max(letter.ends for letter in line)) / 2, line[0].aside + size * CAPITAL / 2
        at = _along(middle, -angle)
        return [DrawnText(said, at, size * CAPITAL, angle, "TEXT", self._handle(said))]


def _goes_on(before: Letter, letter: Letter, apart: float) -> bool:
    size = before.size
    return (
        abs((letter.angle - before.angle + 180) % 360 - 180) < 1
        and abs(letter.size - size) <= 0.2 * size
        and abs(letter.aside - before.aside) <= ASIDE * size
        and -size <= letter.begins - before.ends <= apart * size
    )


def _is_raised(before: Letter, letter: Letter) -> bool:
    up, gap = letter.aside - before.aside, letter.begins - before.ends
    small = 0.4 * before.size <= letter.size <= 0.8 * before.size
    return letter.sign in RAISED and small and 0.2 * before.size <= up <= before.size and abs(gap) <= 0.5 * before.size


def _along(point: P2, angle: float) -> P2:
    """Return how far a point lies along the direction of `angle`, and to its left."""
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c + point[1] * s, point[1] * c - point[0] * s


__all__ = ["PageLetters"]
