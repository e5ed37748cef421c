"""The scale of a page, proven by the sizes written in its rooms, where it has no dimensions.

A first guess of the scale only serves to find outlines; what counts is how many times as large as the outline each size
says the room is, on both of its sides. A size to the middles of walls is larger by the same amount in every room, not by
the same share, and proves nothing.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import cached_property
from statistics import median
from typing import NamedTuple

import shapely

from precheck.importers.drawn.layers import named_layers, paired_layers
from precheck.importers.drawn.pdf_guesses import LayerJoints, WallGuess, wall_guesses
from precheck.importers.drawn.pdf_openings import name_openings, without_pen
from precheck.importers.drawn.pdf_scale import ProvenScale
from precheck.importers.drawn.plane_lines import long
from precheck.importers.drawn.recognize import AGREEING, RecognizedPlan, recognize
from precheck.importers.drawn.sheet import DrawnSheet
from precheck.importers.drawn.sizes import WrittenSize, area_in, is_opening_size, sizes_in
from precheck.importers.mapping import Mapping

SHORT = 0.1  # meters of a line, below which it is left out at a guess
LEAF = 0.78  # meters of a usual door leaf, for the first guess
EXTENTS = (12.0, 18.0, 8.0, 27.0)  # meters of all that is drawn, for the next ones
ENOUGH = 3  # rooms that have to agree
ALIKE = 0.06  # of each other that the two sides of one room may say
PLENTY = 5  # rooms, from which no other guess is tried
SAME = 0.0125  # of the scale that sides may differ by, which are written to the inch
BEYOND = 0.05  # meters that sizes may say more than the outline in every room
ROOM = (0.4, 30.0)  # meters of a side
TRIED = 3  # guesses by rays that are tried
MOST_TRIED = 6  # layers and layers together by which they are
NEAR = 0.02  # of a known scale by which a guess by rays may differ from it
MOST_LINES = 20_000  # of a sheet that is tried with all of its layers beside the others
IsOver = Callable[[], bool]


class SizedSide(NamedTuple):
    """One side of a room: what is written and what is drawn, in meters at the guess, and which face it is of."""

    said: float
    drawn: float
    face: int


class SizesOfPage:
    """What the sizes written in the rooms of a page tell of it, looked for until the time `is_over`."""

    def __init__(self, sheet: DrawnSheet, mapping: Mapping, is_over: IsOver = lambda: False) -> None:
        self._sheet, self._mapping, self._is_over = sheet, mapping, is_over

    @cached_property
    def _near(self) -> list[WallGuess]:
        return wall_guesses(self._sheet)

    @cached_property
    def _joints(self) -> LayerJoints:
        return LayerJoints(self._sheet.lines)

    def scale(self) -> ProvenScale | None:
        """Return the scale that sizes written in rooms prove; None where they do not."""
        if sum(any(True for _ in _sizes(text.text)) for text in self._sheet.texts) < ENOUGH:
            return None
        best: ProvenScale | None = None
        for meter, walls in self._guesses():
            if self._is_over() or (best is not None and (best.by >= PLENTY or not walls)):
                break
            found = _by_rooms(_at(self._sheet, meter, walls), self._mapping)
            if found is not None and (best is None or found.by > best.by):
                best = found
        return best

    def walls(self, meter: float) -> tuple[str, ...]:
        """Return the layers of walls with which more rooms are of their written sizes than with those known without sizes.

        None where no layers are, and where the mapping names them.
        """
        sheet = self._sheet
        written = sum(any(sizes_in(text.text)) or area_in(text.text) is not None for text in sheet.texts)
        if self._mapping.layers.wall_faces or written < AGREEING:
            return ()
        near = [one.layers for one in self._near if abs(one.meter / meter - 1) <= NEAR][:TRIED]
        unknown = () if named_layers(sheet, self._mapping).walls else paired_layers(sheet, meter)
        layers = list(dict.fromkeys([*_by_name(unknown), *self._parted(meter, near)]))
        few = len(sheet.lines) <= MOST_LINES
        best: tuple[int, tuple[str, ...]] = (0, ())
        for walls in [(), *layers] if few and layers else layers:
            if not self._is_over():
                rooms = recognize(_at(sheet, meter, walls, 0.0 if few else SHORT), self._mapping, by_size=False).rooms
                best = max(best, (sum(room.grade == "A" for room in rooms), walls), key=lambda found: found[0])
        return best[1]

    def _guesses(self) -> Iterator[tuple[float, tuple[str, ...]]]:
        """Yield the meters of one point and the layers of walls, where these are known, as they may be."""
        near = self._near[:TRIED]
        if self._mapping.layers.wall_faces:
            yield from ((guess.meter, ()) for guess in near)
        elif near:
            layers = [guess.layers for guess in near if abs(guess.meter / near[0].meter - 1) <= NEAR]
            yield from ((near[0].meter, walls) for walls in self._parted(near[0].meter, layers))
            yield from ((guess.meter, guess.layers) for guess in near if guess.layers not in layers)
        yield from ((meter, ()) for meter in _usual_scales(self._sheet))

    def _parted(self, meter: float, layers: list[tuple[str, ...]]) -> list[tuple[str, ...]]:
        """Return layers each on its own, then together, and with what their lines end on, each once."""
        alone = dict.fromkeys(one for chosen in layers for one in (*((layer,) for layer in chosen), chosen))
        both = dict.fromkeys(one for each in alone for one in (each, self._joints.with_columns(each, meter)))
        return list(both)[:MOST_TRIED]


def _by_name(layers: Iterable[str]) -> list[tuple[str, ...]]:
    """Return the layers of one name together, whatever pens draw on them; none where there is no other name."""
    found: dict[str, list[str]] = defaultdict(list)
    for layer in layers:
        if name := without_pen(layer):
            found[name].append(layer)
    return [tuple(one) for one in found.values()] if len(found) > 1 else []


def _by_rooms(sheet: DrawnSheet, mapping: Mapping) -> ProvenScale | None:
    """Return the scale on which sizes in the rooms of `sheet`, read at a guess, agree."""
    agreed = _agreed(list(_sides(recognize(sheet, mapping, by_size=False))))
    if not agreed:
        return None
    meter = (sheet.meter or 0.0) * median(side.said / side.drawn for side in agreed)
    return ProvenScale(meter, len({side.face for side in agreed}), "sizes of rooms")


def _at(sheet: DrawnSheet, meter: float, walls: tuple[str, ...], short: float = SHORT) -> DrawnSheet:
    """Return the sheet at a guess of its scale, without the short lines of which furniture and plants are drawn."""
    lines = [one for one in sheet.lines if long((one.start, one.end)) * meter >= short]
    found = replace(sheet, lines=lines, meter=meter, walls=walls)
    name_openings(found, meter, Mapping())
    return found


def _usual_scales(sheet: DrawnSheet) -> Iterator[float]:
    """Yield scales at which the leaves of doors, or all that is drawn, are as large as usual, in meters for one point."""
    radii = sorted(arc.radius for arc in sheet.swings)
    if radii:
        common = max(radii, key=lambda r: sum(0.85 * r <= other <= 1.15 * r for other in radii) * r)
        yield LEAF / common
    points = [point for line in sheet.lines for point in (line.start, line.end)]
    extent = max(max(p[i] for p in points) - min(p[i] for p in points) for i in (0, 1))
    for meters in EXTENTS:
        yield meters / max(extent, 1e-9)


def _sizes(text: str) -> Iterator[WrittenSize]:
    for size in sizes_in(text):
        if not is_opening_size(size) and all(ROOM[0] <= side <= ROOM[1] for side in (size.first, size.second)):
            yield size


def _sides(plan: RecognizedPlan) -> Iterator[SizedSide]:
    for text in plan.texts:
        for size in _sizes(text.text):
            around = [i for i, face in enumerate(plan.faces) if face.shape.contains(shapely.Point(text.at))]
            if around:
                index = min(around, key=lambda i: plan.faces[i].area)
                yield from _fitting(size, plan.faces[index].sides, index)


def _fitting(size: WrittenSize, drawn: tuple[float, float], index: int) -> Iterator[SizedSide]:
    """Yield both sides of a room, the way round in which they say much the same; none where they do in neither."""
    ways = [((size.first, drawn[0]), (size.second, drawn[1])), ((size.first, drawn[1]), (size.second, drawn[0]))]
    for way in sorted(ways, key=_unlike)[:1]:
        if _unlike(way) <= ALIKE:
            yield from (SizedSide(said, of, index) for said, of in way)


def _unlike(way: tuple[tuple[float, float], tuple[float, float]]) -> float:
    first, second = (said / drawn for said, drawn in way)
    return abs(first - second) / max(first, second)


def _agreed(sides: list[SizedSide]) -> list[SizedSide]:
    """Return the sides of rooms that agree on one scale with both of theirs; none where those are too few.

    Nor where they say more than the outline by the same amount in every room.
    """
    best: list[SizedSide] = []
    for one in sides:
        times = one.said / one.drawn
        near = [side for side in sides if abs(side.said / side.drawn - times) <= SAME * times]
        both = {side.face for side in near if sum(other.face == side.face for other in near) > 1}
        best = max(best, [side for side in near if side.face in both], key=len)
    rooms = len({side.face for side in best})
    return best if rooms >= ENOUGH and abs(_beyond(best)) <= BEYOND else []


def _beyond(sides: list[SizedSide]) -> float:
    """Return how many meters, in every room alike, sizes say more than is drawn: where the line through them begins."""
    drawn, said = [side.drawn for side in sides], [side.said for side in sides]
    middle, mean = sum(drawn) / len(drawn), sum(said) / len(said)
    spread = sum((d - middle) ** 2 for d in drawn)
    slope = sum((d - middle) * (s - mean) for d, s in zip(drawn, said, strict=True)) / spread if spread else 0.0
    return mean - slope * middle


__all__ = ["SizesOfPage"]
