"""Whether framing that the work builds serves the spaces of a work: each group of them that hang together for itself."""

from __future__ import annotations

from collections.abc import Iterable

from precheck_plugins.framing.lines.places import Framing, spaces_of

from precheck import House, Missing, Space, Work, Works, is_missing

BUILT = ("new", "altered")
Group = tuple[Space, ...]


def groups(work: Work, house: House) -> list[Group]:
    """Return the spaces of `work` in groups that lie beside each other, as one roof or floor may serve them."""
    waiting = [space for space in work.parts if isinstance(space, Space)]
    found: list[Group] = []
    while waiting:
        group, open_ends = [waiting[0]], [waiting.pop(0)]
        while open_ends:
            beside = house.beside(open_ends.pop())
            near = [space for space in waiting if space in beside]
            waiting = [space for space in waiting if space not in near]
            group += near
            open_ends += near
        found.append(tuple(group))
    return found


def serving(
    parts: Iterable[Framing], group: Group, works: tuple[str, ...], house: House, phases: tuple[str, ...] = BUILT
) -> list[Framing] | Missing:
    """Return those of `parts` that serve a group of spaces, or the fact that would decide whether one does.

    A part whose space nothing tells serves where no other of the `works` that take such parts is in the project.
    """
    found: list[Framing] = []
    loose: list[Framing] = []
    untold: list[Framing] = []
    ids = {space.id for space in group}
    for part in parts:
        own = spaces_of(part, house)
        if part.is_removed or (own and not own & ids):
            continue
        if is_missing(part.phase):
            untold.append(part)
        elif part.phase in phases:
            (found if own else loose).append(part)
    if found or (loose and _takers(works, house) == 1):
        return found or loose
    return _undecided(loose, untold)


def found_or(found: list[Framing] | Missing, absent: Missing) -> list[Framing] | Missing:
    """Return what was found, or what keeps that from being told; `absent` where there is nothing."""
    return found if is_missing(found) or found else absent


def _undecided(loose: list[Framing], untold: list[Framing]) -> list[Framing] | Missing:
    needs = [part.absent("spaces") for part in loose] + [part.absent("phase") for part in untold]
    return Missing(*(need for absent in needs for need in absent.needs)) if needs else []


def _takers(works: tuple[str, ...], house: House) -> int:
    """Return how many groups of spaces, or works without spaces, take parts of a kind."""
    return sum(max(1, len(groups(work, house))) for work in Works.of(house).of_kinds(*works))
