"""The `@rule` decorator and the record it makes: the plain reading of one requirement, with its limits named.

What a rule is about and which limits it reads come from its annotations: the first parameter is the subject, a
parameter typed as a subclass of `Limits` gets the limits, and one typed `House` gets the survey of the house.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Callable, Iterator
from dataclasses import field
from functools import cached_property
from types import ModuleType
from typing import Any, ClassVar, Literal, get_args

from precheck import units
from precheck.checks import Check
from precheck.immutable import fixed
from precheck.units import Measure

__all__ = ["Limits", "Rule", "reads", "rule", "rules_in"]


Stage = Literal["intake", "plan", "foundation", "framing", "rough-in", "insulation", "final"]
"""When a person looks: at intake, at plan review, or at one of the inspections."""

Existing = Literal["may remain", "must comply"]
"""What a requirement does with a part that stands and is not touched."""

MAY_REMAIN: Existing = "may remain"

Engineered = Literal["must comply", "stands aside"]
"""What a requirement does with a part that a licensed designer has designed, which its `designed by` says."""

STANDS_ASIDE: Engineered = "stands aside"


_A_LIMIT = re.compile(r"(?:Limit|Settled)\[(\w+)\]")
_SETTLED = "Settled["
_KINDS: dict[str, Any] = {"int": int, "bool": bool} | {
    name: kind for name, kind in vars(units).items() if isinstance(kind, type) and issubclass(kind, Measure)
}


class RuleError(TypeError):
    """A rule that is not written as rules are; the message names the rule and what to change."""


class Limits:
    """The base of what a rule reads: a subclass names its limits and types them, one a line, after those it inherits.

    It does what a NamedTuple would, at a tenth of the cost of making the class, which every command pays for every rule.
    A field typed `Settled` has a value whenever the rule is called. The types are read as text, so the module of a subclass
    has ``from __future__ import annotations``.
    """

    _fields: ClassVar[tuple[str, ...]] = ()
    _settled: ClassVar[tuple[str, ...]] = ()
    _field_defaults: ClassVar[dict[str, Any]] = {}

    def __init_subclass__(cls) -> None:
        own = inspect.get_annotations(cls)
        cls._fields = (*cls._fields, *own)
        cls._settled = (*cls._settled, *(name for name, kind in own.items() if str(kind).startswith(_SETTLED)))
        cls._field_defaults = {
            **cls._field_defaults,
            **{name: cls.__dict__[name] for name in own if name in cls.__dict__},
        }

    def __init__(self, *limits: Any, **named: Any) -> None:
        own = self.__dict__
        own.update(zip(self._fields, limits, strict=False), **named)
        if len(limits) > len(self._fields) or own.keys() != set(self._fields):
            raise TypeError(f"{type(self).__name__} takes {', '.join(self._fields)}")

    def __iter__(self) -> Iterator[Any]:
        return iter(self.__dict__.values())


@fixed
class Signature:
    """What a rule's annotations say: its subject, the class of its limits, their names, whether it asks for the house.

    `settled` are the fields of the limits without whose values the rule is not called.
    """

    subject: type
    limits: type[Any] | None
    names: tuple[str, ...]
    wants_house: bool
    settled: tuple[str, ...] = ()


@fixed
class Rule:
    """One requirement in Python. `function` takes the subject, then the limits and the house where it asks for them.

    `replaces` names the rule in whose place it runs.
    """

    name: str
    function: Callable[..., Check]
    stage: Stage
    existing: Existing
    engineered: Engineered = field(default="must comply", kw_only=True)
    replaces: str = field(default="", kw_only=True)

    @property
    def topic(self) -> str:
        """The first part of the name: the topic that people choose by."""
        return self.name.partition(".")[0]

    @cached_property
    def meaning(self) -> str:
        """The plain reading, from the docstring."""
        return inspect.cleandoc(self.function.__doc__ or "")

    @property
    def summary(self) -> str:
        """The first sentence of the plain reading."""
        return self.meaning.split("\n\n")[0].replace("\n", " ")

    @cached_property
    def signature(self) -> Signature:
        """What the annotations say. Raises `RuleError`."""
        return _signature(self)

    @property
    def limit_names(self) -> tuple[str, ...]:
        """The names of the limits that the rule reads."""
        return self.signature.names

    def concerns(self, subject: Any, limits: Any) -> bool:
        """Return whether the rule is about `subject` under `limits`; where it is not, no finding is made."""
        return True

    def kind_of(self, name: str) -> type[Measure] | type[int] | type[bool] | None:
        """Return the kind of value that the rule takes limit `name` for, where that is a measure, a number or a yes."""
        limits: Any = self.signature.limits
        field = next(field for field, read in zip(limits._fields, self.limit_names, strict=True) if read == name)
        written = next((kinds[field] for one in limits.__mro__ if field in (kinds := inspect.get_annotations(one))), "")
        found = _A_LIMIT.fullmatch(written if isinstance(written, str) else f"Limit[{_named(written)}]")
        return _KINDS.get(found[1]) if found else None


def rule(
    name: str,
    *,
    stage: Stage = "plan",
    existing: Existing = MAY_REMAIN,
    engineered: Engineered = "must comply",
    replaces: str = "",
) -> Callable[[Callable[..., Check]], Rule]:
    """Make a function a rule called `name`, such as ``stairs.riser-height``.

    `stage` is when a person looks at it; `existing` says whether a part that stands may remain as it is (the default) or
    must comply because of what the work makes of it; `engineered` says whether the prescriptive requirement is for a part,
    too, that has its own design. A rule of a plugin that `replaces` another, by name, runs in its place, and reports say so.
    """

    def made(function: Callable[..., Check]) -> Rule:
        return Rule(name, function, stage, existing, engineered=engineered, replaces=replaces)

    return made


def reads(name: str) -> Any:
    """As the default of a field of a rule's limits: the field reads limit `name`, which belongs to another rule."""
    return _SharedName(name)


def rules_in(*modules: ModuleType) -> list[Rule]:
    """Return the rules that `modules` define, in the order in which they stand there."""
    return [value for module in modules for value in vars(module).values() if isinstance(value, Rule)]


def _named(annotation: Any) -> str:
    return next((getattr(kind, "__name__", "") for kind in get_args(annotation)), "")


@fixed
class _SharedName:
    name: str


def _signature(rule: Rule) -> Signature:
    """Read the annotations by name, which is some twenty times quicker than evaluating every type that they mention."""
    code = rule.function.__code__
    kinds = [_annotated(rule, name) for name in code.co_varnames[: code.co_argcount]]
    if not kinds or _annotated(rule, "return") is not Check:
        raise RuleError(f"{rule.name}: a rule takes a subject and returns Check; annotate both")
    subject, *others = kinds
    limits = next((kind for kind in others if hasattr(kind, "_fields")), None)
    wants_house = any(kind.__name__ == "House" for kind in others)
    if len(others) != (limits is not None) + wants_house:
        raise RuleError(f"{rule.name}: besides its subject a rule takes its Limits, then the House, no more")
    settled = getattr(limits, "_settled", ())
    return Signature(subject, limits, _limit_names(rule, limits) if limits else (), wants_house, settled)


def _annotated(rule: Rule, parameter: str) -> Any:
    annotation = rule.function.__annotations__.get(parameter)
    if isinstance(annotation, str):
        annotation = rule.function.__globals__.get(annotation)
    if not isinstance(annotation, type):
        raise RuleError(f"{rule.name}: annotate `{parameter}` with the name of a class that the module imports")
    return annotation


def _limit_names(rule: Rule, limits: Any) -> tuple[str, ...]:
    names = []
    for name in limits._fields:
        shared = limits._field_defaults.get(name)
        own = f"{rule.name}.{name.rstrip('_').replace('_', '-')}"
        names.append(shared.name if isinstance(shared, _SharedName) else own)
    return tuple(names)
