"""Ways into attics and crawl spaces, and what the way up makes of an attic."""

from __future__ import annotations

from collections.abc import Callable

from precheck_plugins.access.attics import FIXED, AccessOpening, AtticAccess, CrawlSpace, VentedAlone, signs_of_living

from precheck import (
    Area,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    Outcome,
    Pressure,
    Works,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    reads,
    required,
    rule,
    when_given,
)


class AtticLimits(Limits):
    from_height: Limit[Length]
    from_area: Limit[Area]
    given: Limit[bool]


@rule("access.attic", stage="framing")
def attic(attic: AtticAccess, limit: AtticLimits) -> Check:
    """An attic that is tall enough over enough of its area has a way in.

    The height runs from the top of the ceiling framing to the underside of the rafters.
    """
    there = required(bool(attic.hatches or attic.stairs), limit.given)
    if attic.hatches or attic.stairs:
        return there
    space = attic.space
    tall = when_given(lambda high, least: high >= least, space.framing_height, limit.from_height.value)
    over = _area(attic, limit.from_area.value)
    wide = when_given(lambda area, least: area >= least, over, limit.from_area.value)
    unneeded = does_not_apply("too low or too small to need a way in")
    return decide(tall, decide(wide, there.or_fix("draw a hatch, in a hall if there is one"), unneeded), unneeded)


def _area(attic: AtticAccess, least: Area | Missing | None) -> Area | Missing:
    """The area where the attic is that tall; a whole area that is smaller than the `least` settles it as well."""
    over, whole = attic.space.area_at_access_height, attic.area
    if not is_missing(over) or is_missing(whole) or not isinstance(least, Area):
        return over
    return whole if whole < least else over


class VentedAloneLimits(Limits):
    from_height: Limit[Length] = reads("access.attic.from-height")
    from_area: Limit[Area] = reads("access.attic.from-area")
    given: Limit[bool] = reads("access.attic.given")


@rule("access.attic-without-space", stage="framing")
def attic_without_space(vented: VentedAlone, limit: VentedAloneLimits) -> Check:
    """A new attic that is drawn by its vents alone has a way in as any other.

    Its height is that of its highest point, so that it tells where none is due, and never that one is.
    """
    attic = vented.attic
    if vented.hatches:
        return required(True, limit.given)
    low = when_given(lambda high, least: high < least, attic.height, limit.from_height.value) is True
    small = when_given(lambda area, least: area < least, attic.area, limit.from_area.value) is True
    asked = required(attic.absent("way in (a hatch in a ceiling, or `to` the attic)"), limit.given)
    return does_not_apply("too low or too small to need a way in") if low or small else asked


class OpeningLimits(Limits):
    width: Limit[Length]
    length: Limit[Length]
    headroom: Limit[Length]
    ready: Limit[bool]


@rule("access.attic-opening", stage="framing")
def attic_opening(opening: AccessOpening, limit: OpeningLimits, house: House) -> Check:
    """The opening to an attic is large enough and easily reached, with headroom over a hatch in a ceiling.

    Of several to one attic, one that serves is enough.
    """
    if opening.use != "attic":
        return does_not_apply("it does not lead to an attic")
    return _or_another(opening, house, lambda one: _way_up(one, limit))


def _way_up(opening: AccessOpening, limit: OpeningLimits) -> Check:
    width, length = opening.side("width"), opening.side("height")
    upright = _as_large(width, length, limit)
    lying = upright if upright.outcome is not Outcome.FAIL else _as_large(length, width, limit)
    above = decide(
        _is(opening, "ceiling"), at_least(opening.hatch.headroom, limit.headroom), does_not_apply("in a wall")
    )
    large = decide(_is(opening, "wall"), upright, lying)
    return all_of(large, above, required(opening.hatch.readily_reached, limit.ready))


def _or_another(opening: AccessOpening, house: House, judge: Callable[[AccessOpening], Check]) -> Check:
    """Return what `judge` says of an opening, unless another one to the same attic or crawl space serves."""
    own, served = judge(opening), (Outcome.PASS, Outcome.WARN)
    others = [o for o in house.subjects(AccessOpening) if o is not opening and o.reaches is opening.reaches is not None]
    if own.outcome not in served and (one := next((o for o in others if judge(o).outcome in served), None)):
        return does_not_apply(f"{one.label} is the way in")
    return own


def _as_large(width: Length | Missing, length: Length | Missing, limit: OpeningLimits) -> Check:
    return all_of(at_least(width, limit.width), at_least(length, limit.length))


def _is(opening: AccessOpening, what: str) -> bool | Missing:
    return when_given(lambda through: through == what, opening.hatch.through)


class CrawlLimits(Limits):
    given: Limit[bool]


@rule("access.crawl-space", stage="framing")
def crawl_space(crawl: CrawlSpace, limit: CrawlLimits) -> Check:
    """Every crawl space has a way in, however small it is."""
    drawn = bool(crawl.hatches) or crawl.space.absent("access opening (a hatch `to` it)")
    return required(drawn, limit.given)


class CrawlOpeningLimits(Limits):
    floor_width: Limit[Length]
    floor_length: Limit[Length]
    wall_height: Limit[Length]
    wall_width: Limit[Length]
    under_doors: Limit[int]


@rule("access.crawl-opening", stage="framing")
def crawl_opening(opening: AccessOpening, limit: CrawlOpeningLimits, house: House) -> Check:
    """The opening to a crawl space is large enough, smaller through a wall than through a floor, and under no door.

    Of several to one crawl space, one that serves is enough.
    """
    if opening.use != "crawl space":
        return does_not_apply("it does not lead to a crawl space")
    return _or_another(opening, house, lambda one: _way_under(one, limit))


def _way_under(opening: AccessOpening, limit: CrawlOpeningLimits) -> Check:
    short, long_ = opening.side("width"), opening.side("height")
    if not is_missing(short):
        short, long_ = sorted((short, long_))
    floor = all_of(at_least(short, limit.floor_width), at_least(long_, limit.floor_length))
    below = when_given(lambda under: int(under), opening.hatch.under_door)
    wall = all_of(
        at_least(short, limit.wall_height), at_least(long_, limit.wall_width), at_most(below, limit.under_doors)
    )
    return decide(_is(opening, "floor"), floor, wall)


class AreawayLimits(Limits):
    width: Limit[Length]
    length: Limit[Length]


@rule("access.areaway", stage="foundation")
def areaway(opening: AccessOpening, limit: AreawayLimits) -> Check:
    """Where an opening through a wall lies below the ground, an areaway in front of it gives room to get in."""
    if opening.use != "crawl space" or opening.hatch.through in ("floor", "ceiling"):
        return does_not_apply("no opening to a crawl space through a wall")
    short, long_ = opening.side("width", "areaway"), opening.side("height", "areaway")
    if not is_missing(short):
        short, long_ = sorted((short, long_))
    well = all_of(at_least(short, limit.width), at_least(long_, limit.length))
    return decide(opening.hatch.below_grade, well, does_not_apply("it lies above the ground"))


class LoadLimits(Limits):
    without_storage: Limit[Pressure] = reads("loads.live.attic-without-storage")
    limited_storage: Limit[Pressure] = reads("loads.live.attic-with-limited-storage")
    storage_height: Limit[Length] = reads("loads.attic-storage.storage-height")
    fixed_stair: Limit[Pressure] = reads("loads.live.attic-with-fixed-stair")
    habitable: Limit[Pressure] = reads("loads.live.habitable-attic")


@rule("access.attic-load", stage="framing")
def attic_load(attic: AtticAccess, limit: LoadLimits, house: House) -> Check:
    """The floor of an attic carries the live load that the way up, its height and its use make of it.

    A fixed stair or a habitable attic makes it a floor to live on; enough height, or things stored, make it limited
    storage; else it carries no storage. Behind a pull-down stair or ladder things will be stored, whatever the height.
    Where the framing names the attic among its loads, the rules for loads judge those; where it is floored for storage the
    work itself asks for joists that are drawn with their load.
    """
    space, reached = attic.space, attic.reached_by
    if attic.load_is_drawn:
        return does_not_apply("its loads are drawn with the framing, and the rules for loads judge them")
    if is_missing(space.live_load) and any(space in work.parts for work in Works.of(house).of_kinds("attic storage")):
        return does_not_apply("the work takes joists that are drawn with the storage load")
    if reached == FIXED:
        return at_least(space.live_load, limit.fixed_stair).because("a fixed stair leads to it")
    if space.habitable_attic is True:
        return at_least(space.live_load, limit.habitable).because("it is a habitable attic")
    stored = at_least(space.live_load, limit.limited_storage)
    tall = when_given(lambda clear, least: clear >= least, space.framing_height, limit.storage_height.value)
    by_height = decide(tall, stored, at_least(space.live_load, limit.without_storage))
    if reached == "pull-down stair or ladder" and space.attic_storage is not True:
        told = f"a pull-down stair or ladder leads to it, so that things will be stored there: {limit.limited_storage.value}"
        light = by_height.outcome is by_height.outcome.PASS and stored.outcome is stored.outcome.FAIL
        return look_at(Look.PRACTICE, told) if light else by_height
    return decide(space.attic_storage, stored.because("things are stored in it"), by_height)


class UseLimits(Limits):
    signs: Limit[int]


@rule("access.attic-use", stage="plan", existing="must comply")
def attic_use(attic: AtticAccess, limit: UseLimits, house: House) -> Check:
    """An attic that a fixed stair leads to and that looks like a room may be reviewed as one."""
    if attic.reached_by != FIXED:
        return does_not_apply("no fixed stair leads to it")
    if attic.space.habitable_attic is True:
        return met("it is drawn as a habitable attic, and the rules for one judge it")
    signs = signs_of_living(house, attic)
    if limit.signs.value is None or len(signs) <= limit.signs.value:
        unsaid = [does_not_apply("ceiling height: not stated")] if is_missing(attic.space.ceiling.height) else []
        return all_of(met("a fixed stair leads to it, and nothing else about it reads as a room"), *unsaid)
    told = f"a fixed stair leads to it and it has {' and '.join(signs)}: it reads as a habitable attic"
    return look_at(Look.OFFICIAL, f"{told}, unless the department agrees that it is storage")


class StairLimits(Limits):
    stair: Limit[bool]


@rule("access.attic-stair", stage="plan")
def attic_stair(attic: AtticAccess, limit: StairLimits) -> Check:
    """Which rules the way up has to meet: a fixed stair those of every stair, a pull-down stair or ladder none of them.

    A pull-down stair or ladder is a way to storage and never the way out of a room that people use.
    """
    reached = attic.reached_by
    if is_missing(reached):
        return does_not_apply("no way up is drawn, which the rule for ways in judges")
    living = attic.space.habitable_attic is True
    if living and reached != FIXED:
        return required(False, limit.stair).or_fix("draw a stair")
    return met(f"reached by {reached}")
