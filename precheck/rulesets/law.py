"""A law that adopts no code and does no more than lock: its locks hold over each place that says it is held to it."""

from __future__ import annotations

from collections.abc import Iterator

from precheck.files.missing import is_missing
from precheck.files.source import Problem
from precheck.rulesets.files import Adoption

NO_CODE = "adopts no code of its own: its locks hold over each place that names it under `held to`"


def is_law(adoption: Adoption) -> bool:
    """Whether the ruleset adopts nothing."""
    return not adoption.adopts


def not_of_a_law(adoption: Adoption) -> Iterator[Problem]:
    """Yield what a ruleset that adopts nothing may not say: all but locks needs a code to be said of."""
    others = [one for one in adoption.amendments if is_missing(one.lock)]
    if others or not adoption.amendments:
        told = "write an edition, such as irc-2021, or the place whose code it takes over"
        yield Problem(
            adoption.place, f"`adopts` is not given; {told}. Only what does no more than lock may leave it out"
        )
        return
    for key in ("design criteria", "held to", "cases"):
        if adoption.block is not None and key in adoption.block:
            place = adoption.block.place_of(key)
            yield Problem(place, f"`{key}` needs a code, and this ruleset adopts none; write it in one that does")
