"""The sheets that works take: site plan, floor plan, the plan of what stands, elevations, a section."""

from __future__ import annotations

from precheck_plugins.package.sheets import listed, sheets_with
from precheck_plugins.package.titles import names

from precheck import (
    OUTSIDE,
    Check,
    Door,
    Footing,
    FoundationWall,
    House,
    Member,
    Part,
    RoofFrame,
    Truss,
    Wall,
    Work,
    does_not_apply,
    line,
    not_shown,
    shown,
)


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


@line("package.foundation-plan", stage="intake")
def foundation_plan(_: Work, house: House) -> Check:
    """A foundation plan shows the footings that are drawn; while none are, they are asked for with the plan."""
    drawn = any(isinstance(part, Footing | FoundationWall) and _is_built(part) for part in house.project.parts)
    return _on_paper("foundation plan", house) if drawn else does_not_apply("no footing is drawn yet")


@line("package.framing-plan", stage="intake")
def framing_plan(_: Work, house: House) -> Check:
    """Framing plans show the joists, rafters and beams that are drawn; while none are, they are asked for with the plan."""
    framed = any(isinstance(part, Member | RoofFrame | Truss) and _is_built(part) for part in house.project.parts)
    return _on_paper("framing plan", house) if framed else does_not_apply("no framing is drawn yet")


def _is_built(part: Part) -> bool:
    return part.phase in ("new", "altered")


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
