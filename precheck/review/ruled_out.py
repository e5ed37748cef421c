"""What a project rules out in words, against the lines of what its works take."""

from __future__ import annotations

from dataclasses import replace

from precheck.checks import Look, Outcome, broken, look_at
from precheck.files import spelling
from precheck.project import Exclusion, Project
from precheck.review.finding import Finding
from precheck.rules.line import Line
from precheck.rulesets import AdoptedCode
from precheck.rulesets.limit import WORKS


def ruled_out(finding: Finding, project: Project, code: AdoptedCode) -> Finding:
    """Return `finding` as it stands where the project rules its line out; a firm line stays due, and fails then.

    A finding about something ruled out itself tells where that names nothing which the code could ask for.
    """
    if isinstance(finding.subject, Exclusion):
        return _told_if_unknown(finding, finding.subject, code)
    if not isinstance(finding.rule, Line) or finding.outcome is not Outcome.NOT_SHOWN:
        return finding
    exclusion = next((one for one in project.not_in_this_job if _names(one, finding, code)), None)
    if exclusion is None:
        return finding
    limit = finding.limits[0]
    if limit.takes is not None and limit.takes.firm:
        told = f"`{exclusion.what}` is said not to be in this job, and {finding.subject.kind} takes it"
        check = broken(told, limit).or_fix(f"show the {limit.measures}, or take `{exclusion.what}` off the list")
        return replace(finding, check=check, outcome=Outcome.FAIL, ruled_out=exclusion)
    return replace(finding, outcome=Outcome.DOES_NOT_APPLY, ruled_out=exclusion)


def _names(exclusion: Exclusion, finding: Finding, code: AdoptedCode) -> bool:
    """Return whether what is ruled out is the line, its topic, its trade or the work itself."""
    named = spelling.plain(exclusion.what)
    limit, topic = finding.limits[0], finding.rule.topic
    known = (limit.measures, finding.rule.name, topic, code.trades.get(topic, ""))
    return exclusion.work == finding.subject.kind or named in {spelling.plain(one) for one in known if one}


def _told_if_unknown(finding: Finding, exclusion: Exclusion, code: AdoptedCode) -> Finding:
    if finding.outcome is not Outcome.PASS or exclusion.work is not None:
        return finding
    lines = [limit for limit in code.limits.values() if limit.takes is not None]
    known = {*code.trades, *code.trades.values(), *(one.measures for one in lines)}
    known |= {one.name.removesuffix(f".{WORKS}") for one in lines}
    if spelling.plain(exclusion.what) in {spelling.plain(one) for one in known if one}:
        return finding
    told = f"`{exclusion.what}` names no work, trade or topic, and nothing that a work takes; it rules nothing out"
    return replace(finding, check=look_at(Look.PRACTICE, told), outcome=Outcome.WARN)
