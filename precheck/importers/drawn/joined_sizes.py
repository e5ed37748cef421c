"""Sizes that stand on a drawing in pieces: a side and the next one in two rows, or apart along one, as one text."""

from __future__ import annotations

import re
from math import cos, radians, sin

from precheck.importers.drawn.plane_lines import cross, dot, less, long
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.drawn.sizes import sizes_in

LETTER = 0.7  # of its height that a letter is wide, on average
GAP = 3.0  # heights of letters between pieces along a row
ROW = (0.8, 2.5)  # heights of letters from one row to the next
LEVEL = 0.4  # heights of letters by which pieces of one row may stand off it
TURN = 2.0  # degrees between pieces of one size
_BY = re.compile(r"[x\u00d7*]", re.IGNORECASE)
_OPEN_END = re.compile(r"(?:.*\d[\d'\"\u2032\u2033m.½¼¾ ]*)?\s*[x\u00d7*]", re.IGNORECASE)
_OPEN_START = re.compile(r"[x\u00d7*]\s*(?:\d.*)?", re.IGNORECASE)


def sizes_joined(texts: list[DrawnText]) -> list[DrawnText]:
    """Return texts with the pieces of a size as one, at the middle between them."""
    left = list(texts)
    for text in texts:
        if text in left and _BY.search(text.text) and not any(sizes_in(text.text)):
            pieces = _pieces(text, left)
            if pieces is not None:
                at = [left.index(piece) for piece in pieces]
                left[min(at)] = _joined(pieces)
                left = [one for i, one in enumerate(left) if i == min(at) or i not in at]
    return left


def _pieces(text: DrawnText, texts: list[DrawnText]) -> list[DrawnText] | None:
    """Return the pieces that make a size with one that says "by"; None where they make none, or it is not told which do."""
    before = [one for one in texts if _follows(one, text)] if _OPEN_START.fullmatch(text.text) else []
    after = [one for one in texts if _follows(text, one)] if _OPEN_END.fullmatch(text.text) else []
    ahead = [*([[one] for one in before] or [[]])]
    behind = [*([[one] for one in after] or [[]])]
    found = [[*one, text, *other] for one in ahead for other in behind]
    whole = [pieces for pieces in found if len(list(sizes_in(_said(pieces)))) == 1]
    return whole[0] if len(whole) == 1 else None


def _follows(one: DrawnText, other: DrawnText) -> bool:
    """Return whether the second of two texts goes on from the first, along its row or in the next."""
    if one is other or not one.height or not 0.8 <= other.height / one.height <= 1.25:
        return False
    if abs((other.angle - one.angle + 180) % 360 - 180) > TURN:
        return False
    way, off = (cos(radians(one.angle)), sin(radians(one.angle))), less(other.at, one.at)
    along, up = dot(way, off) / one.height, cross(way, off) / one.height
    half = LETTER * (len(one.text) + len(other.text)) / 2
    if abs(up) <= LEVEL:
        return 0 < along <= half + GAP
    return ROW[0] <= -up <= ROW[1] and abs(along) <= half / 2


def _said(pieces: list[DrawnText]) -> str:
    return " ".join(piece.text for piece in pieces)


def _joined(pieces: list[DrawnText]) -> DrawnText:
    first, last = pieces[0], pieces[-1]
    at = (first.at[0] + last.at[0]) / 2, (first.at[1] + last.at[1]) / 2
    return max(pieces, key=lambda piece: long((piece.at, at)))._replace(text=_said(pieces), at=at)


__all__ = ["sizes_joined"]
