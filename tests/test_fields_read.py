"""What a project file may say is read by something: each field of its records, by a rule, a fact, a report or a drawing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from typing import get_origin

from precheck import project
from precheck.files.fields import Field
from precheck.files.mistakes import record_in
from precheck.files.record import Record, fields_of

ROOT = Path(__file__).parents[1]
NEVER_READ = {
    ("Lot", "paved_front_yard"): "for requirements of a place, which name it in their ruleset",
    ("Lot", "septic_bedrooms"): "likewise",
    ("ParkingStall", "in_front_yard"): "likewise",
    ("SmallWork", "for_vehicles"): "likewise",
}
"""Fields that nothing built in reads, with the reason."""


def records(kind: type[Record] = Record) -> Iterator[type[Record]]:
    """Yield the records of the project model, each once or more."""
    for module in iter_modules(project.__path__):
        import_module(f"{project.__name__}.{module.name}")
    for below in kind.__subclasses__():
        yield from (below, *records(below)) if below.__module__.startswith(project.__name__) else records(below)


@cache
def read() -> frozenset[str]:
    """Return the names that code takes of something, or names in a text as the files write them."""
    code = "\n".join(
        path.read_text(encoding="utf-8") for folder in ("precheck", "plugins") for path in (ROOT / folder).rglob("*.py")
    )
    named = (name.replace(" ", "_") for name in re.findall(r"[\"']([a-z_ 0-9]+)[\"']", code))
    return frozenset((*re.findall(r"\.([a-z_0-9]+)\b", code), *named))


def lists_records(field: Field) -> bool:
    """Return whether a field is a list of records, which are found by their kind."""
    return get_origin(field.annotation) is tuple and record_in(field.annotation) is not None


def test_each_field_is_read_or_is_listed_with_the_reason() -> None:
    unread = {
        (record.__name__, name)
        for record in records()
        for name, field in fields_of(record).items()
        if name not in read() and not lists_records(field)
    }
    assert unread == NEVER_READ.keys()
