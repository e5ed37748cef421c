"""``precheck schema``: the JSON Schema of project and ruleset files, for editors that complete while typing."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaWarningKind

from precheck.cli.setup import apart, load_plugins, write
from precheck.files.record import Record
from precheck.project import AddedField, Project, Section
from precheck.project.project import lists_of_parts
from precheck.rulesets import Adoption, TopicFile
from precheck.rulesets.quantity import names_of_house
from precheck.rulesets.vocabulary import Vocabulary

KINDS: dict[str, type[Record]] = {"project": Project, "adoption": Adoption, "topic": TopicFile}


@click.command(epilog="Example: precheck schema project --output project.schema.json")
@click.argument("kind", type=click.Choice(tuple(KINDS)))
@click.option("--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the schema to this file.")
def command(kind: str, output: Path | None) -> None:
    """Print the JSON Schema of a KIND of file: a project, an adoption, or a topic of an edition."""
    apart(output, [])
    write([json.dumps(schema_of(kind, load_plugins().added), indent=2) + "\n"], output)


class _Quietly(GenerateJsonSchema):
    """Leaves the defaults that stand for `not given` out of a schema, without a word."""

    ignored_warning_kinds: set[JsonSchemaWarningKind] = {"non-serializable-default", "skipped-choice"}  # noqa: RUF012  # as pydantic declares it


def schema_of(kind: str, added: Iterable[Section | AddedField] = ()) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of files of `kind`, with what plugins add to projects."""
    schema = KINDS[kind].model_json_schema(by_alias=True, schema_generator=_Quietly)
    if kind == "adoption":
        _complete_checks(schema["$defs"], Vocabulary(added))
    if kind == "project":
        for one in added:
            _add(one, schema)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": f"precheck {kind} file", **schema}


def _add(one: Section | AddedField, schema: dict[str, Any]) -> None:
    """Put a section into the schema of a project, or a field into that of its kind of part."""
    if isinstance(one, Section):
        schema["properties"][one.key] = one.schema
    else:
        model = lists_of_parts()[one.part].model
        schema["$defs"][model.__name__]["properties"][one.key] = one.schema


def _complete_checks(definitions: dict[str, Any], words: Vocabulary) -> None:
    """Let an editor complete what an added requirement looks at: the kinds of part, and for each what it can measure."""
    kinds = words.parts
    of_house = frozenset(names_of_house())
    definitions["OfTheHouse"] = {"enum": sorted(of_house)}
    check = definitions["CheckBlock"]
    check["properties"]["part"]["enum"] = list(kinds)
    check["allOf"] = [_of_kind(kind, sorted({*words.names(model)} - of_house)) for kind, model in kinds.items()]


def _of_kind(kind: str, own: list[str]) -> dict[str, Any]:
    known = {"anyOf": [{"enum": own}, {"$ref": "#/$defs/OfTheHouse"}]}
    then = {"properties": {"measure": known, "when": {"propertyNames": known}}}
    return {"if": {"properties": {"part": {"const": kind}}}, "then": then}
