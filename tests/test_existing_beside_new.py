"""The cases of each rule say what it makes of a part that stands, in a house in which something else is changed.

What is judged is the relation: an old stair is left alone beside a new window, and not where the work makes a bedroom of
what it leads to. A case tells where the rule draws that line if the old part alone brings the outcome that it expects, if
it expects words that name the part, or if the outcome would be another, were that part new.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from case_houses import EDITION, TOPICS, CaseHouse, changed, houses

from precheck import Part, testing
from precheck.checks import Outcome
from precheck.files.source import Block, Unusable
from precheck.project import Project, project_from
from precheck.review.finding import Finding
from precheck.review.run import run
from precheck.survey import House, part_of

CHANGED = ("new", "altered", "removed")
EXEMPT = {
    "energy.climate-zone": "the climate zone of the place",
    "flood.substantial-improvement": "what all of the work costs, whatever it touches",
    "package.cover": "what the first sheet says of the job",
    "package.existing-plan": "the plan of all that stands",
    "package.forms": "the forms of the submittal",
    "package.mirrored": "a sheet, which is neither old nor new",
    "package.paper": "a sheet, which is neither old nor new",
    "package.resubmittal": "the answer to the comments of a review",
    "package.scale": "a sheet, which is neither old nor new",
    "package.site-plan": "what the site plan says of the lot, old and new",
    "package.text-height": "a sheet, which is neither old nor new",
    "package.title-blocks": "a sheet, which is neither old nor new",
    "permits.exempt": "a small work that is listed by itself, with no parts",
    "permits.life": "the dates of a permit",
    "permits.on-site": "the papers on the site",
    "plan.stories": "the order of all stories of a house is neither old nor new",
    "rooms.house-area": "the floor area of the whole house, in which old and new rooms count alike",
    "rooms.one-large-room": "the largest room of a dwelling unit, whatever its phase",
    "walls.shoring": "a wall that is taken out or opened up; one that stays needs no shoring",
    "zoning.parking": "all stalls of the lot, in which old and new ones count alike",
}
"""Rules for which no part of a house is old or new, each with the reason."""


def phases(fragment: Block) -> dict[str, Any]:
    """Return the phase of every part of a fragment, by id."""
    return {part.id: part.phase for part in project_from(fragment, testing.plugins().added).parts}


def parts_in(subject: Any) -> Iterator[Part]:
    """Yield the parts that a subject of a rule is, lies within or holds."""
    own = part_of(subject)
    if own is not None:
        yield own
    for value in vars(subject).values() if hasattr(subject, "about") else ():
        yield from (part for part in (value if isinstance(value, tuple) else (value,)) if isinstance(part, Part))


def found(house: CaseHouse, fragment: Block, edition: str) -> list[Finding]:
    """Return what the rule of a case says of a fragment under an edition."""
    project = project_from(fragment, testing.plugins().added)
    return list(run(house.rule, House(project), testing.code(edition)))


def worst(findings: list[Finding]) -> Outcome | None:
    """Return the outcome that a case is held to."""
    return min((finding.outcome for finding in findings), default=None)


def told_alone(findings: list[Finding], part: str) -> bool:
    """Return whether a finding about `part` comes to the outcome of the case, and that is not that nothing is asked."""
    telling = [f for f in findings if f.outcome is worst(findings) and f.outcome is not Outcome.DOES_NOT_APPLY]
    return any(part in {one.id for one in parts_in(finding.subject)} for finding in telling)


def were_new(fragment: Block, part: str) -> Block:
    """Return the fragment in which `part` is new."""

    def change(block: Block, _: Any) -> None:
        if block.get("id") == part:
            block["phase"] = "new"

    copy: Block = changed(fragment, Project, change)
    return copy


def codes(house: CaseHouse) -> tuple[str, ...]:
    """Return the codes under which a case is read: its own, else one edition and the last, which has rules of its own."""
    return (EDITION, "irc-2024") if house.code == EDITION else (house.code,)


def tells(house: CaseHouse, edition: str) -> bool:
    """Return whether a case expects something of an existing part beside one that is changed."""
    by_id = phases(house.fragment)
    old = [part for part, phase in by_id.items() if phase == "existing"]
    if not old or not any(phase in CHANGED for phase in by_id.values()):
        return False
    if any(re.search(rf"\b{re.escape(part)}\b", house.says) for part in old):
        return True
    findings = found(house, house.fragment, edition)
    return any(told_alone(findings, part) or differs(house, part, findings, edition) for part in old)


def differs(house: CaseHouse, part: str, findings: list[Finding], edition: str) -> bool:
    """Return whether the outcome would be another, were `part` new."""
    try:
        return worst(found(house, were_new(house.fragment, part), edition)) is not worst(findings)
    except Unusable:
        return False


def lacking(topic: str) -> list[str]:
    """Return the rules of a topic none of whose cases says what becomes of an old part beside new work."""
    rules: dict[str, bool] = {}
    for house in houses(topic):
        name = house.rule.name
        rules[name] = rules.get(name) or name in EXEMPT or any(tells(house, edition) for edition in codes(house))
    return sorted(name for name, told in rules.items() if not told)


@pytest.mark.parametrize("topic", TOPICS)
def test_a_case_of_each_rule_has_an_old_part_beside_new_work(topic: str) -> None:
    """Otherwise nothing would notice a rule that goes by the phase of one part where the relation of two is judged."""
    assert lacking(topic) == []


def test_exempt_rules_are_there() -> None:
    """A rule that is gone, or that has such a case by now, needs no exemption."""
    assert set(EXEMPT) <= {rule.name for rule in testing.plugins().rules}
