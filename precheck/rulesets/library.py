"""The library of rulesets: the folders in which they stand, and the files in these, each read once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from functools import cached_property, partial
from pathlib import Path
from types import MappingProxyType

from precheck.files.missing import is_missing
from precheck.files.record import read_record
from precheck.files.source import Block, Problem, Unusable, read_file
from precheck.project.added_field import AddedField
from precheck.project.section import Section
from precheck.rulesets import prepared
from precheck.rulesets.adopted import AdoptedCode, ChainLink
from precheck.rulesets.entry import Edition
from precheck.rulesets.files import Adoption, ModelCode, TopicFile
from precheck.rulesets.fold import Fold
from precheck.rulesets.law import not_of_a_law
from precheck.rulesets.limit import frozen
from precheck.rulesets.model_code import Reader, Unchecked
from precheck.rulesets.older import alone, in_todays_form
from precheck.rulesets.vocabulary import Vocabulary

EDITIONS = "editions.yaml"
INSTALLED = frozenset(("site-packages", "dist-packages"))  # folders whose paths tell nobody anything


class Library:
    """The folders in which rulesets are looked for, the person's own before the built-in ones.

    Each folder holds ``codes/<code>/<topic>.yaml``, with the editions of that code in ``editions.yaml``, and
    ``jurisdictions/<place>/<date>.yaml``. A plugin's folder may add topics to a code of another folder.
    """

    def __init__(
        self, folders: Iterable[Path], own: Iterable[Path] = (), added: Iterable[Section | AddedField] = ()
    ) -> None:
        self.own = tuple(own)  # those that a person named: messages call their files by their paths
        self.folders = (*self.own, *folders)
        self.words = Vocabulary(added)  # with what plugins add to projects
        self._editions_read: dict[str, AdoptedCode] = {}
        self._adoptions_read: dict[Path, Adoption] = {}
        self._topics_read: dict[Path, TopicFile] = {}

    @cached_property
    def codes(self) -> dict[str, ModelCode]:
        """The model codes by the names of their folders. Raises `Unusable`."""
        found: dict[str, ModelCode] = {}
        for path in self._files("codes", f"*/{EDITIONS}"):
            found.setdefault(path.parent.name, read_record(ModelCode, self.read(path)))
        return dict(sorted(found.items()))

    @cached_property
    def editions(self) -> dict[str, Edition]:
        """Every edition of every model code by the name under which it is adopted, such as ``irc-2021``."""
        older = (alone(path.parent.name) for path in self._files("editions", "*/*.yaml"))
        every = (Edition(code, label) for code in self.codes.values() for label in code.editions)
        return dict(sorted({edition.name: edition for edition in (*older, *every)}.items()))

    def topics(self, code: str) -> list[Path]:
        """Return the topic files of a model code, over all folders."""
        return [path for path in self._files("codes", f"{code}/*.yaml") if path.name != EDITIONS]

    @cached_property
    def jurisdictions(self) -> dict[str, list[Path]]:
        """The adoption files of every jurisdiction by its folder name, oldest first."""
        found: dict[str, list[Path]] = {}
        for path in (*self._files("jurisdictions", "*/*.yaml"), *self._files("jurisdictions", "*/*.yml")):
            found.setdefault(path.parent.name, []).append(path)
        return {name: sorted(paths, key=lambda p: p.name) for name, paths in sorted(found.items())}

    def adopt(self, name: str, on: date | None = None, edition: str | None = None) -> AdoptedCode:
        """Return the code of jurisdiction or edition `name` (or adoption file) as in effect on a date.

        Without a date the newest adoption and all of its amendments count. Where a place leaves the choice on that day,
        `edition` says which is taken; it may stand in `name` too, after an @. Raises `Unusable`.
        """
        name, edition = _with_edition(name, edition)
        return Fold(self, on, edition).chosen(name)

    def resolve(self, adoption: Adoption, on: date | None = None) -> AdoptedCode:
        """Return the code that `adoption`, read from wherever, makes of what it adopts. Raises `Unusable`."""
        return Fold(self, on).resolved(adoption)

    def problems_of_law(self, law: Adoption) -> list[Problem]:
        """Return what is wrong with a `law` that adopts nothing, and whose locks must be about something that an edition has."""
        found = [Fold(self, None).of_law(law, self.edition(edition)).problems for edition in self.editions]
        everywhere = set.intersection(*({problem.place for problem in problems} for problems in found))
        return sorted({*not_of_a_law(law), *(problem for problem in found[-1] if problem.place in everywhere)})

    def topics_added(self, *further: str) -> frozenset[str]:
        """Return the topics of what jurisdictions add, and the `further` adoption files. Raises `Unusable`."""
        files = [path for paths in self.jurisdictions.values() for path in paths]
        files += [path for name in further if (path := Path(name)).suffix in (".yaml", ".yml")]
        added = (one.add for path in files for one in self.adoption(path).amendments)
        return frozenset(name.partition(".")[0] for name in added if not is_missing(name))

    def read(self, path: Path) -> Block:
        """Read a ruleset file of this library, called by a name that is the same on every machine."""
        return read_file(path, self._shown(path))

    def adoption(self, path: Path) -> Adoption:
        """Return the adoption file at `path` of this library, read once. Raises `Unusable`."""
        if path not in self._adoptions_read:
            self._adoptions_read[path] = read_record(Adoption, self.read(path))
        return self._adoptions_read[path]

    def in_force(self, path: Path) -> date | None:
        """Return the first day of the adoption file at `path`; None where it cannot be read."""
        try:
            return self.adoption(path).in_force
        except Unusable:
            return None

    def edition(self, name: str) -> AdoptedCode:
        """Return the model code of edition `name`, read once. Raises `Unusable`."""
        if name not in self._editions_read:
            files, read = partial(self._files_of, name), partial(self._edition, name)
            self._editions_read[name] = prepared.edition(name, files, read)
        return self._editions_read[name]

    def _files_of(self, name: str) -> Iterator[tuple[str, Path]]:
        """Yield every file that edition `name` is read from, after the name that it is shown by."""
        code = self.editions[name].code.code
        for pattern in (f"codes/{code}/*.yaml", f"editions/{name}/*.yaml"):
            for path in self._files(*pattern.split("/", 1)):
                yield self._shown(path), path

    def _edition(self, name: str) -> AdoptedCode:
        edition = self.editions[name]
        reader = Reader(edition)
        older = Reader(alone(name), reader.limits, reader.problems)
        unread: list[Unchecked] = []
        trades: dict[str, str] = {}
        for one, path in (
            *((reader, path) for path in self.topics(edition.code.code)),
            *((older, path) for path in self._files("editions", f"{name}/*.yaml")),
        ):
            try:
                file = self._topic(path, one is older)
            except Unusable as error:
                reader.problems.extend(error.problems)
                continue
            one.add(file)
            trades[file.topic] = file.trade
            unread.extend(one.not_checked(file))
        if reader.problems:
            raise Unusable(reader.problems)
        step = ChainLink(name, "", None, False, edition.code.place)
        return AdoptedCode(
            name,
            None,
            (step,),
            frozen(reader.limits),
            tuple(unread),
            lacks=frozenset(edition.code.lacks),
            formerly=MappingProxyType(edition.code.formerly),
            trades=MappingProxyType(trades),
        )

    def _topic(self, path: Path, older: bool) -> TopicFile:
        """Return the topic file at `path`, read once however many editions are asked for."""
        if path not in self._topics_read:
            block = self.read(path)
            self._topics_read[path] = in_todays_form(block) if older else read_record(TopicFile, block)
        return self._topics_read[path]

    def _shown(self, path: Path) -> str:
        folder = next((f for f in self.folders if path.is_relative_to(f)), None)
        if folder in self.own:
            return str(path)
        here = path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else None
        if here is not None and INSTALLED.isdisjoint(here.parts):
            return str(here)
        return f"rulesets/{path.relative_to(folder)}" if folder is not None else str(path)

    def _files(self, part: str, pattern: str) -> Iterator[Path]:
        for folder in self.folders:
            yield from sorted((folder / part).glob(pattern))


def _with_edition(name: str, edition: str | None) -> tuple[str, str | None]:
    """Return the name of a jurisdiction without the edition that stands after its @, and the edition."""
    place, at, after = name.rpartition("@")
    return (place, after) if at and Path(name).suffix not in (".yaml", ".yml") else (name, edition)
