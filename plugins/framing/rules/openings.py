"""Headers and the openings that they are over: wide openings in walls that bear nothing, and headers over no opening."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.framing.lines.bearing import wall_bears
from precheck_plugins.framing.lines.openings import header_over

from precheck import (
    Check,
    Door,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Member,
    Opening,
    Settled,
    Window,
    decide,
    does_not_apply,
    fact,
    is_missing,
    met,
    not_shown,
    required,
    rule,
    when_given,
)


@fact
class FreeOpening(Fact):
    """A new or widened opening in a wall that is said to bear nothing."""

    opening: Opening
    header: Member | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[FreeOpening]:
        """Yield each of them that reaches up to a head; a cased opening counts."""
        openings: tuple[Opening, ...] = (*house.subjects(Door), *house.subjects(Window))
        for opening in openings:
            if opening.phase in ("new", "altered") and wall_bears(opening, house) is False:
                yield cls(opening, opening, header_over(opening, house))


class WideLimits(Limits):
    flat: Settled[Length]


@rule("framing.nonbearing-header", stage="framing")
def nonbearing_header(free: FreeOpening, limit: WideLimits) -> Check:
    """A wide opening has a header also in a wall that bears nothing; over others a flat 2x4 will do."""
    if free.header is not None:
        return met(free.header.label)
    wide = when_given(lambda size, widest: size.width > widest, free.opening.unit_size, limit.flat.value)
    flat = does_not_apply(f"a flat 2x4 will do up to {limit.flat.value}")
    return decide(wide, not_shown(free.opening.absent("header")).citing(limit.flat), flat)


class PlaceLimits(Limits):
    told: Limit[bool]


@rule("framing.header-place", stage="plan")
def header_place(member: Member, limit: PlaceLimits) -> Check:
    """A new header says which opening it is over, or lies on the plan."""
    if member.role != "header" or member.phase != "new":
        return does_not_apply("no new header")
    placed = bool(member.openings) or any(not is_missing(at) for at in (member.from_, member.wall, member.over))
    return required(True if placed or member.spaces else member.absent("openings (that it is over)"), limit.told)
