"""Which spaces an opening joins: what lies on both sides in plan, held against space boundaries and what is said of it."""

from __future__ import annotations

from typing import NamedTuple

from precheck.importers.ifc.exposure import SaidOutside
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.plane import P2
from precheck.importers.stretches import crosses

OUTSIDE = "outside"
REACHES = (0.05, 0.15, 0.3, 0.6)  # meters beyond the wall's face at which a space is looked for
FARTHEST = 250.0  # meters within which a space beyond an opening is looked for before the open air is


class OpeningPosition(NamedTuple):
    """Where an opening stands: the middle of its width in plan, its height there, and what lies square to its wall."""

    middle: P2
    at: float
    square: P2
    deep: float


class RoomsBeside(NamedTuple):
    """The rooms on both sides of an opening, or why they are not known."""

    sides: list[str]
    told: str
    why_not: str = ""


def boundaries(plan: Plan) -> dict[int, list[ReadSpace]]:
    """Return the rooms that space boundaries put beside each element."""
    found: dict[int, dict[str, ReadSpace]] = {}
    for relation in plan.model.all("IfcRelSpaceBoundary"):
        element, space = relation.RelatedBuildingElement, relation.RelatingSpace
        room = plan.by_entity.get(space.id()) if space is not None else None
        if element is not None and room is not None:
            found.setdefault(element.id(), {})[room.id] = room
    return {key: list(rooms.values()) for key, rooms in found.items()}


def sides_of(
    plan: Plan, placed: OpeningPosition | None, bounds: list[ReadSpace], exposure: SaidOutside, part: str
) -> RoomsBeside:
    """Settle which spaces an opening joins."""
    named, draft = [room.id for room in bounds], plan.model.draft
    if placed is None:
        return _by_boundaries(named, exposure)
    rooms = [room.id for room in (room_beyond(plan, placed, 1), room_beyond(plan, placed, -1)) if room]
    extra = sorted(set(named) - set(rooms))
    if len(set(rooms)) == 2:
        if exposure.external:
            draft.doubt(f"{exposure.told}, and stands between two spaces, which is taken", part)
        if extra:
            draft.doubt(
                "space boundaries name another room too, which it does not touch in plan",
                f"{part} ({', '.join(extra)})",
            )
        return RoomsBeside(rooms, "the spaces on both sides in plan" + (", and space boundaries" if named else ""))
    if len(rooms) != 1 or (named and rooms[0] not in named):
        return _by_boundaries(named, exposure)
    if exposure.external is None:
        return _by_place(plan, placed, rooms[0], extra, part)
    if not exposure.external:
        return RoomsBeside([], "", f"one side is {rooms[0]}, the other is no space, and it is said not to be external")
    if extra:
        draft.doubt(
            "space boundaries name another room too; the one beside its middle is taken", f"{part} ({', '.join(extra)})"
        )
    return RoomsBeside([rooms[0], OUTSIDE], f"the one space beside it in plan; {exposure.told}")


def _by_place(plan: Plan, placed: OpeningPosition, room: str, extra: list[str], part: str) -> RoomsBeside:
    """Take the other side of an opening for the open air where no space lies anywhere beyond it."""
    if extra:
        return _by_boundaries([room, *extra], SaidOutside(None, ""))
    sign = -1 if (front := room_beyond(plan, placed, 1)) is not None and front.id == room else 1
    start, end = (_away(placed, sign * far) for far in (placed.deep / 2, FARTHEST))
    level = [r for r in plan.rooms if r.shape and r.shape.bottom - 0.4 <= placed.at <= r.shape.top + 0.1 and r.outline]
    if any(crosses(start, end, one.outline) for one in level):
        why = f"one side is {room}, the other is no space, and it is not said to be external"
        return RoomsBeside([], "", why)
    plan.model.draft.doubt("is not said to be external; no space lies beyond it, so that it is taken to be", part)
    return RoomsBeside([room, OUTSIDE], "the one space beside it in plan; no space anywhere beyond")


def _away(placed: OpeningPosition, far: float) -> P2:
    (x, y), (nx, ny) = placed.middle, placed.square
    return x + nx * far, y + ny * far


def _by_boundaries(named: list[str], exposure: SaidOutside) -> RoomsBeside:
    if len(named) == 2 and not exposure.external:
        return RoomsBeside(named, "space boundaries")
    if len(named) == 1 and exposure.external:
        return RoomsBeside([named[0], OUTSIDE], f"space boundary; {exposure.told}")
    said = ", ".join(named) or "no space beside it"
    return RoomsBeside([], "", f"the model does not say which spaces it joins ({said})")


def room_beyond(plan: Plan, placed: OpeningPosition, sign: int) -> ReadSpace | None:
    """Return the room on one side of an opening (1 toward its own y, -1 behind it)."""
    for reach in REACHES:
        room = plan.room_at(*_away(placed, sign * (placed.deep / 2 + reach)), placed.at)
        if room:
            return room
    return None


__all__ = ["OUTSIDE", "OpeningPosition", "RoomsBeside", "boundaries", "room_beyond", "sides_of"]
