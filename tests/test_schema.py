"""The schemas that editors complete by: they take every file that ships, explain every key, and refuse slips of the pen."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import precheck_rulesets
import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from precheck.cli.schema import KINDS, schema_of
from precheck.cli.setup import library
from precheck.rules.plugins import load_plugins

ROOT = Path(__file__).parents[1]
RULESETS = Path(precheck_rulesets.__file__).parent
FILES = [
    *(("adoption", path) for path in sorted(RULESETS.glob("jurisdictions/*/*.yaml"))),
    *(("adoption", path) for path in sorted((ROOT / "tests" / "data").glob("juniper-flat*.yaml"))),
    *(("topic", path) for path in sorted(RULESETS.glob("codes/*/*.yaml")) if path.name != "editions.yaml"),
    *(("editions", path) for path in sorted(RULESETS.glob("codes/*/editions.yaml"))),
    *(("project", path) for path in sorted((ROOT / "examples").glob("*/*.yaml")) if "plugin" not in str(path)),
]


@cache
def validator(kind: str) -> Draft202012Validator:
    """Return a validator for files of a kind."""
    plugins = load_plugins()
    schema = schema_of(kind, plugins, library(plugins, ()))
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


def as_editors_read(text: str) -> Any:
    """Read YAML 1.2 as an editor does: yes and no are words, and so are days."""
    yaml = YAML(typ="safe", pure=True)
    yaml.version = (1, 2)
    return _plain(yaml.load(text))


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): _plain(item) for key, item in value.items()}
    if isinstance(value, list):
        return [_plain(item) for item in value]
    return value.isoformat() if isinstance(value, date) else value


def wrong(kind: str, text: str) -> list[str]:
    """Return what a schema refuses in a file."""
    return [error.message for error in validator(kind).iter_errors(as_editors_read(text))]


@pytest.mark.parametrize(("kind", "path"), FILES, ids=[f"{path.parent.name}/{path.name}" for _, path in FILES])
def test_every_file_that_ships_is_accepted(kind: str, path: Path) -> None:
    assert wrong(kind, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_is_explained(kind: str) -> None:
    schema = validator(kind).schema
    records = {"": schema, **schema.get("$defs", {})}
    keys = {f"{name} {key}": of for name, record in records.items() for key, of in record.get("properties", {}).items()}
    assert len(keys) > 8
    assert [key for key, of in keys.items() if not of.get("description", "").endswith(".")] == []


ADOPTION = """jurisdiction: Ash Village
adopts: irc-2021
in force: 2026-01-01
by: Ordinance 1
design criteria: {seismic design category: D0, frost depth: 36 in}
amendments:
  - amend: escape.sill.maximum
    was: 44 in
    to: 40 in
    by: Ordinance 1
cases:
  - {case: low, rule: escape.sill, given: {spaces: []}, expect: nothing}
"""
TOPIC = """topic: stairs
limits:
  stairs.width:
    minimum: {measures: width, sense: minimum, 2015: {value: 36 in, section: R311.7.1, memory: no source}}
takes:
  stairs.shown: {line: a stair, works: [stair], asked: first, value: [stair], section: R311}
"""


def test_a_good_file_of_each_kind_is_accepted() -> None:
    assert wrong("adoption", ADOPTION) == []
    assert wrong("topic", TOPIC.replace(", value: [stair]", "")) == []


@pytest.mark.parametrize(
    ("kind", "text", "slip"),
    [
        ("adoption", ADOPTION, ("amend: escape.sill.maximum", "amend: sill")),
        ("adoption", ADOPTION, ("amend: escape.sill.maximum", "ammend: escape.sill.maximum")),
        ("adoption", ADOPTION, ("amend: escape.sill.maximum", "delete: sektion R310")),
        ("adoption", ADOPTION, ("frost depth", "frost deph")),
        ("adoption", ADOPTION, ("expect: nothing", "expect: fails")),
        ("adoption", ADOPTION, ("in force: 2026-01-01\n", "")),
        ("adoption", ADOPTION, ("by: Ordinance 1\ndesign", "by: Ordinance 1\npartial: perhaps\ndesign")),
        ("topic", TOPIC, ("sense: minimum", "sense: least")),
        ("topic", TOPIC, ("measures: width", "means: width")),
        ("topic", TOPIC, ("2015: {value", "2017: {value")),
        ("topic", TOPIC, ("works: [stair]", "works: [stairs]")),
    ],
)
def test_a_slip_is_refused(kind: str, text: str, slip: tuple[str, str]) -> None:
    assert slip[0] in text
    assert wrong(kind, text.replace(*slip)) != []


def test_names_of_limits_are_completed_and_those_of_a_parent_are_taken() -> None:
    names = validator("adoption").schema["$defs"]["LimitName"]["anyOf"][0]["enum"]
    assert {"escape.sill.maximum", "stairs.riser-height.maximum", "framing.header-in-opening.works"} <= set(names)
    assert len(names) > 1000
    assert wrong("adoption", ADOPTION.replace("escape.sill.maximum", "storage-stair.width.minimum")) == []
