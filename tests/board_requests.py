"""Requests of a page that nobody thought of: made at random from what the board takes, of parts that are there and are not."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator, Sequence
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel

from precheck.board.asked import Begin, GiveAnswer, JoinRooms, Request, RuleOut, SetValue, TakeOut, UndoOrRedo
from precheck.board.board import HouseBoard
from precheck.board.forms import key_of

KINDS: tuple[type[BaseModel], ...] = get_args(Request)
OFTEN = (
    tuple(one for one in KINDS if one not in (Begin, TakeOut, JoinRooms, RuleOut))
    + (SetValue, GiveAnswer, UndoOrRedo) * 3
)
SIZES = (
    "12 x 14",
    "12'-0\" x 10'-6\"",
    "8 ft",
    "3'-6\"",
    "3'-0\" x 4'-0\"",
    "2x12",
    "46 in",
    "5",
    "0",
    "1/4 in",
    "2.5 m",
)
USES = ("bedroom", "bath", "kitchen", "hall", "closet", "garage", "storage", "outside")
ODD = (
    "", " ", "\n", "no", "yes", "none", "null", "~", "nan", "inf", "-1", "-3 ft", "0 in", "1e400", "9" * 60, "1/0", "2026-02-30",
    "[", "{", "}", "- x", "a: b", "# c", "&a", "*a", "!!python/object:x", "---", "'", '"', "%TAG", "| x", "\ta", "x" * 4000,
    "../../etc/passwd", "/dev/null", "C:\\x", "A\u202eB", "\u2028", "\x85", "\x00", "\x1b[31m", "\ufeff", "\u00bd", "6\u2032 8\u2033",
    "\u22125 ft", "\U0001f3e0", "\uff11\uff12 ft", "e\u0301", "D1\nD2", "k" * 200, "=1+1", "<script>", "{{x}}", "#eval(1)",
)  # fmt: skip
WRONG = (
    None, True, False, 0, -1, 1e308, -12_000.0, 12_000, 10**40, float("nan"), float("inf"), [], {}, [1, 2], [1, 2, 3], [[[]]],
    {"do": "undo"}, "1", [None, None], {"a": {"b": []}}, "\ud800", [1e-300, 5e-324],
)  # fmt: skip
TOLD = ("set", "height", "agree", "answer")  # what the page shows first, so that it can be asked for
OF_ROOMS = ("wall", "jog", "divide", "join", "ceiling", "shape")
Made = dict[str, Any]


class Requests:
    """A source of requests on one board: most of them could be meant, and one in three has something odd in it."""

    def __init__(self, board: HouseBoard, by: random.Random) -> None:
        self.board = board
        self.by = by

    def __iter__(self) -> Iterator[Made]:
        while True:
            made = self.meant(self.by.choice(self.by.choice((KINDS, OFTEN, OFTEN))))
            for _ in range(self.by.choice((0, 0, 0, 0, 1, 1, 2))):
                self.spoil(made)
            yield made

    def meant(self, kind: type[BaseModel]) -> Made:
        """Return a request whose values are of the kind that each of its fields takes, or left out where they may be."""
        made = {
            name: self.value(name, field.annotation)
            for name, field in kind.model_fields.items()
            if field.is_required() or self.by.random() < 0.4
        }
        if made["do"] in OF_ROOMS and self.by.random() < 0.9:
            made["part"] = self.text("room")
        if made["do"] in TOLD and self.by.random() < 0.8:
            made |= self.by.choice(self._told(made["do"]) or [{}])
        return made

    def spoil(self, made: Made) -> None:
        """Put something odd in one of its places, leave one out, or say something that nobody asked for."""
        key = self.by.choice(list(made)[self.by.random() < 0.9 and len(made) > 1 :])
        match self.by.randrange(8):
            case 0 if len(made) > 1:
                del made[key]
            case 1:
                made[self.by.choice(("part", "path", "x", "__class__", "do "))] = self.by.choice(WRONG)
            case 2 | 3:
                made[key] = self.by.choice(WRONG)
            case _:
                made[key] = self.by.choice(ODD) if isinstance(made[key], str) else self.by.choice(WRONG)

    def value(self, name: str, kind: Any) -> Any:
        """Return a value for a field of that name and type."""
        origin, options = get_origin(kind), get_args(kind)
        if origin is Literal:
            return self.by.choice(options)
        if origin in (UnionType, Union):
            return self.value(name, self.by.choice(options))
        if origin is tuple:
            several = [options[0]] * self.by.randrange(4) if options[-1] is Ellipsis else options
            return [self.value(name, one) for one in several]
        if origin is dict:
            return {
                self.by.choice(("id", "width", "use", "phase", "location")): self.text(name)
                for _ in range(self.by.randrange(4))
            }
        plain: dict[Any, Callable[[], Any]] = {
            bool: lambda: self.by.random() < 0.5,
            int: lambda: self.by.choice((0, 0, 1, 2, 3, 9)),
            float: lambda: self.by.choice((0.0, 12.0, -36.0, 144.0, 72.25, self.by.uniform(-400, 400))),
            str: lambda: self.text(name),
        }
        return plain[kind]() if kind in plain else None if kind is type(None) else self.value(name, options[0])

    def text(self, name: str) -> str:
        """Return a text that a field of that name may hold."""
        parts = list(self.board.review.project.by_id) if self.board.review else ["none"]
        spaces = [space.id for space in self.board.review.project.spaces] if self.board.review else []
        stories = [story.id for story in self.board.review.project.stories] if self.board.review else []
        items = [key_of(item) for item in self.board.items]
        likely: dict[str, Sequence[str]] = {
            "part": parts, "also": parts, "other": spaces, "room": spaces, "beside": spaces, "lower": spaces, "upper": spaces,
            "item": [*items, "1", "2"], "story": stories, "opening": parts, "like": parts, "use": USES, "was": USES, "name": USES,
            "fact": ("place", "area", "width"), "what": ("plumbing", "smoke alarm", "all"), "why": ("by others",),
            "answer": ("Done, see A1.",), "text": ("1. Show the sill height of window W1.\n2. Bad stair.\n",), "value": SIZES,
        }  # fmt: skip
        return self.by.choice((*(likely.get(name) or SIZES), *SIZES[: self.by.random() < 0.1]))

    def _told(self, do: str) -> list[Made]:
        """Return what the page itself knows that it may ask for, in a few of the values of each."""
        if do == "answer":
            return self._answers()
        project = self.board.review.project if self.board.review else None
        part = self.by.choice(["", *project.by_id]) if project else ""
        if do == "height":
            return [{"part": part, "key": one["key"]} for one in self.board.section(part)["heights"]]
        form = self.board.form(part)
        if do == "agree":
            return [{"part": part, "fact": one["said"], "way": 0} for one in form["twice"]]
        more = [{"part": part, "key": key} for key in form["more"]]
        return [{"part": part, "key": one["key"], "value": self._said(one)} for one in form["values"]] + more

    def _answers(self) -> list[Made]:
        """Return what answers one of the items."""
        if not self.board.items:
            return []
        key = key_of(self.by.choice(self.board.items))
        return [
            {"item": key, "need": ask["need"], **self._answer(ask)}
            for ask in self.board.asks(key)["asks"]
            if ask["field"] is not None or ask["parts"]
        ]

    def _answer(self, ask: Made) -> Made:
        field = ask["field"]
        also = [one["id"] for one in ask.get("alike", ()) if self.by.random() < 0.3]
        if field is not None and not field["fields"]:
            return {"value": self._said(field), "also": also}
        fields = [*field["fields"]] if field is not None else [one for part in ask["parts"] for one in part["fields"]]
        return {
            "values": {one["label"]: self._said(one) for one in fields if one["required"] or self.by.random() < 0.5}
        }

    def _said(self, field: Made) -> str:
        chosen = [*map(str, field["choices"]), str(field["example"] or field.get("value") or "")]
        return self.by.choice((*chosen, *chosen, *SIZES, *ODD[:12]))


def as_sent(made: Made) -> bytes:
    """Return a request as a page sends it; what is no JSON as a browser would never write it."""
    return json.dumps(made).encode("utf-8", "surrogatepass")
