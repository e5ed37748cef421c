"""Needs that no field of a part meets: the new part that does, the part to choose, or the lines to add by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from precheck.files.missing import Need
from precheck.files.record import Record
from precheck.project import Part, Project
from precheck.survey import House, is_exit


class Addition(NamedTuple):
    """A part to add for a need of a part of `kind` whose key is `key`.

    It joins the list `section` under an id that begins with `letters`. `known` is what the need says of it: ``{id}`` is
    the part that lacks it, ``{0}`` what the key names; a list of one stands in brackets. `asked` is asked for, in turn.
    """

    kind: str
    key: str
    section: str
    letters: str
    known: dict[str, str]
    asked: tuple[str, ...]


_FRAMING = {"floor joists": ("floor joist", "FJ"), "joists": ("deck joist", "DJ"),
            "rafters or trusses": ("rafter", "RA"), "posts": ("post", "P"),
            "beams": ("beam", "B")}  # fmt: skip
_FIXTURES = {"toilet": "toilet", "lavatory": "lavatory", "tub or shower": "shower"}
ADDITIONS = (
    Addition("space", "light", "lights", "LT", {"space": "{id}"}, ("form", "wall switch", "switched at")),
    Addition("door", "light outside", "lights", "LT", {"outside door": "{id}"}, ("form", "wall switch", "switched at")),
    Addition("space", "heating", "heating", "HT", {"serves": "[{id}]"}, ("permanent", "room temperature kept")),
    Addition("space", "slab", "slabs", "SL", {"space": "{id}"}, ("thickness", "below grade")),
    Addition("space", r"wall to (\S+)", "walls", "W", {"between": "[{id}, {0}]"}, ()),
    Addition("space", "insulation of the (wall|ceiling|floor)", "assemblies", "EN", {"what": "{0}", "space": "{id}"},
             ("cavity r", "continuous r", "u factor")),
    Addition("space", "receptacle|receptacles along its walls", "receptacles", "R", {"space": "{id}"},
             ("at", "height", "tamper resistant")),
    Addition("space", "receptacle that serves the basin", "receptacles", "R", {"space": "{id}", "serves": "basin"},
             ("to basin", "gfci", "tamper resistant")),
    Addition("space", "exhaust fan", "exhausts", "EX", {"space": "{id}", "what": "bath fan"},
             ("flow", "runs", "discharges to")),
    Addition("space", "insulation of the slab edge", "slab edges", "SE", {"space": "{id}"}, ("r value", "depth", "below grade")),
    Addition("space", "windows, with their U-factor", "windows", "W", {"space": "{id}"}, ("operation", "unit size", "u factor")),
    Addition("space", "(drain|vent|hot water|cold water)(?: pipe)?", "pipes", "PI", {"what": "{0}", "serves": "[{id}]"},
             ("size", "material")),
    Addition("heating", "ducts, and where they run", "duct runs", "DR", {}, ("where", "r value", "leakage tested")),
    Addition("appliance", "gas pipe", "pipes", "PI", {"what": "gas"}, ("serves", "size")),
    Addition("space", "dryer duct", "dryer ducts", "DD", {"space": "{id}"}, ("length", "elbows 90", "discharges to")),
    Addition("space", "circuit", "circuits", "CI", {"serves": "[{id}]"}, ("amps", "afci")),
    Addition("space", "(bathroom|garage|small appliance|laundry) circuit", "circuits", "CI",
             {"purpose": "{0}", "serves": "[{id}]"}, ("amps", "other outlets")),
    *(Addition("space", told, "fixtures", "FX", {"space": "{id}", "what": what}, ("to wall", "clear in front"))
      for told, what in _FIXTURES.items()),
    Addition("space", "access opening", "hatches", "H", {"to": "{id}"}, ("space", "through", "rough opening")),
    Addition("space", "vents of the new attic or rafter spaces", "attics", "AT", {"space": "{id}"}, ("area", "height", "vented")),
    Addition("space", "roof covering and underlayment", "roofs", "RF", {"spaces": "[{id}]"}, ("covering", "slope")),
    Addition("space", "cladding and weather barrier of the new outside walls", "claddings", "CL", {"spaces": "[{id}]"},
             ("what", "water resistive barrier")),
    Addition("door", "cladding and weather barrier of the new outside walls", "claddings", "CL", {},
             ("what", "water resistive barrier")),
    Addition("space", "dampproofing and foundation drain of the new basement", "earth walls", "EW", {"spaces": "[{id}]"},
             ("coating", "high groundwater")),
    Addition("space", "crawl space under it", "spaces", "CS", {"use": "crawl space", "rooms above": "[{id}]"}, ("area",)),
    Addition("space", "vents", "attics", "AT", {"space": "{id}"}, ("area", "height", "vented")),
    Addition("door|window", "header", "members", "HD", {"role": "header", "openings": "[{id}]"}, ("size", "plies", "span")),
    Addition("wall", "beam in its place", "members", "B", {"role": "beam", "wall": "{id}"}, ("size", "plies", "span")),
    *(Addition("space", told, "members", letters, {"role": role, "spaces": "[{id}]"}, ("size", "plies", "span"))
      for told, (role, letters) in _FRAMING.items()),
    Addition("space", "ledger", "ledgers", "LG", {"spaces": "[{id}]"}, ("joists", "joist span")),
    Addition("space", "joint of its roof with the old one", "roof frames", "RF", {"spaces": "[{id}]"}, ("meets old",)),
    Addition("floor", "floor undersides", "floor undersides", "UF", {}, ("joists", "joist depth", "below")),
    Addition("footing", "termite protection", "termite protections", "TP", {}, ("method",)),
    Addition("project", "flashing at (.*)", "flashings", "FL", {"where": "{0}"}, ("drawn", "membrane")),
    Addition("door|window", "braced wall line", "braced lines", "BL", {"openings": "[{id}]"},
             ("method", "length", "wall height")),
    Addition("wall", "braced wall line", "braced lines", "BL", {"walls": "[{id}]"}, ("method", "length", "wall height")),
)  # fmt: skip


def addition_for(kind: str, key: str) -> tuple[Addition, tuple[str, ...]] | None:
    """Return the part to add for the need `key` of a part of `kind`, and what the key names of it."""
    for addition in ADDITIONS:
        named = re.fullmatch(addition.key, key)
        if named and re.fullmatch(addition.kind, kind):
            return addition, named.groups()
    return None


def free_id(project: Project, letters: str) -> str:
    """Return the first id of `letters` and a number that no part has."""
    return next(name for n in range(1, len(project.by_id) + 2) if (name := f"{letters}{n}") not in project.by_id)


class Choice(NamedTuple):
    """A part that can be named in answer, and what is then written where."""

    name: str
    path: tuple[str | int, ...]
    value: str


def choices_for(project: Project, record: Record, key: str) -> Iterator[Choice]:
    """Yield the parts one of which answers the need `key` of `record`."""
    if record.kind == "project" and key == "required egress door":
        house = House(project)
        for index, door in enumerate(project.doors):
            if not door.is_removed and is_exit(door, house):
                yield Choice(door.id, ("doors", index, "required egress"), "yes")
    if key == "braced wall line" and isinstance(record, Part):
        field = "walls" if record.kind == "wall" else "openings"
        for index, line in enumerate(project.braced_lines):
            path = ("braced lines", index, field, len(getattr(line, field)))
            yield Choice(line.id, path, record.id)


SPACE = "SPACE"  # what stands for the id of a space that the reader puts in
BY_HAND = (
    ("what work is proposed", """
work: [garage to room, bath]"""),
    ("(site plan|floor plan|existing floor plan|elevations|section|cover sheet|framing plan)", """
sheets:
  - {id: A1, phase: new, title: {0}, scale: 1/4 in per ft}"""),
    ("permits of the trades", """
submittal:
  permits: [building, electrical, plumbing, mechanical]"""),
    ("what it was before.*", """
    was: bedroom"""),
    ("what becomes of the overhead door", """
doors:
  - {id: D-overhead, phase: removed, operation: vehicle, between: [{id}, outside]}"""),
    ("what becomes of the water heater.*", """
appliances:
  - {id: WH1, phase: removed, what: water heater, space: {id}}
not in this job:  # where none stood there
  - {what: "what becomes of the water heater, furnace and laundry", why: none stands there}"""),
    ("covered area.*", """
covered areas:
  - {id: C-house, phase: existing, what: house, area: 1400 sq ft}
  - {id: C-new, phase: new, what: addition, area: 320 sq ft}"""),
    ("parking stalls before and after", """
parking stalls:
  - {id: PS1, phase: removed, enclosed: yes, covered: yes, width: 9 ft, length: 18 ft}
  - {id: PS2, phase: new, enclosed: no, covered: no, width: 9 ft, length: 18 ft}"""),
    ("required egress door", """
doors:
  - {id: D1, phase: existing, between: [SPACE, outside], operation: side-hinged, required egress: yes}"""),
    ("inspections", """
submittal:
  inspections: [footing, framing, final]"""),
    (r"(permit|approved drawings)", """
submittal:
  on site: [permit, approved drawings]"""),
    ("test of (gas|water|drain) piping", """
submittal:
  tests:
    - {of: {0} piping, pressure: 50 psi, minutes: 15}"""),
    ("walls to the outside, with what they stand on", """
walls:
  - {id: W-outside, phase: new, between: [{id}, outside], footing: F-outside}
footings:
  - {id: F-outside, phase: new, form: continuous, width: 16 in, thickness: 8 in, below grade: 42 in}"""),
    ("distances to the lot lines", """
lot lines:
  - {id: L-west, phase: existing, side: side, beyond: lot}
setbacks:
  - {id: SB-west, phase: new, of: {id}, line: L-west, distance: 7'-6", overhang: 12 in}"""),
    (r"(?:wall rating|rated from both sides).*lot line ([^)]*)\)", """
setbacks:
  - {id: SB-rated, phase: new, of: {id}, line: {0}, distance: 4 ft, wall rating: 60 min, rated from both sides: yes}"""),
    ("finish on the side of (.*)", """
    faces:
      - {side: {0}, layers: [5/8 in Type X gypsum]}"""),
    ("finish inside its walls", """
walls:
  - {id: W-inside, phase: existing, between: [{id}, outside], faces: [{side: {id}, layers: [1/2 in gypsum]}]}"""),
    ("footing under each new outside or bearing wall|the other outside walls.*", """
walls:
  - {id: W1, phase: new, between: [{id}, outside], footing: F1}
footings:
  - {id: F1, phase: new, form: continuous, width: 16 in, thickness: 8 in, below grade: 42 in}"""),
    ("footing under each post", """
members:
  - {id: P1, phase: new, role: post, size: 6x6, at: [0 in, 12 ft], bears on: [{on: F1}]}
footings:
  - {id: F1, phase: new, form: isolated, width: 18 in, thickness: 10 in, below grade: 42 in}"""),
    ("footing under the wall that closes the overhead door", """
walls:
  - {id: W1, phase: new, between: [SPACE, outside], footing: F1}
footings:
  - {id: F1, phase: new, form: continuous, width: 16 in, thickness: 8 in, below grade: 42 in}"""),
    (r"new footing \(.*\)|footing", """
members:
  - {id: P1, phase: new, role: post, size: 6x6, bears on: [{on: F1}]}
footings:
  - {id: F1, phase: new, form: isolated, width: 18 in, thickness: 10 in, below grade: 42 in}"""),
    ("form, width and depth as found.*", """
footings:
  - {id: F1, phase: existing, form: continuous, width: 16 in, below grade: 30 in}"""),
    (r"floor \(slab or joists\)", """
slabs:
  - {id: SL1, phase: new, space: SPACE, thickness: 4 in}"""),
    (r"existing slab \(.*\)", """
slabs:
  - {id: SL1, phase: existing, space: SPACE, thickness: 4 in}"""),
    ("foundation walls, which its outside walls name.*", """
foundation walls:
  - {id: FW1, phase: new, footing: F1, fill held: 30 in}
footings:
  - {id: F1, phase: new, form: continuous, width: 16 in, thickness: 8 in, below grade: 42 in}"""),
    ("soil.*", """
    soil: clay
    soil bearing: 1500 psf"""),
    ("openings to outdoors", """
combustion air:
  - id: AIR1
    space: {id}
    source: outdoors
    openings:
      - {to: outdoors, by: direct, area: 50 sq in, cover: metal louver, free area: 37 sq in, from top: 10 in}
      - {to: outdoors, by: direct, area: 50 sq in, cover: metal louver, free area: 37 sq in, from floor: 10 in}"""),
    ("(supply|return) air", """
heating:
  - {id: HT1, phase: altered, serves: [{id}], forced air: yes, supply in: [{id}], return from: [{id}]}"""),
    ("insulation of the walls, ceiling and floor, with R-values", """
assemblies:
  - {id: EN1, phase: new, what: wall, space: SPACE, cavity r: R-20}
  - {id: EN2, phase: new, what: ceiling, space: SPACE, cavity r: R-49}
  - {id: EN3, phase: new, what: floor, space: SPACE, cavity r: R-30}"""),
    ("how the new rooms are heated and cooled", """
heating:
  - {id: HT1, phase: new, serves: [SPACE], permanent: yes, room temperature kept: yes, forced air: no}"""),
    ("drains, traps and vents of the new fixtures|hot and cold water to the new fixtures", """
pipes:
  - {id: PI1, phase: new, what: drain, serves: [SPACE], size: 3 in, slope: 1/4 in per ft}
  - {id: PI2, phase: new, what: vent, serves: [SPACE], size: 2 in}
  - {id: PI3, phase: new, what: cold water, serves: [SPACE]}
  - {id: PI4, phase: new, what: hot water, serves: [SPACE]}"""),
    ("receptacles, lights and switches of the new rooms", """
receptacles:
  - {id: R1, phase: new, space: SPACE}
lights:
  - {id: LT1, phase: new, space: SPACE, wall switch: yes, switched at: [SPACE]}"""),
    ("circuits, with their AFCI and GFCI protection", """
circuits:
  - {id: CI1, phase: new, serves: [SPACE], amps: 15, afci: yes}"""),
    ("size of the service, with a load calculation", """
services:
  - {id: SV1, phase: existing, amps: 150, calculated load: 112}"""),
    ("where the equipment stands.*|(?:furnace|indoor unit).*", """
appliances:
  - {id: AP1, phase: new, what: mini-split, space: SPACE, disconnect in sight: yes, condensate drains to: outdoors}"""),
    ("number of easements on record.*", """
lot:
  easements on record: 0"""),
    ("building value.*", """
lot:
  building value: 300000"""),
    ("sprinklers of the dwelling", """
dwelling:
  sprinklered: no"""),
    ("outdoor receptacle at the (.*)", """
receptacles:
  - {id: R-outdoors, phase: new, space: SPACE, serves: outdoors, side: {0}}"""),
    ("the (rooms|doors|windows)", """
    drawn: [{0}]"""),
    ("the (stairs|alarms|lights|receptacles|fixtures|appliances|exhausts|panels|members)", "\n    to draw: []"),
    ("stair or ramp", """
stairs:
  - {id: S-up, phase: new, between: [SPACE, SPACE], risers: 14, total rise: 8'-9"}"""),
)  # fmt: skip
"""Lines that show the form of what is to add where no single answer gives it. The values are examples."""
CRITERIA = (
    ("ground snow load", "30 psf"), ("ultimate.*wind speed", "115 mph"), ("wind exposure", "B"),
    ("seismic design category", "B"), ("frost line", "36 in"), ("weathering", "severe"),
    ("termite infestation", "moderate to heavy"),
)  # fmt: skip
_NAMES = {"ultimate.*wind speed": "ultimate wind speed", "frost line": "frost depth", "termite infestation": "termites"}


def lines_for(need: Need, owner: str, plain: str) -> tuple[str, list[str]]:
    """Return where lines are to be added, and an example of them; no lines where none is known.

    `owner` is the id of the part that lacks them, and `plain` the key without the marks that tell it.
    """
    for pattern, value in CRITERIA:
        if "ruleset" in need.owner and re.search(pattern, need.key):
            told = f"  {_NAMES.get(pattern, pattern)}: {value}"
            return "in the ruleset of the jurisdiction", ["design criteria:", told]
    for pattern, text in BY_HAND:
        if named := re.fullmatch(pattern, plain) or re.fullmatch(pattern, need.key):
            lines = text.replace("{id}", owner).replace("{0}", named[1] if named.groups() else "").strip("\n")
            where = "at the part itself" if lines.startswith(" ") else "in the project file"
            return where, lines.split("\n")
    return "", []
