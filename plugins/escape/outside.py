"""What is outside an egress opening: it leads to the open, and under a deck or porch there is room to crawl out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.escape.best import is_enclosed
from precheck_plugins.escape.openings import EscapeOpening

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Space,
    all_of,
    at_least,
    broken,
    fact,
    is_under,
    one_of,
    rule,
)

UNDER = {"under deck": ("deck", "porch"), "porch": ("porch", "deck"), "garage": ("garage",), "carport": ("carport",)}


@fact
class EscapeWay(EscapeOpening):
    """An egress opening with what lies outside it. The way is new where the work builds something there."""

    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[EscapeWay]:
        """Yield the way out of every egress opening."""
        for way in house.subjects(EscapeOpening):
            known = (way.about, way.room, way.opening, way.sill, way.chosen, way.room_phase, way.level, way.outside)
            yield cls(*known, way.replaced, house)

    @property
    def phase(self) -> Any:
        """``new`` where what lies outside is new or altered, or is said to be of a kind that the work builds.

        A window that takes the place of another leaves what lies outside as it stands.
        """
        own = "existing" if self.is_replacement else super().phase
        built = [space for space in self.house.spaces if space.phase in ("new", "altered")]
        kinds = UNDER.get(str(self.opening.opens_to), ())
        near = any(space in self.outside or (not self.outside and space.use in kinds) for space in built)
        return "new" if own == "existing" and near else own

    @property
    def into(self) -> Space | None:
        """The room or garage that it opens into, whatever is said of a yard."""
        return next((s for s in self.outside if is_enclosed(s) and s.use != "carport"), None)

    @property
    def ground(self) -> Any:
        """What it opens to: a carport that is drawn outside, else as stated."""
        carport = any(space.use == "carport" for space in self.outside)
        return "carport" if carport else self.opening.opens_to

    @property
    def is_under(self) -> bool:
        """Whether a deck or porch is over it, as stated or as drawn."""
        over = (is_under(space, self.room, self.opening, self.house) for space in self.outside)
        return self.opening.opens_to in ("under deck", "porch") or any(over)


class WayOutLimits(Limits):
    leads_to: Limit[tuple[str, ...]]
    path_width: Limit[Length]
    path_from_enclosed_yard: Limit[Length]
    path_height: Limit[Length]
    path_under_deck: Limit[Length]


@rule("escape.way-out")
def way_out(way: EscapeWay, limit: WayOutLimits) -> Check:
    """The egress opening leads to a street, or to a yard or court that opens to one, and not into another room.

    What the work builds before or over it counts: under a deck or porch there is a path to crawl out.
    """
    opening, move = way.opening, "move the opening to a wall on a yard that reaches the street"
    if way.into is not None:
        told = f"{opening.id} of {way.room.id} opens into {way.into.id}, not to the outside"
        return broken(told, limit.leads_to).or_fix(move)
    leads = one_of(way.ground, limit.leads_to).or_fix(move)
    if way.is_under:
        return all_of(
            leads,
            at_least(opening.path_height, limit.path_height).or_fix(
                lambda: f"raise the deck to leave {limit.path_height.value} clear, or move the opening clear of it",
                lambda: [NewValue(opening, "path_height", limit.path_height.value)],
            ),
            at_least(opening.path_width, limit.path_under_deck).or_fix(
                lambda: f"clear a path {limit.path_under_deck.value} wide under the deck",
                lambda: [NewValue(opening, "path_width", limit.path_under_deck.value)],
            ),
        )
    if opening.opens_to == "closed yard":
        return all_of(leads, _wide(way, limit.path_from_enclosed_yard))
    if opening.opens_to in ("yard to public way", "court"):
        return all_of(leads, _wide(way, limit.path_width))
    return leads


def _wide(way: EscapeWay, least: Limit[Length]) -> Check:
    return at_least(way.opening.path_width, least).or_fix(
        lambda: f"keep {least.value} clear all the way to the street",
        lambda: [NewValue(way.opening, "path_width", least.value)],
    )
