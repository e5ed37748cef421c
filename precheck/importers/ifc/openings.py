"""Doors, windows and skylights: size, operation, place on the wall, and the spaces they join, from two sides."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot
from typing import Any

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.exposure import exposure_of
from precheck.importers.ifc.facts import begun, called, fire_rating, phase, thermal
from precheck.importers.ifc.model import Model, type_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.roomless import room_of_story
from precheck.importers.ifc.shapes import Shape
from precheck.importers.ifc.sides import OUTSIDE, OpeningPosition, RoomsBeside, boundaries, room_beyond, sides_of
from precheck.importers.ifc.swing import swing
from precheck.importers.measures import box, unit_that_fits

TRIM = 0.3  # meters by which a body may be wider or higher than the opening's own size, for its frame and trim
LESS = 0.03  # meters by which it may be smaller
SILL_OFF = 0.05  # meters by which a stated sill may be off the body's bottom

DOORS = (("SLIDING", "sliding"), ("FOLDING", "folding"), ("ROLLINGUP", "vehicle"), ("SWING", "side-hinged"))
DOOR_WORDS = (("garage door", "vehicle"), ("overhead", "vehicle"), ("sectional", "vehicle"), ("pocket", "pocket"),
              ("bifold", "folding"), ("bi-fold", "folding"), ("sliding", "sliding"), ("cased", "cased opening"))  # fmt: skip
WINDOWS = (("SIDEHUNG", "casement"), ("TOPHUNG", "awning"), ("BOTTOMHUNG", "hopper"), ("SLIDINGHORIZONTAL", "slider"),
           ("FIXEDCASEMENT", "fixed"))  # fmt: skip
WINDOW_WORDS = (("casement", "casement"), ("double hung", "double hung"), ("double-hung", "double hung"),
                ("single hung", "single hung"), ("single-hung", "single hung"), ("awning", "awning"),
                ("hopper", "hopper"), ("slider", "slider"), ("sliding", "slider"), ("fixed", "fixed"))  # fmt: skip


def read_openings(plan: Plan, tick: Any) -> None:
    """Read the doors and windows of the model into its draft."""
    bounds = boundaries(plan)
    for element in plan.model.all("IfcDoor"):
        _door(plan, element, bounds)
        tick()
    for element in plan.model.all("IfcWindow"):
        _window(plan, element, bounds)
        tick()


def _door(plan: Plan, element: Any, bounds: dict[int, list[ReadSpace]]) -> None:
    model, part = plan.model, _id(plan, element, "D")
    shape = plan.model.shape(element)
    placed = _placed(element, shape, model)
    found = _sides(plan, element, placed, bounds, part)
    if len(found.sides) != 2:
        _left_out(model, f"door {part}", element, found.why_not)
        return
    entry = begun(element, part)
    entry["between"] = Value(f"[{', '.join(found.sides)}]", found.told)
    entry |= phase(model, element, part)
    entry |= _operation(model, element, part, DOORS, DOOR_WORDS)
    entry |= _size(plan, element, shape, part) | _middle(plan, placed) | fire_rating(model, element, part)
    entry |= thermal(model, element, part)
    closing = model.first(element, "self closing", part)
    if closing is not None:
        entry["self closing"] = Value("yes" if closing.value else "no", closing.told, str(closing.entity))
    if placed is not None:
        ahead = room_beyond(plan, placed, 1)
        front = ahead.id if ahead else OUTSIDE
        entry |= swing(plan, element, shape, placed.middle, placed.square, front if front in found.sides else "", part)
    model.draft.add("doors", entry)


def _window(plan: Plan, element: Any, bounds: dict[int, list[ReadSpace]]) -> None:
    model, part = plan.model, _id(plan, element, "W")
    shape = plan.model.shape(element)
    if shape is not None and _lies(element, shape):
        _skylight(plan, element, shape, part)
        return
    placed = _placed(element, shape, model)
    found = _sides(plan, element, placed, bounds, part)
    inner = [side for side in found.sides if side != OUTSIDE]
    if len(inner) != 1:
        why = f"it stands between {' and '.join(inner)}, and lets in no daylight" if inner else found.why_not
        _left_out(model, f"window {part}", element, why)
        return
    entry = begun(element, part)
    entry["space"] = Value(inner[0], found.told)
    entry |= phase(model, element, part)
    entry |= _operation(model, element, part, WINDOWS, WINDOW_WORDS)
    entry |= _size(plan, element, shape, part) | _middle(plan, placed) | thermal(model, element, part)
    entry |= _sill(plan, element, shape, next(room for room in plan.rooms if room.id == inner[0]), part)
    model.draft.add("windows", entry)


def _left_out(model: Model, named: str, element: Any, why: str) -> None:
    """Tell that an opening is left out: by itself, or all at once where it is because the model has no rooms."""
    if model.draft.warning:
        model.draft.doubt(f"left out: {why}", named)
    else:
        model.draft.left_out.append(f"left out: {named} ({plain(element.Name)}): {why}")


def _sides(
    plan: Plan, element: Any, placed: OpeningPosition | None, bounds: dict[int, list[ReadSpace]], part: str
) -> RoomsBeside:
    exposure = exposure_of(plan.model, element, part)
    if not plan.model.draft.warning:
        return sides_of(plan, placed, bounds.get(element.id(), []), exposure, part)
    room = room_of_story(plan, element)
    if room is not None and exposure.external:
        return RoomsBeside([room, OUTSIDE], f"the story that holds it; {exposure.told}")
    return RoomsBeside([], "", "the model has no rooms, and it is not said to be external")


def _skylight(plan: Plan, element: Any, shape: Shape, part: str) -> None:
    xs, ys, _ = zip(*shape.corners, strict=True)
    x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    below = [r for r in plan.rooms if r.shape and r.shape.top < shape.top and r.holds(x, y, r.shape.bottom)]
    if not below:
        told = f"left out: skylight {part} ({plain(element.Name)}): no space is modeled below it"
        plan.model.draft.left_out.append(told)
        return
    room = max(below, key=lambda r: r.shape.top if r.shape else 0.0)
    entry = begun(element, part)
    entry["space"] = Value(room.id, "the space below it in plan")
    plan.model.draft.add("skylights", entry | phase(plan.model, element, part) | thermal(plan.model, element, part))


def _lies(element: Any, shape: Shape) -> bool:
    """Return whether a window lies flat or sloped in a roof, rather than upright in a wall."""
    if getattr(element, "PredefinedType", None) == "SKYLIGHT":
        return True
    wide, deep, high = (b - a for a, b in zip(shape.own_low, shape.own_high, strict=True))
    return high < 0.5 * min(wide, deep)


def _id(plan: Plan, element: Any, letter: str) -> str:
    number = called(plan.model, element)
    return plan.model.draft.free_id(f"{letter}{number}" if number[:1].isdigit() else number, f"{letter}-{number}")


def _placed(element: Any, shape: Shape | None, model: Model) -> OpeningPosition | None:
    if shape is None:
        return None
    low, high = shape.own_low, shape.own_high
    wide, deep = high[0] - low[0], high[1] - low[1]
    width = (element.OverallWidth or 0.0) * model.meter
    along_x = abs(wide - width) <= abs(deep - width) if width else wide >= deep
    x, y, z = ((a + b) / 2 for a, b in zip(low, high, strict=True))
    middle, beside = shape.world(x, y, z), shape.world(*((x, y + 1, z) if along_x else (x + 1, y, z)))
    dx, dy = beside[0] - middle[0], beside[1] - middle[1]
    size = hypot(dx, dy) or 1.0
    return OpeningPosition((middle[0], middle[1]), middle[2], (dx / size, dy / size), deep if along_x else wide)


def _operation(model: Model, element: Any, part: str, kinds: Iterable[tuple[str, str]], words: Any) -> Entry:
    kind = type_of(element)
    for one in (element, kind):
        said = str(getattr(one, "OperationType", None) or "")
        if word := next((word for start, word in kinds if start in said.replace("_", "")), None):
            return {"operation": Value(word, f"#{one.id()} OperationType {said}", str(one.id()))}
    for panel in (kind.HasPropertySets or ()) if kind else ():
        said = str(getattr(panel, "OperationType", None) or "").replace("_", "")
        if panel.is_a("IfcWindowPanelProperties") and (word := next((w for s, w in kinds if s in said), None)):
            return {"operation": Value(word, f"#{panel.id()} OperationType {said}", str(panel.id()))}
    name = plain(getattr(kind, "Name", None) or element.Name or "")
    named = f"{name} {plain(element.Name or '')}".lower()
    if word := next((word for text, word in words if text in named), None):
        model.draft.doubt("how it opens is only in the name of its type, from which it is taken", part)
        return {"operation": Value(word, f'the name "{plain(element.Name or name)}"')}
    model.draft.doubt("how it opens is not said", part)
    return {}


def _size(plan: Plan, element: Any, shape: Shape | None, part: str) -> Entry:
    model = plan.model
    if not element.OverallWidth or not element.OverallHeight:
        model.draft.doubt("OverallWidth and OverallHeight are not both given: size not shown", part)
        return {}
    size = [float(element.OverallWidth) * model.meter, float(element.OverallHeight) * model.meter]
    told = f"#{element.id()} OverallWidth x OverallHeight"
    if shape is not None:
        wide, deep, high = (b - a for a, b in zip(shape.own_low, shape.own_high, strict=True))
        body = [min((wide, deep), key=lambda side: abs(side - size[0])), high]
        off = [s for s, b in zip(size, body, strict=True) if not s - LESS <= b <= s + TRIM]
        if off:
            unit = unit_that_fits(float(element.OverallWidth), max(wide, deep), TRIM / 2)
            hint = f" (as {unit} it would fit)" if unit else ""
            body_told = box(max(wide, deep), high, model.imperial)
            told = f"{box(size[0], size[1], model.imperial)}{hint}, the body {body_told}"
            model.draft.doubt("OverallWidth and OverallHeight contradict the body; size not shown", f"{part} ({told})")
            return {}
    return {"unit size": Value(box(size[0], size[1], model.imperial), told)}


def _middle(plan: Plan, placed: OpeningPosition | None) -> Entry:
    if placed is None:
        return {}
    return {"middle": Value(plan.point(*placed.middle), "middle of its body in plan")}


def _sill(plan: Plan, element: Any, shape: Shape | None, room: ReadSpace, part: str) -> Entry:
    model = plan.model
    if room.shape is None:
        return {}
    stated = next((p for p in model.given(element, "sill height", part) if p.si is not None), None)
    if shape is None:
        return {}
    height = shape.bottom - room.shape.bottom
    if height < 0:
        model.draft.doubt("reaches below the floor of its space: sill height not shown", part)
        return {}
    told = "bottom of its body above the floor"
    level = room.story and float(room.story.Elevation or 0.0) * model.meter
    if stated is not None and stated.si is not None:
        if level is not None and abs(stated.si + level - (shape.bottom - plan.datum)) > SILL_OFF:
            said = f"{stated.told} says {plan.length(stated.si)}, its body begins {plan.length(height)} above the floor"
            model.draft.doubt("sill height contradicts the body and is not shown", f"{part} ({said})")
            return {}
        told += f"; {stated.told} says {plan.length(stated.si)} above the story's level"
    model.draft.doubt("sill height is that of the unit; its clear opening begins higher, by the frame", part)
    return {"sill height": Value(plan.length(height), told)}


__all__ = ["read_openings"]
