"""A finding in plain words: what every format says of it, made in one place."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any

from precheck.checks import Outcome
from precheck.checks.evidence import Evidence, evidence_of
from precheck.checks.outcome import capital
from precheck.files.missing import Need, is_missing
from precheck.files.source import Place
from precheck.reports.groups import LOOKS
from precheck.reports.in_model import global_id
from precheck.review.finding import READY, Finding, Review
from precheck.rulesets.limit import Event, Limit
from precheck.survey import part_of

MANY = 4  # topics that a verdict no longer names one by one
ALL_COVERED = "Every limit of the adopted code is covered by a check."
REMINDER = (
    "This is a pre-check of what the project file says. The local building department has the final say on what the "
    "code requires and whether these plans meet it. Existing parts were taken as the file states them, not measured. "
    "Structure, fire separation, escape, electrical and gas work can injure people: where the findings say so, and "
    "wherever the work leaves the prescriptive tables, have a licensed design professional or contractor do it."
)


def label(finding: Finding) -> str:
    """Return what the finding is about, such as ``flight 1 of stair S1``."""
    name = getattr(finding.subject, "label", "")
    return str(name)


def subject(finding: Finding) -> dict[str, str]:
    """Return kind and id of the part that the finding is about, and the id that it has in a model it is drawn from."""
    part = part_of(finding.subject)
    kind, name = (part.kind, part.id) if part is not None else ("project", "")
    return {"kind": kind, "id": name, "global_id": global_id(part), "label": label(finding)}


def telling(finding: Finding) -> list[Evidence]:
    """Return the comparisons that made the finding what it is."""
    evidence = evidence_of(finding.check)
    return [e for e in evidence if e.outcome is finding.check.outcome] or evidence


def lines_of(finding: Finding) -> list[str]:
    """Return the finding's lines: what was compared, the reason, and why a person should look."""
    if finding.error:
        return [finding.error]
    told = telling(finding)
    lines = [evidence.sentence for evidence in told]
    why = finding.check.why
    if why and (not lines or finding.check.outcome is not Outcome.PASS):
        decided = any(evidence.outcome is finding.check.outcome for evidence in told)
        lines = [*lines, why] if decided else [why, *lines]
    if finding.look:
        lines += [LOOKS[look] for look in finding.look]
    return lines or [finding.rule.summary]


def message(finding: Finding) -> str:
    """Return the finding in one line."""
    return f"{label(finding)}: {'; '.join(lines_of(finding))}"


def to_do(finding: Finding) -> list[str]:
    """Return what would settle the finding: what to show, and the remedy where one could be worked out."""
    lines = [f"show: {'; '.join(needed)}"] if (needed := needs(finding)) else []
    return [*lines, f"fix: {finding.check.remedy}"] if finding.check.remedy else lines


def full_message(finding: Finding) -> str:
    """Return the finding, and what would settle it, in one line."""
    return "; ".join([message(finding), *to_do(finding)])


def limited(review: Review) -> str:
    """Return the words that a ready job is so in some topics only, or without some plugins, where the run was limited."""
    if review.verdict != READY:
        return ""
    return _part_of(review.topics, " in {} only", "topics") + _part_of(review.left_out, " without {}", "plugins")


def _part_of(names: tuple[str, ...], form: str, many: str) -> str:
    return form.format(" and ".join(names) if len(names) < MANY else f"{len(names)} {many}") if names else ""


def accepted_line(finding: Finding) -> str:
    """Return on what document the finding is accepted, by whom and until when; nothing where it is not."""
    return f"accepted: {finding.accepted.text}" if finding.accepted else ""


def record_notices(review: Review) -> list[str]:
    """Return the records of accepted findings that have run out or match nothing."""
    return [str(told) for told in review.record_notices]


def code_line(review: Review) -> str:
    """Return which code was applied, from the jurisdiction up to the edition, and as of when."""
    chain = " < ".join(step.name for step in reversed(review.code.chain))
    when = (
        f"as of {review.code.applied_on}"
        if review.code.applied_on
        else "newest adoption (no date of application given)"
    )
    return f"{chain}, {when}"


def passed_line(review: Review) -> str:
    """Return how many checks are met and how many do not apply."""
    met, aside = review.counts[Outcome.PASS], review.counts[Outcome.DOES_NOT_APPLY]
    return f"{f'{met} check' + ('' if met == 1 else 's') if met else 'No check'} met, {aside} not applicable."


def code_warning(review: Review) -> str:
    """Return that a ruleset of the chain is partial, and between which editions a place leaves the choice; or nothing."""
    names = ", ".join(step.name for step in review.code.chain if step.partial)
    partial = f"The ruleset of {names} is partial: it does not hold all local amendments." if names else ""
    return " ".join(filter(None, (partial, *map(str, review.code.choices))))


def needs(finding: Finding) -> list[str]:
    """Return the values that the project should give."""
    return [str(need) for need in finding.check.needs]


def act(event: Event) -> tuple[str, str]:
    """Return what was done to a limit, and the value that it got where it got one."""
    if event.act in ("deleted", "renumbered", "unchanged"):
        return event.act, ""
    if event.value == "set locally":
        return "left to the jurisdiction", ""
    return event.act, f"{event.value} for {event.of}" if event.of else event.value


def question(finding: Finding, need: Need | None = None) -> str:
    """Return what to ask the building department, as one says it on the telephone."""
    if need is not None:
        return f"What is the {need.key} at this address?"
    open_limit = next((limit for limit in finding.limits if is_missing(limit.value)), None)
    if open_limit is None or not finding.check.why.startswith(capital(open_limit.measures)):
        return f"About {label(finding)}: {finding.check.why or '; '.join(lines_of(finding))}."
    return open_question(open_limit)


def open_question(limit: Limit[Any]) -> str:
    """Return the question for a limit that the jurisdiction has yet to set."""
    if limit.sense in ("minimum", "maximum"):
        return f"What {limit.sense} do you set for {limit.measures}?"
    if limit.sense == "required" or limit.kind == "required":
        return f"Do you require {limit.measures}?"
    return f"What do you ask for: {limit.measures}?"


def show_on(finding: Finding) -> str:
    """Return on which sheet one looks for what a work takes; nothing of other findings."""
    return next((limit.takes.show_on for limit in finding.limits if limit.takes is not None), "")


def source_of(limit: Limit[Any], review: Review) -> str:
    """Return where a limit stands, in one citation: ``2021 R310.2.3, rulesets/codes/irc/escape.yaml:84``."""
    year = review.code.chain[0].name.rpartition("-")[2] if limit.section else ""
    place = limit.history[-1].place if limit.history else None
    return ", ".join(filter(None, (f"{year} {limit.citation}".strip(), near(place) if place else "")))


def near(place: Place) -> str:
    """Return file and line, the file from its edition or jurisdiction on, without the folders of the machine at hand."""
    path = PurePath(place.file)
    return f"{'/'.join(path.parts[-3:] if path.is_absolute() else path.parts)}:{place.line}"
