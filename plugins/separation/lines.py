"""What works take of the separation: the boundary between a garage and the house is on the plans."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.separation.boundaries import CommonWall, pairs

from precheck import Check, Door, House, Missing, Space, Work, does_not_apply, is_missing, line, shown, to_show

BOUNDARY = "wall, ceiling and door between the garage and the house"


@line("separation.garage-boundary")
def garage_boundary(work: Work, house: House) -> Check:
    """The wall between what stays a garage, or becomes one, and the rooms of the house is drawn."""
    spaces = work.parts_of(Space)
    if not spaces:
        return to_show(BOUNDARY, work)
    return _of_new_garage(spaces[0], work, house) if work.kind == "garage" else _of_new_rooms(spaces, work, house)


def _of_new_garage(garage: Space, work: Work, house: House) -> Check:
    walls = [wall for wall in house.subjects(CommonWall) if wall.vehicles is garage]
    over = [room for vehicles, room in pairs(house, house.above) if vehicles is garage]
    if not walls and not over:
        unsaid = garage.detached if is_missing(garage.detached) else garage.absent("wall to the house")
        return to_show("", work, unsaid)
    return _drawn(walls, work) or shown(garage)


def _of_new_rooms(rooms: tuple[Space, ...], work: Work, house: House) -> Check:
    stays = [s for s in house.spaces if s.use == "garage" and s.detached is not True]
    if not stays:
        return _nothing_stays(rooms, work, house)
    walls = [wall for wall in house.subjects(CommonWall) if wall.vehicles in stays and wall.room in rooms]
    over = [room for vehicles, room in pairs(house, house.above) if vehicles in stays and room in rooms]
    if not walls and not over:
        return to_show("", work, rooms[0].absent(f"wall to {stays[0].id}"))
    return _drawn(walls, work) or shown(*dict.fromkeys(wall.wall for wall in walls if wall.wall is not None), *over[:1])


def _drawn(walls: list[CommonWall], work: Work) -> Check | None:
    """Return what is missing where a wall of the boundary is not drawn, in the words in which its rule asks for it."""
    undrawn = [wall.vehicles.absent(f"wall to {wall.room.id}") for wall in walls if wall.wall is None]
    return to_show("", work, *undrawn) if undrawn else None


def _nothing_stays(rooms: tuple[Space, ...], work: Work, house: House) -> Check:
    """Where no garage is drawn, its overhead door tells: closed, nothing drives in; left, a part stays a garage."""
    doors = list(_overhead_doors(rooms, house))
    if doors and all(door.is_removed for door in doors):
        return does_not_apply("no part stays a garage: its overhead door is closed")
    stays: Missing = rooms[0].absent("what stays a garage beside it, or the overhead door that is closed")
    return to_show("", work, stays)


def _overhead_doors(rooms: tuple[Space, ...], house: House) -> Iterator[Door]:
    ids = {room.id for room in rooms}
    yield from (d for d in house.project.doors if d.operation == "vehicle" and not ids.isdisjoint(d.between))
