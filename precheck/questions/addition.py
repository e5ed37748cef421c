"""Needs that no field of a part meets: the new part that does, or the part to choose."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from typing import NamedTuple

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
    Addition("footing|wall", "termite protection", "termite protections", "TP", {}, ("method",)),
    Addition("project", "flashing at (.*)", "flashings", "FL", {"where": "{0}"}, ("drawn", "membrane")),
    Addition("door|window", "braced wall line", "braced lines", "BL", {"openings": "[{id}]"},
             ("method", "length", "wall height")),
    Addition("wall", "braced wall line", "braced lines", "BL", {"walls": "[{id}]"}, ("method", "length", "wall height")),
    Addition("space|project", "fireblocking", "notes", "N", {}, ("note",)),
    Addition("door|window", "(?:sill plate of the )?wall that fills it", "walls", "W", {"opening filled": "{id}"}, ("between",)),
    Addition("space", r"outside walls|walls on \d+ more of its outside sides", "walls", "W", {"between": "[{id}, outside]"}, ()),
    Addition("space", "braced wall lines", "braced lines", "BL", {}, ("walls", "method", "length", "wall height")),
    Addition("space", "treated posts and framing", "woods", "WD", {"space": "{id}"}, ("where", "treated")),
    Addition("space", "treated posts", "woods", "WD", {"space": "{id}", "where": "post base"}, ("location", "treated")),
    Addition("space", "treated joists and beams", "woods", "WD", {"space": "{id}", "where": "outdoor support"}, ("treated",)),
    Addition("space", "door or stair on the way out|doors?", "doors", "D", {}, ("between", "operation", "unit size")),
    Addition("space", "egress window or door", "windows", "W", {"space": "{id}"},
             ("operation", "unit size", "net clear opening", "sill height")),
    Addition("space", "overhead door", "doors", "D", {"between": "[{id}, outside]", "operation": "vehicle"}, ("unit size",)),
    Addition("space", "attic access", "hatches", "H", {"space": "{id}"}, ("to", "through", "rough opening")),
    Addition("space", "way up", "hatches", "H", {"to": "{id}"}, ("space", "through", "reached by", "rough opening")),
    Addition("space", "floor joists or trusses, with the storage load that they carry", "members", "FJ",
             {"role": "floor joist", "spaces": "[{id}]"}, ("size", "spacing", "span")),
    Addition("stair|hatch", "framed opening in the (?:floor over it|joists)", "framed openings", "FO", {},
             ("through", "header span", "header plies", "trimmer plies")),
    Addition("member", "deck ledger that carries it", "ledgers", "LG", {}, ("spaces", "joists", "joist span")),
    Addition("member", "roof frame", "roof frames", "RF", {}, ("spaces", "slope", "ridge")),
    Addition("roof frame", "ceiling joists that tie its rafters", "members", "CJ", {"role": "ceiling joist"},
             ("spaces", "size", "spacing", "span")),
    Addition("story", "spaces", "spaces", "S", {"story": "{id}"}, ("name", "use", "area")),
    Addition("heating|project", "appliances that burn a fuel, where they stand .*|fuel of the equipment, .*", "appliances", "AP",
             {}, ("what", "space", "fuel", "input")),
    Addition("project", "dryer duct, .*", "dryer ducts", "DD", {}, ("space", "length", "elbows 90", "discharges to")),
    Addition("project", "exhaust fan of the bath, .*", "exhausts", "EX", {"what": "bath fan"},
             ("space", "flow", "runs", "discharges to")),
    Addition("project", "header over each opening", "members", "HD", {"role": "header"}, ("openings", "size", "plies", "span")),
    Addition("project", "windows, with their U-factor .*", "windows", "W", {},
             ("space", "operation", "unit size", "u factor", "shgc")),
    Addition("project", "joint of the new roof and the old one", "roof frames", "RF", {}, ("spaces", "meets old")),
    Addition("project", "ledger, .*", "ledgers", "LG", {}, ("spaces", "joists", "joist span")),
    Addition("project", "treated sleepers, .*", "floors", "FL", {}, ("base", "treated sleepers", "moisture barrier")),
    Addition("project", "water heater and where it stands", "appliances", "WH", {"what": "water heater"},
             ("space", "fuel", "input")),
    Addition("project", "what changes in the roof framing", "members", "RA", {}, ("role", "spaces", "size", "spacing", "span")),
    Addition("project", "roof covering and underlayment", "roofs", "RF", {}, ("spaces", "covering", "slope")),
    Addition("project", "joists or trusses checked for the storage load", "members", "FJ", {"role": "floor joist"},
             ("spaces", "size", "spacing", "span")),
    Addition("project", "way up", "hatches", "H", {}, ("space", "to", "through", "reached by", "rough opening")),
    Addition("project", "steps to the ground|stair(?: to .*)?", "stairs", "S", {}, ("between", "total rise", "risers", "width")),
    Addition("project", "parking stall that the garage or carport held", "parking stalls", "PS", {},
             ("width", "length", "covered", "enclosed")),
)  # fmt: skip


def addition_for(kind: str, key: str) -> tuple[Addition, tuple[str, ...]] | None:
    """Return the part to add for the need `key` of a part of `kind`, and what the key names of it."""
    for addition in ADDITIONS:
        named = re.fullmatch(addition.key, key)
        if named and re.fullmatch(addition.kind, kind):
            return addition, named.groups()
    return None


def free_id(project: Project, letters: str, taken: Collection[str] = ()) -> str:
    """Return the first id of `letters` and a number that no part has, and that is none of those `taken`."""
    known = {*project.by_id, *taken}
    return next(name for n in range(1, len(known) + 2) if (name := f"{letters}{n}") not in known)


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
