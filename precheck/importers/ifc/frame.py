"""The building's own axes in the world of the file, so that a site that is moved, raised or turned changes nothing."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin
from typing import Any, NamedTuple

from precheck.importers.plane import P2

UPRIGHT = 1e-6  # by which the up of a placement may lean before it is none of a house
STEP = 0.1  # degrees to which the directions of walls are counted as one
SHARE = 0.6  # of all wall lines in plan, from which their direction is that of the house


class Frame(NamedTuple):
    """Where the origin of the building lies in the world, in meters, and by how many degrees it is turned there."""

    x: float = 0.0
    y: float = 0.0
    z: float = 0.0
    turned: float = 0.0

    def within(self, axes: tuple[float, ...]) -> tuple[float, ...]:
        """Return a placement of the world (4 x 4, column by column) as one in the building's own axes."""
        c, s = cos(radians(self.turned)), sin(radians(self.turned))
        found: list[float] = []
        for i in range(0, 16, 4):
            x, y, z, w = axes[i : i + 4]
            x, y, z = x - self.x * w, y - self.y * w, z - self.z * w
            found += [c * x + s * y, c * y - s * x, z, w]
        return tuple(found)

    def world(self, x: float, y: float, z: float) -> tuple[float, float, float]:
        """Return the point of the world that has those coordinates in the building's own axes."""
        c, s = cos(radians(self.turned)), sin(radians(self.turned))
        return self.x + c * x - s * y, self.y + s * x + c * y, self.z + z

    def further(self, turned: float) -> Frame:
        """Return this frame turned further by some degrees."""
        return self._replace(turned=self.turned + turned)


def frame_of(ifc: Any, meter: float) -> Frame | None:
    """Return the frame of the first building of a file; None where it stands at a slant, so that nothing is moved."""
    from ifcopenshell.util.placement import get_local_placement

    for building in ifc.by_type("IfcBuilding"):
        if building.ObjectPlacement is None:
            continue
        placed = get_local_placement(building.ObjectPlacement)
        if abs(float(placed[2][2]) - 1.0) > UPRIGHT:
            return None
        x, y, z = (float(placed[i][3]) * meter for i in range(3))
        return Frame(x, y, z, degrees(atan2(float(placed[1][0]), float(placed[0][0]))))
    return Frame()


def turn_of(outlines: Iterable[list[P2]]) -> float:
    """Return by how many degrees (within 45) most walls of a plan are turned against its axes; 0 where they agree on none."""
    counted: Counter[int] = Counter()
    for outline in outlines:
        for (ax, ay), (bx, by) in pairwise([*outline, outline[0]]):
            counted[round(degrees(atan2(by - ay, bx - ax)) % 90 / STEP)] += round(hypot(bx - ax, by - ay) * 1000)
    if not counted:
        return 0.0
    most, _ = counted.most_common(1)[0]
    near = [step for step in counted if abs(step - most) <= 1]
    share = sum(counted[step] for step in near) / sum(counted.values())
    turned = most * STEP
    return _exact(outlines, turned) if share >= SHARE and STEP < turned < 90 - STEP else 0.0


def _exact(outlines: Iterable[list[P2]], near: float) -> float:
    """Return the direction of the longest wall line that runs within a step of `near`, within 45 degrees of an axis."""
    edges = [(a, b) for outline in outlines for a, b in pairwise([*outline, outline[0]])]
    along = [(hypot(b[0] - a[0], b[1] - a[1]), degrees(atan2(b[1] - a[1], b[0] - a[0])) % 90) for a, b in edges]
    _, found = max(one for one in along if abs(one[1] - near) <= 2 * STEP)
    return found if found <= 45 else found - 90


__all__ = ["Frame", "frame_of", "turn_of"]
