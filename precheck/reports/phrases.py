"""Requests in whole phrases, for keys of the file that say too little when they stand alone in a list of what to draw."""

from __future__ import annotations

PHRASES = {
    "asbestos tested": "whether old finishes were tested for asbestos",
    "carries": "what it carries",
    "circuit": "its circuit",
    "elevations": "elevations of the outside walls",
    "flood hazard area": "whether the lot is in a flood hazard area",
    "fuel burning appliance": "whether the house has a fuel-burning appliance",
    "heating": "how it is heated",
    "lead tested": "whether old paint was tested for lead",
    "light": "a light, and its switch",
    "longer side open": "whether its longer side is open",
    "middle": "its place along the wall",
    "operation": "how it opens",
    "panes": "the size of its panes",
    "return air": "return air grille",
    "section": "a section through the work",
    "shares attic with garage": "whether its attic runs on over the garage",
    "stories": "the stories of the house",
    "supply air": "supply air register",
    "unbraced": "the length over which it is not braced",
    "vent": "the vent of its fixtures",
    "wall (with what it carries)": "the wall that it is in, and what that wall carries",
    "year built": "the year the house was built",
    "zoning approved": "zoning approval of the plans",
}
"""What is asked by its key in the file, and how a plan reviewer would ask it."""
