"""A requirement that an ordinance adds as data: a part, conditions, a measure and a comparison with the added limit.

The keys are structured and the comparisons are those of the built-in rules, so there is nothing to evaluate and nothing
that a ruleset could do but compare.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from precheck.checks import Check, Outcome, does_not_apply, not_shown
from precheck.checks.compare import compared
from precheck.checks.relation import ONE_OF, RELATIONS, REQUIRED, Relation
from precheck.files.missing import is_missing, missing_of
from precheck.files.source import Place
from precheck.rulesets.common import refuse
from precheck.rulesets.conditions import (
    Condition,
    all_hold,
    choice,
    conditions,
    in_words,
    looked_at,
    the_word,
    value_for,
)
from precheck.rulesets.files import Amendment, CheckBlock
from precheck.rulesets.limit import VOID, Limit
from precheck.rulesets.quantity import ANY, Quantity
from precheck.rulesets.vocabulary import Vocabulary
from precheck.survey import House
from precheck.units import Measure, Ratio


@dataclass(frozen=True, eq=False)
class Requirement:
    """One requirement that an ordinance added. `check` makes the finding of one part."""

    name: str
    measures: str
    by: str
    place: Place
    part: type[Any]
    stage: Any
    existing: Any
    conditions: tuple[Condition, ...]
    measure: Quantity
    relation: Relation
    fix: str

    @property
    def meaning(self) -> str:
        """The plain reading."""
        due = f" Due where {self.when}." if self.conditions else ""
        return f"{self.measures[:1].upper()}{self.measures[1:]}.{due}\n\nAdded by {self.by}."

    @property
    def when(self) -> str:
        """All conditions in words."""
        return in_words(self.conditions)

    def check(self, subject: Any, limit: Limit[Any], house: House) -> Check:
        """Return what the requirement finds on `subject`."""
        due = all_hold(self.conditions, house, subject)
        if due is False:
            return does_not_apply(f"it is due where {self.when}")
        measured = self.measure.read(house, subject)
        made = compared(self.relation, measured, limit).or_fix(self.fix)
        if due is True or made.outcome >= Outcome.PASS:  # what is met need not say whether it is due
            return made
        return not_shown(due, *([measured] if is_missing(measured) else []))


def requirement(amendment: Amendment, name: str, check: CheckBlock, words: Vocabulary) -> Requirement:
    """Return the requirement that `amendment` adds, in the `words` that it may use. Raises `Unusable` at the line of what is wrong."""
    part = words.part(check.part, check.place_of("part"))
    measure = _measure(part, check, words)
    _fits(measure, check)
    when = check.block["when"] if check.block is not None and "when" in check.block else check.when
    return Requirement(
        name, amendment.measures, amendment.by, amendment.place_of("add"), part, check.stage, check.existing,
        conditions(part, when, check.place_of("when"), words), measure, RELATIONS[check.comparison], check.fix,
    )  # fmt: skip


def limit_value(found: Requirement, written: Any, place: Place) -> Any:
    """Return the value of the added limit, of the kind that is measured. Raises `Unusable`."""
    if written == VOID:
        return None
    if found.relation is REQUIRED:
        return the_word(written, "required", True, place)
    if found.relation is ONE_OF:
        listed = written if isinstance(written, list) else [written]
        return tuple(choice(found.measure, item, place) for item in listed)
    return value_for(found.measure, written, place)


def _measure(part: type[Any], check: CheckBlock, words: Vocabulary) -> Quantity:
    """Return what is measured: a quantity of the part, or its share of another."""
    measured = looked_at(part, check.measure, check.place_of("measure"), words)
    if is_missing(check.share_of):
        return measured
    place = check.place_of("share_of")
    whole = looked_at(part, check.share_of, place, words)
    if measured.kind is not whole.kind or not (issubclass(whole.kind, Measure) or whole.kind is int):
        raise refuse(
            place, f"`{measured.name}` can be no share of `{whole.name}`; name two areas, two lengths or two counts"
        )

    def share(house: House, subject: Any) -> Any:
        of = whole.read(house, subject)
        known = is_missing(of) or of != type(of)(0)
        values = measured.read(house, subject), of if known else subject.absent(f"{whole.name} above zero")
        absent = missing_of(*values)
        return absent if absent is not None else Ratio(Fraction(_number(values[0])) / _number(values[1]))

    return Quantity(f"{measured.name} as a share of {whole.name}", Ratio, (), share)


def _number(value: Any) -> Any:
    return value.n if isinstance(value, Measure) else value


def _fits(measure: Quantity, check: CheckBlock) -> None:
    place, relation = check.place_of("comparison"), RELATIONS[check.comparison]
    if measure.name.startswith(ANY):
        raise refuse(check.place_of("measure"), f"`{measure.name}` may be a condition; measure one value")
    if relation.is_ordered and not (issubclass(measure.kind, Measure) or measure.kind is int):
        raise refuse(place, f"`{measure.name}` is no measure or count; compare it with `required` or `one of`")
    if relation is REQUIRED and measure.kind is not bool:
        raise refuse(place, f"`{measure.name}` is not answered by yes or no; compare it with a limit instead")
    if relation is ONE_OF and measure.kind is not str and not issubclass(measure.kind, str):
        raise refuse(place, f"`{measure.name}` is not a choice of words; compare it with a limit instead")
