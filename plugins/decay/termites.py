"""Termites: a method of protection where the place has them, and foam at the foundation."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    OUTSIDE,
    Check,
    Fact,
    Footing,
    House,
    Length,
    Limit,
    Limits,
    Part,
    Slab,
    TermiteProtection,
    Wall,
    at_least,
    decide,
    does_not_apply,
    fact,
    is_furring,
    is_missing,
    met,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)


@fact
class GroundWork(Fact):
    """The work on what touches the ground: there is one of it, about the protection or the first part that asks.

    `relied_on` says that a protection is old, and that new work at the ground has no other.
    """

    part: Part
    protection: TermiteProtection | None
    relied_on: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[GroundWork]:
        """Yield what protects, or else the first new footing, slab or wall to the outside; a footing indoors asks for none."""
        drawn = [one for one in house.project.termite_protections if not one.is_removed]
        touches = (p for p in house.project.parts if isinstance(p, Footing | Slab | Wall) and p.phase == "new")
        first = next((p for p in touches if _is_outer(p, house)), None)
        old_alone = first is not None and all(one.is_existing for one in drawn)
        yield from (cls(one, one, one, old_alone) for one in drawn)
        if not drawn and first is not None:
            yield cls(first, first, None, False)

    @property
    def phase(self) -> Any:
        """``altered`` for an old protection on which new work at the ground relies."""
        return "altered" if self.relied_on else self.part.phase


def _is_outer(part: Part, house: House) -> bool:
    """Return whether a part meets the ground outside: a wall there that is no lining, a footing that is not said to be indoors."""
    if isinstance(part, Footing):
        return part.outdoors is not False
    return not isinstance(part, Wall) or (OUTSIDE in part.between and not is_furring(part, house))


class MethodLimits(Limits):
    methods: Limit[tuple[str, ...]]
    none: Limit[tuple[str, ...]]
    probability: Limit[Any] = reads("criteria.termites")


@rule("decay.termites", stage="foundation")
def termites(work: GroundWork, limit: MethodLimits, house: House) -> Check:
    """New work at the ground is protected from termites where the place has them."""
    found = house.criterion(limit.probability.value, "termites")
    free = () if is_missing(limit.none.value) else limit.none.value or ()
    if found is None or str(found).lower() in free:
        return does_not_apply("the place has few termites, or none")
    if is_missing(found):
        return not_shown(found)
    if work.protection is None:
        return not_shown(work.about.absent("termite protection")).because(f"termites are {found} here")
    return one_of(work.protection.method, limit.methods).because(f"termites are {found} here")


class FoamLimits(Limits):
    above_earth: Limit[Length]
    above_grade_only: Limit[bool]
    heavy: Limit[tuple[str, ...]]
    probability: Limit[Any] = reads("criteria.termites")


@rule("decay.foam", stage="foundation")
def foam(protection: TermiteProtection, limit: FoamLimits, house: House) -> Check:
    """Foam plastic outside a foundation ends above grade; where termites are very heavy none is below grade."""
    if protection.foam_outside is False:
        return does_not_apply("no foam is outside the foundation")
    if is_missing(protection.foam_outside):
        return not_shown(protection.foam_outside)
    high = at_least(protection.foam_above_earth, limit.above_earth)
    found = house.criterion(limit.probability.value, "termites")
    heavy = when_given(lambda own, words: str(own).lower() in (words or ()), found, limit.heavy.value)
    return decide(heavy, _buried(protection, limit), high)


def _buried(protection: TermiteProtection, limit: FoamLimits) -> Check:
    if protection.noncombustible_or_treated_structure is True or protection.foam_approved is True:
        return met("the structure gives termites nothing, or the protection of the foam is approved")
    without = when_given(lambda below: not below, protection.foam_below_grade)
    return required(without, limit.above_grade_only)
