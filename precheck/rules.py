"""The `@rule` decorator and the record it makes: the plain reading of one requirement, with its limits named.

What a rule is about and which limits it reads come from its annotations: the first parameter is the subject, a
parameter typed as a NamedTuple of `Limit` fields gets the limits, and one typed `House` gets the survey of the house.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from types import ModuleType
from typing import Any, Literal, get_args, get_origin, get_type_hints

from precheck.checks import Check
from precheck.limits import Limit

Stage = Literal["intake", "plan", "foundation", "framing", "rough-in", "insulation", "final"]
"""When a person looks: at intake, at plan review, or at one of the inspections."""

Existing = Literal["may stay", "must comply"]
"""What a requirement does with a part that stands and is not touched."""


class RuleError(TypeError):
    """A rule that is not written as rules are; the message names the rule and what to change."""


@dataclass(frozen=True)
class Signature:
    """What a rule's annotations say: its subject, its limits by parameter name, and the order of its arguments."""

    subject: type
    limits: type[Any] | None
    wants_house: bool
    names: dict[str, str]
    kinds: dict[str, Any]


@dataclass(frozen=True)
class Rule:
    """One requirement in Python. `function` takes the subject, then the limits and the house where it asks for them."""

    name: str
    function: Callable[..., Check]
    stage: Stage
    existing: Existing

    @property
    def topic(self) -> str:
        """The first part of the name: the topic that people choose by."""
        return self.name.partition(".")[0]

    @property
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
        return tuple(self.signature.names.values())


def rule(
    name: str, *, stage: Stage = "plan", existing: Existing = "may stay"
) -> Callable[[Callable[..., Check]], Rule]:
    """Make a function a rule called `name`, such as ``stairs.riser-height``.

    `stage` is when a person looks at it; `existing` says whether a part that stands may stay as it is (the default) or
    must comply because of what the work makes of it.
    """

    def made(function: Callable[..., Check]) -> Rule:
        return Rule(name, function, stage, existing)

    return made


def reads(name: str) -> Any:
    """As the default of a field of a rule's limits: the field reads limit `name`, which belongs to another rule."""
    return _SharedName(name)


def rules_in(*modules: ModuleType) -> list[Rule]:
    """Return the rules that `modules` define, in the order in which they stand there."""
    return [value for module in modules for value in vars(module).values() if isinstance(value, Rule)]


@dataclass(frozen=True)
class _SharedName:
    name: str


def _signature(rule: Rule) -> Signature:
    hints = get_type_hints(rule.function)
    returned = hints.pop("return", None)
    parameters = list(inspect.signature(rule.function).parameters)
    if returned is not Check or not parameters or any(p not in hints for p in parameters):
        raise RuleError(f"{rule.name}: annotate every parameter and return Check")
    subject, *others = parameters
    limits = next((hints[p] for p in others if hasattr(hints[p], "_fields")), None)
    wants_house = any(getattr(hints[p], "__name__", "") == "House" for p in others)
    if len(others) != (limits is not None) + wants_house:
        raise RuleError(
            f"{rule.name}: besides its subject a rule takes its limits (a NamedTuple) and the House, no more"
        )
    return Signature(hints[subject], limits, wants_house, *_limit_fields(rule, limits))


def _limit_fields(rule: Rule, limits: type[Any] | None) -> tuple[dict[str, str], dict[str, Any]]:
    names: dict[str, str] = {}
    kinds: dict[str, Any] = {}
    for field, kind in (get_type_hints(limits) if limits else {}).items():
        if get_origin(kind) is not Limit:
            raise RuleError(f"{rule.name}: `{field}` is not a Limit; annotate it as Limit[Length] or the like")
        shared = limits._field_defaults.get(field) if limits else None
        names[field] = (
            shared.name if isinstance(shared, _SharedName) else f"{rule.name}.{field.rstrip('_').replace('_', '-')}"
        )
        kinds[field] = get_args(kind)[0]
    return names, kinds
