"""What the names in design files mean: uses and units of rooms, materials, properties, phases, layers.

A firm adds its own in a mapping file, whose names go before the ones here. Properties are written ``Set.Property``, or
``*.Property`` in any set.
"""

from __future__ import annotations

import re
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Annotated, Literal, NamedTuple

from precheck.files.missing import is_missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, read_record
from precheck.files.source import read_file
from precheck.files.values import Within
from precheck.importers.materials import material
from precheck.importers.paper_scale import PaperScale
from precheck.project.part import Phase, Size
from precheck.project.space import Use
from precheck.units import Length

Field = Literal[
    "id", "phase", "fire rating", "external", "sill height", "self closing", "floor area", "ceiling height", "riser",
    "tread", "risers", "nosing", "railing height", "u factor", "shgc",
]  # fmt: skip

PROPERTIES: dict[str, tuple[str, ...]] = {
    "id": ("*.Mark", "Pset_*Common.Reference number"),
    "phase": ("Pset_*Common.Status", "*.Phase Created", "*.Phase"),
    "fire rating": ("Pset_*Common.FireRating",),
    "external": ("Pset_*Common.IsExternal",),
    "sill height": ("*.Sill Height", "*.SillHeight"),
    "self closing": ("Pset_DoorCommon.SelfClosing",),
    "floor area": (
        "*BaseQuantities.NetFloorArea", "*.NetFloorArea", "*BaseQuantities.GrossFloorArea", "*.GSA BIM Area",
    ),
    "ceiling height": ("*BaseQuantities.FinishCeilingHeight", "*BaseQuantities.ClearHeight"),
    "riser": ("Pset_StairFlightCommon.RiserHeight", "Pset_StairCommon.RiserHeight"),
    "tread": ("Pset_StairFlightCommon.TreadLength", "Pset_StairCommon.TreadLength"),
    "risers": ("Pset_StairFlightCommon.NumberOfRiser*", "Pset_StairCommon.NumberOfRiser*"),
    "nosing": ("Pset_StairFlightCommon.NosingLength", "Pset_StairCommon.NosingLength"),
    "railing height": ("Pset_RailingCommon.Height",),
    "u factor": ("Pset_WindowCommon.ThermalTransmittance", "Pset_DoorCommon.ThermalTransmittance"),
    "shgc": ("Pset_DoorWindowGlazingType.SolarHeatGainTransmittance",),
}  # fmt: skip
ATTRIBUTES: dict[str, tuple[str, ...]] = {
    "mark": ("MARK", "NUMBER", "NO", "TAG"),
    "width": ("WIDTH", "W"),
    "height": ("HEIGHT", "H"),
    "operation": ("OPERATION", "TYPE", "STYLE"),
    "sill height": ("SILL", "SILL_HEIGHT"),
    "phase": ("PHASE", "STATUS"),
}
PHASES: dict[str, str] = {
    "new": "new", "new construction": "new", "existing": "existing", "demolish": "removed", "demolished": "removed",
    "demolition": "removed", "altered": "altered",
}  # fmt: skip
USES: dict[str, str] = {
    "bedroom": "bedroom", "guest room": "bedroom", "bed": "bedroom",
    "living room": "living room", "living": "living room", "dining room": "dining room", "dining": "dining room",
    "kitchen": "kitchen", "family room": "family room", "office": "office", "study": "office", "den": "office",
    "bathroom": "bathroom", "bath": "bathroom", "shower room": "bathroom", "powder room": "toilet room",
    "toilet": "toilet room", "wc": "toilet room", "half bath": "toilet room", "laundry": "laundry",
    "laundry room": "laundry", "hall": "hall", "hallway": "hall", "foyer": "hall", "entry": "hall", "corridor": "hall",
    "entrance hall": "hall", "vestibule": "hall", "closet": "closet", "wardrobe": "closet", "pantry": "storage",
    "storage": "storage", "store": "storage", "utility": "utility", "utility room": "utility", "mechanical": "utility",
    "workshop": "workshop", "garage": "garage", "carport": "carport", "attic": "attic", "crawl space": "crawl space",
    "crawlspace": "crawl space", "porch": "porch", "deck": "deck", "sunroom": "sunroom",
}  # fmt: skip
METRE = Length.parse("1 m")
_TWO = re.compile(r"[/&+,]|\band\b")


Attribute = Literal["mark", "width", "height", "operation", "sill height", "phase"]
Unit = Literal["inches", "feet", "millimeters", "centimeters", "meters"]


class Layers(Record):
    """Which layers of a drawing hold what; ``*`` stands for any letters.

    Closed lines on the layers of `spaces` are rooms, called by the texts within them on those of `names`. Where a drawing has no
    such line, rooms are recognized out of the lines of walls. `wall faces` are the layers of those lines, where their names do
    not tell. The layers of `doors` and `windows` hold their blocks, swings and lines. `walls` are middle lines of walls, which
    no layer holds unless a mapping file says so, with their `wall thickness`. Lines on the layers of `beams` are beams, and
    blocks on those of `posts`, `receptacles` and `lights` are what these say.
    """

    kind = "layers"
    spaces: tuple[str, ...] = ("A-AREA*", "SPACES", "ROOMS")
    doors: tuple[str, ...] = ("A-DOOR*", "DOORS")
    windows: tuple[str, ...] = ("A-GLAZ*", "A-WIND*", "WINDOWS")
    walls: tuple[str, ...] = ()
    wall_faces: tuple[str, ...] = ()
    beams: tuple[str, ...] = ("S-BEAM*", "BEAMS")
    posts: tuple[str, ...] = ("S-COLS*", "POSTS")
    receptacles: tuple[str, ...] = ("E-POWR*", "RECEPTACLES")
    lights: tuple[str, ...] = ("E-LITE*", "LIGHTS")
    names: tuple[str, ...] = ("A-AREA*", "A-ROOM*", "A-ANNO*", "ROOM-NAMES", "SPACES", "ROOMS")


class Names(Record):
    """A mapping file: what the names in a design file mean.

    `uses` says the use of a room by its name. `phases` says the phase that a word stands for, and `phase otherwise` is that of
    every part of a model that gives none of its own. `materials` says what a material is called in a project. `units` says the
    dwelling of rooms and zones by their names. `properties` and `attributes` name those that give a value, best first.
    `drawing unit` is the unit of a drawing, whatever its header says. `wall thickness` is that of walls drawn by middle lines.

    `confirmed` names rooms, doors and windows that were recognized on a drawn plan and that a person compared with it, each
    with what it is: where the drawing comes to anything else, that is asked again.
    `scale` and `page` are for a plan in a PDF: where its page does not prove the one, and where several pages hold drawings.
    """

    kind = "mapping"
    uses: dict[str, Use] = {}
    phases: dict[str, Phase] = {}
    materials: dict[str, str] = {}
    units: dict[str, str] = {}
    properties: dict[Field, tuple[str, ...]] = {}
    attributes: dict[Attribute, tuple[str, ...]] = {}
    layers: Layers = Layers()
    drawing_unit: Unit | None = None
    wall_thickness: Maybe[Size] = NOT_GIVEN
    phase_otherwise: Phase | None = None
    confirmed: Maybe[dict[str, str]] = NOT_GIVEN
    scale: PaperScale | None = None
    page: Annotated[int, Within(ge=1)] | None = None


class Mapped(NamedTuple):
    """What a name came to mean, or why it was not settled."""

    value: str | None
    why_not: str = ""


class Mapping:
    """Names of design files by their meaning, a firm's own first."""

    def __init__(self, names: Names | None = None) -> None:
        names = names or Names()
        self.layers = names.layers
        self.drawing_unit = names.drawing_unit
        self.phase_otherwise = names.phase_otherwise
        self.scale, self.page = names.scale, names.page
        self.confirmed: dict[str, str] = {} if is_missing(names.confirmed) else names.confirmed
        self.wall_thickness = None if is_missing(names.wall_thickness) else float(names.wall_thickness / METRE)
        self._attributes = {
            field: (*map(str.upper, names.attributes.get(field, ())), *known)  # type: ignore[call-overload]  # as below
            for field, known in ATTRIBUTES.items()
        }
        self._materials = {key.lower(): value for key, value in names.materials.items()}
        self._units = names.units
        self._uses = {**USES, **{key.lower(): value for key, value in names.uses.items()}}
        self._whole = {key.lower(): value for key, value in names.uses.items()}
        self._phases = {**PHASES, **{key.lower(): value for key, value in names.phases.items()}}
        self._properties = {
            field: (*names.properties.get(field, ()), *known)  # type: ignore[call-overload]  # checked as it was read
            for field, known in PROPERTIES.items()
        }

    def properties(self, field: str) -> tuple[str, ...]:
        """Return the names of properties that give `field`, best first."""
        return self._properties[field]

    def attributes(self, field: str) -> tuple[str, ...]:
        """Return the tags of block attributes that give `field`, best first."""
        return self._attributes[field]

    def phase(self, word: str) -> str | None:
        """Return the phase that `word` stands for."""
        return self._phases.get(word.strip().lower())

    def material(self, name: str) -> tuple[str, bool]:
        """Return what the material `name` is called in a project, and whether that is known rather than its own name."""
        return material(name, self._materials)

    def unit(self, *names: str) -> str | None:
        """Return the dwelling unit that a mapping file says of a space or zone of one of these names, such as ``A*``."""
        return next((unit for like, unit in self._units.items() if any(fnmatchcase(n, like) for n in names)), None)

    @property
    def known_uses(self) -> frozenset[str]:
        """The names of rooms that say a use, in lower case."""
        return frozenset(self._uses)

    def use(self, name: str) -> Mapped:
        """Return the use that the `name` of a room says: by its last known word, since a bedroom closet is a closet."""
        lowered = " ".join(name.lower().split())
        if lowered in self._whole:
            return Mapped(self._whole[lowered])
        words = re.sub(r"[^a-zäöüß/&+,' -]", " ", lowered).replace("-", " ")
        ends = [(m.end(), m.end() - m.start(), use) for known, use in self._uses.items() for m in _word(known, words)]
        if not ends:
            return Mapped(None, "its name says no use that is known")
        found = {use for _, _, use in ends}
        if len(found) > 1 and _TWO.search(words):
            return Mapped(None, f"its name says {' and '.join(sorted(found))} at once")
        return Mapped(max(ends)[2])


def _word(known: str, words: str) -> list[re.Match[str]]:
    return list(re.finditer(rf"\b{re.escape(known)}\b", words))


def matches(pattern: str, set_name: str, name: str) -> bool:
    """Return whether `pattern` names the property `name` of the set `set_name`."""
    of_set, _, of_name = pattern.partition(".")
    return fnmatchcase(name, of_name) and fnmatchcase(set_name, of_set)


def read_mapping(path: Path | None) -> Mapping:
    """Return the mapping with the names that the file at `path` adds. Raises `Unusable`."""
    return Mapping(read_record(Names, read_file(path))) if path else Mapping()


__all__ = ["Mapped", "Mapping", "Names", "matches", "read_mapping"]
