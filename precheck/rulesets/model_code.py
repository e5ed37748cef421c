"""The limits of one edition of a model code, from topic files in which every limit stands once for all editions."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NamedTuple

from precheck.files.source import Block, Place, Problem, Unusable
from precheck.rulesets.entry import KEYS, Edition, LimitEntry
from precheck.rulesets.files import TopicFile
from precheck.rulesets.limit import Limit, Takes
from precheck.rulesets.takes import lines_of

NOT_THERE, NO_SECTION = "not there", "no section"


class Unchecked(NamedTuple):
    """Something that an edition asks and that no rule here checks: what, where it stands, and why it is not checked."""

    topic: str
    what: str
    section: str
    why: str

    def __str__(self) -> str:
        return f"{self.what}{f' ({self.section})' if self.section else ''}: {self.why}"


@dataclass
class Reader:
    """Reads topic files for one edition and collects what is wrong with them, all of it in one run."""

    edition: Edition
    limits: dict[str, Limit[Any]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    @cached_property
    def known(self) -> frozenset[str]:
        """The keys that a limit may have."""
        return KEYS | frozenset(self.edition.code.editions)

    def add(self, file: TopicFile) -> None:
        """Add the limits of `file`."""
        entries: list[tuple[str, Block, Place, Takes | None]] = [(*one, None) for one in self._entries(file)]
        entries += [(line.name, line.block, line.place, line.takes) for line in lines_of(file, self.problems)]
        for name, block, place, takes in entries:
            if name in self.limits:
                first = self.limits[name].history[0].place
                self.problems.append(Problem(place, f"`{name}` is set twice, first at {first}; keep one"))
                continue
            try:
                self.limits[name] = LimitEntry(name, block, place, file, self.edition, self.known).limit(takes)
            except Unusable as error:
                self.problems.extend(error.problems)

    def not_checked(self, file: TopicFile) -> Iterator[Unchecked]:
        """Yield what of the topic is not checked in this edition."""
        for item in file.not_checked:
            section, there = item.section, True
            for label in self.edition.labels:
                if (said := item.editions.get(label)) is not None:
                    there, section = said != NOT_THERE, "" if said in (NOT_THERE, NO_SECTION) else said
            if there:
                yield Unchecked(file.topic, item.what, section, item.why)

    def _entries(self, file: TopicFile) -> Iterator[tuple[str, Block, Place]]:
        for rule_name, fields in file.limits.items():
            if not isinstance(fields, Block):
                told = f"`{rule_name}` holds no limits; write them below it by name"
                self.problems.append(Problem(_place_in(file, "limits", rule_name), told))
                continue
            for name, block in fields.items():
                full, place = f"{rule_name}.{name.replace(' ', '-')}", fields.place_of(name)
                if isinstance(block, Block):
                    yield full, block, place
                else:
                    told = f"`{full}` is no mapping; write {{measures: ..., value: ..., section: ...}}"
                    self.problems.append(Problem(place, told))


def _place_in(file: TopicFile, field_name: str, key: str) -> Place:
    block = file.block["limits"] if file.block is not None else None
    return block.place_of(key) if isinstance(block, Block) else file.place_of(field_name)
