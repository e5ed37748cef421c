"""Deriving works from what the project changes. Each function finds works of some kinds; none looks at another's."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.project import Appliance, Floor, Part, Space, Stair
from precheck.survey.house import House
from precheck.survey.scope import CHANGED, NO_WORK
from precheck.survey.works.found import Found
from precheck.survey.works.inside import is_built_over
from precheck.survey.works.openings import found_in_walls
from precheck.survey.works.rooms import OUTDOORS, found_rooms

WARMS = frozenset(
    ("furnace", "boiler", "air handler", "room heater", "fireplace", "heat pump", "mini-split", "air conditioner")
)
WARMS_OUTSIDE = frozenset(("air conditioner", "heat pump"))
SLEEPERS = ("sleeper",)
OVER_SLAB = (*SLEEPERS, "joist", "plywood", "osb", "wood", "subfloor", "decking", "lumber")
WIRING = ("circuit", "panel", "service")
ROOFS = ("roof", "roof frame", "truss")
BUILT = frozenset(
    ("new house", "addition", "upper addition", "garage", "carport", "porch", "detached building", "carport to room",
     "porch to room", "attic to room")
)  # fmt: skip


def derived(house: House) -> Iterator[Found]:
    """Yield the works of `house`. What it changes where there is no other work is `other work`.

    So is a change of use that is none of the works known, beside whatever else is done.
    """
    found = [work for find in _FINDERS for work in find(house)]
    found += _roofs(house, {work.kind for work in found})
    yield from found
    others = _uses(house, found) if found else tuple(_changed(house))
    others += house.project.small_works
    if others:
        yield Found("other work", others[0], others)


def _changed(house: House) -> Iterator[Part]:
    return (part for part in house.project.parts if part.kind not in NO_WORK and part.phase in CHANGED)


def _uses(house: House, found: list[Found]) -> tuple[Part, ...]:
    held = {id(part) for work in found for part in work.parts}
    changed = (space for space in house.spaces if space.changes_use and space.phase in ("new", "altered"))
    return tuple(space for space in changed if id(space) not in held)


def _stairs(house: House) -> Iterator[Found]:
    changed = (stair for stair in house.project.stairs if stair.phase in ("new", "altered"))
    yield from (Found("stair", stair, (stair,)) for stair in changed if isinstance(stair, Stair))


def _floors(house: House) -> Iterator[Found]:
    for floor in house.project.floors:
        if floor.phase not in ("existing", "removed") and _is_over_slab(
            floor
        ):  # what does not say is asked for its sleepers
            yield Found("floor over slab", floor, (floor,))


def _is_over_slab(floor: Floor) -> bool:
    """Return whether wood is laid on a slab; sleepers lie on nothing else."""
    on = floor.base == "slab" and any(layer.is_any_of(OVER_SLAB) for layer in floor.layers)
    return on or (is_missing(floor.base) and any(layer.is_any_of(SLEEPERS) for layer in floor.layers))


def _roofs(house: House, kinds: set[str]) -> Iterator[Found]:
    """Roofs changed: altered, taken off, or new where nothing is built that has a roof of its own."""
    phases = ("altered", "removed") if kinds & BUILT else CHANGED
    changed = tuple(p for p in house.project.parts if p.kind in ROOFS and p.phase in phases)
    if changed:
        yield Found("roof changed", changed[0], changed)


def _equipment(house: House) -> Iterator[Found]:
    heaters: list[Part] = [h for h in house.project.parts if h.kind == "heating" and h.phase in ("new", "altered")]
    new = [a for a in house.project.parts if isinstance(a, Appliance) and a.phase in ("new", "altered")]
    heaters += [a for a in new if a.what in WARMS]
    heaters += [e for e in house.project.yard_equipment if e.phase == "new" and e.what in WARMS_OUTSIDE]
    if heaters:
        yield Found("heating or cooling", heaters[0], tuple(heaters))
    yield from (Found("water heater", a, (a,)) for a in new if a.what == "water heater")


def _wiring(house: House) -> Iterator[Found]:
    new = tuple(p for p in house.project.parts if p.kind in WIRING and p.phase in ("new", "altered"))
    if new:
        yield Found("wiring", new[0], new)


def _demolition(house: House) -> Iterator[Found]:
    """Spaces that go; not those that become others as drawn, or are joined to one where the wall between goes."""
    joined = {side for wall in house.project.walls if wall.is_removed and _is_inside(house, wall.between)
              for side in wall.between}  # fmt: skip
    gone = [space for space in house.project.spaces if space.is_removed]
    left = tuple(space for space in gone if space.id not in joined and not is_built_over(space, house))
    if left:
        yield Found("demolition", left[0], left)


def _is_inside(house: House, sides: tuple[str, str]) -> bool:
    spaces = [space for side in sides if isinstance(space := house.project.by_id.get(side), Space)]
    indoors = all(not is_missing(space.use) and space.use not in OUTDOORS and not space.is_vehicle for space in spaces)
    return len(spaces) == 2 and indoors and not all(space.is_removed for space in spaces)


_FINDERS = (found_rooms, found_in_walls, _stairs, _floors, _equipment, _wiring, _demolition)
