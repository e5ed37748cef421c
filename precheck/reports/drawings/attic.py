"""The balance of an attic's vents: net free area high and low, as bars of one scale, vent by vent."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from precheck.files.missing import is_missing
from precheck.project import Attic, Vent
from precheck.project.roof import HIGH_VENTS, LOW_VENTS
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot
from precheck.reports.drawings.svg import SCALES, Pen
from precheck.units import Area, Length, decimal

SQUARE_INCH, FOOT = Area.parse("1 sq in"), Length.parse("1 ft")
LONGEST, HIGH, GAP = 420.0, 20.0, 14.0  # pixels: the longest bar, the height of one, and what lies between two
PLACES = ("high", "in between", "low", "height not given")


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield the balance of each attic that is not said to be unvented."""
    for attic in source.house.subjects(Attic):
        if attic.is_removed or attic.vented is False or not is_missing(attic.unvented):
            continue
        yield _balance(source, attic)


def _balance(source: Source, attic: Attic) -> Drawing:
    key, title = f"vents-{source.key('attic', attic)}", f"Balance of the vents, {attic.label}"
    lacking = [f"`free area` (or what it comes of) of {vent.label} (line {vent.place.line})"
               for vent in attic.vents if free_area(vent) is None]  # fmt: skip
    if not attic.vents:
        lacking = [f"`vents` of {attic.label} (line {attic.place.line})"]
    if lacking:
        return cannot(source.key(key), title, *lacking)
    pen = Pen(SCALES[0])
    pen.scale = SCALES[0]._replace(paper_per_foot=Fraction(1, 8))  # one unit of the diagram is one pixel
    sketch = Sketch(source, key, pen)
    told = _bars(sketch, attic)
    pen.badges((0, HIGH + 8), source.marks(attic), anchor="start", dy=-8)
    return sketch.finish(title, told, scale="A diagram: all bars are of one scale")


def _bars(sketch: Sketch, attic: Attic) -> str:
    by_place = {place: [vent for vent in attic.vents if place_of(vent) == place] for place in PLACES}
    sums = {place: sum((_area(vent) for vent in vents), Area(0)) for place, vents in by_place.items()}
    most = max(max(sums.values()), SQUARE_INCH)
    sketch.open(attic)
    y = 0.0
    for place, vents in by_place.items():
        if vents or place in ("high", "low"):
            y = _bar(sketch.pen, place, vents, most, y)
    sketch.close()
    total = sum(sums.values(), Area(0))
    shares = [f"{place} {_in(area)}" for place, area in sums.items() if area.n]
    return f"Net free area: {', '.join(shares) or 'none'}; together {_in(total)}."


def _bar(pen: Pen, place: str, vents: list[Vent], most: Area, y: float) -> float:
    x = 0.0
    total = sum((_area(vent) for vent in vents), Area(0))
    for vent in vents:
        width = LONGEST * float(_area(vent) / most)
        pen.path([(x, y), (x + width, y), (x + width, y - HIGH), (x, y - HIGH)], "clear", True)
        x += width
    pen.path([(0, y + 4), (0, y - HIGH - 4)], "line heavy")
    pen.text((0, y), place, "name", "end", -8, HIGH / 2 + 4)
    pen.text((x, y), _in(total), "dim", "start", 8, HIGH / 2 + 4)
    names = ", ".join(f"{vent.form} {_in(_area(vent))}" for vent in vents) or "none"
    pen.text((0, y - HIGH), names, "small", "start", 2, 14)
    return y - HIGH - GAP * 2


def place_of(vent: Vent) -> str:
    """Return where a vent sits: as stated, else by its form."""
    if not is_missing(vent.sits):
        return vent.sits
    return "high" if vent.form in HIGH_VENTS else "low" if vent.form in LOW_VENTS else "height not given"


def free_area(vent: Vent) -> Area | None:
    """Return the net free area of a vent: as stated, by the foot, or by the piece; None where none is given."""
    if not is_missing(vent.free_area):
        return vent.free_area
    if not is_missing(vent.free_area_per_foot) and not is_missing(vent.length):
        return vent.free_area_per_foot * (vent.length / FOOT)
    if not is_missing(vent.free_area_each) and not is_missing(vent.count):
        return vent.free_area_each * vent.count
    return None


def _area(vent: Vent) -> Area:
    return free_area(vent) or Area(0)


def _in(area: Area) -> str:
    return f"{decimal(area / SQUARE_INCH, 1)} sq in"
