"""Where a picture of a plan lies behind the sketch, and how two clicked points put it there.

A picture's points are in pixels, from its upper left corner, down the page; the plan's are in inches of house, up the page.
Points are complex numbers here, so that turning and scaling is one multiplication.
"""

from __future__ import annotations

from cmath import phase, rect
from math import degrees, isfinite, radians
from typing import NamedTuple

Point = tuple[float, float]

NEAREST = 2.0  # pixels: two points that are closer say nothing about scale or direction
LEAST_SCALE, MOST_SCALE = 1e-4, 1e3  # inches to a pixel: a photo of one brick, a map of a block
FAR = 1e6  # inches from the origin: nothing of a house is there
FIRST_WIDTH = 480.0  # inches across which a picture lies at first: a house of 40 ft


class Placing(NamedTuple):
    """Upper left corner of a picture in inches of the plan, its turn in degrees counterclockwise, and inches to a pixel."""

    x: float
    y: float
    angle: float
    scale: float

    def on_plan(self, pixel: Point) -> Point:
        """Return where a point of the picture lies on the plan."""
        found = complex(self.x, self.y) + _way(pixel) * rect(self.scale, radians(self.angle))
        return found.real, found.imag

    def off_plan(self, at: Point) -> Point:
        """Return which point of the picture lies at a point of the plan."""
        found = (complex(*at) - complex(self.x, self.y)) / rect(self.scale, radians(self.angle))
        return found.real, -found.imag


def first_placing(size: Point) -> Placing:
    """Return where a picture of `size` in pixels lies before it is set to scale: its lower left corner at the origin."""
    scale = FIRST_WIDTH / max(size)
    return Placing(0.0, size[1] * scale, 0.0, scale)


def scaled(placing: Placing, one: Point, other: Point, inches: float) -> Placing:
    """Return the placing in which two points of the picture are `inches` apart; the first of them stays where it is.

    Raises ValueError where the points say nothing, or the scale is none that a plan has.
    """
    apart = abs(_apart(one, other))
    if not inches > 0:
        raise ValueError("the distance between the two points is more than 0; type what it measures on the plan")
    scale = inches / apart
    if not LEAST_SCALE <= scale <= MOST_SCALE:
        raise ValueError(
            "no plan has that scale; click two points that are farther apart, and type what is between them"
        )
    return _pinned(placing._replace(scale=scale), one, placing.on_plan(one))


def leveled(placing: Placing, one: Point, other: Point) -> Placing:
    """Return the placing in which the line through two points of the picture runs level; the first stays where it is.

    It is turned the shorter way. Raises ValueError where the points say nothing.
    """
    now = degrees(phase(_apart(one, other))) + placing.angle
    return _pinned(placing._replace(angle=_kept(placing.angle - _half(now))), one, placing.on_plan(one))


def turned(placing: Placing, angle: float, size: Point) -> Placing:
    """Return the placing turned to `angle`, in degrees counterclockwise, about the middle of the picture."""
    if not isfinite(angle):
        raise ValueError("type the angle in degrees, such as 90 or -1.5")
    middle = (size[0] / 2, size[1] / 2)
    return _pinned(placing._replace(angle=_kept(angle)), middle, placing.on_plan(middle))


def moved(placing: Placing, by: Point) -> Placing:
    """Return the placing moved by inches across and up the plan. Raises ValueError where it would leave every plan."""
    found = placing._replace(x=placing.x + by[0], y=placing.y + by[1])
    if not (abs(found.x) <= FAR and abs(found.y) <= FAR):
        raise ValueError("that is farther than any plan reaches")
    return found


def _way(pixel: Point) -> complex:
    return complex(pixel[0], -pixel[1])


def _apart(one: Point, other: Point) -> complex:
    found = _way(other) - _way(one)
    if abs(found) < NEAREST:
        raise ValueError("the two points are too close together; click two that are far apart")
    return found


def _pinned(placing: Placing, pixel: Point, at: Point) -> Placing:
    """Return `placing` moved so that a point of the picture lies at a point of the plan."""
    now = placing.on_plan(pixel)
    return moved(placing, (at[0] - now[0], at[1] - now[1]))


def _half(angle: float) -> float:
    """Return the turn of a line, whose two directions are one, from level: over -90 to 90 degrees."""
    return 90.0 - (90.0 - angle) % 180.0


def _kept(angle: float) -> float:
    """Return an angle as over -180 to 180 degrees."""
    return 180.0 - (180.0 - angle) % 360.0
