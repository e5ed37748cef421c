"""Topic files of a model code: each limit once, with the lines of its editions."""

from __future__ import annotations

from pathlib import Path

import pytest

from precheck.files.source import Unusable
from precheck.review.chosen import chosen_rules
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library
from precheck.units import Length

CODE = """\
code: mrc
editions: [2020, 2023, 2026]
texts:
  ash: {edition: 2020, name: 2020 code as adopted by Ash, page: "https://example.org/ash"}
  elm: {edition: 2023, name: 2023 code as adopted by Elm}
"""


def library(folder: Path, limits: str, sources: str = "") -> Library:
    place = folder / "codes" / "mrc"
    place.mkdir(parents=True, exist_ok=True)
    (place / "editions.yaml").write_text(CODE, encoding="utf-8")
    (place / "demo.yaml").write_text(f"topic: demo\n{sources}limits:\n{limits}", encoding="utf-8")
    return Library((folder,))


def limit(folder: Path, lines: str, edition: str, sources: str = ""):
    found = library(folder, f"  demo.height:\n    maximum:\n{lines}", sources)
    return found.adopt(edition).limits["demo.height.maximum"]


RISER = """\
      measures: riser height
      2020: {value: 8 in, section: R1, read: ash}
      2023: {value: 7 3/4 in, read: elm}
      2026: {section: R2}
"""


@pytest.mark.parametrize(
    ("edition", "value", "section", "basis", "source", "acts"),
    [
        ("mrc-2020", "8 in", "R1", "read", "2020 code as adopted by Ash, https://example.org/ash", ["set"]),
        ("mrc-2023", "7 3/4 in", "R1", "read", "2023 code as adopted by Elm", ["set", "changed"]),
        (
            "mrc-2026",
            "7 3/4 in",
            "R2",
            "read elsewhere",
            "2023 code as adopted by Elm",
            ["set", "changed", "renumbered"],
        ),
    ],
)
def test_an_edition_has_what_it_says_and_for_the_rest_what_stood_before(
    tmp_path, edition, value, section, basis, source, acts
):
    found = limit(tmp_path, RISER, edition)
    assert (found.value, found.section, found.basis, found.source) == (Length.parse(value), section, basis, source)
    assert [event.act for event in found.history] == acts
    assert (found.sense, found.kind, found.measures) == ("maximum", "length", "riser height")


def test_an_edition_that_says_nothing_is_told_as_unchanged(tmp_path):
    found = limit(
        tmp_path, "      measures: riser height\n      2020: {value: 8 in, section: R1, read: ash}\n", "mrc-2026"
    )
    assert [(event.act, event.source) for event in found.history] == [
        ("set", "mrc-2020 R1"),
        ("unchanged", "mrc-2026 R1"),
    ]
    assert found.basis == "read elsewhere"


def test_what_stands_beside_measures_is_of_the_first_edition(tmp_path):
    found = limit(tmp_path, "      {measures: riser height, value: 8 in, section: R1, memory: no source}\n", "mrc-2023")
    assert (found.value, found.basis, found.source) == (Length.parse("8 in"), "memory", "")


def test_rows_of_a_table_and_choices_of_a_list_change_alone(tmp_path):
    lines = """\
      measures: footing width
      2020: {value: {1 story: 12 in, 2 stories: 15 in}, section: R1, memory: no source}
      2023: {rows: {2 stories: 16 in}}
    kinds:
      measures: kinds of footing
      2020: {value: [spread, stepped], section: R1, memory: no source}
      2023: {plus: [mat]}
      2026: {less: [stepped]}
"""
    found = library(tmp_path, f"  demo.height:\n    maximum:\n{lines}").adopt("mrc-2026").limits
    assert dict(found["demo.height.maximum"].value) == {
        "1 story": Length.parse("12 in"),
        "2 stories": Length.parse("16 in"),
    }
    assert found["demo.height.kinds"].value == ("spread", "mat")


def test_void_and_not_required_are_two_things(tmp_path):
    lines = "      measures: riser height\n      2020: {value: void}\n      2023: {value: not required, section: R1}\n"
    assert limit(tmp_path, lines, "mrc-2020").why_void == "the MRC-2020 has no such requirement"
    assert limit(tmp_path, lines, "mrc-2023").why_void == "the MRC-2023 does not require it"


WRONG = {
    "2021: {value: 7 in, section: R1}": "`2021` is no edition of mrc; its editions are 2020, 2023, 2026",
    "2020: {valu: 7 in, section: R1}": "`valu` says nothing of an edition; did you mean `value`?",
    "2020: {value: 7 inn, section: R1}": "`7 inn` is not a measure that is known here",
    "2020: {value: 7 in, section: R1}\n      2023: {value: 7 sq ft}": "`7 sq ft` is not of the kind of `7 in`",
    "2020: {value: 7 in, memory: no source}": "cites no section",
    "2023: {value: 7 in, section: R1}": "2020: say what stands there",
    "2020: {value: 7 in, section: R1, read: elm}": "`elm` is a text of 2023; write `elsewhere: elm` under 2020",
    "2020: {value: 7 in, section: R1, read: oak}": "`oak` is none of the sources; add it to `sources`",
    "2020: {value: 7 in, section: R1, read: ash, memory: no source}": "names two bases; keep one of read and memory",
    "2020: {value: [a], plus: [b], section: R1}": "gives its value twice; keep one of value and plus",
    "2020: {value: [a], section: R1}\n      2023: {less: [b]}": "`b` is not among what stood before: a",
    "value: 7 in\n      section: R1\n      2020: {value: 8 in}": "what stands in 2020 is given twice",
    "2020: {value: 7 in, section: R1}\n      sense: most": "`most` is not known as sense; write one of: minimum",
    "2020: 7 in": "2020: say what stands there, such as {value: 36 in, section: R1}",
}


@pytest.mark.parametrize("lines", WRONG, ids=lambda lines: WRONG[lines][:40])
def test_a_wrong_line_is_told_at_its_place_whatever_edition_is_asked_for(tmp_path, lines):
    for edition in ("mrc-2020", "mrc-2026"):
        with pytest.raises(Unusable) as error:
            limit(tmp_path, f"      measures: riser height\n      {lines}\n", edition)
        assert WRONG[lines] in str(error.value)
        assert all("demo.yaml" in problem.place.file and problem.place.line > 4 for problem in error.value.problems)


def test_all_that_is_wrong_is_told_in_one_run(tmp_path):
    limits = "".join(f"  demo.rule-{n}:\n    maximum: {{measures: x, {line}}}\n" for n, line in enumerate((
        "value: 7 inn, section: R1", "valeu: 7 in", "2020: {value: 7 in}, 2024: {value: 8 in}"
    )))  # fmt: skip
    with pytest.raises(Unusable) as error:
        library(tmp_path, limits + "  demo.other: 3\n").adopt("mrc-2023")
    assert {problem.place.line for problem in error.value.problems} == {4, 6, 8, 9}


def test_a_limit_that_stands_in_two_files_is_refused(tmp_path):
    found = library(tmp_path, f"  demo.height:\n    maximum:\n{RISER}")
    (tmp_path / "codes/mrc/second.yaml").write_text(
        (tmp_path / "codes/mrc/demo.yaml").read_text().replace("topic: demo", "topic: second"), encoding="utf-8"
    )
    with pytest.raises(Unusable, match=r"is set twice, first at .*demo\.yaml"):
        found.adopt("mrc-2020")


def test_files_of_one_edition_each_are_still_read(tmp_path):
    path = tmp_path / "editions" / "irc-2021" / "firm.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(
        "edition: irc-2021\ntopic: firm\nbasis: practice\nlimits:\n"
        "  firm.door:\n    least: {value: 30 in, means: least width of a door, force: advise}\n",
        encoding="utf-8",
    )
    found = Library((tmp_path, *load_plugins().rulesets))
    own = found.adopt("irc-2021").limits["firm.door.least"]
    assert (str(own.value), own.measures, own.basis, own.history[0].source) == (
        "30 in", "least width of a door", "practice", "irc-2021"
    )  # fmt: skip
    assert "firm.door.least" not in found.adopt("irc-2018").limits


def test_a_rule_for_which_a_model_code_has_nothing_is_not_run_under_it_and_is_listed(tmp_path):
    own = library(tmp_path, f"  demo.height:\n    maximum:\n{RISER}")
    path = tmp_path / "codes/mrc/editions.yaml"
    path.write_text(path.read_text() + "lacks: [stairs.riser-height, guards]\n", encoding="utf-8")
    chosen = chosen_rules(own.adopt("mrc-2026"), load_plugins())
    run = {rule.name for rule in chosen.rules}
    assert "stairs.riser-height" not in run
    assert not any(name.startswith("guards.") for name in run)
    assert "stairs.tread-depth" in run  # it reads a limit that is not there, and says so as an error
    assert "rule stairs.riser-height: mrc-2026 has nothing like it" in chosen.not_checked
