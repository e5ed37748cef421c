"""What the project does not say.

Missing information is a value of its own: it passes through arithmetic, collects what was needed on the way, and cannot
be compared or used as true or false. The comparisons of `precheck.checks` turn it into `not shown`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, NoReturn, TypeVar, overload

from typing_extensions import TypeIs

__all__ = ["Missing", "first_given", "given", "is_missing", "missing_of", "when_given"]


T = TypeVar("T")
A = TypeVar("A")
B = TypeVar("B")
C = TypeVar("C")
D = TypeVar("D")
E = TypeVar("E")
_LEAD_ON = ("floor under",)  # keys that lead on to their owner as they are: ``floor under drop 1``


class Need(NamedTuple):
    """One value that the project should give: `key` of the part `owner`, as ``sill height`` of ``window W2``."""

    owner: str
    key: str
    place: tuple[str, int, int] | None = None  # file, line and column of the part that lacks it
    yes_or_no: bool = False

    def text(self, known: str = "") -> str:
        """Return what to write, without the owner `known` where that is already said: ``self closing: yes or no``."""
        name = str(self).removesuffix(f" of {known}") if known else str(self)
        return f"{name}: yes or no" if self.yes_or_no else name

    def __str__(self) -> str:
        key, below, of = self.key.partition(" (of ")
        if below and of.endswith(")"):  # a record of the owner that is not given
            return f"{key} of {of.removesuffix(')')}"
        joined = " " if self.key in _LEAD_ON else " of "
        return f"{self.key}{joined}{self.owner}" if self.owner else self.key


class Missing:
    """The absence of one or more values, `needs`.

    Adding, scaling or dividing it gives the same absence, and so does asking it for a field: what is not drawn has no
    width either.
    """

    __slots__ = ("needs",)

    def __init__(self, *needs: Need) -> None:
        self.needs = needs

    def __add__(self, other: object) -> Missing:
        if isinstance(other, Missing):
            return Missing(*self.needs, *(n for n in other.needs if n not in self.needs))
        return self

    __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = __truediv__ = __rtruediv__ = __add__

    def __getattr__(self, field: str) -> Missing:
        if field.startswith("_"):
            raise AttributeError(field)
        return self

    def __deepcopy__(self, memo: object) -> Missing:
        return self  # an absence never changes, and reading tells the one of a field not given by its identity

    def __neg__(self) -> Missing:
        return self

    def __abs__(self) -> Missing:
        return self

    def __bool__(self) -> NoReturn:
        raise TypeError(f"{self!r} is neither true nor false; compare it with the helpers of precheck.checks")

    def __lt__(self, other: object) -> NoReturn:
        raise TypeError(f"{self!r} cannot be compared with {other!r}; use the helpers of precheck.checks")

    __le__ = __gt__ = __ge__ = __lt__

    def __repr__(self) -> str:
        return f"Missing({', '.join(map(str, self.needs))})"


def is_missing(value: object) -> TypeIs[Missing]:
    """Return whether `value` is an absence."""
    return isinstance(value, Missing)


def missing_of(*values: object) -> Missing | None:
    """Return one absence that holds all needs among `values`, or None where every value is given."""
    found: Missing | None = None
    for value in values:
        if isinstance(value, Missing):
            found = value if found is None else found + value
    return found


def first_given(*values: T | Missing) -> T | Missing:
    """Return the first value that is given, else the first absence (whose need is the one to ask for)."""
    return next((value for value in values if not isinstance(value, Missing)), values[0])


@overload
def given(a: A | Missing, b: B | Missing, /) -> tuple[A, B] | Missing: ...
@overload
def given(a: A | Missing, b: B | Missing, c: C | Missing, /) -> tuple[A, B, C] | Missing: ...
@overload
def given(a: A | Missing, b: B | Missing, c: C | Missing, d: D | Missing, /) -> tuple[A, B, C, D] | Missing: ...
@overload
def given(
    a: A | Missing, b: B | Missing, c: C | Missing, d: D | Missing, e: E | Missing, /
) -> tuple[A, B, C, D, E] | Missing: ...
def given(*values: Any) -> Any:
    """Return `values`, each of which is given then, or one absence that holds all needs among them."""
    absent = missing_of(*values)
    return values if absent is None else absent


@overload
def when_given(work_out: Callable[[A], T], a: A | Missing, /) -> T | Missing: ...
@overload
def when_given(work_out: Callable[[A, B], T], a: A | Missing, b: B | Missing, /) -> T | Missing: ...
@overload
def when_given(work_out: Callable[..., T], *values: Any) -> T | Missing: ...
def when_given(work_out: Callable[..., T], *values: Any) -> T | Missing:
    """Return `work_out(*values)`, or one absence that holds all needs among `values` where one is not given."""
    absent = missing_of(*values)
    return work_out(*values) if absent is None else absent
