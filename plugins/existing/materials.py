"""Old houses: paint with lead and materials with asbestos, which a test finds before work opens what stands."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import (
    Check,
    House,
    Limit,
    Limits,
    Missing,
    Outcome,
    Part,
    Scope,
    all_of,
    decide,
    does_not_apply,
    is_missing,
    missing_of,
    required,
    rule,
    when_given,
)

STANDS = ("existing", "altered")
NOT_MET = (Outcome.WARN, Outcome.FAIL)  # a jurisdiction may require what the editions only advise


class OldMaterialLimits(Limits):
    lead_before: Limit[int]
    asbestos_until: Limit[int]
    lead_test: Limit[bool]
    asbestos_test: Limit[bool]


@rule("existing.old-materials", stage="intake", existing="must comply")
def old_materials(scope: Scope, limit: OldMaterialLimits, house: House) -> Check:
    """Before work opens what stands in an old house, a test has looked for lead paint and for asbestos.

    A caution for those who live and work there, which only advises. The year the house was built decides which of the
    two is looked for. What is altered or removed opens old finishes, and so does what is new in a room that stands.
    """
    opened = _opened(scope, house)
    if scope.new_house is True or opened is None:
        return does_not_apply("the house is new" if scope.new_house is True else "nothing that stands is opened")
    year = _of_dwelling("year built", house)
    old = _is_old(year, limit.lead_before, last=False), _is_old(year, limit.asbestos_until, last=True)
    lead = _tested(old[0], opened, _of_dwelling("lead tested", house), "lead paint", limit.lead_test)
    asbestos = _tested(old[1], opened, _of_dwelling("asbestos tested", house), "asbestos", limit.asbestos_test)
    due = " and ".join(w for c, w in ((lead, "lead paint"), (asbestos, "asbestos")) if c.outcome in NOT_MET)
    work = "" if is_missing(opened) else f"{opened.label} is {opened.phase}"
    built = "" if is_missing(year) else f"the house was built in {year}"
    return (
        all_of(lead, asbestos)
        .because(", and ".join(why for why in (work, built) if why))
        .or_fix(f"before demolition, have a certified firm test the old finishes for {due}; the dust is harmful")
    )


def _tested(
    old: bool | Missing, opened: Part | Missing, tested: bool | Missing, what: str, limit: Limit[bool]
) -> Check:
    """Check that there was a test for `what` where the house is `old`; what is not given warns only where it matters."""
    check = required(tested, limit)
    if old is False or check.outcome in (Outcome.PASS, Outcome.DOES_NOT_APPLY):
        return decide(old, check, does_not_apply(f"the house is not of the years of {what}"))
    unsure = missing_of(old, opened)
    return check if unsure is None else required(unsure, limit)


def _is_old(year: int | Missing, limit: Limit[int], last: bool) -> bool | Missing:
    """Return whether a house of `year` is old enough: of the year of `limit` too where that is the `last` such year."""
    end = limit.value
    return False if end is None else when_given(lambda built, end: built <= end if last else built < end, year, end)


def _of_dwelling(key: str, house: House) -> Any:
    dwelling = house.project.dwelling
    return (
        house.project.absent(f"{key} of dwelling") if is_missing(dwelling) else getattr(dwelling, key.replace(" ", "_"))
    )


def _opened(scope: Scope, house: House) -> Part | Missing | None:
    """Return the first part whose work opens what stands; what is missing where that is not given; None where none does."""
    parts = [change.part for change in scope.changes]
    found = [p for p in parts if p.phase in ("altered", "removed") or (p.phase == "new" and _in_what_stands(p, house))]
    return found[0] if found else missing_of(*(p.phase for p in parts[:3]))


def _in_what_stands(part: Part, house: House) -> bool:
    return any(s is not None and s.phase in STANDS for s in (house.space(n) for n in _spaces_of(part)))


def _spaces_of(part: Part) -> Iterator[str]:
    """Yield the ids of the spaces that `part` says it is in, or between."""
    inside = getattr(part, "space", None)
    yield from (name for name in (inside, *getattr(part, "between", ())) if isinstance(name, str))
