"""What reading a drawing may take of the machine, and what to do about one that takes more: no page holds a person up for long."""

from __future__ import annotations

import signal
from contextlib import suppress
from pathlib import Path

SECONDS = 30  # of processor time for a drawing; a house takes one to five
MEMORY = 4_000_000_000  # bytes of address space
WAYS_OUT = {
    ".pdf": (
        "plot the plan alone, without plants, furniture and hatches, or say in a mapping file which page it is on, its scale"
        " and the lines of its walls, as `page: 1`, `scale: 1/4 in = 1 ft` and `layers: {wall faces: [STROKE 0 0 0*]}`"
    ),
    ".dxf": (
        "save the plan alone as a drawing of its own, without hatches, plants and furniture, or name the layers of its walls in"
        " a mapping file, as `layers: {wall faces: [A-WALL*]}`"
    ),
}
"""What to do about a drawing that takes too much, by the ending of its name; models have no such limit."""


def bound(path: Path) -> None:
    """Limit this process to what reading the drawing at `path` may take, where the system has such limits."""
    try:
        import resource
    except ImportError:  # Windows: the patience of whoever started the process is what there is
        return
    if path.suffix.lower() not in WAYS_OUT:
        return
    limits = {"RLIMIT_CPU": (SECONDS, SECONDS + 1), "RLIMIT_AS": (MEMORY, MEMORY), "RLIMIT_CORE": (0, 0)}
    for name, (soft, hard) in limits.items():
        with suppress(AttributeError, OSError, ValueError):  # not every system has each of them
            resource.setrlimit(getattr(resource, name), (soft, hard))


def too_much(path: Path, ended: int | None) -> str:
    """Return what is told of a drawing whose reader the system `ended`; nothing where it ended by itself or is no drawing's."""
    way_out = WAYS_OUT.get(path.suffix.lower())
    if way_out is None or ended is None or ended >= 0 or ended == -getattr(signal, "SIGKILL", 0):
        return ""
    if ended == -getattr(signal, "SIGXCPU", 0):
        return f"reading the drawing takes more than {SECONDS} s of work; {way_out}"
    return f"the drawing is damaged, or reading it takes more memory than there is; {way_out}"


def too_large(path: Path) -> str:
    """Return what is told of a design file for which there is not enough memory."""
    way_out = WAYS_OUT.get(path.suffix.lower(), "export less of it, such as one story")
    return f"reading the file takes more memory than there is; {way_out}"


__all__ = ["bound", "too_large", "too_much"]
