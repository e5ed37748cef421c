"""The limits of an edition, from its topic files."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args

from precheck.files.missing import is_missing
from precheck.files.record import read_record
from precheck.files.source import Block, Place, Problem, Unusable
from precheck.rulesets.common import refuse, tolerance_of, value_at, written_as
from precheck.rulesets.files import LimitEntry, TopicFile
from precheck.rulesets.limit import Basis, Event, Limit

_BASES = frozenset(get_args(Basis))
_KEYS = frozenset(("value", "section", "means", "basis", "source"))


def topic_limits(file: TopicFile, known: dict[str, Limit[Any]]) -> dict[str, Limit[Any]]:
    """Return the limits of one topic file by name; `known` are those of the other files. Raises `Unusable`."""
    limits: dict[str, Limit[Any]] = {}
    problems: list[Problem] = []
    for name, block, place in _entries(file, problems):
        try:
            if name in known:
                raise refuse(place, f"`{name}` is set twice, first at {known[name].history[0].place}; keep one")
            limits[name] = _plain(file, name, block, place) or _limit(file, name, block, place)
        except Unusable as error:
            problems.extend(error.problems)
    if problems:
        raise Unusable(problems)
    return limits


def _entries(file: TopicFile, problems: list[Problem]) -> Iterator[tuple[str, Any, Place]]:
    for rule_name, fields in file.limits.items():
        if not isinstance(fields, Block):
            problems.append(
                Problem(file.place_of("limits"), f"`{rule_name}` holds no limits; write them below it by name")
            )
            continue
        for field, block in fields.items():
            yield f"{rule_name}.{field.replace(' ', '-')}", block, fields.place_of(field)


def _plain(file: TopicFile, name: str, block: Any, place: Place) -> Limit[Any] | None:
    """Build a limit of the everyday form without pydantic, which is most of the time of resolving a code; else None."""
    if not isinstance(block, Block) or not block.keys() <= _KEYS or block.get("basis") not in _BASES:
        return None
    means, section, source = block.get("means"), block.get("section", ""), block.get("source", "")
    if not all(isinstance(text, str) for text in (means, section, source)) or "value" not in block:
        return None
    value = value_at(block.place_of("value"), block["value"], means or "")
    event = Event("set", written_as(block["value"]), f"{file.edition} {section}".strip(), place)
    return Limit(name, value, section, means or "", basis=block["basis"], source=source or file.source,
                 why_void=_why_void(file, value), history=(event,))  # fmt: skip


def _limit(file: TopicFile, name: str, block: Any, place: Place) -> Limit[Any]:
    if not isinstance(block, Block):
        raise refuse(place, f"`{name}` is no mapping; write {{value: ..., section: ..., means: ...}}")
    entry = read_record(LimitEntry, block)
    value = value_at(entry.place_of("value"), entry.value, entry.means)
    basis: Basis = file.basis if is_missing(entry.basis) else entry.basis
    event = Event("set", written_as(entry.value), f"{file.edition} {entry.section}".strip(), place)
    return Limit(name, value, entry.section, entry.means, entry.force == "advise", tolerance_of(entry), basis,
                 entry.source or file.source, _why_void(file, value), (event,))  # fmt: skip


def _why_void(file: TopicFile, value: Any) -> str | None:
    return f"the {file.edition.upper()} does not require it" if value is None else None
