"""`precheck limits --report json` gives each limit in effect as data that anyone can hold against a text of the code."""

import json
from typing import Any

import jsonschema
import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.testing import code

WORD = {"type": "string"}
VALUE: dict[str, Any] = {"type": ["number", "string", "boolean", "array", "object", "null"]}
SCHEMA = {
    "type": "object",
    "required": ["code", "limits"],
    "properties": {
        "code": {"type": "object", "required": ["jurisdiction", "chain", "partial"]},
        "limits": {
            "type": "array",
            "items": {
                "type": "object",
                "additionalProperties": False,
                "required": ["name", "measure", "sense", "value", "unit", "section", "basis", "source"],
                "properties": {
                    "name": {"type": "string", "pattern": r"^[a-z0-9-]+(\.[a-z0-9-]+)+$"},
                    "measure": {"type": "string", "minLength": 1},
                    "sense": {"enum": ["", "minimum", "maximum", "under", "over", "one of", "required", "allowed"]},
                    "kind": WORD,
                    "value": VALUE,
                    "unit": WORD,
                    "text": {"type": "string", "minLength": 1},
                    "section": WORD,
                    "advised": {"type": "boolean"},
                    "basis": {"enum": ["read", "read elsewhere", "memory", "practice", "local", "demo"]},
                    "source": WORD,
                    "place": {"type": "string", "pattern": r":\d+$"},
                    "for_some": {"type": "array"},
                },
            },
        },
    },
}


def limits(*arguments: str) -> dict[str, Any]:
    result = CliRunner().invoke(cli, ["limits", "--report", "json", *arguments])
    assert result.exit_code == 0, result.output
    found: dict[str, Any] = json.loads(result.output)
    return found


@pytest.mark.parametrize("ruleset", ["irc-2015", "irc-2021", "irc-2024", "city-of-linden-ford"])
def test_each_limit_of_a_ruleset_is_there_once_and_has_the_form_that_the_schema_gives(ruleset: str) -> None:
    found = limits("--ruleset", ruleset)
    jsonschema.validate(found, SCHEMA)
    assert [one["name"] for one in found["limits"]] == sorted(code(ruleset).limits)


def test_a_value_is_a_number_with_its_unit_and_the_text_is_as_written() -> None:
    by_name = {one["name"]: one for one in limits("--ruleset", "irc-2021")["limits"]}
    riser = by_name["stairs.riser-height.maximum"]
    assert (riser["value"], riser["unit"], riser["text"], riser["sense"]) == (7.75, "in", "7 3/4 in", "maximum")
    sill = by_name["escape.sill.maximum"]
    assert (sill["measure"], sill["value"], sill["section"], sill["basis"]) == ("sill height", 44, "R310.2.3", "read")
    assert "2021 code as adopted by" in sill["source"]
    assert (by_name["zoning.parking.minimum"]["value"], by_name["zoning.parking.minimum"]["text"]) == (
        None,
        "set locally",
    )


def test_what_is_written_in_percent_is_a_share_unless_it_is_a_slope() -> None:
    kinds = {one["name"]: one["kind"] for one in limits("--ruleset", "irc-2021")["limits"]}
    assert kinds["light-and-air.glazing.minimum"] == kinds["ceilings.sloped.full-height-share"] == "share"
    assert (
        kinds["cladding.ground-falls.paving"] == kinds["plumbing.pipes.slope"] == kinds["ramps.slope.other"] == "slope"
    )


def test_a_deflection_is_a_number_that_is_shown_as_a_part_of_the_span() -> None:
    (floor,) = (one for one in limits("--ruleset", "irc-2021")["limits"] if one["name"] == "framing.deflection.floor")
    assert (floor["value"], floor["kind"], floor["text"]) == (360, "number", "L/360")


def test_every_measure_of_a_ruleset_becomes_a_number_with_a_unit() -> None:
    measured = ("length", "area", "load", "force", "air flow", "time", "slope", "temperature", "R-value", "speed")
    for one in limits("--ruleset", "irc-2021")["limits"]:
        if one["kind"] in measured and one["value"] is not None:
            assert isinstance(one["value"], int | float), one
            assert one["unit"], one


def test_a_topic_alone_can_be_listed() -> None:
    assert {
        one["name"].partition(".")[0] for one in limits("--ruleset", "irc-2021", "--topic", "guards")["limits"]
    } == {"guards"}
