"""Where the walls of a page may be, and at which scale, by how far it is from each written size to the lines around it.

On each layer of its own, and on each two together: a size says how far it should be across and up, and rays from its place
how far it is. What most sizes agree on is a guess, by which outlines are then looked for; it proves nothing.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from itertools import combinations, product
from math import cos, radians, sin
from typing import Any, NamedTuple

import shapely

from precheck.importers.drawn.layers import NEVER
from precheck.importers.drawn.plane_lines import along, cross, direction, less, long
from precheck.importers.drawn.sheet import DrawnLine, DrawnSheet, DrawnText
from precheck.importers.drawn.sizes import WrittenSize, sizes_in

LAYERS = 10  # that are looked at, the longest first
OFFSETS = (-4.0, -2.0, 0.0, 2.0, 4.0)  # heights of letters from ray to ray
SHORT = 1.5  # heights of letters of a line that stops a ray
ALIKE = 0.03  # by which the two sides of a room may say another scale
SAME = 0.015  # of a scale by which rooms may differ
ROUND = 0.01  # of a distance, and points, by which rays go equally far
WAYS = 2  # distances of a side that are looked at, beside the shortest
ROOM = (0.8, 30.0)  # meters of a side
FEWEST = 2  # rooms that agree on a guess
MOST_TEXTS = 80
TOUCH = 0.03  # meters from the end of a line to another on which it ends
MANY_ENDS = 6  # of walls on the lines of another layer, from which that is one of walls too


class WallGuess(NamedTuple):
    """How many rooms agree that the walls are on `layers` and one point is `meter` meters."""

    rooms: int
    meter: float
    layers: tuple[str, ...]


class _Rays(NamedTuple):
    """The size at one place, and how far each ray goes to each layer, ahead and back, across and up."""

    size: WrittenSize
    hits: tuple[list[dict[str, float]], ...]


def wall_guesses(sheet: DrawnSheet) -> list[WallGuess]:
    """Return guesses of where the walls are, those on which most rooms agree first."""
    sized = [(text, size) for text in sheet.texts if text.height > 0 for size in rooms_in(text.text)][:MOST_TEXTS]
    length: dict[str, float] = defaultdict(float)
    for line in sheet.lines:
        if not NEVER.search(line.layer):
            length[line.layer] += long((line.start, line.end))
    if len(sized) < FEWEST or not length:
        return []
    longest = sorted(length, key=lambda layer: -length[layer])[:LAYERS]
    around = _Around([line for line in sheet.lines if line.layer in longest])
    rays = [around.rays(text, size) for text, size in sized]
    chosen = [(layer,) for layer in longest] + list(combinations(longest, 2))
    found = [guess for layers in chosen if (guess := _guess(rays, layers)) is not None]
    return sorted(
        found, key=lambda guess: (-guess.rooms, len(guess.layers), sum(length[name] for name in guess.layers))
    )


class LayerJoints:
    """On which layers the lines of others end."""

    def __init__(self, lines: list[DrawnLine]) -> None:
        self._lines, self._tree = lines, _tree(lines)

    def with_columns(self, layers: tuple[str, ...], meter: float) -> tuple[str, ...]:
        """Return `layers` with the one on which most of the ends lie that none of their own lines meets, as of columns."""
        ends = list({end for line in self._lines if line.layer in layers for end in (line.start, line.end)})
        if not ends:
            return layers
        own: Counter[int] = Counter()
        on: dict[str, set[int]] = defaultdict(set)
        near = self._tree.query(shapely.points(ends), predicate="dwithin", distance=TOUCH / meter)
        for end, line in zip(*near.tolist(), strict=True):
            layer = self._lines[line].layer
            own[end] += layer in layers
            on[layer].add(end)
        loose = {layer: sum(own[end] < 2 for end in met) for layer, met in on.items() if layer not in layers}
        best = max(loose, key=lambda layer: loose[layer], default="")
        return (*layers, best) if best and loose[best] >= MANY_ENDS else layers


def _tree(lines: list[DrawnLine]) -> Any:
    return shapely.STRtree(shapely.linestrings([[one.start, one.end] for one in lines]))


def rooms_in(text: str) -> Iterator[WrittenSize]:
    """Yield the sizes in a text that may be those of rooms."""
    for size in sizes_in(text):
        if all(ROOM[0] <= side <= ROOM[1] for side in (size.first, size.second)):
            yield size


class _Around:
    """The lines around sizes."""

    def __init__(self, lines: list[DrawnLine]) -> None:
        self._lines = lines
        self._tree = _tree(lines)
        points = [point for line in lines for point in (line.start, line.end)]
        self._reach = sum(max(p[i] for p in points) - min(p[i] for p in points) for i in (0, 1))

    def rays(self, text: DrawnText, size: WrittenSize) -> _Rays:
        angle = radians(text.angle)
        ways = [(cos(angle), sin(angle)), (-sin(angle), cos(angle))]
        both = [(x * sign, y * sign) for x, y in ways for sign in (1, -1)]
        return _Rays(size, tuple([self._hit(text, way, off) for off in OFFSETS] for way in both))

    def _hit(self, text: DrawnText, way: tuple[float, float], off: float) -> dict[str, float]:
        start = along(text.at, way, 0.0, off * text.height)
        found: dict[str, float] = {}
        for i in self._tree.query(shapely.LineString((start, along(start, way, self._reach))), predicate="intersects"):
            line = self._lines[i]
            across = direction(line.start, line.end)
            turn = cross(way, across)
            if abs(turn) > 0.7 and long((line.start, line.end)) > SHORT * text.height:
                far = cross(less(line.start, start), across) / turn
                found[line.layer] = min(far, found.get(line.layer, far))
        return found


def _guess(rays: list[_Rays], layers: tuple[str, ...]) -> WallGuess | None:
    votes = sorted((scale, number) for number, one in enumerate(rays) for scale in _scales(one, layers))
    scales = [scale for scale, _ in votes]
    best: tuple[int, float] = (0, 0.0)
    for low in scales:
        agreed = votes[bisect_left(scales, low) : bisect_right(scales, low * (1 + SAME))]
        best = max(best, (len({number for _, number in agreed}), agreed[len(agreed) // 2][0]))
    return WallGuess(best[0], best[1], layers) if best[0] >= FEWEST else None


def _scales(rays: _Rays, layers: tuple[str, ...]) -> Iterator[float]:
    """Yield the scales that both sides of a size agree on, by how far rays go."""
    far = [_usual(_nearest(hits, layers)) for hits in rays.hits]
    sides = {(rays.size.first, rays.size.second), (rays.size.second, rays.size.first)}
    for right, left, up, down in product(*far):
        for first, second in sides:
            one, other = first / max(right + left, 1e-9), second / max(up + down, 1e-9)
            if abs(one - other) <= ALIKE * one:
                yield (one + other) / 2


def _nearest(hits: Iterable[dict[str, float]], layers: tuple[str, ...]) -> Iterator[float]:
    for hit in hits:
        there = [hit[layer] for layer in layers if layer in hit]
        if there:
            yield min(there)


def _usual(distances: Iterable[float]) -> list[float]:
    """Return the shortest of some distances, and those that most rays go, beyond doors and windows too."""
    every = sorted(distances)
    near = {round(d / ROUND) * ROUND: sum(abs(other - d) <= ROUND * d for other in every) for d in every}
    return sorted({*sorted(near, key=lambda d: (-near[d], d))[:WAYS], *sorted(near)[:1]})


__all__ = ["LayerJoints", "WallGuess", "rooms_in", "wall_guesses"]
