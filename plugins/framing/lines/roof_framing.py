"""The joint of a new roof and an old one."""

from __future__ import annotations

from typing import Any

from precheck_plugins.framing.lines.serving import Group, serving
from precheck_plugins.framing.lines.spaces import ROOFS, each, roof_parts, roofed

from precheck import Check, House, Member, RoofFrame, Wall, Work, is_missing, line, missing_of


@line("roof-framing.joint")
def joint(work: Work, house: House) -> Check:
    """The drawings show how the roof of an addition, carport or porch meets the house."""

    def look(group: Group) -> Any:
        due = roofed(group, work)
        if due is False or all(space.detached is True for space in group):
            return None
        if is_missing(due):
            return due
        found = serving(roof_parts(house), group, ROOFS, house)
        if is_missing(found):
            return found
        frames = [part for part in found if isinstance(part, RoofFrame)]
        absent = missing_of(*(frame.meets_old for frame in frames))
        if absent is not None:
            return absent
        if frames:
            return [frame for frame in frames if frame.meets_old != "no"] or None
        hung = [part for part in found if isinstance(part, Member) and _leans_on_house(part, house)]
        return hung or group[0].absent("joint of its roof with the old one (roof frame: meets old)")

    return each(work, house, "joint of the new roof and the old one", look, "its roof meets no old one")


def _leans_on_house(rafter: Member, house: House) -> bool:
    """Return whether one end of a rafter, and no ridge, lands on the house: on its framing, a wall or a header in one."""
    ends = [end.onto if is_missing(end.on) else house.project.by_id.get(end.on) for end in rafter.bears_on]
    on_house = (
        end in ("existing framing", "bearing wall")
        or isinstance(end, Wall)
        or (isinstance(end, Member) and (end.role == "header" or end.phase == "existing"))
        for end in ends
    )
    return "ridge" not in ends and any(on_house)
