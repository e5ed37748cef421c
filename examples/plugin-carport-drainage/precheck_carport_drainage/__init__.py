"""Drains of carports, as one firm wants them: a section of the project file, rules about it, and their limits."""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

from precheck import Rule, Section, hookimpl, rules_in

HERE = Path(__file__).parent
KEY = "carport drains"


@hookimpl
def precheck_sections() -> Iterable[Section]:
    """Return the section that the plugin adds to the project file."""
    schema = json.loads((HERE / "section.json").read_text(encoding="utf-8"))
    return [Section(KEY, schema, called="carport drain")]


@hookimpl
def precheck_rules() -> Iterable[Rule]:
    """Return the rules."""
    from precheck_carport_drainage import rules

    return rules_in(rules)


@hookimpl
def precheck_rulesets() -> Iterable[Path]:
    """Return the folder that adds the topic to every edition."""
    return [HERE / "rulesets"]
