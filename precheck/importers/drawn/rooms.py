"""Rooms out of faces and texts, each with a grade that says how much proves it.

A: one name, and a size or an area written in it agrees with the outline. B: one name, an outline that is drawn by the faces
of walls, and nothing written that says otherwise. C: a person has to say.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from math import cos, radians, sin
from typing import Any

import shapely

from precheck.importers.draft import plain
from precheck.importers.drawn.backing import EdgeBack, strange
from precheck.importers.drawn.faces import Faces, PlanFace
from precheck.importers.drawn.names import RoomName, is_beside, room_name
from precheck.importers.drawn.plane_lines import Line, along, direction, dot, long, middle
from precheck.importers.drawn.sheet import DrawnText
from precheck.importers.drawn.sizes import WrittenSize, area_in, ceiling_height_in, is_opening_size, sizes_in
from precheck.importers.mapping import Mapping
from precheck.importers.plane import P2

AGREES = (0.12, 0.03)  # meters, or of a side, by which a size and the outline may differ
EXACT = 0.03  # meters, by which one to the middles of the walls may: half the thickness of a wall is more
PRODUCT = 0.05  # of the product of both sides, since a hand more makes much of a narrow hall
AREA_AGREES = 0.03  # of an area
DRAWN, UNPROVEN, BACKED = 0.65, 0.1, 0.85  # shares of an outline that grade B takes
FULL = 0.8  # of its box that a room fills whose size is written; below RECTANGLE, the corner cut out is by walls too
RECTANGLE = 0.97
GOES_ON = ("+", "&", "/")  # ends of a row of a name that goes on in the next
LETTER = 0.55  # of its height that a letter is wide at the minimum
ROWS = 4.0  # heights of letters from a name to its next row
NEXT_ROW = 2.5  # heights of letters to the row above or below
BELOW = 6.0  # heights of letters from a name within which a size is that of the room
DOUBTFUL = 1.2  # meters of a gap without proof that grade B takes
BEYOND = 0.6  # meters beyond such a gap within which the next place begins
NARROWEST = 0.6  # meters of the narrow side of a room that is taken unasked


@dataclass
class PlanRoom:
    """A room in the turned plan: its names, its grade, and why it has no better one."""

    face: PlanFace
    names: list[RoomName]
    texts: list[DrawnText]
    grade: str
    why: str
    size: WrittenSize | None = None
    height: tuple[float, str] | None = None
    to_middles: bool = False  # whether a size written in it is that to the middles of the walls around it

    @property
    def called(self) -> str:
        """The name as written, or all of them."""
        return " / ".join(dict.fromkeys(name.text for name in self.names))


@dataclass
class PlacedTexts:
    """The texts of a plan by the face that lies around each; `lost` names lie in none."""

    by_face: dict[int, list[DrawnText]] = field(default_factory=dict)
    lost: list[tuple[DrawnText, RoomName]] = field(default_factory=list)


def find_rooms(
    faces: Faces, texts: Iterable[DrawnText], mapping: Mapping
) -> tuple[list[PlanRoom], list[tuple[DrawnText, RoomName]]]:
    """Return the rooms of a plan, and the names that lie in no face."""
    placed = _placed(faces.all, list(texts), mapping)
    named = {i for i, inside in placed.by_face.items() if any(room_name(t.text, mapping) for t in inside)}
    rooms = []
    for index in sorted(named):
        inside = placed.by_face[index]
        room = _room(faces.all[index], inside, mapping)
        if room.grade != "A" and (beside := _across_doubt(faces, index, named)):
            whole = faces.merged([room.face, *beside])
            room = _room(whole, inside, mapping) if whole else room
        if room.grade == "B" and _leads_nowhere(faces, room.face, named):
            room.grade, room.why = (
                "C",
                "a gap in which no door or window is drawn leads to a wall, or to a place without a name",
            )
        rooms.append(room)
    return _compared(rooms, [edge for face in faces.all for edge in face.edges]), placed.lost


def _across_doubt(faces: Faces, index: int, named: set[int]) -> list[PlanFace]:
    """Return the unnamed faces that nothing proven parts from a room, or from one another."""
    found, ahead = {index}, [index]
    while ahead:
        here = faces.all[ahead.pop()]
        for i, face in enumerate(faces.all):
            if i not in found and i not in named and faces.across_doubt(here, face):
                found.add(i)
                ahead.append(i)
    return [faces.all[i] for i in sorted(found - {index})]


def _leads_nowhere(faces: Faces, face: PlanFace, named: set[int]) -> bool:
    """Return whether behind a gap that is closed without proof a wall, or a face without a name, begins at once."""
    for line in face.doubtful:
        beyond = across(line, face)
        others = {i for i, other in enumerate(faces.all) if other is not face and other.shape.intersects(beyond)}
        if others - named or len(faces.walls.tree.query(beyond, predicate="intersects")):
            return True
    return False


def across(line: Line, face: PlanFace) -> Any:
    """Return the way out of a face through the middle of a gap in its outline, as far as the next place begins."""
    way, center = direction(*line), middle(line)
    out = -1 if face.shape.contains(shapely.Point(along(center, way, 0.0, 0.05))) else 1
    return shapely.LineString((along(center, way, 0.0, out * 0.02), along(center, way, 0.0, out * BEYOND)))


def _compared(rooms: list[PlanRoom], edges: list[EdgeBack]) -> list[PlanRoom]:
    """Return rooms of which none is of grade B whose outline is unlike what is usual on the plan.

    Where a size to the middles of the walls is written, an old outline has none of it, and nothing more has to be asked.
    """
    clean = 2 * sum(room.face.run_on for room in rooms) <= sum(len(room.face.outline) for room in rooms)
    for room in rooms:
        if room.to_middles:
            continue
        if room.grade == "B" and clean and room.face.run_on:
            room.grade, room.why = "C", "a line of its outline runs on beyond a corner, as an old outline does"
        elif room.grade == "B" and strange(room.face.edges, edges):
            room.grade, room.why = "C", "more lines lie behind its outline than behind others, as beside an old outline"
    return rooms


def _placed(faces: list[PlanFace], texts: list[DrawnText], mapping: Mapping) -> PlacedTexts:
    found = PlacedTexts()
    tree: Any = shapely.STRtree([face.shape for face in faces])
    for text in texts:
        around = [int(i) for i in tree.query(shapely.Point(text.at), predicate="within")]
        if around:
            found.by_face.setdefault(min(around, key=lambda i: faces[i].area), []).append(text)
        elif name := room_name(text.text, mapping):
            found.lost.append((text, name))
    return found


def _room(face: PlanFace, texts: list[DrawnText], mapping: Mapping) -> PlanRoom:
    named = [(text, _in_full(text, name, texts)) for text in texts if (name := room_name(text.text, mapping))]
    named = _rows_joined(named, mapping)
    names = [name for _, name in named]
    different = {_words(name) for name in names}
    sizes = [size for text in texts for size in sizes_in(text.text)]
    agreeing = next((size for size in sizes if size_agrees(size, face.sides)), None)
    height = next((found for text in texts if (found := ceiling_height_in(text.text))), None)
    grade, why = _grade(face, different, agreeing, list(_objections(face, texts, [t for t, _ in named])), texts)
    middles = any(is_exactly(size, face.sides_to_middles) for size in sizes)
    return PlanRoom(face, names, [text for text, _ in named], grade, why, agreeing, height, middles)


def _rows_joined(named: list[tuple[DrawnText, RoomName]], mapping: Mapping) -> list[tuple[DrawnText, RoomName]]:
    """Return names, of which one that ends in a sign such as + goes on in the row below it."""
    below: set[int] = set()
    found = []
    for text, name in named:
        ends = text.text.rstrip().endswith(GOES_ON)
        rows = [i for i, (row, _) in enumerate(named)
                if ends and row is not text and long((row.at, text.at)) <= NEXT_ROW * text.height]  # fmt: skip
        if len(rows) == 1:
            below.add(rows[0])
            next_row = named[rows[0]][1]
            written = f"{text.text.rstrip()} {next_row.text}"
            name = room_name(written, mapping) or RoomName(written, f"{name.key} {next_row.key}")
        found.append((text, name))
    return [one for i, one in enumerate(found) if i not in below]


def _in_full(text: DrawnText, name: RoomName, texts: list[DrawnText]) -> RoomName:
    """Return a name with the rows above and below it that only go with one, such as MASTER above BEDROOM."""
    rows = [
        other for other in texts if is_beside(other.text) and 0 < long((other.at, text.at)) <= NEXT_ROW * text.height
    ]
    upright = (-sin(radians(text.angle)), cos(radians(text.angle)))
    rows.sort(key=lambda row: -dot(upright, row.at))
    above = [row.text for row in rows if dot(upright, row.at) > dot(upright, text.at)]
    below = [row.text for row in rows if row.text not in above]
    return name._replace(text=" ".join([*above, name.text, *below]))


def _words(name: RoomName) -> str:
    return " ".join(name.key.lower().split())


def _grade(
    face: PlanFace, different: set[str], agreeing: WrittenSize | None, objections: list[str], texts: list[DrawnText]
) -> tuple[str, str]:
    if len(different) > 1:
        return "C", "several names stand in one outline: draw the line between them, or say that it is one space"
    if not face.is_whole:
        return "C", "something large stands free within its outline"
    filled = face.area / (face.sides[0] * face.sides[1])
    if agreeing is not None and filled >= FULL and (filled >= RECTANGLE or all(edge.is_wall for edge in face.edges)):
        return "A", f"the size {agreeing.text} written in it agrees"
    area = next(
        (a for text in texts if (a := area_in(text.text)) and abs(a - face.area) <= AREA_AGREES * face.area), None
    )
    if area is not None and face.drawn >= 0.5:
        return "A", f"the area written in it, {area:.4g} m2, agrees"
    return _by_outline(face, objections)


def _by_outline(face: PlanFace, objections: list[str]) -> tuple[str, str]:
    if objections:
        return "C", objections[0]
    if face.merged or face.unproven >= UNPROVEN:
        return "C", "part of its outline closes a gap in which no door or window is drawn"
    if any(long(line) > DOUBTFUL for line in face.doubtful):
        return "C", "a wide gap in its outline is closed, in which no door or window is drawn"
    if face.drawn < DRAWN:
        return "C", f"walls are drawn along {face.drawn:.0%} of its outline"
    if face.backed < BACKED or not all(edge.is_wall for edge in face.edges):
        return "C", "its outline is not the face of a wall all around: no other face lies behind"
    if min(face.sides) < NARROWEST:
        return "C", "it is narrower than a room or closet"
    return "B", "one name, and an outline of drawn walls"


def size_agrees(size: WrittenSize, sides: tuple[float, float]) -> bool:
    """Return whether a size is that of a box with these sides, either way round."""
    across = sides[0] * sides[1]
    if abs(size.first * size.second - across) > PRODUCT * across:
        return False
    return any(
        all(abs(said - side) <= max(AGREES[0], AGREES[1] * side) for said, side in zip(pair, sides, strict=True))
        for pair in ((size.first, size.second), (size.second, size.first))
    )


def asked(room: PlanRoom) -> PlanRoom:
    """Return a room that only its outline proves as one that a person has to confirm: other lines may be walls too."""
    if room.grade == "B":
        room.grade, room.why = "C", "the walls are told by the sizes in other rooms, and no size is written in it"
    return room


def is_exactly(size: WrittenSize, sides: tuple[float, float]) -> bool:
    """Return whether a size is that of sides, either way round, as close as one is drawn."""
    said = sorted((size.first, size.second))
    return all(abs(a - b) <= EXACT for a, b in zip(said, sorted(sides), strict=True))


def _objections(face: PlanFace, texts: list[DrawnText], names: list[DrawnText]) -> Iterator[str]:
    """Yield what is written beside the name of a room, or as its area, and is not so."""
    for text in texts:
        if text not in names and is_lettering(text.text) and any(_stands_apart(text, name) for name in names):
            yield f'"{plain(text.text)}" stands in it too, in letters like those of its name'
    for name in names:
        if not face.shape.buffer(name.height / 4).covers(shapely.LineString(_row(name))):
            yield "its name lies across a line of the outline"
    for text in texts:
        near = any(long((text.at, name.at)) <= BELOW * max(text.height, name.height) for name in names)
        for size in sizes_in(text.text):
            fits = size_agrees(size, face.sides) or size_agrees(size, face.sides_to_middles)
            if near and not fits and not is_opening_size(size) and max(size.first, size.second) <= 30:
                yield f"the size {size.text} written in it is not that of its outline"
        area = area_in(text.text)
        if area is not None and abs(area - face.area) > AREA_AGREES * face.area:
            yield f"the area written in it, {area:.4g} m2, is not that of its outline"


def is_lettering(text: str) -> bool:
    """Return whether a text is a word or more, without a digit, as names are."""
    return len(text) > 2 and text[0].isalpha() and not any(c.isdigit() for c in text)


def _stands_apart(text: DrawnText, name: DrawnText) -> bool:
    """Return whether a text is lettered as large as a name, and is no next row of it."""
    return 0.5 <= text.height / (name.height or 1.0) <= 1.5 and long((text.at, name.at)) > ROWS * name.height


def _row(text: DrawnText) -> tuple[P2, P2]:
    """Return the middle line of a text."""
    way = cos(radians(text.angle)), sin(radians(text.angle))
    half = len(text.text) * text.height * LETTER / 2
    return along(text.at, way, -half), along(text.at, way, half)


__all__ = ["PlanRoom", "across", "asked", "find_rooms", "is_exactly", "is_lettering", "size_agrees"]
