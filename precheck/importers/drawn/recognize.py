"""A sheet as a plan: unit, layers, walls turned to their axes, openings closed, rooms graded."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import shapely

from precheck.importers.drawing import BY_NAME
from precheck.importers.drawn.closing import Closing, ClosingLine, Proofs
from precheck.importers.drawn.copies import without_copies
from precheck.importers.drawn.dimension_lines import without_dimension_lines
from precheck.importers.drawn.faces import Faces, PlanFace
from precheck.importers.drawn.layers import BY_SIZES, DOORS, WINDOWS, Layering, named_layers, paired_layers
from precheck.importers.drawn.names import RoomName
from precheck.importers.drawn.plane_lines import Line, LineNetwork, long, main_direction, turned
from precheck.importers.drawn.rooms import PlanRoom, asked, find_rooms
from precheck.importers.drawn.sheet import DASHED, DrawnLine, DrawnSheet, DrawnText, SwingArc
from precheck.importers.drawn.sized_rooms import FoundRooms, with_sized_rooms
from precheck.importers.drawn.sizes import area_in, sizes_in
from precheck.importers.drawn.swings import DoorSwing, curved_lines, door_swings, without_leaves
from precheck.importers.drawn.units import UnitVote, vote
from precheck.importers.mapping import Mapping
from precheck.importers.plane import P2

MOST_WALLS = 60_000  # lines of walls; beyond, those under 5 cm are left out
SHORT = 0.05
AGREEING = 2  # rooms whose written size agrees, by which a unit is told that nothing else tells
MOST_TRIED = 20_000  # lines of a sheet that is read in one unit after another

Tick = Callable[[int, int], None]


@dataclass
class RecognizedPlan:
    """What was recognized on a sheet, in meters, turned by `turned` degrees to the axes of the walls and moved to `origin`."""

    unit: UnitVote
    meter: float
    layering: Layering
    turned: float = 0.0
    origin: P2 = (0.0, 0.0)
    rooms: list[PlanRoom] = field(default_factory=list)
    copies: list[PlanRoom] = field(default_factory=list)
    lost: list[tuple[DrawnText, RoomName]] = field(default_factory=list)
    walls: list[Line] = field(default_factory=list)
    closers: list[ClosingLine] = field(default_factory=list)
    faces: list[PlanFace] = field(default_factory=list)
    swings: list[DoorSwing] = field(default_factory=list)
    texts: list[DrawnText] = field(default_factory=list)
    window_lines: list[Line] = field(default_factory=list)
    window_boxes: list[tuple[Any, str]] = field(default_factory=list)
    handles: dict[Line, str] = field(default_factory=dict)


def recognize(
    sheet: DrawnSheet, mapping: Mapping, tick: Tick = lambda done, total: None, by_size: bool = True
) -> RecognizedPlan:
    """Return the plan that a sheet holds; without a unit, nothing more than what the voices say.

    Without `by_size` no room is looked for by the size that is written in it, as where sizes are to tell the scale.
    """
    layering = named_layers(sheet, mapping)
    found = _unit(sheet, layering, mapping)
    recognition = _in_unit(sheet, mapping, layering, found, tick)
    if not (sheet.meter is not None or mapping.drawing_unit or recognition.is_proven):
        recognition = _by_sizes(sheet, mapping, layering, found, tick) or recognition
    if by_size:
        recognition.look_by_size()
    return recognition.found


def _in_unit(sheet: DrawnSheet, mapping: Mapping, layering: Layering, found: UnitVote, tick: Tick) -> _Recognition:
    meter = BY_NAME[found.unit] if found.unit else sheet.meter or 0.0
    if meter and not layering.walls:
        layering = layering._replace(walls=paired_layers(sheet, meter), told="walls by lines that run in pairs")
    recognition = _Recognition(sheet, mapping, RecognizedPlan(found, meter, layering), tick)
    if meter:
        recognition.read()
    return recognition


def _by_sizes(
    sheet: DrawnSheet, mapping: Mapping, layering: Layering, found: UnitVote, tick: Tick
) -> _Recognition | None:
    """Return the plan in the one unit in which written sizes or areas agree with their rooms, where they do in two or more."""
    written = sum(bool(area_in(text.text) or any(sizes_in(text.text))) for text in sheet.texts)
    if written < AGREEING or len(sheet.lines) > MOST_TRIED:
        return None
    best: tuple[int, _Recognition] | None = None
    for unit in BY_NAME:
        if unit != found.unit:
            voices = (*found.voices, f"sizes written in rooms: {unit}")
            recognition = _in_unit(sheet, mapping, layering, UnitVote(unit, voices), tick)
            agreeing = sum(room.grade == "A" for room in recognition.found.rooms)
            if agreeing >= AGREEING and (best is None or agreeing > best[0]):
                best = agreeing, recognition
    return best[1] if best else None


def _unit(sheet: DrawnSheet, layering: Layering, mapping: Mapping) -> UnitVote:
    if sheet.meter is not None:
        return UnitVote("", (sheet.scale_told,))
    if mapping.drawing_unit:
        return UnitVote(mapping.drawing_unit, ("the mapping file",))
    walls = [(line.start, line.end) for line in sheet.lines if line.layer in layering.walls or not layering.walls]
    return vote(sheet, walls)


class _Recognition:
    def __init__(self, sheet: DrawnSheet, mapping: Mapping, plan: RecognizedPlan, tick: Tick) -> None:
        self.sheet, self.mapping, self.found, self.tick = sheet, mapping, plan, tick
        self._faces: Faces | None = None

    @property
    def is_proven(self) -> bool:
        """Whether the written size of some room agrees with its outline."""
        return any(room.grade == "A" for room in self.found.rooms)

    def look_by_size(self) -> None:
        """Add the rooms that a written size proves or proposes where no outline closed."""
        found = self.found
        if self._faces is None:
            return
        shown = (one for one in self.sheet.lines if not one.layer.endswith(DASHED))
        lines = (self._moved(self._line(one)) for one in shown)
        before = FoundRooms([*found.rooms, *found.copies], found.lost, found.faces)
        rooms, found.lost, found.faces = with_sized_rooms(before, self._faces, lines, found.texts, self.mapping)
        found.rooms, found.copies = without_copies(rooms)

    def read(self) -> None:
        """Fill the plan from the lines of walls and openings, and from texts."""
        found, layers = self.found, self.found.layering
        walls = [line for line in self.sheet.lines if line.layer in layers.walls]
        walls = without_dimension_lines(walls, self.sheet, found.meter)
        found.turned = main_direction((one.start, one.end) for one in walls)
        if abs(found.turned) < 0.02:
            found.turned = 0.0
        lines = [self._line(one) for one in walls]
        if not lines:
            return
        low = min(p[0] for line in lines for p in line), min(p[1] for line in lines for p in line)
        found.origin = low
        lines = [self._moved(line) for line in lines]
        if len(lines) > MOST_WALLS:
            lines = [line for line in lines if long(line) >= SHORT]
        lines += curved_lines(map(self._arc, (arc for arc in self.sheet.swings if arc.layer in layers.walls)))
        self._rooms(lines)

    def _rooms(self, lines: list[Line]) -> None:
        found, layers = self.found, self.found.layering
        self.tick(1, 5)
        swings = list(door_swings(map(self._arc, self.sheet.swings), LineNetwork(lines)))
        network = LineNetwork(without_leaves(lines, swings))
        self.tick(2, 5)
        found.handles = {
            self._moved(self._line(one)): one.handle for one in self.sheet.lines if layers.is_opening(one.layer)
        }
        opening = without_leaves(found.handles, swings)
        windows = {self._moved(self._line(one)) for one in self.sheet.lines if one.layer in layers.windows}
        boxes = list(self._boxes())
        closers = Closing(network, Proofs(swings, opening, [box for box, _, _ in boxes])).lines()
        self.tick(3, 5)
        faces = self._faces = Faces(network, closers)
        self.tick(4, 5)
        found.texts = [t._replace(at=self._point(t.at), height=t.height * found.meter) for t in self.sheet.texts]
        rooms, found.lost = find_rooms(faces, found.texts, self.mapping)
        found.rooms, found.copies = without_copies(list(map(asked, rooms)) if layers.told == BY_SIZES else rooms)
        found.walls, found.closers, found.faces, found.swings = network.pieces, closers, faces.all, swings
        found.window_lines = [line for line in opening if line in windows]
        found.window_boxes = [(box, handle) for box, handle, is_window in boxes if is_window]
        self.tick(5, 5)

    def _boxes(self) -> Iterator[tuple[Any, str, bool]]:
        """Yield the boxes of blocks that are doors or windows by their name or layer, their handles, and whether windows."""
        layers = self.found.layering
        for block in self.sheet.blocks:
            window = block.layer in layers.windows or bool(WINDOWS.search(block.name))
            if window or layers.is_opening(block.layer) or DOORS.search(block.name):
                (x1, y1), (x2, y2) = self._point(block.low), self._point(block.high)
                if 0.3 <= max(abs(x2 - x1), abs(y2 - y1)) <= 6.0:
                    yield shapely.box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)), block.handle, window

    def _line(self, line: DrawnLine) -> Line:
        meter, angle = self.found.meter, -self.found.turned
        start = turned((line.start[0] * meter, line.start[1] * meter), angle)
        end = turned((line.end[0] * meter, line.end[1] * meter), angle)
        return start, end

    def _moved(self, line: Line) -> Line:
        (x, y), ((x1, y1), (x2, y2)) = self.found.origin, line
        return (x1 - x, y1 - y), (x2 - x, y2 - y)

    def _point(self, point: P2) -> P2:
        meter, (x, y) = self.found.meter, self.found.origin
        at = turned((point[0] * meter, point[1] * meter), -self.found.turned)
        return at[0] - x, at[1] - y

    def _arc(self, arc: SwingArc) -> SwingArc:
        by = -self.found.turned
        return arc._replace(
            center=self._point(arc.center),
            radius=arc.radius * self.found.meter,
            begins=arc.begins + by,
            ends=arc.ends + by,
        )


__all__ = ["RecognizedPlan", "recognize"]
