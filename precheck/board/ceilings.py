"""The shape of a ceiling as a person says it, as the file holds it: a height, a profile across, or a soffit round the room."""

from __future__ import annotations

from precheck.board.asked_of_sections import ShapeCeiling
from precheck.board.changing import GONE, Change, Changes, Steps, path_of
from precheck.board.sketch import Footprint, box_of, drawn_as
from precheck.board.typed import length_in_inches
from precheck.files.missing import is_missing
from precheck.project import Ceiling, Space
from precheck.questions.typed import HEIGHT, ROOM
from precheck.reports.drawings.placed import outline_in_inches
from precheck.survey import House

SHAPED = ("height", "profile", "sloped", "area at full height", "area above lowest")
"""What of a ceiling says how it runs: another shape takes all of it away but what it gives itself."""
CORNERS = 4
SQUARE_FOOT = 144  # square inches


def shaped(house: House, space: Space, asked: ShapeCeiling) -> Changes:
    """Return the changes that give `space` a ceiling of a shape. Raises ValueError with what is wrong, for a person."""
    low = length_in_inches(asked.low, HEIGHT)
    if asked.shape == "flat":
        values: dict[Steps, str] = {("height",): drawn_as(low)}
    elif asked.shape == "tray":
        values = _tray(house, space, asked, low)
    else:
        values = {("profile",): _profile(house, space, asked, low)}
    path = (*path_of(house.project, space), "ceiling")
    soffit = None if asked.shape == "tray" else _soffit(space)
    gone = [] if soffit is None else [Change((*path, "drops", soffit), GONE)]
    what = f"ceiling of {space.label}{', its soffit taken out' if gone else ''}"
    return Changes([*_gone(space, path, values), *gone, *_given(path, values)], what)


def _given(path: Steps, values: dict[Steps, str]) -> list[Change]:
    return [Change((*path, *key), value) for key, value in values.items()]


def _soffit(space: Space) -> int | None:
    """Return which of what hangs below the ceiling is the soffit of a tray: what is no beam or duct and says what it covers."""
    drops = space.ceiling.drops if isinstance(space.ceiling, Ceiling) else ()
    found = [n for n, drop in enumerate(drops) if drop.what == "other" and not is_missing(drop.floor_under)]
    return found[0] if len(found) == 1 else None


def _gone(space: Space, path: Steps, values: dict[Steps, str]) -> list[Change]:
    block = space.ceiling.block if isinstance(space.ceiling, Ceiling) else None
    return [Change((*path, key), GONE) for key in SHAPED if block is not None and key in block and (key,) not in values]


def _high(asked: ShapeCeiling, low: float) -> float:
    high = length_in_inches(asked.high, HEIGHT)
    if high <= low:
        raise ValueError("the higher of the two heights is not above the lower one")
    return high


def _drawn(house: House, space: Space) -> Footprint:
    box = box_of(house, space)
    if box is None:
        raise ValueError(f"{space.label} is not drawn yet; type its size first")
    return box


def _profile(house: House, space: Space, asked: ShapeCeiling, low: float) -> str:
    """Return the heights across the room: up from one wall, or up to the middle and down again."""
    high, box = _high(asked, low), _drawn(house, space)
    across = box.width if asked.across == "width" else box.depth
    points = [(0.0, low), (across, high)]
    if asked.shape == "two slopes":
        points = [(0.0, low), (across / 2, high), (across, low)]
    told = ", ".join(f"{{across: {drawn_as(x)}, height: {drawn_as(y)}}}" for x, y in points)
    return f"[{told}]"


def _area(square_inches: float) -> str:
    """Return an area as drawings write it: in square feet where those come out even, else in square inches."""
    feet = square_inches / SQUARE_FOOT
    return f"{feet:.10g} sq ft" if feet * 100 == int(feet * 100) else f"{square_inches:.10g} sq in"


def _tray(house: House, space: Space, asked: ShapeCeiling, low: float) -> dict[Steps, str]:
    """Return a ceiling with a soffit of one width all round: the height of its middle, and the floor under the soffit.

    A profile would not do: it holds along the whole room, and so would count the soffits at both ends as high.
    """
    high, box = _high(asked, low), _drawn(house, space)
    border = length_in_inches(asked.border, ROOM)
    if len(outline_in_inches(house, space)) != CORNERS:
        raise ValueError("a border all round is worked out for a rectangular room; give what hangs down in the values")
    if not 0 < 2 * border < min(box.width, box.depth):
        raise ValueError(f"a border of {drawn_as(border)} on both sides leaves nothing of {drawn_as(min(box[2:]))}")
    under = box.width * box.depth - (box.width - 2 * border) * (box.depth - 2 * border)
    drop = f"{{what: other, clear height: {drawn_as(low)}, floor under: {_area(under)}}}"
    soffit, hanging = _soffit(space), space.ceiling.drops if isinstance(space.ceiling, Ceiling) else ()
    return {("height",): drawn_as(high), ("drops", len(hanging) if soffit is None else soffit): drop}
