"""The survey of a house: facts that follow from what the project states, worked out once and never written back.

Stated facts work without geometry, and geometry without stated facts. Where both are given the stated one is used, and
rules hold the two against each other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property, lru_cache
from typing import Any, TypeVar

from precheck.files.missing import Missing, first_given, is_missing, when_given
from precheck.project import (
    Ceiling,
    Door,
    Floor,
    Opening,
    Part,
    Project,
    Space,
    Stair,
    Wall,
    Window,
    thickness_of,
)  # fmt: skip
from precheck.project.criteria import NO_LESS_THAN
from precheck.survey import geometry, outlines, passages, under_ceiling
from precheck.survey.candidate import Candidate, candidate_of
from precheck.survey.stories import Order, order_of
from precheck.units import Area, Length, Ratio

T = TypeVar("T")
NO_FLOOR_AREA = frozenset(("garage", "carport", "attic", "crawl space", "porch", "deck"))


class House:
    """Derived facts of one project. Everything is computed on demand and kept."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self._subjects: dict[type, tuple[Any, ...]] = {}
        self._candidates: dict[type, tuple[Candidate, ...]] = {}
        self.kept: dict[Any, Any] = {}  # what others have worked out of it

    def subjects(self, kind: type[Any]) -> tuple[Any, ...]:
        """Return every subject of type `kind`, in file order: records of that type, or what its `found_in` finds."""
        if kind not in self._subjects:
            finder = getattr(kind, "found_in", None)
            found = finder(self) if finder else self._records(kind)
            self._subjects[kind] = tuple(found)
        return self._subjects[kind]

    def _records(self, kind: type[Any]) -> Iterable[Any]:
        by_class = self.once(_by_class)
        own = [by_class[one] for one in _of_kind(kind, tuple(by_class))]  # type: ignore[arg-type]  # a class has a hash
        return own[0] if len(own) == 1 else (r for r in self.project.records if own and isinstance(r, kind))

    def once(self, work_out: Callable[..., T], *of: Any) -> T:
        """Return ``work_out(*of, self)``, worked out at the first time that it is asked for; what it is `of` has a hash."""
        key = (work_out, *of)
        found: Any = self.kept.get(key, self)  # which is no fact of its own
        if found is self:
            found = self.kept[key] = work_out(*of, self)
        return found  # type: ignore[no-any-return]  # a `T`

    def candidates(self, kind: type[Any]) -> tuple[Candidate, ...]:
        """Return every subject of type `kind` that is there when the work is done, worked out once for all rules."""
        if kind not in self._candidates:
            found = map(candidate_of, self.subjects(kind))
            self._candidates[kind] = tuple([one for one in found if one.phase != "removed"])
        return self._candidates[kind]

    @property
    def places(self) -> dict[int, Any]:
        """The places of all subjects that were asked for, by the identity of the subject."""
        return {id(one.subject): one.place for found in self._candidates.values() for one in found}

    @cached_property
    def spaces(self) -> tuple[Space, ...]:
        """The spaces that are there when the work is done."""
        return tuple(s for s in self.project.spaces if not s.is_removed)

    def space(self, space_id: str) -> Space | None:
        """Return the space with that id; None for the outside."""
        part = self.project.by_id.get(space_id)
        return part if isinstance(part, Space) else None

    def outline(self, space: Space) -> geometry.Outline | None:
        """Return the outline of `space` as drawn, or None where it has none."""
        return self.once(outlines.outline_drawn, space)

    def area_gained(self, space: Space) -> Area | Missing:
        """Return the floor that the work adds to `space`: all of a new one; of another what it is larger than before."""
        return outlines.area_gained(space, self.area(space), outlines.joined_with(space, self))

    def criterion(self, set_here: Any, name: str) -> Any:
        """Return a design criterion: as the jurisdiction sets it (`set_here`), else as the drawings state it."""
        return first_given(set_here, getattr(self.project.design_criteria, name))

    def is_shaken(self, set_here: Any, among: Iterable[str] | Missing | None) -> bool | Missing:
        """Return whether the seismic design category is `among` those that ask for more; `set_here` by the jurisdiction.

        E and F, which the code for houses leaves to engineering, ask for no less than D2.
        """
        found = self.criterion(set_here, "seismic_design_category")
        return when_given(
            lambda own, names: bool({str(own), NO_LESS_THAN.get(str(own))} & {*(names or ())}), found, among
        )

    def drawn_area(self, space: Space) -> Area | Missing:
        """Return the floor area inside the outline of `space`, less what is open to below."""
        return outlines.drawn_area(space, self.outline(space), self.open_below(space))

    def open_below(self, space: Space) -> Area | Missing:
        """Return what of `space` has no floor: as stated or as openings are drawn, whichever is more."""
        return outlines.open_below(space, self.project.framed_openings, self.outline(space))

    def area(self, space: Space) -> Area | Missing:
        """Return the floor area of `space`: as stated, else as drawn."""
        if not is_missing(space.area):
            return space.area
        return space.absent("area") if self.outline(space) is None else self.drawn_area(space)

    def area_under_slope(self, space: Space, height: Length) -> Area | Missing:
        """Return the floor area of `space` over which its sloped ceiling is at least `height` above the floor."""
        return under_ceiling.area_under_slope(space, self.area(space), self.open_below(space), height)

    @cached_property
    def floor_area_rooms(self) -> tuple[Space, ...]:
        """The rooms that make floor area of the house."""
        return tuple(s for s in self.spaces if not is_missing(s.use) and s.use not in NO_FLOOR_AREA)

    @property
    def known_floor_area(self) -> Area:
        """The floor area of those rooms; one that is not given adds nothing."""
        return sum((area for s in self.floor_area_rooms if not is_missing(area := self.area(s))), Area(0))

    def floor(self, space: Space) -> Floor | None:
        """Return the floor of `space`, where it names one."""
        part = None if is_missing(space.floor) else self.project.by_id.get(space.floor)
        return part if isinstance(part, Floor) else None

    def finished_floor(self, space: Space) -> Length | Missing:
        """Return the level of the finished floor: as stated, else its base and the layers on it."""
        floor = self.floor(space)
        if floor is None:
            return space.absent("floor")
        return floor.finished_level if not is_missing(floor.finished_level) else self.built_up_level(floor)

    def built_up_level(self, floor: Floor) -> Length | Missing:
        """Return the level that the base of `floor` and the layers on it come to; a slab may be bare, joists are not."""
        bare = not floor.layers and floor.base != "slab" and "layers" not in floor.model_fields_set
        return floor.base_level + (floor.absent("layers") if bare else thickness_of(floor.layers))

    def built_up_ceiling(self, space: Space) -> Length | Missing:
        """Return finished floor to finished ceiling as the framing level and the layers of both come to."""
        ceiling = space.ceiling
        if is_missing(ceiling):
            return ceiling
        drawn = ceiling.layers or "layers" in ceiling.model_fields_set  # an open ceiling says `layers: []`
        finish = thickness_of(ceiling.layers) if drawn else ceiling.absent("layers")
        return ceiling.framing_level - finish - self.finished_floor(space)

    def ceiling_height(self, space: Space) -> Length | Missing:
        """Return finished floor to finished ceiling: as stated, else as built up."""
        ceiling = space.ceiling
        if not isinstance(ceiling, Ceiling):
            return space.absent("ceiling height")
        if not is_missing(ceiling.height):
            return ceiling.height
        built_up = self.built_up_ceiling(space)
        return ceiling.height if is_missing(ceiling.framing_level) else built_up

    def sill_height(self, window: Window) -> Length | Missing:
        """Return the bottom of the clear opening above the finished floor: as stated, else from the two levels."""
        space = self.space(window.space)
        if not is_missing(window.sill_height) or is_missing(window.sill_level) or space is None:
            return window.sill_height
        return window.sill_level - self.finished_floor(space)

    def sill_set(self, window: Window, height: Length) -> list[tuple[str, Length]]:
        """Return the fields that put the sill of `window` at `height` above its floor: its height, its level, or both."""
        space = self.space(window.space)
        floor: Length | Missing = window.absent("space") if space is None else self.finished_floor(space)
        found = [] if is_missing(window.sill_height) else [("sill_height", height)]
        if not is_missing(window.sill_level) and not is_missing(floor):
            found.append(("sill_level", floor + height))
        return found

    def shared_wall(self, one: Space, other: Space) -> Length | None:
        """Return the length of wall that two spaces share as drawn; None where one is not drawn or on another story."""
        a, b = self.outline(one), self.outline(other)
        if a is None or b is None or not self._same_story(one, other):
            return None
        return geometry.shared_wall(a, b)

    def beside(self, space: Space) -> tuple[Space, ...]:
        """Return the spaces across a wall of `space`: as stated, as joined by a wall or opening, and as drawn."""
        stated = set(space.rooms_beside) | {s.id for s in self.spaces if space.id in s.rooms_beside}
        stated |= {other for pair in self._pairs for other in pair if space.id in pair}
        return tuple(s for s in self.spaces if s is not space and (s.id in stated or self._face_each_other(space, s)))

    def above(self, space: Space) -> tuple[Space, ...]:
        """Return the spaces over `space`: as stated, and as drawn on the next story up."""
        return self.once(_above, space)

    def cover(self, space: Space, others: Iterable[Space]) -> Ratio | None:
        """Return the share of the floor of `space` that lies under or over `others`; None where one is not drawn."""
        own, outlines = self.outline(space), [self.outline(other) for other in others]
        drawn = [outline for outline in outlines if outline is not None]
        if own is None or len(drawn) < len(outlines):
            return None
        return Ratio(sum((geometry.overlap(own, one) for one in drawn), start=Area(0)) / geometry.area(own))

    def walls_between(self, one: Space, other: Space) -> tuple[Wall, ...]:
        """Return the walls that are stated to stand between two spaces when the work is done."""
        return tuple(w for w in self.project.walls if not w.is_removed and set(w.between) == {one.id, other.id})

    def openings_of(self, space: Space) -> tuple[Opening, ...]:
        """Return the doors and windows of `space` that are there when the work is done."""
        doors = (d for d in self.project.doors if space.id in d.between)
        windows = (w for w in self.project.windows if w.space == space.id)
        return tuple(o for o in (*doors, *windows) if not o.is_removed)

    def sides(self, door: Door) -> tuple[Space | None, Space | None]:
        """Return the spaces on both sides of `door`; None for the outside."""
        return self.space(door.between[0]), self.space(door.between[1])

    def ends(self, stair: Stair) -> tuple[str, str]:
        """Return what lies at the foot and at the top of `stair`: by the floors there, else by the stories, else as listed."""
        return passages.ends(stair, map(self.space, stair.between), self.finished_floor, self.story_order.rank)

    def was_overhead(self, door: Door) -> bool:
        """Return whether `door` goes and was one for vehicles: as said, else one out of a garage that is not too narrow."""
        return passages.was_overhead(door, self.sides(door))

    def story_level(self, space: Space) -> str | Missing:
        """Return which kind of story `space` is on."""
        story = None if is_missing(space.story) else self.project.by_id.get(space.story)
        return space.absent("story") if story is None else getattr(story, "level", space.absent("story"))

    def is_loaded_anew(self, bearer: Part, above: frozenset[str] = frozenset()) -> bool:
        """Return whether what stands gets load from what is new or altered: a member on it, or a space that one carries.

        What rests on members that rest on it counts too; those `above` were looked at.
        """
        resting = [
            m
            for m in self.project.members
            if m.id not in above and not m.is_removed and any(end.on == bearer.id for end in m.bears_on)
        ]
        carried = (self.space(str(load.space)) for load in getattr(bearer, "carries", ()) if not is_missing(load.space))
        changed = any(part is not None and part.phase in ("new", "altered") for part in (*carried, *resting))
        return changed or any(self.is_loaded_anew(member, above | {bearer.id}) for member in resting)

    @cached_property
    def _pairs(self) -> tuple[frozenset[str], ...]:
        return tuple(passages.joined(self.project, self.outline))

    @cached_property
    def story_order(self) -> Order:
        """The stories from the bottom up."""
        return order_of(self.project)

    def _same_story(self, one: Space, other: Space) -> bool:
        return is_missing(one.story) or is_missing(other.story) or one.story == other.story

    def _face_each_other(self, one: Space, other: Space) -> bool:
        shared = self.shared_wall(one, other)
        return shared is not None and shared.n > 0


def _by_class(house: House) -> dict[type, list[Any]]:
    found: dict[type, list[Any]] = {}
    for record in house.project.records:
        found.setdefault(type(record), []).append(record)
    return found


@lru_cache(maxsize=4096)
def _of_kind(kind: type, among: tuple[type, ...]) -> tuple[type, ...]:
    """Return which classes are of that kind, which houses with the same kinds of part ask for anew."""
    return tuple(one for one in among if issubclass(one, kind))


def _above(space: Space, house: House) -> tuple[Space, ...]:
    return tuple(s for s in house.spaces if s.id in space.rooms_above or _lies_over(s, space, house))


def _lies_over(upper: Space, lower: Space, house: House) -> bool:
    if upper.story == lower.story:
        return False
    ranks = house.story_order.rank(upper.story), house.story_order.rank(lower.story)
    if ranks[0] is None or ranks[1] is None:
        return False
    a, b = house.outline(upper), house.outline(lower)
    # of two stories that nothing tells apart either may be the higher: what the answer holds up is told elsewhere
    next_up = ranks[0] - ranks[1] == 1 or ranks[0] == ranks[1]
    return next_up and a is not None and b is not None and geometry.overlap(a, b).n > 0
