"""Deck ledgers: that one is drawn, its board, its fasteners by the span of the joists, and what keeps it from pulling away."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from precheck_plugins.framing.drawn.setting import snow_of
from precheck_plugins.framing.rules.decks.hung import HungDeck, HungLedger

from precheck import (
    Check,
    Force,
    House,
    Ledger,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    NewValue,
    Pressure,
    Settled,
    agrees,
    all_of,
    any_of,
    at_least,
    at_most,
    broken,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    unsettled,
    when_given,
)


class ShownLimits(Limits):
    ledger: Limit[bool]


@rule("decks.ledger-shown", stage="plan")
def ledger_shown(deck: HungDeck, limit: ShownLimits) -> Check:
    """Deck joists that hang on the house have their ledger drawn, with its fasteners."""
    shown = deck.joists.absent("deck ledger that carries it") if deck.ledger is None else True
    return required(shown, limit.ledger)


class BoardLimits(Limits):
    depth: Limit[Length]
    thickness: Limit[Length]
    treated: Limit[bool]
    against: Limit[tuple[str, ...]]
    beams: Limit[int]
    lumber_band: Limit[Length]
    engineered_band: Limit[Length]
    engineered_depth: Limit[Length]


@rule("decks.ledger-board", stage="framing")
def ledger_board(hung: HungLedger, limit: BoardLimits) -> Check:
    """A ledger is big enough, treated, held by a stout band joist and by no veneer, and carries no beam.

    One on studs, concrete or masonry is outside the tables, and is engineered.
    """
    ledger = hung.ledger
    if not is_missing(ledger.designed_by):
        return met(f"designed by {ledger.designed_by}")
    board = ledger.board
    thick, deep = (when_given(lambda size, n=n: _nominal(size, n), board.size) for n in (0, 1))
    beams = when_given(int, board.carries_beam)
    return all_of(
        at_least(deep, limit.depth, "nominal depth"),
        at_least(thick, limit.thickness, "nominal thickness"),
        required(board.treated, limit.treated),
        one_of(board.against, limit.against).or_fix("a deck on posts of its own, or a connection that is designed"),
        at_most(beams, limit.beams).or_fix("a post under the beam at the house"),
        _band(board, limit),
    )


def _nominal(size: str, part: int) -> Length:
    return Length.parse(f"{size.split('x')[part]} in")


def _band(board: Any, limit: BoardLimits) -> Check:
    """Return the check of the band joist; a ledger against something else has no table, and is engineered."""
    if not is_missing(board.against) and board.against != "band joist":
        return look_at(
            Look.ENGINEER, f"the tables are for a ledger on a band joist, and this one lies on {board.against}"
        )
    lumber = at_least(board.band_thickness, limit.lumber_band, "band joist")
    made = all_of(
        at_least(board.band_thickness, limit.engineered_band, "band joist"),
        at_least(board.band_depth, limit.engineered_depth, "band joist"),
    )
    return decide(when_given(lambda band: band == "lumber", board.band), lumber, made)


class FastenerLimits(Limits):
    spacings: Settled[Mapping[str, Any]]
    kinds: Limit[tuple[str, ...]]
    diameter: Limit[Length]
    sheathing: Settled[Length]
    layers: Settled[Length]
    table_snow: Settled[Pressure]
    deeper_snow: Limit[Mapping[str, Any]]
    maximum_snow: Settled[Pressure]
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("decks.ledger-fasteners", stage="framing")
def ledger_fasteners(hung: HungLedger, limit: FastenerLimits, house: House) -> Check:
    """Lag screws or bolts of a ledger stand close enough for the span of the joists; nails never hold one.

    The spacing is that of the table for the next longer span and the next deeper snow, and less where more than thin
    wood sheathing lies between. Longer joists, thicker layers and deeper snow are engineered. Other fasteners go by their document.
    """
    ledger = hung.ledger
    own = ledger.fasteners
    if not is_missing(ledger.designed_by) or not is_missing(own.document):
        return met(f"as {first_given(ledger.designed_by, own.document)} says")
    kind = one_of(own.what, limit.kinds).or_fix("lag screws or through bolts, which are not pulled out")
    span: Any = first_given(ledger.joist_span, _row_span(ledger, house))
    snow = snow_of(house.project, limit.snow)
    absent = missing_of(own.what, own.spacing, own.between, span, snow)
    if absent is not None:
        return all_of(kind, not_shown(absent))
    if own.what not in limit.spacings.value:
        return all_of(kind, look_at(Look.ENGINEER, f"fasteners that are {own.what} are not in the table of ledgers"))
    table = _table_for(snow, limit)
    if table is None or (snow is not None and snow > limit.maximum_snow.value):
        return look_at(
            Look.ENGINEER, f"ground snow of {snow} is over the {limit.maximum_snow.value} of the table held here"
        )
    plain, thick = _spaced(str(own.what), own, span, table), _thick(own, span, table, limit)
    same = agrees(ledger.joist_span, _row_span(ledger, house), "span of the joists", derived="of their row")
    return all_of(decide(_is_thin(own, limit), plain, thick), at_least(own.diameter, limit.diameter), same)


def _table_for(snow: Any, limit: FastenerLimits) -> Any:
    """Return the table of spacings for `snow`: that of the next deeper snow that has one; None beyond all."""
    deeper = limit.deeper_snow.value
    if snow is None or snow <= limit.table_snow.value:
        return limit.spacings
    rows = sorted((Pressure.parse(name), rows) for name, rows in (deeper or {}).items())
    found = next((row for deep, row in rows if snow <= deep), None)
    return None if found is None else replace(limit.deeper_snow, value=found)


def _row_span(ledger: Ledger, house: House) -> Any:
    """Return the span of the row of joists that the ledger names, else an absence."""
    row = None if is_missing(ledger.joists) else house.project.by_id.get(ledger.joists)
    return row.span if isinstance(row, Member) else ledger.absent("joists")


def _is_thin(own: Any, limit: FastenerLimits) -> Any:
    if own.between > limit.sheathing.value:
        return False
    return own.only_wood_between if own.between.n else True


def _thick(own: Any, span: Length, table: Any, limit: FastenerLimits) -> Check:
    """Return the check where thick layers, or other than wood, lie between ledger and band joist."""
    if own.between > limit.layers.value:
        over = f"{own.between} between ledger and band joist is over the {limit.layers.value} of the table"
        return look_at(Look.ENGINEER, over)
    if own.what != "bolt":
        told = f"a {own.what} goes through no more than {limit.sheathing.value} of wood sheathing"
        return broken(told).or_fix("through bolts, or no more than thin wood sheathing between")
    return _spaced("bolt through thick layers", own, span, table)


def _spaced(row: str, own: Any, span: Length, table: Any) -> Check:
    cells = sorted((Length.parse(name), apart) for name, apart in table.value.get(row, {}).items())
    apart = next((apart for longest, apart in cells if longest >= span), None)
    if apart is None:
        beyond = f"longer than the {cells[-1][0]} of" if cells else f"no {row} in"
        return look_at(Look.ENGINEER, f"joists of {span}: {beyond} the table of ledgers")
    bound = replace(table, value=apart)
    return at_most(own.spacing, bound, f"{row}, joists {span} long").or_fix(
        f"{own.what}s no more than {apart} apart", lambda: [NewValue(own, "spacing", apart)]
    )


class PlaceLimits(Limits):
    from_top: Limit[Length]
    from_bottom: Limit[Length]
    from_end: Limit[Length]
    between_rows: Limit[Length]
    maximum: Limit[Length]
    band_from_top: Limit[Length]
    band_from_bottom: Limit[Length]
    staggered: Limit[bool]


@rule("decks.fastener-places", stage="framing", engineered="stands aside")
def fastener_places(hung: HungLedger, limit: PlaceLimits) -> Check:
    """Fasteners of a ledger stand in two staggered rows, neither too near its edges and ends nor too far from them."""
    ledger = hung.ledger
    own = ledger.fasteners
    if not is_missing(own.document):
        return does_not_apply("its fasteners follow their own document")
    return all_of(
        at_least(own.from_top, limit.from_top, "top of the ledger"),
        at_least(own.from_bottom, limit.from_bottom, "bottom of the ledger"),
        at_least(own.from_end, limit.from_end, "end of the ledger"),
        at_most(own.from_end, limit.maximum, "end of the ledger"),
        at_least(own.between_rows, limit.between_rows, "between the rows"),
        at_most(own.between_rows, limit.maximum, "between the rows"),
        at_least(own.band_from_top, limit.band_from_top, "top of the band joist"),
        at_least(own.band_from_bottom, limit.band_from_bottom, "bottom of the band joist"),
        required(own.staggered, limit.staggered),
    )


class PullLimits(Limits):
    two: Limit[int]
    two_strength: Limit[Force]
    four: Limit[int]
    four_strength: Limit[Force]
    from_end: Limit[Length]


@rule("decks.lateral-load", stage="framing")
def lateral_load(hung: HungLedger, limit: PullLimits) -> Check:
    """Hold-downs keep a deck from pulling away from the house: two strong ones, four lighter ones, or a design.

    The outermost of them stand near the ends of the deck.
    """
    ledger = hung.ledger
    if not is_missing(ledger.designed_by):
        return met(f"designed by {ledger.designed_by}")
    own = ledger.hold_downs
    strong = all_of(at_least(own.count, limit.two), at_least(own.strength, limit.two_strength))
    weaker = all_of(at_least(own.count, limit.four), at_least(own.strength, limit.four_strength))
    near = at_most(own.from_end, limit.from_end, "from the end of the deck")
    return all_of(any_of(strong, weaker), near).or_fix(lambda: _devices(limit), lambda: _few_devices(own, limit))


def _few_devices(own: Any, limit: PullLimits) -> list[NewValue]:
    """Return the few strong devices, near enough to the ends of the deck."""
    if is_missing(own) or unsettled(limit.two, limit.two_strength, limit.from_end) is not None:
        return []
    far = not is_missing(own.from_end) and own.from_end > limit.from_end.value
    count, strength = max(own.count, limit.two.value), limit.two_strength.value
    ends = [NewValue(own, "from_end", limit.from_end.value)] if far else []
    return [NewValue(own, "count", count), NewValue(own, "strength", strength), *ends]


def _devices(limit: PullLimits) -> str:
    pairs = ((limit.two, limit.two_strength), (limit.four, limit.four_strength))
    ways = [f"{count.value} devices of {force.value}" for count, force in pairs if unsettled(count, force) is None]
    return " or ".join([*ways, "a design of this connection"])
