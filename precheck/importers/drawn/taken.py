"""A recognized plan as a draft: rooms by name, use and doubt, and whatever a person confirmed with its outline and openings.

A room of grade A or B is a space from the start, with its name and use alone: its outline, and the doors and windows, which
say what lies beside what, stand there only once they are confirmed. The story says that nothing of it is drawn completely,
so that what is left out is never taken for none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from precheck.importers.confirming import Recognized, RecognizedSheet, shown_length, shown_size, state_of
from precheck.importers.draft import Draft, Entry, Understood, Value, plain
from precheck.importers.drawn.copies import plans_of
from precheck.importers.drawn.openings import OUTSIDE, UNKNOWN, OpeningFinder, PlanOpening
from precheck.importers.drawn.plane_lines import middle, turned
from precheck.importers.drawn.recognize import RecognizedPlan
from precheck.importers.drawn.rooms import PlanRoom
from precheck.importers.drawn.sheet import DrawnSheet
from precheck.importers.mapping import Mapping
from precheck.importers.measures import box, length, point
from precheck.importers.writing import scalar

STORY = "main"  # its story, where the sheet holds one plan; else plan-1, plan-2
COPY = "drawn a second time with the same shape: taken once; where it is another dwelling, import that plan by itself"
WAITS = (
    "Rooms, doors and windows were recognized from lines. What no person confirmed is not shown: draw it with --picture, "
    "compare, and confirm it in the mapping file that --begin-mapping begins."
)
NOT_CONFIRMED = "recognized from lines of the drawing and not confirmed: not shown"
CHANGED = "confirmed as something else than this drawing shows now: compare and confirm it again"


class PlanTaking:
    """Takes a recognized plan over into a draft."""

    def __init__(self, draft: Draft, sheet: DrawnSheet, plan: RecognizedPlan, mapping: Mapping) -> None:
        self.draft, self.sheet, self.plan, self.mapping = draft, sheet, plan, mapping
        self.imperial = (plan.unit.unit or sheet.unit_said) in ("inches", "feet")
        self.form = draft.form.split()[0]
        self.shown = RecognizedSheet(draft.file)
        self.ids: dict[int, str] = {}
        self.kept: dict[int, bool] = {}

    def take(self) -> None:
        """Take everything over, and tell what is in doubt."""
        plan, draft = self.plan, self.draft
        draft.recognized = self.shown
        self._tell_unit()
        if not plan.rooms:
            self._no_plan()
            return
        self._head()
        plans = plans_of(plan.rooms, plan.walls)
        for room, number in zip(plan.rooms, plans, strict=True):
            self._room(room, f"plan-{number + 1}" if max(plans) else STORY)
        for room in plan.copies:
            draft.doubt(COPY, room.called)
        self._stories()
        doors, windows = self._openings()
        self._lost()
        self._count(doors, windows)
        if any(one.state != "confirmed" for one in self.shown.things):
            draft.warning = WAITS

    def _tell_unit(self) -> None:
        plan, shown = self.plan, self.shown
        shown.unit, shown.unit_told = plan.unit.unit, "; ".join(plan.unit.voices)
        shown.layers = {
            "wall faces": plan.layering.walls,
            "doors": plan.layering.doors,
            "windows": plan.layering.windows,
        }
        taken = {name for names in shown.layers.values() for name in names}
        shown.other_layers = tuple(sorted({line.layer for line in self.sheet.lines} - taken))
        for told in self.sheet.told:
            self.draft.doubt(told)
        self.draft.not_read = Counter(
            f"lines on layer {plain(one.layer)}" for one in self.sheet.lines if one.layer not in taken
        )
        if not plan.meter:
            said = f" ({shown.unit_told})" if shown.unit_told else ""
            self.draft.doubt(
                f"what unit it is drawn in cannot be told{said}; write `drawing unit: inches` in a mapping file"
            )
        elif self.sheet.unit_said and self.sheet.unit_said != plan.unit.unit and plan.unit.unit:
            told = f"its header says {self.sheet.unit_said}, and it is read in {plan.unit.unit} ({shown.unit_told})"
            self.draft.doubt(told)

    def _no_plan(self) -> None:
        names, walls = len(self.plan.lost), self.plan.layering.walls
        said = f"walls were looked for on {', '.join(walls)}" if walls else "no layer looks like one of walls"
        why = f"{said}; {names} names of rooms stand in no closed outline" if names else f"{said}; no text names a room"
        if self.plan.meter:
            self.draft.doubt(
                f"no floor plan was recognized in it: {why}; `wall faces` of a mapping file names the layers"
            )
        self.draft.warning = "No floor plan was recognized: nothing of the drawing is checked."

    def _head(self) -> None:
        plan = self.plan
        x, y = turned(plan.origin, plan.turned)
        self.draft.head["origin"] = Value(point(x, y, self.imperial), "the lowest left corner of the walls")
        if plan.turned:
            self.draft.head["turned"] = Value(f"{plan.turned:.6f} deg", "the direction of most walls")
        self.shown.walls = [(a, b) for a, b in plan.walls]
        self.shown.doubtful = [line for room in plan.rooms for line in room.face.doubtful]
        self.shown.lost = [(text.at, name.text) for text, name in plan.lost]

    def _stories(self) -> None:
        spaces = self.draft.parts.get("spaces", [])
        ids = list(dict.fromkeys(entry["story"].text for entry in spaces))
        told = "what a person confirmed; list rooms, doors and windows once all of them are there"
        if ids:
            stories: list[Entry] = [{"id": Value(one), "drawn": Value("[]", told)} for one in ids]
            self.draft.parts = {"stories": stories, **self.draft.parts}
        if len(ids) > 1:
            self.draft.doubt(
                "plans lie beside each other: say of which level each is, or of the same story", ", ".join(ids)
            )

    def _room(self, room: PlanRoom, story: str) -> None:
        face, draft = room.face, self.draft
        part = draft.free_id(room.called)
        outline = face.outline
        told = shown_size(face.sides, face.area, len(outline), self.imperial)
        state = state_of(part, told, self.mapping.confirmed)
        self.shown.things.append(Recognized("room", part, told, room.grade, room.why, tuple(outline), state))
        index = next(
            i
            for like in (face.shape.equals, face.shape.covers)
            for i, one in enumerate(self.plan.faces)
            if like(one.shape)
        )
        self.ids[index], self.kept[index] = part, state == "confirmed"
        if state == "changed":
            draft.doubt(CHANGED, f"{part} ({told})")
        elif state == "waiting" and room.grade != "C":
            draft.doubt(NOT_CONFIRMED, f"{part} ({told}, {room.grade})")
        elif state == "waiting":
            draft.doubt(f"room left out: {room.why}", f"{part} ({told})")
        if state == "confirmed" or room.grade != "C":
            draft.add("spaces", self._space(room, part, story, outline if state == "confirmed" else []))

    def _space(self, room: PlanRoom, part: str, story: str, outline: list[tuple[float, float]]) -> Entry:
        handle = room.texts[0].handle if room.texts else ""
        source = f"{self.form} {handle}" if handle else f"text {room.called}"
        alike = sum(e["drawn from"].text.startswith(source) for e in self.draft.parts.get("spaces", ()))
        entry: Entry = {
            "id": Value(part, f'text "{plain(room.called)}"', handle),
            "drawn from": Value(scalar(f"{source} {alike + 1}" if alike else source)),
            "name": Value(scalar(room.called), "the text in it"),
        }
        known = {use for name in room.names if (use := self._use(name.text, name.key))}
        if len(known) == 1:
            entry["use"] = Value(known.pop(), f'the name "{plain(room.called)}"')
        else:
            self.draft.doubt("use not taken: its name says no one use that is known", f'{part} "{plain(room.called)}"')
            self.draft.unsaid["uses"].update(name.text for name in room.names)
        entry["story"] = Value(story)
        if outline:
            corners = ", ".join(point(x, y, self.imperial) for x, y in outline)
            entry["outline"] = Value(f"[{corners}]", f"lines of walls, confirmed in the mapping file ({room.why})")
            if room.height:
                entry["ceiling"] = {
                    "height": Value(length(room.height[0], self.imperial), f"text {room.height[1]} in it")
                }
        return entry

    def _use(self, name: str, key: str) -> str | None:
        return self.mapping.use(name).value or self.mapping.use(key).value

    def _openings(self) -> tuple[list[bool], list[bool]]:
        plan = self.plan
        finder = OpeningFinder(plan.faces, plan.texts, plan.walls)
        doors = [one for one in finder.doors(plan.swings) if any(side in self.ids for side in one.sides)]
        windows = list(finder.windows(plan.window_lines, plan.window_boxes, plan.handles))
        on_plan = [one for one in windows if OUTSIDE in one.sides and any(side in self.ids for side in one.sides)]
        return (
            [self._opening("door", f"D{n}", one) for n, one in enumerate(_in_order(doors), 1)],
            [self._opening("window", f"W{n}", one) for n, one in enumerate(_in_order(on_plan), 1)],
        )

    def _opening(self, kind: str, wanted: str, one: PlanOpening) -> bool:
        """Take a door or a window where it and its rooms are confirmed; return whether it was."""
        part = self.draft.free_id(wanted)
        sides = [self._called(side) for side in one.sides]
        where = f"between {' and '.join(sides)}" if kind == "door" else f"of {next(s for s in sides if s != 'outside')}"
        told = f"{shown_length(one.width, self.imperial)} {where}"
        state = state_of(part, told, self.mapping.confirmed)
        why = f"call-out {one.called.text} agrees" if one.called else "no call-out beside it"
        self.shown.things.append(Recognized(kind, part, told, "", why, one.line, state))  # type: ignore[arg-type]  # as above
        if one.against and not one.called:
            self.draft.doubt("the call-out beside it is of another width", f"{part} ({told}; {one.against.text})")
        if state == "changed":
            self.draft.doubt(CHANGED, f"{part} ({told})")
        if state != "confirmed":
            self.draft.doubt(f"{kind}s {NOT_CONFIRMED}", f"{part} ({told})")
            return False
        if not all(side == OUTSIDE or self.kept.get(side, False) for side in one.sides):
            self.draft.doubt("left out, though confirmed: a room beside it is not", f"{part} ({told})")
            return False
        self.draft.add(f"{kind}s", self._entry(kind, part, sides, one))
        return True

    def _called(self, side: int) -> str:
        if side == OUTSIDE:
            return "outside"
        return self.ids.get(side, "a place without a name" if side != UNKNOWN else "a place that is not drawn")

    def _entry(self, kind: str, part: str, sides: list[str], one: PlanOpening) -> Entry:
        entry: Entry = {"id": Value(part, f"{'arc' if kind == 'door' else 'lines'} {one.handle}", one.handle)}
        entry["drawn from"] = Value(scalar(f"{self.form} {one.handle} {part}"))
        if kind == "door":
            entry["between"] = Value(f"[{', '.join(sides)}]", "the rooms on both sides, confirmed in the mapping file")
            entry["operation"] = Value("side-hinged", "its swing")
            entry["swings into"] = Value(sides[0], "its swing")
        else:
            entry["space"] = Value(next(s for s in sides if s != "outside"), "the room beside it, confirmed")
        if one.called:
            size = box(one.called.width, one.called.height, self.imperial)
            entry["unit size"] = Value(size, f"call-out {one.called.text} beside it, whose width is the drawn one")
        else:
            self.draft.doubt(
                "no call-out says how high it is: size not shown",
                f"{part} ({shown_length(one.width, self.imperial)} wide)",
            )
        entry["middle"] = Value(point(*middle(one.line), self.imperial), "the middle of its opening")
        return entry

    def _lost(self) -> None:
        for _, name in self.plan.lost:
            self.draft.doubt("names that stand in no closed outline, and give no room", plain(name.text))

    def _count(self, doors: list[bool], windows: list[bool]) -> None:
        rooms = self.plan.rooms
        names = sum(len({name.key for name in room.names}) for room in rooms) + len(self.plan.lost)
        taken = sum(len({n.key for n in room.names}) for room in rooms if room.grade != "C")
        self.draft.understood = [
            Understood("names of rooms in an outline of their own", taken, names),
            Understood("rooms confirmed", sum(self.kept.values()), len(rooms)),
            Understood("doors confirmed", sum(doors), len(doors)),
            Understood("windows confirmed", sum(windows), len(windows)),
        ]
        for kind, found in (("doors", doors), ("windows", windows)):
            if rooms and not found:
                self.draft.doubt(
                    f"no {kind} were recognized; name the layer that holds them under `layers: {kind}:` in a mapping file"
                )


def _in_order(openings: list[PlanOpening]) -> Iterator[PlanOpening]:
    """Yield openings from the top of the sheet down, and from left to right."""
    yield from sorted(openings, key=lambda one: (-round(middle(one.line)[1], 1), round(middle(one.line)[0], 1)))


__all__ = ["PlanTaking"]
