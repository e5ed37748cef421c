"""Small jobs as people write them: no work of theirs is missed, and none is found that they do not hold."""

from __future__ import annotations

import pytest

from precheck.files.source import read_text
from precheck.project import project_from
from precheck.survey import House, Works

HALL = "{id: hall, phase: existing, use: hall}"
UPPER = "stories: [{id: g, level: ground}, {id: u, level: upper}, {id: t, level: attic}, {id: b, level: basement}]\n"


def spaces(*lines: str) -> str:
    return "spaces:\n" + "".join(f"- {line}\n" for line in (HALL, *lines))


JOBS = {
    # a garage, carport, porch
    "a garage split into a bedroom, a bath and what stays": (
        spaces(
            "{id: suite, phase: new, use: bedroom, was: garage}", "{id: bath, phase: new, use: bathroom, was: garage}",
            "{id: rest, phase: altered, use: garage}",
        ) + "doors:\n- {id: D1, phase: new, between: [suite, rest]}\n- {id: D2, phase: new, between: [suite, bath]}\n"
        "- {id: D3, phase: new, between: [suite, hall]}\n- {id: D9, phase: removed, operation: vehicle, between: [suite, outside]}\n"
        "walls: [{id: W1, phase: new, between: [suite, rest]}]\n",
        ["garage to room: space suite", "new bedroom: space suite", "bath: space bath", "opening made: door D3",
         "overhead door closed: door D9"],
    ),
    "a garage that goes and a room drawn in its place": (
        ("spaces:\n- {id: gar, phase: removed, use: garage, rectangle: {at: [0 ft, 0 ft], width: 20 ft, depth: 20 ft}}\n"
        "- {id: fam, phase: new, use: family room, rectangle: {at: [0 ft, 0 ft], width: 20 ft, depth: 20 ft}}\n"
        "doors: [{id: D9, phase: removed, operation: vehicle, between: [gar, outside]}]\n"),
        ["garage to room: space fam", "overhead door closed: door D9"],
    ),
    "a garage door that goes without a word on how it works, and a narrow one beside it": (
        spaces("{id: den, phase: altered, use: office, was: garage}") + "doors:\n"
        "- {id: D1, phase: removed, between: [den, outside], unit size: 9'-0\" x 7'-0\"}\n"
        "- {id: D2, phase: removed, between: [den, outside], unit size: 2'-8\" x 6'-8\"}\n"
        "- {id: D3, phase: removed, between: [den, outside]}\n",
        ["garage to room: space den", "overhead door closed: door D1", "opening closed: door D2",
         "overhead door closed: door D3"],
    ),
    "a garage that is only listed, with the new room": (
        "work: [garage conversion]\n" + spaces("{id: fam, phase: new, use: family room}"), ["garage to room: space fam"],
    ),
    "a garage listed and nothing drawn": ("work: [garage to room, bath]\n", ["garage to room", "bath"]),
    "a garage listed and drawn": (
        "work: [garage to room]\n" + spaces("{id: fam, phase: altered, use: family room, was: garage}"),
        ["garage to room: space fam"],
    ),
    "a garage becomes a workshop, and a circuit is new": (
        spaces("{id: shop, phase: altered, use: workshop, was: garage}") + "circuits: [{id: C, phase: new}]\n",
        ["other work: space shop", "wiring: circuit C"],
    ),
    "a carport enclosed as a room": (
        spaces("{id: den, phase: altered, use: office, was: carport}")
        + "walls: [{id: W1, phase: new, between: [den, outside]}, {id: W2, phase: existing, between: [den, hall]}]\n"
        "doors: [{id: D1, phase: new, between: [den, outside]}]\n",
        ["carport to room: space den"],
    ),
    "a carport enclosed as a garage": (
        spaces("{id: gar, phase: altered, use: garage, was: carport}"), ["garage: space gar"]
    ),
    "a carport with two open sides, attached": (
        spaces("{id: cp, phase: new, use: carport, open sides: 2}"), ["carport: space cp"]
    ),
    "a carport that stands apart": (
        spaces("{id: cp, phase: new, use: carport, detached: yes, open sides: 4}"), ["carport: space cp"],
    ),
    "a detached garage that is listed, and drawn without saying that it stands apart": (
        "work: [detached garage]\n" + spaces("{id: gar, phase: new, use: garage}"), ["detached building: space gar"],
    ),
    "a deck that gets a roof": (spaces("{id: p, phase: altered, use: porch, was: deck}"), ["porch: space p"]),
    "a sunroom made of a porch": (
        spaces("{id: sun, phase: altered, use: sunroom, was: porch}"), ["porch to room: space sun"]
    ),
    # basement and attic
    "a basement finished, with one window enlarged": (
        UPPER + spaces(
            "{id: fam, phase: altered, use: family room, was: storage, story: b}",
            "{id: br, phase: new, use: bedroom, was: storage, story: b}",
        ) + "windows: [{id: W1, phase: altered, space: br}]\n",
        ["basement to room: space fam", "new bedroom: space br", "opening widened: window W1"],
    ),
    "a bedroom in the basement of which nothing is said": (
        UPPER + spaces("{id: br, phase: new, use: bedroom, story: b}"), ["new room: space br", "new bedroom: space br"],
    ),
    "a basement that is only listed": (
        "work: [basement finish]\n" + spaces("{id: br, phase: new, use: bedroom}"),
        ["basement to room: space br", "new bedroom: space br"],
    ),
    "an attic made habitable": (
        UPPER + spaces("{id: att, phase: altered, use: attic, habitable attic: yes, story: t}"), ["attic to room: space att"],
    ),
    "an attic floored for storage, with a new stair": (
        spaces("{id: att, phase: altered, use: attic, attic storage: yes}")
        + "stairs: [{id: S1, phase: new, between: [hall, att]}]\n",
        ["attic storage: space att", "stair: stair S1"],
    ),
    "a storage room made of an attic": (
        spaces("{id: att, phase: altered, use: storage, was: attic}"), ["attic storage: space att"]
    ),
    "a utility room and a storage room made habitable": (
        spaces("{id: of, phase: altered, use: office, was: utility}", "{id: br, phase: altered, use: bedroom, was: storage}"),
        ["storage to room: space of", "new bedroom: space br"],
    ),
    # additions
    "a master suite built on": (
        spaces(
            "{id: br, phase: new, use: bedroom}", "{id: ba, phase: new, use: bathroom}", "{id: cl, phase: new, use: closet}",
        ) + "windows: [{id: W1, phase: new, space: br}]\n"
        "doors: [{id: D1, phase: new, between: [br, hall]}, {id: D2, phase: new, between: [br, ba]}]\n"
        "roofs: [{id: R1, phase: new}]\n",
        ["addition: space br", "new bedroom: space br", "bath: space ba", "opening made: door D1"],
    ),
    "an upper addition over what stands": (
        UPPER + spaces("{id: br, phase: new, use: bedroom, story: u}") + "roofs: [{id: R0, phase: altered}]\n",
        ["upper addition: space br", "new bedroom: space br", "roof changed: roof R0"],
    ),
    "an upper addition listed by its general name": (
        "work: [addition]\n" + UPPER + spaces("{id: of, phase: new, use: office, story: u}"), ["upper addition: space of"],
    ),
    "an upper addition that only the list tells": (
        "work: [second story addition]\n" + spaces("{id: of, phase: new, use: office}"), ["upper addition: space of"],
    ),
    "a storage room built on": (
        spaces("{id: st, phase: new, use: storage, rectangle: {at: [0 ft, 0 ft], width: 8 ft, depth: 8 ft}}"),
        ["addition: space st"],
    ),
    "a bath by itself, of which nothing tells where it comes from": (
        spaces("{id: ba, phase: new, use: bathroom}"), ["new room: space ba", "bath: space ba"],
    ),
    "a closet parted off from a bedroom, with its door": (
        spaces("{id: cl, phase: new, use: closet, addition: no}", "{id: br, phase: altered, use: bedroom}")
        + "doors: [{id: D1, phase: new, between: [cl, br]}]\n",
        ["other work: space cl"],
    ),
    "a bedroom parted off from a garage that becomes smaller": (
        spaces(
            "{id: br, phase: new, use: bedroom, rectangle: {at: [0 ft, 0 ft], width: 10 ft, depth: 12 ft}}",
            "{id: gar, phase: altered, use: garage, rectangle: {at: [10 ft, 0 ft], width: 12 ft, depth: 12 ft},"
            " before: {rectangle: {at: [0 ft, 0 ft], width: 22 ft, depth: 12 ft}}}",
        ),
        ["garage to room: space br", "new bedroom: space br"],
    ),
    "a bedroom built on beside a room that grows": (
        spaces(
            "{id: br, phase: new, use: bedroom, rectangle: {at: [-12 ft, 0 ft], width: 11 ft, depth: 12 ft}}",
            "{id: of, phase: altered, use: office, rectangle: {at: [0 ft, 0 ft], width: 22 ft, depth: 12 ft},"
            " before: {rectangle: {at: [0 ft, 0 ft], width: 12 ft, depth: 12 ft}}}",
        ),
        ["addition: space br", "new bedroom: space br"],
    ),
    "a new house that is only listed": (
        "work: [new house]\nspaces:\n- {id: k, phase: new, use: kitchen}\n- {id: l, phase: new, use: living room}\n",
        ["new house: space k", "kitchen: space k"],
    ),
    # walls and openings
    "kitchen and dining room made one": (
        "spaces:\n- {id: kit, phase: altered, use: kitchen, rectangle: {at: [0 ft, 0 ft], width: 20 ft, depth: 12 ft}}\n"
        "- {id: din, phase: removed, use: dining room, rectangle: {at: [10, 0], width: 10 ft, depth: 12 ft}}\n"
        "walls: [{id: W1, phase: removed, between: [kit, din]}]\n"
        "doors: [{id: D1, phase: removed, between: [kit, din]}]\n".replace("[10, 0]", "[10 ft, 0 ft]"),
        ["wall removed: wall W1"],
    ),
    "a door moved": (
        spaces("{id: br, phase: existing, use: bedroom}")
        + "doors:\n- {id: D1, phase: removed, between: [br, hall]}\n- {id: D2, phase: new, between: [br, hall]}\n",
        ["opening closed: door D1", "opening made: door D2"],
    ),
    "windows replaced, as listed": (
        "work: [replace windows]\n" + spaces() + "windows: [{id: W1, phase: new, space: hall}, {id: W2, phase: new, space: hall}]\n",
        ["window replaced: window W1", "window replaced: window W2"],
    ),
    "one window replaced and one cut, as the windows say": (
        spaces() + "windows: [{id: W1, phase: new, space: hall, replacement: yes}, {id: W2, phase: new, space: hall}]\n",
        ["window replaced: window W1", "opening made: window W2"],
    ),
    "an egress window listed, and one enlarged": (
        "work: [egress window]\n" + spaces() + "windows: [{id: W1, phase: altered, space: hall}]\n",
        ["opening widened: window W1"],
    ),
    # kitchen, bath, equipment
    "a kitchen remodel that is listed": (
        "work: [kitchen remodel]\n" + spaces("{id: kit, phase: altered, use: kitchen}"), ["kitchen: space kit"],
    ),
    "a bath with new fixtures in a room that stands": (
        spaces("{id: ba, phase: existing, use: bathroom}")
        + "fixtures: [{id: F1, phase: new, what: shower, space: ba}, {id: F2, phase: removed, what: tub, space: ba}]\n",
        ["bath: space ba"],
    ),
    "a cooling unit and a water heater": (
        spaces() + "appliances: [{id: AC, phase: new, what: air conditioner, space: hall}, {id: WH, phase: new, what: water heater, "
        "space: hall}, {id: FU, phase: removed, what: furnace, space: hall}]\n",
        ["heating or cooling: appliance AC", "water heater: appliance WH"],
    ),
    "a roof covering that is replaced": (spaces() + "roofs: [{id: R1, phase: new}]\n", ["roof changed: roof R1"]),
    "sleepers on a slab of which the base is not said": (
        spaces() + "floors: [{id: F1, phase: new, layers: [5 1/2 in sleepers, 3/4 in plywood]}]\n",
        ["floor over slab: floor F1"],
    ),
    "a garage taken down": (
        spaces("{id: gar, phase: removed, use: garage}") + "walls: [{id: W1, phase: removed, between: [gar, outside]}]\n"
        "doors: [{id: D1, phase: removed, operation: vehicle, between: [gar, outside]}]\n",
        ["demolition: space gar"],
    ),
    # what contradicts itself, and what holds no work
    "listed as a deck that stands already": (
        "work: [deck]\n" + spaces("{id: d, phase: existing, use: deck}"), ["deck"],
    ),
    "listed as an attic storage that the attic denies": (
        "work: [attic storage]\n" + spaces("{id: a, phase: existing, use: attic, attic storage: no}"), ["attic storage"],
    ),
    "a bedroom that was a garage and is called existing": (
        spaces("{id: br, phase: existing, use: bedroom, was: garage}"), []
    ),
    "a house that stays as it is": (
        spaces() + "windows: [{id: W1, phase: existing, space: hall}]\nwalls: [{id: W, phase: existing, between: [hall, outside]}]\n",
        [],
    ),
    "lot lines and sheets alone": ("sheets: [{id: A1, phase: new}]\nlot lines: [{id: L, phase: new, side: front}]\n", []),
}  # fmt: skip


@pytest.mark.parametrize("job", JOBS)
def test_a_job_holds_these_works_and_no_others(job: str) -> None:
    text, expected = JOBS[job]
    house = House(project_from(read_text(f"project: P\n{text}", "p.yaml")))
    assert sorted(work.label for work in Works.of(house).works) == sorted(expected)
