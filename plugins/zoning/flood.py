"""Flood hazard: when its rules apply, how high floors and equipment stand, and openings that let the water out."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Appliance,
    Area,
    Check,
    Fact,
    FloodOpening,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Project,
    Ratio,
    Space,
    all_of,
    any_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    first_given,
    if_stated,
    is_missing,
    less_than,
    look_at,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

SQUARE_FOOT = Area.parse("1 sq ft")
OUTDOOR = frozenset(("carport", "porch", "deck"))
BASE = "flood.lowest-floor.above-base"
DESIGN = "flood.lowest-floor.above-design"
SHARE = "flood.substantial-improvement.share"


@fact
class LowSpace(Fact):
    """An enclosed space at the ground or below that the work makes or changes, with the level of its floor."""

    space: Space
    floor: Length | Missing
    hazard: bool | Missing
    base: Length | Missing
    design: Length | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[LowSpace]:
        """Yield every enclosed space not on an upper story that is new or of a new use, or altered in a hazard area."""
        hazard = in_hazard_area(house)
        for space in house.spaces:
            altered = space.phase == "altered" and (space.changes_use or hazard is True)
            changed = (space.phase == "new" or altered) and space.use not in OUTDOOR
            if changed and house.story_level(space) not in ("upper", "attic"):
                yield cls(space, space, house.finished_floor(space), hazard, *flood_levels(house))

    def above(self, base: Limit[Length], design: Limit[Length]) -> Check:
        """Return the check that the floor stands high enough over both flood levels."""
        return stands_above(self.floor, self.base, self.design, base, design)


def in_hazard_area(house: House) -> bool | Missing:
    """Return whether the house stands in a mapped flood hazard area."""
    lot = house.project.lot
    return house.project.absent("flood hazard area (of the lot)") if is_missing(lot) else lot.flood_hazard_area


def flood_levels(house: House) -> tuple[Length | Missing, Length | Missing]:
    """Return the base flood level and the design flood level of the lot."""
    lot = house.project.lot
    return lot.base_flood_level, lot.design_flood_level


def stands_above(
    level: Length | Missing,
    base: Length | Missing,
    design: Length | Missing,
    over_base: Limit[Length],
    over_design: Limit[Length],
) -> Check:
    """Return the check that `level` is high enough over the base and the design flood level."""
    return all_of(
        at_least(level - base, over_base, lambda: f"{level} less base flood level {base}"),
        at_least(level - design, over_design, lambda: f"{level} less design flood level {design}"),
    )


def if_hazard(hazard: bool | Missing, check: Check) -> Check:
    """Return `check` where the house stands in a flood hazard area."""
    if is_missing(hazard):
        return does_not_apply("the rule for flood hazard asks whether this is such an area")
    return check if hazard else does_not_apply("not in a mapped flood hazard area")


class HazardLimits(Limits):
    stated: Limit[bool]


@rule("flood.hazard", stage="intake", existing="must comply")
def hazard(project: Project, limit: HazardLimits, house: House) -> Check:
    """Where space at grade is made or changed, the plans say whether the lot is in a flood hazard area.

    All other flood rules hang on it: a garage below the flood level may be parking, and may not become a room.
    """
    if not house.subjects(LowSpace):
        return does_not_apply("no space at the ground is made or changed")
    stated = when_given(lambda _: True, in_hazard_area(house))
    return required(stated, limit.stated)


class ImprovementLimits(Limits):
    share: Limit[Ratio]


@rule("flood.substantial-improvement", stage="intake", existing="must comply")
def substantial_improvement(project: Project, limit: ImprovementLimits, house: House) -> Check:
    """In a flood hazard area, work that costs a large share of the building's value brings all of it up to date.

    Historic buildings are left out. The floodplain administrator sets both figures.
    """
    share = cost_share(project)
    small = less_than(share, limit.share, lambda: f"{project.lot.cost_of_work} / {project.lot.building_value}")
    whole = look_at(
        Look.OFFICIAL, f"the work comes to {share} of the building's value: all of it meets the flood rules"
    )
    told = whole if small.outcome is small.outcome.FAIL else small
    old = False if is_missing(project.lot) else first_given(project.lot.historic, False)
    kept = decide(old, does_not_apply("a historic building"), told)
    return if_hazard(in_hazard_area(house), kept)


def cost_share(project: Project) -> Ratio | Missing:
    """Return the cost of the work as a share of the market value of the building before it."""
    lot = project.lot
    whole = not is_missing(lot) and lot.building_value == 0
    value = project.absent("building value above zero (of the lot)") if whole else lot.building_value
    return when_given(lambda cost, worth: Ratio(Ratio.parse("100 %").n * cost) / worth, lot.cost_of_work, value)


class FloorLimits(Limits):
    above_base: Limit[Length]
    above_design: Limit[Length]
    uses_below: Limit[tuple[str, ...]]
    share: Limit[Ratio] = reads(SHARE)


@rule("flood.lowest-floor", stage="foundation")
def lowest_floor(low: LowSpace, limit: FloorLimits, house: House) -> Check:
    """A room in a flood hazard area is above the flood elevation; only parking, storage and access may be below it.

    So a garage floor below the flood level cannot become a room. Where the work is no substantial improvement, the
    floodplain administrator decides.
    """
    if not is_missing(low.space.use) and low.space.use in (limit.uses_below.value or ()):
        return does_not_apply("parking, storage and access may lie below the flood level")
    high = low.above(limit.above_base, limit.above_design).or_fix(
        "raise the floor, or keep the space for parking or storage"
    )
    share = cost_share(house.project)
    substantial = when_given(lambda part: part >= limit.share.value, share)
    ask = look_at(Look.OFFICIAL, "its floor lies below the flood level and the work is no substantial improvement")
    new = low.space.phase == "new"
    low_floor = high if new or high.outcome is not high.outcome.FAIL else decide(substantial, high, ask)
    used = not_shown(low.space.use) if is_missing(low.space.use) else low_floor
    return if_hazard(low.hazard, used)


class OpeningLimits(Limits):
    minimum: Limit[int]
    walls: Limit[int]
    area_for_each_square_foot: Limit[Area]
    least_side: Limit[Length]
    uses: Limit[tuple[str, ...]] = reads("flood.lowest-floor.uses-below")
    above_base: Limit[Length] = reads(BASE)
    above_design: Limit[Length] = reads(DESIGN)


@rule("flood.openings", stage="foundation")
def openings(low: LowSpace, limit: OpeningLimits, house: House) -> Check:
    """An enclosure below the flood elevation has flood openings in two walls, large enough for its floor."""
    if is_missing(low.space.use) or low.space.use not in (limit.uses.value or ()):
        return does_not_apply("no space that may lie below the flood level")
    own = [o for o in house.subjects(FloodOpening) if o.space == low.space.id and not o.is_removed]
    let = limit.area_for_each_square_foot
    each = when_given(
        lambda floor, *areas: sum(areas, Area(0)) / (floor / SQUARE_FOOT),
        house.area(low.space),
        *(_capacity(o, let) for o in own),
    )
    enough = all_of(
        at_least(len(own), limit.minimum),
        at_least(_walls(own), limit.walls),
        at_least(each, let, lambda: f"{len(own)} openings for {house.area(low.space)} of floor"),
    ).or_fix("add flood openings in a second wall")
    sides = [if_stated(o.least_side, at_least, limit.least_side, o.label) for o in own if o.engineered is not True]
    high = low.above(limit.above_base, limit.above_design)
    dry = high.is_met
    below = met("its floor stands above the flood level") if dry else _unless_known_dry(high, all_of(enough, *sides))
    return if_hazard(low.hazard, below)


def _walls(own: list[FloodOpening]) -> int | Missing:
    """Return in how many walls the openings are; where one does not say its wall, it may be in that of another."""
    named = {one.wall for one in own if one.wall}
    unnamed = next((one for one in own if not one.wall), None)
    return len(named) if unnamed is None else unnamed.absent("wall")


def _capacity(opening: FloodOpening, let: Limit[Area]) -> Area | Missing:
    """Net area, or for an engineered opening the area that its rating stands for."""
    if opening.engineered is not True:
        return opening.net_area
    return when_given(lambda served, one: one * (served / SQUARE_FOOT), opening.serves, let.value)


def _unless_known_dry(high: Check, enough: Check) -> Check:
    return enough if high.outcome is high.outcome.FAIL or enough.is_met else high


class OpeningHeightLimits(Limits):
    maximum: Limit[Length]


@rule("flood.opening-height", stage="foundation")
def opening_height(opening: FloodOpening, limit: OpeningHeightLimits) -> Check:
    """The bottom of a flood opening is close to grade."""
    return at_most(opening.above_grade, limit.maximum)


class EquipmentLimits(Limits):
    below: Limit[tuple[str, ...]]
    above_base: Limit[Length] = reads(BASE)
    above_design: Limit[Length] = reads(DESIGN)


@rule("flood.equipment", stage="rough-in")
def equipment(appliance: Appliance, limit: EquipmentLimits, house: House) -> Check:
    """Appliances in a flood hazard area are above the flood elevation, or resist flooding."""
    space = house.space(appliance.space)
    floor = appliance.absent("bottom level") if space is None else house.finished_floor(space)
    level = first_given(appliance.bottom_level, floor + appliance.bottom_height)
    high = stands_above(level, *flood_levels(house), limit.above_base, limit.above_design)
    made = when_given(lambda yes: "resists flooding" if yes else "no protection", appliance.resists_flooding)
    return if_hazard(in_hazard_area(house), any_of(high, one_of(made, limit.below)))


class SurveyLimits(Limits):
    lowest_floor: Limit[bool]


@rule("flood.survey", stage="foundation")
def survey(project: Project, limit: SurveyLimits, house: House) -> Check:
    """In a flood hazard area the surveyed level of the lowest floor goes to the official, where that is made or changed."""
    if not house.subjects(LowSpace):
        return does_not_apply("no space at the ground is made or changed")
    surveyed = required(project.lot.lowest_floor_surveyed, limit.lowest_floor)
    return if_hazard(in_hazard_area(house), surveyed)
