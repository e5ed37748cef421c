"""The ledger of a deck or porch that hangs on the house."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.lines.serving import Group, serving
from precheck_plugins.framing.lines.spaces import STANDS, each

from precheck import Check, House, Ledger, Member, Work, is_missing, line

HUNG = ("deck", "porch")
HOUSE_SIDE = ("existing framing", "bearing wall")


@line("decks.ledger")
def ledger(work: Work, house: House) -> Check:
    """A deck that hangs on the house has a ledger; one that stands by itself has posts on that side too."""
    carried = {one.joists for one in house.project.ledgers if not one.is_removed}
    ledgers = [one for one in house.project.ledgers if one.phase != "existing" or _is_told(one)]
    joists = [m for m in house.project.members if m.role in ("deck joist", "floor joist")]

    def look(group: Group) -> Any:
        if all(space.detached is True for space in group):
            return None
        found = serving(ledgers, group, HUNG, house, STANDS)
        if is_missing(found) or found:
            return found
        own = serving(joists, group, HUNG, house)
        if is_missing(own):
            return own
        if not own:
            return None if _on_ground(group, house) else group[0].absent("ledger (or that it is detached)")
        on_house = [m for m in own if isinstance(m, Member) and _lands_on_house(m, house)]
        lacking = [joist for joist in on_house if joist.id not in carried]
        return lacking[0].absent("deck ledger that carries it") if lacking else None

    return each(work, house, "ledger, or that the deck stands on its own posts", look, "it stands by itself")


def _is_told(ledger: Ledger) -> bool:
    """Return whether a ledger names what it carries."""
    return bool(ledger.spaces) or not is_missing(ledger.joists)


def _lands_on_house(joist: Member, house: House) -> bool:
    """Return whether an end of a row of joists lands on a wall or on framing of the house."""
    walls = {wall.id for wall in house.project.walls}
    return any(end.onto in HOUSE_SIDE or end.on in walls for end in joist.bears_on)


def _on_ground(group: Group, house: House) -> bool:
    floors = [house.floor(space) for space in group]
    slabs = {slab.space for slab in house.project.slabs}
    return all(s.id in slabs or (f is not None and f.base == "slab") for s, f in zip(group, floors, strict=True))
