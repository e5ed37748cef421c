"""Wood that works bring near concrete and weather: the plate of a closed overhead door, sleepers on a slab, posts outdoors."""

from __future__ import annotations

from precheck import (
    Check,
    Floor,
    House,
    Member,
    Missing,
    NewValue,
    Opening,
    Space,
    Wall,
    Work,
    Works,
    broken,
    does_not_apply,
    infill_of,
    is_missing,
    line,
    met,
    missing_of,
    shown,
    to_show,
)

SLEEPERS = ("sleeper", "joist", "lumber", "furring", "stud")
BARRIERS = ("polyethylene", "vapor", "moisture", "retarder", "barrier", "membrane", "dimple")
FRAMING = "outdoor support"
OUTDOORS = ("post base", FRAMING, "in the ground")
ON_POSTS = ("deck", "carport", "porch")
TREATED = ("pressure-treated", "pressure treated", "preservative-treated", "preservative treated", "naturally durable")


@line("decay.infill-plate")
def infill_plate(work: Work, house: House) -> Check:
    """The plate of the wall that closes an overhead door is shown, with what keeps it from the damp of the concrete."""
    openings = [part for part in work.parts if isinstance(part, Opening)]
    if not openings:
        return to_show("pressure-treated sill plate of the wall that closes it", work)
    found = [infill_of(one, house) for one in openings]
    walls = [one for one in found if isinstance(one, Wall) and one.is_framed is not False]
    bare = [wall.absent("sill plates (with their anchor bolts)") for wall in walls if not wall.sill_plates]
    waiting = [
        one.absent("sill plate of the wall that fills it")
        for one, by in zip(openings, found, strict=True)
        if is_missing(by)
    ]
    absent = missing_of(*bare, *waiting)
    if absent is not None:
        return to_show("", work, absent)
    return shown(*walls) if walls else does_not_apply("no wood plate closes it")


@line("decay.sleepers")
def sleepers(work: Work, house: House) -> Check:
    """Sleepers on a slab that lies on the ground are treated or durable, or a moisture barrier lies under them."""
    floors = [part for part in work.parts if isinstance(part, Floor)]
    if not floors:
        return to_show("treated sleepers, or a moisture barrier under them", work)
    damp = [floor for floor in floors if _has_sleepers(floor) and not _told_in_layers(floor)]
    if any(floor.treated_sleepers is False and floor.moisture_barrier is False for floor in damp):
        why = "the sleepers are neither treated nor on a moisture barrier"
        return broken(why).or_fix(
            "pressure-treated sleepers, or a moisture barrier over the slab",
            lambda: [NewValue(floor, "treated_sleepers", "yes") for floor in damp],
        )
    absent = missing_of(*(found for floor in damp if (found := _undecided(floor)) is not None))
    if absent is not None:
        return to_show("", work, absent)
    if not any(_has_sleepers(floor) for floor in floors):
        return does_not_apply("no sleepers lie on the slab")
    return met(", ".join(floor.label for floor in floors))


@line("decay.outdoor-wood")
def outdoor_wood(work: Work, house: House) -> Check:
    """Posts and framing of a deck, carport or porch are shown as treated or durable, or a note says so.

    Wood of which nothing tells where it is serves where no other such work is in the project. The joists and beams of a
    deck stand in the rain, and want it as well as its posts.
    """
    notes = (note for note in house.project.notes if not note.is_removed)
    note = next((note for note in notes if any(word in note.note.lower() for word in TREATED)), None)
    if note is not None:
        return shown(note)
    spaces = [part for part in work.parts if isinstance(part, Space)]
    woods = [wood for wood in house.project.woods if wood.where in OUTDOORS and wood.phase in ("new", "altered")]
    own = [wood for wood in woods if wood.space in [space.id for space in spaces]]
    loose = [wood for wood in woods if is_missing(wood.space)]
    found = own or (loose if spaces and len(Works.of(house).of_kinds(*ON_POSTS)) == 1 else [])
    if found:
        lacking = _half_shown(work, house, {wood.where for wood in found})
        return to_show("", work, spaces[0].absent(lacking)) if lacking and spaces else shown(*found)
    absent = missing_of(*(wood.space for wood in loose))
    return to_show("", work, absent) if spaces and absent is not None else to_show("treated posts and framing", work)


def _half_shown(work: Work, house: House, places: set[str]) -> str:
    """Return which half of the wood of a deck is not told of: its joists and beams, or the posts drawn; else nothing."""
    if work.kind != "deck":
        return ""
    if FRAMING not in places:
        return "treated joists and beams"
    posts = any(member.role == "post" and not member.is_existing for member in house.subjects(Member))
    return "treated posts" if posts and not places.difference((FRAMING,)) else ""


def _has_sleepers(floor: Floor) -> bool:
    return any(layer.is_any_of(SLEEPERS) for layer in floor.layers)


def _told_in_layers(floor: Floor) -> bool:
    """Return whether the layers show treated sleepers, or a barrier under the first of them."""
    first = next(i for i, layer in enumerate(floor.layers) if layer.is_any_of(SLEEPERS))
    treated = floor.layers[first].is_any_of(("treated",)) and not floor.layers[first].is_any_of(("untreated",))
    return treated or any(layer.is_any_of(BARRIERS) for layer in floor.layers[:first])


def _undecided(floor: Floor) -> Missing | None:
    if floor.treated_sleepers is True or floor.moisture_barrier is True:
        return None
    return floor.absent("treated sleepers" if floor.moisture_barrier is False else "moisture barrier")
