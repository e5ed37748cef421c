"""The report as JUnit XML, which build servers read by one of two schemas."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from test_reports_standard import of, reviewed
from xml_schema import Schema

from precheck.checks import Outcome
from precheck.files.source import Place, Problem
from precheck.reports import renderer, streamed
from precheck.review.finding import Review


def junit(*reviews: Review) -> ET.Element:
    """Return the JUnit document of reviews, parsed back."""
    return ET.fromstring(renderer("junit")(list(reviews)))


def test_junit_has_a_suite_a_project_whose_totals_are_those_of_its_cases() -> None:
    suites = junit(reviewed(), reviewed("b.yaml")).findall("testsuite")
    assert len(suites) == 2
    for suite in suites:
        cases = suite.findall("testcase")
        assert int(suite.attrib["tests"]) == len(cases) == len(reviewed().findings)
        assert int(suite.attrib["failures"]) == len(of(Outcome.FAIL)) + len(of(Outcome.NOT_SHOWN))
        assert int(suite.attrib["errors"]) == len(of(Outcome.ERROR)) == len(suite.findall("testcase/error"))
        assert int(suite.attrib["skipped"]) == len(of(Outcome.DOES_NOT_APPLY)) == len(suite.findall("testcase/skipped"))


SCHEMAS = [Schema(Path(__file__).parent / "data" / name) for name in ("junit-ant.xsd", "junit-10.xsd")]


@pytest.mark.parametrize("schema", SCHEMAS, ids=["strict", "common"])
def test_junit_is_valid_by_both_schemas_in_use(schema: Schema) -> None:
    form = streamed("junit")
    assert form is not None
    refused = form.refused("c.yaml", [Problem(Place("c.yaml", 1, 1), "is empty")])
    pieces = [form.piece(reviewed()), refused, form.piece(reviewed("b.yaml", strict=True))]
    document = "".join(map(str, form.joined(pieces)))
    assert schema.problems(document) == schema.problems("".join(map(str, form.joined([])))) == []


@pytest.mark.parametrize(
    ("written", "instead"),
    [
        (' hostname="localhost"', ' hostname=""'),
        (' timestamp="', ' timestamp="on '),
        (' id="0"', ' id="first"'),
        (' package="', ' packed="'),
        ("<properties>", "<property name='a' value='b' /><properties>"),
        ("<system-err />", ""),
    ],
)
def test_the_strict_schema_refuses_a_slip(written: str, instead: str) -> None:
    document = renderer("junit")([reviewed()])
    assert written in document
    assert SCHEMAS[0].problems(document.replace(written, instead, 1)) != []


def test_junit_has_the_day_of_the_code_and_nothing_of_the_machine() -> None:
    (suite,) = junit(reviewed()).findall("testsuite")
    assert (suite.attrib["hostname"], suite.attrib["time"], suite.attrib["id"]) == ("localhost", "0", "0")
    assert suite.attrib["timestamp"] == f"{reviewed().code.applied_on or '1970-01-01'}T00:00:00"


def test_junit_names_survive_what_xml_may_not_hold() -> None:
    suite = junit(reviewed()).find("testsuite")
    assert suite is not None
    assert suite.attrib["name"].startswith("Attic & <stair> 100 %, ::error:: | *now*\N{REPLACEMENT CHARACTER}")


def test_a_warning_fails_its_case_only_in_a_strict_run() -> None:
    lax, strict = (len(junit(r).findall("testsuite/testcase/failure")) for r in (reviewed(), reviewed(strict=True)))
    assert strict - lax == len(of(Outcome.WARN))
