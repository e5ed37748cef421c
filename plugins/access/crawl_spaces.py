"""Crawl spaces: vents enough for the floor, or closed with air moved or dried by machine; the ground clean and drained."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil

from precheck import (
    AirFlow,
    Area,
    Check,
    CrawlAir,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Ratio,
    Space,
    Work,
    all_of,
    any_of,
    at_least,
    decide,
    does_not_apply,
    fact,
    floor_of,
    is_alone,
    is_missing,
    line,
    not_shown,
    on_ground,
    one_of,
    required,
    rooms_of,
    rule,
    shown,
    to_show,
    when_given,
)

BUILT = ("addition", "new house")


@fact
class VentedCrawl(Fact):
    """A crawl space that vents keep dry, or of which nothing is said."""

    space: Space
    air: CrawlAir | Missing
    area: Area | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[VentedCrawl]:
        """Yield each crawl space that is not said to be closed."""
        for space in house.spaces:
            if space.use == "crawl space" and not _closed(space):
                yield cls(space, space, space.crawl_air, house.area(space))


@fact
class ClosedCrawl(Fact):
    """A crawl space without vents."""

    space: Space
    air: CrawlAir
    area: Area | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[ClosedCrawl]:
        """Yield each crawl space that is said to be closed."""
        for space in house.spaces:
            if space.use == "crawl space" and not is_missing(space.crawl_air) and _closed(space):
                yield cls(space, space, space.crawl_air, house.area(space))


def _closed(space: Space) -> bool:
    air = space.crawl_air
    return not is_missing(air) and not is_missing(air.by) and air.by != "vents"


class VentLimits(Limits):
    share: Limit[Ratio]
    covered: Limit[bool]
    covered_share: Limit[Ratio]
    at_corners: Limit[bool]
    corners_if_crossed: Limit[bool]


@rule("crawl-spaces.vents", stage="foundation")
def vents(crawl: VentedCrawl, limit: VentLimits) -> Check:
    """A crawl space has enough vent area for its floor, with a vent near each corner; a ground cover reduces the area."""
    air = crawl.air
    if is_missing(air):
        return required(air, limit.at_corners)
    covered = all_of(required(air.ground_covered, limit.covered), _enough(crawl, air, limit.covered_share))
    enough = any_of(_enough(crawl, air, limit.share), covered)
    corners = required(air.vents_at_corners, limit.at_corners)
    if limit.corners_if_crossed.value is None or air.ground_covered is not True:
        return all_of(enough, corners)
    crossed = does_not_apply("the ground is covered and air crosses")
    return all_of(enough, crossed if air.cross_ventilated is True else corners)


def _enough(crawl: VentedCrawl, air: CrawlAir, share: Limit[Ratio]) -> Check:
    least = share.value if share.value is None else when_given(lambda area: area * share.value.n, crawl.area)
    check = at_least(air.free_area, replace(share, value=least), lambda: f"{share.value} of {crawl.area}")
    return check.or_fix(lambda: f"vents with {least} of net free area", lambda: [NewValue(air, "free_area", least)])


class ClosedLimits(Limits):
    ways: Limit[tuple[str, ...]]
    covered: Limit[bool]
    lap: Limit[Length]
    up_wall: Limit[Length]
    pints: Limit[int]
    dried_area: Limit[Area]
    flow: Limit[AirFlow]
    area: Limit[Area]


@rule("crawl-spaces.closed", stage="insulation")
def closed(crawl: ClosedCrawl, limit: ClosedLimits) -> Check:
    """An unvented crawl space has a lapped ground cover, and its air is exhausted, supplied or dehumidified."""
    air = crawl.air
    covered = all_of(
        one_of(air.by, limit.ways).or_fix("vent it, or move air through it by machine"),
        required(air.ground_covered, limit.covered),
        at_least(air.cover_lap, limit.lap),
        at_least(air.cover_up_wall, limit.up_wall),
    )
    if air.by == "dehumidifier":
        return all_of(covered, _dried(crawl, limit))
    least = when_given(lambda area: AirFlow(limit.flow.value.n * (area / limit.area.value)), crawl.area)
    moved = at_least(air.flow, replace(limit.flow, value=least), lambda: f"floor of {crawl.area}")
    return all_of(covered, moved.or_fix(lambda: f"move {least} or more", lambda: [NewValue(air, "flow", least)]))


def _dried(crawl: ClosedCrawl, limit: ClosedLimits) -> Check:
    if limit.pints.value is None or limit.dried_area.value is None:
        return does_not_apply("sized as its manufacturer says")
    each = limit.pints.value, limit.dried_area.value
    least = when_given(lambda area, pints, dried: ceil(pints * (area / dried)), crawl.area, *each)
    how = f"floor of {crawl.area}"
    return at_least(crawl.air.pints_per_day, replace(limit.pints, value=least), how)


class GroundLimits(Limits):
    as_high: Limit[bool]
    on_every_site: Limit[bool]
    cleared: Limit[bool]
    outlet_marked: Limit[bool]


@rule("crawl-spaces.ground", stage="foundation")
def ground(space: Space, limit: GroundLimits) -> Check:
    """The ground of a crawl space is cleared, and on a wet site it is as high as finish grade outside, or drained.

    A site is wet where groundwater can rise near the floor at the outside walls, or where rain does not run off.
    """
    if space.use != "crawl space":
        return does_not_apply("not a crawl space")
    own = space.crawl_ground
    level = when_given(lambda inside, outside: inside >= outside, own.level, own.level_outside)
    as_high = required(level, limit.as_high, "as high as outside")
    drained = required(own.drained, limit.as_high, "a drain with an outlet")
    marked = required(own.outlet_marked, limit.outlet_marked)
    dry = any_of(as_high, all_of(drained, marked)).or_fix("fill it to the ground outside, or drain it")
    every = limit.on_every_site.value is not None
    due = dry if every else decide(own.wet_site, dry, does_not_apply("a site that drains"))
    cleared = required(own.cleared, limit.cleared)
    return all_of(due, cleared)


@line("crawl-spaces.vents-and-access", stage="foundation")
def vents_and_access(work: Work, house: House) -> Check:
    """The plans show the crawl space under a new floor of joists, with its vents, ground cover and access."""
    rooms = on_ground(rooms_of(work), house)
    floors = [floor_of(room, house) for room in rooms]
    framed = [room for room, floor in zip(rooms, floors, strict=True) if floor == "joists"]
    if not work.parts:
        return to_show("floor (slab or joists)", work)
    if not framed:
        unknown = [floor for floor in floors if is_missing(floor)]
        return not_shown(*unknown) if unknown else does_not_apply("no floor of joists is on the ground")
    lacking = [room for room in framed if not _below(room, work, house)]
    if lacking:
        return not_shown(*(room.absent("crawl space under it") for room in lacking))
    return shown(*{low.id: low for room in framed for low in _below(room, work, house)}.values())


def _below(room: Space, work: Work, house: House) -> list[Space]:
    """Return the spaces under `room`: a new crawl space, or a basement; a crawl space placed nowhere where it is the only one."""
    under = [low for low in house.spaces if room in house.above(low)]
    found = [low for low in under if low.use != "crawl space" or not low.is_existing]
    if found or under:
        return found
    loose = [low for low in house.spaces if low.use == "crawl space" and not low.is_existing and _is_loose(low, house)]
    return loose if len(loose) == 1 and is_alone(work, house, BUILT) else []


def _is_loose(low: Space, house: House) -> bool:
    return house.outline(low) is None and not house.above(low)
