"""What the rules for egress openings are about: rooms that need one, and the opening that serves each of them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.escape.best import best_of, sill_of

from precheck import (
    OUTSIDE,
    Area,
    Door,
    Fact,
    House,
    Length,
    Missing,
    Opening,
    Space,
    Window,
    fact,
    is_missing,
    is_replaced,
    outlook_of,
    when_given,
)

OUTDOOR = frozenset(("carport", "porch", "deck"))


@fact
class EscapeRoom(Fact):
    """A room that needs an egress opening, why, and the openings that could serve it.

    A basement without a bedroom needs one opening for all of its rooms; `spaces` are those that it may be in. `loft` is
    the sleeping loft for which a room needs one.
    """

    room: Space
    why: str
    basement: bool
    spaces: tuple[Space, ...]
    candidates: tuple[Opening, ...]
    area: Area | Missing
    sprinklered: bool | Missing
    touched: bool
    loft: Space | None = None

    @classmethod
    def found_in(cls, house: House) -> Iterator[EscapeRoom]:
        """Yield every bedroom and habitable attic, and every basement that has no bedroom."""
        sprinklered = house.project.dwelling.sprinklered
        basements = _basements(house)
        for room in house.spaces:
            below = house.story_level(room) == "basement"
            spaces = basements.get(str(room.story), (room,)) if below else (room,)
            if why := why_needed(room, spaces, below):
                served = (room,) if room.is_sleeping else spaces
                openings = tuple(o for s in served for o in house.openings_of(s) if could_serve(o, house))
                areas = when_given(lambda *given: sum(given[1:], start=given[0]), *(house.area(s) for s in served))
                yield cls(room, room, why, below, served, openings, areas, sprinklered, _touched(served, house))
        yield from cls._of_lofts(house)

    @classmethod
    def _of_lofts(cls, house: House) -> Iterator[EscapeRoom]:
        """Yield every loft for sleeping that is no bedroom itself, with the rooms that it is open to."""
        for loft in house.spaces:
            if loft.sleeping_loft is not True or loft.is_sleeping:
                continue
            open_to = [s for s in house.spaces if s.id in loft.open_to or loft.id in s.open_to]
            if not any(space.is_sleeping for space in open_to):
                served = (*open_to, loft)
                openings = tuple(o for s in served for o in house.openings_of(s) if could_serve(o, house))
                why = f"people sleep in the loft {loft.id}"
                more = (loft.absent("area"), True, _touched(served, house), loft)
                yield cls(served[0], served[0], why, False, served, openings, *more)

    @property
    def phase(self) -> Any:
        """``new`` where the room stands and the work closes, moves or adds an opening of it."""
        own = self.room.phase if self.loft is None else self.loft.phase
        return "new" if own == "existing" and self.touched else own

    @property
    def mechanical_only(self) -> bool:
        """Whether the whole basement is said to hold mechanical equipment alone."""
        return self.basement and all(space.mechanical_only is True for space in self.spaces)

    @property
    def is_altered_basement(self) -> bool:
        """Whether this is an existing basement in which no bedroom is made; rooms parted off in it change nothing."""
        return self.basement and not self.room.is_sleeping and all(_stood(space) for space in self.spaces)

    @property
    def known(self) -> tuple[Opening, ...]:
        """The openings that are drawn as ones that open."""
        return tuple(o for o in self.candidates if not isinstance(o, Window) or not is_missing(o.operation))


@fact
class EscapeOpening(Fact):
    """The opening through which people are to leave one room: as marked, else the one that serves best.

    `room_phase` is ``new`` for a room that stands where the work closes another opening of it or changes its floor, so
    that what is left has to serve.
    """

    room: Space
    opening: Opening
    sill: Length | Missing
    chosen: str
    room_phase: Any
    level: str | Missing
    outside: tuple[Space, ...]
    replaced: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[EscapeOpening]:
        """Yield the egress opening of every room that needs one and has an opening that could serve."""
        for need in house.subjects(EscapeRoom):
            marked = tuple(o for o in need.candidates if o.escape is True)
            opening = best_of(marked or need.candidates, need.room, house) if need.loft is None else None
            if opening is not None:
                chosen = "marked as the egress opening" if marked else _why_this(need)
                more = (sill_of(opening, house), chosen, _room_phase(need, house), house.story_level(need.room))
                replaced = isinstance(opening, Window) and is_replaced(opening, house)
                yield cls(opening, need.room, opening, *more, outlook_of(opening, need.room, house), replaced)

    @property
    def phase(self) -> Any:
        """Existing only where room and opening both stay; an existing window must serve a new bedroom."""
        return self.room_phase if self.opening.phase == "existing" else self.opening.phase

    @property
    def width(self) -> Length | Missing:
        """Net clear width: as given, or that of a door. The unit size says nothing of it, so it is never used."""
        return self._side(0, "clear_width")

    @property
    def height(self) -> Length | Missing:
        """Net clear height: as given, or that of a door."""
        return self._side(1, "clear_height")

    def _side(self, which: int, of_door: str) -> Length | Missing:
        box = self.box
        if not is_missing(box):
            side: Length = box[which]
            return side
        stated = getattr(self.opening, of_door, box)
        return self._clear("net clear opening") if is_missing(stated) else stated

    @property
    def area(self) -> Area | Missing:
        """Net clear area: as stated, else width times height."""
        stated = self.opening.net_clear_area
        return when_given(lambda w, h: w * h, self.width, self.height) if is_missing(stated) else stated

    @property
    def sill_from_grade(self) -> Length | Missing:
        """Distance of the sill from the ground beside it, above or below."""
        above = self.opening.sill_above_grade if isinstance(self.opening, Window) else self.opening.absent("grade")
        return above if is_missing(above) else abs(above)

    @property
    def box(self) -> Any:
        """The net clear opening: its width and height, or their absence."""
        return self.opening.net_clear_opening

    @property
    def may_be_smaller(self) -> bool:
        """Whether it is an existing window of a bedroom that is made in a basement, or of an addition."""
        made = self.level == "basement" or self.room.addition is True
        return isinstance(self.opening, Window) and self.opening.phase == "existing" and made

    @property
    def is_replacement(self) -> bool:
        """Whether it is a replacement window in a room that is not said to change its use."""
        return self.replaced and not self.room.changes_use

    @property
    def sill_below_grade(self) -> bool | Missing:
        """Whether the sill lies below the ground beside it; a drawn well says so, an upper story the opposite."""
        if not isinstance(self.opening, Window) or self.level in ("upper", "attic"):
            return False
        above = self.opening.sill_above_grade
        if not is_missing(above):
            return above.n < 0
        return above if is_missing(self.opening.well) else True

    def _clear(self, key: str) -> Missing:
        unit = self.opening.unit_size
        known = "" if is_missing(unit) else f" (only the unit size, {unit}, is given)"
        return self.opening.absent(f"{key}{known}")


def _stood(space: Space) -> bool:
    """Whether `space` was there before the work, under whatever name."""
    return space.phase in ("existing", "altered") or not is_missing(space.was) or space.addition is False


def why_needed(room: Space, spaces: tuple[Space, ...], below: bool) -> str | None:
    """Return why `room` needs an egress opening; None where it needs none, or another of `spaces` stands for all."""
    if room.is_sleeping:
        return "it is a bedroom"
    if room.habitable_attic is True:
        return "it is a habitable attic"
    if below and room is spaces[0] and not any(space.is_sleeping for space in spaces):
        return "it is in a basement" if len(spaces) == 1 else f"it is in a basement, for all {len(spaces)} rooms of it"
    return None


def could_serve(opening: Opening, house: House) -> bool:
    """Return whether people could leave through `opening`: it may open, and not into another room."""
    if isinstance(opening, Window):
        return opening.can_open
    if not isinstance(opening, Door) or opening.operation == "vehicle":
        return False
    spaces = (house.space(side) for side in opening.between if side != OUTSIDE)
    return OUTSIDE in opening.between or any(space is not None and space.use in OUTDOOR for space in spaces)


def _basements(house: House) -> dict[str, tuple[Space, ...]]:
    """Return the spaces of each basement story, those first in which people stay."""
    found: dict[str, list[Space]] = {}
    for space in house.spaces:
        if house.story_level(space) == "basement" and space.use != "crawl space":
            found.setdefault(str(space.story), []).append(space)
    return {story: tuple(sorted(s, key=lambda space: not space.is_habitable)) for story, s in found.items()}


def _touched(rooms: tuple[Space, ...], house: House) -> bool:
    """Whether the work alters or closes an opening of `rooms` to the outside; one that goes counts too."""
    ids = {space.id for space in rooms}
    doors = (door for door in house.project.doors if OUTSIDE in door.between)
    changed = (o for o in (*doors, *house.project.windows) if o.phase in ("altered", "removed"))
    return any(not ids.isdisjoint(rooms_of(opening)) for opening in changed)


def _room_phase(need: EscapeRoom, house: House) -> Any:
    floor = house.floor(need.room)
    changed = floor is not None and floor.phase in ("new", "altered")
    return "new" if need.room.is_existing and (changed or _closed(need.spaces, house)) else need.room.phase


def _closed(rooms: tuple[Space, ...], house: House) -> bool:
    """Whether an opening of `rooms` goes through which people could have left."""
    ids = {space.id for space in rooms}
    gone = (o for o in (*house.project.doors, *house.project.windows) if o.is_removed and could_serve(o, house))
    return any(not ids.isdisjoint(rooms_of(opening)) for opening in gone)


def rooms_of(opening: Opening) -> tuple[str, ...]:
    """Return the ids of the spaces that `opening` belongs to."""
    if isinstance(opening, Door):
        return tuple(str(side) for side in opening.between)
    return (str(opening.space),) if isinstance(opening, Window) else ()


def _why_this(need: EscapeRoom) -> str:
    if len(need.candidates) == 1:
        return f"the only opening of {need.room.id} that could serve"
    return f"the one of the {len(need.candidates)} openings of {need.room.id} that serves best; none is marked `escape: yes`"
