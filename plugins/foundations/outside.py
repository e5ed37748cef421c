"""Footings that stand in the open: what outside walls, and the posts of decks, porches and carports, come down on."""

from __future__ import annotations

from precheck_plugins.foundations.posts import PostsOf, feet_of

from precheck import Footing, FoundationWall, House, Part, Works, faces_out, is_missing

OPEN_WORKS = ("deck", "porch", "carport")


def stands_outside(footing: Footing, house: House) -> str | None:
    """Return what of the outside stands on `footing`: an outside wall or a post in the open; None where nothing drawn does."""
    walls = (wall for wall in house.project.walls if not wall.is_removed and faces_out(wall, house))
    on_it = (
        wall
        for wall in walls
        if not is_missing(wall.footing) and _rests_on(house.project.by_id.get(wall.footing), footing)
    )
    found: Part | None = next(on_it, None)
    if found is None:
        posts = (post for work in Works.of(house).of_kinds(*OPEN_WORKS) for post in PostsOf.of(work, house).posts)
        found = next((post for post in posts if footing in feet_of(post, house)), None)
    return None if found is None else found.label


def _rests_on(below: Part | None, footing: Footing) -> bool:
    return below is footing or (isinstance(below, FoundationWall) and below.footing == footing.id)
