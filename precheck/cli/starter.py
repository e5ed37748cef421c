"""The text of a new project file: what the answers say, and, as comments, what to say next and why."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass

HEAD = """\
# What the drawings say of one house and the work on it. A value that is not here counts as not shown.
# Lengths as you draw them: 8'-6 1/2", 7 3/4 in, 2.59 m. A `#` begins a comment. `precheck ask` fills this in with you.
"""


@dataclass(frozen=True)
class Job:
    """What was answered at the start."""

    name: str
    where: str
    applied_on: str
    converted: str = ""
    room: str = ""
    garage_remains: bool = False
    glass_door: bool = False
    windows: int = 0
    stair: bool = False
    storage: bool = False


def project_text(job: Job) -> str:
    """Return the project file for `job`."""
    return "\n".join(_lines(job)) + "\n"


def _lines(job: Job) -> Iterator[str]:
    yield f"{HEAD}project: {_text(job.name)}"
    yield f"jurisdiction: {_text(job.where)}"
    yield f"applied on: {job.applied_on}  # this date picks the code that is in force"
    yield "# address:"
    yield "# scope:   # the work in a sentence or two"
    yield ""
    yield "dwelling:"
    yield "  # year built:"
    yield "  # sprinklered:   # yes or no"
    yield ""
    yield "sheets:"
    yield "  - {id: A1, title: Plans}"
    yield "  - {id: A2, title: Sections}"
    yield ""
    yield from _stories(job)
    yield from _floors(job)
    yield from _spaces(job)
    yield from _doors(job)
    yield from _windows(job)
    yield from _stairs(job)


def _stories(job: Job) -> Iterator[str]:
    yield "stories:  # lowest first"
    yield "  - {id: ground, level: ground, phase: existing}"
    if _upstairs(job):
        yield "  - {id: attic-level, level: attic, phase: altered}"
    yield ""


def _upstairs(job: Job) -> bool:
    return job.storage or job.converted == "attic"


def _floors(job: Job) -> Iterator[str]:
    yield "floors:  # levels above (or, with a minus, below) the finished floor of the house"
    yield "  - {id: house-floor, phase: existing, finished level: 0 in, sheets: [A2]}"
    if job.converted in ("garage", "carport"):
        yield "  - id: new-floor"
        yield "    phase: new"
        yield "    base: slab"
        yield "    # base level:   # top of the slab, such as -8 in"
        yield "    # layers:       # from the slab up, such as [1 1/2 in sleepers, 3/4 in plywood, 3/8 in oak]"
        yield "    sheets: [A2]"
    if _upstairs(job):
        yield "  - id: attic-floor"
        yield "    phase: new"
        yield "    base: joists"
        yield "    # base level:   # top of the joists"
        yield "    # layers:       # such as [3/4 in plywood]"
        yield "    sheets: [A2]"
    yield ""


def _spaces(job: Job) -> Iterator[str]:
    yield "spaces:"
    yield "  - {id: house, name: The house as it is, phase: existing, use: hall, story: ground, floor: house-floor, sheets: [A1]}"
    if job.converted:
        yield "  - id: new-room"
        yield f"    name: New {job.room}"
        yield "    phase: altered"
        yield f"    use: {job.room}"
        yield f"    was: {job.converted}"
        yield f"    story: {'attic-level' if job.converted == 'attic' else 'ground'}"
        yield f"    floor: {'attic-floor' if job.converted == 'attic' else 'new-floor'}"
        yield "    # rectangle:   # for the plan: {at: [0 ft, 0 ft], width: 20 ft, depth: 14 ft}"
        yield "    # ceiling:     # {height: 8 ft}, or what it is built of: {framing level: 97 in, layers: [1/2 in gypsum]}"
        yield "    sheets: [A1]"
    if job.garage_remains:
        yield "  - id: garage"
        yield "    name: Garage that remains"
        yield "    phase: existing"
        yield "    use: garage"
        yield "    story: ground"
        yield "    rooms beside: [new-room]"
        yield "    sheets: [A1]"
    if job.storage:
        yield "  - id: attic"
        yield "    name: Storage in the attic"
        yield "    phase: altered"
        yield "    use: attic"
        yield "    story: attic-level"
        yield "    floor: attic-floor"
        yield "    sheets: [A1]"
    yield ""


def _room(job: Job) -> str:
    return "new-room" if job.converted else "house"


def _doors(job: Job) -> Iterator[str]:
    if not (job.converted or job.glass_door):
        return
    yield "doors:"
    if job.converted:
        yield from _door("D1", f"[house, {_room(job)}]", "    # swings into:")
    if job.glass_door:
        yield from _door("D2", f"[{_room(job)}, outside]", "    construction: glass", "    # operation:   # side-hinged or sliding",
                         "    # landings:    # [{side: outside, depth: 36 in, width: 72 in, level: -7 in}]")  # fmt: skip
    if job.garage_remains:
        yield from _door(
            "D3",
            "[house, garage]",
            "    # construction:   # solid wood, solid steel, ...",
            "    # thickness:",
            "    # fire rating:",
        )
    yield ""


def _door(name: str, between: str, *more: str) -> Iterator[str]:
    yield f"  - id: {name}"
    yield "    phase: new"
    yield f"    between: {between}"
    yield "    # unit size:   # width x height, such as 3'-0\" x 6'-8\""
    yield "    # middle:      # for the plan: the middle of its width, such as [6 ft, 0 ft]"
    yield from more
    yield "    sheets: [A1]"


def _windows(job: Job) -> Iterator[str]:
    if not job.windows:
        return
    yield "windows:"
    for number in range(1, job.windows + 1):
        yield f"  - id: W{number}"
        yield "    phase: new"
        yield f"    space: {_room(job)}"
        yield "    # operation:           # casement, double hung, slider, ..."
        yield "    # unit size:"
        yield "    # net clear opening:   # what a person can climb through; see the manufacturer sheet"
        yield "    # sill height:         # finished floor to the bottom of the clear opening"
        yield "    sheets: [A1]"
    yield ""


def _stairs(job: Job) -> Iterator[str]:
    if not job.stair:
        return
    top = "attic" if job.storage else "new-room" if job.converted == "attic" else "outside"
    yield "stairs:"
    yield "  - id: S1"
    yield "    phase: new"
    yield f"    between: [house, {top}]"
    yield "    # total rise:   # finished floor to finished floor"
    yield "    # risers:       # how many"
    yield "    # width:"
    yield "    # headroom:     # minimum, plumb above the nosings"
    yield "    sheets: [A2]"


def _text(text: str) -> str:
    """Return `text` so that YAML reads it back as it is."""
    return json.dumps(text, ensure_ascii=False)
