"""Stories of the house: one added with its level, below or above those that are there."""

from __future__ import annotations

from precheck.board.asked_of_shapes import AddStory
from precheck.board.changing import Change, Changes, added, path_of, plain_id
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.project import Project
from precheck.questions.typed import DISTANCE
from precheck.survey import House

NAMES = {"basement": "basement-level", "ground": "ground", "upper": "upper-level", "attic": "attic-level"}


def story_added(house: House, asked: AddStory) -> Changes:
    """Return the changes that add a story. Where there was none, the rooms so far are on that of level `rooms_on`."""
    project = house.project
    if not project.stories and project.spaces and not asked.rooms_on:
        raise ValueError("say on which story the rooms are that are drawn so far")
    if asked.elevation.strip():
        length_in_inches(asked.elevation, DISTANCE)
    _told_apart(project, asked)
    new = _story(project, asked.level, asked.phase, asked.elevation.strip())
    changes = [added(project, "stories", new)]
    if not project.stories and project.spaces:
        ground = new
        if asked.rooms_on != asked.level:
            ground = _story(project, asked.rooms_on or "ground", "existing", "")
            changes.append(Change(("stories", 1), _line(ground)))
        changes += [
            Change((*path_of(project, one), "story"), ground["id"]) for one in project.spaces if is_missing(one.story)
        ]
    return Changes(changes, f"{asked.level} story")


def _line(values: dict[str, str]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in values.items() if value) + "}"


def _story(project: Project, level: str, phase: str, elevation: str) -> dict[str, str]:
    sketch = any(not is_missing(story.drawn) for story in project.stories)
    return {"id": plain_id(project, NAMES[level]), "level": level, "phase": phase, "elevation": elevation,
            "drawn": "[]" if sketch else ""}  # fmt: skip


def _told_apart(project: Project, asked: AddStory) -> None:
    """Raise ValueError where nothing would tell the new story from one of its level."""
    same = [story for story in project.stories if story.level == asked.level and not story.is_removed]
    if same and (not asked.elevation.strip() or any(is_missing(story.elevation) for story in same)):
        raise ValueError(
            f"there is a story of that level already, {same[0].id}; give both their heights, so that one knows which is the higher"
        )
