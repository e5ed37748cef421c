"""The report as JUnit XML, which build servers show as a table of tests: a suite a project, a case a finding.

What stops the job is a failure, what does not apply (or is accepted) is skipped, and what a person should look at
passes with a note, unless the run is strict. A check that failed to run, or a file that cannot be used, is an error.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from xml.etree import ElementTree as ET

from precheck.checks import Outcome
from precheck.files.inert import shown_name
from precheck.files.source import Problem
from precheck.reports import words
from precheck.reports.xml_text import element, plain
from precheck.review.finding import Finding, Review


def render(reviews: list[Review]) -> str:
    """Return one document with a suite for each project."""
    return "".join(joined(map(piece, reviews)))


def piece(review: Review) -> str:
    """Return the suite of one project."""
    suite = element("testsuite", name=f"{review.project.project} ({shown_name(review.project.place.file)})")
    properties = ET.SubElement(suite, "properties")
    for name, value in _properties(review):
        properties.append(element("property", name=name, value=value))
    for finding in review.findings:
        suite.append(_case(finding, review.strict))
    said = [*words.record_notices(review), *(f"not checked: {line}" for line in review.not_checked), words.REMINDER]
    ET.SubElement(suite, "system-out").text = plain("\n".join(said))
    return _closed(suite)


def refused(file: str, problems: Sequence[Problem]) -> str:
    """Return the suite of a file that cannot be used: one case, in error."""
    suite = element("testsuite", name=shown_name(file))
    case = ET.SubElement(suite, "testcase", {"classname": "project file", "name": "can be used", "time": "0"})
    error = element("error", type="unusable file", message=problems[0].what if problems else "cannot be used")
    error.text = plain("\n".join(map(str, problems)))
    case.append(error)
    return _closed(suite)


def joined(pieces: Iterable[str]) -> Iterator[str]:
    """Yield the document."""
    yield "<?xml version='1.0' encoding='utf-8'?>\n<testsuites name=\"precheck\">\n"
    yield from pieces
    yield "</testsuites>\n"


def _properties(review: Review) -> Iterator[tuple[str, str]]:
    yield "code", words.code_line(review)
    yield "verdict", review.verdict
    if partial := words.code_warning(review):
        yield "partial", partial


def _case(finding: Finding, strict: bool) -> ET.Element:
    name = f"{finding.rule.name}: {words.label(finding)}"
    case = element("testcase", classname=finding.rule.topic, name=name, time="0")
    told = f"{finding.place}: {words.full_message(finding)}"
    if tag := _tag(finding, strict):
        message = words.accepted_line(finding) or words.message(finding)
        about = element(tag, type="accepted" if finding.accepted else finding.outcome.word, message=message)
        about.text = plain(f"{told}\n{'; '.join(finding.sections)}")
        case.append(about)
    elif finding.outcome is Outcome.WARN:
        ET.SubElement(case, "system-out").text = plain(f"review: {told}")
    return case


def _tag(finding: Finding, strict: bool) -> str | None:
    if finding.accepted:
        return "skipped"
    if finding.outcome is Outcome.WARN:
        return "failure" if strict else None
    return _TAGS.get(finding.outcome)


_TAGS = {
    Outcome.ERROR: "error",
    Outcome.FAIL: "failure",
    Outcome.NOT_SHOWN: "failure",
    Outcome.DOES_NOT_APPLY: "skipped",
}


def _closed(suite: ET.Element) -> str:
    """Set the totals that the suite's cases come to, and return it as text."""
    cases = suite.findall("testcase")
    suite.set("tests", str(len(cases)))
    for total, tag in (("failures", "failure"), ("errors", "error"), ("skipped", "skipped")):
        suite.set(total, str(sum(case.find(tag) is not None for case in cases)))
    ET.indent(suite)
    return ET.tostring(suite, encoding="unicode") + "\n"
