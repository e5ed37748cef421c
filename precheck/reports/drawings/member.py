"""A framing member from the side: its span and depth to scale, what it bears on, what it carries, its joints and cuts."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.checks import Outcome
from precheck.files.missing import is_missing
from precheck.project import Carried, Member
from precheck.reports import words
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.svg import CHARACTER, Pen, inches
from precheck.units import Length

BEARING = 3.5  # inches of bearing drawn where the length of it is not given
ABOVE, ABOVE_POINTS = 38.0, 54.0  # pixels from the arrows up to the marks, past one line of lettering or two
LOAD = 16.0  # inches of height that the arrows of a spread load take


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield an elevation for each joist, rafter, beam or header that is new or altered, or that the list names."""
    for member in source.house.subjects(Member):
        told = bool(source.marks(member))
        if member.is_removed or member.role == "post" or not (told or member.phase in ("new", "altered")):
            continue
        drawing = _elevation(source, member)
        if told or drawing.body:
            yield drawing


def _elevation(source: Source, member: Member) -> Drawing:
    key, title = (
        f"elevation-{source.key('member', member)}",
        f"{member.role.capitalize()} from the side, {member.label}",
    )
    lacking = [
        key for key, value in (("`span`", member.span), ("`size`", _depth(member))) if not isinstance(value, Length)
    ]
    if lacking:
        return cannot(source.key(key), title, f"{' and '.join(lacking)} of {member.label} (line {member.place.line})")
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, member), "3/8", 4.0)


def _depth(member: Member) -> Length | None:
    """Return the true depth: the maker's, else that of dressed lumber of the nominal size."""
    made = None if is_missing(member.maker) else member.maker.depth
    if isinstance(made, Length):
        return made
    if is_missing(member.size):
        return None
    nominal = int(member.size.partition("x")[2])
    dressed = nominal * 4 - (2 if nominal <= 6 else 3)  # quarters of an inch
    return Length.parse("1/4 in") * dressed


def _drawn(sketch: Sketch, title: str, member: Member) -> Drawing:
    pen, span, depth = sketch.pen, inches(_given(member.span)), inches(_given(_depth(member)))
    over = 0.0 if is_missing(member.overhang) else inches(member.overhang)
    ends = [_bearing(member, end) for end in (0, 1)]
    sketch.open(member)
    pen.path(
        [(-ends[0], 0), (span + ends[1] + over, 0), (span + ends[1] + over, depth), (-ends[0], depth)], "unit", True
    )
    sketch.close()
    for x, width in ((-ends[0], ends[0]), (span, ends[1])):
        pen.path([(x, 0), (x + width, 0), (x + width, -8), (x, -8)], "base", True)
    _names(pen, member, span)
    pen.across(0, span, -8, f"clear span {member.span}", 44)
    if over:
        pen.across(span + ends[1], span + ends[1] + over, -8, f"overhang {member.overhang}", 44)
    _loads(pen, member, span, depth)
    above = LOAD * pen.scale.factor + (ABOVE_POINTS if any(not is_missing(c.at) for c in member.carries) else ABOVE)
    pen.badges((span / 2, depth), sketch.source.marks(member), dy=-above)
    return sketch.finish(title, _description(member), tuple(_notes(sketch.source, member)))


def _given(length: object) -> Length:
    assert isinstance(length, Length)
    return length


def _bearing(member: Member, end: int) -> float:
    length = member.bears_on[end].length if end < len(member.bears_on) else None
    return inches(length) if isinstance(length, Length) else BEARING


def _names(pen: Pen, member: Member, span: float) -> None:
    below = 16.0
    for end, x in ((0, 0.0), (1, span)):
        bearing = member.bears_on[end] if end < len(member.bears_on) else None
        on = None if bearing is None else bearing.on if not is_missing(bearing.on) else bearing.onto
        told = "bearing not given" if on is None or is_missing(on) else f"on {on}"
        pen.text((x, -8), told, "small", "start" if end == 0 else "end", dy=below)
        if len(told) * CHARACTER * 2 > span * pen.scale.factor:  # no room for both in one line
            below += 13.0


def _loads(pen: Pen, member: Member, span: float, depth: float) -> None:
    """Draw spread loads as a row of arrows and loads at a point as one arrow, each load named."""
    spread = [load for load in member.carries if is_missing(load.at)]
    if spread:
        for n in range(9):
            _arrow(pen, span * n / 8, depth)
        pen.path([(0, depth + LOAD), (span, depth + LOAD)], "line thin")
        pen.text(
            (span / 2, depth + LOAD), "; ".join(filter(None, map(_load, spread))) or "load not given", "small", dy=-8
        )
    for load in member.carries:
        if not is_missing(load.at):
            _arrow(pen, inches(load.at), depth, "line heavy")
            pen.text((inches(load.at), depth + LOAD), _load(load), "small", dy=-24)


def _arrow(pen: Pen, x: float, depth: float, kind: str = "line thin") -> None:
    pen.path([(x, depth + LOAD), (x, depth + 1)], kind)
    pen.path([(x - 1.5, depth + 4), (x, depth + 1), (x + 1.5, depth + 4)], kind)


def _load(load: Carried) -> str:
    named = (("use", load.use), ("live", load.live), ("dead", load.dead), ("dead", load.dead_per_foot),
             ("live", load.live_per_foot), ("roof", load.roof_per_foot), ("dead", load.point_dead),
             ("live", load.point_live), ("roof", load.point_roof))  # fmt: skip
    told = [str(value) if name == "use" else f"{name} {value}" for name, value in named if not is_missing(value)]
    return ", ".join(told)


def _description(member: Member) -> str:
    size = "size not given" if is_missing(member.size) else member.label_of_size
    spacing = "" if is_missing(member.spacing) else f" at {member.spacing}"
    wood = "" if is_missing(member.species) else f", {member.species}"
    grade = "" if is_missing(member.grade) else f" {member.grade}"
    return f"{size}{spacing}{wood}{grade}, clear span {member.span}."


def _notes(source: Source, member: Member) -> Iterator[str]:
    """Say what is too much for the member: the comparisons that fail or call for a look."""
    for item in source.items:
        if item.part is member and item.outcome in (Outcome.FAIL, Outcome.WARN):
            for line in words.lines_of(item.findings[0])[:2]:
                yield f"{item.number}: {line}"
    if len(member.bears_on) < 2:
        yield f"Bearings that are not given are drawn {BEARING:g} in long: add `bears on` of {member.label}."
