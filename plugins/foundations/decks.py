"""Decks that stand on posts all around, so that nothing of them hangs on the house."""

from __future__ import annotations

from precheck_plugins.foundations.posts import PostsOf, feet_of

from precheck import Footing, House, Member, Work, Works, is_missing

ON_GROUND = ("footing", "pier", "slab")


def carries_free_deck(footing: Footing, house: House) -> bool:
    """Return whether `footing` carries posts of a deck alone, and the deck as drawn touches the house nowhere.

    Its joists have to be drawn: a deck of which nothing tells what carries it may hang on the house.
    """
    if not _stands_alone(house):
        return False
    works = [work for work in Works.of(house).works if _stand_on(footing, work, house)]
    return bool(works) and all(work.kind == "deck" for work in works)


def _stand_on(footing: Footing, work: Work, house: House) -> bool:
    return any(footing in feet_of(post, house) for post in PostsOf.of(work, house).posts)


def _stands_alone(house: House) -> bool:
    joists = [one for one in house.project.members if one.role == "deck joist" and not one.is_removed]
    ledgers = [one for one in house.project.ledgers if not one.is_removed]
    return bool(joists) and not ledgers and all(_comes_down(joist, house) for joist in joists)


def _comes_down(member: Member, house: House, seen: tuple[Member, ...] = ()) -> bool:
    """Return whether every end of `member` is known to come down to the ground, through other members or at once."""
    if member in seen or not member.bears_on:
        return False
    for end in member.bears_on:
        below = None if is_missing(end.on) else house.project.by_id.get(end.on)
        on_member = isinstance(below, Member) and _comes_down(below, house, (*seen, member))
        if not (on_member or isinstance(below, Footing) or end.onto in ON_GROUND):
            return False
    return True
