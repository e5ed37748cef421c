"""Requirements that a ruleset adds as data, as rules like any other."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any, NamedTuple

from precheck.limits import Limit
from precheck.rules import Rule, Signature
from precheck.rulesets import AdoptedCode, Requirement


class OneLimit(NamedTuple):
    """The limit that the ordinance added with the requirement."""

    limit: Limit[Any]


@dataclass(frozen=True)
class AddedRule(Rule):
    """A rule made of a requirement that stands in a ruleset. It reads the one limit of its own name."""

    requirement: Requirement

    @property
    def meaning(self) -> str:
        """The plain reading, from what the limit means and when it is due."""
        return self.requirement.meaning

    @cached_property
    def signature(self) -> Signature:
        """The part that the requirement is about, and its limit."""
        return Signature(self.requirement.part, OneLimit, (self.name,), True)


def added_rules(code: AdoptedCode) -> tuple[Rule, ...]:
    """Return the requirements that the rulesets of `code` add, as rules."""
    return _rules(code.requirements)


@lru_cache(maxsize=64)
def _rules(requirements: tuple[Requirement, ...]) -> tuple[Rule, ...]:
    return tuple(_rule(found) for found in requirements)


def _rule(found: Requirement) -> AddedRule:
    def function(subject: Any, limits: OneLimit, house: Any) -> Any:
        return found.check(subject, limits.limit, house)

    return AddedRule(found.name, function, found.stage, found.existing, found)
