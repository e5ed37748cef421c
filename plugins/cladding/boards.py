"""Gypsum board and tile backer: framing, fasteners, wet areas."""

from __future__ import annotations

from precheck import (
    Board,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Missing,
    NewValue,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    if_stated,
    is_missing,
    look_at,
    met,
    not_shown,
    one_of,
    rule,
    when_given,
)

GYPSUM = ("gypsum", "water-resistant gypsum")
BATHED_IN = ("shower", "tub", "tub with shower")


class FramingLimits(Limits):
    thin: Limit[Length]
    wall: Limit[Length]
    ceiling_across: Limit[Length]
    ceiling_along: Limit[Length]
    thin_spacing: Limit[Length]
    nominal_width: Limit[Length]
    furring: Limit[Length]
    thin_holds_insulation: Limit[int]


@rule("cladding.board-framing", stage="final")
def board_framing(board: Board, limit: FramingLimits) -> Check:
    """Gypsum board has framing close enough for its thickness and the way it runs."""
    if (other := _unless_gypsum(board)) is not None:
        return other
    least = limit.furring if board.furring_over_backing is True else limit.nominal_width
    wide = if_stated(board.framing_width, at_least, least)
    thin = when_given(lambda own: own <= limit.thin.value, board.thickness)
    across, along = (at_most(board.framing_spacing, x) for x in (limit.ceiling_across, limit.ceiling_along))
    overhead = decide(board.runs if is_missing(board.runs) else board.runs == "across framing", across, along)
    usual = decide(_is_ceiling(board), overhead, at_most(board.framing_spacing, limit.wall))
    held = board.holds_insulation
    loaded = at_most(held if is_missing(held) else int(held), limit.thin_holds_insulation)
    narrow = all_of(
        at_most(board.framing_spacing, limit.thin_spacing),
        decide(_is_ceiling(board), loaded, does_not_apply("on a wall")),
    )
    framed = decide(thin, narrow, usual).or_fix("use thicker board, or run it across the framing")
    return all_of(framed, wide, _thick_enough(board, limit))


def _thick_enough(board: Board, limit: FramingLimits) -> Check:
    """What is thinner than the thinnest board of the table is made to go over something solid."""
    told = f"{board.thickness} board is made to lie on a solid surface; the table has no framing for it"
    thinner = when_given(lambda own, least: least is not None and own < least, board.thickness, limit.thin.value)
    if is_missing(board.thickness):
        return does_not_apply("thickness of the board: not stated")
    return look_at(Look.OFFICIAL, told) if thinner is True else does_not_apply("as thick as the table asks")


class CeilingLimits(Limits):
    close: Limit[Length]
    thickness_close: Limit[Length]
    thickness: Limit[Length]
    sag_resistant: Limit[Length]


@rule("cladding.ceiling-board", stage="final")
def ceiling_board(board: Board, limit: CeilingLimits) -> Check:
    """A gypsum ceiling that takes a water-based texture is thick enough for its framing, or resists sagging."""
    if board.material not in GYPSUM or board.on == "wall":
        return does_not_apply("not a gypsum ceiling")
    near = when_given(lambda own, most: most is None or own <= most, board.framing_spacing, limit.close.value)
    stiff = at_least(board.thickness, limit.sag_resistant)
    resists = decide(board.sag_resistant, stiff, broken("the board is not made to resist sagging"))
    thick = any_of(at_least(board.thickness, limit.thickness), resists)
    fix = f"use {limit.thickness.value} board, or {limit.sag_resistant.value} board that resists sagging"
    thick = thick.or_fix(fix, lambda: [NewValue(board, "thickness", limit.thickness.value)])
    due = decide(near, at_least(board.thickness, limit.thickness_close), thick)
    overhead = decide(_is_ceiling(board), due, does_not_apply("not a gypsum ceiling"))
    return decide(board.water_based_texture, overhead, does_not_apply("no water-based texture"))


def _unless_gypsum(board: Board) -> Check | None:
    if is_missing(board.material):
        return not_shown(board.material)
    return None if board.material in GYPSUM else does_not_apply("not gypsum board")


class FastenerLimits(Limits):
    nails_ceiling: Limit[Length]
    nails_wall: Limit[Length]
    screws_ceiling: Limit[Length]
    screws_wall: Limit[Length]
    screws_wall_wide: Limit[Length]
    wide_from: Limit[Length]
    penetration: Limit[Length]


@rule("cladding.board-fasteners", stage="final")
def board_fasteners(board: Board, limit: FastenerLimits) -> Check:
    """Gypsum board is fastened at the spacing of its place, and screws penetrate the framing far enough."""
    if (other := _unless_gypsum(board)) is not None:
        return other
    overhead, own = _is_ceiling(board), board.fastener_spacing
    nails = decide(overhead, at_most(own, limit.nails_ceiling), at_most(own, limit.nails_wall))
    wide = when_given(lambda spacing: spacing >= limit.wide_from.value, board.framing_spacing)
    wall = decide(
        wide,
        at_most(board.fastener_spacing, limit.screws_wall_wide),
        at_most(board.fastener_spacing, limit.screws_wall),
    )
    screws = all_of(
        decide(overhead, at_most(board.fastener_spacing, limit.screws_ceiling), wall),
        at_least(board.screw_penetration, limit.penetration),
    )
    return decide(when_given(lambda what: what == "nails", board.fastened_with), nails, screws)


def _is_ceiling(board: Board) -> bool | Missing:
    return when_given(lambda on: on == "ceiling", board.on)


def _may_be_wet(house: House) -> bool:
    """Return whether a tub or shower is new, and nobody says which board is in it."""
    bathed_in = any(fixture.what in BATHED_IN and fixture.phase == "new" for fixture in house.project.fixtures)
    wet = any(area.phase == "new" for area in house.project.wet_areas)
    return (bathed_in or wet) and not any(board.wet_area is True for board in house.project.boards)


class WetLimits(Limits):
    backers: Limit[tuple[str, ...]]
    over_retarder: Limit[int]
    height: Limit[Length]


@rule("cladding.wet-area", stage="final")
def wet_area(board: Board, limit: WetLimits, house: House) -> Check:
    """Tile in a tub or shower is on a water-resistant backer, not on gypsum board, and goes high enough.

    Where a tub or shower is new and no board is said to be in it, each that does not say where it is may be.
    """
    if is_missing(board.wet_area) and _may_be_wet(house):
        return not_shown(board.wet_area)
    if board.wet_area is not True:
        return does_not_apply("not in a tub or shower")
    backer = one_of(board.material, limit.backers).or_fix(
        "use cement board, glass-mat gypsum or a mortar bed",
        lambda: [NewValue(board, "material", limit.backers.value[0])],
    )
    over = board.over_retarder
    trapped = if_stated(when_given(int, over), at_most, limit.over_retarder)
    tile = decide(board.tiled, backer, met("no tile"))
    high = met("a ceiling") if board.on == "ceiling" else at_least(board.nonabsorbent_height, limit.height)
    green = when_given(lambda material: material == "water-resistant gypsum", board.material)
    return all_of(tile, decide(green, trapped, does_not_apply("another board")), high)
