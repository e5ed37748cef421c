"""What the plan of the page shows, as numbers in inches of house: the page draws it, so that a change is small to send."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.board.members import ON_PLAN, ends_of, members_shown
from precheck.files.missing import is_missing
from precheck.project import FramedOpening, Opening, Part, Space, Stair, Story
from precheck.reports.drawings.free import largest_free
from precheck.reports.drawings.placed import PlacedOpening, outline_in_inches, place, spaces_of
from precheck.reports.drawings.svg import coordinate, inches
from precheck.survey import House
from precheck.survey.outlines import outline_before
from precheck.units import derived

Data = dict[str, Any]
NO_STORY = ""
_DIGITS = 3  # of an inch; a sixteenth has four, and half of one is nothing to look at
BOXES = ("fixtures", "wet areas", "appliances", "framed openings")
POINTS = {"receptacles": "receptacle", "alarms": "alarm", "lights": "light", "exhausts": "exhaust", "panels": "panel",
          "appliances": "appliance"}  # fmt: skip


def picture_of(house: House) -> Data:
    """Return the stories with all that is placed on them, and what is not placed yet."""
    stories = [_story(story) for story in house.project.stories if not story.is_removed]
    rooms = [_room(space, house) for space in house.project.spaces if outline_in_inches(house, space)]
    if not stories or any(room["story"] == NO_STORY for room in rooms):
        stories.append({"id": NO_STORY, "label": "Plan", "level": "", "drawn": None, "to_draw": []})
    openings = [*house.project.doors, *house.project.windows]
    placed = {opening.id: place(opening, house) for opening in openings}
    return {
        "stories": stories,
        "rooms": rooms,
        "openings": [_opening(opening, at) for opening in openings if (at := placed[opening.id]) is not None],
        "stairs": [found for stair in house.project.stairs for found in _stair(stair, house)],
        "boxes": list(_boxes(house)),
        "points": list(_points(house)),
        "members": members_shown(house),
        "loose": list(_loose(house, placed)),
    }


def _story(story: Story) -> Data:
    level = "" if is_missing(story.level) else story.level
    name = {"ground": "Ground floor", "upper": "Upper floor", "attic": "Attic", "basement": "Basement"}.get(
        level, story.id
    )
    drawn = None if is_missing(story.drawn) else list(story.drawn)
    return {"id": story.id, "label": name, "level": level, "drawn": drawn, "to_draw": list(story.to_draw)}


def _room(space: Space, house: House) -> Data:
    area = house.drawn_area(space)
    outline = outline_in_inches(house, space)
    middle, free = largest_free(house, space, outline)
    return {
        **_part(space),
        "story": NO_STORY if is_missing(space.story) else space.story,
        "name": space.name or space.id,
        "use": "" if is_missing(space.use) else space.use,
        "was": "" if is_missing(space.was) else space.was,
        "area": "" if is_missing(area) else derived(area),
        "outline": [_point(point) for point in outline],
        "middle": _point(middle),
        "free": _point(free),
        "size": _size(space),
        **({} if is_missing(space.before) else {"before": [_point(p) for p in _before(space)]}),
        "is_box": not is_missing(space.rectangle) and not space.outline,
    }


def _before(space: Space) -> list[tuple[float, float]]:
    return [(coordinate(x), coordinate(y)) for x, y in outline_before(space) or ()]


def _size(space: Space) -> str:
    box = space.rectangle
    return "" if is_missing(box) or space.outline else f"{box.width} x {box.depth}"


def _opening(opening: Opening, at: PlacedOpening) -> Data:
    operation = getattr(opening, "operation", "")
    swings = getattr(opening, "swings_into", "")
    return {
        **_part(opening),
        "story": NO_STORY if is_missing(at.inner.story) else at.inner.story,
        "room": at.inner.id,
        "middle": _point(at.middle),
        "along": _point(at.along),
        "out": _point(at.out),
        "thickness": round(at.thickness, _DIGITS),
        "width": None if at.width is None else round(at.width, _DIGITS),
        "size": "" if is_missing(opening.unit_size) else str(opening.unit_size),
        "operation": "" if is_missing(operation) else operation,
        "inward": isinstance(swings, str) and swings == at.inner.id,
    }


def _stair(stair: Stair, house: House) -> Iterable[Data]:
    """Yield a stair on the story that it starts from, where it goes up, and on the one that it ends on, where it goes down."""
    box = stair.rectangle
    if is_missing(box):
        return
    tread = stair.flights[0].tread if len(stair.flights) == 1 else stair.absent("tread")
    shown = {
        **_part(stair),
        "box": _box(box),
        "climbs": "" if is_missing(stair.climbs) else stair.climbs,
        "risers": None if is_missing(stair.risers) else stair.risers,
        "tread": None if is_missing(tread) else round(inches(tread), _DIGITS),
    }
    lower, upper = (house.space(side) for side in house.ends(stair))
    stories = [NO_STORY if one is None or is_missing(one.story) else one.story for one in (lower, upper)]
    yield {**shown, "story": stories[0], "end": "UP"}
    if upper is not None and stories[1] != stories[0]:
        yield {**shown, "story": stories[1], "end": "DN"}


def _boxes(house: House) -> Iterable[Data]:
    for section in BOXES:
        for part in getattr(house.project, section.replace(" ", "_")):
            box = getattr(part, "rectangle", None)
            if box is not None and not is_missing(box):
                yield {**_placed(part, house), "box": _box(box), "what": _what(part)}


def _points(house: House) -> Iterable[Data]:
    for section in POINTS:
        for part in getattr(house.project, section):
            at = getattr(part, "at", None)
            if isinstance(at, tuple) and len(at) == 2 and not any(map(is_missing, at)):
                point = _point((inches(at[0]), inches(at[1])))
                yield {**_placed(part, house), "at": point, "what": _what(part)}


def _placed(part: Part, house: House) -> Data:
    space = house.space(str(getattr(part, "space", "")))
    story = NO_STORY if space is None or is_missing(space.story) else space.story
    return {**_part(part), "story": story, "room": "" if space is None else space.id}


def _loose(house: House, placed: dict[str, PlacedOpening | None]) -> Iterable[Data]:
    """Yield the rooms, openings, stairs, posts and beams that are in the file and not on the plan, with what would place them."""
    for space in house.project.spaces:
        if not outline_in_inches(house, space) and not space.is_removed:
            yield {**_part(space), "name": space.name or space.id, "lacks": "rectangle"}
    for part in (*house.project.doors, *house.project.windows):
        if placed[part.id] is None and not part.is_removed:
            drawn = any(outline_in_inches(house, space) for space in spaces_of(part, house))
            rooms = [space.id for space in spaces_of(part, house)]
            yield {**_part(part), "name": part.label, "lacks": "middle" if drawn else "room", "rooms": rooms}
    for stair in house.project.stairs:
        if is_missing(stair.rectangle) and not stair.is_removed:
            yield {**_part(stair), "name": stair.label, "lacks": "place"}
    for member in house.project.members:
        if member.role in ON_PLAN and not member.is_removed and not ends_of(member, house):
            yield {**_part(member), "name": member.label, "lacks": "place", "role": member.role}


def _part(part: Part) -> Data:
    return {"id": part.id, "kind": part.kind, "phase": "" if is_missing(part.phase) else part.phase}


def _what(part: Part) -> str:
    what = getattr(part, "what", "") or getattr(part, "role", "") or ("open" if isinstance(part, FramedOpening) else "")
    return "" if is_missing(what) else str(what)


def _box(box: Any) -> list[float]:
    return [round(inches(one), _DIGITS) for one in (*box.at, box.width, box.depth)]


def _point(point: tuple[float, float]) -> list[float]:
    return [round(point[0], _DIGITS), round(point[1], _DIGITS)]
