"""Beams, columns and other members: role where it is certain, lumber size from the profile, and place in plan."""

from __future__ import annotations

import re
from math import hypot
from typing import Any, NamedTuple

from precheck.importers.draft import Entry, Value, plain
from precheck.importers.ifc.facts import begun, leave_out, phase, predefined, wanted_id, words_of
from precheck.importers.ifc.layers import material_of
from precheck.importers.ifc.model import type_of
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.shapes import P3, Shape
from precheck.importers.ifc.stairs import parts_of
from precheck.importers.measures import INCH
from precheck.importers.plane import P2
from precheck.importers.writing import scalar

KINDS = ("IfcBeam", "IfcColumn", "IfcMember")
NAMED = (
    ("ridge beam", "ridge beam"), ("ridge board", "ridge board"), ("hip", "hip or valley"), ("valley", "hip or valley"),
    ("rafter", "rafter"), ("floor joist", "floor joist"), ("ceiling joist", "ceiling joist"),
    ("deck joist", "deck joist"), ("header", "header"), ("lintel", "header"), ("trimmer", "trimmer"), ("post", "post"),
)  # fmt: skip
TYPED = {"BEAM": "beam", "LINTEL": "header", "RAFTER": "rafter", "COLUMN": "post", "POST": "post"}
UNSAID = {"IfcBeam": "beam", "IfcColumn": "post"}
REPEATED = ("floor joist", "ceiling joist", "rafter", "deck joist")
DRESSED = {2: 1.5, 3: 2.5, 4: 3.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25, 14: 13.25}  # inches, by nominal inches
EXACT = 0.0017  # meters by which a profile may be off a dressed size, as metric models round it
BOX = 8  # corners
ACROSS = 0.5  # of its length, below which a profile is drawn across a member and not along it
UPRIGHT = 0.2  # of the length of an axis, below which its run in plan is that of a post
UNDER = 1.5  # meters under a member at which the floor of the story that carries it lies, or deeper
STEEL = ("steel", "metal")
_SHAPE = re.compile(r"\b(?:W|HSS|IPE|HEA|HEB|UB|UC)\d+[Xx]?[\d.Xx]*\b")


class Axis(NamedTuple):
    """The axis of a member in the world, from one end to the other."""

    start: P3
    end: P3

    @property
    def run(self) -> float:
        """Its length in plan."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def is_upright(self) -> bool:
        """Whether it stands like a post."""
        return self.run < UPRIGHT * abs(self.end[2] - self.start[2])


def read_members(plan: Plan) -> set[int]:
    """Read the members of the model into its draft; return the entities taken."""
    taken: set[int] = set()
    wholes = [*plan.model.all("IfcStair"), *plan.model.all("IfcCurtainWall")]
    of_others = {part.id() for whole in wholes for part in parts_of(whole)}
    for kind in KINDS:
        for element in plan.model.all(kind):
            if element.id() not in of_others and _member(plan, element, kind):
                taken.add(element.id())
    return taken


def floor_joists(plan: Plan) -> list[Axis]:
    """Return the axes of the floor joists of the model."""
    every = (element for kind in KINDS for element in plan.model.all(kind))
    called = [element for element in every if _role(element, element.is_a())[0] == "floor joist"]
    lines = [_line(plan, element, shape) for element in called if (shape := plan.model.shape(element))]
    return [line for line in lines if line is not None]


def _member(plan: Plan, element: Any, kind: str) -> bool:
    model = plan.model
    role, told = _role(element, kind)
    shape = plan.model.shape(element)
    line = _line(plan, element, shape) if shape else None
    if not role or line is None or shape is None:
        why = "whether it is a joist, rafter or beam is not said" if line and shape else "it has no straight body"
        leave_out(model, element, f"a member left out: {why}")
        return False
    if (role == "post") != line.is_upright:
        leave_out(model, element, f"a member left out: it is called a {role} and does not run like one")
        return False
    part = model.draft.free_id(wanted_id(model, element, "PO" if role == "post" else "M"))
    entry = begun(element, part) | {"role": Value(role, told, str(element.id()))}
    entry |= phase(model, element, part) | _placed(plan, role, line, shape) | _sized(plan, element, shape, part)
    if role in REPEATED:
        model.draft.doubt("is one piece as modeled; a row of them alike is written once, with their spacing", part)
    model.draft.add("members", entry)
    return True


def _role(element: Any, kind: str) -> tuple[str, str]:
    words = words_of(element, type_of(element))
    if role := next((role for word, role in NAMED if re.search(rf"\b{word}s?\b", words)), ""):
        return role, "its name"
    said = predefined(element, type_of(element))
    if said:
        return TYPED.get(said, ""), f"#{element.id()} its predefined type {said}"
    return UNSAID.get(kind, ""), f"#{element.id()} is an {kind}"


def _line(plan: Plan, element: Any, shape: Shape) -> Axis | None:
    """Return the axis: as represented, else along the longest side of the body."""
    for found in element.Representation.Representations:
        if found.RepresentationIdentifier == "Axis" and found.Items and found.Items[0].is_a("IfcPolyline"):
            points = [tuple(float(c) * plan.model.meter for c in p.Coordinates) for p in found.Items[0].Points]
            if len(points) == 2:
                ends = [shape.world(p[0], p[1], p[2] if len(p) > 2 else 0.0) for p in points]
                return Axis(*ends)
    low, high = shape.own_low, shape.own_high
    sides = [b - a for a, b in zip(low, high, strict=True)]
    long = max(range(3), key=lambda i: sides[i])
    if sides[long] < 2 * sorted(sides)[1]:
        return None
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    ends = [shape.world(*(*middle[:long], end[long], *middle[long + 1 :])) for end in (low, high)]
    return Axis(*ends)


def _placed(plan: Plan, role: str, line: Axis, shape: Shape) -> Entry:
    entry: Entry = {}
    stands = role == "post"
    story = plan.story_at((shape.bottom + shape.top) / 2 if stands else shape.bottom - UNDER)
    if story:
        entry["over"] = Value(story, "the story it stands in" if stands else "the story below it in height")
    if stands:
        xs, ys, _ = zip(*shape.corners, strict=True)
        at: P2 = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        entry["at"] = Value(plan.point(*at), "middle of its body in plan")
        entry["height"] = Value(plan.length(shape.top - shape.bottom), "height of its body")
        return entry
    for key, end in (("from", line.start), ("to", line.end)):
        entry[key] = Value(plan.point(end[0], end[1]), "end of its axis")
    entry["span"] = Value(plan.length(line.run), "length of its axis in plan; the clear span is less by its bearings")
    rise = abs(line.end[2] - line.start[2])
    if role in ("rafter", "hip or valley") and line.run:
        entry["slope"] = Value(f"{12 * rise / line.run:.2f}:12", "its axis")
    return entry


def _sized(plan: Plan, element: Any, shape: Shape, part: str) -> Entry:
    """Return the lumber size of a rectangular section, or the product of a steel one."""
    sides = _section(element, shape, plan.model.meter)
    sizes = [size for side in sides if (size := _nominal(side))]
    if len(sizes) == 2:
        told = " x ".join(plan.length(side) for side in sides)
        return {"size": Value(f"{sizes[0]}x{sizes[1]}", f"section of {told}")}
    named = f"{material_of(element)} {words_of(element)}"
    if any(word in named.lower() for word in STEEL):
        found = _SHAPE.search(plain(element.Name or ""))
        made: Entry = {"product": Value("steel", f"#{element.id()} material {material_of(element)}")}
        if found:
            made["grade"] = Value(scalar(found[0]), "its name")
        return {"maker": made}
    plan.model.draft.doubt("its section is no lumber size; size not shown", part)
    return {}


def _section(element: Any, shape: Shape, meter: float) -> list[float]:
    """Return both sides of a rectangular section, the smaller first: of its profile, else of a body that is a box."""
    profile = _profile(element)
    own = sorted(b - a for a, b in zip(shape.own_low, shape.own_high, strict=True))
    if profile is not None:
        if not profile.is_a("IfcRectangleProfileDef"):
            return []
        sides = sorted(float(side) * meter for side in (profile.XDim, profile.YDim))
        if sides[1] < ACROSS * own[2]:
            return sides
    corners = {tuple(round(c, 4) for c in corner) for corner in shape.corners}
    return own[:2] if len(corners) == BOX else []


def _profile(element: Any) -> Any:
    """Return what the body is drawn along, cuts aside; None where it is drawn in another way."""
    for found in element.Representation.Representations:
        for item in found.Items if found.RepresentationIdentifier == "Body" else ():
            while item.is_a("IfcBooleanResult"):
                item = item.FirstOperand
            if item.is_a("IfcMappedItem") and item.MappingSource.MappedRepresentation.Items:
                item = item.MappingSource.MappedRepresentation.Items[0]
            if item.is_a("IfcExtrudedAreaSolid"):
                return item.SweptArea
    return None


def _nominal(meters: float) -> int | None:
    return next((nominal for nominal, inches in DRESSED.items() if abs(inches * INCH - meters) <= EXACT), None)


__all__ = ["Axis", "floor_joists", "read_members"]
