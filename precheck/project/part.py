"""What every part of a house has: an id, a phase, the sheets that show it; and the value types that parts share."""

from __future__ import annotations

import re
from typing import Annotated, Any, Literal

from precheck.files.missing import Missing
from precheck.files.record import NOT_GIVEN, Maybe, Record, Reference
from precheck.files.values import After, Before, Within
from precheck.project.between import Between
from precheck.project.section import Entry
from precheck.units import Force, Length, LineLoad, Measure, Pressure

OUTSIDE = "outside"

Phase = Literal["existing", "new", "altered", "removed"]


def _possible(measure: Measure) -> Measure:
    if measure.n <= 0:
        raise ValueError(f"`{measure.text}` cannot be; write a {measure.dimension} above zero, or leave the line out")
    return measure


def _not_negative(measure: Measure) -> Measure:
    return measure if measure.n == 0 else _possible(measure)


Size = Annotated[Length, After(_possible)]
"""A length above zero."""
Gap = Annotated[Length, After(_not_negative)]
"""A length of zero or more."""
Load = Annotated[Pressure, After(_not_negative)]
"""A load on an area of zero or more."""
LineWeight = Annotated[LineLoad, After(_not_negative)]
"""A load along a member of zero or more."""
Weight = Annotated[Force, After(_not_negative)]
"""A load at a point of zero or more."""
Strength = Annotated[Pressure, After(_possible)]
"""What a material takes, above zero."""
Level = Length
"""A height above (or, negative, below) the project's datum: the finished floor of the main story."""
_InPlan = Annotated[Level, Between("-1000 ft", "1000 ft")]
Point = tuple[_InPlan, _InPlan]
"""A point of the plan: x to the right and y up the sheet, from the project's origin."""
Count = Annotated[int, Within(ge=0)]
"""How many there are; there may be none."""
Number = Annotated[int, Within(ge=1)]
"""A whole number of one or more, such as a gage, or the risers of a flight."""


class SpaceId(Reference):
    """The id of a space."""

    __slots__ = ()
    kinds = ("space",)


class StoryId(Reference):
    """The id of a story."""

    __slots__ = ()
    kinds = ("story",)


class Side(Reference):
    """The id of a space, or ``outside``."""

    __slots__ = ()
    kinds = ("space", OUTSIDE)


class WallId(Reference):
    """The id of a wall."""

    __slots__ = ()
    kinds = ("wall",)


class OpeningId(Reference):
    """The id of a door or window."""

    __slots__ = ()
    kinds = ("door", "window")


class Part(Record):
    """A part of the house that a rule may be about; `drawn from` names the entity of a design file that it was read from."""

    kind = "part"
    id: str
    phase: Maybe[Phase] = NOT_GIVEN
    sheets: tuple[str, ...] = ()
    note: str = ""
    drawn_from: str = ""

    def label_under(self, owner: Record | None, index: int | None) -> str:
        """Return kind and id, which stay the same when parts are added before this one."""
        return f"{self.kind} {self.id}"

    def restates(self, field: str) -> bool:
        """Return whether an import worked out `field` from what else it wrote of the part, so that the one proves nothing."""
        return bool(self.drawn_from) and field in getattr(self.owner.design_file, "worked_out", ())

    @property
    def added(self) -> Entry:
        """What the file gives of the part in fields that plugins add, such as ``window.added.answer("sill pan")``."""
        entry: Entry = self.owner.added_to(self)
        return entry

    @property
    def is_existing(self) -> bool:
        """Whether the drawings say that the part stands today and stays as it is."""
        return self.phase == "existing"

    def phase_where(self, anew: bool) -> Any:
        """Return the phase by which it is judged: ``altered`` where it stands and the work loads or relies on it `anew`."""
        return "altered" if self.is_existing and anew else self.phase

    @property
    def is_removed(self) -> bool:
        """Whether the drawings say that the part goes."""
        return self.phase == "removed"


_GYPSUM = re.compile(
    r"\b(?:drywall|sheetrock|plasterboard|wallboard|gwb|gyp(?:\.|\b)(?: ?(?:board|bd)\b\.?)?)(?!\w)", re.IGNORECASE
)
_NO_BOARD = re.compile(
    r"concrete|crete\b|underlayment|topping|channel|furring|clip|screw|\b(?:no|without)\b", re.IGNORECASE
)
_TYPE_X = re.compile(r"\bty(?:pe|p\.?)[ -]?x\b", re.IGNORECASE)


def _by_one_name(material: str) -> str:
    """Call gypsum board by one of its many names on plans."""
    return _GYPSUM.sub("gypsum", material)


class Layer(Record):
    """One layer of a wall, floor or ceiling, such as ``{material: gypsum, thickness: 1/2 in}``."""

    kind = "layer"
    material: Annotated[str, After(_by_one_name)]
    thickness: Maybe[Annotated[Gap, Between("1/1000 in", "4 ft")]] = NOT_GIVEN
    type_x: Maybe[bool] = NOT_GIVEN

    def is_any_of(self, words: tuple[str, ...]) -> bool:
        """Return whether its material is called by one of `words`."""
        return any(word in self.material.lower() for word in words)

    @property
    def is_gypsum_board(self) -> bool:
        """Whether it is gypsum board: neither gypsum that is poured, nor what board is hung on."""
        return self.is_any_of(("gypsum",)) and _NO_BOARD.search(self.material) is None


_LAYER = re.compile(r"(?P<thickness>[\d\s./-]+(?:in|mm|cm|\"))\s+(?P<material>\S.*)")


def _one_line_layer(value: Any) -> Any:
    """Let ``1/2 in gypsum`` and ``5/8 in Type X gypsum`` stand for the mapping they mean."""
    if not isinstance(value, str):
        return value
    match = _LAYER.fullmatch(value.strip())
    if not match:
        raise ValueError(f"`{value}` is not a thickness and a material; write it like 1/2 in gypsum")
    material = match["material"].lower()
    marked = {"type x": "yes"} if _TYPE_X.search(material) else {}
    return {"material": " ".join(_TYPE_X.sub("", material).split()), "thickness": match["thickness"], **marked}


LayerText = Annotated[Layer, Before(_one_line_layer)]


def thickness_of(layers: tuple[Layer, ...]) -> Length | Missing:
    """Return the total thickness of `layers`; an absence where one of them gives none."""
    total: Length | Missing = Length(0)
    for layer in layers:
        total = total + layer.thickness
    return total


__all__ = [
    "OUTSIDE",
    "Count",
    "Gap",
    "Layer",
    "LayerText",
    "Level",
    "LineWeight",
    "Load",
    "Number",
    "OpeningId",
    "Part",
    "Phase",
    "Point",
    "Side",
    "Size",
    "SpaceId",
    "StoryId",
    "Strength",
    "WallId",
    "Weight",
    "thickness_of",
]
