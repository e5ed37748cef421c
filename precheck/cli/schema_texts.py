"""How values may be written, and what an editor shows beside each key: the text under its field, else what the record says."""

from __future__ import annotations

import ast
import inspect
import re
from collections.abc import Iterable
from functools import cache
from textwrap import dedent
from typing import Any, get_args, get_origin

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue, JsonSchemaWarningKind
from pydantic_core import core_schema

from precheck.files.fields import Field, meant
from precheck.files.mistakes import record_in
from precheck.files.record import Record, fields_of, key_of
from precheck.files.values import schema_of

_SENTENCE = re.compile(r"(?<=[.:;])\s+")


class EditorSchema(GenerateJsonSchema):
    """Says of values how a person may write them in a file, whose words are text until they are read."""

    ignored_warning_kinds: set[JsonSchemaWarningKind] = {"non-serializable-default", "skipped-choice"}  # noqa: RUF012  # as pydantic declares it

    def bool_schema(self, schema: core_schema.BoolSchema) -> JsonSchemaValue:
        """Take yes and no, which are words in YAML 1.2, beside true and false."""
        return {"enum": ["yes", "no", True, False]}

    def str_schema(self, schema: core_schema.StringSchema) -> JsonSchemaValue:
        """Take a number where a text is wanted: an id of digits is one."""
        return {**super().str_schema(schema), "type": ["string", "number"]}

    def function_before_schema(self, schema: core_schema.BeforeValidatorFunctionSchema) -> JsonSchemaValue:
        """Take what a person may write in short, such as ``1/2 in gypsum`` for a layer; a count or a yes has one way."""
        inner = super().function_before_schema(schema)
        if schema["schema"]["type"] in ("int", "bool"):
            return inner
        as_text = {"type": ["string", "number"]}
        of_a_whole_record = schema["schema"]["type"] == "typed-dict" and "ref" not in schema["schema"]
        return inner if of_a_whole_record or inner.get("type") == as_text["type"] else {"anyOf": [inner, as_text]}

    def function_after_schema(self, schema: core_schema.AfterValidatorFunctionSchema) -> JsonSchemaValue:
        """Tell the range of what lies between two values."""
        inner, between = super().function_after_schema(schema), schema.get("metadata", {}).get("between")
        return inner if between is None else between.form(inner)

    def function_plain_schema(self, schema: core_schema.PlainValidatorFunctionSchema) -> JsonSchemaValue:
        """Take what a measure, or whatever else has its own reading, says of how it is written."""
        return dict(schema["metadata"]["form"])


def editor_schema(model: type[Record]) -> JsonSchemaValue:
    """Return the JSON Schema of mappings that are read as a `model`."""
    return EditorSchema(by_alias=True).generate(_shape(model))


@cache
def _within(model: type[Record]) -> core_schema.CoreSchema:
    named: Any = {**_shape(model), "ref": f"{model.__module__}.{model.__qualname__}:{id(model)}"}
    return named  # type: ignore[no-any-return]  # a schema, each of which may have a name


def _shape(model: type[Record]) -> core_schema.CoreSchema:
    """Return what a `model` is read by, with the defaults of its fields and each kind of record in it by its name."""
    fields = {name: core_schema.typed_dict_field(_with_default(schema_of(field.kind, _within), field),
                                                 required=field.required, validation_alias=field.key)
              for name, field in fields_of(model).items()}  # fmt: skip
    return meant(model, core_schema.typed_dict_schema(fields, cls=model, extra_behavior="forbid"))


def _with_default(schema: core_schema.CoreSchema, field: Field) -> core_schema.CoreSchema:
    if field.required or field.maybe or isinstance(field.default(), dict):
        return schema
    return core_schema.with_default_schema(schema, default=field.default())


def describe(schema: dict[str, Any], root: type[Record]) -> None:
    """Give every property of every record under `root` a description, where it has none of its own."""
    for model in _records(root):
        place = schema if model is root else schema.get("$defs", {}).get(model.__name__)
        for field in fields_of(model) if place is not None else ():
            of = place["properties"].get(key_of(model, field))
            if of is not None and not of.get("description"):
                of["description"] = text_of(model, field, of)


def text_of(model: type[Record], field: str, schema: dict[str, Any]) -> str:
    """Return what `field` of `model` holds, in a sentence."""
    return _under(model).get(field) or _said_of(model, field) or _plain(model, field, schema)


@cache
def _records(root: type[Record]) -> tuple[type[Record], ...]:
    found: dict[type[Record], None] = {}
    waiting = [root]
    while waiting:
        model = waiting.pop()
        if model not in found:
            found[model] = None
            waiting.extend(one for field in fields_of(model).values() if (one := _held(field.annotation)) is not None)
    return tuple(found)


def _held(annotation: Any) -> type[Record] | None:
    """Return the kind of record that a field holds: one, a list of them, or some by their names."""
    inside = get_args(annotation)[1] if get_origin(annotation) is dict else annotation
    found = record_in(inside)
    return found if found is not None and issubclass(found, Record) else None


@cache
def _under(model: type[Record]) -> dict[str, str]:
    """Return the texts that stand under fields, by field: those of `model` before those of what it inherits from."""
    found: dict[str, str] = {}
    for one in reversed([base for base in model.__mro__ if issubclass(base, Record)]):
        found |= _own_texts(one)
    return found


@cache
def _own_texts(model: type[Record]) -> dict[str, str]:
    (body,) = ast.parse(dedent(inspect.getsource(model))).body
    assert isinstance(body, ast.ClassDef)
    texts: dict[str, str] = {}
    for this, following in zip(body.body, body.body[1:], strict=False):
        is_text = isinstance(following, ast.Expr) and isinstance(following.value, ast.Constant)
        if isinstance(this, ast.AnnAssign) and isinstance(this.target, ast.Name) and is_text:
            texts[this.target.id] = " ".join(str(following.value.value).split())  # type: ignore[attr-defined]  # a constant
    return texts


def _said_of(model: type[Record], field: str) -> str:
    """Return the sentences of the texts of `model`, and of what it inherits from, that name `field`."""
    named = f"`{field.strip('_').replace('_', ' ')}`"
    for one in model.__mro__:
        sentences: Iterable[str] = _SENTENCE.split(" ".join((one.__doc__ or "").split()))
        if told := " ".join(sentence for sentence in sentences if named in sentence or f"`{field}`" in sentence):
            return f"{told[:1].upper()}{told[1:].rstrip('.:;')}."
    return ""


def _plain(model: type[Record], field: str, schema: dict[str, Any]) -> str:
    held = _held(fields_of(model)[field].annotation)
    if held is not None:
        return " ".join((held.__doc__ or held.kind).partition("\n\n")[0].split())
    return f"{model.kind[:1].upper()}{model.kind[1:]}: {key_of(model, field)}{_form(schema)}."


def _form(schema: dict[str, Any]) -> str:
    ways = [schema, *schema.get("anyOf", ())]
    if any({"yes", "no"} <= set(way.get("enum", ())) for way in ways):
        return ", yes or no"
    example = next((way["examples"][0] for way in ways if way.get("examples")), None)
    return f", such as {example}" if example else ""
