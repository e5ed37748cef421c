"""ReadFloors as they are built up under rooms, from the slabs and floor coverings that lie on each other; slabs on the ground.

Which way the layers of a slab are listed is taken from what they are: what carries lies below, a finish on top. The
direction that the file gives is known to be wrong where exporters list layers from the top.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from precheck.immutable import fixed
from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.facts import begun, called, fire_rating, phase, predefined, wanted_id, words_of
from precheck.importers.ifc.layers import layer_texts, layers_of, material_of
from precheck.importers.ifc.model import Model, type_of
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.shapes import Shape, level_faces, outlines
from precheck.importers.plane import P2, inside, plan_area

MEETS = 0.01  # meters between the faces of slabs that lie on each other
DEEPEST = 0.8  # meters below a room's floor at which what carries it may begin
BESIDE = 1.0  # meters below a slab within which a room makes it no slab on the ground
FINISHES = ("wood flooring", "ceramic tile", "carpet")
CARRIES = {"lumber": "joists", "wood studs": "joists", "concrete": "slab"}
ON_GROUND = ("on grade", "on ground")


@fixed
class Laid:
    """A slab or floor covering: the outlines of its top, its levels, and its layers from the top down."""

    element: Any
    shape: Shape
    tops: list[list[P2]]
    layers: tuple[tuple[str, float], ...]
    words: tuple[str, ...]
    told: str

    def holds(self, point: P2) -> bool:
        """Return whether it lies under or over a point of the plan, holes aside."""
        return sum(inside(point, loop) for loop in self.tops) % 2 == 1

    @property
    def base(self) -> str:
        """What kind of base it is; empty for what only lies on one."""
        return next((CARRIES[word] for word in self.words if word in CARRIES), "")


class ReadFloors(NamedTuple):
    """The entities taken for floors, and the slabs among them that lie under rooms, each with what kind of base it is."""

    taken: set[int]
    carried: list[tuple[Any, str]]


def read_floors(plan: Plan) -> ReadFloors:
    """Read the floors under the rooms and the slabs on the ground into the draft."""
    elements = [*plan.model.all("IfcSlab"), *(c for c in plan.model.all("IfcCovering") if _kind(c) == "FLOORING")]
    laid = [one for element in elements if (one := _laid(plan.model, element)) is not None]
    taken: set[int] = set()
    stacks: dict[str, dict[tuple[int, ...], list[Laid]]] = {}
    for room, entry in zip(plan.rooms, plan.model.draft.parts.get("spaces", []), strict=True):
        stack = _stack(room, laid)
        if stack and isinstance(entry.get("floor"), Value):
            taken |= {one.element.id() for one in stack}
            stacks.setdefault(entry["floor"].text, {})[tuple(hash(one.layers) for one in stack)] = stack
    for floor in plan.model.draft.parts.get("floors", []):
        _build_up(plan, floor, list(stacks.get(floor["id"].text, {}).values()))
    carried = [(one.element, one.base) for one in laid if one.element.id() in taken and one.element.is_a("IfcSlab")]
    for one in laid:
        if _on_ground(plan, one):
            _slab(plan, one)
            taken.add(one.element.id())
    return ReadFloors(taken, carried)


def _kind(element: Any) -> str:
    return predefined(element, type_of(element))


def _laid(model: Model, element: Any) -> Laid | None:
    shape = None if _kind(element) in ("ROOF", "LANDING") else model.shape(element)
    tops = level_faces(shape, 1) if shape else {}
    if shape is None or not tops:
        return None
    layered, one = layers_of(model, element), material_of(element)
    given = layered.layers if layered else (((one, shape.top - shape.bottom),) if one else ())
    words = tuple(model.mapping.material(name)[0] for name, _ in given)
    if words and (words[-1] in FINISHES or words[0] in CARRIES) and len(words) > 1:
        given, words = given[::-1], words[::-1]
    elif len(words) > 1 and not (words[0] in FINISHES or words[-1] in CARRIES) and words != words[::-1]:
        model.draft.doubt("which of its layers is on top is not clear; layers not shown", called(model, element))
        given, words = (), ()
    told = layered.told if layered else f"#{element.id()} material"
    return Laid(element, shape, outlines(tops[max(tops)]), given, words, told)


def _stack(room: ReadSpace, laid: list[Laid]) -> list[Laid]:
    """Return what lies under a room, from the top down to what carries it; nothing where it does not reach the floor."""
    point = _within(room)
    if room.shape is None or point is None:
        return []
    below = [one for one in laid if one.shape.top <= room.shape.bottom + MEETS and one.holds(point)]
    found: list[Laid] = []
    level = room.shape.bottom
    for one in sorted(below, key=lambda one: -one.shape.top):
        if abs(one.shape.top - level) > MEETS or room.shape.bottom - one.shape.top > DEEPEST:
            break
        found.append(one)
        level = one.shape.bottom
        if one.base:
            break
    return found


def _within(room: ReadSpace) -> P2 | None:
    """Return a point well inside a room: the middle of the widest crossing of its outline at half its depth."""
    if not room.outline:
        return None
    ys = sorted({y for _, y in room.outline})
    y = (ys[0] + ys[1]) / 2
    edges = zip(room.outline, [*room.outline[1:], room.outline[0]], strict=True)
    xs = sorted(a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) for a, b in edges if (a[1] > y) != (b[1] > y))
    spans = list(zip(xs[::2], xs[1::2], strict=False))
    left, right = max(spans, key=lambda span: span[1] - span[0])
    return (left + right) / 2, y


def _build_up(plan: Plan, floor: Entry, stacks: list[list[Laid]]) -> None:
    """Add to a floor what carries it and what lies on that."""
    model, part = plan.model, floor["id"].text
    if len(stacks) > 1:
        model.draft.doubt("rooms on it are built up differently; its layers are not shown", part)
    if len(stacks) != 1 or not stacks[0][-1].base:
        return
    stack = stacks[0]
    base, over = stack[-1], stack[:-1]
    layers = [layer for one in over for layer in one.layers]
    bearing = next(i for i, word in enumerate(base.words) if word in CARRIES)
    layers += base.layers[:bearing]
    if any(not one.layers for one in over):
        return
    told = "; ".join(dict.fromkeys(one.told for one in reversed(stack)))
    level = base.shape.top - sum(thick for _, thick in base.layers[:bearing]) - plan.datum
    floor["base"] = Value(base.base, base.told, str(base.element.id()))
    floor["base level"] = Value(plan.length(level), f"top of what carries it in #{base.element.id()}")
    floor["layers"] = Value(f"[{', '.join(layer_texts(model, layers[::-1], part))}]", told)
    floor |= phase(model, base.element, part) | fire_rating(model, base.element, part)


def _on_ground(plan: Plan, one: Laid) -> bool:
    """Return whether a slab is said to lie on the ground, and no room lies below it."""
    if not one.element.is_a("IfcSlab") or one.base == "joists":
        return False
    kind, named = _kind(one.element), any(text in words_of(one.element) for text in ON_GROUND)
    if kind != "BASESLAB" and not named:
        return False
    if kind != "BASESLAB":
        plan.model.draft.doubt(
            "that it lies on the ground is only in its name, from which it is taken", _name(plan.model, one)
        )
    return not any(
        room.shape and one.shape.bottom - BESIDE < room.shape.top <= one.shape.top and (point := _within(room))
        and one.holds(point) for room in plan.rooms
    )  # fmt: skip


def _slab(plan: Plan, one: Laid) -> None:
    model = plan.model
    part = model.draft.free_id(wanted_id(model, one.element, "SL"))
    entry = begun(one.element, part)
    over = [
        room
        for room in plan.rooms
        if room.shape and abs(room.shape.bottom - one.shape.top) < DEEPEST
        if (point := _within(room)) and one.holds(point)
    ]
    if over:
        largest = max(over, key=lambda room: plan_area(room.outline))
        entry["space"] = Value(largest.id, "the one space over it" if len(over) == 1 else "the largest space over it")
        if len(over) > 1:
            model.draft.doubt(f"a slab under {len(over)} spaces, of which the largest is named as its own", part)
    entry |= phase(model, one.element, part)
    thick = sum(t for word, (_, t) in zip(one.words, one.layers, strict=True) if word == "concrete")
    entry["thickness"] = Value(
        plan.length(thick or one.shape.top - one.shape.bottom), one.told if thick else "height of its body"
    )
    model.draft.add("slabs", entry)


def _name(model: Model, one: Laid) -> str:
    return called(model, one.element)


__all__ = ["read_floors"]
