"""What was recognized on a plan and waits for a person: told so that it is known again, and drawn so that it can be compared.

Nothing recognized is used before a person confirmed it, in the mapping file, by what it is (`BEDROOM-1: 12'-0" x 10'-0", 120
sq ft`): where a later revision of the drawing comes to anything else, the confirmation does not hold for that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from precheck.importers.measures import FOOT, INCH
from precheck.importers.plane import P2

State = Literal["confirmed", "changed", "waiting"]


class Recognized(NamedTuple):
    """One thing that was recognized: its id, what it is in the words by which it is confirmed, grade, and what speaks for it.

    `shape` is the outline of a room, or the line in which an opening closes, in meters of the plan.
    """

    kind: Literal["room", "door", "window"]
    id: str
    told: str
    grade: str
    why: str
    shape: tuple[P2, ...]
    state: State


@dataclass
class RecognizedSheet:
    """All that a person compares with the drawing, in meters of the plan: what was recognized, walls, and what is in doubt.

    `said` is what a mapping file said of the sheet itself, such as its scale, so that one begun anew says it too; a plan
    that is `on_paper` has a scale, and no unit.
    """

    file: str
    things: list[Recognized] = field(default_factory=list)
    walls: list[tuple[P2, P2]] = field(default_factory=list)
    doubtful: list[tuple[P2, P2]] = field(default_factory=list)
    lost: list[tuple[P2, str]] = field(default_factory=list)
    said: dict[str, str] = field(default_factory=dict)
    on_paper: bool = False
    unit: str = ""
    unit_told: str = ""
    layers: dict[str, tuple[str, ...]] = field(default_factory=dict)
    other_layers: tuple[str, ...] = ()


def state_of(part: str, told: str, confirmed: Mapping[str, str]) -> State:
    """Return whether a person confirmed `part` as what it is told to be now."""
    said = confirmed.get(part)
    if said is None:
        return "waiting"
    return "confirmed" if " ".join(said.split()) == told else "changed"


def shown_size(sides: tuple[float, float], area: float, corners: int, imperial: bool) -> str:
    """Return what an outline is, in the words by which it is confirmed."""
    more = "" if corners == 4 else f", {corners} corners"
    both = " x ".join(shown_length(side, imperial) for side in sides)
    return f"{both}, {area / FOOT**2:.1f} sq ft{more}" if imperial else f"{both}, {area:.2f} m2{more}"


def shown_length(meters: float, imperial: bool) -> str:
    """Return a length to half an inch or 10 mm, as a person compares it."""
    if not imperial:
        return f"{round(meters, 2):.2f} m"
    halves = round(meters / INCH * 2)
    feet, rest = divmod(halves, 24)
    inches = f"{rest // 2} 1/2" if rest % 2 else f"{rest // 2}"
    return f"{feet}'-{inches}\""


__all__ = ["Recognized", "RecognizedSheet", "shown_length", "shown_size", "state_of"]
