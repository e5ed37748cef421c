"""The beam in place of a wall that is taken out, and what holds that beam up."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.lines.bearing import bears

from precheck import (
    Check,
    House,
    Length,
    Member,
    Missing,
    Stretch,
    Wall,
    Work,
    does_not_apply,
    from_point,
    is_missing,
    line,
    line_of,
    missing_of,
    shown,
    to_show,
    uncovered,
)

BEAMS = ("beam", "header", "ridge beam")
BUILT = ("new", "altered")
HELD = 2  # ends of a beam that something holds up
SLACK = Length.parse("14 in")  # of a wall that its beam need not reach: what stands of it at both ends
NOTHING = "the wall bears nothing"


@line("framing.beam-for-wall")
def beam_for_wall(work: Work, house: House) -> Check:
    """A beam stands in for a bearing wall that is taken out, over its whole length.

    What the wall carries decides; members that land on it say that it bears.
    """
    wall = _wall(work)
    if wall is None:
        return to_show("carried load of the wall, and the beam in its place", work)
    if (settled := _unless_it_bears(wall, work, house)) is not None:
        return settled
    found = _in_its_place(wall, house)
    return to_show("", work, found) if is_missing(found) else shown(*found)


@line("framing.beam-supports")
def beam_supports(work: Work, house: House) -> Check:
    """Posts and footings, or walls that bear, hold up both ends of the beam in place of a wall."""
    wall = _wall(work)
    if wall is None:
        return to_show("posts and footings under the beam", work)
    if (settled := _unless_it_bears(wall, work, house)) is not None:
        return settled
    beams = [part for part in _near(wall, house) if isinstance(part, Member)]
    if not beams:
        return to_show("posts and footings under its beam", work)
    ends = [end for beam in beams for end in _ends(beam, house)]
    ends += [foot for end in ends if (foot := _foot(end, house)) is not None]
    absent = missing_of(*ends)
    return to_show("", work, absent) if absent is not None else shown(*dict.fromkeys(_named(ends, house)))


def _unless_it_bears(wall: Wall, work: Work, house: House) -> Check | None:
    """Return what is said of a wall that bears nothing, or of which nobody says what it bears; None where it bears."""
    due = bears(wall, house)
    if is_missing(due):
        return to_show("", work, due)
    return None if due else does_not_apply(NOTHING)


def _wall(work: Work) -> Wall | None:
    return next((part for part in work.parts if isinstance(part, Wall)), None)


def _near(wall: Wall, house: House) -> list[Member | Wall]:
    """Return the beams, and the walls that may bear, which the work builds in the place of `wall`."""
    beams = [m for m in house.project.members if m.role in BEAMS and m.phase in BUILT and _stands_in(m, wall, house)]
    walls = [w for w in house.project.walls if w.phase in BUILT and _replaces(w, wall, house)]
    return [*beams, *walls]


def _stands_in(member: Member, wall: Wall, house: House) -> bool:
    if not is_missing(member.wall):
        return member.wall == wall.id
    own, gone = _drawn(member), line_of(wall)
    return _on_story(member.over, wall, house) and own is not None and gone is not None and _along(own, gone)


def _replaces(new: Wall, wall: Wall, house: House) -> bool:
    own, gone = line_of(new), line_of(wall)
    if own is None or gone is None or new.framing.carries == "nothing":
        return False
    return _on_story(new.story, wall, house) and _along(own, gone)


def _along(own: Stretch, gone: Stretch) -> bool:
    return uncovered(gone, [own]) < _length(gone)


def _on_story(story: Any, wall: Wall, house: House) -> bool:
    """Return whether a part is told to be of the story of `wall`; where there is one story all are."""
    stories = {s.story for side in wall.between if (s := house.space(side)) is not None and not is_missing(s.story)}
    if not is_missing(wall.story):
        stories = {wall.story}
    return len(house.project.stories) <= 1 or (not is_missing(story) and story in stories)


def _drawn(member: Member) -> Stretch | None:
    if is_missing(member.from_) or is_missing(member.to):
        return None
    return Stretch((member.from_[0].n, member.from_[1].n), (member.to[0].n, member.to[1].n))


def _length(stretch: Stretch) -> Length:
    return from_point(stretch.start, Stretch(stretch.end, stretch.end))


def _in_its_place(wall: Wall, house: House) -> list[Member | Wall] | Missing:
    """Return what stands in for the whole of `wall`, or what is missing."""
    found = _near(wall, house)
    if not found:
        beams = [m for m in house.project.members if m.role in BEAMS and not m.is_removed and m.phase != "existing"]
        loose = [m.wall for m in beams if is_missing(m.wall) and not m.openings and not m.spaces and _is_loose(m)]
        absent = missing_of(wall.absent("beam in its place"), *loose)
        assert absent is not None
        return absent
    gone = line_of(wall)
    left = None if gone is None else _left(gone, found)
    if gone is not None and left is not None and left > SLACK * 2:
        return wall.absent(f"beam over the whole of it ({left} of {_length(gone)} has none)")
    return found


def _is_loose(beam: Member) -> bool:
    """Return whether the plan does not tell in whose place a beam is: it is not drawn, or not on which story."""
    return _drawn(beam) is None or is_missing(beam.over)


def _left(gone: Stretch, found: list[Member | Wall]) -> Length | None:
    """Return how much of a wall that is taken out nothing stands in for; None where that cannot be told."""
    lines = [line_of(part) if isinstance(part, Wall) else _drawn(part) for part in found]
    if all(one is not None for one in lines):
        return uncovered(gone, [one for one in lines if one is not None])
    spans = [part.span for part in found if isinstance(part, Member)]
    known = [span for span in spans if isinstance(span, Length)]
    if len(known) < len(found):
        return None
    return max(_length(gone) - sum(known, Length(0)), Length(0))


def _ends(beam: Member, house: House) -> list[Any]:
    """Return what each end of a beam bears on when the work is done, or what is missing."""
    gone = {part.id for part in house.project.parts if part.is_removed}
    told = [end for end in beam.bears_on if not is_missing(end.on) or not is_missing(end.onto)]
    held = [end.onto if is_missing(end.on) else end.on for end in told if end.onto != "nothing" and end.on not in gone]
    if len(held) >= HELD:
        return held
    return [beam.absent("bears on" if not beam.bears_on else "bears on, at its second end")]


def _foot(end: Any, house: House) -> Any:
    """Return what a post under the beam stands on, or what is missing; None where the end is on no post."""
    post = None if is_missing(end) else house.project.by_id.get(end)
    if not isinstance(post, Member) or post.role != "post":
        return None
    gone = {part.id for part in house.project.parts if part.is_removed}
    told = [end.onto if is_missing(end.on) else end.on for end in post.bears_on]
    feet = [foot for foot in told if not is_missing(foot) and foot != "nothing" and foot not in gone]
    return feet[0] if feet else post.absent("footing under it")


def _named(ends: list[Any], house: House) -> list[str]:
    parts = ((end, house.project.by_id.get(end)) for end in ends)
    return [str(end) if part is None else part.label for end, part in parts]
