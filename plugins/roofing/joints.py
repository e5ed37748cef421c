"""Where a roof meets walls and what comes through it, and where its water goes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck import (
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Roof,
    RoofOpening,
    WallJoint,
    Works,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    is_missing,
    met,
    required,
    rule,
    when_given,
)


class WallJointLimits(Limits):
    height: Limit[Length]
    width: Limit[Length]
    metal: Limit[Length]
    kick_out: Limit[bool]


@rule("roofing.wall-joint", stage="framing")
def wall_joint(joint: WallJoint, limit: WallJointLimits) -> Check:
    """Sidewall flashing goes up the wall and onto the roof, and ends in a kick-out."""
    return all_of(
        at_least(joint.height, limit.height),
        at_least(joint.width, limit.width),
        at_least(joint.metal_thickness, limit.metal),
        required(joint.kick_out, limit.kick_out).or_fix(
            "turn the lowest piece out, so that water goes onto the roof or into the gutter and not behind the siding"
        ),
    )


class RoofOpeningLimits(Limits):
    flashed: Limit[bool]
    cricket_above: Limit[Length]
    cricket: Limit[bool]


@rule("roofing.opening", stage="framing")
def opening(opening: RoofOpening, limit: RoofOpeningLimits) -> Check:
    """Roof penetrations are flashed, and a wide chimney has a cricket."""
    flashed = required(opening.flashed, limit.flashed)
    narrow = at_most(opening.width, limit.cricket_above)
    cricket = required(opening.cricket, limit.cricket)
    wide = opening.width if is_missing(opening.width) else narrow.outcome == narrow.outcome.FAIL
    if opening.what == "curbed skylight":
        return flashed
    return all_of(flashed, decide(wide, cricket, met(f"no wider than {limit.cricket_above.value}")))


@fact
class Chimney(Fact):
    """What comes through a roof; `beside_new_story` says that a story is built on a house whose roof there stays."""

    opening: RoofOpening
    beside_new_story: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[Chimney]:
        """Yield everything that comes through a roof."""
        taller = Works.of(house).add_a_story
        for opening in house.subjects(RoofOpening):
            yield cls(opening, opening, taller and opening.owner.is_existing)

    @property
    def phase(self) -> Any:
        """``altered`` for an old one that the new story may stand higher than."""
        return self.opening.owner.phase_where(self.beside_new_story)


class ChimneyLimits(Limits):
    above_roof: Limit[Length]
    above_nearby: Limit[Length]
    within: Limit[Length]


@rule("roofing.chimney-height", stage="framing")
def chimney_height(chimney: Chimney, limit: ChimneyLimits) -> Check:
    """A chimney ends high enough above the roof and above nearby parts of the building; an old one above a new story."""
    opening = chimney.opening
    if opening.what != "chimney":
        return does_not_apply("not a chimney")
    near = when_given(lambda own, most: most is None or own <= most, opening.nearby_distance, limit.within.value)
    over = opening.height_above_roof - opening.nearby_above_roof
    how = f"{opening.height_above_roof} less {opening.nearby_above_roof} of what is near"
    higher = at_least(over, limit.above_nearby, how).or_fix("raise the chimney")
    above_near = decide(near, higher, met(f"nothing within {limit.within.value}"))
    if chimney.beside_new_story:
        return above_near
    return all_of(at_least(opening.height_above_roof, limit.above_roof).or_fix("raise the chimney"), above_near)


class DrainageLimits(Limits):
    from_foundation: Limit[Length]
    at_low_points: Limit[bool]
    overflow: Limit[Length]


@rule("roofing.drainage", stage="final")
def drainage(roof: Roof, limit: DrainageLimits) -> Check:
    """Roof water discharges away from the foundation, and a roof inside parapets has drains and an overflow.

    The distance is asked on soils that expand or collapse; elsewhere it is good practice.
    """
    drains = roof.drainage
    if is_missing(drains):
        return does_not_apply("no roof drainage is drawn")
    overflow = all_of(
        required(drains.drains_at_low_points, limit.at_low_points),
        at_least(drains.overflow_above_low_point, limit.overflow),
        at_most(drains.overflow_above_low_point, replace(limit.overflow, sense="maximum")),  # it stands just there
    )
    led_away = at_least(drains.discharge_from_foundation, limit.from_foundation).or_fix("lengthen the downspouts")
    return all_of(led_away, decide(drains.inside_parapets, overflow, met("it runs off over the edge")))
