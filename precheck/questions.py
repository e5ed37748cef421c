"""What a project lacks, as questions a person can answer: which field it is, what an answer looks like, where it goes.

A need names a record and a key. The key is a field of the record, a field of a record below it (``ceiling height``,
``flood hazard area (of the lot)``), or something that no single value can give, which a person adds by hand.
"""

from __future__ import annotations

import re
import types
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from precheck.missing import Missing, Need
from precheck.project import OUTSIDE, Project, WidthHeight
from precheck.record import Record, Reference, key_of
from precheck.source import Place
from precheck.units import Measure

ASKED_AT_ONCE = 5  # values of a new record; what it then still lacks is asked for when a check wants it
EXAMPLES = {
    "id": "N1",
    "net clear opening": "24 in x 36 in",
    "unit size": "3'-0\" x 4'-0\"",
    "sill height": "40 in",
    "sill above grade": "36 in",
    "headroom": "6'-10\"",
    "height": "7'-6\"",
    "tread": "10 in",
    "rise": "8'-9\"",
    "total rise": "8'-9\"",
    "width": "36 in",
    "least width": "9'-6\"",
    "depth": "36 in",
    "middle": "[6 ft, 0 ft]",
    "threshold height": "1/2 in",
    "finished level": "0 in",
    "base level": "-8 in",
    "slope": "1/4 in per ft",
    "permits": "[building, electrical]",
}
"""Answers that look like the thing asked for; what is not here gets the example of its kind of measure."""

RULESET, CLIMATE = (
    "the jurisdiction's ruleset",
    "climate zone",
)  # which the title sheet may state in the ruleset's place
Steps = tuple[str | int, ...]


@dataclass(frozen=True)
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


@dataclass(frozen=True)
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
        key = f"{CLIMATE} of design criteria" if need.owner == RULESET else _plain(need.key)
        for keys in _ways(type(record), key):
            return self._ask(need, type(record), path, keys, record.place.line)
        return None

    def owner(self, need: Need) -> Record | None:
        """Return the record that lacks the value of `need`, down to a nested one that the key names."""
        found = self._owner(need)
        if found is None:
            return None
        record, key = found[0], _plain(need.key)
        below = next((keys[0] for keys in _ways(type(record), key) if len(keys) > 1), None)
        nested = getattr(record, below.replace(" ", "_"), None) if below else None
        return nested if isinstance(nested, Record) else record

    def _owner(self, need: Need) -> tuple[Record, Steps] | None:
        if need.place is not None and (found := self._paths.get((need.owner, Place(*need.place)))):
            return found
        if need.owner in ("the project", "") or (need.owner == RULESET and CLIMATE in need.key):
            return self.project, ()
        return self._by_label.get(need.owner)

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
        if below is not None and _is_list(kind):
            count = len(self._listed(here))
            here = (*here, count)
        fields = tuple(self._below(need, below, line)) if below is not None and depth == 0 else ()
        form, example, choices = _form(kind, self.project)
        example = EXAMPLES.get(key, example)
        form = "a short name of your own, unlike every other" if key == "id" else form
        return Question(need, key, here, line, form, example, choices, fields, field.is_required())

    def _below(self, need: Need, model: type[Record], line: int) -> Iterator[Question]:
        plain = [(name, field) for name, field in model.model_fields.items()
                 if record_type(field.annotation) is None and name not in ("note", "sheets")]  # fmt: skip
        for number, (name, field) in enumerate(sorted(plain, key=lambda item: not item[1].is_required())):
            if field.is_required() or number < ASKED_AT_ONCE:
                yield self._of_field(need, model, (), key_of(model, name), line, depth=1)

    def _listed(self, path: Steps) -> Any:
        node: Any = self.project.block
        for step in path:
            if isinstance(node, list) and isinstance(step, int):
                node = node[step] if step < len(node) else ()
            else:
                node = node.get(step, ()) if isinstance(node, dict) else ()
        return node or ()


def _walk(record: Record, path: Steps) -> Iterator[tuple[Record, Steps]]:
    yield record, path
    for name in type(record).model_fields:
        value, key = getattr(record, name), key_of(type(record), name)
        if isinstance(value, Record):
            yield from _walk(value, (*path, key))
        elif isinstance(value, tuple):
            for index, item in enumerate(value):
                if isinstance(item, Record):
                    yield from _walk(item, (*path, key, index))


def _plain(key: str) -> str:
    """Return the key without the marks that tell it: ```opens without key: yes or no``` is ``opens without key``."""
    told = key.strip("`").partition(":")[0]
    of = re.search(r"\(of (?:the |its )?([^)]*)\)", told)
    bare = re.sub(r"\s*\([^)]*\)", "", told).strip(" `")
    return f"{bare} of {of[1]}" if of else bare


def _ways(model: type[Record], key: str) -> Iterator[tuple[str, ...]]:
    """Yield the ways in which `key` may name a field of `model` or of a record below it."""
    fields = {field.alias or name: field for name, field in model.model_fields.items()}
    if key in fields:
        yield (key,)
    for name, field in fields.items():
        if _is_list(field.annotation) and _names_one(model, name, key):
            yield (name,)
    for name, field in fields.items():
        below = record_type(field.annotation)
        if below is None or _is_list(field.annotation):
            continue
        inner = {f.alias or n for n, f in below.model_fields.items()}
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
    return next(field for name, field in model.model_fields.items() if (field.alias or name) == key)


def _kinds(annotation: Any) -> Iterator[Any]:
    """Yield the plain types that `annotation` stands for, through Annotated, unions and Maybe."""
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _kinds(get_args(annotation)[0])
    elif origin in (Union, types.UnionType):
        for one in get_args(annotation):
            yield from _kinds(one)
    elif annotation not in (Missing, type(None)):
        yield annotation


def _is_list(annotation: Any) -> bool:
    return any(get_origin(kind) is tuple and get_args(kind)[-1] is Ellipsis for kind in _kinds(annotation))


def record_type(annotation: Any) -> type[Record] | None:
    """Return the record that a field holds, one or a list of them, or None for a plain value."""
    for kind in _kinds(annotation):
        inner = get_args(kind)[0] if get_origin(kind) is tuple else kind
        inner = next(_kinds(inner), inner)
        if isinstance(inner, type) and issubclass(inner, Record):
            return inner
    return None


def _form(annotation: Any, project: Project) -> tuple[str, str, tuple[str, ...]]:
    """Return what an answer is, an example of it, and the choices where there are only some."""
    kinds = list(_kinds(annotation))
    kind = kinds[0] if kinds else str
    if record_type(annotation):
        return "several values, asked for one by one", "", ()
    if get_origin(kind) is tuple:
        form, example, choices = _form(get_args(kind)[0], project)
        many = get_args(kind)[-1] is Ellipsis
        count = 2 if many else len(get_args(kind))
        listed = f"[{', '.join([example] * count)}]" if example else ""
        return f"a list of {'any number' if many else count}, each {form}", listed, choices
    if get_origin(kind) is Literal:
        choices = tuple(str(one) for one in get_args(kind))
        return "one of the choices", choices[0], choices
    return _plain_form(kind, project)


def _plain_form(kind: Any, project: Project) -> tuple[str, str, tuple[str, ...]]:
    if not isinstance(kind, type):
        return "text", "", ()
    if issubclass(kind, Reference):
        known = tuple(part.id for part in project.parts if part.kind in kind.kinds)
        choices = (*known, *((OUTSIDE,) if OUTSIDE in kind.kinds else ()))
        return f"the id of a {' or '.join(kind.kinds)}", choices[0] if choices else "", choices
    for plain, form, example in _FORMS:
        if issubclass(kind, plain):
            return form, example, ("yes", "no") if plain is bool else ()
    if issubclass(kind, Measure):
        return f"{kind.a()} with its unit", kind.example, ()
    return "text", "", ()


_FORMS: tuple[tuple[type, str, str], ...] = (
    (bool, "yes or no", "yes"),
    (int, "a whole number", "2"),
    (WidthHeight, "width x height", "3'-0\" x 6'-8\""),
    (date, "year-month-day", "2026-03-02"),
)
