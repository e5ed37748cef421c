"""The floor and roof framing of what is built, and the posts and beams of what stands on posts."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from precheck_plugins.framing.lines.places import Framing
from precheck_plugins.framing.lines.serving import BUILT, Group, found_or, groups, serving

from precheck import (
    Check,
    House,
    Member,
    Missing,
    RoofFrame,
    Space,
    Truss,
    Work,
    does_not_apply,
    is_missing,
    line,
    missing_of,
    shown,
    to_show,
)

STANDS = ("existing", "new", "altered")
FLOORS = ("addition", "upper addition", "porch", "deck", "attic to room")
ROOFS = ("addition", "upper addition", "garage", "carport", "porch", "detached building", "new house", "roof changed")
ON_POSTS = ("carport", "porch", "deck", "wall removed")
SOLID_FEET = ("pier", "footing", "foundation wall")
ON_SLAB = "a slab carries its floor"


@line("framing.floor-framing")
def floor_framing(work: Work, house: House) -> Check:
    """Floor joists carry the floor of what is built, where no slab does; those of an attic may stand already."""
    roles = ("deck joist", "floor joist") if work.kind in ("deck", "porch") else ("floor joist",)
    joists = [m for m in house.project.members if m.role in roles]
    phases = STANDS if work.kind == "attic to room" else BUILT
    what = "joists" if work.kind in ("deck", "porch") else "floor joists"

    def look(group: Group) -> Any:
        if (slab := _on_slab(group, work, house)) is not False:
            return slab
        return found_or(serving(joists, group, FLOORS, house, phases), group[0].absent(what))

    return each(work, house, "floor joists, or a slab", look, ON_SLAB)


def _on_slab(group: Group, work: Work, house: House) -> Any:
    """Return None where slabs carry the floors of a group, False where joists do, else what is missing."""
    bases = [_base(space, house) for space in group]
    if any(base == "joists" for base in bases) or work.kind in ("deck", "upper addition", "attic to room"):
        return None if all(base == "slab" for base in bases) else False
    return missing_of(*bases)


def _base(space: Space, house: House) -> Any:
    if any(slab.space == space.id for slab in house.project.slabs if not slab.is_removed):
        return "slab"
    floor = house.floor(space)
    return space.absent("floor (slab or joists)") if floor is None else floor.base


@line("framing.roof-framing")
def roof_framing(work: Work, house: House) -> Check:
    """Rafters with their ridge and ties, or trusses, make the roof of what is built."""
    if work.kind == "roof changed":
        return _changed(work, house)
    parts = roof_parts(house)

    def look(group: Group) -> Any:
        if (due := roofed(group, work)) is not True:
            return None if due is False else due
        found = found_or(serving(parts, group, ROOFS, house), group[0].absent("rafters or trusses"))
        lacking = None if is_missing(found) else missing_of(_ridge(found), _ties(found, house))
        return found if lacking is None else lacking

    return each(work, house, "rafters or trusses", look, "it has no roof")


def roof_parts(house: House) -> list[Framing]:
    """Return the roof frames, trusses and rafters of a house; of rafters that stand or go no frame is built."""
    rafters = [m for m in house.project.members if m.role == "rafter"]
    old = {rafter.id for rafter in rafters if rafter.phase in ("existing", "removed")}
    frames = (frame for frame in house.project.roof_frames if frame.phase != "new" or frame.rafters not in old)
    return [*frames, *house.project.trusses, *rafters]


def roofed(group: Group, work: Work) -> bool | Missing:
    """Return whether a group of spaces has a roof: a porch or deck may have none."""
    if work.kind not in ("porch", "deck"):
        return True
    space = group[0]
    return space.roofed if not is_missing(space.roofed) or work.kind == "porch" else False


def _ridge(found: list[Framing]) -> Missing | None:
    """Return what is missing where rafters lean on a ridge and no roof frame tells of it and of its ties."""
    if not all(isinstance(part, Member) for part in found):
        return None
    leaning = [m for m in found if isinstance(m, Member) and any(end.onto == "ridge" for end in m.bears_on)]
    return leaning[0].absent("roof frame (its ridge and ties)") if leaning else None


def _ties(found: list[Framing], house: House) -> Missing | None:
    """Return what is missing where ceiling joists are said to tie the rafters, and none are drawn."""
    if any(member.role == "ceiling joist" and not member.is_removed for member in house.project.members):
        return None
    frames = (part for part in found if isinstance(part, RoofFrame) and not is_missing(part.tie))
    tied = next((one for one in frames if one.tie.what == "ceiling joists" and is_missing(one.tie.member)), None)
    return None if tied is None else tied.absent("ceiling joists that tie its rafters")


def _changed(work: Work, house: House) -> Check:
    """A roof whose covering alone changes keeps its framing; where framing goes, other framing takes its place."""
    if not work.parts:
        return to_show("what changes in the roof framing", work)
    framing = [part for part in work.parts if isinstance(part, RoofFrame | Truss)]
    if not framing:
        return does_not_apply("its covering changes, and not its framing")
    altered = [part for part in framing if not part.is_removed]
    new = [part for part in roof_parts(house) if part.phase == "new"]
    return shown(*altered, *new) if altered or new else to_show("framing in place of what is taken out", work)


@line("framing.posts-and-beams")
def posts_and_beams(work: Work, house: House) -> Check:
    """Posts and beams carry a deck, carport or porch; joists or beams may stand on piers without posts."""
    members = house.project.members

    def look(group: Group) -> Any:
        if _lies_on_ground(group, work, house):
            return None
        joists, posts, beams = (
            serving([m for m in members if m.role in roles], group, ON_POSTS, house)
            for roles in (("deck joist", "floor joist"), ("post",), ("beam", "header"))
        )
        if _on_ground(joists, house):
            return joists
        wanted = {"beams": beams} if _on_ground(beams, house) else {"posts": posts, "beams": beams}
        lacking = missing_of(*(_lacks(one, what, group) for what, one in wanted.items()))
        return (
            lacking if lacking is not None else [part for one in wanted.values() if not is_missing(one) for part in one]
        )

    return each(work, house, "posts and beams", look, "it lies on a slab and has no roof")


def _lacks(found: list[Framing] | Missing, what: str, group: Group) -> Missing | None:
    told = found_or(found, group[0].absent(what))
    return told if is_missing(told) else None


def _on_ground(found: list[Framing] | Missing, house: House) -> bool:
    """Return whether there are members, all of which stand on piers or footings without posts."""
    return not is_missing(found) and bool(found) and all(_stands_on_ground(part, house) for part in found)


def _lies_on_ground(group: Group, work: Work, house: House) -> bool:
    """Return whether a slab is all that there is, as of a porch without a roof."""
    return (
        work.kind != "carport"
        and all(_base(s, house) == "slab" and s.roofed is not True for s in group)
        and (work.kind == "deck" or all(space.roofed is False for space in group))
    )


def _stands_on_ground(part: Framing, house: House) -> bool:
    """Return whether each end of a member bears on a footing, pier or foundation wall, or on the house."""
    if not isinstance(part, Member) or not part.bears_on:
        return False
    under = [
        end.onto if is_missing(end.on) else getattr(house.project.by_id.get(end.on), "kind", "")
        for end in part.bears_on
    ]
    return any(one in SOLID_FEET for one in under) and not any(one in ("member", "nothing") for one in under)


def each(work: Work, house: House, what: str, look: Callable[[Group], Any], else_why: str) -> Check:
    """Return the check of a line that each group of spaces of a work takes, as `look` finds it.

    `look` returns the parts that show it, what is missing, or None where that group does not take it (`else_why`).
    """
    if not any(isinstance(part, Space) for part in work.parts):
        return to_show(what, work)
    found = [look(group) for group in groups(work, house)]
    absent = missing_of(*found)
    if absent is not None:
        return to_show("", work, absent)
    parts = list(_flat(one for one in found if one is not None))
    return shown(*parts) if parts else does_not_apply(else_why)


def _flat(found: Iterable[Iterable[Any]]) -> Iterable[Any]:
    return {part.id: part for group in found for part in group}.values()
