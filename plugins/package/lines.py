"""The sheets that works take: site plan, floor plan, the plan of what stands, elevations, a section."""

from __future__ import annotations

from precheck_plugins.package.sheets import lacking, listed, live, sheets_with
from precheck_plugins.package.titles import names

from precheck import OUTSIDE, Check, Door, House, Part, Wall, Work, does_not_apply, line, not_shown, shown

FRAMING = frozenset(("member", "truss", "roof frame", "framed opening", "deck ledger"))
FOUNDATION = frozenset(("footing", "foundation wall", "slab"))
SCHEDULE = "door and window schedule"


def _on_paper(item: str, house: House) -> Check:
    """Return that a sheet of the set is, or holds, the drawing `item`; asked of the set once, whatever works take it."""
    sheets = sheets_with(item, house.project)
    if sheets:
        return shown(*sheets)
    said = any(names(text, item) for text in listed(house.project))
    return shown("the submittal") if said else not_shown(house.project.absent(item))


@line("package.site-plan-drawn", stage="intake")
def site_plan_drawn(_: Work, house: House) -> Check:
    """A site plan shows the lot with the work on it."""
    return _on_paper("site plan", house)


@line("package.floor-plan", stage="intake")
def floor_plan(_: Work, house: House) -> Check:
    """A floor plan shows the work as it will be."""
    return _on_paper("floor plan", house)


@line("package.existing-plan", stage="intake")
def existing_plan(_: Work, house: House) -> Check:
    """A floor plan of what stands today, with what is taken out, shows where the work begins."""
    return _on_paper("existing floor plan", house)


@line("package.elevations", stage="intake")
def elevations(work: Work, house: House) -> Check:
    """Elevations show what the work changes on the outside."""
    if work.parts and not any(_is_outside(part) for part in work.parts):
        return does_not_apply("it changes nothing outside")
    return _on_paper("elevations", house)


def _is_outside(part: Part) -> bool:
    """Return whether a part of the work is seen from outside: all but doors and walls between two rooms."""
    return OUTSIDE in part.between if isinstance(part, Door | Wall) else True


@line("package.section", stage="intake")
def section(_: Work, house: House) -> Check:
    """A section through the work shows how it is built, from the footing to the roof."""
    return _on_paper("section", house)


@line("package.framing-plan")
def framing_plan(_: Work, house: House) -> Check:
    """Members, trusses and ledgers of the work lie on a framing plan, or on the sheets that they name."""
    return _drawn("framing plan", FRAMING, house)


@line("package.foundation-plan")
def foundation_plan(_: Work, house: House) -> Check:
    """Footings, foundation walls and slabs of the work lie on a foundation plan, or on the sheets that they name."""
    return _drawn("foundation plan", FOUNDATION, house)


def _drawn(item: str, kinds: frozenset[str], house: House) -> Check:
    """Return whether what is new of `kinds` is on paper; where nothing of it is given yet, other lines ask for that first."""
    parts = [part for part in house.project.parts if part.kind in kinds and part.phase in ("new", "altered")]
    if not parts:
        return does_not_apply("what it would show is not given yet")
    sheets = {sheet.id: sheet for sheet in live(house.project)}
    named = {sheet: sheets[sheet] for part in parts for sheet in part.sheets if sheet in sheets}
    if all(any(sheet in sheets for sheet in part.sheets) for part in parts):
        return shown(*named.values())
    return _on_paper(item, house)


@line("package.window-schedule", stage="intake")
def window_schedule(_: Work, house: House) -> Check:
    """A window schedule lists each window that takes the place of another, with its size and what its label says."""
    return (
        not_shown(house.project.absent("window schedule")) if lacking((SCHEDULE,), house.project) else shown(SCHEDULE)
    )
