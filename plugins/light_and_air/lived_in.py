"""The habitable rooms that need light and air, and what the work does to the windows of those that stand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.light_and_air.openings import Outlook, outlooks

from precheck import Area, Door, Fact, House, Missing, Space, WidthHeight, fact, is_missing, outlook_of, when_given


@fact
class LivedInRoom(Fact):
    """A habitable room, and the rooms that are open to it across a common wall."""

    room: Space
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[LivedInRoom]:
        """Yield every habitable room."""
        yield from (cls(room, room, house) for room in house.spaces if room.is_habitable)

    @property
    def phase(self) -> Any:
        """``new`` where a room stands and the work changes its windows, or builds a roof before them."""
        own = self.room.phase
        return "new" if own == "existing" and self._is_touched else own

    @property
    def _is_touched(self) -> bool:
        return self._has_other_windows or any(True for _ in self.newly_roofed)

    @property
    def _has_other_windows(self) -> bool:
        windows = (w for w in self.house.project.windows if w.space == self.room.id)
        return any(window.phase in ("altered", "removed") for window in windows)

    @property
    def newly_roofed(self) -> Iterator[Outlook]:
        """The windows before or over which the work builds, of a room that it leaves alone otherwise."""
        if self.room.phase != "existing" or self._has_other_windows:
            return
        for window in self.house.project.windows:
            if window.space == self.room.id and not window.is_removed:
                seen = outlook_of(window, self.room, self.house)
                outlook = next((o for o in outlooks(self.room, self.house) if o.opening is window), None)
                if any(space.phase in ("new", "altered") for space in seen):
                    yield outlook or Outlook(window, None)

    @property
    def is_left_alone(self) -> bool:
        """Whether it stands, keeps its use and its walls, and none of its windows is drawn: none is asked for then."""
        stays = self.phase == "existing" or (self.room.keeps_its_use and is_missing(self.room.before))
        return stays and not any(w.space == self.room.id for w in self.house.project.windows)

    @property
    def open_rooms(self) -> list[Space]:
        """Rooms across a wall of it that has an opening without a door."""
        return [s for s in self.house.spaces if s is not self.room and s.is_habitable and self.opening_to(s).n > 0]

    def opening_to(self, other: Space) -> Area:
        """The area of the openings without doors in the wall between it and `other`."""
        pair = {self.room.id, other.id}
        cased = [d for d in self.house.project.doors if d.operation == "cased opening" and not d.is_removed]
        walls = [w.open_area for w in self.house.walls_between(self.room, other)]
        areas = [*(_way_through(d) for d in cased if set(d.between) == pair), *walls]
        return sum((a for a in areas if isinstance(a, Area)), Area(0))

    def wall_to(self, other: Space) -> Area | Missing:
        """The area of the wall between it and `other`: as stated, else its length as drawn times the ceiling height."""
        stated = [w.area for w in self.house.walls_between(self.room, other) if not is_missing(w.area)]
        if stated:
            return sum(stated, Area(0))
        length = self.house.shared_wall(self.room, other)
        if length is None or not length.n:
            return self.room.absent(f"area of the wall to {other.id}")
        return when_given(lambda height: length * height, self.house.ceiling_height(self.room))


def _way_through(door: Door) -> Area | Missing:
    if not is_missing(door.net_clear_area):
        return door.net_clear_area
    return door.unit_size.area if isinstance(door.unit_size, WidthHeight) else door.net_clear_area
