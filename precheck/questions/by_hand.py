"""Needs that no single answer meets: lines that show the form of what is to add."""

from __future__ import annotations

import re

from precheck.files.missing import Need

SPACE = "SPACE"  # what stands for the id of a space that the reader puts in
BY_HAND = (
    ("what work is proposed", """
work: [garage to room, bath]"""),
    ("(site plan|floor plan|foundation plan|existing floor plan|elevations|section|cover sheet|framing plan)", """
sheets:
  - {id: A1, phase: new, title: {0}, scale: 1/4 in per ft}"""),
    ("permits of the trades", """
submittal:
  permits: [building, electrical, plumbing, mechanical]"""),
    ("what it was before.*", """
    was: bedroom"""),
    ("what becomes of the overhead door|what stays a garage beside it, or the overhead door .*", """
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
    ("(?:posts and )?footings? under (?:each post|the beam|its beam)", """
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
    ("(?:pressure-treated )?sill plate of the wall that closes it.*|wall that closes the opening", """
doors:
  - {id: D1, phase: removed, operation: vehicle, between: [SPACE, outside]}
walls:
  - {id: W1, phase: new, opening filled: D1, between: [SPACE, outside]}"""),
    ("carried load of the wall, and the beam in its place", """
walls:
  - {id: W1, phase: removed, between: [SPACE, SPACE]}
members:
  - {id: B1, phase: new, role: beam, wall: W1, size: 2x12, plies: 3, span: 12 ft}"""),
    ("posts and beams", """
members:
  - {id: P1, phase: new, role: post, spaces: [SPACE], size: 6x6, at: [0 in, 12 ft]}
  - {id: B1, phase: new, role: beam, spaces: [SPACE], size: 2x10, plies: 2, span: 8 ft}"""),
    ("floor joists, or a slab", """
members:
  - {id: FJ1, phase: new, role: floor joist, spaces: [SPACE], size: 2x10, spacing: 16 in, span: 12 ft}
slabs:
  - {id: SL1, phase: new, space: SPACE, thickness: 4 in}"""),
    ("drop at edge, and the guard where it is due", """
spaces:
  - {id: S1, phase: new, use: deck, drop at edge: 34 in}
guards:
  - {id: G1, phase: new, along: S1, height: 36 in}"""),
    ("framing of the opening for the stair", """
stairs:
  - {id: S1, phase: new, between: [SPACE, SPACE], risers: 14, total rise: 8'-9"}
framed openings:
  - {id: FO1, phase: new, through: floor, header span: 4 ft, header plies: 2, trimmer plies: 2}"""),
    ("treated posts and framing", """
woods:
  - {id: WD1, phase: new, space: SPACE, where: post base, treated: yes}
  - {id: WD2, phase: new, space: SPACE, where: outdoor support, treated: yes}"""),
    ("storage load that it carries", """
    carries:
      - {use: attic with limited storage}"""),
    ("bottom above the walking surface of (?:stair|ramp) (.*)", """
    beside stairs:
      - {stair: {0}, where: flight, distance: 30 in, bottom above: 40 in}"""),
    ("tub or shower near it, or safety glazing", """
    safety glazing: yes"""),
    ("bears on, at its .* end", """
    bears on:
      - {on: F1}"""),
    ("footing under it", """
footings:
  - {id: F1, phase: new, form: isolated, width: 18 in, thickness: 10 in, below grade: 42 in}
members:  # what is there
  - {id: {id}, bears on: [{on: F1}]}"""),
    (r"overhang(?: underside)?.*lot line ([^)]*)\)", """
setbacks:
  - {id: SB1, phase: new, of: {id}, line: {0}, distance: 4 ft, overhang: 12 in, overhang underside: fire-rated}"""),
    ("an attic over it, or `shares attic with garage` of the dwelling", """
dwelling:
  shares attic with garage: no"""),
    ("wiring, or that there is none.*", """
not in this job:  # where it gets none
  - {what: wiring, why: it has no power}
receptacles:
  - {id: R1, phase: new, space: {id}}
lights:
  - {id: LT1, phase: new, space: {id}, wall switch: yes, switched at: [{id}]}
circuits:
  - {id: CI1, phase: new, serves: [{id}], amps: 20}"""),
)  # fmt: skip
"""Lines that show the form of what is to add where no single answer gives it. The values are examples."""
CRITERIA = (
    ("ground snow load", "30 psf"), ("ultimate.*wind speed", "115 mph"), ("wind exposure", "B"),
    ("seismic design category", "B"), ("frost (?:line|depth)", "36 in"), ("weathering", "severe"),
    ("termite infestation", "moderate to heavy"), ("ice barrier underlayment", "required"),
)  # fmt: skip
_NAMES = {
    "ultimate.*wind speed": "ultimate wind speed",
    "frost (?:line|depth)": "frost depth",
    "termite infestation": "termites",
    "ice barrier underlayment": "ice barrier",
}


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
