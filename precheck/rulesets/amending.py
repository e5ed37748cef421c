"""What one adoption makes of its parent: its acts, one after the other in the order of their days."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date
from functools import partial
from typing import Any

from precheck.files.missing import is_missing
from precheck.files.source import Problem, Unusable
from precheck.rulesets.adopted import AdoptedCode, ChainLink
from precheck.rulesets.amend import act_on, locked, set_criterion, verb_of
from precheck.rulesets.common import refuse
from precheck.rulesets.files import Adoption, Amendment
from precheck.rulesets.limit import Limit, Table, frozen
from precheck.rulesets.lock import Breach, Lock, breaches
from precheck.rulesets.vocabulary import Vocabulary
from precheck.rulesets.was import Parent


class Amending:
    """The acts of `adoption` on the limits of its `parent`, as they hold on a day, and what is told on the way."""

    def __init__(
        self,
        adoption: Adoption,
        parent: AdoptedCode,
        on: date | None,
        words: Vocabulary,
        then: Callable[[date], Iterable[Table]],
    ) -> None:
        self.adoption, self.parent, self.on = adoption, parent, on
        self.above = Parent(parent.formerly, words, then)
        self.limits: dict[str, Limit[Any]] = dict(parent.limits)
        self.requirements = {found.name: found for found in parent.requirements}
        self.locks: list[Lock] = []
        self.told: list[Problem] = []
        self.aside: list[tuple[str, str]] = []  # amendments that do not hold, with why
        self.problems: list[Problem] = []

    def run(self) -> None:
        """Do all acts that hold on the day; what is wrong with them goes to `problems`."""
        for key in self.adoption.design_criteria:
            self._try(partial(set_criterion, self.adoption, key, self.limits))
        for amendment in sorted(self.adoption.amendments, key=lambda one: one.begins):
            if amendment.holds(self.on):
                self._try(partial(self._act, amendment))

    @property
    def code(self) -> AdoptedCode:
        """The code that comes of it."""
        adoption, parent = self.adoption, self.parent
        step = ChainLink(adoption.jurisdiction, adoption.by, adoption.in_force, adoption.partial, adoption.place)
        renamed = adoption.block.renamed if adoption.block is not None else ()
        return replace(
            parent,
            name=adoption.jurisdiction,
            applied_on=self.on,
            chain=(*parent.chain, step),
            limits=frozen(self.limits),
            requirements=tuple(self.requirements.values()),
            caveats=(*parent.caveats, *_notes(adoption, self.on), *self.aside),
            renamed=(*parent.renamed, *renamed, *self.told),
            locks=(*parent.locks, *self.locks),
        )

    def _try(self, act: Callable[[], None]) -> None:
        try:
            act()
        except Unusable as error:
            self.problems.extend(error.problems)

    def _act(self, amendment: Amendment) -> None:
        if verb_of(amendment) == "lock":
            what = locked(amendment, self.limits, self.above, self.told)
            self.locks.append(self._lock(amendment, what))
            return
        after, requirements = dict(self.limits), dict(self.requirements)
        act_on(amendment, after, requirements, self.above, self.told)
        for breach in breaches(self.parent.locks, self.parent.limits, self._touched(after)):
            if not self._stands(amendment, breach):
                self._keep_as_above(breach.name, after, requirements)
        self.limits, self.requirements = after, requirements

    def _touched(self, after: Mapping[str, Limit[Any]]) -> dict[str, Limit[Any]]:
        """Return the limits that one act has changed; nothing where no ruleset above locks any."""
        if not self.parent.locks:
            return {}
        return {name: limit for name, limit in after.items() if self.limits.get(name) is not limit}

    def _lock(self, amendment: Amendment, what: str) -> Lock:
        begins = self._begins(amendment)
        assert not is_missing(amendment.localities)
        place = amendment.place_of("lock")
        return Lock(self.adoption.jurisdiction, what, amendment.localities, amendment.by, begins, place)

    def _begins(self, amendment: Amendment) -> date:
        return self.adoption.in_force if is_missing(amendment.from_) else amendment.from_

    def _stands(self, amendment: Amendment, breach: Breach) -> bool:
        """Tell that a limit is changed although it is locked, and return whether the change holds none the less.

        Raises `Unusable` where the lock held already when the amendment took effect.
        """
        place, lock = amendment.place_of(verb_of(amendment)), breach.lock
        if not breach.certain:
            told = f"`{breach.name}` is changed, and {lock}. Whether this asks for more or for less cannot be told here; see to it"
            self.told.append(Problem(place, told))
            return True
        if amendment.despite:
            self.told.append(
                Problem(place, f"`{breach.name}` is changed despite a lock, by {amendment.despite}. {lock}")
            )
            return True
        if lock.begins <= self._begins(amendment):
            told = f"`{breach.name}` may not be changed in this way: {lock}"
            raise refuse(place, f"{told}; take it out, or name the act that allows it: `despite: ...`")
        self._set_aside(amendment, breach)
        return False

    def _set_aside(self, amendment: Amendment, breach: Breach) -> None:
        lock = breach.lock
        told = (
            f"what {self.adoption.jurisdiction} made of it ({amendment.by}) does not hold from {lock.begins} on: {lock}"
        )
        self.aside.append((breach.name, told))
        self.told.append(Problem(amendment.place, f"`{breach.name}`: {told}; end it there with `until:`"))

    def _keep_as_above(self, name: str, after: dict[str, Limit[Any]], requirements: dict[str, Any]) -> None:
        if name in self.parent.limits:
            after[name] = self.parent.limits[name]
        else:
            del after[name]
            requirements.pop(name, None)


def _notes(adoption: Adoption, on: date | None) -> Iterator[tuple[str, str]]:
    """Yield what an adoption notes of itself, and of each limit that it touches: what its numbers leave out."""
    if adoption.note:
        yield "", adoption.note
    for one in adoption.amendments:
        name = next((name for name in (one.amend, one.delete, one.add, one.lock) if isinstance(name, str)), "")
        if one.note and one.holds(on):
            yield name, one.note
