"""What works take of slabs: the floor of new space on the ground, and what the slab is that a garage or carport leaves."""

from __future__ import annotations

from precheck import (
    Check,
    House,
    Missing,
    Slab,
    Space,
    Work,
    does_not_apply,
    floor_of,
    is_missing,
    line,
    not_shown,
    on_ground,
    rooms_of,
    shown,
    to_show,
)


@line("slabs.floor", stage="foundation")
def floor(work: Work, house: House) -> Check:
    """New space on the ground has a slab, or a floor of joists."""
    closed = rooms_of(work) or work.parts_of(Space)
    rooms = on_ground(closed, house)
    if closed and not rooms:
        return does_not_apply("it stands on the story below")
    if not rooms:
        return to_show("floor (slab or joists)", work)
    on_slab = [room for room in rooms if floor_of(room, house) != "joists"]
    lacking = [lack for room in on_slab if (lack := _lacks_slab(room, house)) is not None]
    if lacking:
        return not_shown(*lacking)
    slabs = {slab.id: slab for room in on_slab if (slab := _slab_under(room, house)) is not None}
    return shown(*slabs.values()) if slabs else does_not_apply("its floor is framed")


def _lacks_slab(room: Space, house: House) -> Missing | None:
    """Return what is not shown of the slab under `room`: its floor, the slab, or what an old slab under new space is."""
    base = floor_of(room, house)
    slab = _slab_under(room, house)
    if is_missing(base):
        return room.absent("slab") if room.is_vehicle else base
    if slab is None:
        return room.absent("slab")
    return slab.thickness if slab.is_existing and is_missing(slab.thickness) else None


def _slab_under(room: Space, house: House) -> Slab | None:
    """Return the slab of `room`: drawn under it, or under a space on the same floor."""
    slabs = [slab for slab in house.project.slabs if not slab.is_removed]
    own = next((slab for slab in slabs if slab.space == room.id), None)
    if own is not None or is_missing(room.floor):
        return own
    same = {space.id for space in house.spaces if space.floor == room.floor}
    return next((slab for slab in slabs if slab.space in same), None)


@line("slabs.existing", stage="foundation")
def existing(work: Work, house: House) -> Check:
    """The plans show what slab the garage, carport or porch leaves: thickness, slope and vapor retarder."""
    rooms = [room for room in rooms_of(work) if floor_of(room, house) != "joists"]
    if not work.parts:
        return to_show("existing slab (thickness, slope, vapor retarder)", work)
    if not rooms:
        return does_not_apply("its floor is framed")
    slabs = [_slab_of_old(room, rooms, house) for room in rooms]
    what = "floor" if work.kind == "porch to room" else "slab"  # many porches are framed
    lacking = [room.absent(what) for room, slab in zip(rooms, slabs, strict=True) if slab is None]
    return not_shown(*lacking) if lacking else shown(*{s.id: s for s in slabs if s is not None}.values())


def _slab_of_old(room: Space, rooms: list[Space], house: House) -> Slab | None:
    """Return the slab under `room`, or under a room made of the same old one whose floor is not said to be another."""
    if (own := _slab_under(room, house)) is not None:
        return own
    near = (other for other in rooms if other.was == room.was and is_missing(other.floor) and is_missing(room.floor))
    return next((slab for other in near if (slab := _slab_under(other, house)) is not None), None)
