"""What of each work is shown: its lines, each in one state, as reports open with them."""

from __future__ import annotations

from collections.abc import Iterable

from precheck.checks import Outcome
from precheck.review.finding import Finding, LineState, State, WorkState
from precheck.rules.line import Line
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import WORKS, Limit
from precheck.survey import House
from precheck.survey.works import Work, Works


def works_of(
    findings: Iterable[Finding], house: House, code: AdoptedCode, topics: frozenset[str]
) -> tuple[WorkState, ...]:
    """Return the works of `house` with the state of each line (of `topics`, where named)."""
    by_work: dict[int, list[LineState]] = {}
    for finding in findings:
        if (isinstance(finding.rule, Line) and finding.outcome is not Outcome.DOES_NOT_APPLY) or finding.ruled_out:
            by_work.setdefault(id(finding.subject), []).append(_state(finding, code))
    unchecked = [limit for limit in code.limits.values() if limit.takes is not None and limit.takes.not_checked]
    return tuple(
        WorkState(work, (*by_work.get(id(work), ()), *_not_checked(work, unchecked, topics)))
        for work in Works.of(house).works
    )


def _state(finding: Finding, code: AdoptedCode) -> LineState:
    state: State = "shown" if finding.outcome >= Outcome.WARN else "to show"
    by = finding.check.why if state == "shown" else ""
    if finding.ruled_out is not None and finding.outcome is Outcome.DOES_NOT_APPLY:
        state, by = "ruled out", finding.ruled_out.why
    limit = finding.limits[0] if finding.limits else code.limits[f"{finding.rule.name}.{WORKS}"]  # none of an error
    return _line(limit, state, by)


def _not_checked(work: Work, limits: list[Limit[object]], topics: frozenset[str]) -> list[LineState]:
    due = (limit for limit in limits if isinstance(limit.value, tuple) and work.kind in limit.value)
    lines = [_line(limit, "not checked", limit.takes.not_checked if limit.takes else "") for limit in due]
    return [line for line in lines if not topics or line.topic in topics]


def _line(limit: Limit[object], state: State, by: str) -> LineState:
    name = limit.name.removesuffix(f".{WORKS}")
    asked, show_on = (limit.takes.asked, limit.takes.show_on) if limit.takes else ("early", "")
    return LineState(limit.measures, name, name.partition(".")[0], state, by, limit.citation, asked, show_on)
