"""The yard: setbacks that grow with the wall, drives and walks, fences and walls, machines, the old vehicle door.

The jurisdiction sets every limit but where a wall may stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from precheck_plugins.zoning.lot_lines import FacingLine
from precheck_plugins.zoning.rules import MEASURED_FROM
from precheck_plugins.zoning.toward_line import OpeningsTowardLine

from precheck import (
    Check,
    Door,
    Driveway,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    LotLine,
    Missing,
    Ratio,
    Settled,
    Slope,
    Space,
    Window,
    YardEquipment,
    YardWall,
    all_of,
    ask_unless_set,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    is_missing,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

STREET = frozenset(("front", "street side"))


class ByHeightLimits(Limits):
    front: Limit[Ratio]
    side: Limit[Ratio]
    street_side: Limit[Ratio]
    rear: Limit[Ratio]
    side_steps: Limit[dict[str, Length]]
    measured_from: Limit[str] = reads("zoning.setback.measured-from")


@rule("zoning.setback-by-height", stage="intake")
def setback_by_height(side: FacingLine, limit: ByHeightLimits) -> Check:
    """Where the zone says so, a taller wall stands farther from the lot line: by a share of its height, or in steps.

    The height is from the ground to the eave. The steps say how far a wall stands that is taller than each of them.
    """
    if side.is_square or is_missing(side.line.side):
        return does_not_apply("the rule for setbacks asks which yard this is")
    share = getattr(limit, side.line.side.replace(" ", "_"))
    tall = side.of("wall height")
    grown = when_given(lambda own, part: own * part.n, tall, share.value) if share.value is not None else None
    told = limit.measured_from.value
    if isinstance(told, str) and told not in MEASURED_FROM:
        return does_not_apply("the rule for setbacks asks what they are measured from")
    away = side.edge_distance if told == "roof edge" else side.distance
    by_share = at_least(away, replace(share, value=grown), lambda: f"{share.value} of {tall} of wall")
    steps = limit.side_steps
    if side.line.side != "side":
        steps = replace(steps, value=None, why_void="steps by height are for side yards")
    open_ = steps.value is None or is_missing(steps.value)
    stepped = replace(steps, value=steps.value if open_ else _step(tall, steps.value))
    return all_of(by_share, at_least(away, stepped, lambda: f"wall {tall} high")).or_fix(
        "move it back from the line, lower the wall, or ask for a variance"
    )


def _step(tall: Any, rows: Any) -> Any:
    """Return the setback of the highest step that the wall is taller than; nothing where it is under them all."""
    steps = sorted((Length.parse(name.removeprefix("over ")), least) for name, least in rows.items())
    return when_given(lambda own: next((least for over, least in reversed(steps) if own > over), Length(0)), tall)


class DriveLimits(Limits):
    surfaces: Limit[tuple[str, ...]]
    minimum: Limit[Length]
    maximum: Limit[Slope]
    from_side_line: Limit[Length]


@rule("zoning.driveway", stage="intake")
def driveway(drive: Driveway, limit: DriveLimits) -> Check:
    """Where the place has rules for drives, a drive is paved as they say, wide enough, not too steep, off the side line."""
    return all_of(
        one_of(drive.surface, limit.surfaces),
        at_least(drive.width, limit.minimum),
        at_most(drive.slope, limit.maximum),
        at_least(drive.from_side_line, limit.from_side_line),
    )


class CutLimits(Limits):
    minimum: Limit[Length]
    maximum: Limit[Length]


@rule("zoning.driveway-cut", stage="intake")
def driveway_cut(drive: Driveway, limit: CutLimits) -> Check:
    """The cut at the street for a new or changed drive is as wide as the place lets it be, and no wider."""
    return all_of(
        ask_unless_set(limit.minimum) or at_least(drive.cut_width, limit.minimum),
        ask_unless_set(limit.maximum) or at_most(drive.cut_width, limit.maximum),
    )


class WalkLimits(Limits):
    width: Limit[Length]
    carried_across: Limit[bool]


@rule("zoning.sidewalk", stage="intake")
def sidewalk(drive: Driveway, limit: WalkLimits) -> Check:
    """Where the place asks for it, the walk along the street is wide enough and goes on across the drive."""
    return all_of(
        at_least(drive.sidewalk_width, limit.width), required(drive.sidewalk_carried_across, limit.carried_across)
    )


class WallLimits(Limits):
    inside: Limit[Length]
    from_street: Limit[Length]
    easements: Limit[int] = reads("zoning.easement.spaces")


@rule("zoning.yard-wall", stage="intake")
def yard_wall(wall: YardWall, limit: WallLimits, house: House) -> Check:
    """A fence or wall stands on its own lot: not beyond the line, in the right-of-way or in an easement.

    What it holds up and how tall it may be are asked of retaining walls and of permits.
    """
    line = None if is_missing(wall.line) else house.project.by_id[wall.line]
    side = line.side if isinstance(line, LotLine) else wall.line
    street = when_given(lambda yard: yard in STREET, side)
    own = at_least(wall.inside_line, limit.inside).or_fix("move it onto the lot, or ask whose land it stands on")
    back = at_least(wall.inside_line, limit.from_street)
    return all_of(own, decide(street, back, does_not_apply("not along a street")), _clear(wall, limit, house))


def _clear(wall: YardWall, limit: WallLimits, house: House) -> Check:
    """Return the check that it stands in no easement, which a lot without any need not say."""
    crossed = ", ".join(wall.in_easements) or "an easement"
    if wall.in_easements or wall.clear_of_easements is False:
        return ask_unless_set(limit.easements) or at_most(1, limit.easements, f"it stands in {crossed}")
    none = not house.project.easements and house.project.lot.easements_on_record == 0
    known = met("the lot has no easement") if none else not_shown(wall.absent("clear of easements"))
    return met("clear of every easement") if wall.clear_of_easements is True else known


class WayLimits(Limits):
    yards: Settled[tuple[str, ...]]
    width: Limit[Length]


@rule("zoning.equipment-way", stage="intake")
def equipment_way(machine: YardEquipment, limit: WayLimits) -> Check:
    """Where the place asks for it, a clear way is left beside a machine that stands in a side or rear yard."""
    kept = at_least(machine.clear_way, limit.width).or_fix(lambda: f"leave {limit.width.value} beside it")
    asked = when_given(lambda yard: yard in limit.yards.value, machine.yard)
    return decide(asked, kept, does_not_apply(f"not asked in the {machine.yard} yard"))


@fact
class ConvertedGarage(Fact):
    """A garage that becomes something else, with its vehicle doors, and whether each of its new windows faces a street."""

    space: Space
    doors: tuple[Door, ...]
    to_street: dict[str, bool | Missing]

    @classmethod
    def found_in(cls, house: House) -> Iterator[ConvertedGarage]:
        """Yield each space that was a garage and is none any more."""
        for space in house.spaces:
            if space.was == "garage" and space.changes_use:
                doors = tuple(d for d in house.project.doors if space.id in d.between and d.operation == "vehicle")
                new = [
                    w for w in house.project.windows if w.space == space.id and w.phase not in ("existing", "removed")
                ]
                yield cls(space, space, doors, {w.id: _faces_street(w, house) for w in new})


def _faces_street(window: Window, house: House) -> bool | Missing:
    """Return whether a new window faces a street, as drawn or by the setback that lists it among its openings."""
    side = next((s for s in house.subjects(OpeningsTowardLine) if window in s.openings), None)
    if side is None:
        return window.absent("lot line that it faces (among the openings of a setback)")
    faces = when_given(lambda yard: yard in STREET, side.line.side)
    return window.phase if faces is True and is_missing(window.phase) else faces


class LookLimits(Limits):
    kept: Limit[bool]
    street_windows: Limit[int]


@rule("zoning.vehicle-door-kept", stage="intake", existing="must comply")
def vehicle_door_kept(garage: ConvertedGarage, limit: LookLimits) -> Check:
    """Where the zone asks for it, a converted garage keeps the look of its vehicle door, with no new window to the street.

    A door that stands and stays keeps its look; where it goes, the drawings say whether what fills it looks the same.
    """
    stays = bool(garage.doors) and all(door.is_existing for door in garage.doors)
    look = required(stays or garage.space.vehicle_door_look_kept, limit.kept)
    names = ", ".join(name for name, faces in garage.to_street.items() if faces is True)
    count = when_given(lambda *faces: sum(faces), *garage.to_street.values())
    sure = sum(faces is True for faces in garage.to_street.values())
    windows = at_most(sure or count, limit.street_windows, names or "none is drawn toward a street")
    return all_of(look.or_fix("leave the outside of the vehicle door, or ask for a permit that is decided on"), windows)
