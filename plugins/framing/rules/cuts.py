"""Notches and holes in joists, rafters and beams, and cuts in made products."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.framing.timber.sections import SizeError, dressed_section

from precheck import (
    Check,
    Hole,
    Length,
    Limit,
    Limits,
    MakerData,
    Member,
    Missing,
    Notch,
    Part,
    Ratio,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    required,
    rule,
    when_given,
)


class NotchLimits(Limits):
    depth_part: Limit[Ratio]
    length_part: Limit[Ratio]
    end_depth_part: Limit[Ratio]
    outside_middle_third: Limit[bool]
    thick_from: Limit[int]
    top_edge: Limit[bool]


@rule("framing.notch", stage="framing")
def notch(notch: Notch, limit: NotchLimits) -> Check:
    """A notch in a solid joist, rafter or beam is shallow and short, and outside the middle third of the span.

    At an end it may be deeper. A member 4 in thick or more is notched on its bottom edge only at an end.
    """
    member = notch.owner
    if _is_made(member) or notch.on_overhang:
        return does_not_apply("a rule of its own covers it")
    deep = depth_of(member)
    if notch.at_end:
        return at_most(notch.depth, part_of_depth(limit.end_depth_part, deep))
    return all_of(
        at_most(notch.depth, part_of_depth(limit.depth_part, deep)),
        at_most(notch.length, part_of_depth(limit.length_part, deep)),
        required(_in_outer_third(notch, member), limit.outside_middle_third),
        _on_top(notch, member, limit),
    )


def _on_top(notch: Notch, member: Member, limit: NotchLimits) -> Check:
    thick = when_given(lambda size: int(size.partition("x")[0]) >= (limit.thick_from.value or 0), member.size)
    top = when_given(lambda edge: edge == "top", notch.edge)
    then = required(top, limit.top_edge)
    return decide(thick, then, does_not_apply("it is less thick"))


def _in_outer_third(notch: Notch, member: Member) -> bool | Missing:
    return when_given(lambda away, span: away * 3 <= span, notch.from_support, member.span)


class TailLimits(Limits):
    left: Limit[Length]
    overhang: Limit[Length]


@rule("framing.tail-notch", stage="framing")
def tail_notch(notch: Notch, limit: TailLimits) -> Check:
    """A rafter notched on its overhang keeps enough depth there, and runs past the wall no farther than the limit."""
    member = notch.owner
    if not notch.on_overhang:
        return does_not_apply("it is not on an overhang")
    return all_of(at_least(depth_of(member) - notch.depth, limit.left), at_most(member.overhang, limit.overhang))


class HoleLimits(Limits):
    diameter_part: Limit[Ratio]
    to_edge: Limit[Length]


@rule("framing.hole", stage="framing")
def hole(hole: Hole, limit: HoleLimits) -> Check:
    """A hole bored in a solid joist, rafter or beam is small and stays away from edges, notches and other holes."""
    member = hole.owner
    if _is_made(member):
        return does_not_apply("a rule of its own covers made products")
    return all_of(
        at_most(hole.diameter, part_of_depth(limit.diameter_part, depth_of(member))),
        at_least(hole.to_edge, limit.to_edge),
    )


class MadeLimits(Limits):
    document: Limit[bool]
    cuts_allowed: Limit[bool]
    ply_fastening: Limit[bool]


@rule("framing.made-product")
def made_product(maker: MakerData, limit: MadeLimits) -> Check:
    """An LVL, I-joist or other made product comes with the manufacturer's literature, and is cut only as that allows.

    Plies are fastened to each other as the maker lists. Its strength is never assumed.
    """
    member = maker.owner
    named = required(when_given(bool, maker.document), limit.document)
    cut = required(maker.cuts_allowed, limit.cuts_allowed)
    plies = required(when_given(bool, maker.ply_fastening), limit.ply_fastening)
    return all_of(named, *([cut] if member.notches or member.holes else []), *([plies] if member.plies > 1 else []))


def depth_of(member: Member) -> Length | Missing:
    """Return the true depth of a member: of a nominal size as dressed. A size that is not dressed has none."""
    if isinstance(member.maker, MakerData):
        return member.maker.depth
    if is_missing(member.size):
        return member.size
    return dressed_depth(member.size, member)


def dressed_depth(size: str, part: Part) -> Length | Missing:
    """Return the dressed depth of a nominal size; `part` lacks a size of dressed lumber where there is none such."""
    deep = int(size.partition("x")[2])
    try:
        depth = dressed_section(size if deep > 1 and not size.startswith("1x") else f"2x{deep}").depth_in
    except SizeError:
        return part.absent(f"a size of dressed lumber, which {size} is not")
    return Length.parse(f"{Fraction(depth)} in")


def part_of_depth(limit: Limit[Ratio], deep: Length | Missing) -> Limit[Any]:
    """Return a limit that is a part of the depth, as a length; what is missing for it otherwise."""
    if limit.value is None or is_missing(limit.value):
        return limit
    return replace(limit, value=deep if is_missing(deep) else deep * limit.value.n)


def _is_made(member: Member) -> bool:
    return isinstance(member.maker, MakerData)
