"""What works take of access: the way up to attic storage, and the way into a new attic."""

from __future__ import annotations

from precheck_plugins.access.attics import AtticAccess

from precheck import Ceiling, Check, Hatch, House, Space, Work, does_not_apply, is_missing, line, shown, to_show


@line("access.attic-way")
def attic_way(work: Work, house: House) -> Check:
    """The plans show how one gets up to the attic storage: by a stair, a pull-down stair, a ladder or a hatch."""
    spaces = work.parts_of(Space)
    found = next((attic for attic in house.subjects(AtticAccess) if attic.space in spaces), None)
    if found is None:
        return to_show("way up (a hatch or stair)", work)
    reached = found.reached_by
    return to_show("way up", work, reached) if is_missing(reached) else shown(*found.stairs, *found.hatches)


@line("access.new-attic")
def new_attic(work: Work, house: House) -> Check:
    """A new attic has a way in; where the ceiling follows the roof there is no attic.

    Where an attic is drawn, the rules for attics judge its way in.
    """
    rooms = work.parts_of(Space)
    if not rooms:
        return to_show("attic access", work)
    if all(_follows_the_roof(room) or house.above(room) for room in rooms):
        return does_not_apply("no attic lies over the new rooms")
    attics = [space for space in house.spaces if space.use == "attic" and space.phase in ("new", "altered")]
    inside = {room.id for room in rooms}
    hatches = [h for h in house.subjects(Hatch) if h.space in inside and h.through != "floor" and not h.is_removed]
    ways = [*attics, *hatches]
    return shown(*ways) if ways else to_show("attic access", work)


def _follows_the_roof(room: Space) -> bool:
    ceiling = room.ceiling
    return isinstance(ceiling, Ceiling) and (bool(ceiling.profile) or ceiling.sloped is True)
