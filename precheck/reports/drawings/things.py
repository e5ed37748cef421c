"""What stands at a point of the plan: outlets, lights, alarms, fixtures, appliances, panels and fans, by their signs."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import Alarm, Appliance, Exhaust, Fixture, Light, Panel, Part, Receptacle
from precheck.reports.drawings.drawing import Sketch
from precheck.reports.drawings.svg import BADGE, Pen, Point, inches
from precheck.survey.fit import THINGS

REACH = 5.0  # pixels from the middle of a sign to its edge, at any scale
LETTERS = {"smoke": "S", "carbon monoxide": "CO"}


def signs(sketch: Sketch, rooms: set[str]) -> tuple[Part, ...]:
    """Draw the signs of what is placed in `rooms`, the ids of those that are drawn, beneath all lettering; return it."""
    drawn = tuple(part for part in _placed(sketch) if str(getattr(part, "space", "")) in rooms)
    for part in drawn:
        sketch.open(part)
        _sign(sketch.pen, part, _middle(part))
        sketch.close()
    return drawn


def lettering(sketch: Sketch, drawn: tuple[Part, ...]) -> tuple[str, ...]:
    """Letter and mark the signs of the `drawn` parts; return what they stand for."""
    for part in drawn:
        if letters := _letters(part):
            sketch.pen.text(_middle(part), letters, "small", dy=4)
        sketch.pen.badges(_middle(part), sketch.source.marks(part), dy=-BADGE)
    told = [one for kind, one in _TOLD.items() if any(isinstance(part, kind) for part in drawn)]
    return (f"Signs: {'; '.join(told)}.",) if told else ()


_TOLD: dict[type[Part], str] = {
    Receptacle: "circle with two strokes, a receptacle",
    Light: "circle with a cross, a light",
    Alarm: "S and CO, alarms",
    Exhaust: "EF, an exhaust fan",
    Panel: "filled box, the panel",
}


def _placed(sketch: Sketch) -> Iterator[Part]:
    for kind in THINGS:
        for part in sketch.source.house.subjects(kind):
            boxed = not is_missing(getattr(part, "rectangle", part.absent("rectangle")))
            if not part.is_removed and (boxed or not is_missing(part.at)):
                yield part


def _middle(part: Part) -> Point:
    box = getattr(part, "rectangle", part.absent("rectangle"))
    if is_missing(box):
        x, y = part.at  # type: ignore[attr-defined]  # of the kinds that stand at a point
        return inches(x), inches(y)
    x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
    return x + width / 2, y + depth / 2


def _sign(pen: Pen, part: Part, point: Point) -> None:
    """Draw the sign of `part`: a fixture as its outline, the rest in one size at any scale."""
    box = getattr(part, "rectangle", part.absent("rectangle"))
    if not is_missing(box):
        x, y, width, depth = (inches(n) for n in (*box.at, box.width, box.depth))
        pen.path([(x, y), (x + width, y), (x + width, y + depth), (x, y + depth)], "unit", True)
        return
    r = REACH / pen.scale.factor
    (x, y), square = point, [(-1, -1), (1, -1), (1, 1), (-1, 1)]
    if isinstance(part, Panel):
        pen.path([(x + 2 * r * a, y + r * b) for a, b in square], "post", True)
        return
    if isinstance(part, Appliance | Fixture | Exhaust):
        pen.path([(x + 2 * r * a, y + 2 * r * b) for a, b in square], "unit", True)
        return
    r *= 2 if isinstance(part, Alarm) else 1
    for one, other in (((-1, 0), (1, 0)), ((1, 0), (-1, 0))):
        pen.arc((x + r * one[0], y), (x + r * other[0], y), r, True, "line")
    if isinstance(part, Receptacle):
        for side in (-0.4, 0.4):
            pen.path([(x + side * r, y - 1.5 * r), (x + side * r, y + 1.5 * r)], "line thin")
    elif isinstance(part, Light):
        for slope in (1, -1):
            pen.path([(x - r * 0.7, y - r * 0.7 * slope), (x + r * 0.7, y + r * 0.7 * slope)], "line thin")


def _letters(part: Part) -> str:
    if isinstance(part, Alarm):
        return "A" if is_missing(part.detects) else "/".join(LETTERS[one] for one in part.detects)
    if isinstance(part, Exhaust):
        return "EF"
    return part.id if isinstance(part, Appliance | Fixture) else ""
