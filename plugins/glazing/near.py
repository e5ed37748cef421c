"""Glass near doors, stairs and wet areas: as stated with the window, else measured in the plan."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck_plugins.glazing.panes import NO_LEAF, Glass, panes_of, under

from precheck import (
    OUTSIDE,
    Door,
    Fixture,
    House,
    Length,
    Limit,
    Missing,
    Stretch,
    WetArea,
    Window,
    apart,
    at_right_angle,
    depth_from,
    edges,
    fact,
    first_given,
    from_point,
    gap_between,
    in_one_plane,
    is_missing,
    is_outdoors,
    outline_of,
    stands_before,
    stretch_of,
    to_outline,
)

STOOD_IN = frozenset(
    ("tub", "tub with shower", "whirlpool", "hot tub", "spa")
)  # with a floor of their own, often a raised one
BATHED_IN = {
    "tub": ("tub", "whirlpool"),
    "tub with shower": ("tub", "whirlpool", "shower"),
    "shower": ("shower", "tub"),
}
CHANGED = frozenset(("new", "altered"))


@fact
class NearGlass(Glass):
    """A pane and a thing beside it. New glass is judged, and so is old glass that gets something new beside it."""

    beside_phase: Any

    @property
    def phase(self) -> Any:
        """The phase of the window, or `altered` where what stands beside it is new."""
        return self.opening.phase_where(self.beside_phase in CHANGED)


@fact
class GlassByDoor(NearGlass):
    """A pane of a window beside a door: `drawn` is the distance in the plan, `closet` the depth of one behind it."""

    door: Door
    distance: Length | Missing
    drawn: Length | Missing
    wall: str | Missing
    hinge_side: bool | Missing
    swings_in: bool | Missing
    barrier: bool
    other_room: bool
    at_fixed_panel: bool
    closet: Length | Missing | None
    room_beyond: Length | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[GlassByDoor]:
        """Yield every pane of every window with each door that stands in its room or in the same outside wall."""
        for window in house.subjects(Window):
            for door in house.subjects(Door):
                place = None if door.is_removed else _by_door(window, door, house)
                for about, pane in panes_of(window) if place else ():
                    where = (*(place or ()), _room_beyond(window, door, house))
                    yield cls(about, window, pane, house.sill_height(window), door.phase, door, *where)

    @property
    def label(self) -> str:
        """The pane and the door."""
        return f"{self.about.label} beside {self.door.label}"


@fact
class GlassByWater(NearGlass):
    """A pane of a window beside a wet area, or beside a tub or shower that is drawn as a fixture."""

    wet_area: WetArea | Fixture
    distance: Length | Missing
    drawn: Length | Missing
    faces: bool | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[GlassByWater]:
        """Yield every pane of every window with each wet area of its room, or outside."""
        for window in house.subjects(Window):
            for wet in wet_areas(house):
                if wet.space not in (str(window.space), OUTSIDE):
                    continue
                place = _by_water(window, wet, house)
                for about, pane in panes_of(window):
                    yield cls(about, window, pane, house.sill_height(window), wet.phase, wet, *place)

    @property
    def label(self) -> str:
        """The pane and the wet area."""
        return f"{self.about.label} beside {self.wet_area.label}"

    @property
    def above_standing(self) -> Length | Missing:
        """Bottom edge of the glass above where one stands: floor, ground, or a higher surface in the wet area."""
        raised = self.wet_area.standing_surface
        if self.wet_area.space == OUTSIDE:
            return self.opening.sill_above_grade if isinstance(self.opening, Window) else self.bottom
        if is_missing(raised) and self.wet_area.what not in STOOD_IN:
            return self.bottom
        return self.bottom - raised

    def is_low(self, limit: Limit[Length]) -> bool | Missing:
        """Whether the glass begins under `limit`: it does where it is low above the floor, however high one stands."""
        indoors = self.wet_area.space != OUTSIDE
        return True if indoors and under(self.bottom, limit) is True else under(self.above_standing, limit)


def _room_beyond(window: Window, door: Door, house: House) -> Length | None:
    """Return how much wall is left on the side of `window` away from `door`; None where it is not drawn."""
    glass, leaf = stretch_of(window, house), stretch_of(door, house)
    room = house.space(str(window.space))
    outline = None if room is None else house.outline(room)
    if is_missing(glass) or is_missing(leaf) or outline is None:
        return None
    wall = min(edges(outline), key=lambda edge: from_point(glass.start, edge) + from_point(glass.end, edge))
    far = max(glass, key=lambda point: from_point(point, leaf))
    return min(from_point(far, Stretch(corner, corner)) for corner in wall)


def wet_areas(house: House) -> Iterator[WetArea | Fixture]:
    """Yield the wet areas that are there when the work is done, and the tubs and showers that are none of them."""
    drawn = [wet for wet in house.project.wet_areas if not wet.is_removed]
    yield from drawn
    for fixture in house.project.fixtures:
        same = BATHED_IN.get(fixture.what, ())
        twice = any(str(wet.space) == str(fixture.space) and wet.what in same for wet in drawn)
        if same and not twice and not fixture.is_removed:
            yield fixture


def _by_door(window: Window, door: Door, house: House) -> tuple[Any, ...] | None:
    """How window and door stand to each other; None where they do not meet.

    They meet where they are in one room, or in one outside wall with a partition between them. A door between two rooms
    stands in another wall than a window to the outside: it is held against glass that is drawn or said to be near it.
    """
    if door.operation in NO_LEAF:
        return None
    stated = next((b for b in window.beside_doors if b.door == door.id), None)
    other_room = str(window.space) not in door.between
    if stated is None and other_room and not _one_outside_wall(window, door, house):
        return None
    glass, leaf = stretch_of(window, house), stretch_of(door, house)
    drawn, wall = _measured(window, glass, leaf)
    if stated is None and other_room and wall != "same":
        return None
    if stated is None and is_missing(drawn) and _in_partition(window, door, house):
        return None
    hinges = _hinge_side(door, glass)
    swings_in = _swings_in(door, window)
    closet = _closet(window, door, leaf, house)
    if stated is None:
        return (drawn, drawn, wall, hinges, swings_in, False, other_room, False, closet)
    told = first_given(stated.distance, drawn)
    return (
        told, drawn, first_given(stated.wall, wall), first_given(stated.hinge_side, hinges), swings_in,
        stated.barrier_between is True, other_room, stated.at_fixed_panel is True, closet,
    )  # fmt: skip


def _one_outside_wall(window: Window, door: Door, house: House) -> bool:
    """Whether a door to the outside and a window of another room can be in one outside wall: not on two stories."""
    rooms = [space for side in (window.space, *door.between) if (space := house.space(side)) is not None]
    stories = {str(room.story) for room in rooms if not is_missing(room.story)}
    return OUTSIDE in door.between and len(stories) <= 1


def _in_partition(window: Window, door: Door, house: House) -> bool:
    """Whether `door` joins two rooms, neither of which `window` looks into."""
    looks_in = str(window.looks_under) in map(str, door.between) or window.opens_to == "garage"
    return not looks_in and not any(is_outdoors(side, house) for side in door.between)


def _measured(window: Window, glass: Any, leaf: Any) -> tuple[Length | Missing, str | Missing]:
    if is_missing(glass) or is_missing(leaf):
        undrawn = glass if is_missing(glass) else leaf
        return undrawn, undrawn
    if in_one_plane(leaf, glass):
        return gap_between(leaf, glass), "same"
    return apart(leaf, glass), "right angle" if at_right_angle(leaf, glass) else "other angle"


def _hinge_side(door: Door, glass: Any) -> bool | Missing:
    """Whether the jamb nearer the glass carries the hinges; the point of the hinges must be drawn."""
    if is_missing(door.hinges) or is_missing(glass) or is_missing(door.middle):
        return door.absent("hinges")
    at, middle = ((x.n, y.n) for x, y in (door.hinges, door.middle))
    return bool(from_point(at, glass) < from_point(middle, glass))


def _swings_in(door: Door, window: Window) -> bool | Missing:
    if not is_missing(door.operation) and door.operation != "side-hinged":
        return False
    return door.swings_into if is_missing(door.swings_into) else door.swings_into == str(window.space)


def _closet(window: Window, door: Door, leaf: Stretch | Missing, house: House) -> Length | Missing | None:
    """How deep the closet behind the door is; None where the door leads to no closet."""
    behind = [space for space in house.sides(door) if space is not None and space.id != window.space]
    if len(behind) != 1 or behind[0].use not in ("closet", "storage") or str(window.space) not in door.between:
        return None
    outline = house.outline(behind[0])
    if outline is None or is_missing(leaf):
        return behind[0].absent("outline")
    return depth_from(leaf, outline)


def _by_water(window: Window, wet: WetArea | Fixture, house: House) -> tuple[Any, ...]:
    stated = next((b for b in window.beside_wet_areas if b.wet_area == wet.id), None)
    glass = stretch_of(window, house)
    outline = None if is_missing(wet.rectangle) else outline_of(wet.rectangle)
    drawn: Any = glass if is_missing(glass) else wet.absent("rectangle")
    faces: Any = drawn
    if outline is not None and not is_missing(glass):
        drawn, faces = to_outline(glass, outline), stands_before(glass, outline)
    if stated is None:
        return (drawn, drawn, faces)
    return (first_given(stated.distance, drawn), drawn, first_given(stated.faces, faces))
