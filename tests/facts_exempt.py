"""Facts that a rule may pass without, or fall silent without, where nothing asks for them: what they are, and why."""

from __future__ import annotations

PASSES = {
    ("alarms.smoke-from-bath-door", "doors.unit size"): "where the door ends is not drawn, and what is stated of the alarm is left",
    ("anchorage.bolts", "walls.sill plates.length"): "bolts are held to their number and to their spacing; one is left",
    ("attic-ventilation.net-free-area", "attics.space"): "the area stated of the attic is left, where the larger one judges",
    ("attic-ventilation.net-free-area", "spaces.area"): "likewise",
    ("ceilings.sloped", "spaces.open to below"): "a floor has an opening where one is drawn",
    ("doors.egress-door-route", "doors.opens to"): "an old door is not asked where it leads",
    ("doors.way-out", "doors.required egress"): "which door is the required one is asked where the work changes a way out",
    ("electrical.basin-receptacle", "receptacles.serves"): "one that serves nothing special is a common one",
    ("electrical.wall-receptacles", "doors.unit size"): "a door of no width is not drawn, and what is stated of the wall is left",
    ("electrical.wall-receptacles", "receptacles.serves"): "one that serves nothing special is a common one",
    ("electrical.wall-receptacles", "receptacles.switched in place of light"): "one that is not said to be switched is live",
    ("energy.insulation", "assemblies.layers"): "the R-value stated of the assembly is left, where the lower one judges",
    ("escape.way-out", "spaces.story"): "decks of another story count where they are drawn as on one",
    ("escape.way-out", "windows.looks under"): "where it opens to is left; what it looks under is held against that",
    ("existing.no-less-safe", "doors.required egress"): "a door that is not said to be the required one is one of several",
    ("existing.no-less-safe", "spaces.unit"): "a house that names no units is one",
    ("foundations.footing-depth", "spaces.rooms beside"): "what is said of it is left: a building that stands alone",
    ("foundations.footing-table", "veneers.spaces"): "what is said to stand on it is left; a veneer over it is drawn",
    ("framing.deflection", "members.carries.masonry veneer"): "a load is of masonry veneer where it is said",
    ("framing.deflection", "members.overhang"): "a member runs past its support where that is drawn",
    ("framing.footing-load-agrees", "members.plies"): "one piece, where no other number is given",
    ("framing.made-product", "members.plies"): "likewise",
    ("framing.post-strength", "footings.outdoors"): "the post itself says whether it is wet",
    ("framing.post-strength", "members.bears on.off center"): "a load lands on the middle of a post, or is drawn beside it",
    ("framing.strength", "members.measured"): "a nominal size is the dressed one, where no other was measured",
    ("framing.strength", "members.overhang"): "a member runs past its support where that is drawn",
    ("glazing.door", "doors.panes.safety glazing"): "what is said of the whole door is left",
    ("glazing.large-pane", "windows.panes.safety glazing"): "what is said of the whole window is left",
    ("glazing.marking", "windows.panes.marked"): "likewise",
    ("handrails.where", "stairs.flights.rails"): "the handrails drawn are left, where the smaller number judges",
    ("light-and-air.bathroom", "windows.looks under"): "a window looks out to the open, or under what is drawn before it",
    ("light-and-air.glazing", "windows.looks under"): "a window looks out to the open, or under what is drawn before it",
    ("light-and-air.glazing", "windows.opens to"): "likewise",
    ("light-and-air.openable", "windows.looks under"): "likewise",
    ("package.sheets", "sheets.phase"): "a sheet that is listed is in the set",
    ("rooms.area", "spaces.ceiling.drops"): "a duct hangs under a ceiling where it is drawn",
    ("rooms.area", "spaces.open to below"): "a floor has an opening where one is drawn",
    ("special-stairs.spiral-riser", "stairs.flights.riser heights"): "rise over risers is left, where the tallest riser judges",
    ("stairs.landings", "doors.swings into"): "what the plans say of the door is left; drawn otherwise, that judges",
    ("stairs.riser-height", "stairs.flights.riser heights"): "rise over risers is left, where the tallest riser judges",
    ("ventilation.combustion-volume", "appliances.input"): "the input stated is left, where the larger one judges",
    ("ventilation.combustion-volume", "combustion air.input"): "the input of the appliances is left, likewise",
    ("ventilation.combustion-volume", "combustion air.joined"): "rooms are joined where that is drawn",
    ("ventilation.combustion-volume", "combustion air.volume"): "the volume drawn is left, where the smaller one judges",
    ("ventilation.combustion-volume", "spaces.area"): "the volume stated is left, likewise",
    ("ventilation.combustion-volume", "spaces.ceiling.height"): "likewise",
    ("ventilation.range-hood", "appliances.natural draft"): "what is said of the whole house is left",
    ("walls.studs", "braced lines.walls"): "a wall braces where a braced line names it",
    ("zoning.yard-wall", "yard walls.in easements"): "that it is clear of every easement is left, which the plans say as well",
}  # fmt: skip
"""Rules that pass without a fact, and why that is no false pass."""

SILENT = {
    ("energy.air-leakage", "air tightness.air changes at 50 pa"): "many offices take an inspection in place of the test",
    ("plan.infill-fits", "doors.unit size"): "without it nothing is left that is too wide for the wall",
    ("plan.infill-fits", "walls.opening filled"): "likewise: the wall closes nothing, and the opening asks for what does",
    ("plan.story-drawn", "stories.drawn"): "a story that does not say how far it is drawn is drawn",
    ("energy.vapor-retarder", "assemblies.vapor retarder"): "none is asked in mild zones, and one that is there is judged",
    ("escape.clear-opening-possible", "doors.unit size"): "what the unit can open to is compared where it is given",
    ("escape.clear-opening-possible", "windows.unit size"): "likewise",
    ("fire-separation.openings", "setbacks.openings"): "an old wall is asked where openings are new",
    ("foundations.above-street", "foundation walls.top above gutter"): "compared where it is given: many lots drain by nature",
    ("foundations.footing-load", "footings.load"): "without a form and a load it is the footing of a wall",
    ("framing.cantilever", "members.overhang"): "a member runs past its support where that is drawn",
    ("framing.hold-down", "members.overhang"): "likewise",
    ("framing.span-agrees", "members.span"): "one of two spans is left, so that none conflicts",
    ("framing.span-agrees", "members.spans"): "the line is left, which is the span then",
    ("glazing.beside-door", "doors.unit size"): "where the door ends is not drawn, and what is stated of the glass is left",
    ("light-and-air.areas-agree", "windows.glazed area"): "without it no area is left that is too large for the unit",
    ("light-and-air.areas-agree", "windows.openable area"): "likewise",
    ("light-and-air.areas-agree", "windows.unit size"): "without it no unit is left that is too small for the area",
    ("loads.dead", "members.carries.dead"): "the layers are left, so that there are no two to compare",
    ("loads.live", "members.carries.live"): "the load of the use is taken in its place",
    ("plan.floor-levels-agree", "floors.base level"): "one of two levels is left, so that none conflicts",
    ("plan.floor-levels-agree", "floors.finished level"): "likewise",
    ("stairs.landing-slope", "stairs.landings.slope"): "a landing is level where no slope is drawn",
    ("stairs.run-fits", "stairs.flights.run available"): "the room there is for a stair is compared where it is given",
    ("stairs.width-at-rails", "stairs.flights.width below rail"): "compared where a rail is drawn that narrows the stair",
    ("walls.stud-grade", "walls.framing.grade"): "a partition that bears nothing takes any grade, and a low one is judged",
    ("walls.uplift", "walls.framing.uplift.net uplift per foot"): "in little wind none is worked out; what is stated is judged",
    ("zoning.stall-fits", "parking stalls.length"): "a stall is compared with the garage where its size is given",
    ("zoning.stall-fits", "parking stalls.width"): "likewise",
}  # fmt: skip
"""Rules that fall silent without a fact, beyond the kinds of fact below, and why a reviewer would not ask."""

PLACES = frozenset(("rectangle", "outline", "middle", "at", "windows.on"))
"""Where a thing is in plan. What is not drawn in plan goes by what is stated of it, and a plan can only add to that."""

MAKES_THE_SUBJECT = {
    "what is being done": (
        "phase", "was", "issued on", "started on", "finished since built", "existing layers", "load added", "addition",
    ),
    "what it is": (
        "form", "what", "use", "material", "operation", "stud", "knee wall", "wet area", "habitable attic", "has bars",
        "through", "glass", "carries", "end conditions", "over", "reinforced", "open risers", "natural draft",
        "fuel", "fuel burning appliance", "damp location", "flood hazard area", "sprinklered", "concealed in framing",
    ),
    "where it is, and of what it is a part": (
        "space", "spaces", "in", "on", "unit", "floor", "story", "level", "base", "walls", "footing", "member", "rafters",
        "from", "to", "row to", "from stud edge", "to sink", "to tub or shower", "rooms above", "rooms beside",
    ),
    "what it serves, leads to or does": (
        "required egress", "opens to", "looks under", "open to", "joined", "serves", "serves as handrail", "reached by",
        "detects", "listed to", "below grade",
    ),
}  # fmt: skip
"""Facts that make a thing one that a requirement is for. Without them it is another thing, and other rules ask what it is."""


def is_exempt(rule: str, fact: str) -> bool:
    """Return whether `rule` may pass without `fact`: one of the list, or what holds it or is part of it."""
    named = [one for of, one in PASSES if of == rule]
    listed = any(f"{fact}.".startswith(f"{one}.") or one.startswith(f"{fact}.") for one in named)
    return listed or fact in PLACES or fact.rpartition(".")[2] in PLACES


def makes_the_subject(rule: str, fact: str) -> bool:
    """Return whether `rule` may fall silent without `fact`, which made the part one of those that it is for."""
    key = fact.rpartition(".")[2]
    return key in PLACES or any(key in keys for keys in MAKES_THE_SUBJECT.values()) or (rule, fact) in SILENT
