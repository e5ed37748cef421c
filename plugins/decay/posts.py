"""Wood posts where they stand: outdoors, in a basement, in a crawl space."""

from __future__ import annotations

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    NewValue,
    Wood,
    all_of,
    any_of,
    at_least,
    does_not_apply,
    is_missing,
    more_than,
    not_shown,
    required,
    rule,
)

HELD_OFF = "a pressure-treated post, or a metal base that holds it off the concrete or the earth"


class PostLimits(Limits):
    above_slab: Limit[Length]
    above_earth: Limit[Length]
    earth_covered: Limit[bool]
    in_basement: Limit[Length]
    in_crawl_space: Limit[Length]
    in_crawl_space_over: Limit[Length]
    treated: Limit[bool]


@rule("decay.post-base", stage="framing")
def post_base(wood: Wood, limit: PostLimits) -> Check:
    """A wood post is treated or durable, or its base holds it off the concrete or the earth, as where it stands allows.

    From the 2021 edition on a base saves no post that stands in the weather: only treatment does, or a roof over it.
    """
    if wood.where != "post base":
        return does_not_apply("it is no post")
    treated = required(wood.treated, limit.treated)
    if wood.treated is True:
        return treated
    if is_missing(wood.location):
        return not_shown(wood.location) if wood.treated is False else treated
    ways = {"outdoors": _outdoors, "basement": _basement, "crawl space": _crawl_space}
    return ways[wood.location](wood, limit)


def _outdoors(wood: Wood, limit: PostLimits) -> Check:
    treated = required(wood.treated, limit.treated).or_fix(
        "a pressure-treated post", lambda: [NewValue(wood, "treated", "yes")]
    )
    if limit.above_slab.value is None:
        roofed = does_not_apply("a roof keeps the weather off it")
        return roofed if wood.under_roof is True else _unless(wood, treated)
    heights = [at_least(wood.above_slab, limit.above_slab)] if not is_missing(wood.above_slab) else []
    if not is_missing(wood.above_ground):
        covered = required(wood.earth_covered, limit.earth_covered)
        heights += [at_least(wood.above_ground, limit.above_earth), covered]
    return (
        any_of(all_of(*heights), treated).or_fix(HELD_OFF, lambda: [NewValue(wood, "treated", "yes")])
        if heights
        else treated
    )


def _unless(wood: Wood, treated: Check) -> Check:
    """Return the check of a post in the weather; where a roof may keep that off, that is asked first."""
    return not_shown(wood.under_roof) if wood.treated is False and is_missing(wood.under_roof) else treated


def _basement(wood: Wood, limit: PostLimits) -> Check:
    return any_of(at_least(wood.above_slab, limit.in_basement), required(wood.treated, limit.treated)).or_fix(
        HELD_OFF, lambda: [NewValue(wood, "treated", "yes")]
    )


def _crawl_space(wood: Wood, limit: PostLimits) -> Check:
    over, height = limit.in_crawl_space_over, wood.above_ground
    high = at_least(height, limit.in_crawl_space) if over.value is None else more_than(height, over)
    covered = required(wood.earth_covered, limit.earth_covered)
    return any_of(all_of(high, covered), required(wood.treated, limit.treated)).or_fix(
        HELD_OFF, lambda: [NewValue(wood, "treated", "yes")]
    )
