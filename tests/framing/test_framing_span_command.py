"""The command that answers with longest spans, and how commands of plugins are found."""

from __future__ import annotations

import json
import subprocess
import sys
from typing import Any

import click
import pytest
from click.testing import CliRunner, Result
from precheck_plugins.framing.span import command as span
from precheck_plugins.framing.tables.joists_and_rafters import FAMILIES

from precheck import cli as command_line
from precheck.files.installed import Registered

ASKED = {
    "--size": "2x10",
    "--species": "Douglas fir-larch",
    "--grade": "No.2",
    "--spacing": "16 in",
    "--live": "40 psf",
    "--dead": "10 psf",
    "--deflection": "360",
}


def ask(**changes: str | None) -> Result:
    options = ASKED | {f"--{key}": value for key, value in changes.items()}
    words = [word for key, value in options.items() if value is not None for word in (key, value)]
    return CliRunner().invoke(command_line.cli, ["span", *words])


def answer(**changes: str | None) -> dict[str, Any]:
    result = ask(report="json", **changes)
    assert result.exit_code == 0, result.output
    return json.loads(result.output)


def test_the_span_of_the_table_is_printed_with_what_governs_and_the_bearing() -> None:
    # 15-7 as the recipe of R502.3.1(2) gives it; worked by hand: sqrt(8 x 1138.5 x 21.39 / 5.556) = 187.3 in.
    text = ask().output
    assert "Longest span: 15'-7\" (187 in)" in text
    assert "Governed by: bending" in text
    assert "Bearing needed: 0.55 in" in text
    assert "licensed engineer" in text


def test_the_report_for_machines_holds_the_answer_and_each_step() -> None:
    found = answer()
    assert (found["span_in"], found["governs"], found["bearing_in"]) == (187, "bending", 0.554)
    assert found["steps"][-1]["symbol"] == "lb"
    assert all(step["source"] and step["expression"] for step in found["steps"])


@pytest.mark.parametrize(
    ("changes", "inches"),
    [
        ({"live": "20 psf", "deflection": "240", "use": "ceiling", "size": "2x8"}, 198),
        ({"live": "20 psf", "deflection": None, "use": "ceiling", "size": "2x8"}, 198),
        ({"deflection": "L/360"}, 187),
        ({"spacing": "24 in"}, 153),
    ],
)
def test_uses_and_notations(changes: dict[str, str | None], inches: int) -> None:
    # By hand, ceiling: F'b 900 x 1.2 x 1.15 = 1242 psi, S 13.14 in3, w 3.333 lb/in; sqrt(8 F'b S / w) = 197.9 in.
    assert answer(**changes)["span_in"] == inches


def test_members_more_than_24_in_apart_lose_the_repetitive_factor() -> None:
    steps = {step["symbol"]: step["value"] for step in answer(spacing="32 in")["steps"]}
    assert steps["Cr"] == 1


def test_without_a_size_the_table_of_the_species_is_printed() -> None:
    text = ask(size=None, grade=None, spacing=None).output
    rows = [line.split() for line in text.splitlines()]
    assert ["No.2", "2x10", "18-0", "b", "15-7", "b", "14-3", "b", "12-9", "b"] in rows
    found = answer(size=None, spacing=None)["spans"]
    assert {row["size"] for row in found} == {"2x4", "2x6", "2x8", "2x10", "2x12"}
    assert {row["spacing_in"] for row in found} == {12.0, 16.0, 19.2, 24.0}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"dead": "10"}, "no unit"),
        ({"dead": "0 psf"}, "above zero"),
        ({"size": "2x9"}, "depths"),
        ({"species": "Oak"}, "Hem-fir"),
        ({"species": "Oak", "size": None}, "Hem-fir"),
        ({"grade": "No.9"}, "No.2"),
        ({"grade": "No.9", "size": None}, "No.2"),
        ({"deflection": "L/none"}, "write 360"),
        ({"edition": "irc-1999"}, "irc-2015"),
        ({"live": None}, "--live"),
    ],
)
def test_what_cannot_be_answered_is_refused_with_what_to_write(changes: dict[str, str | None], told: str) -> None:
    result = ask(**changes)
    assert result.exit_code == 2
    assert told in result.output


def test_the_uses_of_the_option_are_the_table_families() -> None:
    assert set(span.USES) == set(FAMILIES)


def test_help_lists_the_commands_of_plugins_without_importing_them() -> None:
    program = (
        "import sys; from precheck.cli import cli\n"
        "try: cli(['--help'])\nexcept SystemExit: pass\nprint(sorted(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert "span" in done.stdout.split("Commands that plugins add")[1]
    for module in ("precheck_plugins", "pluggy", "pydantic", "pint", "ruamel", "precheck.units"):
        assert f"'{module}" not in done.stdout


def offering(monkeypatch: pytest.MonkeyPatch, value: str) -> Result:
    entry = Registered(command_line.COMMANDS_OF_PLUGINS, "odd", value)
    monkeypatch.setattr(command_line, "_offered", lambda: {"odd": entry})
    return CliRunner().invoke(command_line.cli, ["odd"])


def test_a_command_of_a_plugin_that_cannot_be_loaded_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    result = offering(monkeypatch, "no_such_module:command")
    assert result.exit_code == 1
    assert "no_such_module" in result.output


def test_a_command_of_a_plugin_that_is_no_command_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "no click command" in offering(monkeypatch, "json:loads").output


def test_an_unknown_command_is_told_the_nearest_one_of_a_plugin() -> None:
    result = CliRunner().invoke(command_line.cli, ["spam"])
    assert result.exit_code == 2
    assert "Did you mean `span`" in result.output
    assert isinstance(command_line.cli, click.Group)


def test_a_size_that_is_not_sold_is_told_with_those_that_are() -> None:
    asked = ["span", "--size", "2x11", "--species", "Douglas fir-larch", "--live", "40 psf", "--dead", "10 psf"]
    result = CliRunner().invoke(command_line.cli, asked)
    assert result.exit_code == 2
    assert "thicknesses are 2, 3, 4 in, or 5 in and more, and depths 2, 3, 4, 5, 6, 8" in result.output
