"""One limit, its history, and the frozen table of limits that are in effect.

A limit's value is read from the text of a ruleset by its unit: a measure, a whole number, ``required``, a list of
choices or a table. ``not required`` and a deletion make it void: checks against it do not apply. ``set locally`` makes
it missing until a jurisdiction sets it. Nothing is overwritten: each act on a limit adds to its history.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from types import MappingProxyType
from typing import Annotated, Any, Generic, Literal, NamedTuple, TypeVar

from precheck.files.missing import Missing, Need
from precheck.files.mistakes import with_article
from precheck.files.source import Place
from precheck.immutable import fixed
from precheck.units import Measure, NotationError, Ratio, Slope, recognize
from precheck.units.deflection import SpanOverDeflection

__all__ = ["Limit", "Settled"]


T = TypeVar("T")
Basis = Literal["read", "read elsewhere", "memory", "practice", "local", "demo"]
"""What a value rests on: read in a named adoption of this very edition; read elsewhere, in a text of another edition or
a page about this one; from memory; common practice with no source; set by a local ordinance; invented for the demo."""

Act = Literal["set", "changed", "renumbered", "unchanged", "amended", "deleted", "added"]
BY_EDITION = frozenset(("set", "changed", "renumbered", "unchanged"))
Sense = Literal["", "minimum", "maximum", "under", "over", "one of", "required", "allowed"]
"""How what is measured must stand to the value; empty for a value that only says where a requirement begins."""

Kind = Literal[
    "", "length", "area", "share", "factor", "slope", "angle", "volume", "load", "force", "time", "air flow", "input rating",
    "R-value", "U-factor", "light level", "speed", "temperature", "count", "number", "required", "word", "list", "table",
]  # fmt: skip
"""What kind of value a limit has; empty where no edition gives one and the file does not say. A whole number is a count
unless the file says that it is a `number` that counts nothing, such as the size of a bar or a gage."""

Asked = Literal["first", "early", "late"]
"""How soon an office asks for what a work takes."""

VOID = "not required"
ABSENT = "void"
LOCAL = "set locally"
_WHOLE, _WORD = re.compile(r"-?[0-9]{1,12}"), re.compile(r"\d[A-Z]")  # a word such as climate zone 5A
LONGEST_TEXT = 64  # characters of a measure


class Event(NamedTuple):
    """One act on a limit: what was done, the value it gave, on whose authority, and where that is written.

    `since` is its first day where that is later than that of the adoption; `of` says of which parts alone it is.
    """

    act: Act
    value: str
    source: str
    place: Place
    since: date | None = None
    of: str = ""


@fixed
class Takes:
    """What a limit says that lists for which works a line is due: on which sheet one looks for it, how early it is asked.

    A `firm` line cannot be ruled out where it is due. `not_checked` says why nothing here can tell whether it is shown.
    """

    show_on: str = ""
    asked: Asked = "early"
    firm: bool = False
    not_checked: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class ForSome:
    """Another value of a limit, for those parts of one kind that meet a condition, which `where` says in words.

    `holds` takes a house and a part of the kind, and returns what the project does not say where it cannot tell.
    """

    part: type[Any]
    where: str
    holds: Callable[[Any, Any], bool | Missing]
    limit: Limit[Any]

    def __str__(self) -> str:
        return f"{with_article(self.part.kind)} where {self.where}"

    def is_like(self, other: ForSome) -> bool:
        """Whether both are about the same parts."""
        return self.part is other.part and self.where == other.where


@fixed
class Limit(Generic[T]):
    """One number, choice or table of the code as it is in effect, with all that was done to it.

    `measures` names what is measured as a plan reviewer would (``sill height``). `value` is None where the limit is void
    (`why_void` says why) and `Missing` where a jurisdiction has yet to set it. `tolerance` is the field tolerance: what passes by
    less is a warning. `metric` is the metric
    figure that the code prints beside the value; either complies. `advised` limits warn and never fail. `note` says what a
    reader of the code should know of the number, such as that the text writes it as a word. `for_some` are the values of parts
    that meet a condition; of two that hold for a part the later counts.
    """

    name: str
    value: Any  # a T, None or Missing; typed T for rules by the annotations of the helpers
    section: str
    measures: str
    advised: bool = False
    tolerance: Measure | None = None
    basis: Basis = "memory"
    source: str = ""
    why_void: str | None = None
    history: tuple[Event, ...] = field(default=())
    sense: Sense = ""
    kind: Kind = ""
    note: str = ""
    metric: Measure | None = None
    takes: Takes | None = None
    for_some: tuple[ForSome, ...] = ()

    @property
    def text(self) -> str:
        """The value as it was last written."""
        return self.history[-1].value if self.history else str(self.value)

    @property
    def citation(self) -> str:
        """The section, and the act that last changed the value where one did."""
        last = self.history[-1] if self.history else None
        if last is None or last.act in BY_EDITION:
            return self.section
        source = f"{last.source} for {last.of}" if last.of else last.source
        return f"{self.section}, {last.act} by {source}" if self.section else source


Settled = Annotated[Limit[T], "settled"]
"""The type of a limit with whose value a rule works: where it is void or has yet to be set the run answers for the rule."""

Table = Mapping[str, Limit[Any]]
CRITERIA = "criteria"  # the first part of the names of design criteria
WORKS = "works"  # the last part of the name of a limit that lists for which works a line is due


def amended(limit: Limit[Any], value: Any, event: Event, **changes: Any) -> Limit[Any]:
    """Return `limit` with `value`, which is of its kind, and `event` added to its history."""
    why = event.source if value is None else None
    return replace(
        limit, value=value, why_void=why, basis="local", source="", history=(*limit.history, event), **changes
    )


def deleted(limit: Limit[Any], event: Event) -> Limit[Any]:
    """Return `limit` made void by `event`, for all parts."""
    why, history = f"deleted by {event.source}", (*limit.history, event)
    return replace(limit, value=None, why_void=why, history=history, for_some=())


def frozen(limits: dict[str, Limit[Any]]) -> Table:
    """Return a read-only view of `limits`."""
    return MappingProxyType(limits)


def value_of(written: Any, measures: str) -> Any:
    """Return the value that a ruleset gives as `written`: text, a list of choices or a mapping of rows.

    Raises `NotationError` where it is none of these.
    """
    if isinstance(written, Mapping):
        return MappingProxyType({key: value_of(row, f"{measures}: {key}") for key, row in written.items()})
    if isinstance(written, list):
        return tuple(value_of(item, measures) for item in written)
    if not isinstance(written, str) or not written.strip():
        raise NotationError(f"no value is given; write a measure with its unit, a whole number, `required` or `{VOID}`")
    return _text_value(written.strip(), measures)


def _text_value(text: str, measures: str) -> Any:
    if text in (VOID, ABSENT):
        return None
    if text == LOCAL:
        return Missing(Need("the jurisdiction's ruleset", measures))
    if text == "required":
        return True
    if _WHOLE.fullmatch(text):
        return int(text)
    if (deflection := SpanOverDeflection.written(text)) is not None:
        return deflection
    if (text[0] not in "-.0123456789RU" and not text.startswith("L/")) or _WORD.fullmatch(text):
        return text
    return _measure(text)


def _measure(text: str) -> Any:
    found = recognize(text) if len(text) <= LONGEST_TEXT else None
    if found is not None or text[0] in "RU":
        return text if found is None else found
    raise NotationError(f"`{text}` is not a measure that is known here; write it like 7 3/4 in, 5.7 sq ft or 2 %")


def kind_of(value: Any) -> Kind:
    """Return the kind of `value`: the dimension of a measure, or what else it is; what is written in % is a share."""
    if isinstance(value, Slope) and str(value.text).endswith("%"):
        return "share"
    if isinstance(value, Measure):
        return value.dimension  # type: ignore[return-value]  # every dimension is a kind; a test holds the two together
    if isinstance(value, Mapping):
        return "table"
    if isinstance(value, tuple):
        return "list"
    if value is None or isinstance(value, Missing):
        return ""
    if isinstance(value, SpanOverDeflection):
        return "number"
    return "required" if value is True else "count" if isinstance(value, int) else "word"


def same_kind(one: Any, other: Any) -> bool:
    """Return whether two values can take each other's place; a void or missing value goes with any."""
    open_values = (None.__class__, Missing)
    if isinstance(one, Ratio) and isinstance(other, Ratio):  # 25 % and 0.25 are the same number
        return True
    return isinstance(one, open_values) or isinstance(other, open_values) or type(one) is type(other)
