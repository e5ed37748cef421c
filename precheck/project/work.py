"""What is being done, as a permit application lists it, and what is not in the job."""

from __future__ import annotations

from typing import Literal, get_args

from precheck.files import spelling
from precheck.files.record import Record

WorkKind = Literal[
    "new house", "addition", "upper addition", "new room",
    "garage to room", "carport to room", "porch to room", "basement to room", "attic to room", "storage to room",
    "new bedroom", "bath", "kitchen", "laundry",
    "garage", "carport", "porch", "deck", "detached building",
    "wall removed", "opening made", "opening widened", "opening closed", "overhead door closed", "window replaced",
    "stair", "attic storage", "floor over slab", "roof changed",
    "heating or cooling", "water heater", "wiring", "demolition", "other work",
]  # fmt: skip
"""Works by the names of the trade. A room made of another one is named after what it was."""

ROOM_FROM = {"garage": "garage to room", "carport": "carport to room", "porch": "porch to room", "deck": "porch to room",
             "sunroom": "porch to room", "attic": "attic to room", "storage": "storage to room",
             "utility": "storage to room", "workshop": "storage to room", "crawl space": "basement to room"}  # fmt: skip
"""What the work is called that makes a room of a space, by what that was; in a basement it is `basement to room`."""


class Exclusion(Record):
    """Something that is not in this job, said in words and with the reason, so that nobody asks for it."""

    kind = "thing not in this job"
    what: str
    why: str

    @property
    def work(self) -> str | None:
        """The kind of work that it names, by any of its names; None where it names something else."""
        return spelling.choice(self.what, get_args(WorkKind))
