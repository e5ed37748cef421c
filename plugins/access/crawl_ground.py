"""The ground of a crawl space: clean, and where the site is wet as high as the ground outside, or drained."""

from __future__ import annotations

from precheck import (
    Check,
    Limit,
    Limits,
    Space,
    all_of,
    any_of,
    decide,
    does_not_apply,
    required,
    rule,
    when_given,
)


class GroundLimits(Limits):
    as_high: Limit[bool]
    on_every_site: Limit[bool]
    cleared: Limit[bool]
    outlet_marked: Limit[bool]


@rule("crawl-spaces.ground", stage="foundation")
def ground(space: Space, limit: GroundLimits) -> Check:
    """The ground of a crawl space is cleared, and on a wet site it is as high as the ground outside, or drained.

    A site is wet where groundwater can rise near the floor at the outside walls, or where rain does not run off.
    """
    if space.use != "crawl space":
        return does_not_apply("not a crawl space")
    own = space.crawl_ground
    level = when_given(lambda inside, outside: inside >= outside, own.level, own.level_outside)
    as_high = required(level, limit.as_high, "ground as high as outside")
    drained = required(own.drained, limit.as_high, "drain with an outlet")
    marked = required(own.outlet_marked, limit.outlet_marked, "mark at the outlet of the drain")
    dry = any_of(as_high, all_of(drained, marked)).or_fix("fill it to the ground outside, or drain it")
    every = limit.on_every_site.value is not None
    due = dry if every else decide(own.wet_site, dry, does_not_apply("a site that drains"))
    cleared = required(own.cleared, limit.cleared, "ground free of plants, wood, forms and debris")
    return all_of(due, cleared)
