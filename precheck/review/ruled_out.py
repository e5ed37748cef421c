"""What a project rules out in words, against the lines of what its works take."""

from __future__ import annotations

from dataclasses import replace

from precheck.checks import Outcome, broken
from precheck.files import spelling
from precheck.project import Exclusion, Project
from precheck.review.finding import Finding
from precheck.rules.line import Line
from precheck.rulesets import AdoptedCode


def ruled_out(finding: Finding, project: Project, code: AdoptedCode) -> Finding:
    """Return `finding` as it stands where the project rules its line out; a firm line stays due, and fails then."""
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
    known = (limit.measures, finding.rule.name, topic, code.trades.get(topic, ""), finding.subject.kind)
    return named in {spelling.plain(one) for one in known if one}
