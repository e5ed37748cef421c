"""When an added requirement is due: conditions on what is looked at, all of them or any of them, and what they must not be.

A condition of which the project does not say enough is neither met nor unmet.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from precheck.checks.relation import RELATIONS
from precheck.files.missing import Missing, is_missing, missing_of
from precheck.files.mistakes import nearest
from precheck.files.source import Block, Items, Place, Problem, Unusable
from precheck.rulesets.common import refuse
from precheck.rulesets.quantity import Many, NoQuantityError, Quantity
from precheck.rulesets.vocabulary import Vocabulary
from precheck.survey import House
from precheck.units import Measure, NotationError

ANY_OF, NOT = "any of", "not"
_BOUNDS = {word: relation for word, relation in RELATIONS.items() if relation.is_ordered}
_SAID = {True: "yes", False: "no"}
_COUNT = re.compile(r"[0-9]{1,12}")
_YES, _NO = ("yes", "true"), ("no", "false")
Holds = Callable[[House, Any], bool | Missing]


@dataclass(frozen=True, eq=False)
class Condition:
    """One condition: whether it holds for a part, or what the project does not say for that; and its words."""

    holds: Holds
    text: str


def looked_at(part: type[Any], name: str, place: Place, words: Vocabulary) -> Quantity:
    """Return what `name` stands for in a `part`. Raises `Unusable` at `place` where it stands for nothing."""
    try:
        return words.quantity(part, name)
    except NoQuantityError as error:
        raise refuse(place, str(error)) from None


def conditions(part: type[Any], when: dict[str, Any], place: Place, words: Vocabulary) -> tuple[Condition, ...]:
    """Return the conditions that `when` lists for a `part`; all of them are to hold. Raises `Unusable` with all problems."""
    found: list[Condition] = []
    problems: list[Problem] = []
    for key, spec in when.items():
        at = when.place_of(key) if isinstance(when, Block) else place
        try:
            several = key == ANY_OF
            found.append(_any_of(part, spec, at, words) if several else _one(looked_at(part, key, at, words), spec, at))
        except Unusable as error:
            problems.extend(error.problems)
    if problems:
        raise Unusable(problems)
    return tuple(found)


def all_hold(these: Iterable[Condition], house: House, subject: Any) -> bool | Missing:
    """Return whether all conditions hold: one that does not settles it, whatever is not said of the others."""
    found = [one.holds(house, subject) for one in these]
    unsaid = missing_of(*found)
    return False if False in _known(found) else True if unsaid is None else unsaid


def in_words(these: Iterable[Condition]) -> str:
    """Return conditions in words: all of them."""
    return " and ".join(one.text for one in these)


def _known(found: Iterable[bool | Missing]) -> list[bool]:
    return [one for one in found if not is_missing(one)]


def _any_of(part: type[Any], spec: Any, place: Place, words: Vocabulary) -> Condition:
    if not isinstance(spec, list) or len(spec) < 2 or not all(isinstance(one, dict) for one in spec):
        raise refuse(
            place, f"`{ANY_OF}`: list two or more mappings of conditions, such as [{{phase: new}}, {{use: attic}}]"
        )
    places = [spec.place_of(number) if isinstance(spec, Items) else place for number in range(len(spec))]
    each = [conditions(part, one, at, words) for one, at in zip(spec, places, strict=True)]

    def holds(house: House, subject: Any) -> bool | Missing:
        found = [all_hold(one, house, subject) for one in each]
        unsaid = missing_of(*found)
        return True if True in _known(found) else False if unsaid is None else unsaid

    return Condition(holds, " or ".join(in_words(one) for one in each).join(("(", ")")))


def _one(of: Quantity, spec: Any, place: Place) -> Condition:
    if isinstance(spec, dict) and set(spec) == {NOT}:
        wanted = _one(of, spec[NOT], place)
        return Condition(_negated(wanted.holds), wanted.text.replace(" is ", " is not ", 1))
    if isinstance(spec, dict):
        return _bounded(of, spec, place)
    listed = spec if isinstance(spec, list) else [spec]
    choices = tuple(value_for(of, item, place) for item in listed)
    said = " or ".join(_SAID.get(w, str(w)) if isinstance(w, bool) else str(w) for w in choices)
    return Condition(_tested(of, lambda value: value in choices), f"{of.name} is {said}")


def _negated(holds: Holds) -> Holds:
    def negated(house: House, subject: Any) -> bool | Missing:
        found = holds(house, subject)
        return found if is_missing(found) else not found

    return negated


def _tested(of: Quantity, test: Callable[[Any], bool]) -> Holds:
    def holds(house: House, subject: Any) -> bool | Missing:
        value = of.read(house, subject)
        if isinstance(value, Many):  # one of several that passes is enough
            unsaid = missing_of(*value)
            passes = any(test(one) for one in value if not is_missing(one))
            return True if passes else False if unsaid is None else unsaid
        return value if is_missing(value) else test(value)

    return holds


def _bounded(of: Quantity, spec: dict[str, Any], place: Place) -> Condition:
    if not spec or not spec.keys() <= _BOUNDS.keys():
        example = f"minimum: {getattr(of.kind, 'example', '2')}"
        raise refuse(
            place, f"`{of.name}`: write comparisons, such as `{example}` ({', '.join(_BOUNDS)}), or `{NOT}: ...`"
        )
    if not (issubclass(of.kind, Measure) or of.kind is int):
        raise refuse(place, f"`{of.name}` is no measure or count; name the values that it may have")
    bounds = [(_BOUNDS[word], value_for(of, written, place)) for word, written in spec.items()]
    told = " and ".join(relation.condition.format(bound) for relation, bound in bounds)
    return Condition(_tested(of, lambda v: all(one.holds(v, bound) for one, bound in bounds)), f"{of.name} is {told}")


def value_for(of: Quantity, written: Any, place: Place) -> Any:
    """Return `written` as a value of the kind that is looked at. Raises `Unusable`."""
    if not isinstance(written, str):
        raise refuse(place, f"`{of.name}`: write one value, such as {_example(of)}")
    if of.kind is bool:
        said_yes = written.lower() in _YES
        return the_word(written, "yes" if said_yes else "no", said_yes, place)
    if of.kind is int:
        return _count(of, written, place)
    if issubclass(of.kind, Measure):
        try:
            return of.kind.parse(written)
        except NotationError as error:
            raise refuse(place, f"{of.name}: {error}") from None
    return choice(of, written, place)


def the_word(written: Any, word: str, value: bool, place: Place) -> bool:
    """Return `value` where `word` is written. Raises `Unusable`."""
    accepted = {"yes": _YES, "no": _NO}.get(word, (word,))
    if str(written).lower() not in accepted:
        wanted = "`yes` or `no`" if word == "no" else f"`{word}`"
        raise refuse(place, f"`{written}` does not belong here; write {wanted}")
    return value


def choice(of: Quantity, written: Any, place: Place) -> str:
    """Return `written` as one of the words that are known for what is looked at. Raises `Unusable`."""
    if of.choices and written not in of.choices:
        known = of.choices
        raise refuse(place, f"`{written}` is not known as {of.name}{nearest(str(written), known) or '.'} "
                            f"Write one of: {', '.join(known)}")  # fmt: skip
    return str(written)


def _count(of: Quantity, written: str, place: Place) -> int:
    if not _COUNT.fullmatch(written):
        raise refuse(place, f"{of.name}: `{written}` is not a count; write a whole number")
    return int(written)


def _example(of: Quantity) -> str:
    if of.choices:
        return of.choices[0]
    return str(getattr(of.kind, "example", "yes" if of.kind is bool else "2"))


__all__ = [
    "ANY_OF",
    "NOT",
    "Condition",
    "all_hold",
    "choice",
    "conditions",
    "in_words",
    "looked_at",
    "the_word",
    "value_for",
]
