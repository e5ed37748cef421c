"""What a deck brings to the ledger, held against what the table of ledger fasteners is for."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.drawn.load_cases import combined
from precheck_plugins.framing.drawn.load_path import at_support, reactions_of
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, inches, psf, setting_in
from precheck_plugins.framing.rules.decks.hung import HungLedger, house_end
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Check,
    House,
    Ledger,
    Look,
    Member,
    Missing,
    Pressure,
    Settled,
    does_not_apply,
    first_given,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    rule,
)


class TableLoadLimits(DesignLimits):
    live: Settled[Pressure]
    dead: Settled[Pressure]


@rule("decks.ledger-load", stage="framing")
def ledger_load(hung: HungLedger, limit: TableLoadLimits, house: House) -> Check:
    """The joists bring a ledger no more than its table of fasteners is for: its loads over half the span of the joists.

    The greatest reaction of the joists is followed from their loads, where the ledger names its joists. More, as from a tub
    or from more than one span, is engineered.
    """
    ledger = hung.ledger
    if not is_missing(ledger.designed_by) or not is_missing(ledger.fasteners.document):
        return met(f"as {first_given(ledger.designed_by, ledger.fasteners.document)} says")
    row = None if is_missing(ledger.joists) else house.project.by_id.get(ledger.joists)
    if not isinstance(row, Member):
        return does_not_apply("it names no joists whose loads are drawn; their span is held against the table")
    try:
        brought = _brought_plf(row, house, setting_in(house, limit))
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}").citing(limit.live)
    made_for = _table_plf(ledger, row, limit)
    absent = missing_of(brought, made_for)
    if absent is not None or is_missing(brought) or is_missing(made_for):
        return (not_shown(absent) if absent is not None else does_not_apply("")).citing(limit.live)
    told = (
        f"{row.label} brings the ledger {brought:,.0f} lb per ft, and its table is for {made_for:,.0f} on such a span"
    )
    return (met(told) if brought <= made_for * (1 + 1e-6) else look_at(Look.ENGINEER, told)).citing(limit.live)


def _brought_plf(row: Member, house: House, setting: Setting) -> float | Missing:
    reactions = reactions_of(row, setting)
    absent = missing_of(reactions, row.spacing)
    if absent is not None or is_missing(reactions):
        return absent if absent is not None else row.spacing  # type: ignore[return-value]  # one of them is the absence
    forces = at_support(reactions, house_end(row, house) or 0)
    return combined(forces).greatest * 12 / inches(row.spacing)  # type: ignore[arg-type]  # given, or it were absent


def _table_plf(ledger: Ledger, row: Member, limit: TableLoadLimits) -> float | Missing:
    """The load per foot that the row of the table for this span of joists is for."""
    span: Any = first_given(ledger.joist_span, row.spans[0] if row.spans else row.span)
    if is_missing(span):
        return span
    return (psf(limit.live.value) + psf(limit.dead.value)) * inches(span) / 12 / 2
