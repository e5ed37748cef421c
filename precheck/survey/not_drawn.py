"""What a sketch does not show yet: stories that say which kinds of things are drawn, and what may still come.

Absence means that there is none only where a story says that all of a kind is drawn, or says nothing of it at all. Till
then a room may have windows or doors, or a room may lie beside it, of which nothing is known; and what a story says is
still to draw may stand in any of its rooms.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import combinations
from typing import Any, NamedTuple, get_args

from precheck.files.fields import fields_of
from precheck.files.missing import Need, is_missing
from precheck.files.source import Block, Items, Unusable
from precheck.project import OUTSIDE, Appliance, Exhaust, Fixture, Part, Project, Space, Story, project_from
from precheck.survey import geometry
from precheck.survey.house import House

_MAY_COME = "\u00b7 may come "  # begins the ids of what may come: no plan has one like it


def is_sketch(project: Project) -> bool:
    """Return whether some story says what of it is drawn, and that is not all."""
    return any(story.not_drawn for story in project.stories if not story.is_removed)


def may_come(label: str) -> bool:
    """Return whether `label` names something that may come, which no finding is told of."""
    return _MAY_COME in label


class Fuller(NamedTuple):
    """A project with what may still come, and by the label of each such thing what has to be drawn before one knows."""

    project: Project
    wanted: dict[str, Need]


def with_what_may_come(house: House) -> Fuller | None:
    """Return the project of `house` with a thing of each kind wherever one may still come, of which nothing is known.

    None where the project was not read from a file.
    """
    project, block = house.project, house.project.block
    if block is None:
        return None
    added: dict[str, list[dict[str, Any]]] = {key: [] for key in _MAKERS}
    needs: dict[str, Need] = {}
    for story in (one for one in project.stories if not one.is_removed):
        rooms = [space for space in house.spaces if is_missing(space.story) or space.story == story.id]
        for kind in story.not_drawn:
            made = [*_MAKERS[kind](story, rooms, house)]
            added[kind] += made
            needed = Need(story.label, f"the {kind}", story.place)
            needs |= {f"{_CALLED[kind]} {one['id']}": needed for one in made}
    try:
        other = project_from(_with_parts(block, added))
    except Unusable:  # such as a file that grows beyond what is read
        return None
    other._sections, other._held, other._fields = project._sections, project._held, project._fields
    return Fuller(other, needs)


def _rooms(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
    beside = Items(story.place[1:], "")
    beside.extend(room.id for room in rooms)
    yield {"id": f"{_MAY_COME}room on {story.id}", "story": story.id, "rooms beside": beside}


def _windows(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
    for room in rooms:
        yield {"id": f"{_MAY_COME}window of {room.id} on {story.id}", "space": room.id}


def _doors(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
    pairs = [(one.id, other.id) for one, other in combinations(rooms, 2) if _may_adjoin(one, other, house)]
    for one, other in (*pairs, *((room.id, OUTSIDE) for room in rooms)):
        between = Items(story.place[1:], "")
        between.extend((one, other))
        yield {"id": f"{_MAY_COME}door of {one} and {other} on {story.id}", "between": between}


def _stairs(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
    elsewhere = [space.id for space in house.spaces if not is_missing(space.story) and space.story != story.id]
    for room in rooms:
        for other in (OUTSIDE, *elsewhere):
            between = Items(story.place[1:], "")
            between.extend((room.id, other))
            yield {"id": f"{_MAY_COME}stair of {room.id} and {other} on {story.id}", "between": between}


def _members(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
    for role in ("beam", "header", "post"):
        yield {"id": f"{_MAY_COME}{role} on {story.id}", "role": role, "over": story.id}


def _things(called: str, kinds: tuple[str, ...] = ()) -> Callable[..., Iterator[dict[str, Any]]]:
    """Return what makes one thing in each room, one of each of its kinds where it has to say which it is."""

    def made(story: Story, rooms: list[Space], house: House) -> Iterator[dict[str, Any]]:
        for room in rooms:
            for what in kinds or ("",):
                name = f"{_MAY_COME}{what or called} in {room.id} on {story.id}"
                yield {"id": name, "space": room.id, **({"what": what} if what else {})}

    return made


def _kinds(record: type[Part]) -> tuple[str, ...]:
    """Return the words that a part may say what it is."""
    return tuple(map(str, get_args(fields_of(record)["what"].annotation)))


_MAKERS: dict[str, Callable[[Story, list[Space], House], Iterator[dict[str, Any]]]] = {
    "rooms": _rooms, "doors": _doors, "windows": _windows, "stairs": _stairs, "members": _members,
    "alarms": _things("alarm"), "lights": _things("light"), "receptacles": _things("receptacle"), "panels": _things("panel"),
    "fixtures": _things("fixture", _kinds(Fixture)), "appliances": _things("appliance", _kinds(Appliance)),
    "exhausts": _things("exhaust", _kinds(Exhaust)),
}  # fmt: skip
_CALLED = {"rooms": "space", **{kind: kind.removesuffix("s") for kind in _MAKERS if kind != "rooms"}}


def _may_adjoin(one: Space, other: Space, house: House) -> bool:
    shared = house.shared_wall(one, other)
    return shared is None or shared.n >= geometry.SHORTEST_SHARED


def _with_parts(block: Block, added: dict[str, list[dict[str, Any]]]) -> Block:
    """Return a copy of the mapping of a file with parts more; what it holds is shared."""
    other = block.without(())
    for kind, parts in added.items():
        key = "spaces" if kind == "rooms" else kind
        old = block.get(key)
        items = Items(block.at, block.file)
        items.extend(old if isinstance(old, list) else ())
        items.items_at = [*(old.items_at if isinstance(old, Items) else ()), *(block.at for _ in parts)]
        for part in parts:
            one = Block(block.at, block.file)
            one.update(part)
            items.append(one)
        if parts:
            other[key] = items
    return other
