"""Checking an added section against its JSON Schema, with every problem at its line and in the words of the file.

The file's scalars are text; the schema says which of them are numbers or answers of yes and no. ``format`` may name a
dimension (``length``, ``slope``, ``area``, ...), and then the value is written with its unit as everywhere in the file; or a
kind of part (``id of window``, ``id of wall or door``), and then the value is the id of one that the file has. ``between``
names the lowest and the highest measure that any job has, such as ``[1 in, 3 ft]``.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from typing import Any

from precheck.files.mistakes import nearest, with_article
from precheck.files.source import Block, Items, Place, Problem
from precheck.project.between import Between
from precheck.project.part import Part
from precheck.project.references import wrong_reference
from precheck.project.section import ANSWERS, Section
from precheck.units import Measure, NotationError
from precheck.units.kinds import KINDS

FORMATS: dict[str, type[Measure]] = {dimension.replace(" ", "-"): kind for dimension, kind in KINDS.items()}
ID_OF = "id of "
_NUMBER = re.compile(r"-?[0-9]{1,40}(\.[0-9]{1,40})?")  # of more digits than any text of a person has


def problems_of(section: Section, block: Block) -> Iterator[Problem]:
    """Yield what is wrong with the value of `section` in the project file `block`, each at its line."""
    from jsonschema import Draft202012Validator, FormatChecker, SchemaError
    from jsonschema.validators import extend

    try:
        Draft202012Validator.check_schema(section.schema)
    except SchemaError as error:
        yield Problem(block.place_of(section.key), f"the plugin's schema of `{section.key}` is wrong: {error.message}")
        return
    checker = FormatChecker(())
    for name, kind in FORMATS.items():
        checker.checks(name, raises=NotationError)(partial(_is_measure, kind))
    validator = extend(Draft202012Validator, {"between": _outside})(section.schema, format_checker=checker)
    for found in validator.iter_errors(_typed(block[section.key], section.schema, section.schema)):
        for step, what in _told(section, found):
            yield Problem(_place(block, section.key, [*found.absolute_path, *step]), what)


def problems_of_ids_in(section: Section, block: Block, by_id: Mapping[str, Part]) -> Iterator[Problem]:
    """Yield the ids in the value of `section` that name no part, or one of another kind."""
    for path, written, kinds in _ids(block[section.key], section.schema, section.schema, []):
        if told := wrong_reference(by_id, written, kinds):
            yield Problem(_place(block, section.key, path), told)


def _ids(
    value: Any, schema: Any, root: Mapping[str, Any], path: list[Any]
) -> Iterator[tuple[list[Any], str, list[str]]]:
    """Yield every id in `value`, with its path and the kinds of part that it may name."""
    schema = resolved(schema, root)
    below = schema.get("properties", {})
    steps = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, item in steps:
        of = (
            below.get(step, schema.get("additionalProperties", {}))
            if isinstance(value, dict)
            else schema.get("items", {})
        )
        yield from _ids(item, of, root, [*path, step])
    named = str(schema.get("format", ""))
    if isinstance(value, str) and named.startswith(ID_OF):
        yield path, value, named.removeprefix(ID_OF).split(" or ")


def _is_measure(kind: type[Measure], value: Any) -> bool:
    return not isinstance(value, str) or kind.parse(value) is not None


def _outside(validator: Any, between: Any, value: Any, schema: Any) -> Iterator[Any]:
    """Yield that a measure of the ``format`` lies outside of ``between``; what is no such measure is told by its format."""
    from jsonschema import ValidationError

    kind = FORMATS.get(schema.get("format", ""))
    if kind is None or not isinstance(value, str):
        return
    try:
        low, high = (kind.parse(str(bound)).text or "" for bound in between)
    except (ValueError, TypeError) as error:
        yield ValidationError(f"the plugin's `between` is wrong: {error}")
        return
    try:
        Between(low, high).held(kind.parse(value))
    except NotationError:
        return
    except ValueError as error:
        yield ValidationError(str(error))


def _typed(value: Any, schema: Any, root: Mapping[str, Any]) -> Any:
    """Return `value` with the scalars as numbers or answers where the schema asks for these."""
    schema = resolved(schema, root)
    if isinstance(value, dict):
        below = schema.get("properties", {})
        rest = schema.get("additionalProperties", {})
        given = ((key, item) for key, item in value.items() if item is not None)  # an empty line gives nothing
        return {key: _typed(item, below.get(key, rest), root) for key, item in given}
    if isinstance(value, list):
        return [_typed(item, schema.get("items", {}), root) for item in value]
    return _scalar(value, schema.get("type", ()))


def resolved(schema: Any, root: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return `schema`, or what its reference within the `root` schema stands for."""
    found: Any = schema
    if isinstance(schema, Mapping) and str(schema.get("$ref", "")).startswith("#/"):
        found = root
        for step in schema["$ref"].removeprefix("#/").split("/"):
            found = found.get(step, {})
    return found if isinstance(found, Mapping) else {}


def _scalar(value: Any, kinds: Any) -> Any:
    wanted = [kinds] if isinstance(kinds, str) else list(kinds)
    if not isinstance(value, str) or "string" in wanted:
        return value
    if "boolean" in wanted and value.lower() in ANSWERS:
        return ANSWERS[value.lower()]
    if {"integer", "number"} & set(wanted) and _NUMBER.fullmatch(value):
        return float(value) if "." in value else int(value)
    return value


def _place(block: Block, key: str, path: list[Any]) -> Place:
    node: Any = block[key]
    place = block.place_of(key)
    for step in path:
        if isinstance(node, Block | Items):
            place = node.place_of(step)
            node = node[step]
    return place


Told = Iterable[tuple[list[str], str]]


def _told(section: Section, error: Any) -> Told:
    """Return what to say of an error, and the step below its path at which to say it."""
    key = next((str(step) for step in reversed(error.absolute_path) if isinstance(step, str)), section.key)
    explain = _EXPLAIN.get(error.validator)
    return explain(section, error, key) if explain else [([], f"{key}: {error.message}")]


def _unknown(section: Section, error: Any, key: str) -> Told:  # explanations share one signature
    known = list(error.schema.get("properties", {}))
    for name in error.instance:
        if name not in known:
            meant = nearest(name, known) or f"; write one of: {', '.join(known)}"
            yield [name], f"`{name}` is not a key of {with_article(section.entry)}{meant}"


def _wrong_type(section: Section, error: Any, key: str) -> Told:
    wanted = error.validator_value if isinstance(error.validator_value, list) else [error.validator_value]
    shown = f"`{error.instance}` does not belong here; " if isinstance(error.instance, str | int | float) else ""
    yield [], f"{key}: {shown}write {' or '.join(_TYPES.get(kind, str(kind)) for kind in wanted)}"


def _missing(section: Section, error: Any, key: str) -> Told:
    lacking = re.match(r"'(.*)' is a required property", error.message)
    name = str(lacking[1]) if lacking else str(error.message)
    yield [], f"`{name}` is not given; add a line `{name}: ...`"


def _format(section: Section, error: Any, key: str) -> Told:
    yield [], f"{key}: {error.cause or error.message}"


def _choice(section: Section, error: Any, key: str) -> Told:
    known = [str(choice) for choice in error.validator_value]
    near = nearest(str(error.instance), known)
    yield [], f"`{error.instance}` is not known as {key}{near} Write one of: {', '.join(known)}"


_EXPLAIN: dict[str, Callable[[Section, Any, str], Told]] = {
    "additionalProperties": _unknown,
    "type": _wrong_type,
    "required": _missing,
    "format": _format,
    "enum": _choice,
}
_TYPES = {"integer": "a whole number", "number": "a number", "boolean": "yes or no", "string": "plain text",
          "array": "a list, each item begun with `- `", "object": "a mapping of keys to values"}  # fmt: skip
