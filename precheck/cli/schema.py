"""``precheck schema``: the JSON Schema of project and ruleset files, for editors that complete while typing."""

from __future__ import annotations

import json
from pathlib import Path

import click

from precheck.cli.setup import load_plugins, write
from precheck.schemas import KINDS, schema_of


@click.command(epilog="Example: precheck schema project --output project.schema.json")
@click.argument("kind", type=click.Choice(tuple(KINDS)))
@click.option("--output", type=click.Path(dir_okay=False, path_type=Path), help="Write the schema to this file.")
def command(kind: str, output: Path | None) -> None:
    """Print the JSON Schema of a KIND of file: a project, an adoption, or a topic of an edition."""
    write([json.dumps(schema_of(kind, load_plugins().sections), indent=2) + "\n"], output)
