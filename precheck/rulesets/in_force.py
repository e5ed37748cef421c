"""Which adoptions of a jurisdiction may be used on a day: the newest, and beside it each whose last day is yet to come."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from precheck.files.missing import is_missing
from precheck.rulesets.files import Adoption


class EditionChoice(NamedTuple):
    """A jurisdiction that leaves the choice on a day: what was taken, and what could be, by edition; in words."""

    jurisdiction: str
    day: date | None
    taken: str
    others: tuple[str, ...]
    editions: tuple[str, ...]  # all that can be chosen, that of the one taken first
    is_persons: bool  # whether the person chose

    def __str__(self) -> str:
        how = "as chosen" if self.is_persons else "the newest"
        told = f"{self.jurisdiction} leaves the choice {f'on {self.day}' if self.day else 'now'}: applied is {self.taken}, {how}"
        told += f"; allowed is also {' and '.join(self.others)}."
        other = next((one for one in self.editions if one != self.editions[0]), None)
        return (
            told
            if self.is_persons or other is None
            else f"{told} To choose, write `code edition: {other}` in the project."
        )


def usable(adoptions: Iterable[Adoption], on: date | None) -> list[Adoption]:
    """Return those of `adoptions` that may be used on a day, newest first; without a day, the newest that is known.

    A later adoption ends the one before it, unless that says until when it may be used.
    """
    begun = (one for one in adoptions if on is None or one.in_force <= on)
    newest_first = sorted(begun, key=lambda one: one.in_force, reverse=True)
    return [one for number, one in enumerate(newest_first) if _may_be_used(one, on, number == 0)]


def _may_be_used(adoption: Adoption, on: date | None, newest: bool) -> bool:
    if is_missing(adoption.until):
        return newest
    return adoption.until >= (on or date.today())  # noqa: DTZ011  # where the person sits


def none_usable(name: str, adoptions: Sequence[Adoption], on: date | None) -> str:
    """Return why none of `adoptions` of the jurisdiction `name` may be used on a day, and what to do."""
    last = max(adoptions, key=lambda one: one.in_force)
    if on is None or last.in_force <= on:
        what = (
            f"the last adoption of `{name}` ended on {last.until}; add the one that follows it, or name an earlier date"
        )
        return f"{what}, or the edition that applies now"
    first = min(one.in_force for one in adoptions)
    if first <= on:
        after = min(one.in_force for one in adoptions if one.in_force > on)
        return (
            f"`{name}` has no adoption in force on {on}; one ended before, the next begins {after}. Give another date"
        )
    what = f"`{name}` has no adoption in force on {on}; its first is of {first}. Give a later date"
    return f"{what}, or name the edition that applied then"


def called(adoption: Adoption, edition: str) -> str:
    """Return an adoption as one speaks of it: ``irc-2021 (adopted 2023-01-01, until 2026-06-30)``."""
    until = "" if is_missing(adoption.until) else f", until {adoption.until}"
    return f"{edition} (adopted {adoption.in_force}{until})"
