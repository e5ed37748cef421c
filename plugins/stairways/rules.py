"""Around a stair: its light and switches, the space beneath it, and stairs to attic storage."""

from __future__ import annotations

from precheck_plugins.stairways.stairs import (
    BeneathStair,
    InsideStair,
    OutsideStair,
    StorageStair,
    lit,
    switched_at_both,
)

from precheck import (
    Check,
    House,
    Illuminance,
    Length,
    Limit,
    Limits,
    Look,
    NewValue,
    all_of,
    at_least,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    required,
    rule,
    when_given,
)


class LightLimits(Limits):
    source: Limit[bool]
    level: Limit[Illuminance]


@rule("stairways.interior-light", stage="final")
def interior_light(inside: InsideStair, limit: LightLimits, house: House) -> Check:
    """A stair inside the house has artificial light on its treads and landings, bright enough at their middle.

    Drawings seldom give the light level; where they do not, the inspector measures it.
    """
    lighting, light = inside.stair.lighting, lit(inside, house)
    source = required(light, limit.source).or_fix("draw a light over the stair")
    if limit.level.value is None or (is_missing(lighting.light_level) and light is not True):
        return source
    if is_missing(lighting.light_level):
        told = f"no light level is drawn; {limit.level.value} is measured on the treads at the final inspection"
        return all_of(source, look_at(Look.OFFICIAL, told))
    return all_of(source, at_least(lighting.light_level, limit.level))


class SwitchLimits(Limits):
    from_risers: Limit[int]
    at_each_floor: Limit[bool]


@rule("stairways.switches", stage="rough-in")
def switches(inside: InsideStair, limit: SwitchLimits, house: House) -> Check:
    """The light of a stair with enough risers has a wall switch at each floor.

    None is needed where the light is switched remotely, centrally or by itself.
    """
    lighting = inside.stair.lighting
    if limit.from_risers.value is None:
        return does_not_apply("no number of risers calls for switches here")
    if lighting.control in ("remote", "central", "automatic"):
        return met(f"the control of the light is {lighting.control}")
    many = when_given(lambda risers, least: risers >= least, inside.risers, limit.from_risers.value)
    due = required(switched_at_both(inside, house), limit.at_each_floor)
    few = does_not_apply(f"it has fewer than {limit.from_risers.value} risers")
    told = f"the stair has {inside.risers} risers" if many is True else ""
    return decide(many, due.or_fix("draw a three-way switch at each floor"), few).because(told)


class OutsideLightLimits(Limits):
    at_top: Limit[bool]
    at_bottom: Limit[bool]


@rule("stairways.exterior-light", stage="final")
def exterior_light(outside: OutsideStair, limit: OutsideLightLimits) -> Check:
    """A stair outside has a light near its top landing; one that leads down into a basement near its bottom landing."""
    lighting = outside.stair.lighting
    dark = lighting.light is False  # whatever is said of its place
    bottom = required(False if dark else lighting.at_bottom_landing, limit.at_bottom)
    top = required(False if dark else lighting.at_top_landing, limit.at_top)
    return decide(outside.to_basement, bottom.because("the stair leads down into a basement"), top)


class BeneathLimits(Limits):
    gypsum: Limit[Length]


@rule("stairways.space-beneath", stage="final")
def space_beneath(beneath: BeneathStair, limit: BeneathLimits) -> Check:
    """An enclosed space under a stair that people can get into is lined with gypsum board on its walls and soffit."""
    inside = beneath.inside
    lined = at_least(inside.lining(limit.gypsum), limit.gypsum).or_fix(
        lambda: f"line walls, soffit and underside of the stair with {limit.gypsum.value} gypsum board",
        lambda: [NewValue(inside.stair.beneath, "cover", (f"{limit.gypsum.value} gypsum",))],
    )
    return decide(inside.stair.beneath.enclosed_and_entered, lined, does_not_apply("nothing under it can be entered"))


class StorageLimits(Limits):
    exempt: Limit[str]


@rule("stairways.attic-storage", stage="plan")
def attic_storage(storage: StorageStair, limit: StorageLimits) -> Check:
    """A fixed stair that leads only to attic storage: the code sets no sizes for it in so many words, so ask.

    Pull-down ladders are common; many officials hold a built stair to the general rules for stairs, or to those of a
    ship's ladder. A jurisdiction may exempt such stairs.
    """
    if storage.stair.form == "pull-down":
        return does_not_apply("a pull-down stair is accepted as a ladder, not as a stair")
    if limit.exempt.value is not None:
        return met(f"stairs that serve only {storage.attic.id} are exempt here")
    if storage.phase == "existing":
        return does_not_apply("it stands, and leads to what it did")
    why = (
        f"a fixed stair to storage in {storage.attic.id}: many officials hold it to the rules for all stairs; ask first"
    )
    return look_at(Look.OFFICIAL, why)
