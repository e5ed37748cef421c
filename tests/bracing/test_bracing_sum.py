"""The length of bracing written out: arithmetic gives each value, and what is not drawn is not summed."""

from __future__ import annotations

from math import prod

import pytest

from precheck.checks.outcome import WorkStep
from precheck.files.source import read_text
from precheck.testing import findings


def steps(panels: str) -> tuple[WorkStep, ...]:
    text = f"""
project: case
design criteria: {{seismic design category: B, ultimate wind speed: 115 mph, wind exposure: D}}
braced lines: [{{id: B1, phase: new, method: WSP, wall height: 10 ft, to next line: 30 ft, lines: 3, stories above: 0,
  stories: 1, eave to ridge: 15 ft, gypsum inside: yes, horizontal joints: blocked, panels: [{panels}]}}]
"""
    (found,) = findings("bracing.amount", read_text(text, "case.yaml"), "irc-2021")
    return found.check.work


def test_the_factors_and_the_panels_are_numbered_from_one_and_their_arithmetic_holds() -> None:
    lines = {step.symbol: step for step in steps("{length: 4 ft}, {length: 6 ft}")}
    factors = [step for symbol, step in lines.items() if symbol.startswith("f")]
    assert [step.symbol for step in factors] == [f"f{n}" for n in range(1, len(factors) + 1)]
    assert lines["L"].value == pytest.approx(prod(step.value for step in (lines["L0"], *factors)), rel=1e-2)
    assert (lines["p1"].value, lines["p2"].value, lines["P"].value) == (4, 6, 10)
    assert lines["P"].expression == "4 + 6"


def test_panels_of_which_one_is_not_given_are_not_summed() -> None:
    symbols = [step.symbol for step in steps("{length: 4 ft}, {offset: 2 in}")]
    assert "p1" in symbols
    assert not {"p2", "P"} & set(symbols)
