"""Members that the work takes out: what carries in their place is on the plans."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Check,
    Door,
    Fact,
    House,
    Limit,
    Limits,
    Member,
    RoofFrame,
    Truss,
    Window,
    does_not_apply,
    fact,
    is_missing,
    met,
    not_shown,
    reads,
    rule,
)

CARRYING = ("new", "altered")
ROOF = ("rafter", "ceiling joist", "ridge board", "ridge beam", "hip or valley")
LEVEL = (*ROOF, "floor joist", "deck joist", "trimmer", "beam")  # what may carry or tie where one of them was
IN_WALLS, UPRIGHT = ("header", "beam"), ("post", "beam")


@fact
class TakenOut(Fact):
    """A joist, rafter, beam, header or post that goes."""

    member: Member

    @classmethod
    def found_in(cls, house: House) -> Iterator[TakenOut]:
        """Yield every member that goes."""
        for member in house.subjects(Member):
            if member.is_removed:
                yield cls(member, member)

    @property
    def phase(self) -> str:
        """New work: what it carried and tied stays, and something has to do it."""
        return "altered"

    @property
    def spaces(self) -> set[str]:
        """The spaces whose floor or roof it is part of."""
        return _spaces(self.member)


class TakenOutLimits(Limits):
    support: Limit[tuple[str, ...]] = reads("framing.load-path.support")


@rule("framing.taken-out", stage="plan")
def taken_out(gone: TakenOut, limit: TakenOutLimits, house: House) -> Check:
    """Where a joist, rafter, beam, header or post goes, the plans show what carries or ties in its place.

    Ceiling joists tie the rafters too, so a ceiling that is opened to the roof needs a ridge beam or ties higher up.
    """
    member = gone.member
    if why := _goes_with(gone, house):
        return does_not_apply(why)
    if (heir := _in_its_place(gone, house)) is not None:
        return met(f"{heir} is in its place")
    return not_shown(member.absent("what carries or ties in its place")).citing(limit.support)


def _goes_with(gone: TakenOut, house: House) -> str:
    """Return why nothing need take its place, or who else asks for it; empty if nothing tells."""
    member, by_id = gone.member, house.project.by_id
    bearing = [one for one in house.project.members if any(end.on == member.id for end in one.bears_on)]
    if bearing and all(one.is_removed for one in bearing):
        return "what bears on it goes"
    if bearing:
        return "what bears on it stays, and the rule for its load path asks"
    if gone.spaces and all((space := house.space(one)) is None or space.is_removed for one in gone.spaces):
        return "its space goes"
    openings = [by_id[one] for one in member.openings]
    if openings and all(isinstance(one, Door | Window) and one.is_removed for one in openings):
        return "its opening is closed"
    wall = None if is_missing(member.wall) else by_id[member.wall]
    return "its wall goes" if wall is not None and getattr(wall, "is_removed", False) else ""


def _in_its_place(gone: TakenOut, house: House) -> str | None:
    """Return the label of what is built where it was; what nothing places there may be anywhere, and does not count."""
    members = (one for one in house.project.members if one.phase in CARRYING and _is_there(gone, one))
    frames: tuple[RoofFrame | Truss, ...] = (*house.subjects(RoofFrame), *house.subjects(Truss))
    overhead = (
        one for one in frames if gone.member.role in ROOF and one.phase in CARRYING and gone.spaces & {*one.spaces}
    )
    return next((one.label for one in (*members, *overhead)), None)


def _is_there(gone: TakenOut, other: Member) -> bool:
    member = gone.member
    if other.role not in (UPRIGHT if member.role == "post" else IN_WALLS if member.role == "header" else LEVEL):
        return False
    if {*member.openings} & {*other.openings} or (not is_missing(member.wall) and other.wall == member.wall):
        return True
    return member.role != "header" and bool(gone.spaces & _spaces(other))


def _spaces(member: Member) -> set[str]:
    loaded = {str(load.space) for load in member.carries if not is_missing(load.space)}
    return loaded | set(member.spaces)
