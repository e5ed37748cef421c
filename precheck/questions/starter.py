"""The text of a new project file: what the answers say, and, as comments, what to say next and why."""

from __future__ import annotations

import json
from collections.abc import Iterator

from precheck.immutable import fixed

HEAD = """\
# What the drawings say of one house and the work on it. A value that is not here counts as not shown.
# Lengths as you draw them: 8'-6 1/2", 7 3/4 in, 2.59 m. A `#` begins a comment. `precheck ask` fills this in with you.
"""

MADE_OF = {
    "garage to room": "garage", "carport to room": "carport", "porch to room": "porch", "attic to room": "attic",
    "basement to room": "storage", "storage to room": "storage",
}  # fmt: skip
"""What was there where a room is made; an unfinished basement is storage."""

WITH_A_ROOM = (*MADE_OF, "addition", "upper addition", "new house")
"""The kinds of job that make a room."""
ROOMS = ("bedroom", "living room", "family room", "office", "storage")
KINDS = (
    "garage to room", "carport to room", "porch to room", "basement to room", "attic to room", "storage to room",
    "addition", "upper addition", "new house", "deck", "porch", "carport", "garage", "detached building",
    "wall removed", "opening made", "window replaced", "bath", "kitchen", "attic storage", "other work",
)  # fmt: skip
MORE = (
    "bath", "kitchen", "laundry", "stair", "wall removed", "opening made", "opening closed", "overhead door closed",
    "window replaced", "deck", "porch", "carport", "attic storage", "floor over slab", "roof changed",
    "heating or cooling", "water heater", "wiring", "demolition",
)  # fmt: skip
"""The kinds of job, and what else may be in one."""

LEVELS = {"attic to room": "attic", "basement to room": "basement", "upper addition": "upper"}
BUILT = {"deck": "deck", "porch": "porch", "carport": "carport", "garage": "garage", "detached building": "garage"}
"""What is built that is no room, by what it is used as."""


@fixed
class Job:
    """What was answered at the start."""

    name: str
    where: str
    applied_on: str
    kind: str = ""
    more: tuple[str, ...] = ()
    room: str = ""
    garage_remains: bool = False
    glass_door: bool = False
    windows: int = 0
    left_out: tuple[tuple[str, str], ...] = ()  # what is not in this job, and why
    to_be_drawn: bool = (
        False  # on a plan that a person sketches next, so that the file need not explain how to write one
    )

    @property
    def converted(self) -> str:
        """What was there of which a room is made; nothing where none is."""
        return MADE_OF.get(self.kind, "")

    @property
    def has_room(self) -> bool:
        """Whether the job makes a room."""
        return bool(self.room)

    @property
    def is_new(self) -> bool:
        """Whether the room or structure stands where nothing stood."""
        return not self.converted

    @property
    def stair(self) -> bool:
        """Whether a stair is in the job."""
        return "stair" in (self.kind, *self.more)

    @property
    def storage(self) -> bool:
        """Whether an attic gets a floor for storage."""
        return "attic storage" in (self.kind, *self.more)

    @property
    def level(self) -> str:
        """The story of the room."""
        return LEVELS.get(self.kind, "ground")


def project_text(job: Job) -> str:
    """Return the project file for `job`."""
    return "\n".join(_sketched(job) if job.to_be_drawn else _lines(job)) + "\n"


def _lines(job: Job) -> Iterator[str]:
    yield HEAD.rstrip("\n")
    yield f"project: {_text(job.name)}"
    yield f"jurisdiction: {_text(job.where)}"
    yield f"applied on: {job.applied_on}  # this date picks the code that is in force"
    work = ", ".join(filter(None, (job.kind, *job.more)))
    yield f"work: [{work}]  # as on the permit application; add what else is done"
    if job.left_out:
        yield "not in this job:"
        yield from (f"  - {{what: {what}, why: {why}}}" for what, why in job.left_out)
    else:
        yield "# not in this job:   # so that nobody asks, such as [{what: plumbing, why: the old bath stays}]"
    yield "# address:"
    yield "# scope:   # the work in a sentence or two"
    yield ""
    yield "dwelling:"
    if job.kind == "new house":
        yield "  new house: yes"
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


def _sketched(job: Job) -> Iterator[str]:
    """Yield the lines of a file whose rooms and openings are drawn next: what is known before anything is drawn."""
    told = [*_lines(job)]
    kept = told[: told.index("spaces:")]
    yield kept[0]
    for line in kept[1:]:
        if not line.lstrip().startswith("#"):
            yield line.replace("}", ", drawn: []}") if ", level: " in line else line  # until one says that it is
    yield from (line for line in _spaces(job) if not line.lstrip().startswith("#"))


def _stories(job: Job) -> Iterator[str]:
    yield "stories:  # lowest first"
    new = "new" if job.kind == "new house" else "existing"
    if job.level == "basement":
        yield "  - {id: basement-level, level: basement, phase: altered}"
    yield f"  - {{id: ground, level: ground, phase: {new}}}"
    if job.level == "upper":
        yield "  - {id: upper-level, level: upper, phase: new}"
    if _attic(job):
        yield "  - {id: attic-level, level: attic, phase: altered}"
    yield ""


def _attic(job: Job) -> bool:
    return job.storage or job.level == "attic"


def _floors(job: Job) -> Iterator[str]:
    yield "floors:  # levels above (or, with a minus, below) the finished floor of the house"
    if job.kind != "new house":
        yield "  - {id: house-floor, phase: existing, finished level: 0 in, sheets: [A2]}"
    if job.has_room and job.level != "attic":
        yield "  - id: new-floor"
        yield "    phase: new"
        if job.converted in ("garage", "carport"):
            yield "    base: slab"
        else:
            yield "    # base:         # slab or joists"
        yield "    # base level:   # top of the slab or joists, such as -8 in"
        yield "    # layers:       # from there up, such as [1 1/2 in sleepers, 3/4 in plywood, 3/8 in oak]"
        yield "    sheets: [A2]"
    if _attic(job):
        yield "  - id: attic-floor"
        yield "    phase: new"
        yield "    base: joists"
        yield "    # base level:   # top of the joists"
        yield "    # layers:       # such as [3/4 in plywood]"
        yield "    sheets: [A2]"
    yield ""


def _spaces(job: Job) -> Iterator[str]:
    yield "spaces:"
    if job.kind != "new house":
        yield "  - {id: house, name: The house as it is, phase: existing, use: hall, story: ground, floor: house-floor, sheets: [A1]}"
    if job.has_room:
        yield "  - id: new-room"
        yield f"    name: New {job.room}"
        yield f"    phase: {'new' if job.is_new else 'altered'}"
        yield f"    use: {job.room}"
        if job.converted:
            yield f"    was: {job.converted}"
        yield f"    story: {job.level if job.level == 'ground' else f'{job.level}-level'}"
        yield f"    floor: {'attic-floor' if job.level == 'attic' else 'new-floor'}"
        yield "    # rectangle:   # for the plan: {at: [0 ft, 0 ft], width: 20 ft, depth: 14 ft}"
        yield "    # ceiling:     # {height: 8 ft}, or what it is built of: {framing level: 97 in, layers: [1/2 in gypsum]}"
        yield "    sheets: [A1]"
    yield from _built(job)
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
        yield "    attic storage: yes"
        yield "    story: attic-level"
        yield "    floor: attic-floor"
        yield "    sheets: [A1]"
    yield ""


def _built(job: Job) -> Iterator[str]:
    if job.kind not in BUILT:
        return
    yield "  - id: built"
    yield f"    name: New {job.kind}"
    yield "    phase: new"
    yield f"    use: {BUILT[job.kind]}"
    if job.kind == "detached building":
        yield "    detached: yes"
    yield "    story: ground"
    yield "    # rectangle:   # for the plan: {at: [0 ft, 0 ft], width: 20 ft, depth: 14 ft}"
    yield "    sheets: [A1]"


def _room(job: Job) -> str:
    return "new-room" if job.has_room else "house"


def _doors(job: Job) -> Iterator[str]:
    inside = job.has_room and job.kind != "new house"
    if not (inside or job.glass_door):
        return
    yield "doors:"
    if inside:
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
    foot = "new-room" if job.kind == "new house" else "house"
    apart = job.level != "ground" and job.has_room
    yield "stairs:"
    yield "  - id: S1"
    yield "    phase: new"
    yield f"    between: [{foot}, {'attic' if job.storage else 'new-room' if apart else 'outside'}]"
    yield "    # total rise:   # finished floor to finished floor"
    yield "    # risers:       # how many"
    yield "    # width:"
    yield "    # headroom:     # minimum, plumb above the nosings"
    yield "    sheets: [A2]"


def _text(text: str) -> str:
    """Return `text` so that YAML reads it back as it is."""
    return json.dumps(text, ensure_ascii=False)
