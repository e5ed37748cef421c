"""What works take of stairs: the stair itself, the way to rooms on another story, steps where floors or ground differ."""

from __future__ import annotations

from precheck_plugins.stairs.levels import Joint, joints_of

from precheck import (
    Check,
    Door,
    House,
    Missing,
    Part,
    Ramp,
    Space,
    Stair,
    Work,
    does_not_apply,
    is_missing,
    leads_to,
    line,
    missing_of,
    shown,
    to_show,
    was_lived_on,
)


@line("stairs.stair-drawn")
def stair_drawn(work: Work, house: House) -> Check:
    """The new stair is drawn, with its risers, treads, width, headroom and handrail."""
    return shown(*work.parts) if work.parts else to_show("stair (risers, treads, width, headroom, handrail)", work)


@line("stairs.way-up")
def way_up(work: Work, house: House) -> Check:
    """A stair leads to the new rooms of an attic, an upper story or a basement.

    Where it stands already, it is judged with the rooms that it serves for the first time.
    """
    rooms = work.parts_of(Space)
    if not rooms:
        return to_show("stair to the new rooms (risers, treads, width, headroom, handrail)", work)
    room = next((space for space in rooms if space.is_habitable), rooms[0])
    ways = [*_stairs_to(room, house), *_exits_of(room, house)]
    if ways:
        return shown(*ways)
    if was_lived_on(room, house):
        return does_not_apply("people lived on that story before, and its stair stays")
    return to_show("stair", work, _where_to_ask(room, house))


def _stairs_to(room: Space, house: House) -> list[Part]:
    stairs = [s for s in house.subjects(Stair) if s.is_common_form or s.form == "spiral"]
    return [stair for stair in stairs if not stair.is_removed and leads_to(stair, room, house)]


def _exits_of(room: Space, house: House) -> list[Part]:
    """Return the egress doors by which one walks out of the story of `room` at grade, as from a basement."""
    doors = [d for d in house.subjects(Door) if d.is_exterior and d.required_egress is True and not d.is_removed]
    return [door for door in doors if any(side is not None and _is_near(side, room) for side in house.sides(door))]


def _is_near(space: Space, room: Space) -> bool:
    return space is room or (not is_missing(room.story) and space.story == room.story)


def _where_to_ask(room: Space, house: House) -> Missing:
    """Return what tells the stair: the story of the room where stairs are drawn, else the stair of that story."""
    if is_missing(room.story):
        drawn = any(not stair.is_removed for stair in house.subjects(Stair))
        return room.absent("story") if drawn else room.absent("stair to it")
    return house.project.by_id[room.story].absent("stair or ramp")


@line("stairs.step")
def step(work: Work, house: House) -> Check:
    """The plans show the floor levels on both sides of each door between the new rooms and the house, or the steps."""
    rooms = work.parts_of(Space)
    if not rooms:
        return to_show("floor level of the new rooms and of the rooms beside them", work)
    joints = [j for j in joints_of(house) if (j.one in rooms) != (j.other in rooms)]
    if not joints:
        level = house.finished_floor(rooms[0])
        return to_show("floor level", work, level) if is_missing(level) else shown(rooms[0])
    absent = missing_of(*(found for joint in joints if (found := _level_not_drawn(joint)) is not None))
    return shown(*(joint.drawn_by for joint in joints)) if absent is None else to_show("floor level", work, absent)


def _level_not_drawn(joint: Joint) -> Missing | None:
    return joint.difference if joint.steps is None and is_missing(joint.difference) else None


@line("stairs.steps-down")
def steps_down(work: Work, house: House) -> Check:
    """Steps or a ramp lead from a deck or porch to the ground, or the job says that none are built."""
    if not work.parts:
        return to_show("steps to the ground", work)
    (deck,) = work.parts_of(Space)
    ways = [w for w in (*house.subjects(Stair), *house.subjects(Ramp)) if deck.id in w.between and not w.is_removed]
    if ways:
        return shown(*ways)
    if is_missing(deck.drop_at_edge):
        return to_show("drop at edge", work, deck.drop_at_edge)
    return to_show("steps to the ground", work) if deck.drop_at_edge.n else does_not_apply("it lies at the ground")
