"""The posts of a deck, porch or carport: by the way that its loads go down, or by where they stand."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from precheck import (
    Footing,
    FoundationWall,
    House,
    Length,
    Member,
    Part,
    Space,
    Stretch,
    Work,
    is_alone,
    is_missing,
    to_outline,
)

AT_EDGE = Length.parse("3 ft")  # a post stands under the edge of what it carries, or a little in or out of it
BUILDS = ("deck", "carport", "porch", "addition", "upper addition", "new house", "garage", "detached building",
          "garage to room", "carport to room", "porch to room", "basement to room", "wall removed", "opening made",
          "opening widened")  # fmt: skip
STANDS = ("existing", "removed")


class PostsOf(NamedTuple):
    """The posts of a work, other members of it that come down to the ground, and posts of which nothing tells whose they are."""

    posts: tuple[Member, ...]
    landing: tuple[Member, ...]
    unplaced: tuple[Member, ...]

    @classmethod
    def of(cls, work: Work, house: House) -> PostsOf:
        """Return those of `work`. Posts that nothing places are its own where no other work of the project has any."""
        return house.once(cls._found, work)

    @classmethod
    def _found(cls, work: Work, house: House) -> PostsOf:
        spaces = {space.id for space in work.parts_of(Space)}
        carried = _below_loads(house, lambda space: space in spaces)
        elsewhere = _below_loads(house, lambda space: space not in spaces)
        posts = [m for m in house.project.members if m.role == "post" and m.phase not in STANDS]
        own = [post for post in posts if post.id in carried or _is_of(post, work, house) is True]
        others = [post for post in posts if post.id in elsewhere or _is_of(post, work, house) is False]
        loose = [post for post in posts if post not in own and post not in others]
        landing = [m for m in house.project.members if m.id in carried and m.role != "post" and m.phase not in STANDS]
        alone = is_alone(work, house, BUILDS)
        return cls((*own, *(loose if alone else ())), tuple(landing), () if alone else tuple(loose))


def feet_of(member: Member, house: House) -> list[Part]:
    """Return the new footings that `member` bears on; one that stands serves where it is designed for the load."""
    below = [house.project.by_id.get(end.on) for end in member.bears_on if not is_missing(end.on)]
    return [part for part in below if isinstance(part, Footing | FoundationWall) and _serves(part)]


def _serves(part: Footing | FoundationWall) -> bool:
    return not part.is_removed and (not part.is_existing or not is_missing(part.designed_by))


def _below_loads(house: House, chosen: Callable[[str], bool]) -> set[str]:
    """Return the members that carry loads of the spaces that are `chosen`, and all that those bear on."""
    members = {member.id: member for member in house.project.members if not member.is_removed}
    loads = ((m, load.space) for m in members.values() for load in m.carries)
    found = {member.id for member, space in loads if not is_missing(space) and chosen(space)}
    front = set(found)
    while front:
        ends = (end.on for one in front if one in members for end in members[one].bears_on)
        front = {str(on) for on in ends if not is_missing(on)} - found
        found |= front
    return found


def _is_of(post: Member, work: Work, house: House) -> bool | None:
    """Return whether `post` is of a space of `work`: as it says, or under it or at its edge; None where nothing tells."""
    spaces = work.parts_of(Space)
    if post.spaces:
        return any(space.id in post.spaces for space in spaces)
    outlines = [house.outline(space) for space in spaces]
    if is_missing(post.at) or not outlines or None in outlines:
        return None
    foot = Stretch(*[(post.at[0].n, post.at[1].n)] * 2)
    away = min(to_outline(foot, outline) for outline in outlines if outline is not None)
    others = (o for s in house.spaces if s not in spaces and (o := house.outline(s)) is not None)
    within = any(not to_outline(foot, other).n for other in others)
    return not away.n or (away <= AT_EDGE and not within)
