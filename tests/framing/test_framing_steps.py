"""Every calculation can be followed by hand: arithmetic gives the value, and no number lacks an origin."""

from __future__ import annotations

import math
import re
from functools import partial
from typing import TYPE_CHECKING

import pytest
from precheck_plugins.framing.members.beams import overhanging_beam
from precheck_plugins.framing.members.capacity import Serviceability, SizedMember, check_member
from precheck_plugins.framing.members.columns import Column, check_column
from precheck_plugins.framing.members.demands import UniformSpan, loaded_beam
from precheck_plugins.framing.members.footings import footing
from precheck_plugins.framing.members.sistered import sistered
from precheck_plugins.framing.members.statics import Beam, PointLoad, UniformLoad
from precheck_plugins.framing.members.ties import check_tie, rafter_pair
from precheck_plugins.framing.members.written_out import beam_steps as beam_steps_of
from precheck_plugins.framing.tables.headers import HeaderLoads, header_span
from precheck_plugins.framing.tables.joists_and_rafters import FAMILIES, SpanLoads, family_span
from precheck_plugins.framing.timber.adjusted_values import Conditions
from precheck_plugins.framing.timber.lumber import DesignValues, published_values
from precheck_plugins.framing.timber.notched import notched_end
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section
from precheck_plugins.framing.timber.steps import Step, number

if TYPE_CHECKING:
    from collections.abc import Callable

ARITHMETIC = {"sqrt": math.sqrt, "ceil": math.ceil, "min": min, "max": max, "abs": abs, "round": round}
# Numbers of the formulas of statics, geometry, units and the NDS, and constants that a module names.
OF_FORMULAS = {
    "0", "0.75", "0.8", "0.822", "0.95", "1", "1.2", "1.5", "1.63", "1.84", "1.9", "2", "2.06", "3", "4", "5",
    "6", "8", "10", "12", "20", "40", "121", "144", "150", "384", "405",
}  # fmt: skip
HEM_FIR: Callable[[CrossSection], DesignValues] = partial(published_values, "Hem-fir", "No.2")
USE = Conditions(load="snow", repetitive=True, wet=True, incised=True, unbraced_in=48)


def member(size: str, use: Conditions = USE) -> SizedMember:
    return SizedMember(dressed_section(size), HEM_FIR(dressed_section(size)), use, Serviceability(360, 240, 1.5))


def overhanging(spread: float, force: float) -> Beam:
    return overhanging_beam(120, 12, 36, [PointLoad(50, force), PointLoad(16, force)], [UniformLoad(0, 100, spread)])


def beam_steps() -> tuple[Step, ...]:
    return check_member(member("2x12"), loaded_beam(overhanging(2, 100), overhanging(5, 300)).demand()).steps()


def span_steps() -> tuple[Step, ...]:
    section = dressed_section("2x10")
    return family_span(FAMILIES["deck"], section, HEM_FIR(section), SpanLoads(40, 10, 16, 360)).steps()


def column_steps() -> tuple[Step, ...]:
    section = dressed_section("3-2x6")
    return check_column(Column(section, HEM_FIR(section), 96, 48, fastening="nailed"), 5000).steps()


CALCULATIONS: dict[str, Callable[[], tuple[Step, ...]]] = {
    "uniform member": lambda: check_member(member("2x10"), UniformSpan(150, 20, 55).demand()).steps(),
    "beam": beam_steps,
    "span": span_steps,
    "column": column_steps,
    "header": lambda: header_span(dressed_section("2-2x8"), HeaderLoads(70, 28, 1), top_braced=False).steps(),
    "sistered": lambda: sistered([member("2x8"), member("2x12")]).steps(),
    "tie": lambda: check_tie(member("2x6"), UniformSpan(120, 10, 10).demand(), 480).steps(),
    "thrust": lambda: rafter_pair(40, 288, 72, 12).steps(),
    "notch": lambda: notched_end(dressed_section("2x10"), 2, 150).steps(),
    "footing": lambda: footing(7300, 1500, 10).steps(),
}


def worth(expression: str) -> float:
    return float(eval(expression.replace("^", "**"), {"__builtins__": {}}, ARITHMETIC))


@pytest.mark.parametrize("name", CALCULATIONS)
def test_the_arithmetic_of_every_line_gives_its_value(name: str) -> None:
    for step in CALCULATIONS[name]():
        assert worth(step.expression) == pytest.approx(step.value, rel=2e-4, abs=1e-4), str(step)


@pytest.mark.parametrize("name", CALCULATIONS)
def test_every_line_says_what_it_is_and_where_it_comes_from(name: str) -> None:
    steps = CALCULATIONS[name]()
    assert steps
    assert all(step.symbol and step.meaning and step.source for step in steps)


@pytest.mark.parametrize("name", [n for n in CALCULATIONS if n not in ("beam", "notch")])
def test_every_number_of_a_line_stands_in_an_earlier_line_or_in_the_formula(name: str) -> None:
    # Not the beam, whose lever arms are differences of positions, nor the notch, which has no lines above.
    known = set(OF_FORMULAS)
    for step in CALCULATIONS[name]():
        numbers = re.findall(r"\d+(?:\.\d+)?", step.expression)
        lone = len(numbers) == 1 and step.expression == numbers[0]
        assert lone or not (set(numbers) - known), str(step)
        known.add(number(abs(step.value)))


def test_the_shear_beside_a_load_is_written_out_on_the_side_where_it_is_greater() -> None:
    for at_in, lifted in ((40, (0, 40)), (80, (80, 120))):
        beam = overhanging_beam(120, 0, 0, [PointLoad(at_in, 300)], [UniformLoad(*lifted, -2)])
        peak = beam.shear_away_from_supports(10)
        assert peak.at_in == at_in
        assert worth(beam_steps_of(beam, peak, 10)[-1].expression) == pytest.approx(peak.value, rel=1e-4)


def test_steps_are_written_only_when_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> str:
        raise AssertionError("text was written")

    monkeypatch.setattr("precheck_plugins.framing.members.capacity.number", refuse)
    monkeypatch.setattr("precheck_plugins.framing.members.capacity.filled", refuse)
    monkeypatch.setattr("precheck_plugins.framing.members.demands.number", refuse)
    assert check_member(member("2x10"), UniformSpan(150, 20, 55).demand()).governing
