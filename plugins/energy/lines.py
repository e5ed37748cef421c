"""What works take of the energy chapter: insulation around the new rooms, windows with their U-factor, heat."""

from __future__ import annotations

from precheck_plugins.energy.envelope import EnvelopePart, heaters_of, is_conditioned, is_heated_anew
from precheck_plugins.energy.inside import is_within

from precheck import (
    Assembly,
    Check,
    Door,
    House,
    Missing,
    Opening,
    Part,
    SlabEdge,
    Space,
    Window,
    Work,
    does_not_apply,
    first_given,
    is_missing,
    line,
    shown,
    to_show,
)

PARTS = ("wall", "ceiling", "floor")


@line("energy.envelope")
def envelope(work: Work, house: House) -> Check:
    """The plans show the insulation of the walls, ceiling and floor of the new rooms, with R-values.

    A room under or over heated rooms takes none there, and neither does one that was heated before the work.
    """
    if not work.rooms:
        return to_show("insulation of the walls, ceiling and floor, with R-values", work)
    unsaid = [room.conditioned for room in work.rooms if room.use == "sunroom" and is_missing(room.conditioned)]
    if unsaid:
        return to_show("", work, *unsaid)
    heated = [room for room in work.rooms if is_heated_anew(room)]
    if not heated:
        return does_not_apply("none of its rooms is newly heated or cooled")
    lacking = [missing for part in PARTS for missing in _lacking(part, heated, house)]
    if lacking:
        return to_show("", work, *lacking)
    drawn = [found for room in heated for part in PARTS for found in _insulation(part, room, house)]
    return shown(*drawn) if drawn else does_not_apply("its rooms lie within the insulation of the house")


def _lacking(part: str, rooms: list[Space], house: House) -> list[Missing]:
    """Return what is not shown of one part: once for the work where nothing is, else room by room."""
    due = [room for room in rooms if not is_within(part, room, house)]
    bare = [room for room in due if not _insulation(part, room, house)]
    if bare and len(bare) == len(due):
        return [_absent(part, bare[0], house)]
    values = [_value(found) for room in due for found in _insulation(part, room, house)]
    known = [value for value in values if not is_missing(value)]
    unknown = [value for value in values if is_missing(value)]
    return [*(_absent(part, room, house) for room in bare), *(() if known else unknown)]


def _absent(part: str, room: Space, house: House) -> Missing:
    floor = house.floor(room)
    on_slab = part == "floor" and floor is not None and floor.base == "slab"
    return room.absent("insulation of the slab edge" if on_slab else f"insulation of the {part}")


def _insulation(part: str, room: Space, house: House) -> list[Assembly | SlabEdge]:
    """Return what insulates one part of a room, as drawn."""
    drawn = [a for a in house.subjects(Assembly) if a.space == room.id and a.what.endswith(part) and not a.is_removed]
    edges = [e for e in house.subjects(SlabEdge) if e.space == room.id and not e.is_removed]
    return [*drawn, *(edges if part == "floor" else ())]


def _value(found: Assembly | SlabEdge) -> object:
    """Return the R-value or U-factor that is shown, or its absence; a slab edge deep below grade takes none."""
    if isinstance(found, SlabEdge):
        return first_given(found.r_value, found.below_grade)
    part = EnvelopePart(found, found, True)
    return first_given(part.cavity, part.continuous, part.total, found.u_factor)


@line("energy.windows")
def windows(work: Work, house: House) -> Check:
    """The plans show the windows and glass doors of the work, so that their U-factor can be judged."""
    openings: tuple[Part, ...] = work.parts_of(Opening)
    if openings:
        return shown(*openings)
    if not work.parts:
        return to_show("windows, with their U-factor and solar heat gain", work)
    rooms = [room for room in work.rooms if room.is_habitable and is_conditioned(room)]
    if not rooms:
        return does_not_apply("no habitable room is among its rooms")
    found = [opening for room in rooms for opening in house.openings_of(room) if _is_glazed(opening)]
    return shown(*dict.fromkeys(found)) if found else to_show("", work, rooms[0].absent("windows, with their U-factor"))


def _is_glazed(opening: Opening) -> bool:
    glass = isinstance(opening, Door) and (opening.glazed is True or opening.operation == "sliding")
    return isinstance(opening, Window) or glass


@line("energy.heat-source")
def heat_source(work: Work, house: House) -> Check:
    """The plans show what heats each new habitable room."""
    if not work.rooms:
        return to_show("how the new rooms are heated and cooled", work)
    rooms = [room for room in work.rooms if room.is_habitable and is_heated_anew(room)]
    if not rooms:
        return does_not_apply("no habitable room is newly heated")
    lacking = [room.absent("heating") for room in rooms if not heaters_of(room, house)]
    return to_show("", work, *lacking) if lacking else shown(*(heaters_of(room, house)[0] for room in rooms))
