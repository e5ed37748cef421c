"""Anchorage: the bolts that hold plates to concrete: how many, how far apart, how near the ends, how big."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import ceil
from typing import Any

from precheck_plugins.foundations.place import stories_of
from precheck_plugins.foundations.rules.support import is_new_outside

from precheck import (
    BracedLine,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    NewValue,
    Opening,
    SillPlate,
    Wall,
    Work,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    faces_out,
    fact,
    first_given,
    if_stated,
    infill_of,
    is_missing,
    line,
    missing_of,
    not_shown,
    reads,
    required,
    rule,
    shown,
    to_show,
    unsettled,
    when_given,
)

FRAMED = "the plate lies on framing, which is nailed"


@fact
class BoltedPlate(Fact):
    """A plate of a wall to the outside or of a braced wall line, on concrete; or the new wall that shows none.

    `lines` are those that the wall braces: the old plate of a wall that is made one is judged anew.
    """

    wall: Wall
    plate: SillPlate | None
    lines: tuple[BracedLine, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[BoltedPlate]:
        """Yield such plates, and new walls to the outside that show none."""
        for wall in house.project.walls:
            lines = tuple(x for x in house.project.braced_lines if wall.id in x.walls and not x.is_removed)
            if not faces_out(wall, house) and not lines:
                continue
            yield from (cls(plate, wall, plate, lines) for plate in wall.sill_plates if plate.on != "framing")
            if not wall.sill_plates and wall.is_framed is not False and is_new_outside(wall, house):
                yield cls(wall, wall, None, lines)


@line("anchorage.infill-plate")
def infill_plate(work: Work, house: House) -> Check:
    """The plate of the wall that closes an overhead door is bolted to concrete: its sill plate is shown."""
    openings = [part for part in work.parts if isinstance(part, Opening)]
    if not openings:
        return to_show("sill plate of the wall that closes it, and its anchor bolts", work)
    found = [infill_of(one, house) for one in openings]
    framed = [one for one in found if isinstance(one, Wall) and one.is_framed is not False]
    waiting = [
        o.absent("sill plate of the wall that fills it")
        for o, by in zip(openings, found, strict=True)
        if is_missing(by)
    ]
    absent = missing_of(
        *(wall.absent("sill plates (with their anchor bolts)") for wall in framed if not wall.sill_plates), *waiting
    )
    if absent is not None:
        return to_show("", work, absent)
    return shown(*framed) if framed else does_not_apply("no wood plate closes it")


class BoltLimits(Limits):
    spacing: Limit[Length]
    seismic_spacing: Limit[Length]
    stories: Limit[int]
    minimum: Limit[int]
    one_up_to: Limit[Length]
    none_up_to: Limit[Length]
    from_end: Limit[Length] = reads("anchorage.bolt-ends.maximum")
    categories: Limit[tuple[str, ...]] = reads("foundations.turned-down-bars.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("anchorage.bolts", stage="foundation")
def bolts(bolted: BoltedPlate, limit: BoltLimits, house: House) -> Check:
    """Sill plates on concrete have anchor bolts: two or more in each piece, within the maximum spacing.

    Short pieces that join offset braced panels need one or none. Where the ground shakes, bolts of a house of more
    than two stories stand closer. An anchor of another kind follows its own document.
    """
    plate = bolted.plate
    if plate is None:
        return not_shown(bolted.wall.absent("sill plates (with their anchor bolts)"))
    if (open_limit := unsettled(limit.minimum, limit.stories)) is not None:
        return open_limit
    if not is_missing(plate.anchor_document):
        return does_not_apply(f"anchored as {plate.anchor_document} says")
    tall = when_given(lambda count: count > limit.stories.value, stories_of(house))
    closer = house.is_shaken(limit.seismic.value, limit.categories.value)
    usual, close = _spaced(plate, limit.spacing, limit), _spaced(plate, limit.seismic_spacing, limit)
    return usual if tall is False or closer is False else decide(closer, decide(tall, close, usual), usual)


def _spaced(plate: SillPlate, spacing: Limit[Length], limit: BoltLimits) -> Check:
    fewest = _fewest(plate, limit)
    if fewest == 0:
        return does_not_apply(f"a piece of {plate.length} that joins offset panels needs no bolt")
    remedy = (lambda: _layout(plate, spacing, limit), lambda: _bolted(plate, spacing, limit))
    count = at_least(plate.bolts, replace(limit.minimum, value=fewest)).or_fix(*remedy)
    if fewest == 1:
        return count
    apart, how = _widest(plate, limit.from_end.value)
    return all_of(count, at_most(apart, spacing, how).or_fix(*remedy))


def _fewest(plate: SillPlate, limit: BoltLimits) -> int:
    if plate.joins_offset_panels and not is_missing(plate.length):
        if _is_within(plate.length, limit.none_up_to):
            return 0
        if _is_within(plate.length, limit.one_up_to):
            return 1
    return int(limit.minimum.value)


def _is_within(length: Length, limit: Limit[Length]) -> bool:
    return limit.value is not None and not is_missing(limit.value) and length <= limit.value


def _widest(plate: SillPlate, from_end: Any) -> tuple[Any, str]:
    """Return the spacing of the bolts: as stated or as their number in the piece comes to, whichever is wider.

    Beside a stated spacing, end bolts whose place is not given are taken as far `from_end` as they may be.
    """
    stated, ends = plate.spacing, plate.from_ends
    if is_missing(ends) and not is_missing(stated) and isinstance(from_end, Length):
        ends = (from_end, from_end)
    counted = when_given(_apart, plate.length, plate.bolts, ends)
    if is_missing(counted) or (not is_missing(stated) and stated >= counted):
        return first_given(stated, counted), ""
    return counted, f"{plate.bolts} bolts in {plate.length}"


def _apart(length: Length, count: int, ends: tuple[Length, Length]) -> Length:
    return (length - ends[0] - ends[1]) / max(count - 1, 1)


def _count(plate: SillPlate, spacing: Limit[Length], limit: BoltLimits) -> int:
    between = plate.length - sum(_ends(plate, limit), Length(0))
    spaces: int = 0 if is_missing(between) else ceil(between / spacing.value)
    return max(spaces + 1, int(limit.minimum.value))


def _ends(plate: SillPlate, limit: BoltLimits) -> tuple[Length, Length]:
    """Return how far the end bolts stand from the ends: as drawn, and no farther than they may."""
    most, drawn = limit.from_end.value, plate.from_ends
    return (most, most) if is_missing(drawn) else (min(drawn[0], most), min(drawn[1], most))


def _bolted(plate: SillPlate, spacing: Limit[Length], limit: BoltLimits) -> list[NewValue]:
    """Return the number of bolts of the piece, and their spacing where one is stated that is wider."""
    wide = not is_missing(plate.spacing) and plate.spacing > spacing.value
    apart = [NewValue(plate, "spacing", spacing.value)] if wide else []
    return [NewValue(plate, "bolts", _count(plate, spacing, limit)), *apart]


def _layout(plate: SillPlate, spacing: Limit[Length], limit: BoltLimits) -> str:
    """Return the fewest bolts that a piece of this length takes, with the end bolts as drawn or as far in as they may be."""
    if is_missing(plate.length):
        return f"bolts no more than {spacing.value} apart, {limit.minimum.value} or more in each piece"
    count, ends = _count(plate, spacing, limit), _ends(plate, limit)
    have = 0 if is_missing(plate.bolts) else plate.bolts
    more = f", {count - have} more" if 0 < have < count else ""
    near = f"{ends[0]} from each end" if ends[0] == ends[1] else f"{ends[0]} and {ends[1]} from the ends"
    return f"{count} bolts in the piece of {plate.length}{more}: {near}, no more than {spacing.value} apart"


class EndLimits(Limits):
    maximum: Limit[Length]
    minimum_diameters: Limit[int]


@rule("anchorage.bolt-ends", stage="foundation")
def bolt_ends(plate: SillPlate, limit: EndLimits) -> Check:
    """An anchor bolt stands near each end of a piece of plate, but not so near that the wood splits."""
    if plate.on == "framing" or not is_missing(plate.anchor_document) or plate.joins_offset_panels:
        return does_not_apply("bolts are not what holds it, or it is a short piece between panels")
    if (open_limit := unsettled(limit.minimum_diameters)) is not None:
        return open_limit
    if is_missing(plate.from_ends):
        return not_shown(plate.from_ends)
    near = when_given(lambda diameter: diameter * limit.minimum_diameters.value, plate.bolt_diameter)
    closest = not_shown(near) if is_missing(near) else _clear(plate.from_ends, near, limit)
    return all_of(at_most(max(plate.from_ends), limit.maximum, "end bolt from the end of the piece"), closest)


def _clear(ends: tuple[Length, Length], near: Length, limit: EndLimits) -> Check:
    bound: Any = replace(limit.minimum_diameters, value=near)
    how = f"{limit.minimum_diameters.value} bolt diameters are {near}"
    return at_least(min(ends), bound, how)


class BoltSizeLimits(Limits):
    diameter: Limit[Length]
    embedment: Limit[Length]


@rule("anchorage.bolt-size", stage="foundation")
def bolt_size(plate: SillPlate, limit: BoltSizeLimits) -> Check:
    """Anchor bolts are large enough and deep enough in the concrete.

    A thin cap slab does not hold a cast-in bolt: the anchor goes on into the footing, or is one with a document.
    """
    if plate.on == "framing" or not is_missing(plate.anchor_document):
        return does_not_apply("no cast-in bolts hold it")
    deep = at_least(plate.embedment, limit.embedment).or_fix(
        "an anchor that reaches the footing, a thickened edge, or a set anchor with its approval document"
    )
    return all_of(at_least(plate.bolt_diameter, limit.diameter), deep)


class BoltPlaceLimits(Limits):
    middle_third: Limit[bool]
    nuts_and_washers: Limit[bool]


@rule("anchorage.bolt-place", stage="foundation")
def bolt_place(plate: SillPlate, limit: BoltPlaceLimits) -> Check:
    """Anchor bolts go through the middle third of the plate, each with a nut and a washer.

    Plans seldom show either: it is judged where they do, and looked at on site.
    """
    if plate.on == "framing" or not is_missing(plate.anchor_document):
        return does_not_apply("no cast-in bolts hold it")
    return all_of(
        if_stated(plate.middle_third, required, limit.middle_third),
        if_stated(plate.nuts_and_washers, required, limit.nuts_and_washers),
    )


class WasherLimits(Limits):
    side: Limit[Length]
    thickness: Limit[Length]
    categories: Limit[tuple[str, ...]] = reads("foundations.turned-down-bars.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("anchorage.plate-washers", stage="foundation")
def plate_washers(bolted: BoltedPlate, limit: WasherLimits, house: House) -> Check:
    """In SDC D0 to D2 the anchor bolts of braced wall lines have plate washers."""
    plate = bolted.plate
    if plate is None or not is_missing(plate.anchor_document):
        return does_not_apply("no bolts are drawn, or the anchors follow their document")
    large = all_of(at_least(plate.washer_side, limit.side), at_least(plate.washer_thickness, limit.thickness))
    return decide(
        house.is_shaken(limit.seismic.value, limit.categories.value),
        large,
        does_not_apply("the ground shakes little here"),
    )


class InteriorLimits(Limits):
    fastened: Limit[bool]


@rule("anchorage.interior-plate", stage="foundation")
def interior_plate(plate: SillPlate, limit: InteriorLimits, house: House) -> Check:
    """The sole plate of an interior bearing wall on a slab is fastened with approved fasteners."""
    wall = plate.owner
    if faces_out(wall, house) or plate.on != "slab":
        return does_not_apply("it is under no interior wall on a slab")
    if is_missing(wall.framing):
        return not_shown(wall.absent("framing"))
    if wall.framing.carries == "nothing":
        return does_not_apply("the wall bears nothing")
    return required(plate.approved_fasteners, limit.fastened)
