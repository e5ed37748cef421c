"""The elevation of a window from inside: unit, net clear opening, and its height above the finished floor."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import WidthHeight, Window
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.svg import Pen, Point, inches
from precheck.units import Length

SHOWN_FOR = frozenset(("escape", "glazing", "guards"))
FLOOR = 18.0  # inches of floor drawn beside the window
GENERAL = 30.0  # inches above the floor that a window is drawn at where its sill is not given


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield an elevation for each window whose clear opening is given, or whose size or height the list is about."""
    for window in source.house.project.windows:
        told = bool(SHOWN_FOR & source.topics(window))
        drawn = isinstance(window.net_clear_opening, WidthHeight) and not window.is_existing
        if not window.is_removed and (told or drawn):
            yield _elevation(source, window)


def _elevation(source: Source, window: Window) -> Drawing:
    key, title = f"elevation-{source.key('window', window)}", f"Elevation from inside, {window.label}"
    unit = window.unit_size
    if not isinstance(unit, WidthHeight):
        return cannot(source.key(key), title, f"`unit size` of {window.label} (line {window.place.line})")
    sill = source.house.sill_height(window)
    clear = window.net_clear_opening
    size, low = _corner(unit, clear, sill, window)
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, window, (size, low)), "1/2", 6.0)


def _drawn(sketch: Sketch, title: str, window: Window, corner: tuple[Point, float]) -> Drawing:
    (size, low), source = corner, sketch.source
    clear, unit, sill = window.net_clear_opening, window.unit_size, source.house.sill_height(window)
    sketch.open(window)
    sketch.pen.path(_box((0.0, low), size), "unit", True)
    sketch.pen.path(_box((2.0, low + 2.0), (size[0] - 4.0, size[1] - 4.0)), "line thin", True)
    if isinstance(clear, WidthHeight):
        _clear(sketch.pen, window, clear, size, low)
    sketch.close()
    _floor(sketch.pen, size, sill)
    sketch.pen.across(0.0, size[0], low + size[1], f"unit {unit}", -14)
    sketch.pen.badges((size[0] / 2, low + size[1]), source.marks(window), dy=-48)
    return sketch.finish(title, _description(window, sill), tuple(_notes(window, sill)))


def _corner(unit: WidthHeight, clear: object, sill: object, window: Window) -> tuple[Point, float]:
    size = (inches(unit.width), inches(unit.height))
    if not isinstance(sill, Length):
        return size, GENERAL
    below = _clear_corner(window, clear, size)[1] if isinstance(clear, WidthHeight) else 2.0
    return size, inches(sill) - below


def _clear_corner(window: Window, clear: WidthHeight, size: Point) -> Point:
    """Return where the clear opening begins within the unit: at the bottom of a hung sash, at one side of a slider."""
    width, height = inches(clear.width), inches(clear.height)
    across = 2.0 if window.operation == "slider" else (size[0] - width) / 2
    up = 2.0 if window.operation in ("double hung", "single hung") else (size[1] - height) / 2
    return across, up


def _clear(pen: Pen, window: Window, clear: WidthHeight, size: Point, low: float) -> None:
    across, up = _clear_corner(window, clear, size)
    width, height = inches(clear.width), inches(clear.height)
    pen.path(_box((across, low + up), (width, height)), "clear", True)
    middle = (across + width / 2, low + up + height / 2)
    pen.text(middle, "net clear opening", "small", dy=-12)
    pen.text(middle, str(clear), "name", dy=4)
    pen.text(middle, str(window.clear_area), "small", dy=20)


def _floor(pen: Pen, size: Point, sill: object) -> None:
    pen.path([(-FLOOR, 0.0), (size[0] + FLOOR, 0.0)], "line heavy")
    pen.text((-FLOOR, 0.0), "finished floor", "small", "start", dy=14)
    if isinstance(sill, Length):
        pen.upright(size[0], 0.0, inches(sill), f"sill {sill}", 16)
        pen.path([(size[0] / 2, inches(sill)), (size[0] + 4.0, inches(sill))], "line dashed thin")


def _box(corner: Point, size: Point) -> list[Point]:
    (x, y), (width, height) = corner, size
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def _description(window: Window, sill: object) -> str:
    clear = window.net_clear_opening
    opening = "none" if window.operation == "fixed" else "not given" if is_missing(clear) else str(clear)
    height = sill if isinstance(sill, Length) else "not given"
    return (
        f"Unit {window.unit_size}; net clear opening {opening}; bottom of the clear opening above the floor: {height}."
    )


def _notes(window: Window, sill: object) -> Iterator[str]:
    line = window.place.line
    if window.operation == "fixed":
        yield "It does not open."
    elif is_missing(window.net_clear_opening):
        yield f"Add `net clear opening` of {window.label} (line {line}): nobody climbs through the unit size."
    else:
        yield "Where the clear opening lies within the unit is drawn by the way it opens; its size is as given."
    if not isinstance(sill, Length):
        yield f"Add `sill height` of {window.label} (line {line}); it is drawn at a usual height without one."
