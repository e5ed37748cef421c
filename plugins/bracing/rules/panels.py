"""Braced panels: how long each must be for its method, wall height and the opening beside it; portal frames."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any, NamedTuple

from precheck import (
    BracedLine,
    BracedPanel,
    Check,
    Force,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    Ratio,
    Settled,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    given,
    is_missing,
    look_at,
    missing_of,
    not_shown,
    reads,
    rule,
    when_given,
)

FOOT = Length.parse("1 ft")
INCH = Length.parse("1 in")


class LengthLimits(Limits):
    sheets: Settled[Mapping[str, Length]]
    continuous: Settled[Mapping[str, Any]]
    thickness: Limit[Length]
    partial: Settled[Mapping[str, Any]] = reads("bracing.amount.partial")
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.panel-length", stage="framing", engineered="stands aside")
def panel_length(panel: BracedPanel, limit: LengthLimits, house: House) -> Check:
    """A braced panel is long enough for its method and the height of the wall.

    Where the ground shakes little, sheets in low walls may be shorter and count for less. Under continuous sheathing the
    length goes by the taller opening beside it. Portal frames have a rule of their own.
    """
    line = panel.owner
    if not is_missing(panel.portal):
        return does_not_apply("it is the leg of a portal frame")
    absent = missing_of(line.method, line.wall_height, panel.length)
    if absent is not None:
        return not_shown(absent)
    if line.method == "LIB":
        return does_not_apply("let-in braces have no panel length")
    needed = _continuous(panel, limit) if line.method.startswith("CS") else _row(limit.sheets.value, line.wall_height)
    if needed is None:
        return look_at(Look.ENGINEER, f"the table holds no panel for a wall of {line.wall_height} and this opening")
    if is_missing(needed):
        return not_shown(needed)
    long = _long(panel, needed, limit, house)
    thick = at_least(line.panel_thickness, limit.thickness) if "WSP" in line.method else does_not_apply("no wood panel")
    told = f"a panel of {needed}, or a portal frame beside a wide opening"
    return all_of(long.or_fix(told, lambda: lengthened(panel, needed)), thick)


def lengthened(panel: BracedPanel, length: Length) -> list[NewValue]:
    """Return the new length of a panel; nothing where the line or the next panel leaves no room for it."""
    line = panel.owner
    others = [one for one in line.panels if one is not panel]
    lengths = given(*(one.length for one in others))
    taken = Length(0) if isinstance(lengths, Missing) else sum(lengths, Length(0))
    ends = not is_missing(line.length) and taken + length > line.length
    after = [one.at for one in others if not is_missing(one.at) and not is_missing(panel.at) and one.at > panel.at]
    end = length if is_missing(panel.at) else panel.at + length
    past = any(start < end for start in after) or (not is_missing(line.length) and end > line.length)
    return [] if ends or past else [NewValue(panel, "length", length)]


def _long(panel: BracedPanel, needed: Length, limit: LengthLimits, house: House) -> Check:
    line = panel.owner
    how = f"{line.method}, wall {line.wall_height} high"
    whole = at_least(panel.length, replace(limit.sheets, value=needed), how)
    parts = [Length.parse(name) for name, row in limit.partial.value.items() if _row(row, line.wall_height) is not None]
    if line.method == "GB" or line.method.startswith("CS") or not parts or min(parts) >= needed:
        return whole
    shorter = at_least(panel.length, replace(limit.sheets, value=min(parts)), f"{how}, counted in part")
    return (
        whole
        if whole.outcome == shorter.outcome
        else decide(house.is_shaken(limit.seismic.value, limit.categories.value), whole, shorter)
    )


def _continuous(panel: BracedPanel, limit: LengthLimits) -> Any:
    table = limit.continuous.value
    if is_missing(panel.opening_beside) and _is_whole_wall(panel):
        return _row(table[min(table, key=Length.parse)], panel.owner.wall_height)
    if is_missing(panel.opening_beside):
        return panel.opening_beside
    heights = sorted((Length.parse(name), name) for name in table)
    row = next((table[name] for height, name in heights if height >= panel.opening_beside), None)
    return None if row is None else _row(row, panel.owner.wall_height)


def _is_whole_wall(panel: BracedPanel) -> bool:
    """Return whether a panel is as long as its line, so that no opening is beside it."""
    line = panel.owner
    known = not is_missing(panel.length) and not is_missing(line.length)
    return known and not line.openings and panel.length >= line.length


def _row(row: Mapping[str, Any], height: Any) -> Any:
    """Return the value for the lowest wall height of a row that is no lower than `height`; None where none is."""
    heights = sorted((Length.parse(name), name) for name in row)
    return next((row[name] for listed, name in heights if listed >= height), None)


class PortalLimits(Limits):
    pfh_roof: Limit[Length]
    pfh_story: Limit[Length]
    legs: Settled[Mapping[str, Any]]
    seismic_legs: Settled[Mapping[str, Any]]
    maximum: Limit[Length]
    header: Limit[Length]
    bolts: Limit[int]
    hold_down: Limit[Force]
    strap: Limit[Force]
    maximum_in_line: Limit[int]
    categories: Settled[tuple[str, ...]] = reads("bracing.line-spacing.categories")
    seismic: Limit[Any] = reads("criteria.seismic-design-category")


@rule("bracing.portal-frame", stage="framing", engineered="stands aside")
def portal_frame(panel: BracedPanel, limit: PortalLimits, house: House) -> Check:
    """The legs of a portal frame are long enough for its method and height, its opening not too wide, its feet held."""
    own = panel.portal
    if is_missing(own):
        return does_not_apply("it is no portal frame")
    if is_missing(own.method):
        return not_shown(own.method)
    usual, shaken = (_leg(panel, table, limit) for table in (limit.legs, limit.seismic_legs))
    same = own.method == "PFH" or usual.outcome == shaken.outcome
    legs = usual if same else decide(house.is_shaken(limit.seismic.value, limit.categories.value), shaken, usual)
    frame = [at_most(own.opening_width, limit.maximum), at_most(own.header_height, limit.header)]
    return all_of(legs, *(frame if own.method in ("PFH", "PFG", "CS-PF") else ()), *_feet(panel, limit))


def _leg(panel: BracedPanel, table: Limit[Mapping[str, Any]], limit: PortalLimits) -> Check:
    own, line = panel.portal, panel.owner
    if own.method == "PFH":
        roof, story = at_least(panel.length, limit.pfh_roof), at_least(panel.length, limit.pfh_story)
        return decide(when_given(lambda carries: carries == "roof", own.carries), roof, story)
    if is_missing(line.wall_height):
        return not_shown(line.wall_height)
    needed = _row(table.value.get(own.method, {}), line.wall_height)
    if needed is None:
        return look_at(Look.ENGINEER, f"{own.method} holds no leg for a wall of {line.wall_height} in this place")
    how = f"{own.method}, wall {line.wall_height} high"
    return at_least(panel.length, replace(table, value=needed), how).or_fix(
        f"a leg of {needed}", lambda: lengthened(panel, needed)
    )


def _feet(panel: BracedPanel, limit: PortalLimits) -> list[Check]:
    own = panel.portal
    if own.method == "PFH":
        return [at_least(own.hold_down, limit.hold_down), at_least(own.header_strap, limit.strap)]
    if own.method != "CS-PF":
        return []
    alike = [one for one in panel.owner.panels if not is_missing(one.portal) and one.portal.method == "CS-PF"]
    return [at_least(own.anchor_bolts, limit.bolts), at_most(len(alike), limit.maximum_in_line)]


class Credits(NamedTuple):
    """What panels that are no whole ones count for: short ones, legs of portal frames, gypsum on one face."""

    partial: Mapping[str, Any]
    portals: Mapping[str, Any]
    one_face: Ratio


def counted(panel: BracedPanel, line: BracedLine, parts: Credits) -> Any:
    """Return the length that a panel counts with toward the bracing of its line."""
    if not is_missing(panel.portal):
        portals = parts.portals
        return when_given(lambda method, long: _portal_credit(portals[method], long), panel.portal.method, panel.length)
    if line.method == "GB":
        share = Fraction(parts.one_face.n)
        return when_given(lambda long, both: long if both else long * share, panel.length, line.both_faces)
    if is_missing(line.method) or line.method.startswith("CS"):
        return panel.length
    return when_given(lambda long, high: _partial(long, high, parts.partial), panel.length, line.wall_height)


def _portal_credit(credit: Any, long: Length) -> Length:
    return credit if isinstance(credit, Length) else long * Fraction(credit.n)


def _partial(long: Length, high: Length, partial: Mapping[str, Any]) -> Length:
    """Return what a panel shorter than a whole one counts for: the table's credit in low walls, else nothing."""
    sizes = sorted(((Length.parse(name), name) for name in partial), reverse=True)
    if long >= sizes[0][0]:
        return long
    row: Mapping[str, Any] = next((partial[name] for size, name in sizes if long >= size), {})
    return _row(row, high) or long * 0
