"""The section through a door: floor and landing on both sides, threshold, step, and how the floors are built up."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.immutable import fixed
from precheck.project import Door, Floor, Landing, Layer, Space
from precheck.reports.drawings.drawing import Drawing, Sketch, Source, cannot, fitting
from precheck.reports.drawings.svg import Pen, inches, short
from precheck.units import Length, derived

SHOWN = 30.0  # inches of floor drawn on each side where its depth is not given or is greater
DEEPER = 1.3  # times SHOWN that a landing may be deep and still be drawn to its edge
JAMB = 20.0  # inches of door drawn above the threshold
LEAF = 1.75
NAMES = 44.0  # pixels above a floor that its name and level take


@fixed
class DrawnSide:
    """What lies on one side of a door: its name, level, depth where it ends, and floor."""

    name: str
    level: Length
    depth: float | None
    floor: Floor | None


def drawings(source: Source) -> Iterator[Drawing]:
    """Yield a section for each door that is new, altered or in the list, if its two sides are not one floor."""
    for door in source.house.project.doors:
        told = bool(source.marks(door))
        if door.is_removed or not (told or not door.is_existing) or door.operation in ("vehicle", "hatch"):
            continue
        drawing = _section(source, door)
        if drawing is not None and (told or drawing.body):
            yield drawing


def _section(source: Source, door: Door) -> Drawing | None:
    key, title = f"section-{source.key('door', door)}", f"Section, {door.label}"
    inner = _inner(source, door)
    near, lacks_near = _side(source, door, inner, None)
    if near is None:
        return cannot(source.key(key), title, lacks_near)
    far, lacks_far = _side(source, door, door.between[1 - inner], near.level)
    if far is None:
        return cannot(source.key(key), title, lacks_far)
    if near.floor is not None and near.floor is far.floor:
        return None
    return fitting(lambda scale: _drawn(Sketch(source, key, Pen(scale)), title, door, near, far), "3/4")


def _drawn(sketch: Sketch, title: str, door: Door, near: DrawnSide, far: DrawnSide) -> Drawing:
    _draw(sketch, door, near, far)
    return sketch.finish(title, _description(door, near, far), _notes(door, near, far))


def _inner(source: Source, door: Door) -> int:
    """Return which side of the door is the higher or the indoor one: the one whose floor is known."""
    spaces = source.house.sides(door)
    levels = [source.house.finished_floor(space) if space is not None else None for space in spaces]
    known = [index for index, level in enumerate(levels) if isinstance(level, Length)]
    if len(known) == 2:
        first, second = levels
        return 0 if isinstance(first, Length) and isinstance(second, Length) and first >= second else 1
    return known[0] if known else next((i for i, s in enumerate(spaces) if s is not None), 0)


def _side(source: Source, door: Door, which: int | str, inside: Length | None) -> tuple[DrawnSide | None, str]:
    name = door.between[which] if isinstance(which, int) else which
    space = source.house.space(name)
    landing = next((landing for landing in door.landings if landing.side == name), None)
    level = _level(source, door, space, landing, inside)
    if level is None:
        return None, _lacking(door, name, space)
    depth = landing.depth if landing is not None else None
    floor = source.house.floor(space) if space is not None and (landing is None or is_missing(landing.level)) else None
    shown = inches(depth) if isinstance(depth, Length) else None
    return DrawnSide(space.name or space.id if space else name, level, shown, floor), ""


def _level(
    source: Source, door: Door, space: Space | None, landing: Landing | None, inside: Length | None
) -> Length | None:
    if landing is not None and not is_missing(landing.level):
        return landing.level
    if landing is not None and not is_missing(landing.drop) and inside is not None:
        return inside + _threshold(door) - landing.drop
    level = source.house.finished_floor(space) if space is not None else None
    return level if isinstance(level, Length) else None


def _threshold(door: Door) -> Length:
    return Length(0) if is_missing(door.threshold_height) else door.threshold_height


def _lacking(door: Door, name: str, space: Space | None) -> str:
    if space is None:
        return f"`landings: [{{side: {name}, level: ...}}]` of {door.label} (line {door.place.line})"
    if is_missing(space.floor):
        return f"`floor` of {space.label} (line {space.place.line})"
    return f"`finished level`, or `base level` and `layers`, of floor {space.floor}"


def _draw(sketch: Sketch, door: Door, near: DrawnSide, far: DrawnSide) -> None:
    pen, base = sketch.pen, inches(near.level)
    sketch.open(door)
    top = inches(_threshold(door))
    _ground(pen, near, -1.0, base)
    _ground(pen, far, 1.0, base)
    pen.path([(0.0, 0.0), (0.0, top), (5.0, top), (5.0, inches(far.level) - base)], "line heavy")
    pen.path([(1.5, top), (1.5, top + JAMB), (1.5 + LEAF, top + JAMB), (1.5 + LEAF, top)], "unit")
    pen.path([(-1.5, top + JAMB - 1), (1.0, top + JAMB + 1), (3.5, top + JAMB - 1), (6.5, top + JAMB + 1)], "line thin")
    sketch.close()
    drop = near.level + _threshold(door) - far.level
    if drop.n:
        low = inches(far.level) - base
        pen.upright(5.0, low, top, "", 26)
        clear = max(NAMES - abs(top - low) * pen.scale.factor, 0.0)  # its lettering stays above the name of the floor
        pen.text((5.0, max(low, top)), f"step {derived(abs(drop))}", "dim", "start", 33, -clear)
    if top:
        pen.text((0.0, top), f"threshold {door.threshold_height}", "dim", "end", -8, -6)
    pen.badges((2.4, top + JAMB), sketch.source.marks(door), dy=-24)


def _ground(pen: Pen, side: DrawnSide, way: float, base: float) -> None:
    y = inches(side.level) - base
    edge = 0.0 if way < 0 else 5.0
    depth = min(side.depth or SHOWN, SHOWN * DEEPER)
    end = edge + way * depth
    pen.path([(edge, y), (end, y)], "line heavy")
    if side.depth is not None and side.depth <= SHOWN * DEEPER:
        pen.path([(end, y), (end, y - 6)], "line heavy")
        pen.across(min(edge, end), max(edge, end), y, f"landing {side.depth:g} in", 44)
    else:
        pen.path([(end, y + 3), (end - way * 1.5, y + 1), (end + way * 1.5, y - 1), (end, y - 3)], "line thin")
    anchor = "start" if way < 0 else "end"
    pen.text((end, y), short(side.name, 24), "name", anchor, -12 * way, -26)
    pen.text((end, y), f"level {side.level}", "small", anchor, -12 * way, -11)
    if side.floor is not None and side.floor.layers and _known(side.floor.layers):
        _layers(pen, side.floor, edge + way * depth * 0.45, edge, end, y)


def _known(layers: tuple[Layer, ...]) -> bool:
    return all(not is_missing(layer.thickness) for layer in layers)


def _layers(pen: Pen, floor: Floor, leader: float, edge: float, end: float, top: float) -> None:
    """Draw the layers from the top down, and a leader to their names."""
    y = top
    left, right = min(edge, end), max(edge, end)
    spots = []
    for layer in reversed(floor.layers):
        thick = inches(layer.thickness) if not is_missing(layer.thickness) else 0.0
        pen.path([(left, y), (right, y), (right, y - thick), (left, y - thick)], "layer", True)
        spots.append((y - thick / 2, f"{layer.thickness} {layer.material}"))
        y -= thick
    base = "" if is_missing(floor.base) else floor.base
    pen.path([(left, y), (right, y), (right, y - 3.5), (left, y - 3.5)], "base", True)
    spots.append((y - 1.75, f"{base or 'base'}, existing level as given" if floor.is_existing else base or "base"))
    pen.path([(leader, spots[0][0]), (leader, y - 4)], "line thin")
    for number, (spot, name) in enumerate(spots):
        x, py = pen.at((leader, spot))
        pen.add(f'<circle class="dot" cx="{x:.2f}" cy="{py:.2f}" r="2"/>')
        pen.text((leader, y - 4), name, "small", "middle", dy=14 + 14 * number)


def _description(door: Door, near: DrawnSide, far: DrawnSide) -> str:
    return (
        f"{short(near.name)} at level {near.level}; {short(far.name)} at level {far.level}; "
        f"from the top of the threshold down to {short(far.name)}: {derived(near.level + _threshold(door) - far.level)}."
    )


def _notes(door: Door, near: DrawnSide, far: DrawnSide) -> tuple[str, ...]:
    notes = []
    if is_missing(door.threshold_height):
        notes.append(f"No threshold is drawn: add `threshold height` of {door.label} (line {door.place.line}).")
    for side in (near, far):
        if side.floor is not None and not side.floor.layers:
            notes.append(
                f"How the floor of {short(side.name)} is built up is not given: add `layers` of {side.floor.label}."
            )
    return tuple(notes)
