"""Decks that hang on the house: their joists, and the ledger that carries them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Fact, House, Ledger, Member, fact, is_missing

HOUSE_SIDE = ("existing framing", "bearing wall")


@fact
class HungDeck(Fact):
    """Deck joists that the work hangs on the house: their row, and the ledger that is drawn for it."""

    joists: Member
    ledger: Ledger | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[HungDeck]:
        """Yield rows of deck joists, new or altered, one end of which lands on the framing or a wall of the house."""
        ledgers = [one for one in house.project.ledgers if not one.is_removed]
        for member in house.subjects(Member):
            if member.role == "deck joist" and member.phase != "existing" and house_end(member, house) is not None:
                yield cls(member, member, next((one for one in ledgers if one.joists == member.id), None))


def house_end(member: Member, house: House) -> int | None:
    """Return which support of a row of joists is the framing or a wall of the house; None where none is."""
    for index, bearing in enumerate(member.bears_on):
        part = None if is_missing(bearing.on) else house.project.by_id.get(bearing.on)
        if bearing.onto in HOUSE_SIDE or (part is not None and part.kind == "wall"):
            return index
    return None


@fact
class HungLedger(Fact):
    """A ledger and the joists that it names: an old ledger that carries new joists is judged anew."""

    ledger: Ledger
    joists: Member | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[HungLedger]:
        """Yield every ledger."""
        for ledger in house.subjects(Ledger):
            row = None if is_missing(ledger.joists) else house.project.by_id.get(ledger.joists)
            yield cls(ledger, ledger, row if isinstance(row, Member) else None)

    @property
    def designed_by(self) -> Any:
        """Who designed the ledger."""
        return self.ledger.designed_by
