"""One header, judged by its row of the header tables and by its loads: what the table takes, the sum does not fail."""

from __future__ import annotations

import pytest
from precheck_plugins.framing.tables.headers import HeaderLoads, header_span
from precheck_plugins.framing.timber.sections import dressed_section

from precheck.files.source import read_text
from precheck.reports import words
from precheck.review.finding import Finding
from precheck.testing import findings

SIZES = ("2-2x6", "2-2x10", "3-2x8", "3-2x12", "4-2x10")
CASES = [(size, snow, width, floors) for size in SIZES for snow in (30, 70) for width in (12, 36) for floors in (0, 1)]


def by_its_loads(size: str, loads: HeaderLoads, span_in: float, rule: str) -> Finding:
    """Say of the same header with the loads that the table counts, of the weakest species that it counts."""
    plies, of = size.split("-")
    species = header_span(dressed_section(size), loads).bending.source.species
    text = f"""design criteria: {{ground snow load: {loads.ground_snow_psf} psf}}
members:
  - id: H1
    phase: new
    role: header
    size: {of}
    plies: {plies}
    species: {species}
    grade: No.2
    span: {span_in} in
    unbraced: 0 in
    carries:
      - {{use: other room, dead per foot: {loads.dead_plf:.3f} lb, live per foot: {loads.live_plf:.3f} lb}}
      - {{use: roof, dead per foot: 0 lb, roof per foot: {loads.snow_plf:.3f} lb}}
"""
    return findings(rule, read_text(text, "header"), "irc-2021")[0]


@pytest.mark.parametrize(("size", "snow", "width", "floors"), CASES)
def test_a_header_at_its_printed_span_is_not_failed_by_its_loads_and_is_beyond_it(
    size: str, snow: int, width: int, floors: int
) -> None:
    loads = HeaderLoads(snow, width, floors)
    printed = header_span(dressed_section(size), loads).tabulated_in
    at, beyond = (by_its_loads(size, loads, span, "framing.strength") for span in (printed, printed * 1.03 + 1))
    assert at.outcome.word in ("pass", "warn"), words.message(at)
    assert beyond.outcome.word == "fail", words.message(beyond)
    assert by_its_loads(size, loads, printed, "framing.deflection").outcome.word == "pass"


def test_a_header_that_holds_but_for_its_own_weight_says_so() -> None:
    loads = HeaderLoads(30, 24, 0)
    found = by_its_loads("3-2x8", loads, header_span(dressed_section("3-2x8"), loads).tabulated_in, "framing.strength")
    assert "without its own weight" in words.message(found)


def test_a_beam_gets_nothing_of_what_the_header_tables_count() -> None:
    text = """members: [{id: H1, phase: new, role: beam, size: 2x8, plies: 3, species: Southern pine, grade: No.2, span: 87 in,
      unbraced: 0 in, carries: [{use: roof, dead per foot: 280 lb, roof per foot: 333 lb}]}]
design criteria: {ground snow load: 30 psf}
"""
    assert findings("framing.strength", read_text(text, "beam"), "irc-2021")[0].outcome.word == "fail"
