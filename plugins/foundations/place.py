"""What the house on a foundation is."""

from __future__ import annotations

from precheck import House, Missing, when_given

ABOVE_GROUND = ("ground", "upper")


def stories_of(house: House) -> int | Missing:
    """Return how many stories stand above ground."""
    stories = house.project.stories
    if not stories:
        return house.project.absent("stories")
    return when_given(lambda *levels: sum(level in ABOVE_GROUND for level in levels), *(s.level for s in stories))
