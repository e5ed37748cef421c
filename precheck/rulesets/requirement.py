"""A requirement that an ordinance adds as data: a part, conditions, a measure and a comparison with the added limit.

The keys are structured and the comparisons are those of the built-in rules, so there is nothing to evaluate and nothing
that a ruleset could do but compare.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from precheck.checks import Check, Outcome, does_not_apply, not_shown
from precheck.checks.compare import compared
from precheck.checks.relation import ONE_OF, RELATIONS, REQUIRED, Relation
from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest
from precheck.files.record import Record
from precheck.files.source import Block, Place
from precheck.rulesets.common import refuse
from precheck.rulesets.files import Amendment, CheckBlock
from precheck.rulesets.limit import VOID, Limit
from precheck.rulesets.quantity import NoQuantityError, Quantity, kinds_of_part, quantity
from precheck.survey import House
from precheck.units import Measure, NotationError

_CONDITIONS = {word: relation for word, relation in RELATIONS.items() if relation.is_ordered}
_SAID = {True: "yes", False: "no"}


@dataclass(frozen=True, eq=False)
class Condition:
    """When a requirement is due: what is looked at, the test of its value, and both in words."""

    looked_at: Quantity
    test: Callable[[Any], bool]
    text: str


@dataclass(frozen=True, eq=False)
class Requirement:
    """One requirement that an ordinance added. `check` makes the finding of one part."""

    name: str
    measures: str
    by: str
    place: Place
    part: type[Record]
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
        return " and ".join(condition.text for condition in self.conditions)

    def check(self, subject: Any, limit: Limit[Any], house: House) -> Check:
        """Return what the requirement finds on `subject`."""
        if not self.conditions:
            return compared(self.relation, self.measure.read(house, subject), limit).or_fix(self.fix)
        values = [(condition, condition.looked_at.read(house, subject)) for condition in self.conditions]
        if any(not is_missing(value) and not condition.test(value) for condition, value in values):
            return does_not_apply(f"it is due where {self.when}")
        measured = self.measure.read(house, subject)
        made = compared(self.relation, measured, limit).or_fix(self.fix)
        unsaid = [value for _, value in values if is_missing(value)]
        if not unsaid or made.outcome >= Outcome.PASS:  # what is met need not say whether it is due
            return made
        return not_shown(*unsaid, *([measured] if is_missing(measured) else []))


def requirement(amendment: Amendment, name: str, check: CheckBlock) -> Requirement:
    """Return the requirement that `amendment` adds. Raises `Unusable` at the line of what is wrong."""
    part = kinds_of_part().get(check.part)
    if part is None:
        known = kinds_of_part()
        told = nearest(check.part, known) or f"; known: {', '.join(list(known)[:30])} and others"
        raise refuse(check.place_of("part"), f"no kind of part is called `{check.part}`{told}")
    measure = _looked_at(part, check.measure, check.place_of("measure"))
    _fits(measure, check)
    return Requirement(
        name, amendment.measures, amendment.by, amendment.place_of("add"), part, check.stage, check.existing,
        tuple(_condition(part, key, spec, check) for key, spec in check.when.items()),
        measure, RELATIONS[check.comparison], check.fix,
    )  # fmt: skip


def limit_value(found: Requirement, written: Any, place: Place) -> Any:
    """Return the value of the added limit, of the kind that is measured. Raises `Unusable`."""
    if written == VOID:
        return None
    if found.relation is REQUIRED:
        return _the_word(written, "required", True, place)
    if found.relation is ONE_OF:
        listed = written if isinstance(written, list) else [written]
        return tuple(_choice(found.measure, item, place) for item in listed)
    return _of_kind(found.measure, written, place)


def _looked_at(part: type[Record], name: str, place: Place) -> Quantity:
    try:
        return quantity(part, name)
    except NoQuantityError as error:
        raise refuse(place, str(error)) from None


def _fits(measure: Quantity, check: CheckBlock) -> None:
    place, relation = check.place_of("comparison"), RELATIONS[check.comparison]
    if relation.is_ordered and not (issubclass(measure.kind, Measure) or measure.kind is int):
        raise refuse(place, f"`{measure.name}` is no measure or count; compare it with `required` or `one of`")
    if relation is REQUIRED and measure.kind is not bool:
        raise refuse(place, f"`{measure.name}` is not answered by yes or no; compare it with a limit instead")
    if relation is ONE_OF and measure.kind is not str and not issubclass(measure.kind, str):
        raise refuse(place, f"`{measure.name}` is not a choice of words; compare it with a limit instead")


def _condition(part: type[Record], key: str, spec: Any, check: CheckBlock) -> Condition:
    block = check.block["when"] if check.block is not None else None
    place = block.place_of(key) if isinstance(block, Block) else check.place
    looked_at = _looked_at(part, key, place)
    if isinstance(spec, dict):
        return _bounded(looked_at, spec, place)
    listed = spec if isinstance(spec, list) else [spec]
    wanted = tuple(_of_kind(looked_at, item, place) for item in listed)
    said = " or ".join(_SAID.get(w, str(w)) if isinstance(w, bool) else str(w) for w in wanted)
    return Condition(looked_at, lambda value: value in wanted, f"{looked_at.name} is {said}")


def _bounded(looked_at: Quantity, spec: dict[str, Any], place: Place) -> Condition:
    if len(spec) != 1 or next(iter(spec)) not in _CONDITIONS:
        example = f"minimum: {getattr(looked_at.kind, 'example', '2')}"
        raise refuse(place, f"`{looked_at.name}`: write one comparison, such as `{example}` ({', '.join(_CONDITIONS)})")
    word, written = next(iter(spec.items()))
    if not (issubclass(looked_at.kind, Measure) or looked_at.kind is int):
        raise refuse(place, f"`{looked_at.name}` is no measure or count; name the values that it may have")
    bound = _of_kind(looked_at, written, place)
    relation = _CONDITIONS[word]
    told = f"{looked_at.name} is {relation.condition.format(bound)}"
    return Condition(looked_at, lambda value: relation.holds(value, bound), told)


def _of_kind(looked_at: Quantity, written: Any, place: Place) -> Any:
    """Return `written` as a value of the kind that is looked at. Raises `Unusable`."""
    if not isinstance(written, str):
        raise refuse(place, f"`{looked_at.name}`: write one value, such as {_example(looked_at)}")
    if looked_at.kind is bool:
        said_yes = written.lower() in _YES
        return _the_word(written, "yes" if said_yes else "no", said_yes, place)
    if looked_at.kind is int:
        return _count(looked_at, written, place)
    if issubclass(looked_at.kind, Measure):
        try:
            return looked_at.kind.parse(written)
        except NotationError as error:
            raise refuse(place, f"{looked_at.name}: {error}") from None
    return _choice(looked_at, written, place)


_YES = ("yes", "true")
_NO = ("no", "false")


def _the_word(written: Any, word: str, value: bool, place: Place) -> bool:
    accepted = {"yes": _YES, "no": _NO}.get(word, (word,))
    if str(written).lower() not in accepted:
        wanted = "`yes` or `no`" if word == "no" else f"`{word}`"
        raise refuse(place, f"`{written}` does not belong here; write {wanted}")
    return value


def _count(looked_at: Quantity, written: str, place: Place) -> int:
    if not written.isdecimal():
        raise refuse(place, f"{looked_at.name}: `{written}` is not a count; write a whole number")
    return int(written)


def _choice(looked_at: Quantity, written: Any, place: Place) -> str:
    if looked_at.choices and written not in looked_at.choices:
        known = looked_at.choices
        raise refuse(place, f"`{written}` is not known as {looked_at.name}{nearest(str(written), known) or '.'} "
                            f"Write one of: {', '.join(known)}")  # fmt: skip
    return str(written)


def _example(looked_at: Quantity) -> str:
    if looked_at.choices:
        return looked_at.choices[0]
    return str(getattr(looked_at.kind, "example", "yes" if looked_at.kind is bool else "2"))
