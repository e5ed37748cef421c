"""When the seal of an architect or engineer is due. The law of the place sets every limit."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Area,
    Check,
    House,
    Length,
    Limit,
    Limits,
    Member,
    Missing,
    Outcome,
    Project,
    RetainingWall,
    all_of,
    at_most,
    broken,
    decide,
    does_not_apply,
    first_given,
    is_missing,
    met,
    not_shown,
    one_of,
    rule,
    when_given,
)

CHANGED = frozenset(("new", "altered"))


class SealLimits(Limits):
    floor_area: Limit[Area]
    stories: Limit[int]
    span: Limit[Length]
    retaining_height: Limit[Length]
    kinds: Limit[tuple[str, ...]]
    by: Limit[tuple[str, ...]]


@rule("package.seal", stage="intake", existing="must comply")
def seal(project: Project, limit: SealLimits, house: House) -> Check:
    """Drawings beyond the size or kind of work that state law sets carry the seal of an architect or engineer.

    The floor area of the house is as stated; rooms that are drawn show that it is large, and never that it is small.
    """
    free = all_of(does_not_apply("no law that asks for a seal is in the ruleset"), *_without(project, limit, house))
    submittal = project.submittal
    by = project.absent("sealed by (of the submittal)") if is_missing(submittal) else submittal.sealed_by
    sealed = (_any(by) if limit.by.value is None else one_of(by, limit.by)).or_fix("have the drawings sealed")
    if free.outcome is Outcome.DOES_NOT_APPLY:
        return does_not_apply(limit.by.why_void or "nothing here calls for a seal")
    due = {Outcome.FAIL: True, Outcome.WARN: True, Outcome.PASS: False}.get(free.outcome)
    asked = Missing(*free.needs) if due is None else due
    return decide(asked, sealed.because(free.why), does_not_apply("within the sizes that need no seal"))


def _any(by: str | Missing) -> Check:
    """Check that somebody seals the drawings, where the law says when and not who."""
    return not_shown(by) if is_missing(by) else broken("no seal") if by == "none" else met(f"sealed by the {by}")


def _without(project: Project, limit: SealLimits, house: House) -> Iterator[Check]:
    """Yield what must hold of the work for it to need no seal."""
    if limit.floor_area.value is not None:
        yield _area(project, limit.floor_area, house)
    if limit.stories.value is not None:
        levels = [s.level for s in project.stories if not s.is_removed]
        count = when_given(lambda *given: sum(level in ("ground", "upper") for level in given), *levels)
        known = count if levels else project.absent("stories")
        yield at_most(known, limit.stories).because(_told("the house has {} stories", known))
    for member in house.subjects(Member):
        if member.phase in CHANGED and limit.span.value is not None:
            yield at_most(member.span, limit.span).because(_told(f"{member.label} spans {{}}", member.span))
    for wall in house.subjects(RetainingWall):
        if wall.phase in CHANGED and limit.retaining_height.value is not None:
            yield at_most(wall.height, limit.retaining_height).because(_told(f"{wall.label} is {{}} high", wall.height))
    kinds = () if is_missing(limit.kinds.value) else limit.kinds.value or ()
    for part in project.parts:
        if part.phase in CHANGED and part.kind in kinds:
            yield broken(f"{part.label} is {part.phase}")


def _area(project: Project, limit: Limit[Area], house: House) -> Check:
    sure = house.known_floor_area
    over = at_most(sure, limit).because(f"the rooms drawn have {sure}")
    stated = first_given(project.dwelling.floor_area, project.absent("floor area of dwelling"))
    told = at_most(stated, limit).because(_told("the house has {}", stated))
    return over if over.outcome is Outcome.FAIL else told


def _told(words: str, measured: object) -> str:
    return "" if is_missing(measured) else words.format(measured)
