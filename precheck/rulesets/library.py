"""The library of rulesets, and the fold along one chain into the table of limits in effect on a date."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from datetime import date
from functools import cached_property, partial
from pathlib import Path
from types import MappingProxyType

from precheck.files.mistakes import nearest
from precheck.files.record import read_record
from precheck.files.source import Block, Place, Problem, Unusable, read_file
from precheck.rulesets import prepared
from precheck.rulesets.adopted import AdoptedCode, ChainLink
from precheck.rulesets.amend import Parent, act_on, set_criterion
from precheck.rulesets.common import known_names, refuse
from precheck.rulesets.entry import Edition
from precheck.rulesets.files import Adoption, ModelCode, TopicFile, slug
from precheck.rulesets.limit import Table, frozen
from precheck.rulesets.model_code import Reader, Unchecked
from precheck.rulesets.older import alone, in_todays_form

EDITIONS = "editions.yaml"
INSTALLED = frozenset(("site-packages", "dist-packages"))  # folders whose paths tell nobody anything


class Library:
    """The folders in which rulesets are looked for, the person's own before the built-in ones.

    Each folder holds ``codes/<code>/<topic>.yaml``, with the editions of that code in ``editions.yaml``, and
    ``jurisdictions/<place>/<date>.yaml``. A plugin's folder may add topics to a code of another folder.
    """

    def __init__(self, folders: Iterable[Path], own: Iterable[Path] = ()) -> None:
        self.own = tuple(own)  # those that a person named: messages call their files by their paths
        self.folders = (*self.own, *folders)
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

    def adopt(self, name: str, on: date | None = None) -> AdoptedCode:
        """Return the code of jurisdiction or edition `name` (or adoption file) as in effect on a date.

        Without a date the newest adoption and all of its amendments count. Raises `Unusable`.
        """
        return _Fold(self, on).adopt(name, None)

    def resolve(self, adoption: Adoption, on: date | None = None) -> AdoptedCode:
        """Return the code that `adoption`, read from wherever, makes of what it adopts. Raises `Unusable`."""
        return _Fold(self, on).resolved(adoption)

    def read(self, path: Path) -> Block:
        """Read a ruleset file of this library, called by a name that is the same on every machine."""
        return read_file(path, self._shown(path))

    def adoption(self, path: Path) -> Adoption:
        """Return the adoption file at `path` of this library, read once. Raises `Unusable`."""
        if path not in self._adoptions_read:
            self._adoptions_read[path] = read_record(Adoption, self.read(path))
        return self._adoptions_read[path]

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


class _Fold:
    """Walks up the chain of adoptions once and folds each step's acts over the parent's limits."""

    def __init__(self, library: Library, on: date | None) -> None:
        self.library = library
        self.on = on
        self.seen: dict[str, str] = {}  # what was adopted on the way, as it was named
        self.problems: list[Problem] = []

    def adopt(self, name: str, asked_at: Place | None) -> AdoptedCode:
        if slug(name) in self.seen:
            ring = " adopts ".join([*self.seen.values(), name])
            raise refuse(asked_at, f"the adoptions go in a circle: {ring}; let one of them adopt an edition")
        self.seen[slug(name)] = name
        if slug(name) in self.library.editions:
            return replace(self.library.edition(slug(name)), applied_on=self.on)
        return self.resolved(self._adoption(name, asked_at))

    def resolved(self, adoption: Adoption) -> AdoptedCode:
        """Return what `adoption` makes of its parent. Raises `Unusable` with every problem of the chain."""
        parent = self.adopt(adoption.adopts, adoption.place_of("adopts"))
        code = self._amended(adoption, parent)
        if self.problems:
            raise Unusable(self.problems)
        return code

    def _adoption(self, name: str, asked_at: Place | None) -> Adoption:
        as_path = Path(name)
        if as_path.suffix in (".yaml", ".yml"):
            return read_record(Adoption, read_file(as_path))
        paths = self.library.jurisdictions.get(slug(name))
        if not paths:
            known = [*self.library.jurisdictions, *self.library.editions]
            raise refuse(asked_at, f"no ruleset is called `{name}`{nearest(slug(name), known) or known_names(known)}")
        adoptions = [self.library.adoption(path) for path in paths]
        in_force = [a for a in adoptions if self.on is None or a.in_force <= self.on]
        if not in_force:
            first = min(a.in_force for a in adoptions)
            what = f"`{name}` has no adoption in force on {self.on}; its first is of {first}. Give a later date"
            raise refuse(asked_at, f"{what}, or name the edition that applied then")
        return max(in_force, key=lambda adoption: adoption.in_force)

    def _amended(self, adoption: Adoption, parent: AdoptedCode) -> AdoptedCode:
        limits, renamed = dict(parent.limits), list[Problem]()
        requirements = {found.name: found for found in parent.requirements}
        above = Parent(parent.formerly, partial(self._limits_then, adoption))
        for key in adoption.design_criteria:
            self._try(partial(set_criterion, adoption, key, limits))
        for amendment in sorted(adoption.amendments, key=lambda one: one.begins):
            if amendment.holds(self.on):
                self._try(partial(act_on, amendment, limits, requirements, above, renamed))
        name = adoption.jurisdiction
        step = ChainLink(name, adoption.by, adoption.in_force, adoption.partial, adoption.place)
        added = tuple(requirements.values())
        return replace(
            parent,
            name=name,
            applied_on=self.on,
            chain=(*parent.chain, step),
            limits=frozen(limits),
            requirements=added,
            caveats=(*parent.caveats, *_caveats(adoption, self.on)),
            renamed=(*parent.renamed, *(adoption.block.renamed if adoption.block is not None else ()), *renamed),
        )

    def _limits_then(self, adoption: Adoption) -> Table:
        """Return the limits that `adoption` amended on the day from which it is in force; none where they do not resolve."""
        try:
            return _Fold(self.library, adoption.in_force).adopt(adoption.adopts, None).limits
        except Unusable:
            return frozen({})

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except Unusable as error:
            self.problems.extend(error.problems)


def _caveats(adoption: Adoption, on: date | None) -> Iterator[tuple[str, str]]:
    """Yield what an adoption notes of itself, and of each limit that it touches: what its numbers leave out."""
    if adoption.note:
        yield "", adoption.note
    for one in adoption.amendments:
        name = next((name for name in (one.amend, one.delete, one.add) if isinstance(name, str)), "")
        if one.note and one.holds(on):
            yield name, one.note
