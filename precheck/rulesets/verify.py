"""Verifying one adoption as it stands in its file: at each date on which it changes, as long as it is used."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from pathlib import Path

from precheck.files.missing import is_missing
from precheck.files.record import Maybe, Record, read_record
from precheck.files.source import Block, Items, Place, Problem, Unusable, read_file
from precheck.rulesets.adopted import AdoptedCode
from precheck.rulesets.amend import verb_of
from precheck.rulesets.files import Adoption, Amendment, slug
from precheck.rulesets.law import NO_CODE, is_law
from precheck.rulesets.library import Library
from precheck.rulesets.limit import Limit
from precheck.rulesets.part_of_code import part_of_code
from precheck.rulesets.some_parts import is_for_some


@dataclass
class Verified:
    """What was found of one adoption file: problems, what is `told` that is none, and the code on each date that resolved."""

    path: Path
    adoption: Adoption | None = None
    problems: list[Problem] = field(default_factory=list)
    told: list[Problem] = field(default_factory=list)
    codes: dict[date | None, AdoptedCode] = field(default_factory=dict)
    last: date | None = None  # the last day on which the file is used; None where nothing is known to end it

    @property
    def newest(self) -> AdoptedCode | None:
        """The code with all that is known to take effect while the file is used."""
        return self.codes.get(self.last)


def verify(library: Library, path: Path) -> Verified:
    """Resolve the adoption file at `path` on every date that matters, and return all that is wrong with it."""
    found = Verified(path)
    try:
        block = read_file(path)
    except Unusable as error:
        found.problems.extend(error.problems)
        return found
    try:
        found.adoption = read_record(Adoption, block)
    except Unusable as error:
        found.problems = sorted({*error.problems, *_of_the_rest(library, block, path)})
        return found
    found.problems.extend(_out_of_place(found.adoption, path))
    if is_law(found.adoption):
        found.problems = sorted({*found.problems, *library.problems_of_law(found.adoption)})
        found.told = (
            [] if found.problems else [Problem(found.adoption.place, f"{found.adoption.jurisdiction} {NO_CODE}")]
        )
        return found
    found.last = _last_day(library, path, found.adoption)
    for day in (*_dates(found.adoption, found.last), found.last):
        try:
            found.codes[day] = code = library.adopt(str(path), day)
            for edition in code.other_editions:
                found.told.extend(library.adopt(str(path), day, edition).renamed)
        except Unusable as error:
            found.problems.extend(p if p.place.file else p._replace(place=_first(path)) for p in error.problems)
    found.problems = sorted(dict.fromkeys(found.problems))
    found.told = sorted({*found.told, *(found.newest.renamed if found.newest is not None else ())})
    return found


def acts(found: Verified) -> Iterator[tuple[Amendment, list[Limit[object]]]]:
    """Yield each amendment with the limits that it made; a lock makes none, and a part of the code has many."""
    code = found.newest
    if found.adoption is not None and is_law(found.adoption):
        yield from ((amendment, []) for amendment in found.adoption.amendments)
    if code is None or found.adoption is None:
        return
    for amendment in found.adoption.amendments:
        name = getattr(amendment, verb_of(amendment))
        part = None if amendment.lock == name else part_of_code(name)
        if amendment.lock == name:
            yield amendment, []
        elif part is not None:
            yield amendment, [limit for limit in code.limits.values() if part.holds(limit)]
        elif (today := code.limit_called(name)) is not None:
            yield amendment, [_made_by(amendment, code.limits[today])]


def _made_by(amendment: Amendment, limit: Limit[object]) -> Limit[object]:
    """Return what an amendment made of a limit: its value for some parts, where it is about these."""
    to = amendment.place_of("to")
    of_some = (one.limit for one in limit.for_some if any(event.place == to for event in one.limit.history))
    return next(of_some, limit) if is_for_some(amendment) else limit


def _last_day(library: Library, path: Path, adoption: Adoption) -> date | None:
    """Return the last day on which the file is used: as it says, else the day before the next adoption of its place."""
    if not is_missing(adoption.until):
        return adoption.until
    beside = library.jurisdictions.get(slug(adoption.jurisdiction), [])
    if path.resolve() not in {one.resolve() for one in beside}:
        return None
    later = [day for day in map(library.in_force, beside) if day is not None and day > adoption.in_force]
    return min(later) - timedelta(days=1) if later else None


def _dates(adoption: Adoption, last: date | None) -> list[date]:
    """Return the days on which the file, or a case of it, may come to something else."""
    ends = {a.until for a in adoption.amendments if not is_missing(a.until)}
    later = {a.from_ for a in adoption.amendments if not is_missing(a.from_)}
    later |= ends | {day + timedelta(days=1) for day in ends}
    tried = {case.on for case in adoption.cases if not is_missing(case.on)}
    used = {adoption.in_force, *(day for day in later if last is None or day <= last)}
    return sorted(day for day in used | tried if day >= adoption.in_force)


def _out_of_place(adoption: Adoption, path: Path) -> Iterator[Problem]:
    """Yield what resolving passes over: a folder by which the file is not found, days before the adoption."""
    folder = path.absolute().parent
    if folder.parent.name == "jurisdictions" and folder.name != slug(adoption.jurisdiction):
        what = f"the file stands in the folder `{folder.name}`, by which it is found"
        yield Problem(adoption.place_of("jurisdiction"), f"{what}; name the folder `{slug(adoption.jurisdiction)}`")
    if _DATED.fullmatch(path.stem) and path.stem != str(adoption.in_force):
        what = f"the file is called {path.name}, and `in force` says {adoption.in_force}"
        yield Problem(adoption.place_of("in_force"), f"{what}; correct the one that is wrong")
    yield from _after_the_end(adoption)
    dated: list[tuple[Record, str, Maybe[date]]] = [(one, "from_", one.from_) for one in adoption.amendments]
    dated += [(one, "until", one.until) for one in adoption.amendments]
    dated += [(case, "on", case.on) for case in adoption.cases]
    for record, key, day in dated:
        if not is_missing(day) and day < adoption.in_force:
            what = f"`{key.strip('_')}: {day}` is before the adoption is in force ({adoption.in_force})"
            yield Problem(record.place_of(key), f"{what}; leave it out, or write a later day")


def _after_the_end(adoption: Adoption) -> Iterator[Problem]:
    """Yield a last day before the first, and changes that begin when the adoption has ended."""
    if is_missing(adoption.until):
        return
    if adoption.until < adoption.in_force:
        what = f"`until: {adoption.until}` is before the adoption is in force ({adoption.in_force})"
        yield Problem(adoption.place_of("until"), f"{what}; write a later day, or leave it out")
        return
    for one in adoption.amendments:
        if not is_missing(one.from_) and one.from_ > adoption.until:
            what = f"`from: {one.from_}` is after the adoption ends ({adoption.until})"
            yield Problem(one.place_of("from_"), f"{what}; write it in the adoption that follows")


def _of_the_rest(library: Library, block: Block, path: Path) -> tuple[Problem, ...]:
    """Return what else is wrong with a file that cannot be read as a whole: with those amendments that can be."""
    readable = Block(block.at, block.file)
    readable.keys_at = block.keys_at
    readable.update((key, block[key]) for key in _HEAD if key in block)
    given = block.get("amendments")
    readable["amendments"] = kept = Items(block.at, block.file)
    for item, at in zip(given, given.items_at, strict=True) if isinstance(given, Items) else ():
        if isinstance(item, Block) and _reads(item):
            kept.append(item)
            kept.items_at.append(at)
    try:
        adoption = read_record(Adoption, readable)
    except Unusable as error:
        return tuple(error.problems)
    misplaced = tuple(_out_of_place(adoption, path))
    try:
        library.resolve(adoption)
    except Unusable as error:
        return (*misplaced, *error.problems)
    return misplaced


_DATED = re.compile(r"\d{4}-\d\d-\d\d")
_HEAD = ("jurisdiction", "adopts", "held to", "in force", "by", "design criteria")


def _reads(item: Block) -> bool:
    try:
        read_record(Amendment, item)
    except Unusable:
        return False
    return True


def _first(path: Path) -> Place:
    return Place(str(path), 1, 1)
