"""Notches and bored holes against the limits that an adopted code gives; the limits come in as numbers.

Inches. Limits are shares of the member's depth (for studs: of its width) or plain distances.
"""

from __future__ import annotations

from dataclasses import dataclass

from precheck_plugins.framing.members import DemandCapacity


@dataclass(frozen=True, slots=True)
class CutLimits:
    """Largest cuts that a code allows, with the section they stand in; None where a cut is not limited so.

    Shares of depth: notch depth, notch length, end notch depth, hole diameter. In inches: hole to edge.
    """

    section: str
    notch_depth: float | None = None
    notch_length: float | None = None
    end_notch_depth: float | None = None
    hole: float | None = None
    hole_to_edge_in: float | None = None
    notch_in_middle_third: bool = False


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch: depth, length, distance from its middle to the nearest support (in); whether at the end."""

    depth_in: float
    length_in: float
    from_support_in: float
    at_end: bool = False


@dataclass(frozen=True, slots=True)
class Hole:
    """A bored hole: diameter and distance from its rim to the nearest edge (in)."""

    diameter_in: float
    to_edge_in: float


def check_notch(notch: Notch, depth_in: float, span_in: float, limits: CutLimits) -> tuple[DemandCapacity, ...]:
    """Compare a notch with the limits, in inches; none for a limit that is not given.

    A notch in the middle third of the span, where the limits forbid it, is compared with a depth of 0.
    """
    middle = not notch.at_end and notch.from_support_in > span_in / 3 and not limits.notch_in_middle_third
    deepest = limits.end_notch_depth if notch.at_end else limits.notch_depth
    if middle:
        return (_at_most("notch in the middle third", notch.depth_in, 0.0, depth_in, limits),)
    found = [("depth of notch", notch.depth_in, deepest)]
    if not notch.at_end:
        found.append(("length of notch", notch.length_in, limits.notch_length))
    return tuple(_at_most(what, size, share, depth_in, limits) for what, size, share in found if share is not None)


def check_hole(hole: Hole, depth_in: float, limits: CutLimits) -> tuple[DemandCapacity, ...]:
    """Compare a hole with the limits, in inches; none for a limit that is not given."""
    found = []
    if limits.hole is not None:
        found.append(_at_most("diameter of hole", hole.diameter_in, limits.hole, depth_in, limits))
    if limits.hole_to_edge_in is not None:
        # The demand is the distance that the limit asks for; the capacity is what the drawing leaves.
        found.append(
            DemandCapacity(
                "hole to edge",
                "edge",
                limits.hole_to_edge_in,
                hole.to_edge_in,
                "in",
                limits.section,
                "{}",
                (limits.hole_to_edge_in,),
            )
        )
    return tuple(found)


def _at_most(what: str, size_in: float, share: float, depth_in: float, limits: CutLimits) -> DemandCapacity:
    source = (limits.section, "{}", (size_in,), "{} * {}", (share, depth_in))
    return DemandCapacity(what, "cut", size_in, share * depth_in, "in", *source)
