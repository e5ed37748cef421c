"""Decks where they meet the house: the ledger, what holds it up, and what keeps it from pulling away."""

from __future__ import annotations

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.project.between import Between
from precheck.project.carried import MemberId
from precheck.project.lumber import Nominal
from precheck.project.part import Gap, Number, Part, Size, SpaceId
from precheck.units import Force


class LedgerBoard(Record):
    """The board itself, and what it lies against. A `band` of lumber or an engineered one has its true size."""

    kind = "board"
    size: Maybe[Nominal] = NOT_GIVEN
    treated: Maybe[bool] = NOT_GIVEN
    against: Maybe[
        Literal["band joist", "studs", "concrete or masonry wall", "stone or brick veneer", "cantilevered floor"]
    ] = NOT_GIVEN
    band: Maybe[Literal["lumber", "engineered"]] = NOT_GIVEN
    band_thickness: Maybe[Annotated[Size, Between("1/4 in", "12 in")]] = NOT_GIVEN
    band_depth: Maybe[Annotated[Size, Between("1 in", "4 ft")]] = NOT_GIVEN
    carries_beam: Maybe[bool] = NOT_GIVEN


class LedgerFasteners(Record):
    """Lag screws or bolts of a ledger. `between` is all that lies between ledger and band joist; others need a `document`.

    The distances are those of the outermost rows from the edges of the ledger and of the band joist.
    """

    kind = "fasteners"
    what: Maybe[Literal["lag screw", "bolt", "nail", "other"]] = NOT_GIVEN
    document: Maybe[str] = NOT_GIVEN
    diameter: Maybe[Annotated[Size, Between("1/16 in", "2 in")]] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("1/2 in", "10 ft")]] = NOT_GIVEN
    between: Maybe[Annotated[Gap, Between("1/64 in", "2 ft")]] = NOT_GIVEN
    only_wood_between: Maybe[bool] = NOT_GIVEN
    staggered: Maybe[bool] = NOT_GIVEN
    from_top: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    from_bottom: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    from_end: Maybe[Annotated[Gap, Between("1/16 in", "4 ft")]] = NOT_GIVEN
    between_rows: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    band_from_top: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN
    band_from_bottom: Maybe[Annotated[Gap, Between("1/16 in", "2 ft")]] = NOT_GIVEN


class HoldBack(Record):
    """The devices that keep a deck from pulling away: how many, how strong each, how far the last is from its end."""

    kind = "hold-downs"
    count: Maybe[Annotated[Number, Between(1, 40)]] = NOT_GIVEN
    strength: Maybe[Annotated[Force, Between("10 lb", "50000 lb")]] = NOT_GIVEN
    from_end: Maybe[Annotated[Gap, Between("1/4 in", "60 ft")]] = NOT_GIVEN


class Ledger(Part):
    """The ledger by which a deck hangs on the house; `joists` names those that it carries, or `joist span` their span.

    `spaces` names the deck, where its joists do not tell.
    """

    kind = "deck ledger"
    spaces: tuple[SpaceId, ...] = ()
    joists: Maybe[MemberId] = NOT_GIVEN
    joist_span: Maybe[Annotated[Size, Between("6 in", "60 ft")]] = NOT_GIVEN
    board: Maybe[LedgerBoard] = NOT_GIVEN
    fasteners: Maybe[LedgerFasteners] = NOT_GIVEN
    hold_downs: Maybe[HoldBack] = NOT_GIVEN
    designed_by: Maybe[str] = NOT_GIVEN


__all__ = ["Ledger"]
