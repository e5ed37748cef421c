"""A place may delete a limit or leave it to be set: rules on structure, and on what places ask, go on without it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from precheck import testing
from precheck.files.missing import Missing, Need
from precheck.files.record import read_record
from precheck.files.source import Block, Place, read_file
from precheck.rulesets.limit import Event, Limit, deleted, frozen
from precheck.runs import cases

PLUGINS = Path(__file__).parents[1] / "plugins"
TOPICS = ("foundations", "walls", "bracing", "decay", "fireblocking")
OTHERS = {
    "access": ("ground",),
    "appliances": ("clearance", "heating-room", "propane-below-grade"),
    "cladding": ("ceiling-board",),
    "electrical": ("directory", "grounding"),
    "energy": ("foam-cover", "foam-label"),
    "existing": ("stair",),
    "garages": ("carport-sides",),
    "package": ("excavation-fence", "mirrored", "seal", "sheets-agree", "text-height", "title-blocks"),
    "roofing": ("chimney-height",),
    "rooms": ("house-area",),
    "zoning": (
        "driveway", "driveway-cut", "equipment-way", "setback-by-height", "sidewalk", "vehicle-door-kept",
        "wildfire-cladding", "wildfire-roof", "wildfire-underside", "wildfire-vents", "yard-wall",
    ),
}  # fmt: skip
FILES = [
    *(path for topic in TOPICS for path in sorted((PLUGINS / topic / "cases").glob("*.yaml"))),
    *(PLUGINS / topic / "cases" / f"{name}.yaml" for topic, names in OTHERS.items() for name in names),
]


def taken_away(limit: Limit[object]) -> list[Limit[object]]:
    act = Event("deleted", "", "Ordinance 1", Place("", 1, 1))
    return [deleted(limit, act), replace(limit, value=Missing(Need("the jurisdiction's ruleset", limit.measures)))]


def codes_of(file: testing.CaseFile) -> list[str]:
    """Return a model code, and the places whose rulesets the cases are tried under."""
    return list(dict.fromkeys(["irc-2021", *(case.code for case in file.cases if isinstance(case.code, str))]))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_no_rule_breaks_off_where_one_of_its_limits_is_taken_away(path: Path) -> None:
    file, plugins = read_record(testing.CaseFile, read_file(path)), testing.plugins()
    rule = next(one for one in plugins.rules if one.name == file.rule)
    given = [Block((0, 0), str(path)), *(case.given for case in file.cases if case.given and case.expect == "fail")]
    for code in map(testing.code, codes_of(file)):
        for name in rule.limit_names:
            for limit in taken_away(code.limits[name]):
                local = replace(code, limits=frozen({**code.limits, name: limit}))
                for block in given:
                    found = cases.findings_of(file.rule, testing.overlay(file.base, block), local, plugins) or []
                    assert [f.error for f in found if f.outcome.word == "error"] == [], name
