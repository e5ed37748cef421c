"""Facts that a rule may pass without, where nothing asks for them: what they are, and why that is no false pass."""

from __future__ import annotations

DETAILS = {
    "alarms.smoke-power": ("alarms.disconnecting switch", "spaces.finishes opened"),
    "anchorage.bolt-place": ("walls.sill plates.middle third", "walls.sill plates.nuts and washers"),
    "appliances.access": ("appliances.service space",),
    "attic-ventilation.openings": ("attics.vents.distance to lot line",),
    "bracing.panel-places": ("braced lines.panels.offset",),
    "cladding.board-framing": ("boards.thickness",),
    "cladding.curing": ("pours.days before flooring",),
    "cladding.flashing": ("flashings.membrane",),
    "decay.treated-wood": ("woods.cuts treated",),
    "electrical.basin-receptacle": ("receptacles.below counter",),
    "electrical.ceiling-fan": ("lights.fan weight",),
    "electrical.outdoor-receptacles": ("receptacles.reached from grade",),
    "electrical.panel": ("panels.panel width",),
    "fireblocking.walls": ("walls.fire blocks.at soffits",),
    "foundations.footing-bed": ("footings.bottom slope", "footings.cast on frozen soil"),
    "framing.header-studs": ("members.table case",),
    "framing.landing-agrees": ("members.bears on.at",),
    "package.title-blocks": ("address", "lot", "sheets"),
    "permits.life": ("submittal.idle days",),
    "plumbing.pipes": ("pipes.concealed in framing",),
    "plumbing.shower-finish": ("fixtures.site built floor",),
    "plumbing.shower-size": ("fixtures.floor area",),
    "retaining.design": ("retaining walls",),
    "slabs.beside-old": ("slabs.covering", "slabs.tied to old slab"),
    "ventilation.dryer-makeup-air": ("dryer ducts.flow",),
    "ventilation.exhaust-outlet": ("exhausts.outlet to intake",),
}
"""Plans seldom give them, and nobody asks: they are compared where they are given, else looked at on site."""

DRAWN = {
    "access.attic-use": ("spaces.ceiling",),
    "ceilings.height": ("floors.layers",),
    "cladding.clearance": ("claddings.above paving",),
    "cladding.veneer-air-space": ("veneers.filled with mortar",),
    "cladding.veneer-ties": ("veneers.wind pressure",),
    "doors.step-down-to-vehicles": ("floors.layers",),
    "energy.hatch": ("hatches.loose fill beside",),
    "existing.no-less-safe": ("doors.required egress", "spaces.unit"),
    "existing.reads-as-bedroom": ("spaces.closet",),
    "existing.sprinklers": ("spaces.before",),
    "foundations.footing-depth": ("spaces.rooms beside",),
    "foundations.wall-design": ("foundation walls.groundwater pressure",),
    "framing.deflection": ("members.carries.masonry veneer", "members.finish", "members.overhang"),
    "framing.made-product": ("members.holes", "members.notches", "members.plies"),
    "framing.notched-end": ("members.sisters",),
    "framing.post-strength": ("footings.outdoors", "members.bears on.off center", "members.carries"),
    "framing.strength": ("members.carries", "members.measured", "members.overhang", "members.sisters"),
    "framing.truss": ("trusses.cut",),
    "roof-framing.ridge": ("roof frames.tie.member",),
    "rooms.area": ("spaces.ceiling",),
    "separation.door": ("doors.glazed",),
    "slabs.fill": ("slabs.fill",),
    "ventilation.combustion-volume": ("combustion air.joined",),
    "walls.studs": ("braced lines.walls", "walls.framing.attic above"),
    "zoning.yard-wall": ("yard walls.in easements",),
}
"""What is drawn is there, and what is not drawn is not: a hole, an overhang, paving, a load, layers on a slab.

A room that does not say what it was before is as large as it was.
"""

TWICE = {
    "anchorage.bolts": ("walls.sill plates.length",),
    "attic-ventilation.net-free-area": ("attics.space", "spaces.area"),
    "ceilings.sloped": ("spaces.ceiling.profile",),
    "doors.egress-door-size": ("doors.unit size",),
    "doors.step-at-egress-door": ("doors.landings.drop",),
    "doors.step-at-other-door": ("doors.landings.drop",),
    "electrical.wall-receptacles": ("doors.middle", "doors.unit size", "receptacles.at"),
    "energy.insulation": ("assemblies.layers",),
    "escape.way-out": ("spaces.rectangle", "spaces.story", "windows.looks under", "windows.middle"),
    "existing.changed-use": ("spaces.addition",),
    "foundations.footing-table": ("footings.soil bearing", "veneers.spaces"),
    "glazing.door": ("doors.panes",),
    "glazing.large-pane": ("windows.panes",),
    "glazing.marking": ("windows.panes",),
    "handrails.where": ("stairs.flights",),
    "light-and-air.areas-agree": ("windows.openable area",),
    "light-and-air.glazing": ("spaces.rectangle", "windows.looks under", "windows.middle"),
    "light-and-air.openable": ("windows.looks under",),
    "plan.opening-place": ("windows.middle", "windows.on"),
    "plan.stories": ("stories.elevation", "stories.level"),
    "ramps.slope": ("ramps.run",),
    "roof-framing.ridge": ("roof frames.tie.member",),
    "roof-framing.thrust": ("roof frames.tie.member",),
    "special-stairs.spiral-riser": ("stairs.flights",),
    "stairs.headroom": ("stairs.headroom",),
    "stairs.landing-size": ("stairs.flights.width",),
    "stairs.landings": ("doors.swings into",),
    "stairs.riser-height": ("stairs.flights",),
    "stairs.width": ("stairs.flights.width",),
    "ventilation.combustion-volume": ("appliances.input", "combustion air", "spaces.area", "spaces.ceiling"),
}
"""They are given in two ways, and the stricter one judges or the conflict fails; without it the other one is left."""

USUAL = {
    "doors.egress-door-route": ("doors.opens to",),
    "electrical.receptacle-kind": ("receptacles.serves",),
    "electrical.room-receptacle": ("doors.operation",),
    "electrical.wall-receptacles": ("receptacles.serves", "receptacles.switched in place of light"),
    "guards.window-device": ("windows.escape",),
    "light-and-air.glazing": ("windows.opens to",),
    "package.sheets": ("sheets.phase",),
    "rooms.story-served": ("stairs.form",),
    "separation.hatch": ("hatches.through",),
    "separation.unit-floor": ("dwelling",),
}
"""What is not said to be special is of the usual kind: a common stair, a hatch in the ceiling, a window to the open.

An old door is not asked where it leads.
"""


PLACES = frozenset(("rectangle", "outline", "middle", "at"))
"""Where a thing is in plan. What is not drawn in plan goes by what is stated of it, and a plan can only add to that."""


def is_exempt(rule: str, fact: str) -> bool:
    """Return whether `rule` may pass without `fact`: one of the list, or what holds it or is part of it."""
    named = (one for why in (DETAILS, DRAWN, TWICE, USUAL) for one in why.get(rule, ()))
    listed = any(f"{fact}.".startswith(f"{one}.") or one.startswith(f"{fact}.") for one in named)
    return listed or fact.rpartition(".")[2] in PLACES


COMPARED: dict[str, tuple[str, ...]] = {}


MAKES_THE_SUBJECT = {
    "what is being done": (
        "phase", "was", "issued on", "started on", "finished since built", "existing layers", "load added", "addition",
    ),
    "what it is": (
        "form", "what", "use", "material", "operation", "stud", "knee wall", "wet area", "habitable attic", "has bars",
        "through", "carries", "end conditions", "over", "reinforced", "open risers", "natural draft",
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


def makes_the_subject(rule: str, fact: str) -> bool:
    """Return whether `rule` may fall silent without `fact`, which made the part one of those that it is for."""
    key = fact.rpartition(".")[2]
    return key in PLACES or any(key in keys for keys in MAKES_THE_SUBJECT.values()) or fact in COMPARED.get(rule, ())
