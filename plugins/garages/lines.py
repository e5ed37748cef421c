"""What a new garage takes to be one: the door by which cars come in."""

from __future__ import annotations

from precheck import Check, Door, House, Space, Work, does_not_apply, is_missing, line, missing_of, shown, to_show

CAR_DOORS = ("vehicle", "cased opening", "sliding", "folding")


@line("garages.overhead-door")
def overhead_door(work: Work, house: House) -> Check:
    """The overhead door of a new garage, or the open side that stands for it, is drawn."""
    garages = [space for space in work.parts_of(Space) if space.use == "garage"]
    if work.parts and not garages:
        return does_not_apply("it is no garage")
    doors = {space.id: _doors(space, house) for space in garages}
    walled = [space for space in garages if is_missing(space.open_sides) or space.open_sides == 0]
    bare = [space.absent("overhead door") for space in walled if not doors[space.id]]
    absent = missing_of(*bare)
    if absent is not None or not garages:
        return to_show("overhead door", work, *([] if absent is None else [absent]))
    return shown(
        *(door for found in doors.values() for door in found), *(space for space in garages if space not in walled)
    )


def _doors(space: Space, house: House) -> list[Door]:
    return [
        one
        for one in house.project.doors
        if space.id in one.between and one.operation in CAR_DOORS and not one.is_removed
    ]
