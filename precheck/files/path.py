"""The way through a file that leads to a record of it."""

from __future__ import annotations

from precheck.files.record import Record, fields_of


def path_to(record: Record) -> tuple[str | int, ...]:
    """Return the keys and list positions of its file that lead to `record`."""
    owner = record.owner
    for name, field in fields_of(type(owner)).items() if isinstance(owner, Record) else ():
        value = owner.__dict__.get(name)
        if value is record:
            return (*path_to(owner), field.key)
        if isinstance(value, tuple) and any(one is record for one in value):
            return (*path_to(owner), field.key, value.index(record))
    return ()
