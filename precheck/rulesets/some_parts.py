"""An amendment for some parts only: another value of a limit for those of one kind that meet its conditions.

The value of all others stays as it is. An amendment of the same parts by a ruleset below, or a later day, takes the place of
the one before; of two that hold for one part the later counts.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from precheck.files.missing import is_missing
from precheck.files.source import Problem
from precheck.rulesets.common import refuse
from precheck.rulesets.conditions import all_hold, conditions, in_words
from precheck.rulesets.files import Amendment
from precheck.rulesets.limit import CRITERIA, ForSome, Limit
from precheck.rulesets.vocabulary import Vocabulary

Aim = Callable[[Limit[Any]], Limit[Any]]
"""What finds, in a limit, what an amendment changes of it: the limit itself, or that of some parts."""


def is_for_some(amendment: Amendment) -> bool:
    """Whether `amendment` is about some parts only."""
    return not is_missing(amendment.part) or bool(amendment.where)


def named(amendment: Amendment, limit: Limit[Any], words: Vocabulary) -> ForSome:
    """Return the parts that `amendment` is about, with the `limit` as it is for all. Raises `Unusable`."""
    if is_missing(amendment.part):
        raise refuse(amendment.place_of("where"), "`part` is not given; write the kind of part, such as `part: window`")
    if not amendment.where:
        told = "`where` is not given; write what these parts have in common, or leave `part` out to amend it for all"
        raise refuse(amendment.place_of("part"), told)
    if limit.takes is not None or limit.name.startswith(f"{CRITERIA}."):
        raise refuse(amendment.place_of("part"), f"`{limit.name}` is not asked of single parts; leave `part` out")
    place = amendment.place_of("where")
    written = amendment.block["where"] if amendment.block is not None else amendment.where
    found = conditions(part := words.part(amendment.part, amendment.place_of("part")), written, place, words)
    return ForSome(part, in_words(found), partial(all_hold, found), replace(limit, for_some=()))


def aim_at(some: ForSome) -> Aim:
    """Return what finds the value of `some` parts in a limit: their own, or that of all where they have none."""
    return lambda limit: next((one.limit for one in limit.for_some if one.is_like(some)), replace(limit, for_some=()))


def with_some(limit: Limit[Any], some: ForSome, changed: Limit[Any]) -> Limit[Any]:
    """Return `limit` with what was `changed` of it for `some` parts, as the last of what it has for some."""
    event = changed.history[-1]._replace(of=str(some))
    theirs = replace(some, limit=replace(changed, history=(*changed.history[:-1], event)))
    return replace(limit, for_some=(*(one for one in limit.for_some if not one.is_like(some)), theirs))


def left_standing(amendment: Amendment, limit: Limit[Any]) -> list[Problem]:
    """Return what to tell of an amendment of all parts, where a ruleset above has another value for some: it stays."""
    return [
        Problem(
            amendment.place_of("amend"),
            f"`{limit.name}` is {one.limit.text} for {one} ({one.limit.history[-1].source}, {one.limit.history[-1].place}). "
            "That stays; amend it too, with `part` and `where`, where all parts are meant",
        )
        for one in limit.for_some
    ]
