"""Models without rooms: a space stands for all rooms of a story, so that stairs, outside doors and guards are checked still."""

from __future__ import annotations

from typing import Any

from precheck.importers.draft import Value, plain
from precheck.importers.ifc.facts import guid
from precheck.importers.ifc.plan import Plan, ReadSpace, elevation, story_of
from precheck.importers.writing import scalar

KINDS = ("IfcStair", "IfcStairFlight", "IfcDoor", "IfcWindow", "IfcWall")
WARNING = (
    "This model has no rooms, so nothing that is about rooms was checked. Export it again with its rooms (as IfcSpace, with "
    "space boundaries where the program offers them). Stairs, outside doors and guards were checked as far as they go alone."
)


def stand_in(plan: Plan) -> None:
    """Put a space for each story that holds anything in the place of its rooms; nothing of it but its story is known."""
    plan.model.draft.warning = WARNING
    used = {story.id(): story for kind in KINDS for element in plan.model.all(kind) if (story := story_of(element))}
    for story in sorted(used.values(), key=lambda story: elevation(story, plan.model) or 0.0):
        plan.rooms.append(ReadSpace("", story, story, None, []))


def add_stand_ins(plan: Plan) -> None:
    """Name the spaces that stand for rooms, and add them to the draft."""
    for room in plan.rooms:
        name = f"rooms of {plain(room.story.Name or room.story.LongName or 'a story')}"
        room.id = plan.model.draft.free_id(name)
        plan.model.draft.add("spaces", {
            "id": Value(room.id, "the model has no rooms", str(room.story.id())),
            "drawn from": guid(room.story, "in place of its rooms"),
            "name": Value(scalar(name), "the name of the story"),
            "story": Value(plan.stories[room.story.id()], f"#{room.story.id()}"),
        })  # fmt: skip


def room_of_story(plan: Plan, element: Any) -> str | None:
    """Return the space that stands for the rooms of the story that holds `element`; None where rooms are modeled."""
    story = story_of(element)
    alone = (room.id for room in plan.rooms if room.element.is_a("IfcBuildingStorey") and room.story == story)
    return next(alone, None) if story is not None else None


def room_at_level(plan: Plan, level: float) -> ReadSpace | None:
    """Return the space that stands for the rooms of the story whose level is nearest to `level`."""
    known = [(abs(at + plan.datum - level), index) for index, room in enumerate(plan.rooms)
             if (at := elevation(room.story, plan.model)) is not None]  # fmt: skip
    return plan.rooms[min(known)[1]] if known else None


__all__ = ["add_stand_ins", "room_at_level", "room_of_story", "stand_in"]
