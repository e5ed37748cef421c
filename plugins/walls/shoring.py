"""Temporary walls before a bearing wall is cut."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Check, Fact, House, Limit, Limits, Wall, fact, is_missing, required, rule


@fact
class OpenedWall(Fact):
    """A bearing wall that is taken out or opened up, which counts as work whatever its phase."""

    wall: Wall

    @classmethod
    def found_in(cls, house: House) -> Iterator[OpenedWall]:
        """Yield bearing walls that go or are altered."""
        for wall in house.project.walls:
            bears = not is_missing(wall.framing) and wall.framing.carries != "nothing"
            if wall.phase in ("removed", "altered") and bears:
                yield cls(wall, wall)

    @property
    def phase(self) -> Any:
        """What is taken out is work too."""
        return "altered"


class ShoringLimits(Limits):
    shored: Limit[bool]


@rule("walls.shoring", stage="plan")
def shoring(opened: OpenedWall, limit: ShoringLimits) -> Check:
    """Good practice: temporary walls hold the loads, down to solid ground, before a bearing wall is cut."""
    return required(opened.wall.shored, limit.shored)
