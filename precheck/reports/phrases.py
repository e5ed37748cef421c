"""Requests in whole phrases, for keys of the file that say too little when they stand alone in a list of what to draw."""

from __future__ import annotations

from typing import get_args

from precheck.project.space import ToDraw

PHRASES = {
    "afci": "its AFCI protection",
    "asbestos tested": "whether old finishes were tested for asbestos",
    "backdraft damper": "its backdraft damper",
    "carries": "what it carries",
    "circuit": "its circuit",
    "conditioned": "whether it is conditioned",
    "cut": "whether it is cut",
    "detached": "whether it is detached",
    "elevations": "elevations of the outside walls",
    "ends blocked": "blocking at its ends",
    "escape": "whether it is the egress opening",
    "fill approved": "whether its fill is approved",
    "fill compacted": "that its fill is compacted",
    "flood hazard area": "whether the lot is in a flood hazard area",
    "fuel burning appliance": "whether the house has a fuel-burning appliance",
    "gfci": "its GFCI protection",
    "glazed": "whether it has glass",
    "ground cleared": "that the ground under it is cleared",
    "heating": "how it is heated",
    "in use cover": "whether it has an in-use cover",
    "incised": "whether it is incised",
    "interconnected": "whether it is interconnected",
    "lead tested": "whether old paint was tested for lead",
    "leakage tested": "the leakage test of the ducts",
    "light": "a light, and its switch",
    "load added": "whether load is added to it",
    "longer side open": "whether its longer side is open",
    "makeup air": "its makeup air",
    "middle": "its place along the wall",
    "moisture barrier": "whether a moisture barrier lies under it",
    "opens without key": "whether it opens without a key",
    "operation": "how it opens",
    "panes": "the size of its panes",
    "return air": "return air grille",
    "safety glazing": "whether it is safety glazing",
    "sealed": "how it is sealed",
    "section": "a section through the work",
    "self closing": "whether it is self-closing",
    "self latching": "whether it is self-latching",
    "shares attic with garage": "whether its attic runs on over the garage",
    "sloped": "whether it slopes",
    "sprinklered": "whether the house has sprinklers",
    "stories": "the stories of the house",
    "supply air": "supply air register",
    "surge protection": "its surge protection",
    "tamper resistant": "whether it is tamper-resistant",
    "tank": "whether it has a tank",
    "the doors": "its doors, all of them; when they are drawn, list `doors` under `drawn`",
    "the rooms": "its rooms, all of them; when they are drawn, list `rooms` under `drawn`",
    "the windows": "its windows, all of them; when they are drawn, list `windows` under `drawn`",
    **{
        f"the {kind}": f"its {kind}, all of them; when they are drawn, take `{kind}` out of `to draw`"
        for kind in get_args(ToDraw)
    },
    "treated": "whether it is pressure-treated",
    "unbraced": "the length over which it is not braced",
    "vent": "the vent of its fixtures",
    "wall (with what it carries)": "the wall that it is in, and what that wall carries",
    "water resistive barrier": "its water-resistive barrier",
    "weather resistant": "whether it is weather-resistant",
    "wet": "whether it is in wet service",
    "year built": "the year the house was built",
    "zoning approved": "zoning approval of the plans",
}
"""What is asked by its key in the file, and how a plan reviewer would ask it."""
