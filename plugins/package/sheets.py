"""What the rules for the package are about: the set as a whole, and each part that its sheets should show."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from precheck import Fact, House, Part, Project, ScheduleRow, Sheet, Stair, fact, is_missing

PAPER = ("sheet", "drawing note", "schedule row", "lot line", "setback", "story", "floor", "work")
OTHER_NAMES = {
    "site plan": ("plot plan", "survey", "plat"),
    "floor plan": ("plan of the proposed floor", "proposed plan"),
    "existing floor plan": ("existing plan", "as-built"),
    "section": ("cross section", "building section", "wall section"),
    "elevations": ("elevation",),
    "electrical plan": ("power and lighting", "electrical"),
    "door and window schedule": ("schedule",),
    "cover sheet": ("title sheet", "cover"),
    "framing plan": ("framing",),
    "foundation plan": ("foundation",),
}


@fact
class DrawnPart(Fact):
    """One part of the house that the set should show: everything but the paper itself."""

    part: Part

    @classmethod
    def found_in(cls, house: House) -> Iterator[DrawnPart]:
        """Yield every part that is drawn, those that go included; the review leaves these out by their own phase."""
        for part in house.project.parts:
            if part.kind not in PAPER:
                yield cls(part, part)

    @property
    def phase(self) -> Any:
        """A part that stays is asked for its phase and sheet like any other."""
        return None


@fact
class NoteText(Fact):
    """Words on the drawings: a note of its own, or the note of a part."""

    words: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[NoteText]:
        """Yield every note."""
        for part in house.project.parts:
            if part.note:
                yield cls(part, part.note)

    @property
    def phase(self) -> Any:
        """A note is judged whatever the phase of its part."""
        return None


def shown(project: Project) -> list[str]:
    """Return in lower case all that the sheets say they show, and what the file itself gives."""
    sheets = [text for sheet in live(project) for text in (sheet.title, *sheet.shows)]
    submittal = () if is_missing(project.submittal) else project.submittal.shows
    given = {
        "address": bool(project.address), "scope": bool(project.scope), "lot lines": bool(project.lot_lines),
        "setbacks": bool(project.setbacks), "parking": bool(project.parking_stalls),
        "door and window schedule": bool(project.schedule), "sheet index": len(live(project)) > 1,
    }  # fmt: skip
    return [text.lower() for text in (*sheets, *submittal, *(name for name, there in given.items() if there))]


def live(project: Project) -> list[Sheet]:
    """Return the sheets of the set."""
    return [sheet for sheet in project.sheets if not sheet.is_removed]


def lacking(wanted: tuple[str, ...], project: Project) -> list[str]:
    """Return what of `wanted` nothing in the set names, by its own or another common name."""
    texts = shown(project)
    return [item for item in wanted if not any(names(text, item) for text in texts)]


def names(text: str, item: str) -> bool:
    """Return whether `text` names `item`; an existing floor plan is not the proposed one."""
    item = item.lower()
    if any(name in text for name in OTHER_NAMES.get(item, ())):
        return True
    said = all(word in text for word in item.split())
    return said and not (item == "floor plan" and "existing" in text and "proposed" not in text)


def occasions(house: House) -> list[str]:
    """Return what of the work makes further sheets due, in the words of the ruleset."""
    project = house.project
    changed = [part for part in project.parts if part.phase in ("new", "altered", "removed")]
    outside = {"conversion": [s for s in project.spaces if s.changes_use]}
    kinds = {
        "stair": [p for p in changed if isinstance(p, Stair)],
        "opening outside": [d for d in changed if "outside" in getattr(d, "between", ()) or d.kind == "window"],
        "structure": [p for p in changed if p.kind in ("support", "header", "beam", "joist", "rafter", "footing")],
    }
    return ["always", *(name for name, parts in {**outside, **kinds}.items() if parts)]


def wanted_for(table: Any, house: House) -> tuple[str, ...]:
    """Return what the rows of `table` want for the work at hand, each once."""
    rows = table if isinstance(table, Mapping) else {"always": table}
    found = [item for name in occasions(house) for item in rows.get(name, ())]
    return tuple(dict.fromkeys(found))


def row_of(house: House, opening_id: str) -> ScheduleRow | None:
    """Return the schedule row of an opening."""
    return next((row for row in house.project.schedule if row.of == opening_id and not row.is_removed), None)
