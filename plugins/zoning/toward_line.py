"""The doors and windows in a wall that faces a lot line: as listed for that side, and as drawn in the wall nearest to it."""

from __future__ import annotations

from collections.abc import Iterator

from precheck_plugins.zoning.lot_lines import CHANGED, THICKEST_WALL, FacingLine, exposed, least_distance

from precheck import (
    OUTSIDE,
    Area,
    Door,
    House,
    Length,
    LotLine,
    Missing,
    Opening,
    Space,
    Stretch,
    at_right_angle,
    fact,
    is_missing,
    stretch_of,
    when_given,
)


@fact
class OpeningsTowardLine(FacingLine):
    """A side toward a lot line, for what is asked of its openings: a new one in a wall that stands is new work."""

    openings: tuple[Opening, ...] = ()

    @classmethod
    def found_in(cls, house: House) -> Iterator[OpeningsTowardLine]:
        """Yield every side that faces a lot line, and each that stands in which an opening is cut as drawn."""
        seen = set()
        for side in house.subjects(FacingLine):
            seen.add((side.space.id, side.line.id))
            there = (*_listed(side, house), *_drawn_toward(side.space, side.line, side.drawn, house))
            yield cls(side.about, side.space, side.line, side.stated, side.drawn, tuple(dict.fromkeys(there)))
        for space in (one for one in house.spaces if house.story_level(one) != "attic"):
            for line in house.subjects(LotLine):
                if (space.id, line.id) not in seen and not line.is_removed:
                    away = exposed(house, space, line)
                    cut = tuple(_drawn_toward(space, line, away, house))
                    if any(one.phase in CHANGED for one in cut):
                        yield cls(space, space, line, None, away, cut)

    @property
    def phase(self) -> str | Missing:
        """New work where an opening is cut, whatever the wall is."""
        own: str | Missing = super().phase
        return "altered" if any(one.phase in CHANGED for one in self.openings) else own

    @property
    def area(self) -> Area | Missing:
        """The area of doors and windows in this side: as stated or of those known to be in it, whichever is more."""
        sizes = [opening.unit_size for opening in self.openings]
        summed = when_given(lambda *boxes: sum((b.area for b in boxes), Area(0)), *sizes)
        stated: Area | Missing = self.of("opening area")
        if is_missing(stated):
            listed = self.stated is not None and self.stated.openings
            return summed if self.openings or listed else stated
        return max(stated, self.known_area)

    @property
    def known_area(self) -> Area:
        """The area of those of its openings whose size is given."""
        sizes = [opening.unit_size for opening in self.openings]
        return sum((size.area for size in sizes if not is_missing(size)), Area(0))


def _listed(side: FacingLine, house: House) -> Iterator[Opening]:
    """Yield the doors and windows that are listed for a side, and are there when the work is done."""
    for name in side.stated.openings if side.stated is not None else ():
        one = house.project.by_id[name]
        if isinstance(one, Opening) and not one.is_removed:
            yield one


def _drawn_toward(space: Space, line: LotLine, away: Length | None, house: House) -> Iterator[Opening]:
    """Yield the openings that are drawn in the outside wall of `space` that lies nearest to `line`, `away` from it."""
    own = _line_of(line)
    if away is None or own is None:
        return
    for opening in house.openings_of(space):
        stretch = stretch_of(opening, house)
        inside = isinstance(opening, Door) and OUTSIDE not in opening.between
        if inside or is_missing(stretch) or at_right_angle(stretch, own):
            continue
        found = least_distance((stretch.start, stretch.end), own.start, own.end)
        if found is not None and Length(found[0]) <= away + THICKEST_WALL:
            yield opening


def _line_of(line: LotLine) -> Stretch | None:
    if is_missing(line.from_) or is_missing(line.to):
        return None
    return Stretch((line.from_[0].n, line.from_[1].n), (line.to[0].n, line.to[1].n))
