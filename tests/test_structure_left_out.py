"""Complete small jobs show every line of structure that they take, and each part left out is asked for again."""

from __future__ import annotations

from typing import Any

import pytest

from precheck.files.source import Block, read_text
from precheck.project import project_from
from precheck.review.run import review
from precheck.rules.plugins import load_plugins
from precheck.rulesets import Library

TOPICS = ("framing", "roof-framing", "decks", "loads", "walls", "bracing", "anchorage", "decay", "fireblocking")
ROOMS = "spaces:\n- {id: den, phase: existing, use: office}\n- {id: hall, phase: existing, use: hall}\n"

JOBS = {
    "a bearing wall out": ROOMS + """
walls: [{id: W9, phase: removed, between: [den, hall], framing: {carries: one floor and roof}}]
members:
- {id: B1, phase: new, role: beam, wall: W9, bears on: [{on: P1}, {on: P2}]}
- {id: P1, phase: new, role: post, bears on: [{onto: footing}]}
- {id: P2, phase: new, role: post, bears on: [{onto: footing}]}
""",
    "two windows cut in": ROOMS + """
windows: [{id: N1, phase: new, space: den}, {id: N2, phase: new, space: hall}]
members: [{id: H1, phase: new, role: header, openings: [N1]}, {id: H2, phase: new, role: header, openings: [N2]}]
""",
    "a carport": ROOMS + """- {id: cp, phase: new, use: carport}
members:
- {id: R1, phase: new, role: rafter, bears on: [{onto: existing framing}, {on: B1}]}
- {id: B1, phase: new, role: beam, bears on: [{on: P1}, {on: P1}]}
- {id: P1, phase: new, role: post, bears on: [{onto: footing}]}
woods: [{id: T1, phase: new, where: post base, treated: yes}]
""",
    "a deck": ROOMS + """- {id: dk, phase: new, use: deck}
members:
- {id: J1, phase: new, role: deck joist, bears on: [{onto: existing framing}, {on: B1}]}
- {id: B1, phase: new, role: beam, bears on: [{on: P1}, {on: P1}]}
- {id: P1, phase: new, role: post, bears on: [{onto: footing}]}
ledgers: [{id: L1, phase: new, joists: J1}]
woods: [{id: T1, phase: new, where: post base, treated: yes}, {id: T2, phase: new, where: outdoor support, treated: yes}]
""",
    "an addition": """
spaces:
- {id: den, phase: existing, use: office, rectangle: {at: [0 in, 20 ft], width: 12 ft, depth: 12 ft}}
- {id: sun, phase: new, use: family room, floor: F1, rectangle: {at: [0 in, "7'-6\\""], width: 12 ft, depth: 12 ft}}
floors: [{id: F1, phase: new, base: joists}]
walls:
- {id: S, phase: new, between: [sun, outside], fire blocks: {at floors and ceilings: yes}}
- {id: E, phase: new, between: [sun, outside], fire blocks: {at floors and ceilings: yes}}
- {id: W, phase: new, between: [sun, outside], fire blocks: {at floors and ceilings: yes}}
braced lines:
- {id: B1, phase: new, walls: [S]}
- {id: B2, phase: new, walls: [E]}
- {id: B3, phase: new, walls: [W]}
windows: [{id: N1, phase: new, space: sun}]
members:
- {id: H1, phase: new, role: header, openings: [N1]}
- {id: J1, phase: new, role: floor joist}
- {id: R1, phase: new, role: rafter}
roof frames: [{id: RF, phase: new, rafters: R1, meets old: boards on old rafters}]
""",
    "a garage made over": """
spaces: [{id: suite, phase: altered, use: bedroom, was: garage}, {id: hall, phase: existing, use: hall}]
doors: [{id: OD, phase: removed, operation: vehicle, between: [suite, outside]}]
floors: [{id: F1, phase: new, base: slab, moisture barrier: yes, layers: [1 1/2 in sleepers, 3/4 in plywood]}]
walls: [{id: W1, phase: new, between: [suite, outside], opening filled: OD, sill plates: [{on: slab, treated: yes}]}]
notes: [{id: N1, phase: new, note: Provide fireblocking}]
""",
    "an attic floored": ROOMS + """- {id: loft, phase: altered, use: attic, attic storage: yes}
members: [{id: J1, phase: existing, role: ceiling joist, carries: [{use: attic with limited storage, space: loft}]}]
""",
}  # fmt: skip
ABOUT = ("spaces", "doors", "windows", "floors", "project")  # what makes the work, and is not what shows it
MAY_STAND = ("ledgers", "posts")  # what a new deck or beam may hang or stand on: rules of its own look at it


@pytest.fixture(scope="module")
def states():
    plugins = load_plugins()
    code = Library(plugins.rulesets).adopt("irc-2021")

    def reviewed(block: Block) -> dict[str, str]:
        found = review(project_from(block, plugins.added), code, plugins, list(TOPICS))
        return {f"{one.name} of {work.work.label}": one.state for work in found.works for one in work.lines}

    return reviewed


def job(name: str) -> Block:
    return read_text(f"project: P\n{JOBS[name]}", "p.yaml")


@pytest.mark.parametrize("name", JOBS)
def test_a_complete_job_shows_each_line_that_it_takes(name, states):
    found = states(job(name))
    assert {line: state for line, state in found.items() if state != "shown"} == {}
    assert found


@pytest.mark.parametrize("name", JOBS)
def test_each_part_left_out_is_asked_for_again(name, states):
    for section, records in job(name).items():
        for index, record in enumerate(records if section not in ABOUT else ()):
            left = job(name)
            del left[section][index]
            if not _is_only_named(record, left):
                assert "to show" in states(left).values(), record["id"]


def _is_only_named(record: Any, left: Block) -> bool:
    """Return whether other parts name `record`, so that the file is refused without it."""
    return any(f"'{record['id']}'" in str(part) for parts in left.values() if isinstance(parts, list) for part in parts)


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("phase", ["existing", "removed"])
def test_a_part_that_stands_or_goes_does_not_show_what_is_built(name, phase, states):
    for section, records in job(name).items():
        for index, record in enumerate(records if section not in (*ABOUT, "notes") else ()):
            kind = "posts" if record.get("role") == "post" and name.startswith("a bearing wall") else section
            if record["phase"] == "new" and not (kind in MAY_STAND and phase == "existing"):
                other = job(name)
                other[section][index]["phase"] = phase
                assert "to show" in states(other).values(), record["id"]


@pytest.mark.parametrize("name", JOBS)
def test_the_order_of_parts_changes_nothing(name, states):
    turned = job(name)
    for section, records in turned.items():
        if isinstance(records, list) and section != "spaces":
            records.reverse()
    assert states(turned) == states(job(name))
