"""Separation of the dwelling units of a two-family house or of townhouses: walls, floors, and how far walls go up and down."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.separation.board import board, ceiling_board, is_type_x
from precheck_plugins.separation.boundaries import phase_among

from precheck import (
    SHARED,
    Check,
    Duration,
    Fact,
    Floor,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Outcome,
    Space,
    Wall,
    all_of,
    at_least,
    decide,
    does_not_apply,
    fact,
    is_missing,
    is_outdoors,
    look_at,
    met,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)


@fact
class UnitWall(Fact):
    """A wall between spaces of two dwelling units, or of which one does not say its unit. `wall` is None if not drawn."""

    one: Space
    other: Space
    wall: Wall | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[UnitWall]:
        """Yield each wall between two such spaces; stated, or derived where the outlines meet."""
        spaces = house.spaces if _has_units(house) else ()
        for index, one in enumerate(spaces):
            beside = {space.id for space in house.beside(one)}
            for other in spaces[index + 1 :]:
                if other.id in beside and _may_differ(one, other, house):
                    walls = house.walls_between(one, other) or (None,)
                    yield from (cls(wall or one, one, other, wall) for wall in walls)

    @property
    def label(self) -> str:
        """The wall, or the two spaces whose wall no sheet draws."""
        return self.wall.label if self.wall is not None else f"wall between {self.one.id} and {self.other.id}"

    @property
    def phase(self) -> Any:
        """A boundary that the work makes is new, whatever stood there before."""
        return phase_among(self.wall, self.one, self.other)

    @property
    def rating(self) -> Duration | Missing:
        """The fire rating of the wall."""
        return self.one.absent(f"wall to {self.other.id}") if self.wall is None else self.wall.fire_rating


@fact
class UnitFloor(Fact):
    """A space of one dwelling unit over one of another, or of which one does not say its unit."""

    below: Space
    above: Space
    floor: Floor | None
    rating: Duration | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[UnitFloor]:
        """Yield each pair of such spaces, one over the other."""
        for below in house.spaces if _has_units(house) else ():
            for above in house.above(below):
                if _may_differ(below, above, house):
                    floor = house.floor(above)
                    yield cls(above, below, above, floor, above.absent("floor") if floor is None else floor.fire_rating)

    @property
    def label(self) -> str:
        """The two spaces."""
        return f"floor between {self.below.id} and {self.above.id}"

    @property
    def phase(self) -> Any:
        """A boundary that the work makes is new, whatever stood there before."""
        return phase_among(self.floor, self.below, self.above)


@fact
class PartyWall(Fact):
    """All the walls between the same two dwelling units."""

    units: tuple[str, str]
    walls: tuple[UnitWall, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[PartyWall]:
        """Yield the walls between each two units that have a wall drawn."""
        found: dict[tuple[str, str], list[UnitWall]] = {}
        for part in house.subjects(UnitWall):
            units = [space.unit for space in (part.one, part.other)]
            if part.wall is not None and not any(is_missing(unit) or unit == SHARED for unit in units):
                found.setdefault((min(map(str, units)), max(map(str, units))), []).append(part)
        for pair, walls in found.items():
            yield cls(walls[0].about, pair, tuple(walls))

    @property
    def label(self) -> str:
        """The two units."""
        return f"walls between units {self.units[0]} and {self.units[1]}"

    @property
    def phase(self) -> Any:
        """New where any of its walls is."""
        return next((part.phase for part in self.walls if part.phase != "existing"), "existing")

    def on(self, end: int, house: House) -> list[UnitWall]:
        """Return its walls on the lowest (0) or highest (-1) story; those on none that is placed count as on both."""
        ranked = [(w, house.story_order.rank(w.wall.story)) for w in self.walls if w.wall]
        levels = sorted({rank for _, rank in ranked if rank is not None})
        return [w for w, rank in ranked if rank is None or rank == levels[end]]


def _has_units(house: House) -> bool:
    return any(not is_missing(space.unit) and space.unit != SHARED for space in house.spaces)


def _may_differ(one: Space, other: Space, house: House) -> bool:
    """Return whether two spaces belong to different units, or one does not say; two that do not are not asked about."""
    if is_outdoors(one.id, house) or is_outdoors(other.id, house):
        return False
    return one.unit != other.unit and not (is_missing(one.unit) and is_missing(other.unit))


def _of_dwelling(key: str, house: House) -> Any:
    dwelling = house.project.dwelling
    return house.project.absent(f"{key} of dwelling") if is_missing(dwelling) else getattr(dwelling, key)


class UnitLimits(Limits):
    two_family: Limit[Duration]
    two_family_sprinklered: Limit[Duration]
    townhouse: Limit[Duration]
    townhouse_sprinklered: Limit[Duration]


@rule("separation.unit-wall", stage="plan")
def unit_wall(part: UnitWall, limit: UnitLimits, house: House) -> Check:
    """The wall between two dwelling units has a fire rating by test: more between townhouses, less with sprinklers.

    In a two-family house the lower rating asks for the full sprinkler system (NFPA 13), which the official confirms.
    """
    unsaid = missing_of(part.one.unit, part.other.unit)
    if unsaid is not None:
        return not_shown(unsaid)
    usual = at_least(part.rating, limit.townhouse, "the wall between townhouses")
    sprinklered = at_least(part.rating, limit.townhouse_sprinklered, "the wall between townhouses with sprinklers")
    townhouse = decide(_of_dwelling("sprinklered", house), sprinklered, usual).or_fix(
        lambda: f"a tested common wall of {limit.townhouse.value}, or two walls that are rated each by themselves",
        lambda: _rated(part.wall, limit.townhouse),
        decide="which way to take",
    )
    is_townhouse = when_given(lambda form: form == "townhouse", _of_dwelling("form", house))
    check = decide(is_townhouse, townhouse, _of_two_families(part.rating, limit, house, part.wall))
    return _if_of_two_units(check, part.one, part.other)


class FloorLimits(Limits):
    two_family: Limit[Duration] = reads("separation.unit-wall.two-family")
    two_family_sprinklered: Limit[Duration] = reads("separation.unit-wall.two-family-sprinklered")


@rule("separation.unit-floor", stage="plan")
def unit_floor(part: UnitFloor, limit: FloorLimits, house: House) -> Check:
    """The floor between a dwelling unit and another one over it has the fire rating of the walls between them.

    What holds it up has the same rating. Townhouses stand side by side, so that units over each other are none.
    """
    unsaid = missing_of(part.below.unit, part.above.unit)
    if unsaid is not None:
        return not_shown(unsaid)
    if house.project.dwelling.form == "townhouse":
        return look_at(Look.OFFICIAL, "a townhouse reaches from foundation to roof; units over each other are none")
    held = _if_of_two_units(_of_two_families(part.rating, limit, house, part.floor), part.below, part.above)
    form = house.project.dwelling.form
    return all_of(held, does_not_apply("form of the dwelling: not stated")) if is_missing(form) else held


def _if_of_two_units(check: Check, one: Space, other: Space) -> Check:
    """Return `check`, or that a person should look where it is not met and one side is shared by the units."""
    if check.outcome in (Outcome.FAIL, Outcome.NOT_SHOWN) and SHARED in (one.unit, other.unit):
        return look_at(Look.OFFICIAL, "the units share one of the spaces; ask what has to part it from each of them")
    return check


def _rated(part: Wall | Floor | None, rating: Limit[Duration]) -> list[NewValue]:
    return [] if part is None else [NewValue(part, "fire_rating", rating.value)]


def _of_two_families(
    rating: Duration | Missing, limit: UnitLimits | FloorLimits, house: House, part: Wall | Floor | None
) -> Check:
    what = "wall" if isinstance(limit, UnitLimits) else "floor and what holds it up"
    full = at_least(rating, limit.two_family).or_fix(
        lambda: f"a tested assembly of {limit.two_family.value} for the {what}", lambda: _rated(part, limit.two_family)
    )
    half = at_least(rating, limit.two_family_sprinklered, "with sprinklers throughout")
    if full.outcome is not Outcome.FAIL or half.outcome is Outcome.FAIL or limit.two_family_sprinklered.value is None:
        return full
    told = f"{rating} does only with the full sprinkler system (NFPA 13) in both units, which the official confirms"
    return decide(_of_dwelling("sprinklered", house), look_at(Look.OFFICIAL, told), full)


class ContinuityLimits(Limits):
    to_roof: Limit[bool]
    to_foundation: Limit[bool]
    ceiling_gypsum: Limit[Length]
    ceiling_type_x: Limit[bool]
    support_gypsum: Limit[Length]
    draft_stop: Limit[bool]


@rule("separation.unit-continuity", stage="framing")
def unit_continuity(party: PartyWall, limit: ContinuityLimits, house: House) -> Check:
    """The wall between two dwelling units runs from the foundation to the underside of the roof deck.

    In a two-family house it may end at the ceiling where thick Type X board lies under the attic on both sides and a
    draft stop stands over the wall; the framing that holds that ceiling up is covered too.
    """
    top, bottom = party.on(-1, house), party.on(0, house)
    up = _all([w.wall.carried_to_roof_deck for w in top if w.wall])
    down = _all([w.wall.carried_to_foundation for w in bottom if w.wall])
    to_roof = required(up, limit.to_roof)
    if up is False and house.project.dwelling.form == "two-family":
        to_roof = _under_attic(top, limit, house)
    return all_of(to_roof, required(down, limit.to_foundation))


def _under_attic(top: list[UnitWall], limit: ContinuityLimits, house: House) -> Check:
    if limit.ceiling_gypsum.value is None:
        return does_not_apply("the adopted code knows no such ceiling")
    sides = {id(space): space for part in top for space in (part.one, part.other)}.values()
    thick = all_of(*(at_least(ceiling_board(space, limit.ceiling_gypsum), limit.ceiling_gypsum) for space in sides))
    rated = all_of(*(required(is_type_x(s, limit.ceiling_gypsum), limit.ceiling_type_x) for s in sides))
    stopped = _all([part.wall.draft_stop_above for part in top if part.wall])
    stop = required(stopped, limit.draft_stop)
    held = all_of(*(_held_up(space, limit, house) for space in sides))
    return all_of(thick, rated, held, stop, met("the wall ends at a ceiling that stands in for it")).or_fix(
        "carry the wall up to the roof deck"
    )


def _held_up(space: Space, limit: ContinuityLimits, house: House) -> Check:
    """Check that the posts, beams and walls that hold up the ceiling of `space` are covered."""
    drawn = [s for s in house.project.supports if s.space == space.id and not s.is_removed]
    covers = [board(s.cover, limit.support_gypsum) if s.cover else s.absent("cover") for s in drawn]
    covers = covers or [space.absent("supports of the ceiling, and their cover")]
    return all_of(*(at_least(cover, limit.support_gypsum) for cover in covers)).or_fix(
        lambda: f"cover what holds the ceiling up with {limit.support_gypsum.value} gypsum board"
    )


def _all(answers: list[bool | Missing]) -> bool | Missing:
    """Return whether all `answers` are yes; what is missing of them where none is no."""
    if any(answer is False for answer in answers):
        return False
    unsaid = missing_of(*answers)
    return True if unsaid is None else unsaid
