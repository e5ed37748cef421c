"""The code that a jurisdiction has adopted, as in effect on a day: the chain it came by, and its limits."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from types import MappingProxyType

from precheck.files import spelling
from precheck.files.source import Place, Problem
from precheck.immutable import fixed
from precheck.rulesets.in_force import EditionChoice
from precheck.rulesets.limit import Table
from precheck.rulesets.lock import Lock
from precheck.rulesets.model_code import Unchecked
from precheck.rulesets.requirement import Requirement


@fixed
class ChainLink:
    """One link of the chain: the edition, or an adoption with its date and ordinance."""

    name: str
    by: str
    in_force: date | None
    partial: bool
    place: Place


@dataclass(frozen=True, eq=False)
class AdoptedCode:
    """The code in effect: the chain it came by, from the edition down, and every limit with its history.

    Equal to itself alone, so that what follows from it can be kept.
    """

    name: str
    applied_on: date | None
    chain: tuple[ChainLink, ...]
    limits: Table
    not_checked: tuple[Unchecked, ...] = ()
    requirements: tuple[Requirement, ...] = ()
    lacks: frozenset[str] = frozenset()  # rules and topics for which the model code has nothing
    formerly: Mapping[str, str] = field(
        default_factory=lambda: MappingProxyType({})
    )  # names of limits of before, and those of today
    trades: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))  # of each topic
    caveats: tuple[
        tuple[str, str], ...
    ] = ()  # what its rulesets note of themselves and of limits, with the limit's name
    renamed: tuple[Problem, ...] = ()  # where its rulesets still use words and names of before
    choices: tuple[EditionChoice, ...] = ()  # where more than one adoption may be used on the day
    locks: tuple[Lock, ...] = ()  # what no ruleset that adopts this one may change, or only one way

    @property
    def partial(self) -> bool:
        """Whether a ruleset of the chain says that it does not hold all that its jurisdiction amended."""
        return any(step.partial for step in self.chain)

    @property
    def edition(self) -> str:
        """The model code at the head of the chain."""
        return self.chain[0].name

    @property
    def other_editions(self) -> tuple[str, ...]:
        """The editions that could be chosen on the day in place of the one at the head of the chain."""
        could = (edition for choice in self.choices for edition in choice.editions)
        return tuple(dict.fromkeys(edition for edition in could if edition != self.edition))

    def limit_called(self, written: str) -> str | None:
        """Return the name of today of the limit `written`, which may be a name of before; None where there is none."""
        return spelling.name(written, self.limits, self.formerly)
