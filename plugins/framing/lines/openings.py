"""The header or beam over each opening that is cut, widened, or built into a new wall."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.framing.lines.bearing import is_beside_bearing, wall_bears

from precheck import (
    OUTSIDE,
    Check,
    Door,
    House,
    Length,
    Member,
    Missing,
    Opening,
    Space,
    Stretch,
    Work,
    Works,
    does_not_apply,
    faces_out,
    is_missing,
    line,
    missing_of,
    shown,
    stretch_of,
    to_show,
    uncovered,
    wall_of,
)

OVER = ("header", "beam")
OWN_WORKS = ("opening made", "opening widened", "window replaced")


@line("framing.header-in-opening")
def header_in_opening(work: Work, house: House) -> Check:
    """A header or beam stands over each opening in a wall that bears or may bear.

    One that stands already serves where it reaches over the whole opening.
    """
    if not work.parts:
        return to_show("header over each opening", work)
    found = [_over(opening, house) for opening in _openings(work, house)]
    due = [one for one in found if one is not None]
    if not due:
        return does_not_apply("no opening is in a wall that bears")
    absent = missing_of(*due)
    return to_show("", work, absent) if absent is not None else shown(*(m for m in due if isinstance(m, Member)))


def _openings(work: Work, house: House) -> Iterator[Opening]:
    """Yield the openings of `work`: those it is about, or the new ones of its spaces that are no works of their own."""
    yield from (part for part in work.parts if isinstance(part, Opening))
    own = {part.id for one in Works.of(house).of_kinds(*OWN_WORKS) for part in one.parts}
    rooms = {part.id for part in work.parts if isinstance(part, Space)}
    both: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    for opening in both:
        sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""), OUTSIDE)
        if opening.phase == "new" and rooms.intersection(sides) and opening.id not in own and _may_bear(opening, house):
            yield opening


def _may_bear(opening: Opening, house: House) -> bool:
    """Return whether an opening is in an outside wall, or in one that is said to bear: partitions are not asked about."""
    return not isinstance(opening, Door) or faces_out(opening, house) or is_beside_bearing(opening, house)


def _over(opening: Opening, house: House) -> Member | Missing | None:
    """Return what stands over `opening`, or what is missing of it; None where its wall bears nothing."""
    due = wall_bears(opening, house)
    headers = [m for m in house.project.members if m.role in OVER and not m.is_removed]
    judged = _judged(opening, house)
    serving = header_over(opening, house)
    if serving is not None or due is False:
        return serving
    if is_missing(due):
        return due
    absent = missing_of(*judged)
    if absent is not None:
        return absent
    loose = [
        m.absent("openings (that it is over)")
        for m in headers
        if m.phase != "existing" and _may_be_in(m, opening, house)
    ]
    loose += [m.over for m in headers if is_missing(m.over) and _lies_over(m, opening, house)]
    return missing_of(opening.absent("header"), *loose)


def header_over(opening: Opening, house: House) -> Member | None:
    """Return the header or beam that serves over `opening`, if one does."""
    return next((one for one in _judged(opening, house) if isinstance(one, Member)), None)


def _judged(opening: Opening, house: House) -> list[Member | Missing]:
    headers = [m for m in house.project.members if m.role in OVER and not m.is_removed]
    return [_serves(member, opening, house) for member in headers if _is_in(member, opening, house)]


def _is_in(member: Member, opening: Opening, house: House) -> bool:
    if opening.id in member.openings or _covers(member, opening, house):
        return True
    return not member.openings and _is_only_one(member, opening, house)


def _covers(member: Member, opening: Opening, house: House) -> bool:
    """Return whether `member` is drawn over the whole of `opening`, on its story."""
    return _same_story(member, opening, house) and _lies_over(member, opening, house)


def _lies_over(member: Member, opening: Opening, house: House) -> bool:
    """Return whether `member` is drawn over the whole of `opening` in plan, on whatever story."""
    stretch = stretch_of(opening, house)
    if is_missing(stretch) or is_missing(member.from_) or is_missing(member.to):
        return False
    own = Stretch((member.from_[0].n, member.from_[1].n), (member.to[0].n, member.to[1].n))
    return uncovered(stretch, [own]).n == 0


def _same_story(member: Member, opening: Opening, house: House) -> bool:
    """Return whether the walls of the opening's story carry `member`; a girder may lie under any wall."""
    if is_missing(member.over):
        return member.role == "header" and len(house.project.stories) <= 1
    sides = opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""),)
    stories = {s.story for side in sides if (s := house.space(side)) is not None and not is_missing(s.story)}
    return not stories or member.over in stories


def _is_only_one(member: Member, opening: Opening, house: House) -> bool:
    """Return whether a header is in the wall of `opening`, in which no other opening takes one."""
    wall = wall_of(opening, house)
    if (
        wall is None
        or not is_missing(member.from_)
        or wall.id not in (member.wall, *(end.on for end in member.bears_on))
    ):
        return False
    both: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    others = (one for one in both if one is not opening and not one.is_removed)
    return member.role == "header" and all(wall_of(one, house) is not wall for one in others)


def _may_be_in(member: Member, opening: Opening, house: House) -> bool:
    """Return whether nothing tells which opening a header is over."""
    if member.role != "header" or member.openings or member.spaces:
        return False
    wall = wall_of(opening, house)
    told = [one for one in (member.wall, *(end.on for end in member.bears_on)) if not is_missing(one)]
    drawn = not is_missing(member.from_) and isinstance(stretch_of(opening, house), Stretch)
    return not drawn and (not told or wall is None or wall.id in told)


def _serves(member: Member, opening: Opening, house: House) -> Member | Missing:
    """Return `member` where it is built or long enough for `opening`, else what is missing."""
    if is_missing(member.phase):
        return member.phase
    width = opening.absent("unit size") if is_missing(opening.unit_size) else opening.unit_size.width
    if isinstance(width, Length) and not is_missing(member.span) and member.span < width:
        return opening.absent(f"header as long as it is wide ({member.id} spans {member.span} of {width})")
    if member.phase != "existing" or _covers(member, opening, house):
        return member
    absent = missing_of(member.span, width)
    return member if absent is None else absent
