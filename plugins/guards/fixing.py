"""How guards are fixed: the loads that they hold, and their posts on a deck."""

from __future__ import annotations

from precheck_plugins.guards.rules import DROP, of_required
from precheck_plugins.guards.sides import OPEN_BY_NATURE, OpenSide

from precheck import (
    Check,
    Force,
    House,
    Length,
    Limit,
    Limits,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    reads,
    required,
    rule,
    when_given,
)


class StrengthLimits(Limits):
    top: Limit[Force]
    infill: Limit[Force]
    shown: Limit[bool]
    drop: Limit[Length] = reads(DROP)


@rule("guards.strength", stage="framing")
def strength(side: OpenSide, limit: StrengthLimits) -> Check:
    """A required guard with its posts and their fixings holds a person who falls against it, as a document shows.

    That is a test report, a table of the maker or an engineer's detail, with the load at the top and that on the infill.
    """
    if side.is_solid:
        return does_not_apply("a wall stands along it")

    def held() -> Check:
        own = side.of_guard("fixing")
        return all_of(
            at_least(own.top_load, limit.top, "load at the top"),
            at_least(own.infill_load, limit.infill, "load on the infill"),
            required(when_given(bool, own.document), limit.shown),
        )

    return of_required(side, limit.drop, held)


class PostLimits(Limits):
    to_joists: Limit[bool]
    notched: Limit[int]
    drop: Limit[Length] = reads(DROP)


@rule("guards.deck-posts", stage="framing")
def deck_posts(side: OpenSide, limit: PostLimits, house: House) -> Check:
    """Posts of a guard on a deck pass their load to the joists, and wood posts are not notched where they are fixed."""
    space = house.space(side.of_guard("along")) if side.has_guard else None
    if space is None or side.is_solid:
        return does_not_apply("no guard on a deck or porch")

    def fixed() -> Check:
        own = side.of_guard("fixing")
        whole = at_most(when_given(int, own.notched), limit.notched, "notched posts")
        return all_of(
            required(own.to_joists, limit.to_joists),
            decide(own.wood_posts, whole, does_not_apply("its posts are not of wood")),
        )

    on_deck = when_given(lambda use: use in OPEN_BY_NATURE, space.use)
    return decide(on_deck, of_required(side, limit.drop, fixed), does_not_apply("it stands on no deck or porch"))
