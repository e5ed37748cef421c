"""What works take of guards: the edge of a deck or porch."""

from __future__ import annotations

from precheck import Check, Guard, House, Space, Work, does_not_apply, is_missing, line, shown, to_show


@line("guards.at-edge")
def at_edge(work: Work, house: House) -> Check:
    """The plans show how high a deck or porch stands, and the guard along its edge where one is due."""
    if not work.parts:
        return to_show("drop at edge, and the guard where it is due", work)
    (deck,) = work.parts_of(Space)
    if deck.open_edge is False:
        return does_not_apply("no side of it is open")
    guards = [g for g in house.subjects(Guard) if g.along == deck.id and not g.none and not g.is_removed]
    if guards:
        return shown(*guards)
    drop = deck.drop_at_edge
    return to_show("drop at edge", work, drop) if is_missing(drop) else shown(f"{drop} at the edge of {deck.label}")
