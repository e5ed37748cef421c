"""Houses made up at random: a row or two of rooms with doors, windows and phases, at times a garage and a story above."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from case_houses import listed
from hypothesis import strategies as st

from precheck.files.source import Block

USES = ("bedroom", "living room", "kitchen", "hall", "bathroom", "garage", "storage", "closet", "laundry")
PHASES = ("existing", "new", "altered")
WALL = 5  # inches between the faces of two rooms
DEPTHS = st.integers(60, 200)
Part = dict[str, Any]


def as_block(node: Any) -> Any:
    """Return what a file would give for mappings, lists and texts."""
    if isinstance(node, dict):
        block = Block((1, 1), "generated")
        block.update((key, as_block(value)) for key, value in node.items() if value is not None)
        return block
    return listed([as_block(item) for item in node]) if isinstance(node, list) else node


@st.composite
def houses(draw: st.DrawFn) -> Block:
    """Return a house of two to six rooms, in one or two stories."""
    below = draw(_row("g", draw(st.integers(2, 4))))
    above = draw(_row("u", draw(st.integers(0, 2))))
    stories = [{"id": "ground-story", "level": "ground"}] + ([{"id": "upper-story", "level": "upper"}] if above else [])
    for room in below + above:
        room["story"] = "upper-story" if room in above else "ground-story"
        room["floor"] = "upper-floor" if room in above else "ground-floor"
    rooms = below + above
    house: Part = {
        "project": "generated",
        "dwelling": draw(st.sampled_from([None, {"sprinklered": "no"}, {"form": "one-family", "sprinklered": "yes"}])),
        "stories": stories,
        "floors": _floors(draw, bool(above)),
        "spaces": rooms,
        "walls": [wall for row in (below, above) for wall in _walls(draw, row)],
        "doors": [door for row in (below, above) for door in _doors(draw, row)],
        "windows": [window for room in rooms for window in _windows(draw, room)],
        "stairs": [_stair(draw, below[0]["id"], above[0]["id"])] if above else [],
        "alarms": [_alarm(draw, room) for room in rooms if draw(st.booleans())],
    }
    block: Block = as_block({key: value for key, value in house.items() if value != []})
    return block


@st.composite
def _row(draw: st.DrawFn, story: str, count: int) -> list[Part]:
    """Return rooms beside each other, from the west."""
    rooms: list[Part] = []
    left = 0
    for number in range(count):
        width, depth = draw(DEPTHS), draw(DEPTHS)
        rooms.append(_room(draw, f"{story}-room-{number}", left, width, depth))
        left += width + WALL
    return rooms


def _room(draw: st.DrawFn, name: str, left: int, width: int, depth: int) -> Part:
    use = draw(st.sampled_from(USES))
    phase = draw(st.sampled_from(PHASES))
    was = draw(st.sampled_from([None, "garage", "storage"])) if phase == "altered" else None
    ceiling = {"height": f"{draw(st.integers(78, 100))} in"}
    return {
        "id": name,
        "use": use,
        "was": was,
        "phase": phase,
        "rectangle": {"at": [f"{left} in", "0 in"], "width": f"{width} in", "depth": f"{depth} in"},
        "ceiling": draw(st.sampled_from([None, ceiling, {**ceiling, "layers": ["5/8 in Type X gypsum"]}])),
    }


def _floors(draw: st.DrawFn, two: bool) -> list[Part]:
    ground = {"id": "ground-floor", "phase": "existing", "base": "slab", "finished level": "0 in"}
    upper = {
        "id": "upper-floor",
        "phase": "new",
        "base": "joists",
        "finished level": f"{draw(st.integers(90, 120))} in",
    }
    return [ground, *([upper] if two else [])]


def _sides(room: Part) -> tuple[int, int, int]:
    """Return the left and right end of a room, and its depth, in inches."""
    box = room["rectangle"]
    left, width, depth = (int(text.split()[0]) for text in (box["at"][0], box["width"], box["depth"]))
    return left, left + width, depth


def _walls(draw: st.DrawFn, row: list[Part]) -> list[Part]:
    layers = st.sampled_from([None, ["1/2 in gypsum"], ["5/8 in Type X gypsum"]])
    return [
        {
            "id": f"wall-{one['id']}",
            "phase": draw(st.sampled_from(PHASES)),
            "between": [one["id"], other["id"]],
            "faces": [{"side": one["id"], "layers": found}] if (found := draw(layers)) else None,
        }
        for one, other in pairwise(row)
        if draw(st.booleans())
    ]


def _doors(draw: st.DrawFn, row: list[Part]) -> list[Part]:
    doors = []
    for one, other in pairwise(row):
        if draw(st.booleans()):
            right, depth = _sides(one)[1], min(_sides(one)[2], _sides(other)[2])
            doors.append(_door(draw, [one["id"], other["id"]], right, depth // 2))
    left, right, _ = _sides(row[0]) if row else (0, 0, 0)
    return [*doors, _door(draw, [row[0]["id"], "outside"], (left + right) // 2, 0)] if row else []


def _door(draw: st.DrawFn, between: list[str], x: int, y: int) -> Part:
    width = draw(st.sampled_from(["2'-4\"", "2'-8\"", "3'-0\""]))
    return {
        "id": f"door-{'-'.join(between)}",
        "phase": draw(st.sampled_from(PHASES)),
        "between": between,
        "middle": [f"{x} in", f"{y} in"],
        "operation": draw(st.sampled_from(["side-hinged", "sliding", "cased opening"])),
        "unit size": f"{width} x 6'-8\"",
        "required egress": draw(st.sampled_from([None, "yes"])) if "outside" in between else None,
        "construction": draw(st.sampled_from([None, "solid wood", "hollow core"])),
        "swings into": draw(st.sampled_from([None, between[0]])),
    }


def _windows(draw: st.DrawFn, room: Part) -> list[Part]:
    if draw(st.booleans()):
        return []
    left, right, depth = _sides(room)
    return [
        {
            "id": f"window-{room['id']}",
            "phase": draw(st.sampled_from(PHASES)),
            "space": room["id"],
            "middle": [f"{(left + right) // 2} in", f"{depth} in"],
            "operation": draw(st.sampled_from(["casement", "slider", "fixed", "double hung"])),
            "unit size": f"{draw(st.integers(24, 48))} in x {draw(st.integers(24, 60))} in",
            "sill height": f"{draw(st.integers(12, 60))} in",
            "glazed area": draw(st.sampled_from([None, "6 sq ft", "12 sq ft"])),
            "safety glazing": draw(st.sampled_from([None, "yes"])),
        }
    ]


def _stair(draw: st.DrawFn, below: str, above: str) -> Part:
    return {
        "id": "the-stair",
        "phase": draw(st.sampled_from(PHASES)),
        "between": [below, above],
        "risers": str(draw(st.integers(11, 17))),
        "width": f"{draw(st.integers(30, 42))} in",
        "rectangle": {"at": ["12 in", "12 in"], "width": "36 in", "depth": "130 in"},
        "climbs": draw(st.sampled_from(["up the page", "down the page"])),
        "flights": [{"tread": f"{draw(st.integers(8, 12))} in", "headroom": draw(st.sampled_from([None, "80 in"]))}],
    }


def _alarm(draw: st.DrawFn, room: Part) -> Part:
    detects = draw(st.sampled_from([["smoke"], ["carbon monoxide"], ["smoke", "carbon monoxide"]]))
    phase = draw(st.sampled_from(PHASES))
    return {"id": f"alarm-{room['id']}", "phase": phase, "space": room["id"], "detects": detects}
