"""``precheck schema``: the JSON Schema of project and ruleset files, for editors that complete while typing."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from precheck.cli.schema_rulesets import complete_adoption, complete_topic
from precheck.cli.schema_texts import describe, editor_schema
from precheck.cli.setup import apart, library, load_plugins, write
from precheck.files.record import Record
from precheck.importers.mapping import Names
from precheck.project import AddedField, Project, Section
from precheck.project.project import lists_of_parts
from precheck.rules.plugins import Plugins
from precheck.rulesets import Adoption, Library, ModelCode, TopicFile

KINDS: dict[str, type[Record]] = {
    "project": Project, "adoption": Adoption, "topic": TopicFile, "editions": ModelCode, "mapping": Names,
}  # fmt: skip


@click.command(epilog="Example: precheck schema project --output project.schema.json")
@click.argument("kind", type=click.Choice(tuple(KINDS)))
@click.option("--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the schema to this file.")
def command(kind: str, output: Path | None) -> None:
    """Print the JSON Schema of a KIND of file: a project, an adoption, a topic of a model code, its editions, or a mapping.

    It is for editors that read YAML 1.2, in which yes and no are words.
    """
    apart(output, [])
    plugins = load_plugins()
    write([json.dumps(schema_of(kind, plugins, library(plugins, ())), indent=2) + "\n"], output)


def schema_of(kind: str, plugins: Plugins, rulesets: Library) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of files of `kind`, with what plugins and rulesets bring. Raises `Unusable`."""
    model = KINDS[kind]
    schema = editor_schema(model)
    describe(schema, model)
    if kind == "adoption":
        limits = {name for edition in rulesets.editions for name in rulesets.edition(edition).limits}
        complete_adoption(schema, rulesets.words, limits, (rule.name for rule in plugins.rules), rulesets.editions)
    if kind == "topic":
        complete_topic(schema, {label for code in rulesets.codes.values() for label in code.editions})
    if kind == "project":
        _add(plugins.added, schema)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": f"precheck {kind} file", **schema}


def _add(added: Iterable[Section | AddedField], schema: dict[str, Any]) -> None:
    """Put sections into the schema of a project, and fields into those of their kinds of part."""
    for one in added:
        if isinstance(one, Section):
            schema["properties"][one.key] = one.schema
        else:
            model = lists_of_parts()[one.part].model
            schema["$defs"][model.__name__]["properties"][one.key] = one.schema
