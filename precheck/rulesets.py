"""Editions, adoptions and amendments, folded along one chain into the table of limits in effect on a date.

An edition is a folder of topic files, each a mapping of limits. A jurisdiction is a folder with one file per adoption.
A jurisdiction adopts an edition or another jurisdiction's adoption; the date of application picks, at each step up the
chain, the adoption that was in force and the amendments that had taken effect.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any, Literal

from pydantic import Field

from precheck.limits import Basis, Event, Limit, Table, amended, deleted, frozen, same_kind, value_of
from precheck.missing import is_missing
from precheck.record import NOT_GIVEN, Maybe, Record, nearest, read_record
from precheck.source import Block, Place, Problem, Unusable, read_file
from precheck.units import Measure, NotationError

CRITERIA = "criteria"


class LimitEntry(Record):
    """One limit of an edition's topic file, or one that an ordinance adds."""

    kind = "limit"
    value: Any
    section: str = ""
    means: str
    force: Literal["shall", "advise"] = "shall"
    tolerance: Maybe[str] = NOT_GIVEN
    basis: Maybe[Basis] = NOT_GIVEN
    source: str = ""


class NotChecked(Record):
    """Something that the code asks and that no rule here checks, with the reason."""

    kind = "not checked"
    what: str
    section: str = ""
    why: str


class TopicFile(Record):
    """One topic of an edition: its limits, and what of it is not checked."""

    kind = "topic file"
    edition: str
    topic: str
    basis: Basis = "memory"
    source: str = ""
    limits: dict[str, Any] = Field(default_factory=dict)
    not_checked: tuple[NotChecked, ...] = ()


class Amendment(Record):
    """One change by ordinance: exactly one of `amend`, `delete` and `add` names the limit."""

    kind = "amendment"
    amend: Maybe[str] = NOT_GIVEN
    delete: Maybe[str] = NOT_GIVEN
    add: Maybe[str] = NOT_GIVEN
    was: Any = None
    to: Any = None
    value: Any = None
    by: str
    from_: Maybe[date] = NOT_GIVEN
    section: str = ""
    means: str = ""
    force: Literal["shall", "advise"] = "shall"
    tolerance: Maybe[str] = NOT_GIVEN
    source: str = ""
    note: str = ""


class Adoption(Record):
    """One jurisdiction's adoption of a code, from a date on."""

    kind = "adoption"
    jurisdiction: str
    adopts: str
    in_force: date
    by: str
    partial: bool = False
    demo: bool = False
    source: str = ""
    note: str = ""
    design_criteria: dict[str, Any] = Field(default_factory=dict)
    amendments: tuple[Amendment, ...] = ()


@dataclass(frozen=True)
class Step:
    """One link of the chain: the edition, or an adoption with its date and ordinance."""

    name: str
    by: str
    in_force: date | None
    partial: bool
    place: Place


@dataclass(frozen=True)
class AdoptedCode:
    """The code in effect: the chain it came by, from the edition down, and every limit with its history."""

    name: str
    applied_on: date | None
    chain: tuple[Step, ...]
    limits: Table
    not_checked: tuple[str, ...] = ()

    @property
    def partial(self) -> bool:
        """Whether a ruleset of the chain says that it does not hold all that its jurisdiction amended."""
        return any(step.partial for step in self.chain)

    @property
    def edition(self) -> str:
        """The model code at the head of the chain."""
        return self.chain[0].name


class Library:
    """The folders in which rulesets are looked for, the person's own before the built-in ones.

    Each folder holds ``editions/<edition>/<topic>.yaml`` and ``jurisdictions/<place>/<date>.yaml``.
    """

    def __init__(self, folders: Iterable[Path]) -> None:
        self.folders = tuple(folders)

    @cached_property
    def editions(self) -> dict[str, list[Path]]:
        """The topic files of every edition; a plugin's folder may add topics to an edition."""
        found: dict[str, list[Path]] = {}
        for path in self._files("editions"):
            found.setdefault(path.parent.name, []).append(path)
        return dict(sorted(found.items()))

    @cached_property
    def jurisdictions(self) -> dict[str, list[Path]]:
        """The adoption files of every jurisdiction by its folder name, oldest first."""
        found: dict[str, list[Path]] = {}
        for path in self._files("jurisdictions"):
            found.setdefault(path.parent.name, []).append(path)
        return {name: sorted(paths, key=lambda p: p.name) for name, paths in sorted(found.items())}

    def adopt(self, name: str, on: date | None = None) -> AdoptedCode:
        """Return the code of jurisdiction or edition `name` (or adoption file) as in effect on a date.

        Without a date the newest adoption and all of its amendments count. Raises `Unusable`.
        """
        return _Fold(self, on).adopt(name, None)

    def _files(self, part: str) -> Iterator[Path]:
        for folder in self.folders:
            yield from sorted((folder / part).glob("*/*.yaml"))


def slug(name: str) -> str:
    """Return the folder name of a jurisdiction: ``Tamarack County`` is kept in ``tamarack-county``."""
    return "-".join("".join(c if c.isalnum() else " " for c in name.lower()).split())


def _refuse(place: Place | None, what: str) -> Unusable:
    return Unusable([Problem(place or Place("", 1, 1), what)])


class _Fold:
    """Walks up the chain of adoptions once and folds each step's acts over the parent's limits."""

    def __init__(self, library: Library, on: date | None) -> None:
        self.library = library
        self.on = on
        self.seen: list[str] = []
        self.problems: list[Problem] = []

    def adopt(self, name: str, asked_at: Place | None) -> AdoptedCode:
        if slug(name) in self.seen:
            ring = " adopts ".join([*self.seen, slug(name)])
            raise _refuse(asked_at, f"the adoptions go in a circle: {ring}; let one of them adopt an edition")
        self.seen.append(slug(name))
        if slug(name) in self.library.editions:
            return self._edition(slug(name))
        adoption = self._adoption(name, asked_at)
        parent = self.adopt(adoption.adopts, adoption.place_of("adopts"))
        code = self._amended(adoption, parent)
        if self.problems:
            raise Unusable(self.problems)
        return code

    def _edition(self, name: str) -> AdoptedCode:
        limits: dict[str, Limit[Any]] = {}
        problems: list[Problem] = []
        unread: list[str] = []
        paths = self.library.editions[name]
        for path in paths:
            try:
                file = read_record(TopicFile, read_file(path))
                limits.update(_topic_limits(file, limits))
                unread.extend(f"{n.what}{f' ({n.section})' if n.section else ''}: {n.why}" for n in file.not_checked)
            except Unusable as error:
                problems.extend(error.problems)
        if problems:
            raise Unusable(problems)
        step = Step(name, "", None, False, Place(str(paths[0].parent), 1, 1))
        return AdoptedCode(name, self.on, (step,), frozen(limits), tuple(unread))

    def _adoption(self, name: str, asked_at: Place | None) -> Adoption:
        as_path = Path(name)
        if as_path.suffix in (".yaml", ".yml"):
            return read_record(Adoption, read_file(as_path))
        paths = self.library.jurisdictions.get(slug(name))
        if not paths:
            known = [*self.library.jurisdictions, *self.library.editions]
            raise _refuse(asked_at, f"no ruleset is called `{name}`{nearest(slug(name), known) or _known(known)}")
        adoptions = [read_record(Adoption, read_file(path)) for path in paths]
        in_force = [a for a in adoptions if self.on is None or a.in_force <= self.on]
        if not in_force:
            first = min(a.in_force for a in adoptions)
            what = f"`{name}` has no adoption in force on {self.on}; its first is of {first}. Give a later date"
            raise _refuse(asked_at, f"{what}, or name the edition that applied then")
        return max(in_force, key=lambda adoption: adoption.in_force)

    def _amended(self, adoption: Adoption, parent: AdoptedCode) -> AdoptedCode:
        limits = dict(parent.limits)
        for key in adoption.design_criteria:
            self._try(self._criterion, adoption, key, limits)
        for amendment in adoption.amendments:
            if self.on is None or is_missing(amendment.from_) or amendment.from_ <= self.on:
                self._try(self._act, adoption, amendment, limits)
        name = adoption.jurisdiction
        step = Step(name, adoption.by, adoption.in_force, adoption.partial, adoption.place)
        return AdoptedCode(name, self.on, (*parent.chain, step), frozen(limits), parent.not_checked)

    def _try(self, act: Any, adoption: Adoption, what: Any, limits: dict[str, Limit[Any]]) -> None:
        try:
            act(adoption, what, limits)
        except Unusable as error:
            self.problems.extend(error.problems)

    def _criterion(self, adoption: Adoption, key: str, limits: dict[str, Limit[Any]]) -> None:
        block = adoption._block["design criteria"] if adoption._block is not None else {}
        place = block.place_of(key) if isinstance(block, Block) else adoption.place
        name = f"{CRITERIA}.{slug(key)}"
        if name not in limits:
            known = [n.partition(".")[2].replace("-", " ") for n in limits if n.startswith(f"{CRITERIA}.")]
            raise _refuse(place, f"`{key}` is no design criterion of the edition{nearest(key, known) or _known(known)}")
        written = str(adoption.design_criteria[key])
        limits[name] = _checked(place, limits[name], written, Event("amended", written, adoption.by, place))

    def _act(self, adoption: Adoption, amendment: Amendment, limits: dict[str, Limit[Any]]) -> None:
        named = [(verb, getattr(amendment, verb)) for verb in ("amend", "delete", "add")]
        given = [(verb, name) for verb, name in named if not is_missing(name)]
        if len(given) != 1:
            raise _refuse(amendment.place, "an amendment does one thing; begin it with `amend:`, `delete:` or `add:`")
        verb, name = given[0]
        if verb == "add":
            limits[name] = _addition(amendment, name, limits)
            return
        place = amendment.place_of(verb)
        limit = limits.get(name)
        if limit is None:
            raise _refuse(place, f"`{name}` is not in the code that is adopted{nearest(name, limits) or ''}")
        _was(amendment, limit, needed=verb == "amend")
        limits[name] = _change(verb, amendment, limit)


def _topic_limits(file: TopicFile, known: dict[str, Limit[Any]]) -> dict[str, Limit[Any]]:
    limits: dict[str, Limit[Any]] = {}
    problems: list[Problem] = []
    for rule_name, fields in file.limits.items():
        for field, block in fields.items() if isinstance(fields, Block) else ():
            try:
                name = f"{rule_name}.{field.replace(' ', '-')}"
                limits[name] = _set(file, name, block, fields.place_of(field), known)
            except Unusable as error:
                problems.extend(error.problems)
    if problems:
        raise Unusable(problems)
    return limits


def _set(file: TopicFile, name: str, block: Any, place: Place, known: dict[str, Limit[Any]]) -> Limit[Any]:
    if name in known:
        raise _refuse(place, f"`{name}` is set twice, first at {known[name].history[0].place}; keep one")
    if not isinstance(block, Block):
        raise _refuse(place, f"`{name}` is no mapping; write {{value: ..., section: ..., means: ...}}")
    entry = read_record(LimitEntry, block)
    value = _value(entry.place_of("value"), entry.value, entry.means)
    why_void = f"the {file.edition.upper()} does not require it" if value is None else None
    basis: Basis = file.basis if is_missing(entry.basis) else entry.basis
    event = Event("set", _written(entry.value), f"{file.edition} {entry.section}".strip(), place)
    return Limit(name, value, entry.section, entry.means, entry.force == "advise", _tolerance(entry), basis,
                 entry.source or file.source, why_void, (event,))  # fmt: skip


def _addition(amendment: Amendment, name: str, limits: dict[str, Limit[Any]]) -> Limit[Any]:
    place = amendment.place_of("add")
    if name in limits:
        raise _refuse(place, f"`{name}` is in the adopted code already; amend it, or choose another name")
    if amendment.value is None or not amendment.means:
        raise _refuse(place, f"`{name}` lacks its `value` or what it `means`; give both")
    value = _value(amendment.place_of("value"), amendment.value, amendment.means)
    event = Event("added", _written(amendment.value), amendment.by, place)
    return Limit(name, value, amendment.section, amendment.means, amendment.force == "advise", _tolerance(amendment),
                 "local", amendment.source, None, (event,))  # fmt: skip


def _was(amendment: Amendment, limit: Limit[Any], needed: bool) -> None:
    place = amendment.place_of("was")
    if amendment.was is None:
        if needed:
            raise _refuse(place, f"`was` is not given; write `was: {limit.text}`, the value that is replaced")
        return
    was = _value(place, amendment.was, limit.means)
    if was != limit.value and _written(amendment.was) != limit.text:
        origin = limit.history[-1]
        stale = f"`was: {_written(amendment.was)}` is stale: the value in effect is {limit.text}"
        raise _refuse(place, f"{stale} ({origin.source}, {origin.place}); write `was: {limit.text}`")


def _change(verb: str, amendment: Amendment, limit: Limit[Any]) -> Limit[Any]:
    place = amendment.place_of(verb)
    if verb == "delete":
        return deleted(limit, Event("deleted", "deleted", amendment.by, place))
    if amendment.to is None:
        raise _refuse(place, f"`to` is not given; write the new value of `{limit.name}`")
    to = amendment.place_of("to")
    changes = {} if is_missing(amendment.tolerance) else {"tolerance": _tolerance(amendment)}
    event = Event("amended", _written(amendment.to), amendment.by, to)
    return _checked(to, limit, amendment.to, event, **changes)


def _checked(place: Place, limit: Limit[Any], to: Any, event: Event, **changes: Any) -> Limit[Any]:
    value = _value(place, to, limit.means)
    if not same_kind(value, limit.value):
        raise _refuse(place, f"`{_written(to)}` cannot replace `{limit.text}`; write a value of the same kind")
    return amended(limit, to, event, **changes)


def _tolerance(record: LimitEntry | Amendment) -> Measure | None:
    if is_missing(record.tolerance):
        return None
    value = _value(record.place_of("tolerance"), record.tolerance, "field tolerance")
    if isinstance(value, Measure):
        return value
    raise _refuse(record.place_of("tolerance"), f"`{record.tolerance}` is no measure; write it like 1/8 in")


def _value(place: Place, written: Any, means: str) -> Any:
    try:
        return value_of(written, means)
    except NotationError as error:
        raise _refuse(place, str(error)) from None


def _written(value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{key}: {_written(row)}" for key, row in value.items())
    return ", ".join(map(str, value)) if isinstance(value, list) else str(value)


def _known(names: Iterable[str]) -> str:
    listed = list(names)
    return f"; known: {', '.join(listed[:16])}" if listed else ""
