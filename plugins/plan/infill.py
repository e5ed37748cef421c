"""Walls that close openings: as long as what they close, together with what is new beside them."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    OUTSIDE,
    Check,
    Door,
    Fact,
    House,
    Length,
    Opening,
    Stretch,
    Wall,
    Window,
    broken,
    does_not_apply,
    fact,
    from_point,
    is_missing,
    line_of,
    met,
    rule,
)

STUDS_BESIDE = Length.parse("6 in")  # of an opening, which may stay
BUILT = ("new", "altered")


@fact
class Infill(Fact):
    """A wall that closes an opening, and that opening."""

    wall: Wall
    filled: Opening

    @classmethod
    def found_in(cls, house: House) -> Iterator[Infill]:
        """Yield every wall that is said to close an opening."""
        for wall in house.subjects(Wall):
            filled = None if is_missing(wall.opening_filled) else house.project.by_id.get(wall.opening_filled)
            if isinstance(filled, Door | Window) and not wall.is_removed:
                yield cls(wall, wall, filled)


@rule("plan.infill-fits", stage="intake", existing="must comply")
def infill_fits(infill: Infill, house: House) -> Check:
    """A wall that closes an opening is drawn as long as the opening is wide, but for the studs beside it that stay.

    Several may close one opening, with new doors and windows between them.
    """
    filled = infill.filled
    if is_missing(filled.unit_size):
        return does_not_apply("the width of what it closes is not given")
    pieces = [_length(one) for one in house.project.walls if one.opening_filled == filled.id and not one.is_removed]
    known = [length for length in pieces if length is not None]
    between = list(_between(filled, house))
    if len(known) < len(pieces) or None in between:
        return does_not_apply("what closes it is not drawn in plan")
    length, width = sum((one for one in (*known, *between) if one is not None), Length(0)), filled.unit_size.width
    if length + STUDS_BESIDE >= width:
        return met(f"{length} close {width} of opening")
    told = f"{filled.label} is {width} wide, and what closes it is {length} long"
    return broken(told).or_fix(
        "correct the length of the wall or the width of the opening", decide="which sheet is right"
    )


def _length(wall: Wall) -> Length | None:
    line = line_of(wall)
    return None if line is None else from_point(line.start, Stretch(line.end, line.end))


def _between(filled: Opening, house: House) -> Iterator[Length | None]:
    """Yield the width of each door and window that is built between the same two sides; None where one is not given."""
    sides = _sides(filled)
    both: tuple[Opening, ...] = (*house.project.doors, *house.project.windows)
    for one in both:
        if one.phase in BUILT and _sides(one) == sides:
            yield None if is_missing(one.unit_size) else one.unit_size.width


def _sides(opening: Opening) -> frozenset[str]:
    return frozenset(opening.between if isinstance(opening, Door) else (getattr(opening, "space", ""), OUTSIDE))
