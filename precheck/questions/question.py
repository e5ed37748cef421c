"""What a project lacks, as questions a person can answer: which field it is, what an answer looks like, where it goes.

A need names a record and a key. The key is a field of the record, a field of a record below it (``ceiling height``,
``flood hazard area (of the lot)``), a part to add (``light`` of a room) or to choose (the required egress door), or
something that no single answer can give, which a person adds by hand.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property
from typing import Any

from precheck.files.edit import Change
from precheck.files.missing import Need
from precheck.files.record import Record, fields_of, key_of
from precheck.files.source import Place
from precheck.immutable import fixed
from precheck.project import Part, Project
from precheck.questions.addition import Choice, addition_for, choices_for, free_id
from precheck.questions.answer import (
    FORMS,
    as_list,
    example_of,
    form_by_schema,
    form_of,
    in_quotes,
    is_list,
    is_several,
    record_type,
)

ASKED_AT_ONCE = 5  # values of a new record; what it then still lacks is asked for when a check wants it
RULESET, CLIMATE = (
    "the jurisdiction's ruleset",
    "climate zone",
)  # which the title sheet may state in the ruleset's place
_SPOKEN = {"carried load": "carries of framing"}  # what a need calls a field whose own name does not say it
_NOT_ASKED = ("note", "sheets", "drawn_from")  # of a new part: what no check wants
Steps = tuple[str | int, ...]


@fixed
class Question:
    """One value to ask for. `path` is where it goes in the file; `fields` are asked in turn where it is a record."""

    need: Need
    label: str
    path: Steps
    line: int
    form: str
    example: str
    choices: tuple[str, ...] = ()
    fields: tuple[Question, ...] = ()
    required: bool = False
    known: tuple[tuple[str, str], ...] = ()  # of a part to add: what the need says of it
    parts: tuple[Choice, ...] = ()  # one of which is the answer
    several: bool = False  # values, with commas between

    def answered(self, answer: str) -> Change:
        """Return what `answer` changes in the file. Raises ValueError where it is none of the choices."""
        if not self.parts:
            return Change(self.path, self.spelled(answer))
        found = next((choice for choice in self.parts if choice.name == answer), None)
        if found is None:
            raise ValueError(f"`{answer}` is none of {', '.join(self.choices)}")
        return Change(found.path, found.value)

    def spelled(self, answer: str) -> str:
        """Return `answer` as the file holds it."""
        return as_list(answer) if self.several else answer

    def refused(self, answer: str) -> str:
        """Return why `answer` cannot be, where that is plain before the file is read with it."""
        chosen = self.choices and not self.several and self.form != "yes or no"
        return f"`{answer}` is none of {', '.join(self.choices)}" if chosen and answer not in self.choices else ""


@fixed
class Questions:
    """What can be asked of one project: its records, and where each stands in its file."""

    project: Project

    @cached_property
    def _paths(self) -> dict[tuple[str, Place], tuple[Record, Steps]]:
        return {(record.label, record.place): (record, path) for record, path in _walk(self.project, ())}

    @cached_property
    def _by_label(self) -> dict[str, tuple[Record, Steps]]:
        return {label: found for (label, _), found in reversed(self._paths.items())}

    def question(self, need: Need) -> Question | None:
        """Return the question for `need`, or None where no single value of the file can meet it."""
        owner = self._owner(need)
        if owner is None:
            return None
        record, path = owner
        key = f"{CLIMATE} of design criteria" if need.owner == RULESET else plain_key(need.key)
        key = _SPOKEN.get(key, key)
        if added := next((f for f in self.project.added_fields(record.kind) if f.key == key), None):
            form, example, choices = form_by_schema(added.schema)
            return Question(need, key, (*path, key), record.place.line, form, added.example or example, choices)
        if found := self._chosen(need, record, key) or self._added(need, record, key):
            return found
        for keys in _ways(type(record), key):
            return self._ask(need, type(record), path, keys, record.place.line)
        return None

    def owner(self, need: Need) -> Record | None:
        """Return the record that lacks the value of `need`, down to a nested one that the key names."""
        found = self._owner(need)
        if found is None:
            return None
        record, key = found[0], plain_key(need.key)
        below = next((keys[0] for keys in _ways(type(record), key) if len(keys) > 1), None)
        nested = getattr(record, below.replace(" ", "_"), None) if below else None
        return nested if isinstance(nested, Record) else record

    def path_of(self, record: Record) -> Steps:
        """Return where `record` stands in the file."""
        return self._paths[record.label, record.place][1]

    def count(self, path: Steps) -> int:
        """Return how many items the list at `path` has in the file."""
        return len(self._listed(path))

    def of_key(self, need: Need, model: type[Record], key: str) -> Question:
        """Return the question for one plain value of a part of type `model` that is to be added."""
        return self._of_field(need, model, (), key, 1, depth=1)

    def _owner(self, need: Need) -> tuple[Record, Steps] | None:
        if need.place is not None and (found := self._paths.get((need.owner, Place(*need.place)))):
            return found
        if need.owner in ("the project", "") or (need.owner == RULESET and CLIMATE in need.key):
            return self.project, ()
        return self._by_label.get(need.owner)

    def _chosen(self, need: Need, record: Record, key: str) -> Question | None:
        parts = tuple(choices_for(self.project, record, key))
        if not parts:
            return None
        names = tuple(part.name for part in parts)
        return Question(
            need, key, parts[0].path, record.place.line, "one of them by its id", names[0], names, parts=parts
        )

    def _added(self, need: Need, record: Record, key: str) -> Question | None:
        found = addition_for(record.kind, key)
        model = None if found is None else record_type(_field(Project, found[0].section).annotation)
        if found is None or model is None:
            return None
        addition, named = found
        owner = record.id if isinstance(record, Part) else ""
        told = {key: value.replace("{0}", named[0] if named else "") for key, value in addition.known.items()}
        known = {"id": free_id(self.project, addition.letters), **told}
        phase, *rest = (
            self._of_field(need, model, (), key, record.place.line, 1) for key in ("phase", *addition.asked)
        )
        fields = (replace(phase, required=True), *rest)  # without it the part is not added
        path: Steps = (addition.section, len(self._listed((addition.section,))))
        written = tuple((key, _in_flow(value, owner)) for key, value in known.items())
        return Question(need, addition.section, path, record.place.line, "a new part", "", (), fields, known=written)

    def _ask(self, need: Need, model: type[Record], path: Steps, keys: tuple[str, ...], line: int) -> Question:
        for key in keys[:-1]:
            below = record_type(_field(model, key).annotation)
            assert below is not None
            model, path = below, (*path, key)
        return self._of_field(need, model, path, keys[-1], line)

    def _of_field(self, need: Need, model: type[Record], path: Steps, key: str, line: int, depth: int = 0) -> Question:
        field = _field(model, key)
        kind = field.annotation
        below = record_type(kind)
        here: Steps = (*path, key)
        if below is not None and is_list(kind):
            count = len(self._listed(here))
            here = (*here, count)
        fields = tuple(self._below(need, below, line)) if below is not None and depth == 0 else ()
        form, example, choices = form_of(kind, self.project)
        example = example_of(kind, key, example)
        form = "a tag that no other part has" if key == "id" else FORMS.get(key, form)
        return Question(need, key, here, line, form, example, choices, fields, field.required, several=is_several(kind))

    def _below(self, need: Need, model: type[Record], line: int) -> Iterator[Question]:
        plain = [(name, field) for name, field in fields_of(model).items()
                 if record_type(field.annotation) is None and name not in _NOT_ASKED]  # fmt: skip
        for number, (name, field) in enumerate(sorted(plain, key=lambda item: not item[1].required)):
            if field.required or number < ASKED_AT_ONCE:
                yield self._of_field(need, model, (), key_of(model, name), line, depth=1)

    def _listed(self, path: Steps) -> Any:
        node: Any = self.project.block
        for step in path:
            if isinstance(node, list):
                node = next((item for at, item in enumerate(node) if step in (at, _id_of(item))), ())
            else:
                node = node.get(step, ()) if isinstance(node, dict) else ()
        return node or ()


def _id_of(item: Any) -> Any:
    return item.get("id") if isinstance(item, dict) else None


def _in_flow(value: str, owner: str) -> str:
    """Return a value that a need tells, with the id of its `owner`, as it stands within `{...}`."""
    if not value.startswith("["):
        return in_quotes(value.replace("{id}", owner))
    return f"[{', '.join(in_quotes(one.strip().replace('{id}', owner)) for one in value[1:-1].split(','))}]"


def _walk(record: Record, path: Steps) -> Iterator[tuple[Record, Steps]]:
    yield record, path
    for name in fields_of(type(record)):
        value, key = getattr(record, name), key_of(type(record), name)
        if isinstance(value, Record):
            yield from _walk(value, (*path, key))
        elif isinstance(value, tuple):
            for index, item in enumerate(value):
                if isinstance(item, Record):
                    yield from _walk(item, (*path, key, item.id if isinstance(item, Part) else index))


def plain_key(key: str) -> str:
    """Return the key without the marks that tell it: ```opens without key: yes or no``` is ``opens without key``."""
    of = re.search(r"\(of (?:the |its )?([^)]*)\)", key)
    bare = re.sub(r"\s*\([^)]*\)", "", key).strip(" `").partition(":")[0].strip(" `")
    return f"{bare} of {of[1]}" if of else bare


def _ways(model: type[Record], key: str) -> Iterator[tuple[str, ...]]:
    """Yield the ways in which `key` may name a field of `model` or of a record below it."""
    fields = {field.key: field for field in fields_of(model).values()}
    if key in fields:
        yield (key,)
    for name, field in fields.items():
        if is_list(field.annotation) and _names_one(model, name, key):
            yield (name,)
    for name, field in fields.items():
        below = record_type(field.annotation)
        if below is None or is_list(field.annotation):
            continue
        inner = {field.key for field in fields_of(below).values()}
        for told in (
            key.removeprefix(f"{name} "),
            key.removesuffix(f" of {name}"),
            key.removesuffix(f" of the {name}"),
        ):
            if told != key and told in inner:
                yield name, told


def _names_one(model: type[Record], name: str, key: str) -> bool:
    """Return whether `key` asks for one more of the list `name`: ``smoke alarms``, ``landing or floor at the top``."""
    if key.endswith(f" {name}") or key == f"list of {name}":
        return True
    # The lists of the project itself are its parts: a need that names one, such as a door, may be about one that is there.
    return not issubclass(model, Project) and f" {name.removesuffix('s')} " in f" {key} "


def _field(model: type[Record], key: str) -> Any:
    return next(field for field in fields_of(model).values() if field.key == key)
