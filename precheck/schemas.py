"""The JSON Schemas of the files that people write, from the models that read them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from precheck.hooks import Section
from precheck.project import Project
from precheck.record import Record
from precheck.rulesets import Adoption, TopicFile

KINDS: dict[str, type[Record]] = {"project": Project, "adoption": Adoption, "edition": TopicFile}


def schema_of(kind: str, sections: Iterable[Section] = ()) -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of files of `kind`, with the `sections` that plugins add to projects."""
    schema = KINDS[kind].model_json_schema(by_alias=True)
    if kind == "project":
        schema["properties"].update({section.key: section.schema for section in sections})
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": f"precheck {kind} file", **schema}
