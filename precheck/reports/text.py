"""The report for a terminal: what to do first, at most 80 columns, plain text that reads as well in a pipe."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from textwrap import fill

from precheck.checks import Outcome
from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.groups import Group, in_group
from precheck.reports.worklist import in_work_order, items_of
from precheck.review.finding import Finding, Review
from precheck.rulesets import Unchecked

WIDTH = 80
FEW = 3  # things that are named rather than counted
Style = Callable[[str], str]


def render(review: Review, bold: Style = str) -> str:
    """Return the report on one project; `bold` marks headings where the terminal can."""
    return "\n".join(_lines(review, bold)) + "\n"


def piece(review: Review) -> str:
    """Return the report on one project."""
    return render(review)


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the words that a file cannot be used; why is in `problems`."""
    count = f"{len(problems)} problem{'' if len(problems) == 1 else 's'} in the file"
    return "\n".join([file, f"CANNOT BE USED: {count}.", *map(str, problems), ""])


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield the reports of all projects, one after the other."""
    for number, one in enumerate(pieces):
        yield f"\n{one}" if number else one


def _lines(review: Review, bold: Style) -> Iterator[str]:
    yield bold(review.project.project)
    yield review.project.place.file
    yield from wrapped(f"Code: {words.code_line(review)}", hang=6)
    if partial := words.partial_line(review):
        yield from wrapped(partial)
    yield ""
    yield from map(bold, wrapped(words.verdict_line(review)))
    for group in Group:
        if group is Group.ADD:
            yield from _to_add(review, bold)
        else:
            found = in_work_order(in_group(review.findings, group))
            yield from _numbered(group.title.upper(), found, bold)
    yield from _numbered("ACCEPTED", list(review.accepted), bold)
    yield from _listed("ACCEPTED FINDINGS TO RENEW OR REMOVE", words.record_notices(review), bold)
    yield ""
    yield from wrapped(words.passed_line(review))
    yield from _not_checked(review, bold)
    yield ""
    yield from wrapped(words.REMINDER)
    yield ""  # once more, because a terminal shows the end of what it was told
    yield from map(bold, wrapped(words.verdict_line(review)))


def _listed(heading: str, lines: Iterable[str], bold: Style) -> Iterator[str]:
    listed = list(lines)
    if listed:
        yield ""
        yield bold(heading)
    for line in listed:
        yield from wrapped(f"- {line}", hang=2)


def _numbered(heading: str, findings: list[Finding], bold: Style) -> Iterator[str]:
    if not findings:
        return
    yield ""
    yield bold(heading)
    for number, finding in enumerate(findings, 1):
        yield from _one(number, finding)


def _one(number: int, finding: Finding) -> Iterator[str]:
    yield _head(f"{number:>3}  {words.label(finding)}", f"line {finding.place.line}")
    for line in words.lines_of(finding):
        yield from wrapped(line, indent=5)
    if finding.accepted:
        yield from wrapped(words.accepted_line(finding), indent=5)
    elif finding.check.remedy:
        yield from wrapped(f"Fix: {finding.check.remedy}", indent=5)
    if finding.outcome is not Outcome.NOT_SHOWN and (needed := words.needs(finding)):
        yield from wrapped(f"Also add to the plans: {'; '.join(needed)}", indent=5)
    yield from wrapped(f"{finding.rule.name}, {'; '.join(finding.sections) or 'no section'}", indent=5)


def _to_add(review: Review, bold: Style) -> Iterator[str]:
    """List what to add part by part, whichever part waits for it: one value often settles several checks."""
    items = [item for item in items_of(review) if item.group is Group.ADD]
    if not items:
        return
    yield ""
    yield bold(Group.ADD.title.upper())
    for item in items:
        yield _head(f"  {item.label}", f"line {item.line}")
        for wanted in item.wanted:
            waiting = "; ".join(wanted.waiting(item.label, lambda finding: finding.rule.name))
            yield from wrapped(f"- {wanted.text_for(item.label)} ({waiting})", indent=5, hang=2)


def _not_checked(review: Review, bold: Style) -> Iterator[str]:
    yield ""
    yield bold("NOT CHECKED")
    if not review.not_checked:
        yield words.ALL_COVERED
    whole = frozenset(map(str, review.code.not_checked))
    for line in review.not_checked:
        if line not in whole:
            yield from wrapped(f"- {line}", hang=2)
    if told := _of_the_model_code(review):
        yield from wrapped(told)


def _of_the_model_code(review: Review) -> str:
    """Return how many things of the model code no rule covers, by the topics of the run; a few are named."""
    found = [line for line in review.code.not_checked if not review.topics or line.topic in review.topics]
    if not found:
        return ""
    told = "; ".join(str(line).partition(": ")[0] for line in found) if len(found) <= FEW else _counted(review, found)
    listed = "listed with reasons in the html, pdf and markdown reports"
    return f"Parts of the model code that no check covers: {told} ({listed})."


def _counted(review: Review, found: list[Unchecked]) -> str:
    counts = Counter(line.topic for line in found)
    touched = {f.rule.topic for f in review.findings if f.outcome is not Outcome.DOES_NOT_APPLY}
    first = {topic: counts.pop(topic) for topic, _ in counts.most_common() if topic in touched}
    told = ", ".join(f"{topic} {count}" for topic, count in first.items())
    others = counts.total()
    rest = f"{others} in topics that this project does not touch" if others else ""
    return "; ".join(filter(None, (told, rest)))


def _head(left: str, right: str) -> str:
    room = WIDTH - len(right) - 1
    if len(left) > room:
        return f"{left} {right}"
    return f"{left:<{room}} {right}"


def wrapped(text: str, hang: int = 0, indent: int = 0) -> list[str]:
    """Return `text` in lines of at most `WIDTH`, indented, the later ones by `hang` more."""
    first, rest = " " * indent, " " * (indent + hang)
    return fill(text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False).splitlines()
