"""What requirements of rulesets can be about and look at: the parts of a project, and what plugins add to these."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, ClassVar

from precheck.files.mistakes import nearest, with_article
from precheck.files.record import Record
from precheck.files.source import Place
from precheck.project.added_field import AddedField
from precheck.project.project import lists_of_parts
from precheck.project.section import Entry, Section
from precheck.project.section_check import FORMATS, resolved
from precheck.rulesets.common import refuse
from precheck.rulesets.quantity import NoQuantityError, Quantity, kinds_of_part, names, quantity
from precheck.rulesets.worked_out import patterns
from precheck.survey import Fact, House, fact


@fact
class AddedEntry(Fact):
    """One entry of a section that a plugin adds, as what a requirement is about; each section has a class of its own."""

    kind: ClassVar[str] = ""
    section: ClassVar[Section]

    @classmethod
    def found_in(cls, house: House) -> Iterator[AddedEntry]:
        """Yield the entries of the section."""
        yield from (cls(entry) for entry in house.project.entries(cls.section.key))

    @property
    def phase(self) -> Any:
        """The phase that the entry gives, where the section has one; what gives none is judged as new."""
        assert isinstance(self.about, Entry)
        return self.about.text("phase") if "phase" in _fields(self.section.schema) else None


class Vocabulary:
    """The kinds of part by what a person calls them, and the quantities of each by their names."""

    def __init__(self, added: Iterable[Section | AddedField] = ()) -> None:
        offered = tuple(added)
        self._fields = tuple(one for one in offered if isinstance(one, AddedField))
        sections = (one for one in offered if isinstance(one, Section))
        self._entries = {
            one.entry: type("AddedEntry", (AddedEntry,), {"kind": one.entry, "section": one}) for one in sections
        }

    @property
    def parts(self) -> dict[str, type[Any]]:
        """Every kind of part by what a person calls it."""
        return {**self._entries, **kinds_of_part()}

    def part(self, written: str, place: Place) -> type[Any]:
        """Return the kind of part that a person calls `written`. Raises `Unusable` at `place`."""
        if written in (lists := lists_of_parts()):  # most are; to know all there are takes a look at every field
            return lists[written].model
        known = self.parts
        if written in known:
            return known[written]
        told = nearest(written, known) or f"; known: {', '.join(list(known)[:30])} and others"
        raise refuse(place, f"no kind of part is called `{written}`{told}")

    def quantity(self, part: type[Any], name: str) -> Quantity:
        """Return what `name` stands for in a `part`. Raises `NoQuantityError`."""
        added = self._added(part)
        if name in added:
            return added[name]
        if issubclass(part, Record):
            return quantity(part, name)
        known = nearest(name, added) or f"; known: {', '.join(added)}"
        raise NoQuantityError(f"{with_article(part.kind)} has no `{name}` that can be looked at{known}")

    def names(self, part: type[Any]) -> Iterator[str]:
        """Yield every name that `quantity` knows for `part`."""
        yield from self._added(part)
        if issubclass(part, Record):
            yield from names(part)

    def patterns(self, part: type[Any]) -> list[str]:
        """Return patterns for the names of what is worked out of a `part`, and of which there are too many to list."""
        return patterns(part) if issubclass(part, Record) else []

    def _added(self, part: type[Any]) -> dict[str, Quantity]:
        if issubclass(part, AddedEntry):
            return _quantities(part.section.schema, lambda subject: subject.about)
        schema = {field.key: field.schema for field in self._fields if field.part == part.kind}
        return _quantities({"properties": schema}, lambda subject: subject.added)


def _quantities(schema: Mapping[str, Any], entry_of: Callable[[Any], Entry]) -> dict[str, Quantity]:
    every = {key: _quantity(key, of, entry_of) for key, of in _fields(schema).items()}
    return {key: found for key, found in every.items() if found is not None}


def _fields(schema: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """Return the schemas of the keys of an entry: those of the one mapping, or of the items of a list."""
    of = resolved(schema, schema)
    if "items" in of:
        of = resolved(of["items"], schema)
    return {key: resolved(one, schema) for key, one in of.get("properties", {}).items()}


def _quantity(key: str, schema: Mapping[str, Any], entry_of: Callable[[Any], Entry]) -> Quantity | None:
    """Return one key as what can be looked at: a measure, a count, an answer, a word; None where it is none of these."""
    measure = FORMATS.get(str(schema.get("format")))
    if measure is not None:
        return Quantity(key, measure, (), lambda _, subject: entry_of(subject).measure(key, measure))
    kinds = schema.get("type", "string")
    wanted = [kinds] if isinstance(kinds, str) else list(kinds)
    if "boolean" in wanted:
        return Quantity(key, bool, (), lambda _, subject: entry_of(subject).answer(key))
    if "integer" in wanted:
        return Quantity(key, int, (), lambda _, subject: entry_of(subject).number(key))
    if "string" not in wanted:
        return None
    words = tuple(map(str, schema.get("enum", ())))
    return Quantity(key, str, words, lambda _, subject: entry_of(subject).text(key))
