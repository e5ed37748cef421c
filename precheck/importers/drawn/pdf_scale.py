"""The scale of a page, proven by the dimensions written on it: each says how long the line under it is.

One that several dimensions in different places agree on is the scale; what a title block says of the scale is not, for a
page is often printed to fit. Never guessed: without enough of them nothing is returned.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from math import cos, log, radians, sin
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.plane_lines import cross, direction, dot, less
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet, DrawnText
from precheck.importers.drawn.sizes import length_in
from precheck.importers.plane import P2

ENOUGH = 6  # dimensions that have to agree
SHARE = 0.35  # of all in the same unit
SAME = 0.003  # of the scale by which they may differ, for numbers are rounded
LEAD = 1.6  # times as many as agree on any other scale
OTHER = 0.02  # of the scale from which another is another
MOST = 600  # dimensions that are looked at
ASIDE = 2.5  # heights of letters between a dimension and its line
PARALLEL = 0.05  # sine of the angle between them
ON_LINE = 0.25  # heights of letters off a line that still counts as in line with it
STOPS = 3  # stops on either side of a text that may be the ends of what it measures
CENTERED = 0.2  # of its length by which a dimension's text may stand off the middle
MIDDLE = 0.08  # the same where the length is that of one line
PLAN = (3.0, 70.0)  # meters of the longest dimension of a plan
_DECIMAL = re.compile(r"\d{1,2}[.,]\d{2}\s?(m)?")
_WHOLE = re.compile(r"\d{2,3}|\d{1,2}[, ]?\d{3}")


class SaidLength(NamedTuple):
    """A length that a dimension says, in meters, where its number is in `unit` (`known` where it is written with it)."""

    meters: float
    unit: str


class ScaleVote(NamedTuple):
    """One way of taking a dimension: what it says over what is drawn, in meters for one point; by which text."""

    scale: float
    said: SaidLength
    text: int


class ProvenScale(NamedTuple):
    """Meters for one point, and how many dimensions agree on it."""

    meter: float
    by: int
    what: str


def scale_by_dimensions(sheet: DrawnSheet) -> ProvenScale | None:
    """Return the scale that the dimensions of a sheet prove; None where they do not."""
    texts = [(text, said) for text in sheet.texts if (said := lengths_in(text.text))][:MOST]
    lines = sheet.lines
    if len(texts) < ENOUGH or not lines:
        return None
    measured = _MeasuredLines(lines)
    return _proven(texts, measured.under) or _proven(texts, measured.between_stops)


def _proven(
    texts: list[tuple[DrawnText, tuple[SaidLength, ...]]], measured: Callable[[DrawnText], Iterator[float]]
) -> ProvenScale | None:
    votes: dict[str, list[ScaleVote]] = defaultdict(list)
    for number, (text, said) in enumerate(texts):
        for drawn in set(measured(text)):
            for one in said:
                votes[one.unit].append(ScaleVote(one.meters / drawn, one, number))
    found = [agreed for unit in votes if (agreed := _agreed(votes[unit]))]
    found = [agreed for agreed in found if PLAN[0] <= max(vote.said.meters for vote in agreed) <= PLAN[1]]
    scales = [ProvenScale(_middle(agreed), _texts(agreed), "dimensions") for agreed in found]
    return scales[0] if len(scales) == 1 else None


def _middle(votes: list[ScaleVote]) -> float:
    """Return the scale in the middle of some votes, each as heavy as the length that it measures."""
    half = sum(vote.said.meters for vote in votes) / 2
    heard = 0.0
    for vote in votes:
        heard += vote.said.meters
        if heard >= half:
            return vote.scale
    return votes[-1].scale


def lengths_in(text: str) -> tuple[SaidLength, ...]:
    """Return the lengths that a whole text may say: one where it is written with its unit, else one a unit."""
    plain = text.strip()
    feet = length_in(plain)
    if feet:
        return (SaidLength(feet, "feet and inches"),)
    if _DECIMAL.fullmatch(plain):
        return (SaidLength(float(plain.rstrip(" m").replace(",", ".")), "meters"),)
    if _WHOLE.fullmatch(plain):
        number = float(re.sub(r"[, ]", "", plain))
        return SaidLength(number / 100, "centimeters"), SaidLength(number / 1000, "millimeters")
    return ()


def _agreed(votes: list[ScaleVote]) -> list[ScaleVote]:
    """Return the votes that agree on one scale, where they are enough and far more than agree on any other."""
    least = max(ENOUGH, SHARE * _texts(votes))
    ordered = sorted(votes)
    places = [log(vote.scale) for vote in ordered]
    groups: list[tuple[int, int, int]] = []
    last = 0
    for first, place in enumerate(places):
        while last < len(places) and places[last] - place <= SAME:
            last += 1
        groups.append((_texts(ordered[first:last]), first, last))
    best = max(groups, default=(0, 0, 0), key=lambda group: group[0])
    middle = places[(best[1] + best[2] - 1) // 2] if best[0] else 0.0
    others = [count for count, first, _ in groups if abs(places[first] - middle) > OTHER]
    if best[0] < least or best[0] < LEAD * max(others, default=0):
        return []
    return ordered[best[1] : best[2]]


def _texts(votes: Iterable[ScaleVote]) -> int:
    return len({vote.text for vote in votes})


class _MeasuredLines:
    """The lines of a sheet, among which those under a dimension are found."""

    def __init__(self, lines: list[DrawnLine]) -> None:
        self.lines = lines
        self.tree: Any = shapely.STRtree(shapely.linestrings([[one.start, one.end] for one in lines]))

    def under(self, text: DrawnText) -> Iterator[float]:
        """Yield the lengths, in points, of the lines along a text that has its middle at theirs."""
        for line, way, _ in self._along(text):
            ends = sorted(dot(way, less(end, text.at)) for end in (line.start, line.end))
            if ends[0] < 0 < ends[1]:
                yield from _centered(ends, text.height, MIDDLE)

    def between_stops(self, text: DrawnText) -> Iterator[float]:
        """Yield the lengths between what ends on a line along a text, or crosses it, on either side."""
        offsets: list[float] = []
        for _, way, aside in self._along(text):
            if all(abs(aside - known) > ON_LINE * text.height for known in offsets):
                offsets.append(aside)
                yield from _centered(sorted(self._stops(text, way, aside)), text.height, CENTERED)

    def _along(self, text: DrawnText) -> Iterator[tuple[DrawnLine, P2, float]]:
        """Yield the lines along a text and near it, with the way that it runs, and how far aside they are."""
        way = cos(radians(text.angle)), sin(radians(text.angle))
        for i in self.tree.query(shapely.Point(text.at).buffer(ASIDE * text.height + 0.01)):
            line = self.lines[i]
            aside = cross(way, less(line.start, text.at))
            parallel = abs(cross(way, direction(line.start, line.end))) <= PARALLEL
            if parallel and abs(aside) <= ASIDE * text.height:
                yield line, way, aside

    def _stops(self, text: DrawnText, way: P2, aside: float) -> Iterator[float]:
        """Yield where, along a line at `aside` of a text, something ends on it or crosses it, from the text on."""
        base = text.at[0] - way[1] * aside, text.at[1] + way[0] * aside
        close = ON_LINE * text.height
        reach = 60 * text.height
        for _ in range(3):
            ends = [(base[0] + way[0] * far, base[1] + way[1] * far) for far in (-reach, reach)]
            found = [
                stop
                for i in self.tree.query(shapely.LineString(ends), predicate="dwithin", distance=close)
                for stop in _stops_of(self.lines[i], base, way, close)
            ]
            if len([s for s in found if s < 0]) and len([s for s in found if s > 0]):
                break
            reach *= 4
        yield from {round(stop, 2) for stop in found}


def _stops_of(line: DrawnLine, base: P2, way: P2, close: float) -> Iterator[float]:
    start, end = less(line.start, base), less(line.end, base)
    heights = cross(way, start), cross(way, end)
    if max(map(abs, heights)) <= close:  # it runs along: both of its ends are stops
        yield from (dot(way, start), dot(way, end))
    elif min(heights) <= close and max(heights) >= -close:
        share = min(max(heights[0] / (heights[0] - heights[1]), 0.0), 1.0)
        yield dot(way, start) + share * (dot(way, end) - dot(way, start))


def _centered(stops: list[float], height: float, off: float) -> Iterator[float]:
    left, right = [s for s in stops if s < 0][-2 * STOPS :], [s for s in stops if s > 0][: 2 * STOPS]
    for a in left:
        for b in right:
            size = b - a
            if abs(a + b) / 2 <= max(off * size, 0.5 * height) and size > height:
                yield round(size, 3)


__all__ = ["ProvenScale", "lengths_in", "scale_by_dimensions"]
