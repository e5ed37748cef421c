"""What a value is, for a person who builds: what it is called, how it is measured, what is usual, and which picture shows it.

`usual` is what one commonly finds, to tell a slip of the pen; it is no limit. A value that stands here under no kind is
called as a plan reviewer asks for it.
"""

from __future__ import annotations

from typing import NamedTuple

from precheck.checks.outcome import capital
from precheck.reports.asked_as import phrase_of


class Measured(NamedTuple):
    """One value in words; `picture` names a drawing of the page, where something is measured that a word does not show."""

    label: str
    how: str = ""
    usual: str = ""
    picture: str = ""

    @property
    def example(self) -> str:
        """What one may type, with its unit: the last of what is usual; nothing where nothing is said of it."""
        return self.usual.rpartition(" to ")[2].rpartition(" or ")[2]


_PHASE = Measured("Is it there today?")
_SIZE = Measured("Size: width x height", "As on the schedule or the sticker; 3068 is 3'-0\" x 6'-8\".", "", "opening")
_U = Measured("U-factor", "On the label of the product: the lower, the less heat goes through.", "U-0.25 to U-0.40")
_PLIES = Measured("How many plies", "Pieces nailed side by side: a double 2x10 has 2.", "1 to 3")
_SPAN = Measured("Span", "Between the faces of its supports.", "", "span")
_MEMBER = Measured("Size", "As lumber is called, such as 2x10, or the maker's size.", "2x6 to 2x12", "span")

MEASURED: dict[str, Measured] = {
    "phase": _PHASE,
    "space.name": Measured("Name", "As the plans call it."),
    "space.use": Measured("Used as"),
    "space.was": Measured("What it was before"),
    "space.story": Measured("Story"),
    "space.floor": Measured("Which floor it has"),
    "ceiling.height": Measured("Ceiling height", "Finished floor to finished ceiling.", "7'-6\" to 9 ft", "ceiling"),
    "space.area": Measured("Floor area", "Between the finished walls. Drawing the room gives it."),
    "space.open to below": Measured(
        "Open to below", "What of it has no floor: a stairwell, or a view into the room below."
    ),
    "space.least width": Measured(
        "Smallest width", "Between finished walls, at the narrowest. Drawing the room gives it."
    ),
    "space.farthest wall from receptacle": Measured(
        "Farthest spot from an outlet",
        "Along the wall, from an outlet to the spot on the floor line that is farthest from any.",
        "",
        "receptacle",
    ),
    "space.drop at edge": Measured("Drop at its edge", "From the walking surface down to the ground.", "", "drop"),
    "space.open sides": Measured("How many sides are open"),
    "space.floor surface": Measured("Floor surface", "What one walks or parks on, such as concrete."),
    "space.enclosed by roof": Measured("Lies wholly under the roof slopes"),
    "space.beyond walls below": Measured("Reaches beyond the walls below"),
    "floor fall.toward": Measured("Falls toward"),
    "floor fall.slope": Measured("How steeply", "", "1/8 to 1/4 in per ft"),
    "window.operation": Measured("How it opens"),
    "window.unit size": _SIZE,
    "window.sill height": Measured(
        "Sill height", "Finished floor up to the bottom of the clear opening.", "24 to 44 in", "sill"
    ),
    "window.sill above grade": Measured(
        "Sill above the ground outside", "From the ground outside up to the bottom of the clear opening.", "", "grade"
    ),
    "window.net clear opening": Measured(
        "Clear opening: width x height",
        "What one can climb through with the sash open; the maker's sheet has it.",
        "",
        "clear",
    ),
    "window.net clear area": Measured(
        "Clear area", "Of the opening with the sash open; the maker's sheet has it.", "5 to 7 sq ft", "clear"
    ),
    "window.glazed area": Measured("Area of the glass", "Without the frame; the maker's sheet has it.", "", "glass"),
    "window.openable area": Measured("Area that opens", "Of the whole window, what the sash leaves open.", "", "clear"),
    "window.opens to": Measured("What lies outside it", "A yard, a street, a court, or something roofed."),
    "window.opens without key": Measured("Opens from inside without a key or tool"),
    "window.u factor": _U,
    "window.shgc": Measured("Solar heat gain (SHGC)", "On the label of the product.", "0.20 to 0.40"),
    "window.space": Measured("Room"),
    "door.operation": Measured("What kind of door"),
    "door.unit size": _SIZE,
    "door.between": Measured("Between which rooms", "The two rooms, or a room and outside."),
    "door.swings into": Measured("Swings into"),
    "door.construction": Measured("What it is made of"),
    "door.thickness": Measured("Thickness", "", "1 3/8 to 1 3/4 in"),
    "door.fire rating": Measured(
        "Fire rating", "On the label at its hinge edge; none where there is no label.", "20 min"
    ),
    "door.self closing": Measured("Closes by itself"),
    "door.required egress": Measured("Is it the way out of the house"),
    "door.glazed area": Measured("Area of the glass", "Without the frame.", "", "glass"),
    "door.clear width": Measured(
        "Clear width", "From the stop to the face of the door, open at a right angle.", "31 to 34 in", "opening"
    ),
    "door.u factor": _U,
    "door.shgc": Measured("Solar heat gain (SHGC)", "On the label of the product.", "0.20 to 0.40"),
    "door.glazed": Measured("Does it have glass?"),
    "landing.side": Measured("On which side of the door"),
    "landing.depth": Measured("Depth", "Away from the door.", "36 to 60 in"),
    "landing.width": Measured("Width", "Along the wall.", "36 to 72 in"),
    "landing.slope": Measured("How steeply it falls", "", "1/8 to 1/4 in per ft"),
    "landing.level": Measured(
        "Its level",
        "Above the finished floor of the house; with a minus where it lies below.",
        "-7 in to 0 in",
        "level",
    ),
    "setback.distance": Measured("Distance to the lot line", "From the wall or post, square to the line."),
    "setback.overhang": Measured("Roof overhang", "From the wall to the edge of the eaves.", "6 to 24 in"),
    "lot line.side": Measured("Which side of the lot"),
    "lot line.beyond": Measured("What lies beyond it"),
    "roof frame.meets old": Measured("How its roof meets the old one"),
    "floor.finished level": Measured(
        "Level of its finish",
        "Above the finished floor of the house; with a minus where it lies below.",
        "-8 in to 0 in",
        "level",
    ),
    "floor.base level": Measured(
        "Level of the slab or joists",
        "Their top, above the finished floor of the house; with a minus where it lies below.",
        "-24 in to 0 in",
        "level",
    ),
    "floor.base": Measured("Slab or joists"),
    "floor.layers": Measured("What lies on it", "From the slab or joists up, such as 3/4 in plywood, 3/8 in oak."),
    "light.form": Measured("Kind of light"),
    "light.wall switch": Measured("Has a wall switch"),
    "light.switched at": Measured("Where its switch is"),
    "light.space": Measured("Room"),
    "receptacle.at": Measured("Where it is", "Or leave it, and put it on the plan with the tool Receptacle."),
    "receptacle.height": Measured("Height above the floor", "To its middle.", "12 to 48 in", "receptacle"),
    "receptacle.tamper resistant": Measured("Tamper-resistant"),
    "receptacle.to basin": Measured("From the basin", "From its outside edge.", "up to 36 in"),
    "receptacle.gfci": Measured("GFCI protected"),
    "alarm.space": Measured("Room where it hangs"),
    "alarm.detects": Measured("What it detects"),
    "alarm.serves": Measured("For which bedrooms", "Only where the drawn doors do not show it."),
    "alarm.interconnected": Measured("When one sounds, all sound"),
    "alarm.power": Measured("Power"),
    "heating.permanent": Measured("Built in", "Not a heater with a plug."),
    "heating.room temperature kept": Measured("Keeps the room as warm as the code asks"),
    "slab.thickness": Measured("Thickness", "", "3 1/2 to 5 in", "slab"),
    "slab.below grade": Measured("Lies below the ground outside"),
    "assembly.cavity r": Measured("R-value between the framing", "Printed on the batts.", "R-13 to R-49"),
    "assembly.continuous r": Measured(
        "R-value over the framing", "Of boards without a break; leave it empty where there are none.", "R-5 to R-15"
    ),
    "assembly.u factor": Measured("U-factor of the whole", "Only where someone has worked it out."),
    "slab edge.r value": Measured("R-value", "", "R-5 to R-10", "slab edge"),
    "slab edge.depth": Measured("How far down or in", "From the top of the slab.", "2 to 4 ft", "slab edge"),
    "slab edge.below grade": Measured("Lies below the ground outside"),
    "cladding.what": Measured("Cladding"),
    "cladding.water resistive barrier": Measured("Weather barrier behind it"),
    "circuit.amps": Measured("Breaker", "In amps.", "15 or 20"),
    "circuit.afci": Measured("AFCI protected"),
    "circuit.serves": Measured("Rooms on it"),
    "member.size": _MEMBER,
    "member.plies": _PLIES,
    "member.span": _SPAN,
    "member.at": Measured("Where it stands", "From the west and the south of the plan's zero, such as 0 in, 12 ft."),
    "footing.form": Measured("Under a wall or a post", "continuous: under a wall; isolated: under a post."),
    "footing.width": Measured("Width", "", "12 to 24 in", "footing"),
    "footing.thickness": Measured("Thickness", "", "6 to 12 in", "footing"),
    "footing.below grade": Measured(
        "Depth of its bottom", "From the finished ground down to its underside.", "12 to 60 in", "footing"
    ),
    "stair.between": Measured("From which room to which", "The lower one first."),
    "stair.total rise": Measured("Total rise", "Finished floor to finished floor.", "8 to 10 ft", "stair"),
    "stair.risers": Measured("How many risers", "Count the steps up, the last onto the floor.", "13 to 16", "stair"),
    "stair.width": Measured("Clear width", "Between the walls, above the handrails.", "34 to 42 in", "stair"),
    "stair.headroom": Measured(
        "Headroom", "Plumb, from the line of the nosings to what is above, at the lowest.", "78 to 90 in", "headroom"
    ),
    "flight.riser": Measured("Riser", "From tread to tread.", "7 to 7 3/4 in", "stair"),
    "flight.tread": Measured("Tread", "From nosing to nosing, level.", "10 to 11 in", "stair"),
    "wall.between": Measured("Between which rooms", "The two rooms, or a room and outside."),
    "wall.layers": Measured(
        "What it is built of", "From the first room through, such as 1/2 in gypsum, 2x4 studs, 5/8 in Type X gypsum."
    ),
    "wall.story": Measured("Story"),
    "wall.from": Measured("Where it begins", "From the west and the south of the plan's zero."),
    "sheet.title": Measured("Title of the sheet"),
    "sheet.scale": Measured("Scale", "As written on the drawing.", "1/4 in per ft"),
    "dwelling.fuel burning appliance": Measured(
        "Does anything in the house burn gas, oil or wood?", "A furnace, water heater, range, fireplace."
    ),
    "dwelling.sprinklered": Measured("Does the house have fire sprinklers?"),
    "dwelling.year built": Measured("Year the house was built"),
    "lot.flood hazard area": Measured("Is the lot in a flood hazard area?", "The town's flood map says so."),
    "lot.easements on record": Measured(
        "How many easements are on record?", "The deed or title report lists them; 0 where there are none."
    ),
    "exhaust.flow": Measured("Air flow", "On its label.", "50 to 110 cfm"),
    "exhaust.runs": Measured("Runs", "When it is switched on, or all the time."),
    "exhaust.discharges to": Measured("Blows out to"),
    "fixture.to wall": Measured("From its middle to the wall beside it", "", "15 to 18 in", "fixture"),
    "fixture.clear in front": Measured("Clear floor in front", "", "21 to 30 in", "fixture"),
    "roof.covering": Measured("Roof covering"),
    "roof.slope": Measured("Slope", "Inches up in 12 across.", "3:12 to 8:12"),
    "deck ledger.joists": Measured("Size of the joists", "", "2x8 or 2x10"),
    "deck ledger.joist span": Measured("Span of the joists", "From the ledger to the beam.", "6 to 14 ft", "span"),
    "parking stall.width": Measured("Width", "", "8'-6\" to 10 ft"),
    "parking stall.length": Measured("Length", "", "18 to 20 ft"),
    "parking stall.covered": Measured("Under a roof"),
    "parking stall.enclosed": Measured("In a garage"),
    "appliance.what": Measured("Which appliance"),
    "appliance.fuel": Measured("What it runs on"),
    "attic.area": Measured("Area of the attic"),
    "attic.vented": Measured("Vented"),
    "braced wall line.method": Measured("How it is braced"),
    "braced wall line.length": Measured("Length of the wall line"),
    "braced wall line.wall height": Measured("Height of the wall", "Bottom plate to top plate.", "8 to 9 ft"),
    "submittal.permits": Measured(
        "Permits asked for", "With commas between: building, electrical, plumbing, mechanical."
    ),
}
CHOICES = {
    "existing": "existing: there today, stays",
    "altered": "altered: there today, changed",
    "removed": "removed: there today, goes",
    "LIB": "let-in brace (LIB)",
    "DWB": "diagonal wood boards (DWB)",
    "WSP": "plywood or OSB panels (WSP)",
    "SFB": "structural fiberboard (SFB)",
    "GB": "gypsum board (GB)",
    "PBS": "particleboard (PBS)",
    "PCP": "cement plaster (PCP)",
    "HPS": "hardboard panel siding (HPS)",
    "CS-WSP": "plywood or OSB over the whole wall (CS-WSP)",
    "CS-SFB": "structural fiberboard over the whole wall (CS-SFB)",
}
"""Words to choose from that say too little by themselves."""
PICTURES = frozenset(one.picture for one in MEASURED.values() if one.picture)


def measured(kind: str, key: str) -> Measured:
    """Return a value of a kind of record in words; only its key where nothing more is known of it."""
    found = MEASURED.get(f"{kind}.{key}") or MEASURED.get(key)
    return found or Measured(capital(phrase_of(kind, key) or key))
