"""A detached garage close to the house: what its walls carry inside, and what may open in them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.separation.board import board, lined
from precheck_plugins.separation.boundaries import phase_among
from precheck_plugins.separation.openings import DoorLimits, of_kind

from precheck import (
    Check,
    Door,
    Duration,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    Opening,
    Space,
    Wall,
    at_least,
    at_most,
    decide,
    does_not_apply,
    edges,
    fact,
    is_missing,
    is_outdoors,
    reads,
    rule,
    stretch_of,
    to_outline,
    when_given,
)


class DetachedLimits(Limits):
    exempt_from: Limit[Length]
    gypsum: Limit[Length]


@rule("separation.detached", stage="final")
def detached(space: Space, limit: DetachedLimits, house: House) -> Check:
    """A detached garage close to the house on the same lot carries gypsum board inside the walls that are close."""
    if space.use != "garage" or space.detached is not True:
        return does_not_apply("not a detached garage")
    if limit.exempt_from.value is None:
        return does_not_apply("the adopted code sets no distance for detached garages")
    near = when_given(lambda away, least: away < least, _distance(space, house), limit.exempt_from.value)
    walls = [w for w in house.subjects(Wall) if space.id in w.between and not w.is_removed]
    inside = [_finish(wall, space, limit.gypsum) for wall in walls] or [space.absent("finish inside its walls")]
    board_inside = at_least(when_given(min, *inside) if len(inside) > 1 else inside[0], limit.gypsum).or_fix(
        lambda: f"line the walls nearest the house with {limit.gypsum.value} gypsum board",
        lambda: [change for wall in walls for change in lined(wall, space.id, limit.gypsum.value)],
    )
    return decide(near, board_inside, does_not_apply(f"it stands {_distance(space, house)} from the house"))


def _finish(wall: Wall, space: Space, due: Limit[Length]) -> Length | Missing:
    """Return the board on the side of `space`: of every face drawn there, the thinnest."""
    finish = wall.finish_on(space.id)
    return finish if is_missing(finish) else board(finish, due)


@fact
class DetachedOpening(Fact):
    """A door or window of a detached garage, and how far it stands from the nearest room of the house."""

    opening: Opening
    garage: Space
    away: Length | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[DetachedOpening]:
        """Yield every door for people and every window in the outside walls of a detached garage."""
        for garage in house.spaces:
            if garage.use != "garage" or garage.detached is not True:
                continue
            for opening in house.openings_of(garage):
                sides = opening.between if isinstance(opening, Door) else ("outside",)
                overhead = isinstance(opening, Door) and opening.operation == "vehicle"
                if not overhead and any(is_outdoors(side, house) for side in sides):
                    yield cls(opening, opening, garage, _away(opening, garage, house))

    @property
    def phase(self) -> Any:
        """New where the garage or the opening is."""
        return phase_among(self.opening, self.garage)


class DetachedOpeningLimits(DoorLimits):
    exempt_from: Limit[Length] = reads("separation.detached.exempt-from")
    windows: Limit[int] = reads("separation.window.openings")
    wood: Limit[Length] = reads("separation.door.wood")
    steel: Limit[Length] = reads("separation.door.steel")
    rating: Limit[Duration] = reads("separation.door.rating")


@rule("separation.detached-openings", stage="plan")
def detached_openings(found: DetachedOpening, limit: DetachedOpeningLimits, house: House) -> Check:
    """In the walls of a detached garage that stand close to the house, doors are of the kinds for garages, and no window is.

    Which wall an opening is in, and how far that is from the house, is measured in the plan.
    """
    if limit.exempt_from.value is None:
        return does_not_apply("the adopted code sets no distance for detached garages")
    garage = found.garage
    far = does_not_apply(f"it stands {found.away} from the house")
    stands = _distance(garage, house)
    whole = when_given(lambda away, least: away < least, stands, limit.exempt_from.value)
    own = when_given(lambda away, least: away < least, found.away, limit.exempt_from.value)
    if whole is False or own is False:
        return far if own is False else does_not_apply(f"{garage.id} stands {stands} from the house")
    return decide(own if whole is True or not is_missing(own) else whole, _as_between(found, limit), far)


def _as_between(found: DetachedOpening, limit: DetachedOpeningLimits) -> Check:
    if isinstance(found.opening, Door):
        return of_kind(found.opening, limit)
    how = f"{found.opening.id} stands in a wall of {found.garage.id} that faces the house"
    return at_most(1, limit.windows, how).or_fix("close it up, or move it to a wall that is farther from the house")


def _distance(garage: Space, house: House) -> Length | Missing:
    """Return how far a detached garage stands from the house: as stated or as drawn, whichever is nearer."""
    own = house.outline(garage)
    drawn = [
        min(to_outline(edge, outline) for edge in edges(own))
        for space in house.spaces
        if own and space.detached is not True and space is not garage and not is_outdoors(space.id, house)
        and (outline := house.outline(space)) is not None
    ]  # fmt: skip
    stated = garage.distance_to_house
    return min(drawn) if drawn and is_missing(stated) else stated if is_missing(stated) else min([stated, *drawn])


def _away(opening: Opening, garage: Space, house: House) -> Length | Missing:
    stretch = stretch_of(opening, house)
    outlines = [house.outline(s) for s in house.spaces if s is not garage and not is_outdoors(s.id, house)]
    drawn = [outline for outline in outlines if outline is not None]
    if is_missing(stretch) or not drawn:
        return stretch if is_missing(stretch) else opening.absent("middle (its distance from the house)")
    return min(to_outline(stretch, outline) for outline in drawn)
