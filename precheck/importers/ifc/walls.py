"""Walls: which spaces lie on both sides, where along the wall that changes, and the layers from one to the other.

A wall that parts several pairs of spaces becomes one part for each pair. A wall that only lines another one adds its
layers to that one. Where it is not certain what lies on both sides, the wall is left out and that is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot
from typing import Any

from precheck.importers.draft import Entry, Value
from precheck.importers.ifc.exposure import SaidOutside, exposure_of
from precheck.importers.ifc.facts import begun, fire_rating, guid, leave_out, phase, wanted_id
from precheck.importers.ifc.layers import layer_texts
from precheck.importers.ifc.plan import Plan, ReadSpace
from precheck.importers.ifc.wall_bodies import WallBody, wall_body
from precheck.importers.plane import P2, inside
from precheck.importers.stretches import GAP, REACHES, Beyond, WallPiece, closed_up, crosses, cuts

OUTSIDE = "outside"
BESIDE = 0.5  # meters of height that a wall and a space share before it counts as a wall of that space
NEAR = 2.0  # meters between the reaches of two walls that may meet or line each other
LININGS = 2  # walls that may stand before a wall on one side
FARTHEST = 250.0  # meters within which a space beyond a wall is looked for before the open air is


class Walls:
    """The walls of a model with the spaces on both sides."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.bodies: list[WallBody] = []
        self.parts: list[tuple[Entry, WallBody, WallPiece]] = []
        self.taken: set[int] = set()
        self._nearest: tuple[WallBody | None, list[WallBody]] = (None, [])

    def read(self, tick: Any) -> None:
        """Read every wall of the model into its draft."""
        for element in self.plan.model.all("IfcWall"):
            if not element.is_a("IfcWallElementedCase"):
                self._body(element)
        for body in self.bodies:
            self._wall(body)
            tick()

    def _body(self, element: Any) -> None:
        found = wall_body(self.plan, element)
        if isinstance(found, str):
            self._left_out(element, found)
        else:
            self.bodies.append(found)

    def _left_out(self, element: Any, why: str) -> None:
        leave_out(self.plan.model, element, f"a wall left out: {why}")

    def _wall(self, body: WallBody) -> None:
        groups = _rooms_beside(self.plan, body)
        if not groups:
            self._left_out(body.element, "no space stands beside it at its height, as beside a foundation or a parapet")
            return
        known: list[tuple[str, WallPiece]] = []
        unknown: list[WallPiece] = []
        for story, rooms in groups.items():
            stretches = list(self._stretches(body, rooms))
            known += [(story, one) for one in closed_up(stretches, body.long)]
            unknown += [one for one in stretches if not one.is_known and one.end - one.start > GAP]
        if not known:
            self._left_out(body.element, _why(unknown))
            if _only_lines(unknown):
                self.taken.add(body.element.id())
            return
        self.taken.add(body.element.id())
        self._parts(body, known, unknown)

    def _parts(self, body: WallBody, known: list[tuple[str, WallPiece]], unknown: list[WallPiece]) -> None:
        model, element = self.plan.model, body.element
        name = wanted_id(model, element, "WL")
        made: dict[str, int] = {}
        for number, (story, stretch) in enumerate(known, 1):
            part = model.draft.free_id(f"{name}-{number}" if len(known) > 1 else name)
            pair = f"{stretch.left.side} to {stretch.right.side}"
            made[pair] = made.get(pair, 0) + 1
            pair += f" {made[pair]}" if made[pair] > 1 else ""
            entry = begun(element, part) | {"drawn from": guid(element, pair)}
            added = model.draft.add("walls", entry | self._described(body, story, stretch, part))
            self.parts.append((added, body, stretch))
        if unknown and not _only_lines(unknown):
            model.draft.doubt(f"part of the wall is left out: {_why(unknown)}", name)

    def _described(self, body: WallBody, story: str, stretch: WallPiece, part: str) -> Entry:
        plan, (left, right) = self.plan, (stretch.left, stretch.right)
        turned = left.side == OUTSIDE  # the inner side comes first
        sides = [right.side, left.side] if turned else [left.side, right.side]
        told = left.told if left.told == right.told else f"{left.told}; {right.told}"
        entry: Entry = {"between": Value(f"[{', '.join(sides)}]", told)}
        if story:
            entry["story"] = Value(story, "the height at which spaces stand beside it")
        ends = [body.at(stretch.start), body.at(stretch.end)]
        for key, at in zip(("from", "to"), ends, strict=True):
            entry[key] = Value(plan.point(*at), "middle of its body, along its axis")
        entry |= phase(plan.model, body.element, part) | fire_rating(plan.model, body.element, part)
        return entry | self._layers(body, stretch, turned, part)

    def _layers(self, body: WallBody, stretch: WallPiece, turned: bool, part: str) -> Entry:
        built = [*reversed(stretch.left.linings), body, *stretch.right.linings]
        for one in built:
            if one.doubt:
                self.plan.model.draft.doubt(one.doubt, part)
                return {}
        layers = [layer for one in built for layer in _from_left(one, body)]
        texts = layer_texts(self.plan.model, layers[::-1] if turned else layers, part)
        return {"layers": Value(f"[{', '.join(texts)}]", "; ".join(one.told for one in built))}

    def _stretches(self, body: WallBody, rooms: list[ReadSpace]) -> Iterator[WallPiece]:
        """Yield the pieces of a wall between the corners of spaces beside it, those that are alike as one."""
        exposure = exposure_of(self.plan.model, body.element, f"#{body.element.id()}")
        last: WallPiece | None = None
        for start, end in pairwise(self._cuts(body, rooms)):
            sides = [self._beyond(body, (start + end) / 2, sign, rooms, exposure) for sign in (1, -1)]
            one = WallPiece(start, end, *sides)
            if last is not None and last.continues(one):
                last = last._replace(end=end)
                continue
            if last is not None:
                yield last
            last = one
        if last is not None:
            yield last

    def _cuts(self, body: WallBody, rooms: list[ReadSpace]) -> list[float]:
        ends = [end for other in self._near(body) for end in (other.start, other.end)]
        return cuts(body, [*(corner for room in rooms for corner in room.outline), *ends])

    def _beyond(self, body: WallBody, along: float, sign: int, rooms: list[ReadSpace], exposure: SaidOutside) -> Beyond:
        face, linings = body.thick / 2, list[WallBody]()
        while len(linings) <= LININGS:
            for reach in REACHES:
                here = body.at(along, sign * (face + reach))
                room = next((room for room in rooms if inside(here, room.outline)), None)
                if room is not None:
                    return Beyond(room.id, "the spaces on both sides in plan", tuple(linings))
                lining = self._standing_at(here, body, linings)
                if lining is not None:
                    break
            else:
                return self._open(body, along, sign, face, rooms, exposure)._replace(linings=tuple(linings))
            if not lining.runs_along(body):  # a wall that ends there
                return Beyond()
            if (lining.thick, -lining.element.id()) > (body.thick, -body.element.id()):
                return Beyond(lines=True)
            linings.append(lining)
            face = max(abs(body.seen(lining.at(0.0, side * lining.thick / 2))[1]) for side in (1, -1))
        return Beyond()

    def _standing_at(self, point: P2, body: WallBody, known: list[WallBody]) -> WallBody | None:
        """Return another wall that stands at `point`, over much of the same height."""
        for other in self._near(body):
            along, aside = other.seen(point)
            if abs(aside) <= other.thick / 2 and 0 <= along <= other.long and other not in known:
                return other
        return None

    def _near(self, body: WallBody) -> list[WallBody]:
        """Return the walls close to `body` and over much of the same height, looked for once."""
        if self._nearest[0] is not body:
            self._nearest = body, [one for one in self.bodies if one is not body and _is_near(one, body)]
        return self._nearest[1]

    def _open(
        self, body: WallBody, along: float, sign: int, face: float, rooms: list[ReadSpace], exposure: SaidOutside
    ) -> Beyond:
        if exposure.external:
            return Beyond(OUTSIDE, f"no space beyond; {exposure.told}")
        start, far = body.at(along, sign * face), body.at(along, sign * FARTHEST)
        if exposure.external is None and not any(crosses(start, far, room.outline) for room in rooms):
            name = wanted_id(self.plan.model, body.element, "WL")
            self.plan.model.draft.doubt("whether the wall is external is not said; no space lies beyond it", name)
            return Beyond(OUTSIDE, "no space anywhere beyond")
        return Beyond()


def _rooms_beside(plan: Plan, body: WallBody) -> dict[str, list[ReadSpace]]:
    """Return the spaces that stand at the height of a wall, by the story on which they stand beside it."""
    found: dict[str, list[ReadSpace]] = {}
    for room in plan.rooms:
        if room.shape and room.outline and min(room.shape.top, body.top) - max(room.shape.bottom, body.bottom) > BESIDE:
            middle = (min(room.shape.top, body.top) + max(room.shape.bottom, body.bottom)) / 2
            found.setdefault(plan.story_at(middle), []).append(room)
    return found


def _is_near(one: WallBody, other: WallBody) -> bool:
    a, b = one.at(one.long / 2), other.at(other.long / 2)
    apart = hypot(a[0] - b[0], a[1] - b[1]) - (one.long + other.long) / 2
    return apart <= NEAR and min(one.top, other.top) - max(one.bottom, other.bottom) > BESIDE


def _from_left(wall: WallBody, body: WallBody) -> tuple[tuple[str, float], ...]:
    """Return the layers of `wall` from the left of `body` to its right."""
    same = wall.left[0] * body.left[0] + wall.left[1] * body.left[1] > 0
    return wall.layers if same else wall.layers[::-1]


def _only_lines(unknown: list[WallPiece]) -> bool:
    return bool(unknown) and all(one.left.lines or one.right.lines for one in unknown)


def _why(unknown: list[WallPiece]) -> str:
    if _only_lines(unknown):
        return "it lines a thicker wall, whose layers hold its own"
    sides = {side for one in unknown for side in (one.left.side, one.right.side) if side}
    if len(sides) == 1 and any(one.left.side == one.right.side for one in unknown):
        return "it stands within one space"
    return "a side of it is no space, and it is not said to be external" if sides else "no space lies beside it"


def read_walls(plan: Plan, tick: Any) -> Walls:
    """Read the walls of the model into its draft; return them, with the entities taken."""
    walls = Walls(plan)
    walls.read(tick)
    return walls


__all__ = ["Walls", "read_walls"]
