"""What a requirement that is added as data can look at: the fields of a kind of part, by their names in project files.

A name is a key of the part (``width``), a key of what it holds, of what holds it or of the house (``height of ceiling``,
``form of stair``, ``sprinklered of dwelling``), ``number of``, ``smallest of`` or ``largest of`` a list, or a quantity
that the survey derives (``area`` of a space). ``use of space`` is the use of the space that a window names as its own, and
``any use of between`` that of any of those that a door names. No expression is evaluated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache, partial
from typing import Any, get_args

from precheck.files.missing import is_missing
from precheck.files.mistakes import nearest, with_article
from precheck.files.record import Record, Reference, fields_of
from precheck.project import Project, Space, Window
from precheck.project.part import OUTSIDE, Phase
from precheck.rulesets.shape import attribute_of, choices_in, fields_by_key, held_in, reference_in
from precheck.rulesets.worked_out import worked_out
from precheck.survey import House, phase_of
from precheck.units import Area, Length, Measure

PHASE = "phase"
ANY = "any "
COUNTED, SMALLEST, LARGEST = "number of ", "smallest of ", "largest of "
_OVER_LISTS: dict[str, Callable[[Any], Any]] = {COUNTED: len, SMALLEST: min, LARGEST: max}

DERIVED: dict[tuple[type[Record], str], tuple[type, Callable[[House, Any], Any]]] = {
    (Space, "area"): (Area, House.area),
    (Space, "ceiling height"): (Length, House.ceiling_height),
    (Space, "finished floor"): (Length, House.finished_floor),
    (Window, "sill height"): (Length, House.sill_height),
}
"""Quantities that follow from the drawing where the file does not state them."""

Reader = Callable[[House, Any], Any]


@dataclass(frozen=True, eq=False)
class Quantity:
    """One thing that can be looked at: its name, what kind of value it has, its choices if these are named, and how."""

    name: str
    kind: type
    choices: tuple[str, ...]
    read: Reader


class Many(tuple[Any, ...]):
    """The values of a quantity that has several, of which one that passes a condition is enough."""

    __slots__ = ()


class NoQuantityError(ValueError):
    """A name that stands for nothing a part has; the message says what may have been meant."""


@cache
def kinds_of_part() -> dict[str, type[Record]]:
    """Return every kind of record of a project by what a person calls it."""
    found: dict[str, type[Record]] = {}
    waiting: list[type[Record]] = [Project]
    while waiting:
        model = waiting.pop(0)
        if found.setdefault(model.kind, model) is model:
            held = (held_in(field.annotation)[1] for field in fields_of(model).values())
            waiting.extend(kind for kind in held if kind is not None and kind not in found.values())
    return dict(sorted(found.items()))


@cache
def choices_of_parts() -> frozenset[str]:
    """Return every word that some field of a project offers as a choice: what a list of a ruleset can be met by."""
    fields = (field for model in kinds_of_part().values() for field in fields_of(model).values())
    return frozenset(word for field in fields for word in choices_in(field.annotation))


@cache
def _owners() -> dict[type[Record], list[type[Record]]]:
    """Return for each kind of record the kinds that hold it, the project aside."""
    owners: dict[type[Record], list[type[Record]]] = {}
    for model in kinds_of_part().values():
        for field in fields_of(model).values() if model is not Project else ():
            held = held_in(field.annotation)[1]
            if held is not None and model not in owners.setdefault(held, []):
                owners[held].append(model)
    return owners


def lies_in(model: type[Record], other: type[Any]) -> bool:
    """Return whether a record of type `model` is one of type `other`, or is held by one, or by the house that `other` tells of."""
    if issubclass(model, other) or issubclass(other, model):  # most are; to know the owners takes a look at every field
        return True
    if other in _of_house().values():
        return True
    return any(lies_in(owner, other) for owner in _owners().get(model, ()) if owner is not model)


@cache
def _of_house() -> dict[str, type[Record]]:
    """Return the records that say something of the house as a whole, by their keys."""
    held = {key: held_in(field.annotation) for key, field in fields_by_key(Project).items()}
    return {key: record for key, (_, record, many) in held.items() if record is not None and not many}


def field_of_house(kind: type[Any]) -> str | None:
    """Return the field of the project that holds the one record of a `kind`; None for a kind of which there may be several."""
    key = next((key for key, record in _of_house().items() if record is kind), None)
    return None if key is None else attribute_of(Project, key)


@cache
def quantity(model: type[Record], name: str) -> Quantity:
    """Return what `name` stands for in a record of type `model`. Raises `NoQuantityError`."""
    if (model, name) in DERIVED:
        kind, derive = DERIVED[model, name]
        return Quantity(name, kind, (), derive)
    if (found := worked_out(model, name)) is not None:
        return Quantity(name, found.kind, (), found.read)
    if name in fields_by_key(model):
        return _of_field(model, name)
    over = next((word for word in _OVER_LISTS if name.startswith(word)), None)
    if over is not None and not _is_held(model, name.removeprefix(over)):  # bars may have a `number` of their own
        return _over_list(model, name, over)
    if name == PHASE:
        return Quantity(PHASE, str, get_args(Phase), lambda _, record: phase_of(record) or record.absent(PHASE))
    if " of " in name:
        return _referred(model, name) or _elsewhere(model, name)
    return _of_field(model, name)


def names(model: type[Record]) -> Iterator[str]:
    """Yield every name that `quantity` knows for `model`."""
    yield from _own_names(model)
    if PHASE not in fields_by_key(model):
        yield PHASE
    yield from (f"{inner} of {owner.kind}" for owner in _owners().get(model, ()) for inner in _scalars(owner))
    for key, field in fields_by_key(model).items():
        reference, many = reference_in(field.annotation)
        for record in _named_by(reference):
            yield from (f"{ANY if many else ''}{inner} of {key}" for inner in _scalars(record))
    yield from names_of_house()


@cache
def names_of_house() -> tuple[str, ...]:
    """Return the names that stand for the same in every part: what is said of the house as a whole."""
    return tuple(f"{inner} of {key}" for key, record in _of_house().items() for inner in _scalars(record))


def _own_names(model: type[Record]) -> Iterator[str]:
    yield from (name for kind, name in DERIVED if kind is model)
    for key, field in fields_by_key(model).items():
        kind, record, many = held_in(field.annotation)
        if many:
            yield f"{COUNTED}{key}"
            if kind is not None and issubclass(kind, Measure):
                yield from (f"{SMALLEST}{key}", f"{LARGEST}{key}")
        elif record is not None:
            yield from (f"{inner} of {key}" for inner in _scalars(record))
        elif kind is not None and (model, key) not in DERIVED:
            yield key


def _scalars(model: type[Record]) -> Iterator[str]:
    for key, field in fields_by_key(model).items():
        kind, _, many = held_in(field.annotation)
        if kind is not None and not many:
            yield key


def _of_field(model: type[Record], name: str) -> Quantity:
    field = fields_by_key(model).get(name)
    kind, _, many = held_in(field.annotation) if field else (None, None, False)
    if field is None or kind is None or many:
        raise NoQuantityError(_unknown(model, name))
    attribute = attribute_of(model, name)
    return Quantity(name, kind, tuple(choices_in(field.annotation)), lambda _, record: _given(record, attribute, name))


def _elsewhere(model: type[Record], name: str) -> Quantity:
    inner, _, outer = name.rpartition(" of ")
    field = fields_by_key(model).get(outer)
    _, held, many = held_in(field.annotation) if field else (None, None, True)
    owner = next((kind for kind in _owners().get(model, ()) if kind.kind == outer), None)
    if held is not None and not many:
        return _at(name, quantity(held, inner), partial(_held, attribute_of(model, outer)))
    if owner is not None:
        return _at(name, quantity(owner, inner), partial(_holder, owner))
    if outer in _of_house():
        return _at(name, quantity(_of_house()[outer], inner), partial(_said_of_house, attribute_of(Project, outer)))
    raise NoQuantityError(_unknown(model, name))


def _referred(model: type[Record], name: str) -> Quantity | None:
    """Return what `name` stands for in the part that a field of `model` names; None where it is no such name."""
    inner, _, outer = name.removeprefix(ANY).rpartition(" of ")
    field = fields_by_key(model).get(outer)
    reference, many = reference_in(field.annotation) if field else (None, False)
    kinds = {record: found for record in _named_by(reference) if (found := _known(record, inner)) is not None}
    if not kinds or many != name.startswith(ANY):
        return None
    there = next(iter(kinds.values()))
    outside = (OUTSIDE,) if reference is not None and OUTSIDE in reference.kinds else ()
    attribute = attribute_of(model, outer)

    def one(house: House, record: Any, named: str) -> Any:
        part = house.project.by_id.get(named)
        if part is None:
            return OUTSIDE if there.kind is str else record.absent(f"{inner} of {named}")
        return kinds[type(part)].read(house, part) if type(part) in kinds else part.absent(inner)

    def read(house: House, record: Any) -> Any:
        named = getattr(record, attribute)
        if is_missing(named):
            return named
        return Many(one(house, record, each) for each in named) if many else one(house, record, named)

    return Quantity(name, there.kind, (*there.choices, *outside) if there.choices else (), read)


def _known(record: type[Record], name: str) -> Quantity | None:
    try:
        return quantity(record, name)
    except NoQuantityError:
        return None


def _named_by(reference: type[Reference] | None) -> list[type[Record]]:
    """Return the kinds of record that a reference may name."""
    return [kinds_of_part()[kind] for kind in (reference.kinds if reference else ()) if kind in kinds_of_part()]


def _at(name: str, there: Quantity, find: Reader) -> Quantity:
    """Return a quantity that is read of the record that `find` finds."""

    def read(house: House, record: Any) -> Any:
        found = find(house, record)
        return found if is_missing(found) else there.read(house, found)

    return Quantity(name, there.kind, there.choices, read)


def _held(attribute: str, _: House, record: Any) -> Any:
    return getattr(record, attribute)


def _holder(owner: type[Record], _: House, record: Any) -> Any:
    above = record.owner
    return above if isinstance(above, owner) else record.absent(owner.kind)


def _said_of_house(attribute: str, house: House, _: Any) -> Any:
    return getattr(house.project, attribute)


def _is_held(model: type[Record], key: str) -> bool:
    field = fields_by_key(model).get(key)
    _, record, many = held_in(field.annotation) if field else (None, None, False)
    return record is not None and not many


def _over_list(model: type[Record], name: str, word: str) -> Quantity:
    key = name.removeprefix(word)
    field = fields_by_key(model).get(key)
    kind, _, many = held_in(field.annotation) if field else (None, None, False)
    measured = kind is not None and issubclass(kind, Measure)
    if not many or (word != COUNTED and not measured):
        raise NoQuantityError(_unknown(model, name))
    attribute, fold = attribute_of(model, key), _OVER_LISTS[word]

    def read(_: House, record: Any) -> Any:
        items = getattr(record, attribute)
        unsaid = attribute not in record.model_fields_set or (word != COUNTED and not items)
        return record.absent(key) if unsaid else fold(items)

    return Quantity(name, int if word == COUNTED or kind is None else kind, (), read)


def _given(record: Record, attribute: str, name: str) -> Any:
    value = getattr(record, attribute)
    return record.absent(name) if value == "" and attribute not in record.model_fields_set else value


def _unknown(model: type[Record], name: str) -> str:
    known = list(names(model))
    what = f"{with_article(model.kind)} has no `{name}` that can be looked at"
    return f"{what}{nearest(name, known) or '; known: ' + ', '.join(known[:24])}"
