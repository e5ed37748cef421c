"""What a check comes to, why a person should look at it, and what a comparison needs of a limit."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from enum import Enum, IntEnum
from typing import Any, Literal, NamedTuple, Protocol, TypeVar

T = TypeVar("T")

Text = str | Callable[[], str]
"""Words, or a function that makes them when somebody reads them."""


class Outcome(IntEnum):
    """What a check comes to; the lower, the more it needs attention."""

    ERROR = 0
    FAIL = 1
    NOT_SHOWN = 2
    WARN = 3
    PASS = 4
    DOES_NOT_APPLY = 5

    @property
    def word(self) -> str:
        """The outcome as reports write it."""
        return self.name.lower().replace("_", " ")


def as_reported(outcome: Outcome, *, advised: bool = False, may_remain: bool = False) -> Outcome:
    """Return what a report says where something came to `outcome`.

    It is softened in two places: a comparison is `advised` where its limit is good practice, and a finding is about a
    part that `may_remain` where the part is existing and the rule lets what exists stay as it is.

    =========  ==========================  =========  =======================
    outcome    what the code requires      advised    may remain
    =========  ==========================  =========  =======================
    fail       fail                        warn       warn
    not shown  not shown                   warn       does not apply
    warn       warn                        warn       warn
    =========  ==========================  =========  =======================

    A pass, what does not apply and an error stay what they are. So good practice holds no job up, and nobody is asked to
    draw what stands and is left alone.
    """
    if advised:
        return _ADVISED.get(outcome, outcome)
    return _REMAINING.get(outcome, outcome) if may_remain else outcome


_ADVISED = {Outcome.FAIL: Outcome.WARN, Outcome.NOT_SHOWN: Outcome.WARN}
_REMAINING = {Outcome.FAIL: Outcome.WARN, Outcome.NOT_SHOWN: Outcome.DOES_NOT_APPLY}


class Look(Enum):
    """Why a person should look at something that does not fail."""

    CLOSE = "close to the limit"
    PRACTICE = "good practice"
    EXISTING = "existing condition"
    ENGINEER = "engineer"
    OFFICIAL = "ask the building department"


class Bound(Protocol):
    """What a comparison needs of a limit; `precheck.rulesets.limit.Limit` is one."""

    @property
    def name(self) -> str: ...
    @property
    def measures(self) -> str: ...
    @property
    def value(self) -> Any: ...
    @property
    def kind(self) -> str: ...
    @property
    def advised(self) -> bool: ...
    @property
    def tolerance(self) -> Any: ...
    @property
    def metric(self) -> Any: ...
    @property
    def why_void(self) -> str | None: ...


class NewValue(NamedTuple):
    """One value that a remedy changes: `field` of `record` (a record of the project) becomes `value`.

    That is a measure or a word, or a tuple of them where the field holds a list, such as the layers of a ceiling.
    """

    record: Any
    field: str
    value: Any


Decision = Literal[
    "",
    "what is there",
    "where it goes",
    "how the plan changes",
    "how it is designed",
    "which sheet is right",
    "which way to take",
]
"""What a person has to decide before a remedy that names a number changes a value; nothing where none is left open."""


class WorkStep(Protocol):
    """One value of a calculation: its symbol and meaning, how it was computed, its unit, and where it comes from."""

    @property
    def symbol(self) -> str: ...
    @property
    def meaning(self) -> str: ...
    @property
    def expression(self) -> str: ...
    @property
    def value(self) -> float: ...
    @property
    def unit(self) -> str: ...
    @property
    def source(self) -> str: ...


def capital(text: str) -> str:
    """Return `text` with its first letter as a sentence begins."""
    return text[:1].upper() + text[1:]


def words(text: Text) -> str:
    """Return a text, worked out if it is a function that gives one.

    It is worked out when a report is written; a rule that fails at it must not take the report along.
    """
    if isinstance(text, str):
        return text
    try:
        return str(text())
    except KeyboardInterrupt:
        raise
    except BaseException as error:
        return f"(could not be worked out: {said_of(error)})"


def said_of(error: BaseException) -> str:
    """Return the kind of `error` and its words, even where the error cannot say them."""
    try:
        return f"{type(error).__name__}: {error}"
    except KeyboardInterrupt:
        raise
    except BaseException as worse:
        return f"{type(error).__name__}, whose message failed ({type(worse).__name__})"


def worked_out(make: Callable[[], Iterable[T]] | None) -> tuple[T, ...]:
    """Return what a rule makes for reports besides words; nothing where it fails at it, for it goes with the words."""
    try:
        return tuple(make()) if make is not None else ()
    except KeyboardInterrupt:
        raise
    except BaseException:
        return ()
