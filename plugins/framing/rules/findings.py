"""Sentences of findings on members: how much is used, by what, worked out how."""

from __future__ import annotations

from collections.abc import Callable
from math import floor
from typing import Any

from precheck_plugins.framing.drawn.design import Design
from precheck_plugins.framing.drawn.load_cases import name_of
from precheck_plugins.framing.members.capacity import DemandCapacity
from precheck_plugins.framing.timber.steps import Step

from precheck import Check, Look, Outcome, Ratio, look_at

PERMILLE = 1000
TABLE_ROUNDING_IN = 0.5


def within_rounding(design: Design, check: Check, passes: Callable[[Design], bool]) -> Check:
    """Return `check`, or a warning where the member fails by no more than the half inch that span tables round up."""
    if check.outcome is not Outcome.FAIL or not design.is_of_a_table or not passes(design.shorter(TABLE_ROUNDING_IN)):
        return check
    why = "it passes on a span half an inch shorter: span tables are rounded to the nearest inch, and print this one"
    return look_at(Look.CLOSE, why)


def share_used(compared: DemandCapacity) -> Ratio:
    """Return demand over capacity as a share, to one tenth of a percent, and never rounded across the limit."""
    thousandths = compared.ratio * PERMILLE
    rounded = floor(thousandths + 0.5)
    if (rounded <= PERMILLE) != compared.passes:
        rounded = PERMILLE if compared.passes else PERMILLE + 1
    return Ratio.parse(f"{rounded / 10:.1f} %")


def governing_name(found: tuple[Any, DemandCapacity]) -> str:
    """Say which comparison governs."""
    return name_of(*found)


def work(design: Design, *what: str) -> tuple[Step, ...]:
    """Return the calculation of the case that governs."""
    found = design.worst(*what)
    return design.steps(found[0]) if found else ()
