"""What work on an existing house may not take away, and what it makes due: sprinklers; the appendix for such houses."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    OUTSIDE,
    Area,
    Check,
    DwellingUnit,
    Fact,
    House,
    Limit,
    Limits,
    Look,
    Missing,
    Opening,
    Part,
    Ratio,
    Scope,
    Space,
    Window,
    all_of,
    at_most,
    decide,
    does_not_apply,
    fact,
    is_missing,
    look_at,
    met,
    missing_of,
    required,
    rule,
)


@fact
class TakenAway(Fact):
    """Something that serves safety today and that the work removes or spoils, in a room that stays."""

    what: str
    why: str
    left: tuple[Part, ...]
    unsure: Missing | None = None

    @classmethod
    def found_in(cls, house: House) -> Iterator[TakenAway]:
        """Yield each removed escape opening, egress door and alarm, and each window that the work shuts in."""
        stays = [s for s in house.spaces if s.phase == "existing" or s.phase == "altered"]
        for space in stays:
            yield from _openings_taken(space, house)
            yield from _alarms_taken(space, house)
        yield from _egress_doors_taken(house)

    @property
    def phase(self) -> Any:
        """None: it is the work that takes it away."""
        return None


class LessSafeLimits(Limits):
    replaced: Limit[bool]


@rule("existing.no-less-safe", existing="must comply")
def no_less_safe(taken: TakenAway, limit: LessSafeLimits) -> Check:
    """Exits and alarms that the work takes away are replaced, so that the house is no less safe."""
    what = f"another {taken.what}" + (f" ({', '.join(p.id for p in taken.left)})" if taken.left else "")
    there = taken.unsure if taken.unsure is not None and not taken.left else bool(taken.left)
    return (
        required(there, limit.replaced, what if taken.left else f"{taken.what} left")
        .because(taken.why)
        .or_fix(f"keep the {taken.what}, or put another in its place")
    )


def _openings_taken(space: Space, house: House) -> Iterator[TakenAway]:
    if not space.is_sleeping or space.changes_use:
        return
    everything = [w for w in house.project.windows if w.space == space.id]
    doors = [d for d in house.project.doors if space.id in d.between and OUTSIDE in d.between]
    ways: list[Opening] = [o for o in (*everything, *doors) if not (isinstance(o, Window) and not o.can_open)]
    gone = [(o, why) for o in ways if (why := _gone(o, house))]
    left = tuple(o for o in ways if not _gone(o, house))
    if gone:
        opening, why = gone[0]
        yield TakenAway(opening, f"way out of {space.id}", why, left)


def _gone(opening: Opening, house: House) -> str:
    """Return why an opening no longer leads outdoors, or nothing where it does."""
    if opening.is_removed:
        return f"{opening.label} is removed"
    inside = "" if is_missing(opening.looks_under) else opening.looks_under
    covering = house.space(inside) if inside else None
    enclosed = covering is not None and covering.use not in ("porch", "deck", "carport") and not covering.is_removed
    if opening.opens_to == "garage" or enclosed:
        return f"{opening.label} will open into {covering.label if covering is not None else 'a garage'}"
    return ""


def _alarms_taken(space: Space, house: House) -> Iterator[TakenAway]:
    here = [a for a in house.project.alarms if a.space == space.id]
    for alarm in (a for a in here if a.is_removed):
        for what in () if is_missing(alarm.detects) else alarm.detects:
            left = tuple(a for a in here if not a.is_removed and not is_missing(a.detects) and what in a.detects)
            yield TakenAway(alarm, f"{what} alarm in {space.id}", f"{alarm.label} is removed", left)


def _egress_doors_taken(house: House) -> Iterator[TakenAway]:
    doors = [d for d in house.project.doors if d.required_egress is True]
    for unit in house.subjects(DwellingUnit):
        of_it = [(d, here) for d in doors if (here := unit.is_left_by(d)) is not False]
        gone = sorted((one for one in of_it if one[0].is_removed), key=lambda one: one[1] is not True)
        stay = [one for one in of_it if not one[0].is_removed]
        if gone:
            unsure = missing_of(gone[0][1], *(here for _, here in stay))
            left = tuple(d for d, here in stay if here is True)
            what = f"required egress door{f' of {unit.label}' if unit.name else ''}"
            yield TakenAway(gone[0][0], what, f"{gone[0][0].label} is removed", left, unsure)


class SprinklerLimits(Limits):
    new_house: Limit[bool]
    altered_share: Limit[Ratio]
    added_area: Limit[Area]
    extended: Limit[bool]


@rule("existing.sprinklers", stage="plan", existing="must comply")
def sprinklers(scope: Scope, limit: SprinklerLimits, house: House) -> Check:
    """A new dwelling has sprinklers; work on one without them adds none, unless the jurisdiction says otherwise.

    Where the house has sprinklers, they are carried on into what is new.
    """
    dwelling = house.project.dwelling
    has = house.project.absent("sprinklered of dwelling") if is_missing(dwelling) else dwelling.sprinklered
    new = required(has, limit.new_house).because("the house is new")
    return decide(scope.new_house, new, _existing_house(house, has, limit))


def _existing_house(house: House, has: bool | Missing, limit: SprinklerLimits) -> Check:
    dwelling = house.project.dwelling
    if has is True:
        extended = dwelling.sprinklers_extended
        new = next((s for s in house.spaces if s.phase == "new"), None)
        carried_on = required(extended, limit.extended)
        return carried_on.because(f"{new.label} is new, in a house with sprinklers") if new else _no_new_space()
    if limit.altered_share.value is None and limit.added_area.value is None:
        return does_not_apply(
            "sprinklers: not stated" if is_missing(has) else "work on a house without sprinklers adds none"
        )
    triggers = all_of(_share(house, limit), _added(house, limit))
    if triggers.outcome.word != "fail":
        return triggers
    return decide(has, met("the house has sprinklers"), triggers).or_fix("protect the house with sprinklers")


def _no_new_space() -> Check:
    return does_not_apply("no space is new, so that the sprinklers reach everywhere already")


def _share(house: House, limit: SprinklerLimits) -> Check:
    dwelling = house.project.dwelling
    share = house.project.absent("altered share of dwelling") if is_missing(dwelling) else dwelling.altered_share
    return at_most(share, limit.altered_share, "of the floor or roof is taken out or altered")


def _added(house: House, limit: SprinklerLimits) -> Check:
    if limit.added_area.value is None:
        return does_not_apply(limit.added_area.why_void or "no area is set")
    added: Area | Missing = Area(0)
    for space in house.spaces:
        if not space.is_vehicle and space.use not in ("porch", "deck"):
            added = added + house.area_gained(space)
    return at_most(added, limit.added_area, "floor area that is new")


class AppendixLimits(Limits):
    adopted: Limit[str]
    stair_width_stays: Limit[str]
    stair_headroom_stays: Limit[str]
    infeasible: Limit[str]


@rule("existing.appendix", stage="intake", existing="must comply")
def appendix(scope: Scope, limit: AppendixLimits) -> Check:
    """Where the appendix for existing houses is adopted, work on one may follow it instead of the rules for new work.

    Then a basement stair that is not altered otherwise keeps its width and headroom, and what cannot be built is the
    official's to decide.
    """
    if limit.adopted.value is None:
        return does_not_apply("the appendix for existing houses is not adopted here, as far as the ruleset says")
    granted = [
        text
        for relief, text in (
            (limit.stair_width_stays, "an unaltered basement stair keeps its width"),
            (limit.stair_headroom_stays, "and its headroom"),
            (limit.infeasible, "and what cannot be built may be met in another way that the official accepts"),
        )
        if relief.value is not None
    ]
    ask = look_at(
        Look.OFFICIAL, f"the appendix for existing houses is adopted; agree which work follows it: {', '.join(granted)}"
    )
    return decide(scope.new_house, does_not_apply("the house is new"), ask)
