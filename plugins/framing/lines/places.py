"""Which spaces a member, a roof frame, trusses or a ledger are part of: as they say, as they are drawn, or by what they bear on."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from precheck import (
    OUTSIDE,
    Bearing,
    House,
    Ledger,
    Length,
    Member,
    RoofFrame,
    Space,
    Stretch,
    Truss,
    Wall,
    is_missing,
    is_outdoors,
    overlap,
    to_outline,
)

Framing = Member | RoofFrame | Truss | Ledger
ON_WALLS = ("rafter", "ceiling joist")
RIDGES = ("ridge beam", "ridge board")
ENDS = 2  # points of the line of a single member
BESIDE = Length.parse(
    "14 in"
)  # a beam or post under the edge of a floor or roof stands no farther off than a thick wall


def spaces_of(part: Framing, house: House) -> frozenset[str]:
    """Return the ids of the spaces that `part` is of; none where nothing of the file tells.

    A member that does not tell by itself is of the spaces of those that it bears on, and that bear on it.
    """
    kept: dict[str, frozenset[str]] = house.kept.setdefault("spaces of framing", {})
    if part.id not in kept:
        kept[part.id] = own = _told(part, house)
        if not own and isinstance(part, Member):
            kept.update(_joined(part, house))
    return kept[part.id]


def _told(part: Framing, house: House) -> frozenset[str]:
    """Return the spaces that `part` tells by itself, worked out once."""
    kept: dict[str, frozenset[str]] = house.kept.setdefault("spaces told by framing", {})
    if part.id not in kept:
        kept[part.id] = _own_spaces(part, house)
    return kept[part.id]


def _own_spaces(part: Framing, house: House) -> frozenset[str]:
    if part.spaces:
        return frozenset(part.spaces)
    named = part.rafters if isinstance(part, RoofFrame) else part.joists if isinstance(part, Ledger) else None
    member = None if named is None or is_missing(named) else house.project.by_id.get(named)
    if isinstance(member, Member):
        return spaces_of(member, house)
    return _of_member(part, house) if isinstance(part, Member) else frozenset()


def _of_member(member: Member, house: House) -> frozenset[str]:
    loads = frozenset(load.space for load in member.carries if not is_missing(load.space))
    return loads or _beside(member, house) or _on_walls(member, house) or frozenset(_drawn_over(member, house))


def _beside(member: Member, house: House) -> frozenset[str]:
    """Return the rooms of the opening or wall that it names: it is part of the house there, and of no deck beside it."""
    found: set[str] = set()
    for named in (*member.openings, member.wall):
        part = None if is_missing(named) else house.project.by_id.get(named)
        sides = getattr(part, "between", (getattr(part, "space", OUTSIDE),))
        found.update(side for side in sides if not is_outdoors(side, house))
    return frozenset(found)


def _on_walls(member: Member, house: House) -> frozenset[str]:
    """Return the rooms that the walls under a rafter or ceiling joist have in common: those that it spans."""
    on = [_under(end, house) for end in member.bears_on]
    walls = [part for part in on if isinstance(part, Wall)]
    if member.role not in ON_WALLS or not walls:
        return frozenset()
    common = set(walls[0].between).intersection(*(wall.between for wall in walls[1:])) - {OUTSIDE}
    spans_it = all(isinstance(part, Wall) or _is_ridge(part) for part in on)
    return frozenset(common) if spans_it or any(is_outdoors(side, house) for side in common) else frozenset()


def _under(end: Bearing, house: House) -> Any:
    return end.onto if is_missing(end.on) else house.project.by_id.get(end.on)


def _is_ridge(under: Any) -> bool:
    return under == "ridge" or (isinstance(under, Member) and under.role in RIDGES)


def _joined(member: Member, house: House) -> dict[str, frozenset[str]]:
    """Return the spaces of the nearest members below and above it that tell theirs: also for those on the way to them."""
    touching = _touching(house)
    silent, waiting, found = {member.id}, [member], set[str]()
    while waiting:
        for other in touching[waiting.pop().id]:
            own = _told(other, house)
            found |= own
            if not own and other.id not in silent:
                silent.add(other.id)
                waiting.append(other)
    return dict.fromkeys(silent, frozenset(found))


def _touching(house: House) -> dict[str, list[Member]]:
    """Return, by the id of each member that stays, those that it bears on and that bear on it; worked out once."""
    if "touching members" not in house.kept:
        members = {member.id: member for member in house.project.members}
        found: dict[str, list[Member]] = {name: [] for name in members}
        for member in members.values():
            below = (members[end.on] for end in member.bears_on if not is_missing(end.on) and end.on in members)
            for under in below if not member.is_removed else ():
                if not under.is_removed:
                    found[member.id].append(under)
                    found[under.id].append(member)
        house.kept["touching members"] = found
    touching: dict[str, list[Member]] = house.kept["touching members"]
    return touching


def _drawn_over(member: Member, house: House) -> Iterator[str]:
    shape = _shape(member)
    if shape is None:
        return
    for space in house.spaces:
        outline = house.outline(space)
        if outline is None or not _on_story(member, space, house):
            continue
        over = overlap(shape, outline).n > 0 if len(shape) > ENDS else _is_beside(shape, outline)
        if over:
            yield space.id


def _is_beside(line: tuple[Any, ...], outline: Any) -> bool:
    (ax, ay), (bx, by) = line
    middle = (Length(Fraction(ax + bx, 2)).n, Length(Fraction(ay + by, 2)).n)
    return any(to_outline(piece, outline) <= BESIDE for piece in (Stretch(*line), Stretch(middle, middle)))


def _shape(member: Member) -> tuple[Any, ...] | None:
    """Return the outline of a row of members, or the two ends of a single one; None where it is not drawn."""
    first, last = (member.at, member.at) if member.role == "post" else (member.from_, member.to)
    if is_missing(first) or is_missing(last):
        return None
    start, end = (first[0].n, first[1].n), (last[0].n, last[1].n)
    if is_missing(member.row_to):
        return start, end
    dx, dy = member.row_to[0].n - start[0], member.row_to[1].n - start[1]
    return start, end, (end[0] + dx, end[1] + dy), (start[0] + dx, start[1] + dy)


def _on_story(member: Member, space: Space, house: House) -> bool:
    """Return whether a member is of the story of `space`: `over` names the one whose walls or posts carry it."""
    if is_missing(space.story) or len(house.project.stories) <= 1:
        return True
    if is_missing(member.over):
        return False
    order = house.story_order
    ranks = order.rank(member.over), order.rank(space.story)
    if ranks[0] is None or ranks[1] is None:
        return False
    return ranks[1] - ranks[0] == (1 if member.role == "floor joist" else 0)
