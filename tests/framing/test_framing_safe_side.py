"""Members that an engineer's own sum fails, or cannot tell, must not pass. Each beside a sum by hand or a printed one."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from precheck.files.source import Unusable, read_text
from precheck.project import project_from
from precheck.reports import words
from precheck.testing import findings

DECK = "carries: [{use: deck, live: 40 psf, dead: 10 psf}]"
FIR = "species: Douglas fir-larch, grade: No.2"
LVL = ("maker: {product: LVL, document: guide, breadth: 1 3/4 in, depth: 18 in, bending: 2600 psi, shear: 285 psi, "
       "bearing: 750 psi, modulus: 2000000 psi")  # fmt: skip
GLULAM = ("maker: {product: glulam, grade: 24F, document: stamp, breadth: 5 1/8 in, depth: 24 in, bending: 2400 psi, "
          "shear: 265 psi, bearing: 650 psi, modulus: 1800000 psi, modulus for stability: 950000 psi}")  # fmt: skip
I_JOIST = ("maker: {product: I-joist, document: guide, longest span: 16'-11\", table: {live: 40 psf, dead: 10 psf, "
           "spacing: 16 in, over: one span, bearing: 1 3/4 in}}")  # fmt: skip
OVER = "{id: J1, phase: new, role: deck joist, size: 2x10, species: Southern pine, grade: No.2, spacing: 12 in, span: 10 ft, overhang: 4 ft"


class Case(NamedTuple):
    """A rule and a fragment of a project, what the rule must say of one of its parts, and words of it."""

    rule: str
    members: str
    outcome: str
    says: str = ""
    part: str = "J1"
    more: str = ""


CASES = {
    "deck joist of fir counts as wet and incised: 110.3 %": Case(
        "framing.strength", f"{{id: J1, phase: new, role: deck joist, size: 2x8, {FIR}, spacing: 16 in, span: 12 ft, {DECK}}}",
        "fail", "110.3 %"),
    "the group value of the deck table, 11-1, is for the weakest species of its group": Case(
        "framing.strength", "{id: J1, phase: new, role: deck joist, size: 2x8, species: Hem-fir, grade: No.2, spacing: 16 in, "
        f"span: 11'-2\", {DECK}}}", "fail"),
    "deck post of Southern pine, wet: 3,675 lb": Case(
        "framing.post-strength", "{id: J1, phase: new, role: post, size: 4x4, species: Southern pine, grade: No.2, height: 10 ft, "
        "carries: [{use: deck, point dead: 800 lb, point live: 3200 lb}]}", "fail", "of 3,675 lb"),
    "LVL 18 in deep by its maker's exponent: 105.7 %, and its own weight": Case(
        "framing.strength", f"{{id: J1, phase: new, role: beam, plies: 2, span: 21 ft, unbraced: 0 in, {LVL}, depth exponent: 0.18, "
        "reference depth: 12 in}, carries: [{use: other room, dead per foot: 250 lb, live per foot: 480 lb}]}", "fail", "of 2,417 psi"),
    "LVL whose maker does not say how its value goes with depth": Case(
        "framing.strength", f"{{id: J1, phase: new, role: beam, plies: 2, span: 21 ft, unbraced: 0 in, {LVL}}}, "
        "carries: [{use: other room, dead per foot: 250 lb, live per foot: 480 lb}]}", "not shown"),
    "glulam by its volume: 103.0 % and its own weight": Case(
        "framing.strength", f"{{id: J1, phase: new, role: beam, span: 20 ft, unbraced: 16 in, {GLULAM}, "
        "carries: [{use: other room, dead per foot: 500 lb, live per foot: 1400 lb}]}", "fail", "of 2,250 psi"),
    "a beam under the near end of joists that run past the far one: 242 plf and not 210": Case(
        "framing.strength", "{id: J1, phase: new, role: beam, size: 2x10, plies: 2, species: Southern pine, grade: No.2, span: 10'-3\", "
        f"unbraced: 0 in, wet: no}}, {OVER.replace('J1', 'J2')}, wet: no, {DECK}, bears on: [{{on: J1}}, {{onto: bearing wall}}]}}",
        "fail"),
    "the footing under that beam": Case(
        "framing.footing-load-agrees", "{id: J1, phase: new, role: beam, size: 2x10, plies: 2, species: Southern pine, grade: No.2, "
        f"span: 20 ft, unbraced: 0 in, wet: no, bears on: [{{on: F1}}, {{onto: footing}}]}}, {OVER.replace('J1', 'J2')}, wet: no, "
        f"{DECK}, bears on: [{{on: J1}}, {{onto: bearing wall}}]}}", "fail", "", "F1",
        "footings: [{id: F1, phase: new, form: isolated, load: 2100 lb}]"),
    "I-joists farther apart, under more dead load and a point load": Case(
        "framing.strength", f"{{id: J1, phase: new, role: floor joist, spacing: 24 in, span: 16 ft, {I_JOIST}, "
        "carries: [{use: other room, live: 40 psf, dead: 60 psf}, {use: other room, point dead: 0 lb, point live: 3000 lb, at: 8 ft}], "
        "bears on: [{onto: bearing wall, length: 2 in}, {onto: bearing wall, length: 2 in}]}", "warn", "the manufacturer's table"),
    "a notch of a quarter of the depth under a heavy load: 230 %": Case(
        "framing.notched-end", f"{{id: J1, phase: new, role: beam, size: 2x12, plies: 2, {FIR}, span: 4 ft, unbraced: 0 in, "
        "carries: [{use: other room, dead per foot: 500 lb, live per foot: 1500 lb}], "
        "notches: [{depth: 2 3/4 in, at end: yes, edge: bottom}]}",
        "warn", "lb beside the notch"),
    "a beam given by loads along it may bear a floor: L/317 of 360": Case(
        "framing.deflection", f"{{id: J1, phase: new, role: beam, plies: 2, span: 16 ft, unbraced: 0 in, wet: no, "
        f"{LVL.replace('18 in', '11 7/8 in')}, at this depth: yes}}, "
        "carries: [{dead per foot: 0 lb, live per foot: 400 lb}]}", "not shown"),
    "the same said to bear a floor": Case(
        "framing.deflection", f"{{id: J1, phase: new, role: beam, plies: 2, span: 16 ft, unbraced: 0 in, wet: no, "
        f"{LVL.replace('18 in', '11 7/8 in')}, at this depth: yes}}, "
        "carries: [{use: other room, dead per foot: 0 lb, live per foot: 400 lb}]}", "fail", "317"),
    "a post whose load lands an inch beside its middle: 1.24": Case(
        "framing.post-strength", "{id: J1, phase: new, role: post, size: 4x6, species: Hem-fir, grade: No.2, height: 12 ft}, "
        "{id: B1, phase: new, role: beam, size: 4x10, species: Hem-fir, grade: No.2, span: 16 ft, unbraced: 0 in, "
        "carries: [{use: other room, dead per foot: 100 lb, live per foot: 388 lb}], "
        "bears on: [{on: J1, off center: 1 in, across: depth}, {onto: footing}]}", "fail", "1.2"),
}  # fmt: skip


def said(case: Case) -> tuple[str, str]:
    text = f"design criteria: {{ground snow load: 0 psf}}\nmembers: [{case.members}]\n{case.more}\n"
    told = [(f, words.message(f)) for f in findings(case.rule, read_text(text, "case"), "irc-2021")]
    found = [f for f, message in told if f" {case.part}:" in message or f" {case.part} " in message.split(":")[0]]
    assert len(found) == 1
    return found[0].outcome.word, words.message(found[0])


@pytest.mark.parametrize("name", CASES)
def test_what_an_engineers_own_sum_fails_or_cannot_tell_does_not_pass(name: str) -> None:
    case = CASES[name]
    outcome, message = said(case)
    assert outcome == case.outcome, message
    assert case.says in message


@pytest.mark.parametrize(
    ("load", "told"),
    [
        ("{point live: 6000 lb, at: 12 ft}", "`at` of 12 ft is off member J1, which reaches to 10'-0\""),
        ("{live per foot: 60 lb, from: 8 ft, to: 11 ft}", "`to` of 11 ft is off member J1"),
        ("{live per foot: 60 lb, from: 8 ft, to: 7 ft}", "does not lie past where it begins"),
        ("{point live: -6000 lb, at: 5 ft}", "cannot be"),
    ],
)
def test_a_load_that_is_not_on_its_member_is_refused_at_its_line(load: str, told: str) -> None:
    text = f"project: a beam\nmembers:\n  - id: J1\n    role: beam\n    span: 10 ft\n    carries:\n      - {load}\n"
    with pytest.raises(Unusable) as refused:
        project_from(read_text(text, "beam.yaml"))
    problem = refused.value.problems[0]
    assert (problem.place.file, problem.place.line) == ("beam.yaml", 7)
    assert told in problem.what


def test_the_end_of_a_member_off_the_one_that_it_bears_on_is_refused_at_its_line() -> None:
    text = """project: a beam
members:
  - {id: B1, role: beam, span: 10 ft}
  - {id: B2, role: beam, span: 8 ft, bears on: [{on: B1, at: 11 ft}, {onto: footing}]}
"""
    with pytest.raises(Unusable) as refused:
        project_from(read_text(text, "beam.yaml"))
    assert refused.value.problems[0].place.line == 4
    assert "`at` of 11 ft is off member B1" in str(refused.value.problems[0])


def test_three_plies_in_a_header_share_load_in_both_of_its_checks() -> None:
    # 3-2x10 Hem-fir: 100.6 % without the factor, 87.4 % with it, and the header table counts it too.
    header = ("{id: J1, phase: new, role: header, size: 2x10, plies: 3, species: Hem-fir, grade: No.2, span: 8 ft, unbraced: 0 in, "
              "carries: [{use: other room, dead per foot: 150 lb, live per foot: 470 lb}]}")  # fmt: skip
    outcome, message = said(Case("framing.strength", header, ""))
    assert outcome == "pass", message


def test_two_plies_that_only_the_header_tables_count_as_sharing_are_told() -> None:
    header = ("{id: J1, phase: new, role: header, size: 2x10, plies: 2, species: Hem-fir, grade: No.2, span: 8 ft, unbraced: 0 in, "
              "carries: [{use: other room, dead per foot: 90 lb, live per foot: 344 lb}]}")  # fmt: skip
    outcome, message = said(Case("framing.strength", header, ""))
    assert outcome == "warn", message
    assert "the header tables of the code count two plies as sharing load" in message
