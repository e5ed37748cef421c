"""The section of a stair: risers, treads, rise, run and headroom, flight after flight as if unrolled into one plane."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.immutable import fixed
from precheck.project import Flight, Stair
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.svg import Pen, Point, inches
from precheck.survey import House
from precheck.units import Length, derived

FLOOR = 18.0  # inches of floor drawn before the first and after the last riser
DRAWN_FORMS = ("straight", "turning")


@fixed
class Steps:
    """One flight as it is drawn: the height of each riser and the depth of each tread."""

    flight: Flight
    risers: tuple[Length, ...]
    treads: tuple[Length, ...]

    @property
    def rise(self) -> Length:
        """The risers together."""
        return sum(self.risers, Length(0))

    @property
    def run(self) -> Length:
        """The treads together."""
        return sum(self.treads, Length(0))


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield a section for each stair that is not removed, if it is of a form that a section can show."""
    for stair in source.house.project.stairs:
        if not stair.is_removed and (is_missing(stair.form) or stair.form in DRAWN_FORMS):
            yield _section(source, stair)


def _section(source: Source, stair: Stair) -> Drawing:
    key, title = f"section-{source.key('stair', stair)}", f"Section, {stair.label}"
    steps, to_add = steps_of(stair, source.house)
    if to_add:
        return cannot(source.key(key), title, *to_add)
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, stair, steps), "1/2")


def _drawn(sketch: Sketch, title: str, stair: Stair, steps: list[Steps]) -> Drawing:
    sketch.open(stair)
    _draw(sketch, stair, steps)
    sketch.close()
    top = sum(inches(flight.rise) for flight in steps)
    sketch.pen.badges((0.0, top + 60.0), sketch.source.marks(stair), anchor="start")
    return sketch.finish(title, _description(steps), _notes(stair, steps))


def steps_of(stair: Stair, house: House) -> tuple[list[Steps], list[str]]:
    """Return the flights of `stair` as they are drawn, and what of them to add before they can be."""
    found: list[Steps] = []
    to_add: list[str] = []
    for flight in stair.flights:
        whole = len(stair.flights) == 1
        risers, lacks_rise = _risers(flight, stair, whole, house)
        treads, lacks_tread = _treads(flight, len(risers))
        to_add += [f"{what} of {flight.label if not whole else stair.label} (line {flight.place.line})"
                   for what in (lacks_rise, lacks_tread) if what]  # fmt: skip
        found.append(Steps(flight, risers, treads))
    return found, to_add


def _risers(flight: Flight, stair: Stair, whole: bool, house: House) -> tuple[tuple[Length, ...], str]:
    if flight.riser_heights:
        return flight.riser_heights, ""
    count = stair.risers if whole and is_missing(flight.risers) else flight.risers
    if is_missing(count) or not count:
        return (), "`risers`"
    if not is_missing(flight.riser):
        return (flight.riser,) * count, ""
    rise = flight.rise if not whole or not is_missing(flight.rise) else _total_rise(stair, house)
    if not isinstance(rise, Length):
        return (), "`total rise`" if whole else "`rise`"
    return (rise / count,) * count, ""


def _total_rise(stair: Stair, house: House) -> Length | None:
    if not is_missing(stair.total_rise):
        return stair.total_rise
    lower, upper = (house.space(side) for side in stair.between)
    if lower is None or upper is None:
        return None
    difference = house.finished_floor(upper) - house.finished_floor(lower)
    return None if is_missing(difference) else abs(difference)


def _treads(flight: Flight, risers: int) -> tuple[tuple[Length, ...], str]:
    if flight.tread_depths:
        return flight.tread_depths, ""
    if is_missing(flight.tread):
        return (), "`tread`"
    return (flight.tread,) * max(risers - 1, 0), ""


def _draw(sketch: Sketch, stair: Stair, steps: list[Steps]) -> None:
    pen = sketch.pen
    x = y = 0.0
    pen.path([(-FLOOR, 0.0), (0.0, 0.0)], "line heavy")
    for number, flight in enumerate(steps):
        line, nosings = profile_of(flight, (x, y))
        pen.path(line, "line heavy")
        _headroom(pen, stair, flight, nosings)
        if number == 0:
            _first_step(pen, flight)
        x, y = line[-1]
        flat = FLOOR if number == len(steps) - 1 else _landing(stair, number)
        pen.path([(x, y), (x + flat, y)], "line heavy")
        x += flat
    top, end = y, x - FLOOR
    pen.upright(x, 0.0, top, f"rise {derived(_sum(s.rise for s in steps))}", 12)
    pen.path([(end, 0.0), (x, 0.0)], "line dashed thin")
    pen.across(
        0.0, end, 0.0, f"run {derived(_sum(s.run for s in steps))}{' of all flights' if len(steps) > 1 else ''}", 34
    )


def profile_of(flight: Steps, start: Point) -> tuple[list[Point], list[Point]]:
    """Return the line of the steps from `start` up, in inches, and the nosings on it."""
    x, y = start
    line, nosings = [(x, y)], []
    for number, riser in enumerate(flight.risers):
        y += inches(riser)
        line.append((x, y))
        nosings.append((x, y))
        if number < len(flight.treads):
            x += inches(flight.treads[number])
            line.append((x, y))
    return line, nosings


def _headroom(pen: Pen, stair: Stair, flight: Steps, nosings: list[Point]) -> None:
    clear = stair.headroom if is_missing(flight.flight.headroom) else flight.flight.headroom
    pen.path([nosings[0], nosings[-1]], "line dashed thin")
    if is_missing(clear):
        return
    x, y = nosings[len(nosings) * 2 // 3]
    high = inches(clear)
    pen.path([(px, py + high) for px, py in (nosings[0], nosings[-1])], "line dashed thin")
    pen.upright(x, y, y + high, f"headroom {clear}", 0)


def _first_step(pen: Pen, flight: Steps) -> None:
    riser, tread = max(flight.risers), min(flight.treads, default=None)
    pen.upright(0.0, 0.0, inches(flight.risers[0]), f"riser {derived(riser)}", -14)
    if tread is not None and len(flight.risers) > 1:
        second = inches(flight.risers[0])
        pen.path([(0.0, second), (0.0, second + 20)], "line thin")
        pen.across(0.0, inches(flight.treads[0]), second + 20, "", 0)
        pen.text((0.0, second + 20), f"tread {derived(tread)}", "dim", "end", -8, 4)


def _landing(stair: Stair, number: int) -> float:
    between = [landing for landing in stair.landings if landing.where == "between"]
    depth = between[number].depth if number < len(between) else None
    return inches(depth) if isinstance(depth, Length) else 36.0


def _sum(lengths: Iterator[Length]) -> Length:
    return sum(lengths, Length(0))


def _description(steps: list[Steps]) -> str:
    told = [f"{len(s.risers)} risers of {derived(max(s.risers))}, treads of {derived(min(s.treads, default=Length(0)))}"
            for s in steps]  # fmt: skip
    return f"{'; '.join(told)}. Total rise {derived(_sum(s.rise for s in steps))}."


def _notes(stair: Stair, steps: list[Steps]) -> tuple[str, ...]:
    notes = []
    if all(is_missing(s.flight.headroom) for s in steps) and is_missing(stair.headroom):
        notes.append(f"Add `headroom` of {stair.label} (line {stair.place.line}) to see it here.")
    if len(steps) > 1:
        notes.append("Flights are unrolled into one plane; a landing whose depth is not given is drawn 36 in deep.")
    return tuple(notes)
