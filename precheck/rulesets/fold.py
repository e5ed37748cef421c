"""The fold along one chain of adoptions into the table of limits in effect on a day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any, Protocol

from precheck.files.mistakes import nearest
from precheck.files.record import read_record
from precheck.files.source import Place, Problem, Unusable, read_file
from precheck.rulesets.adopted import AdoptedCode
from precheck.rulesets.amending import Amending
from precheck.rulesets.common import known_names, refuse
from precheck.rulesets.files import Adoption, slug
from precheck.rulesets.in_force import EditionChoice, called, none_usable, usable
from precheck.rulesets.law import NO_CODE, is_law, not_of_a_law
from precheck.rulesets.limit import Table
from precheck.rulesets.vocabulary import Vocabulary


class Shelf(Protocol):
    """Where editions and adoptions are found by their names; the library is one."""

    @property
    def editions(self) -> Mapping[str, Any]:
        """Every edition by its name."""

    @property
    def jurisdictions(self) -> Mapping[str, Sequence[Path]]:
        """The adoption files of every jurisdiction by its folder name."""

    @property
    def words(self) -> Vocabulary:
        """What added requirements can be about and look at."""

    def edition(self, name: str) -> AdoptedCode:
        """Return the model code of edition `name`."""

    def adoption(self, path: Path) -> Adoption:
        """Return the adoption file at `path`."""


class Fold:
    """Walks up the chain of adoptions once and folds each step's acts over the parent's limits.

    `edition` says which is taken where a jurisdiction leaves the choice on the day.
    """

    def __init__(self, shelf: Shelf, on: date | None, edition: str | None = None) -> None:
        self.shelf = shelf
        self.on = on
        self.edition = None if edition is None else slug(edition)
        self.seen: dict[str, str] = {}  # what was adopted on the way, as it was named
        self.choices: list[EditionChoice] = []
        self.problems: list[Problem] = []

    def chosen(self, name: str) -> AdoptedCode:
        """Return the code of `name`, held to the edition that is asked for. Raises `Unusable`."""
        code = self.adopt(name, None)
        if self.edition is None or code.edition == self.edition:
            return replace(code, choices=tuple(self.choices)) if self.choices else code
        if self.edition not in self.shelf.editions:
            known = list(self.shelf.editions)
            raise refuse(
                None, f"no edition is called `{self.edition}`{nearest(self.edition, known) or known_names(known)}"
            )
        could = sorted({code.edition, *(one for choice in self.choices for one in choice.editions)})
        when = f"on {self.on}" if self.on else "now"
        raise refuse(
            None,
            f"`{name}` does not take {self.edition} {when}, but {' or '.join(could)}; correct the edition or the date",
        )

    def adopt(self, name: str, asked_at: Place | None) -> AdoptedCode:
        """Return the code of edition, jurisdiction or adoption file `name`, which `asked_at` names. Raises `Unusable`."""
        if slug(name) in self.seen:
            ring = " adopts ".join([*self.seen.values(), name])
            raise refuse(asked_at, f"the adoptions go in a circle: {ring}; let one of them adopt an edition")
        self.seen[slug(name)] = name
        if slug(name) in self.shelf.editions:
            return replace(self.shelf.edition(slug(name)), applied_on=self.on)
        return self.resolved(self._adoption(name, asked_at))

    def resolved(self, adoption: Adoption) -> AdoptedCode:
        """Return what `adoption` makes of its parent. Raises `Unusable` with every problem of the chain."""
        if is_law(adoption):
            told = f"{adoption.jurisdiction} {NO_CODE}; check by the code of one of these"
            raise Unusable(tuple(not_of_a_law(adoption)) or [Problem(adoption.place, told)])
        parent = self.adopt(adoption.adopts, adoption.place_of("adopts"))
        for name in adoption.held_to:
            parent = self._held_to(name, adoption.place_of("held_to"), parent)
        code = self._amended(adoption, parent)
        if self.problems:
            raise Unusable(self.problems)
        return code

    def _held_to(self, name: str, asked_at: Place, parent: AdoptedCode) -> AdoptedCode:
        """Return `parent` under the locks of the law `name`, where that is in force. Raises `Unusable`."""
        laws = [read_record(Adoption, read_file(Path(name)))] if _is_file(name) else self._adoptions(name)
        if not laws:
            known = [place for place in self.shelf.jurisdictions if all(map(is_law, self._adoptions(place)))]
            raise refuse(asked_at, f"no law is called `{name}`{nearest(slug(name), known) or known_names(known)}")
        if any(not is_law(law) for law in laws):
            raise refuse(
                asked_at, f"`{name}` adopts a code of its own; name it under `adopts`, and its locks hold as well"
            )
        in_force = usable(laws, self.on)
        if not in_force:
            return parent
        if wrong := tuple(not_of_a_law(in_force[0])):
            raise Unusable(wrong)
        law = self.of_law(in_force[0], parent)
        told = (*law.code.renamed, *law.problems)  # what a law locks need not be in every edition
        return replace(parent, locks=law.code.locks, caveats=law.code.caveats, renamed=told)

    def of_law(self, law: Adoption, parent: AdoptedCode) -> Amending:
        """Return what `law` locks of `parent`, with what is not there to lock."""
        amending = Amending(law, parent, self.on, self.shelf.words, lambda day: ())
        amending.run()
        return amending

    def _adoption(self, name: str, asked_at: Place | None) -> Adoption:
        if _is_file(name):
            return read_record(Adoption, read_file(Path(name)))
        adoptions = self._adoptions(name)
        if not adoptions:
            known = [*self.shelf.jurisdictions, *self.shelf.editions]
            raise refuse(asked_at, f"no ruleset is called `{name}`{nearest(slug(name), known) or known_names(known)}")
        self._told_apart(name, adoptions)
        found = usable(adoptions, self.on)
        if not found:
            raise refuse(asked_at, none_usable(name, adoptions, self.on))
        return found[0] if len(found) == 1 else self._chosen_of(found)

    def _told_apart(self, name: str, adoptions: list[Adoption]) -> None:
        """Refuse two files of one place that are in force from the same day, of which either could be meant."""
        by_day: dict[date, Adoption] = {}
        for one in adoptions:
            if (first := by_day.setdefault(one.in_force, one)) is not one:
                told = f"`{name}` has another file in force from {one.in_force}, {first.place}; keep one, or correct the day"
                raise refuse(one.place_of("in_force"), told)

    def _adoptions(self, name: str) -> list[Adoption]:
        return [self.shelf.adoption(path) for path in self.shelf.jurisdictions.get(slug(name), ())]

    def _chosen_of(self, found: list[Adoption]) -> Adoption:
        """Return the one of several usable adoptions that leads to the edition asked for, else the newest; it is told."""
        leads = {id(one): self._leads_to(one.adopts, frozenset()) for one in found}
        fitting = [one for one in found if self.edition in leads[id(one)]]
        taken = fitting[0] if fitting else found[0]
        others = [one for one in found if one is not taken]
        names = {id(one): " or ".join(leads[id(one)]) for one in found}
        self.choices.append(
            EditionChoice(
                taken.jurisdiction,
                self.on,
                called(taken, names[id(taken)]),
                tuple(called(one, names[id(one)]) for one in others),
                tuple(dict.fromkeys(edition for one in (taken, *others) for edition in leads[id(one)])),
                bool(fitting),
            )
        )
        return taken

    def _leads_to(self, adopts: str, passed: frozenset[str]) -> tuple[str, ...]:
        """Return the editions to which what is called `adopts` may lead on the day."""
        name = slug(adopts)
        if name in self.shelf.editions:
            return (name,)
        above = () if name in passed else usable(self._adoptions(adopts), self.on)
        return tuple(dict.fromkeys(edition for one in above for edition in self._leads_to(one.adopts, passed | {name})))

    def _amended(self, adoption: Adoption, parent: AdoptedCode) -> AdoptedCode:
        amending = Amending(adoption, parent, self.on, self.shelf.words, partial(self._limits_then, adoption))
        amending.run()
        self.problems.extend(amending.problems)
        return amending.code

    def _limits_then(self, adoption: Adoption, begins: date) -> Iterator[Table]:
        """Yield the limits that `adoption` amended when it came into force and when an act began; none that do not resolve."""
        for day in sorted({adoption.in_force, max(begins, adoption.in_force)}):
            try:
                code = Fold(self.shelf, day).chosen(adoption.adopts)
                yield code.limits
                for edition in code.other_editions:
                    yield Fold(self.shelf, day, edition).chosen(adoption.adopts).limits
            except Unusable:
                continue


def _is_file(name: str) -> bool:
    return Path(name).suffix in (".yaml", ".yml")
