"""What can be done to the file of a house that says nothing else of it: order, names, place, direction and units."""

from __future__ import annotations

import string
from collections.abc import Callable
from fractions import Fraction
from typing import Any, get_args

from case_houses import Change, listed

from precheck import Area, Length, NotationError
from precheck.files.record import Reference, fields_of
from precheck.files.source import Block, Items
from precheck.project.part import OUTSIDE, Point

SIXTEENTH, MILLIMETER = int(Length.parse("1/16 in").n), int(Length.parse("1 mm").n)
SQUARE_INCH = Area.parse("1 sq in").n
FEET = int(Length.parse("1 ft").n)
NAMES = frozenset(("id", "sheets", "unit", "outside door", "over stair"))
"""Keys of plain text that hold the id of a part, or the name of a dwelling."""
BACKWARD = str.maketrans(
    string.ascii_lowercase + string.ascii_uppercase + string.digits,
    string.ascii_lowercase[::-1] + string.ascii_uppercase[::-1] + string.digits[::-1],
)
COMPASS = {"east": (1, 0), "west": (-1, 0), "north": (0, 1), "south": (0, -1)}
"""Where the sides of a room lie, along x and y. A case places things on a wall of a rectangle by its side, not its number."""
CLIMBS = {"right": (1, 0), "left": (-1, 0), "up the page": (0, 1), "down the page": (0, -1)}
"""Which way a stair may climb, along x and y."""
ALONG = ("along the page", "up the page")
"""Which way joists may run, whether drawn to the one end or to the other."""
Place = Callable[[int, int], tuple[int, int]]


def written(n: int) -> str:
    """Return a length as a plan writes it: in inches and sixteenths where it is of them, else in millimeters."""
    whole, part = divmod(abs(n), SIXTEENTH * 16)
    if part % SIXTEENTH:
        return f"{float(n / MILLIMETER):.4f} mm"
    inches = (
        f"{whole} {part // SIXTEENTH}/16 in"
        if whole and part
        else f"{part // SIXTEENTH}/16 in"
        if part
        else f"{whole} in"
    )
    return f"-{inches}" if n < 0 else inches


def as_text(value: Any) -> str:
    """Return a value as a file gives it."""
    if isinstance(value, Length):
        return written(int(value.n))
    if isinstance(value, Area):
        return f"{float(Fraction(value.n) / SQUARE_INCH):.8f} sq in"
    if isinstance(value, Fraction):
        return f"{float(value * 100):.8f} %"
    return {"True": "yes", "False": "no"}.get(str(value), str(value))


def redrawn(place: Place) -> Change:
    """Return the change that draws the plan elsewhere: each point at its `place`, which keeps distances and right angles."""

    def change(block: Block, model: Any) -> None:
        if getattr(model, "kind", "") == "rectangle" and block.keys() >= {"at", "width", "depth"}:
            (x, y), (w, d) = (lengths(block["at"]), lengths([block["width"], block["depth"]]))
            (x1, y1), (x2, y2) = place(x, y), place(x + w, y + d)
            block.update(at=point(min(x1, x2), min(y1, y2)), width=written(abs(x2 - x1)), depth=written(abs(y2 - y1)))
            return
        for field in fields_of(model).values() if model else ():
            value = block.get(field.key)
            if isinstance(value, list) and value and _holds_points(field.annotation):
                many = [point(*place(*lengths(one))) for one in value] if isinstance(value[0], list) else []
                block[field.key] = listed(many) if many else point(*place(*lengths(value)))
        if block.get("climbs") in CLIMBS:
            block["climbs"] = _toward(place, CLIMBS, block["climbs"])
        if block.get("joists run") in ALONG:
            across = place(1, 0)[1] != place(0, 0)[1]
            block["joists run"] = ALONG[ALONG.index(block["joists run"]) - across]
        if getattr(model, "kind", "") == "place on a wall":
            block.update({key: _toward(place, COMPASS, block[key]) for key in ("side", "from") if key in block})

    return change


def lengths(texts: list[Any]) -> list[int]:
    """Return what is written, in the units of `Length`."""
    return [int(Length.parse(text).n) for text in texts]


def point(x: int, y: int) -> Items:
    """Return a point as a file writes it."""
    return listed([written(x), written(y)])


def _toward(place: Place, words: dict[str, tuple[int, int]], toward: str) -> str:
    (x0, y0), (x1, y1) = place(0, 0), place(*words[toward])
    return next(word for word, way in words.items() if way == (x1 - x0, y1 - y0))


def _holds_points(annotation: Any) -> bool:
    return annotation == Point or any(_holds_points(inner) for inner in get_args(annotation))


def with_other_ids(block: Block, model: Any) -> None:
    """Give every part another id, so that their alphabetical order is turned around, and name it so wherever it is named."""
    for field in fields_of(model).values() if model else ():
        value = block.get(field.key)
        if value is not None and _holds_any(field.annotation, str if field.key in NAMES else Reference):
            block[field.key] = listed([_renamed(one) for one in value]) if isinstance(value, list) else _renamed(value)


def _renamed(name: Any) -> Any:
    return f"{name.translate(BACKWARD)}~" if isinstance(name, str) and name not in (OUTSIDE, "shared") else name


def _holds_any(annotation: Any, kind: type) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, kind):
        return True
    return any(_holds_any(inner, kind) for inner in get_args(annotation))


def in_another_order(block: Block, _: Any) -> Block:
    """Turn the order of keys and of lists of parts around."""
    other = Block(block.at, block.file)
    other.keys_at.update(block.keys_at)
    for key in reversed(block):
        value = block[key]
        parts = isinstance(value, list) and all(isinstance(one, dict) and "id" in one for one in value)
        other[key] = listed(value[::-1]) if parts else value
    return other


def from_the_other_side(block: Block, model: Any) -> None:
    """Name what lies on both sides of a door, and at both ends of a ramp, the other way round."""
    if getattr(model, "kind", "") in ("door", "ramp") and isinstance(block.get("between"), list):
        block["between"] = listed(block["between"][::-1])


def in_millimeters(block: Block, model: Any) -> None:
    """Write every length in millimeters, exactly."""
    for field in fields_of(model).values() if model else ():
        value = block.get(field.key)
        if not isinstance(value, str) or not value.rstrip().endswith(("in", "ft", "'", '"')) or " sq " in value:
            continue
        try:
            block[field.key] = f"{float(Length.parse(value).n / MILLIMETER):.6f} mm"
        except NotationError:
            continue
