"""The report for a terminal: what to do first, at most 80 columns, plain text that reads as well in a pipe.

The first screen, 24 lines of it, holds the verdict, the works and the ten things to do first. All of them follow with what
there is to say of each. What is met, does not apply or is not checked is counted; `complete` lists it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence

from precheck.checks import Outcome
from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.first_screen import first_screen
from precheck.reports.groups import Group
from precheck.reports.opening import excluded, outside, verdict_line
from precheck.reports.width import WIDTH, wrapped
from precheck.reports.worklist import Item, in_group, items_of
from precheck.review.finding import Finding, Review
from precheck.rulesets import Unchecked

FEW = 3  # things that are named rather than counted
Style = Callable[[str], str]
Rest = Callable[[Review, Style], Iterator[str]]  # what the report counts and another one lists


def render(review: Review, bold: Style = str, rest: Rest | None = None) -> str:
    """Return the report on one project; `bold` marks headings where the terminal can. `rest` tells everything."""
    return "\n".join(_lines(review, bold, rest)) + "\n"


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


def _lines(review: Review, bold: Style, rest: Rest | None) -> Iterator[str]:
    items = items_of(review)
    yield from first_screen(review, items, bold)
    yield from _listed("NOT IN THIS JOB", excluded(review), bold)
    for group in Group:
        yield from _group(group, in_group(items, group), bold, rest is not None)
    yield from _accepted(review, bold)
    yield from _listed("ACCEPTED FINDINGS TO RENEW OR REMOVE", words.record_notices(review), bold)
    if rest is not None:
        yield from rest(review, bold)
    else:
        yield from _not_checked(review, bold)
        yield ""
        yield from wrapped(f"{words.passed_line(review)} --all lists them, and what is not checked, in full.")
    yield ""
    yield from wrapped(words.REMINDER)
    yield ""  # once more, because a terminal shows the end of what it was told
    yield from map(bold, wrapped(verdict_line(review, items)))


def _listed(heading: str, lines: Iterable[str], bold: Style) -> Iterator[str]:
    listed = list(lines)
    if listed:
        yield ""
        yield bold(heading)
    for line in listed:
        yield from wrapped(f"- {line}", hang=2)


def _group(group: Group, items: list[Item], bold: Style, everything: bool) -> Iterator[str]:
    if not items:
        return
    yield ""
    yield bold(f"{group.title.upper()} ({len(items)})")
    if group is Group.ASK:
        yield from wrapped(group.lead)
    for item in items:
        if group is Group.ASK:
            yield from wrapped(f"{item.number:>3}  {item.gist}{_waiting(item, everything)}", hang=5)
        elif group is Group.ADD:
            yield from wrapped(f"{item.number:>3}  {item.about(_wants(item, everything))}", hang=5)
        else:
            yield from _one(item)


def _wants(item: Item, everything: bool) -> str:
    return f"{'; '.join(item.wants)}{_waiting(item, everything)}"


def _waiting(item: Item, everything: bool) -> str:
    """Return which checks wait for what is asked, where everything is to be told."""
    waits = (w.waiting(item.label, lambda finding: finding.rule.name) for w in item.wanted)
    told = dict.fromkeys(one for waiting in waits for one in waiting) or dict.fromkeys(
        f.rule.name for f in item.findings
    )
    return f" ({'; '.join(told)})" if everything else ""


def _one(item: Item) -> Iterator[str]:
    finding = item.findings[0]
    yield _head(f"{item.number:>3}  {item.label}", f"line {item.line}")
    for line in words.lines_of(finding):
        yield from wrapped(line, indent=5)
    if item.remedies:
        yield from wrapped(f"Fix: {'; '.join(item.remedies)}", indent=5)
    if item.wanted:
        yield from wrapped(f"Also add to the plans: {'; '.join(item.wants)}", indent=5)
    yield from wrapped(_cited(item.findings), indent=5)


def _cited(findings: Sequence[Finding]) -> str:
    sections = dict.fromkeys(section for finding in findings for section in finding.sections)
    return f"{findings[0].rule.name}, {'; '.join(sections) or 'no section'}"


def _accepted(review: Review, bold: Style) -> Iterator[str]:
    if review.accepted:
        yield ""
        yield bold(f"ACCEPTED ({len(review.accepted)})")
    for finding in review.accepted:
        yield _head(f"  {words.label(finding)}", f"line {finding.place.line}")
        for line in (*words.lines_of(finding), words.accepted_line(finding), _cited((finding,))):
            yield from wrapped(line, indent=5)


def _not_checked(review: Review, bold: Style) -> Iterator[str]:
    yield ""
    yield bold("NOT CHECKED")
    if not review.not_checked:
        yield words.ALL_COVERED
    whole = frozenset(map(str, review.code.not_checked))
    for line in (*outside(review), *(line for line in review.not_checked if line not in whole)):
        yield from wrapped(f"- {line}", hang=2)
    if told := _of_the_model_code(review):
        yield from wrapped(told)


def _of_the_model_code(review: Review) -> str:
    """Return how many things of the model code no rule covers, by the topics of the run; a few are named."""
    found = [line for line in review.code.not_checked if not review.topics or line.topic in review.topics]
    if not found:
        return ""
    told = "; ".join(str(line).partition(": ")[0] for line in found) if len(found) <= FEW else _counted(review, found)
    return f"Parts of the model code that no check covers: {told}."


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
