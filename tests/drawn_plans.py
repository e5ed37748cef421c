"""Small plans drawn as an office draws them: walls by both faces, with gaps at openings, swings, texts, dimensions.

Rooms are clear rectangles, so that their areas are known without any geometry; the walls are what is left between them.
"""

# ruff: noqa: D102  # what these helpers draw is in their names

from __future__ import annotations

from itertools import pairwise
from math import cos, radians, sin
from typing import NamedTuple

import ezdxf
import shapely

INCHES, MILLIMETERS, METERS = 1, 4, 6
INCH = {INCHES: 1.0, MILLIMETERS: 25.4, METERS: 0.0254}


class Place(NamedTuple):
    """A clear rectangle in inches."""

    name: str
    x: float
    y: float
    wide: float
    deep: float

    @property
    def middle(self):
        return self.x + self.wide / 2, self.y + self.deep / 2


class Gap(NamedTuple):
    """An opening through a wall: its rectangle, and for a door the hinge, width, and angles of the closed and open leaf."""

    x: float
    y: float
    wide: float
    deep: float
    hinge: tuple[float, float] | None = None
    closed: float = 0.0
    opened: float = 90.0


HOUSE = (
    Place("BEDROOM 1", 0, 0, 144, 120), Place("KITCHEN", 148.5, 0, 140, 120), Place("HALL", 0, 124.5, 288.5, 42),
    Place("LIVING ROOM", 0, 171, 200, 150), Place("BATH", 204.5, 171, 84, 150),
)  # fmt: skip
DOORS = (
    Gap(100, 120, 30, 4.5, (100, 120), 0, -90), Gap(200, 120, 32, 4.5, (232, 120), 180, 270),
    Gap(60, 166.5, 36, 4.5, (60, 171), 0, 90), Gap(230, 166.5, 28, 4.5, (230, 171), 0, 90),
    Gap(-6, 128, 6, 36, (0, 128), 90, 0),
)  # fmt: skip
WINDOWS = (Gap(40, -6, 48, 6), Gap(190, -6, 36, 6), Gap(60, 321, 72, 6), Gap(230, 321, 24, 6))


class DrawnPlan:
    """A plan in one unit, at one place and turned by an angle, which may tell another unit than it has."""

    def __init__(self, unit=INCHES, said=None, turn=0.0, moved=(0.0, 0.0), mirrored=False):
        self.document = ezdxf.new()
        self.document.header["$INSUNITS"] = unit if said is None else said
        self.space = self.document.modelspace()
        self.scale, self.turn, self.moved, self.mirrored = INCH[unit], turn, moved, mirrored

    def at(self, x, y):
        x = -x if self.mirrored else x
        c, s = cos(radians(self.turn)), sin(radians(self.turn))
        return (x * c - y * s + self.moved[0]) * self.scale, (x * s + y * c + self.moved[1]) * self.scale

    def line(self, start, end, layer):
        self.space.add_line(self.at(*start), self.at(*end), dxfattribs={"layer": layer})

    def shape(self, shape, layer="A-WALL"):
        for part in shapely.get_parts(shape):
            for ring in (part.exterior, *part.interiors):
                corners = list(ring.coords)
                for start, end in pairwise(corners):
                    self.line(start, end, layer)

    def walls(self, rooms, gaps, thick=6.0, layer="A-WALL"):
        """Draw what is left of a box around all rooms when rooms and gaps are cut out of it."""
        boxes = [shapely.box(r.x, r.y, r.x + r.wide, r.y + r.deep) for r in rooms]
        low_x, low_y, high_x, high_y = shapely.union_all(boxes).bounds
        around = shapely.box(low_x - thick, low_y - thick, high_x + thick, high_y + thick)
        cuts = [shapely.box(g.x, g.y, g.x + g.wide, g.y + g.deep) for g in gaps]
        self.shape(shapely.difference(around, shapely.union_all([*boxes, *cuts])), layer)

    def swing(self, gap, layer="A-DOOR", leaf=True, leaf_layer=None):
        x, y = gap.hinge
        radius = max(gap.wide, gap.deep)
        angles = [gap.closed, gap.opened]
        if self.mirrored:
            angles = [180 - a for a in angles]
        begins, ends = angles if (angles[1] - angles[0]) % 360 < 180 else angles[::-1]
        self.space.add_arc(
            self.at(x, y), radius * self.scale, begins + self.turn, ends + self.turn, dxfattribs={"layer": layer}
        )
        if leaf:
            far = (x + radius * cos(radians(gap.opened)), y + radius * sin(radians(gap.opened)))
            self.line((x, y), far, leaf_layer or layer)

    def window(self, gap, layer="A-GLAZ"):
        for share in (0.4, 0.6):
            if gap.wide > gap.deep:
                self.line((gap.x, gap.y + share * gap.deep), (gap.x + gap.wide, gap.y + share * gap.deep), layer)
            else:
                self.line((gap.x + share * gap.wide, gap.y), (gap.x + share * gap.wide, gap.y + gap.deep), layer)

    def text(self, words, x, y, height=6.0, layer="A-ANNO"):
        text = self.space.add_text(words, height=height * self.scale, rotation=self.turn, dxfattribs={"layer": layer})
        text.set_placement(self.at(x, y), align=ezdxf.enums.TextEntityAlignment.MIDDLE_CENTER)

    def names(self, rooms, sizes=True):
        for room in rooms:
            x, y = room.middle
            self.text(room.name, x, y + 5)
            if sizes:
                self.text(f"{feet(room.wide)} x {feet(room.deep)}", x, y - 5)

    def dimension(self, start, end, words="<>"):
        dim = self.space.add_linear_dim(
            base=self.at(start[0], start[1] - 30), p1=self.at(*start), p2=self.at(*end), text=words
        )
        dim.render()

    def save(self, folder, name="plan.dxf"):
        path = folder / name
        self.document.saveas(path)
        return path


class LooseLines(NamedTuple):
    """How lines of walls are drawn one by one: how far over their ends or short of them, how unsteadily, with caps or not."""

    over: float = 0.0
    jitter: float = 0.0
    caps: bool = True
    swings: bool = True
    windows: bool = True
    sizes: bool = False


def by_single_lines(how, chance):
    """Return the house by lines of walls that end at openings, and at corners as `how` says."""
    plan, gaps = DrawnPlan(), (*DOORS, *WINDOWS)
    cuts = shapely.union_all([shapely.box(g.x, g.y, g.x + g.wide, g.y + g.deep) for g in gaps]).buffer(0.001)

    def off(point):
        return tuple(n + chance.uniform(-how.jitter, how.jitter) if how.jitter else n for n in point)

    for x, y, right, top in [(p.x, p.y, p.x + p.wide, p.y + p.deep) for p in (*HOUSE, Place("", -6, -6, 300.5, 333))]:
        low_x, low_y, high_x, high_y = x - how.over, y - how.over, right + how.over, top + how.over
        level = (((low_x, level), (high_x, level)) for level in (y, top))
        upright = (((place, low_y), (place, high_y)) for place in (x, right))
        for ends in (*level, *upright):
            for part in shapely.get_parts(shapely.LineString(ends).difference(cuts)):
                plan.line(off(part.coords[0]), off(part.coords[-1]), "A-WALL")
    for gap in gaps if how.caps else ():
        for n in (0, 1):
            lying = gap.wide > gap.deep
            start = (gap.x + n * gap.wide, gap.y) if lying else (gap.x, gap.y + n * gap.deep)
            plan.line(start, (start[0] + (0 if lying else gap.wide), start[1] + (gap.deep if lying else 0)), "A-WALL")
    for gap in DOORS if how.swings else ():
        plan.swing(gap)
    for gap in WINDOWS if how.windows else ():
        plan.window(gap)
    plan.names(HOUSE, how.sizes)
    plan.dimension((0, 0), (144, 0), feet(144))
    return plan


def feet(inches):
    """Write inches as a drafter does."""
    whole, rest = divmod(round(inches * 2) / 2, 12)
    half = " 1/2" if rest % 1 else ""
    return f"{int(whole)}'-{int(rest)}{half}\""


def house(rooms=HOUSE, doors=DOORS, windows=WINDOWS, sizes=True, **given):
    """Return the plan of a house."""
    plan = DrawnPlan(**given)
    plan.walls(rooms, (*doors, *windows))
    for gap in doors:
        plan.swing(gap)
    for gap in windows:
        plan.window(gap)
    plan.names(rooms, sizes)
    plan.dimension((0, 0), (144, 0), feet(144))
    return plan
