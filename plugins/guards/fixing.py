"""How guards are fixed: the loads that they hold, and their posts on a deck."""

from __future__ import annotations

from typing import Any

from precheck_plugins.guards.rules import DROP, of_required
from precheck_plugins.guards.sides import OPEN_BY_NATURE, OpenSide

from precheck import (
    Check,
    Force,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    all_of,
    at_least,
    decide,
    does_not_apply,
    if_stated,
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

    That is a test report, a table of the manufacturer or an engineer's detail. The loads that it is for are held against
    the limits where the plans state them.
    """
    if side.is_solid:
        return does_not_apply("a wall stands along it")

    def held() -> Check:
        own = side.of_guard("fixing")
        return all_of(
            if_stated(own.top_load, at_least, limit.top, "load at the top"),
            if_stated(own.infill_load, at_least, limit.infill, "load on the infill"),
            required(when_given(bool, own.document), limit.shown),
        )

    return of_required(side, limit.drop, held)


class PostLimits(Limits):
    to_joists: Limit[bool]
    whole: Limit[bool]
    sizes: Limit[tuple[str, ...]]
    drop: Limit[Length] = reads(DROP)


@rule("guards.deck-posts", stage="framing")
def deck_posts(side: OpenSide, limit: PostLimits, house: House) -> Check:
    """Guard posts on a deck are fixed to the joists, and 4x4 wood posts are not notched where they are fixed."""
    space = house.space(side.of_guard("along")) if side.has_guard else None
    if space is None or side.is_solid:
        return does_not_apply("no guard on a deck or porch")

    def fixed() -> Check:
        own = side.of_guard("fixing")
        joined = required(own.to_joists, limit.to_joists).or_fix(
            "fix the posts to the joists or to blocking between them", lambda: [NewValue(own, "to_joists", "yes")]
        )
        wood = decide(own.wood_posts, _whole(own, limit), does_not_apply("its posts are not of wood"))
        return all_of(joined, wood)

    on_deck = when_given(lambda use: use in OPEN_BY_NATURE, space.use)
    return decide(on_deck, of_required(side, limit.drop, fixed), does_not_apply("it stands on no deck or porch"))


def _whole(own: Any, limit: PostLimits) -> Check:
    """Return whether the posts stand whole; larger ones than the sizes that the limit names may be notched."""
    whole = required(when_given(lambda cut: not cut, own.notched), limit.whole).or_fix(
        "fix the posts without a notch, or use larger posts", lambda: [NewValue(own, "notched", "no")]
    )
    small = when_given(lambda size, named: _nominal(size) in named, own.post_size, limit.sizes.value or ())
    return decide(small, whole, does_not_apply("posts of this size may be notched"))


def _nominal(size: str) -> str:
    """Return a nominal size as the limit writes it."""
    return f"nominal {size.lower().replace(' ', '')}"
