"""The joists or trusses of an attic that is floored for storage."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.lines.serving import Group, serving
from precheck_plugins.framing.lines.spaces import STANDS, each

from precheck import Check, House, Member, Truss, Work, is_missing, line

ATTICS = ("attic storage",)
NO_STORAGE = "attic without storage"


@line("loads.storage-joists")
def storage_joists(work: Work, house: House) -> Check:
    """Joists or trusses under an attic that is floored for storage are shown with the load of what is stored there.

    They may stand already: what they are drawn to carry is what counts.
    """
    joists = [m for m in house.project.members if m.role in ("ceiling joist", "floor joist")]

    def look(group: Group) -> Any:
        found = serving([*joists, *house.project.trusses], group, ATTICS, house, STANDS)
        if is_missing(found):
            return found
        for_storage = [part for part in found if _is_for_storage(part)]
        if not found or for_storage:
            return for_storage or group[0].absent("floor joists or trusses, with the storage load that they carry")
        return found[0].absent("storage load that it carries")

    return each(work, house, "joists or trusses checked for the storage load", look, "")


def _is_for_storage(part: Any) -> bool:
    if isinstance(part, Truss):
        return part.load_added is True
    return isinstance(part, Member) and any(
        (not is_missing(load.use) and load.use not in (NO_STORAGE, "roof")) or not is_missing(load.live)
        for load in part.carries
        if load.use != NO_STORAGE
    )
