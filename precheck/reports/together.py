"""Several parts of a kind said in one breath: ``all 12 new receptacles``, ``windows W1 to W3 and W9``."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from precheck.project import Part

MANY = 3  # parts of a kind from which a thing that all of them lack is asked once
_NUMBERED = re.compile(r"(.*?)(\d+)")
_NO_PLURAL = ("heating", "air", "lighting", "tightness", "ventilation")


def together(parts: Sequence[Part], every: Iterable[Part]) -> str:
    """Return what to call `parts`, which are of one kind; `every` tells whether they are all of that kind and phase."""
    first = parts[0]
    if len(parts) == 1:
        return first.label
    alike = [part for part in every if part.kind == first.kind and part.phase == first.phase]
    if len(parts) >= MANY and len(alike) == len(parts) and isinstance(first.phase, str):
        return f"all {len(parts)} {first.phase} {plural(first.kind)}"
    return f"{plural(first.kind)} {listed([part.id for part in parts])}"


def plural(kind: str) -> str:
    """Return the plural of a kind of part."""
    if kind.endswith(_NO_PLURAL):
        return kind
    if kind.endswith("y") and kind[-2:-1] not in "aeiou":
        return f"{kind[:-1]}ies"
    return f"{kind}es" if kind.endswith(("s", "sh", "ch", "x")) else f"{kind}s"


def listed(ids: Sequence[str]) -> str:
    """Return ids with commas, three or more in a row as a range: ``R1 to R6, R9 and R12``."""
    runs: list[list[str]] = []
    for one in ids:
        if runs and _follows(runs[-1][-1], one):
            runs[-1].append(one)
        else:
            runs.append([one])
    said = [text for run in runs for text in ([f"{run[0]} to {run[-1]}"] if len(run) >= MANY else run)]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


def _follows(one: str, other: str) -> bool:
    first, second = _NUMBERED.fullmatch(one), _NUMBERED.fullmatch(other)
    return bool(first and second and first[1] == second[1] and int(second[2]) == int(first[2]) + 1)
