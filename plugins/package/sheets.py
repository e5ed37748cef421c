"""What the rules for the package are about: the set as a whole, each part that its sheets should show, and its notes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from precheck_plugins.package.titles import names

from precheck import OUTSIDE, Fact, House, Member, Part, Project, ScheduleRow, Sheet, Stair, Support, fact, is_missing

PAPER = ("sheet", "drawing note", "schedule row", "lot line", "setback", "story", "floor", "work")
FRAMED = frozenset(("truss", "roof frame", "framed opening", "deck ledger", "braced wall line", "footing"))


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
        """A part that stays is asked for its phase like any other."""
        return None


@fact
class SheetsOfParts(Fact):
    """The sheets that parts say they are on: of one part that names sheets, or of all the work that names none."""

    parts: tuple[Part, ...]
    named: tuple[str, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[SheetsOfParts]:
        """Yield one for each part with sheets, and one about the project for the parts of the work without."""
        drawn = [drawing.part for drawing in house.subjects(DrawnPart)]
        yield from (cls(part, (part,), part.sheets) for part in drawn if part.sheets)
        bare = tuple(part for part in drawn if not part.sheets and not part.is_existing)
        if bare:
            yield cls(house.project, bare, ())

    @property
    def phase(self) -> Any:
        """None: what stays is on a sheet of the list too."""
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


def live(project: Project) -> list[Sheet]:
    """Return the sheets of the set."""
    return [sheet for sheet in project.sheets if not sheet.is_removed]


def sheets_with(item: str, project: Project) -> list[Sheet]:
    """Return the sheets whose title or contents name `item`, such as ``site plan``, by its own or another common name."""
    return [sheet for sheet in live(project) if any(names(text, item) for text in (sheet.title, *sheet.shows))]


def listed(project: Project) -> tuple[str, ...]:
    """Return what the submittal says that the set shows."""
    return () if is_missing(project.submittal) else project.submittal.shows


def lacking(wanted: tuple[str, ...], project: Project) -> list[str]:
    """Return which drawings of `wanted` no sheet of the set is, or holds."""
    held = listed(project)
    return [item for item in wanted if not _in_set(item, project) and not any(names(text, item) for text in held)]


def _in_set(item: str, project: Project) -> bool:
    own = item.lower() == "door and window schedule" and bool(project.schedule)
    return own or bool(sheets_with(item, project))


def lacking_on(sheets: list[Sheet], wanted: tuple[str, ...], project: Project) -> list[str]:
    """Return what of `wanted` these `sheets` do not show, nor the file itself gives."""
    texts = [text for sheet in sheets for text in (sheet.title, *sheet.shows)]
    given = {
        "address": bool(project.address) or any(not is_missing(s.address) for s in sheets),
        "scope": bool(project.scope),
        "code edition": any(not is_missing(s.code_edition) for s in sheets),
        "sheet index": len(live(project)) > 1, "lot lines": bool(project.lot_lines),
        "setbacks": bool(project.setbacks), "parking": bool(project.parking_stalls),
        "easements": bool(project.easements) or (not is_missing(project.lot) and project.lot.easements_on_record == 0),
    }  # fmt: skip
    return [item for item in wanted if not given.get(item.lower()) and not any(names(text, item) for text in texts)]


def occasions(house: House) -> list[str]:
    """Return what of the work makes further sheets due, in the words of the ruleset."""
    changed = [part for part in house.project.parts if part.phase in ("new", "altered", "removed")]
    kinds = {
        "conversion": [s for s in house.project.spaces if s.changes_use],
        "stair": [p for p in changed if isinstance(p, Stair)],
        "opening": [p for p in changed if p.kind in ("door", "window")],
        "opening outside": [p for p in changed if OUTSIDE in getattr(p, "between", ()) or p.kind == "window"],
        "structure": [p for p in changed if isinstance(p, Member | Support) or p.kind in FRAMED],
    }
    return ["always", *(name for name, parts in kinds.items() if parts)]


def wanted_for(table: Any, house: House) -> tuple[str, ...]:
    """Return what the rows of `table` want for the work at hand, each once."""
    rows = table if isinstance(table, Mapping) else {"always": table}
    found = [item for name in house.once(occasions) for item in rows.get(name, ())]
    return tuple(dict.fromkeys(found))


def row_of(house: House, opening_id: str) -> ScheduleRow | None:
    """Return the schedule row of an opening."""
    return next((row for row in house.project.schedule if row.of == opening_id and not row.is_removed), None)
