"""Runs of corners that follow a circle: of a page only corners are known, and a door swings along an arc."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, degrees, hypot
from typing import NamedTuple

from precheck.importers.drawn.pdf_page import PlottedPath
from precheck.importers.drawn.sheet import DrawnLine, SwingArc
from precheck.importers.plane import P2

SWEEP = (50.0, 110.0)  # degrees that a swing is drawn over
BEND = (0.8, 31.0)  # degrees from one piece of an arc to the next
FEWEST = 4  # pieces of an arc
EVEN = 0.6  # of the longer of two pieces beside each other that the shorter has at least
ROUND = 0.02  # of the radius by which corners may lie off the circle


class Circle(NamedTuple):
    """A circle through corners."""

    center: P2
    radius: float


def arcs_apart(path: PlottedPath) -> tuple[list[DrawnLine], list[SwingArc]]:
    """Return the straight pieces of a path, and apart from them the arcs that may be swings."""
    lines: list[DrawnLine] = []
    arcs: list[SwingArc] = []
    for run in _runs(path.corners):
        arc = _arc(run, path) if len(run) > FEWEST else None
        if arc is not None:
            arcs.append(arc)
        else:
            lines += [DrawnLine(a, b, path.layer, path.handle) for a, b in pairwise(run) if a != b]
    return lines, arcs


def _runs(corners: tuple[P2, ...]) -> list[list[P2]]:
    """Return corners in runs that bend evenly to one side; a straight piece is a run of its own or with its like."""
    runs: list[list[P2]] = []
    run = [corners[0]]
    turn = 0.0
    for before, at in pairwise(corners):
        if len(run) >= 2:
            bend = _bend(run[-2], before, at)
            even = _even((run[-2], before), (before, at))
            bends = BEND[0] <= abs(bend) <= BEND[1] and even
            if not bends or (turn and bend * turn < 0):
                runs.append(run)
                run, turn = [before], 0.0
            else:
                turn = bend
        run.append(at)
    return [*runs, run]


def _bend(one: P2, two: P2, three: P2) -> float:
    first = atan2(two[1] - one[1], two[0] - one[0])
    second = atan2(three[1] - two[1], three[0] - two[0])
    return (degrees(second - first) + 180) % 360 - 180


def _even(one: tuple[P2, P2], other: tuple[P2, P2]) -> bool:
    lengths = sorted(hypot(b[0] - a[0], b[1] - a[1]) for a, b in (one, other))
    return lengths[0] >= EVEN * lengths[1] > 0


def _arc(run: list[P2], path: PlottedPath) -> SwingArc | None:
    circle = _circle(run)
    if circle is None or any(abs(_far(p, circle.center) - circle.radius) > ROUND * circle.radius for p in run):
        return None
    first, last = (degrees(atan2(p[1] - circle.center[1], p[0] - circle.center[0])) for p in (run[0], run[-1]))
    counterclockwise = _bend(*run[:3]) > 0
    begins, ends = (first, last) if counterclockwise else (last, first)
    if not SWEEP[0] <= (ends - begins) % 360 <= SWEEP[1]:
        return None
    return SwingArc(circle.center, circle.radius, begins % 360, ends % 360, path.layer, path.handle)


def _circle(run: list[P2]) -> Circle | None:
    """Return the circle through the first, the middle and the last of some corners."""
    (ax, ay), (bx, by), (cx, cy) = run[0], run[len(run) // 2], run[-1]
    twice = 2 * ((bx - ax) * (cy - ay) - (by - ay) * (cx - ax))
    if not twice:
        return None
    b, c = (bx - ax) ** 2 + (by - ay) ** 2, (cx - ax) ** 2 + (cy - ay) ** 2
    x, y = ((cy - ay) * b - (by - ay) * c) / twice, ((bx - ax) * c - (cx - ax) * b) / twice
    return Circle((ax + x, ay + y), hypot(x, y))


def _far(one: P2, other: P2) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


__all__ = ["arcs_apart"]
