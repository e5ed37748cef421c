"""What rests on what: the ends of members on a member, and which rafters lean on a ridge board."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from precheck_plugins.framing.drawn.setting import Setting

from precheck import Bearing, Member, is_missing


def resting_on(member: Member, setting: Setting) -> Iterator[tuple[Member, int, Bearing]]:
    """Yield each end of another member that bears on `member`."""
    yield from _ends_on(setting.project).get(member.id, ())


@lru_cache(maxsize=2)
def _ends_on(project: Any) -> dict[str, list[tuple[Member, int, Bearing]]]:
    """Return by the ids of what they bear on the ends of all members that stay; of the project at hand."""
    found: dict[str, list[tuple[Member, int, Bearing]]] = {}
    for other in project.members:
        for index, bearing in enumerate(other.bears_on) if not other.is_removed else ():
            if not is_missing(bearing.on):
                found.setdefault(bearing.on, []).append((other, index, bearing))
    return found


def leans_at(member: Member, setting: Setting) -> int | None:
    """Return which support of a rafter is a ridge board, against which it leans; None where it has none."""
    for index, bearing in enumerate(member.bears_on):
        on = None if is_missing(bearing.on) else setting.project.by_id.get(bearing.on)
        if bearing.onto == "ridge" or (isinstance(on, Member) and on.role == "ridge board"):
            return index
    return None


def is_hung_on(member: Member, setting: Setting) -> bool | None:
    """Return whether loads hang on the side of a member, and do not lie on its top; None where the drawings do not say.

    Joists, rafters, headers and ridge beams take their loads from above, or through what stands on them.
    """
    if member.loaded_on in ("top", "side"):
        return member.loaded_on == "side"
    hung = [bearing.hanger for _, _, bearing in resting_on(member, setting)]
    if True in hung:
        return True
    if member.is_repeated or member.role in ("header", "ridge beam"):
        return False
    lies = all(
        h is False or not is_missing(b.length) for h, (_, _, b) in zip(hung, resting_on(member, setting), strict=True)
    )
    return False if hung and lies and not member.carries else None
