"""What the rules around stairs are about: stairs inside the house, stairs outside it, and stairs to attic storage."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Fact,
    House,
    Length,
    Light,
    Limit,
    Missing,
    Space,
    Stair,
    all_risers,
    fact,
    is_missing,
    is_outdoors,
    outline_of,
    overlap,
    rooms_newly_served,
    thickness_of,
    upper_space,
    when_given,
)


@fact
class InsideStair(Fact):
    """A stair within the house; a pull-down stair is no stairway.

    `serves` are rooms made on a story where nobody lived: the stair to it is judged with them, though it stands.
    """

    stair: Stair
    risers: int | Missing
    serves: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[InsideStair]:
        """Yield every stair with both ends indoors."""
        for stair in house.subjects(Stair):
            if stair.form != "pull-down" and not any(is_outdoors(side, house) for side in stair.between):
                yield cls(stair, stair, all_risers(stair), rooms_newly_served(stair, house))

    def lining(self, due: Limit[Length]) -> Length | Missing:
        """Return how thick the gypsum board is that lines the space beneath.

        A layer without a thickness leaves it open, unless the others alone make up what is `due`.
        """
        beneath = self.stair.beneath
        if is_missing(beneath) or not beneath.cover:
            return self.stair.absent("cover of the space beneath")
        boards = tuple(layer for layer in beneath.cover if layer.is_gypsum_board)
        known = thickness_of(tuple(layer for layer in boards if not is_missing(layer.thickness)))
        enough = when_given(lambda own, least: bool(own >= least), known, due.value or Length(1))
        return known if enough is True else thickness_of(boards)


@fact
class BeneathStair(Fact):
    """An inside stair and the spaces, other than those that it joins, that are drawn under it: a new closet there is new."""

    inside: InsideStair
    spaces: tuple[Space, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[BeneathStair]:
        """Yield every stair with both ends indoors."""
        for inside in house.subjects(InsideStair):
            yield cls(inside.stair, inside, tuple(_drawn_under(inside.stair, house)))

    @property
    def phase(self) -> Any:
        """As that of the stair, or ``new`` where what is under it is made."""
        made = any(space.phase in ("new", "altered") for space in self.spaces)
        return "new" if made and self.inside.phase == "existing" else self.inside.phase


def _drawn_under(stair: Stair, house: House) -> Iterator[Space]:
    foot = house.space(house.ends(stair)[0])
    if is_missing(stair.rectangle) or foot is None:
        return
    for space in house.spaces:
        outline, apart = house.outline(space), space.id not in stair.between
        here = is_missing(space.story) or is_missing(foot.story) or space.story == foot.story
        if outline is not None and apart and here and overlap(outline_of(stair.rectangle), outline).n > 0:
            yield space


def lit(inside: InsideStair, house: House) -> bool | Missing:
    """Return whether the stair has a light: as stated, else as one is drawn over it."""
    stated = inside.stair.lighting.light
    return True if is_missing(stated) and _lights_over(inside.stair, house) else stated


def switched_at_both(inside: InsideStair, house: House) -> bool | Missing:
    """Return whether a light of the stair is switched at each floor: as stated, else as one drawn over it is."""
    stated = inside.stair.lighting.switch_at_each_floor
    lights = [light for light in _lights_over(inside.stair, house) if light.switched_at]
    if not is_missing(stated) or not lights:
        return stated
    return any(set(inside.stair.between).issubset(light.switched_at) for light in lights)


def _lights_over(stair: Stair, house: House) -> list[Light]:
    return [light for light in house.subjects(Light) if light.over_stair == stair.id and not light.is_removed]


@fact
class OutsideStair(Fact):
    """A stair in the open. `to_basement` where it leads down into a basement, by its story."""

    stair: Stair
    to_basement: bool | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[OutsideStair]:
        """Yield every stair with an end outdoors."""
        for stair in house.subjects(Stair):
            if any(is_outdoors(side, house) for side in stair.between):
                yield cls(stair, stair, _to_basement(stair, house))


@fact
class StorageStair(Fact):
    """A fixed stair to an attic that serves as storage."""

    stair: Stair
    attic: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[StorageStair]:
        """Yield every stair whose upper end is an attic in which nobody lives."""
        for stair in house.subjects(Stair):
            top = upper_space(stair, house)
            if top is not None and top.use == "attic" and not top.is_habitable:
                yield cls(stair, stair, top)


def _to_basement(stair: Stair, house: House) -> bool | Missing:
    lower = house.space(house.ends(stair)[0])
    basements = [story for story in house.project.stories if story.level == "basement"]
    unknown = [story for story in house.project.stories if is_missing(story.level)]
    if lower is None or is_outdoors(lower.id, house) or not (basements or unknown):
        return False
    return when_given(lambda level: level == "basement", house.story_level(lower))
