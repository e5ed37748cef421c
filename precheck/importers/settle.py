"""A draft that can be used: what no project file may hold is taken out and told, so that one bad value spoils no more."""

from __future__ import annotations

from precheck.files.source import Problem, Unusable, read_text
from precheck.importers.draft import Draft, Entry, Value
from precheck.importers.writing import lines_of
from precheck.project import project_from

NEEDED = frozenset(("id", "between", "space", "along"))  # without which a part is none
ROUNDS = 20  # what is taken out may be what another part refers to


def settled(draft: Draft) -> Draft:
    """Return `draft` without the values and parts that a project file may not hold. Raises `Unusable` if none is left."""
    for _ in range(ROUNDS):
        lines = list(lines_of(draft))
        try:
            project_from(read_text("".join(f"{line.text}\n" for line in lines), ""))
        except Unusable as error:
            for problem in error.problems:
                line = lines[problem.place.line - 1]
                if line.owner is None:
                    raise
                _take_out(draft, line.owner, line.key, problem)
        else:
            return draft
    raise Unusable([problem._replace(place=problem.place._replace(file=draft.file)) for problem in _left(draft)])


def _left(draft: Draft) -> list[Problem]:
    try:
        project_from(read_text("".join(f"{line.text}\n" for line in lines_of(draft)), ""))
    except Unusable as error:
        return error.problems
    return []


def _take_out(draft: Draft, owner: Entry, key: str, problem: Problem) -> None:
    """Take a value out of its part, or the part out of the draft where it is none without it."""
    part = _part_of(draft, owner)
    name = part["id"].text if part and isinstance(part.get("id"), Value) else ""
    if part is None or key in NEEDED:
        for entries in draft.parts.values():
            entries[:] = [entry for entry in entries if entry is not part]
        draft.left_out.append(f"left out: {name}: {problem.what}")
    elif key in owner:
        value = owner.pop(key)
        said = value.text if isinstance(value, Value) else ""
        draft.doubt(f"{key} cannot be so and is not shown ({problem.what})", f"{name} ({said[:60]})")


def _part_of(draft: Draft, owner: Entry) -> Entry | None:
    """Return the part that `owner` is, or lies in."""
    return next((part for entries in draft.parts.values() for part in entries if _holds(part, owner)), None)


def _holds(entry: Entry, sought: Entry) -> bool:
    if entry is sought:
        return True
    below = [item for value in entry.values() for item in (value if isinstance(value, list) else [value])]
    return any(isinstance(item, dict) and _holds(item, sought) for item in below)


__all__ = ["settled"]
