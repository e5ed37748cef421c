"""Facts derived from a project: areas, shared walls, what opens into what, finished levels and heights."""

from precheck.survey.fact import Fact, part_of, phase_of
from precheck.survey.house import House, Subject
from precheck.survey.openings import (
    Stretch,
    apart,
    at_right_angle,
    depth_from,
    edges,
    from_point,
    gap_between,
    in_one_plane,
    stands_before,
    stretch_of,
    to_outline,
)

__all__ = [
    "Fact",
    "House",
    "Stretch",
    "Subject",
    "apart",
    "at_right_angle",
    "depth_from",
    "edges",
    "from_point",
    "gap_between",
    "in_one_plane",
    "part_of",
    "phase_of",
    "stands_before",
    "stretch_of",
    "to_outline",
]
