"""Lines that show the form of what is to add, as fields to fill: what the lines hold as examples is for a person to type.

An example is never taken for an answer: only what says of which part it is (its room, what it stands on, what it is) is known,
and ids are made here.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any, NamedTuple

from precheck.files.edit import Change
from precheck.files.missing import Need
from precheck.files.record import Record, fields_of
from precheck.files.source import Unusable, read_text
from precheck.project import Part, Project
from precheck.questions.answer import flow, in_quotes, record_type
from precheck.questions.by_hand import SPACE, lines_for
from precheck.questions.question import Question, Questions, Steps, plain_key

KNOWN = ("what", "where", "role", "source", "of", "line", "stair", "serves outdoors")
"""Keys whose example says what the part is, which the request names."""
_DIGITS = re.compile(r"\d*$")


class NewPart(NamedTuple):
    """One part to add, or values to add to one that is there: where it goes, what is known of it, what is to be typed."""

    path: Steps
    label: str
    known: tuple[tuple[str, str], ...]
    fields: tuple[Question, ...]

    @property
    def is_new(self) -> bool:
        """Whether a part is added, and not values to one that is there."""
        return bool(self.path) and isinstance(self.path[-1], int)


def parts_by_example(questions: Questions, need: Need, lines: Sequence[str]) -> tuple[NewPart, ...]:
    """Return what `lines` would add, as fields; nothing where they hold what no field can take."""
    owner = questions.owner(need)
    within = bool(lines) and lines[0].startswith(" ")
    try:
        block = read_text(textwrap.dedent("\n".join(lines)) + "\n", "")
        return tuple(_parts(_Reading(questions, need, owner, block, within)))
    except (Unusable, _NoField):
        return ()


class _NoField(Exception):
    """A value of an example that no single field can take."""


class _Reading(NamedTuple):
    questions: Questions
    need: Need
    owner: Record | None
    block: Mapping[str, Any]
    within: bool

    @property
    def project(self) -> Project:
        return self.questions.project


def _parts(reading: _Reading) -> Iterator[NewPart]:
    model = type(reading.owner) if reading.within and reading.owner is not None else Project
    base: Steps = reading.questions.path_of(reading.owner) if reading.within and reading.owner is not None else ()
    ids = _new_ids(reading)
    plain = [key for key, value in reading.block.items() if not _holds_records(value)]
    if plain:
        yield NewPart(base, "", (), tuple(_field(reading, model, key) for key in plain))
    for key, value in reading.block.items():
        below = record_type(_kind(model, key))
        if key in plain or below is None:
            continue
        if isinstance(value, list):
            count = reading.questions.count((*base, key))
            for number, item in enumerate(value):
                path = (*base, key, count + number)
                yield _of_owner(reading, item, ids) or _new_part(reading, below, path, item, ids)
        else:
            yield NewPart((*base, key), key, (), tuple(_field(reading, below, inner) for inner in value))


def _holds_records(value: Any) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and any(isinstance(one, dict) for one in value))


def _new_ids(reading: _Reading) -> dict[str, str]:
    """Return the free id for each that the example makes up."""
    taken, found = set(reading.project.by_id), {}
    for value in reading.block.values():
        for item in value if isinstance(value, list) else ():
            made_up = item.get("id") if isinstance(item, dict) else None
            if made_up and "phase" in item:
                letters = _DIGITS.sub("", made_up)
                free = next(f"{letters}{n}" for n in range(1, len(taken) + 2) if f"{letters}{n}" not in taken)
                taken.add(free)
                found[made_up] = free
    return found


def _of_owner(reading: _Reading, item: Mapping[str, Any], ids: dict[str, str]) -> NewPart | None:
    """Return what the example writes at the part that lacks the value, which it names by its id and without a phase."""
    owner = reading.owner
    if not isinstance(owner, Part) or item.get("id") != owner.id or "phase" in item:
        return None
    told = ((key, _known(reading, key, value, ids)) for key, value in item.items() if key != "id")
    known = tuple((key, value) for key, value in told if value is not None)
    return NewPart(reading.questions.path_of(owner), owner.label, known, ())


def _new_part(
    reading: _Reading, model: type[Record], path: Steps, item: Mapping[str, Any], ids: dict[str, str]
) -> NewPart:
    known: list[tuple[str, str]] = []
    fields: list[Question] = []
    for key, value in item.items():
        told = _known(reading, key, value, ids)
        if told is not None:
            known.append((key, told))
        elif _holds_records(value):
            raise _NoField
        else:
            fields.append(_field(reading, model, key, value))
    label = str(getattr(model, "kind", path[-2]))
    return NewPart(path, label, tuple(known), tuple(fields))


def _known(reading: _Reading, key: str, value: Any, ids: dict[str, str]) -> str | None:
    """Return what is known without anyone typing it: an id, what the part is, that it belongs to the owner of the need."""
    if isinstance(value, list):
        if all(isinstance(one, dict) and set(one) == {"on"} and one["on"] in ids for one in value):
            stands = ", ".join("{on: " + ids[one["on"]] + "}" for one in value)
            return f"[{stands}]"
        named = [_known(reading, "", one, ids) if isinstance(one, str) else None for one in value]
        return f"[{', '.join(map(str, named))}]" if all(one is not None for one in named) else None
    if value in ids:
        return ids[value]
    own = reading.owner.id if isinstance(reading.owner, Part) else None
    return in_quotes(str(value)) if key in KNOWN or value in (own, "outside") else None


def _field(reading: _Reading, model: type[Record], key: str, value: Any = None) -> Question:
    """Return the field for `key`; records that the example writes as text, such as layers, are typed with commas between."""
    kind = _kind(model, key)
    found = reading.questions.of_key(reading.need, model, key)
    if record_type(kind) is None:
        return found
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise _NoField
    return replace(found, form="one or more, with commas between", example=", ".join(value), several=True)


def form_by_example(questions: Questions, need: Need) -> tuple[NewPart, ...]:
    """Return the fields that meet a need which no single answer meets, by the lines that show its form; nothing without any."""
    owner = questions.owner(need)
    _, lines = lines_for(need, owner.id if isinstance(owner, Part) else SPACE, plain_key(need.key))
    return parts_by_example(questions, need, lines) if lines else ()


def _kind(model: type[Record], key: str) -> Any:
    found = next((field for field in fields_of(model).values() if field.key == key), None)
    if found is None:
        raise _NoField
    return found.annotation


def changes_by_example(parts: Sequence[NewPart], values: Mapping[str, str], full: Any) -> list[Change]:
    """Return the changes that the typed `values` make; their names are the number of the part and the key: ``0/width``.

    `full` returns a typed value as the file takes it. A part of which nothing is typed is not added. Raises ValueError
    where nothing is typed at all, or a part is given that nobody said to be existing or new.
    """
    changes: list[Change] = []
    for number, part in enumerate(parts):
        typed = {
            field.label: field.spelled(full(field, value))
            for field in part.fields
            if (value := values.get(f"{number}/{field.label}", "").strip())
        }
        if not typed:
            continue
        if not part.is_new:
            changes += [Change((*part.path, key), value) for key, value in typed.items()]
            continue
        if any(field.label == "phase" for field in part.fields) and "phase" not in typed:
            raise ValueError(f"say of the {part.label} whether it is existing, new, altered or removed")
        known = [f"{key}: {value}" for key, value in part.known]
        changes.append(
            Change(part.path, "{" + ", ".join([*known, *(f"{k}: {flow(v)}" for k, v in typed.items())]) + "}")
        )
    if not changes:
        raise ValueError("nothing is typed yet")
    told = (Change((*part.path, key), value) for part in parts if not part.is_new for key, value in part.known)
    return [*changes, *told]


__all__ = ["NewPart", "changes_by_example", "form_by_example", "parts_by_example"]
