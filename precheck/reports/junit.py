"""The report as JUnit XML, which build servers show as a table of tests: a suite a project, a case a finding.

What stops the job is a failure, what does not apply (or is accepted) is skipped, and what a person should look at
passes, with a note in what the suite says, unless the run is strict. A check that failed to run, or a file that cannot be
used, is an error. The document keeps to both schemas in use: the strict one has suites numbered, with the time and host of
a run. The time is the day of the code that was applied, so that the same input gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from xml.etree import ElementTree as ET

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.xml_text import element, plain
from precheck.review.finding import Finding, Review

SKIPPED = "skipped"
_NO_DAY = date(1970, 1, 1)  # the schema wants one: where computers begin to count


def render(reviews: list[Review]) -> str:
    """Return one document with a suite for each project."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the suite of one project."""
    file = shown_name(review.project.place.file)
    suite = _suite(f"{review.project.project} ({file})", file, _day(review))
    properties = ET.SubElement(suite, "properties")
    for name, value in _properties(review):
        properties.append(element("property", name=name, value=value))
    for finding in review.findings:
        suite.append(_case(finding, review.strict))
    looked_at = (finding for finding in review.findings if _is_note(finding, review.strict))
    notes = [f"review: {finding.place}: {words.full_message(finding)}" for finding in looked_at]
    notes += [*words.record_notices(review), *(f"not checked: {line}" for line in review.not_checked)]
    return _closed(suite, "\n".join([*notes, words.REMINDER]))


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the suite of a file that cannot be used: one case, in error."""
    suite = _suite(shown_name(file), shown_name(file), _NO_DAY)
    ET.SubElement(suite, "properties")
    case = ET.SubElement(suite, "testcase", {"classname": "project file", "name": "can be used", "time": "0"})
    error = element("error", type="unusable file", message=problems[0].what if problems else "cannot be used")
    error.text = plain("\n".join(map(str, problems)))
    case.append(error)
    return _closed(suite, "")


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield the document, its suites numbered."""
    yield "<?xml version='1.0' encoding='utf-8'?>\n<testsuites>\n"
    for number, suite in enumerate(pieces):
        yield suite.replace("<testsuite ", f'<testsuite id="{number}" ', 1)
    yield "</testsuites>\n"


def _suite(name: str, file: str, day: date) -> ET.Element:
    run = {"timestamp": f"{day}T00:00:00", "hostname": "localhost", "time": "0"}
    return element("testsuite", name=name, package=file, **run)


def _day(review: Review) -> date:
    """Return the day of the code that was applied: the one asked for, else that of the newest adoption."""
    steps = (step.in_force for step in reversed(review.code.chain))
    return review.code.applied_on or next(filter(None, steps), _NO_DAY)


def _properties(review: Review) -> Iterator[tuple[str, str]]:
    yield "code", words.code_line(review)
    yield "verdict", review.verdict
    if partial := words.code_warning(review):
        yield "partial", partial


def _case(finding: Finding, strict: bool) -> ET.Element:
    name = f"{finding.rule.name}: {words.label(finding)}"
    case = element("testcase", classname=finding.rule.topic, name=name, time="0")
    if tag := _tag(finding, strict):
        message = words.accepted_line(finding) or words.message(finding)
        kind = (
            {} if tag == SKIPPED else {"type": finding.outcome.word}
        )  # the strict schema has none where it is skipped
        about = element(tag, **kind, message=message)
        about.text = plain(f"{finding.place}: {words.full_message(finding)}\n{'; '.join(finding.sections)}")
        case.append(about)
    return case


def _is_note(finding: Finding, strict: bool) -> bool:
    return finding.outcome is Outcome.WARN and not finding.accepted and not strict


def _tag(finding: Finding, strict: bool) -> str | None:
    if finding.accepted:
        return SKIPPED
    if finding.outcome is Outcome.WARN:
        return "failure" if strict else None
    return _TAGS.get(finding.outcome)


_TAGS = {Outcome.ERROR: "error", Outcome.FAIL: "failure", Outcome.NOT_SHOWN: "failure", Outcome.DOES_NOT_APPLY: SKIPPED}


def _closed(suite: ET.Element, said: str) -> str:
    """Set the totals that the suite's cases come to, add what is `said` of it all, and return it as text."""
    cases = suite.findall("testcase")
    suite.set("tests", str(len(cases)))
    for total, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        suite.set(total, str(sum(case.find(tag) is not None for case in cases)))
    ET.SubElement(suite, "system-out").text = plain(said)
    ET.SubElement(suite, "system-err")
    ET.indent(suite)
    return ET.tostring(suite, encoding="unicode") + "\n"
