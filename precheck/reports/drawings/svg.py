"""A pen that draws to scale: house inches in, SVG out. Text is escaped here, once, for every drawing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from typing import NamedTuple

from precheck.reports.drawings.area import PaperArea, ways_off
from precheck.reports.drawings.marks import Mark, badge
from precheck.units import Length

PAPER = 96  # CSS pixels to the inch of paper
WIDEST, TALLEST = 7.0, 8.0  # inches of paper between the margins of letter as well as of A4, less a caption
WIDE, LOW = 9.5, 5.4  # the same on a sheet laid on its side
MARGIN = 12.0  # pixels around a drawing
CHARACTER = 6.4  # pixels that a character of the lettering takes at most on average
IN_A_ROW, BADGE = 5, 27.0  # marks in a row, and pixels from one to the next
HALF = 13.0  # pixels from the middle of a mark to its edge
_WAYS = ways_off(9.0, 9)  # pixels that marks move at a time, and how often at most
_NEAR = ways_off(3.0, 4)  # the same, finer, where nothing near by is free
LONGEST_TEXT = 64  # characters of lettering; the list has the name in full
_INCH = Length.parse("1 in").n
_UNPRINTABLE = re.compile(r"[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\U00010000-\U0010FFFF]")

Point = tuple[float, float]


class Scale(NamedTuple):
    """A drawing scale: what a foot of house measures on paper."""

    name: str
    paper_per_foot: Fraction

    @property
    def factor(self) -> float:
        """Pixels to an inch of house."""
        return float(self.paper_per_foot * PAPER / 12)


SCALES = tuple(
    Scale(f"{name} in = 1 ft", Fraction(size))
    for name, size in (
        ("1 1/2", "3/2"), ("1", "1"), ("3/4", "3/4"), ("1/2", "1/2"), ("3/8", "3/8"), ("1/4", "1/4"), ("3/16", "3/16"),
        ("1/8", "1/8"), ("3/32", "3/32"), ("1/16", "1/16"), ("1/32", "1/32"), ("1/64", "1/64"),
    )
)  # fmt: skip


def scales_from(largest: str) -> tuple[Scale, ...]:
    """Return the usual scales from `largest` down."""
    return SCALES[next(i for i, s in enumerate(SCALES) if s.name.startswith(f"{largest} in")) :]


def inches(length: Length) -> float:
    """Return a length in inches, for drawing alone."""
    return float(Fraction(length.n) / _INCH)


def coordinate(n: int | Fraction) -> float:
    """Return a coordinate of an outline in inches."""
    return float(Fraction(n) / _INCH)


def clean(text: str) -> str:
    """Return `text` escaped, without the control characters that no SVG may hold."""
    return escape(printable(text))


def printable(text: str) -> str:
    """Return `text` with a sign in place of each character that neither an SVG nor a page may hold."""
    return _UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", text)


def short(text: str, most: int = LONGEST_TEXT) -> str:
    """Return `text` cut to `most` characters, for lettering."""
    return text if len(text) <= most else f"{text[: most - 1]}…"


@dataclass
class Box:
    """How far the drawing reaches, in pixels."""

    left: float = float("inf")
    top: float = float("inf")
    right: float = float("-inf")
    bottom: float = float("-inf")

    def take(self, x: float, y: float) -> None:
        """Reach to a point."""
        self.left, self.right = min(self.left, x), max(self.right, x)
        self.top, self.bottom = min(self.top, y), max(self.bottom, y)


class Pen:
    """Collects the elements of one drawing. Points are inches of house with y upward."""

    def __init__(self, scale: Scale) -> None:
        self.scale = scale
        self.box = Box()
        self.parts: list[str] = []
        self.taken: list[PaperArea] = []  # by lettering and marks

    def at(self, point: Point, dx: float = 0, dy: float = 0) -> Point:
        """Return where `point` lies on paper, moved by pixels."""
        x, y = point[0] * self.scale.factor + dx, -point[1] * self.scale.factor + dy
        self.box.take(x, y)
        return x, y

    def add(self, element: str) -> None:
        """Put an element as it is."""
        self.parts.append(element)

    def path(self, points: list[Point], kind: str, closed: bool = False, **attributes: str) -> None:
        """Draw through `points`."""
        placed = [self.at(point) for point in points]
        data = "M" + " L".join(f"{x:.2f} {y:.2f}" for x, y in placed) + ("Z" if closed else "")
        more = "".join(f' {name.replace("_", "-")}="{clean(value)}"' for name, value in attributes.items())
        self.add(f'<path class="{kind}" d="{data}"{more}/>')

    def arc(self, start: Point, end: Point, radius: float, clockwise: bool, kind: str) -> None:
        """Draw a quarter turn or so from `start` to `end`."""
        (x1, y1), (x2, y2), r = self.at(start), self.at(end), radius * self.scale.factor
        self.add(
            f'<path class="{kind}" d="M{x1:.2f} {y1:.2f} A{r:.2f} {r:.2f} 0 0 {int(clockwise)} {x2:.2f} {y2:.2f}"/>'
        )

    def text(
        self, point: Point, text: str, kind: str = "", anchor: str = "middle", dx: float = 0, dy: float = 0
    ) -> None:
        """Letter `text` at `point`, moved by pixels."""
        shown = short(text)
        x, y = self.at(point, dx, dy)
        area = self._lettering(point, shown, anchor, dx, dy)
        self.box.take(area.left, y - 12)
        self.box.take(area.right, y + 4)
        self.taken.append(area)
        self.add(f'<text class="{kind}" x="{x:.2f}" y="{y:.2f}" text-anchor="{anchor}">{clean(shown)}</text>')

    def text_clear(
        self, spots: list[Point], text: str, kind: str = "", anchor: str = "middle", dx: float = 0, dy: float = 0
    ) -> None:
        """Letter `text` at the first of `spots` where it lies on nothing, else at the first of all."""
        areas = [self._lettering(spot, short(text), anchor, dx, dy) for spot in spots]
        clear = (spot for spot, area in zip(spots, areas, strict=True) if not any(map(area.shared, self.taken)))
        self.text(next(clear, spots[0]), text, kind, anchor, dx, dy)

    def _lettering(self, point: Point, shown: str, anchor: str, dx: float, dy: float) -> PaperArea:
        x, y = point[0] * self.scale.factor + dx, -point[1] * self.scale.factor + dy
        width = len(shown) * CHARACTER
        left = {"start": x, "middle": x - width / 2, "end": x - width}[anchor]
        return PaperArea(left, y - 9, left + width, y + 2)

    def across(self, left: float, right: float, y: float, text: str, away: float = 0, kind: str = "") -> None:
        """Draw a level dimension from `left` to `right` at height `y`, moved down by `away` pixels."""
        (x1, y1), (x2, _) = self.at((left, y), 0, away), self.at((right, y), 0, away)
        self._dimension(x1, y1, x2, y1, kind)
        self.text(((left + right) / 2, y), text, f"dim {kind}", dy=away - 5)

    def upright(self, x: float, low: float, high: float, text: str, away: float = 0, kind: str = "") -> None:
        """Draw a plumb dimension from `low` to `high` at `x`, moved right by `away` pixels, with its text beside it."""
        (x1, y1), (_, y2) = self.at((x, low), away, 0), self.at((x, high), away, 0)
        self._dimension(x1, y1, x1, y2, kind)
        anchor, gap = ("start", 7.0) if away >= 0 else ("end", -7.0)
        self.text((x, (low + high) / 2), text, f"dim {kind}", anchor, dx=away + gap, dy=4)

    def _dimension(self, x1: float, y1: float, x2: float, y2: float, kind: str) -> None:
        ticks = "".join(f"M{x - 4:.2f} {y + 4:.2f} l8 -8 " for x, y in ((x1, y1), (x2, y2)))
        for x, y in ((x1, y1), (x2, y2)):
            self.box.take(x - 4, y - 4)
            self.box.take(x + 4, y + 4)
        self.add(f'<path class="dimension {kind}" d="M{x1:.2f} {y1:.2f} L{x2:.2f} {y2:.2f} {ticks.strip()}"/>')

    def badges(
        self,
        point: Point,
        marks: tuple[Mark, ...],
        dx: float = 0,
        dy: float = 0,
        anchor: str = "middle",
        most: int = IN_A_ROW,
    ) -> None:
        """Put the numbered marks of a part at `point`, `most` in a row, in rows that stand one upon the other.

        Where they would lie on other marks or on lettering they move off, and a thin line leads back.
        """
        if not marks:
            return
        start = self.at(point, dx, dy)
        wide = min(len(marks), most)
        left = start[0] - {"start": 0.0, "middle": (wide - 1) / 2, "end": wide - 1.0}[anchor] * BADGE
        rows = [marks[n : n + most] for n in range(0, len(marks), most)]
        area = PaperArea(
            left - HALF, start[1] - (len(rows) - 1) * BADGE - HALF, left + (wide - 1) * BADGE + HALF, start[1] + HALF
        )
        by = self._way_off(area)
        if by[0] ** 2 + by[1] ** 2 > BADGE**2:
            self.add(f'<path class="line thin" d="M{start[0]:.2f} {start[1]:.2f} l{by[0]:.2f} {by[1]:.2f}"/>')
        self.taken.append(area.moved(*by))
        for up, row in enumerate(reversed(rows)):
            shift = {"start": 0.0, "middle": (len(row) - 1) / 2, "end": len(row) - 1.0}[anchor]
            for index, mark in enumerate(row):
                center, level = start[0] + by[0] + (index - shift) * BADGE, start[1] + by[1] - up * BADGE
                self.box.take(center - HALF, level - HALF)
                self.box.take(center + HALF, level + HALF)
                self.add(badge(mark, center, level))

    def _way_off(self, area: PaperArea) -> Point:
        """Return how far `area` must move to lie on nothing, or on as little as can be where all near by is taken."""
        reach = max(way[0] for way in _WAYS)
        around = PaperArea(area.left - reach, area.top - reach, area.right + reach, area.bottom + reach)
        near = [other for other in self.taken if other.shared(around)]
        clear = (way for way in _WAYS if not any(map(area.moved(*way).shared, near)))
        return next(clear, None) or min(_NEAR, key=lambda way: sum(map(area.moved(*way).shared, near)))

    def bar(self) -> None:
        """Draw the scale bar under the drawing, true at any size on any screen."""
        feet = next((n for n in (2, 4, 10, 20, 50) if n * 12 * self.scale.factor >= 70), 100)
        left, y = self.box.left + 2, self.box.bottom + 26
        step = feet * 12 * self.scale.factor / 2
        self.add(f'<path class="bar" d="M{left:.2f} {y:.2f} h{step:.2f} v6 h{-step:.2f} Z"/>')
        self.add(f'<path class="bar open" d="M{left + step:.2f} {y:.2f} h{step:.2f} v6 h{-step:.2f} Z"/>')
        for x, name in ((0.0, "0"), (step, f"{feet // 2}"), (2 * step, f"{feet} ft")):
            self.add(f'<text class="dim" x="{left + x:.2f}" y="{y + 20:.2f}" text-anchor="start">{name}</text>')
        self.box.take(left, y + 24)
        self.box.take(left + 2 * step + 34, y + 24)

    def north(self) -> None:
        """Draw the arrow to plan north, which is up the page, to the right of the scale bar."""
        x, y = self.box.right - 8, self.box.bottom - 2
        self.add(f'<path class="arrowhead" d="M{x:.2f} {y - 30:.2f} l6 16 l-6 -4 l-6 4 Z"/>')
        self.add(f'<path class="line" d="M{x:.2f} {y - 20:.2f} V{y:.2f}"/>')
        self.text((x / self.scale.factor, -y / self.scale.factor), "N", "name", "end", dx=-8, dy=-2)

    def frame(self) -> tuple[float, float, float, float]:
        """Return left, top, width and height of what was drawn, with a margin."""
        box = self.box
        return (
            box.left - MARGIN,
            box.top - MARGIN,
            box.right - box.left + 2 * MARGIN,
            box.bottom - box.top + 2 * MARGIN,
        )
