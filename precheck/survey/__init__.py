"""Facts derived from a project: areas, shared walls, what opens into what, finished levels and heights."""

from precheck.survey.fact import Fact, fact, part_of, phase_of
from precheck.survey.fit import OpeningInPlan, RoomPair
from precheck.survey.flights import all_risers, climb_of, risers_of, upper_space
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
    line_of,
    outline_of,
    stands_before,
    stretch_of,
    to_outline,
    wall_of,
)
from precheck.survey.scope import Change, Scope
from precheck.survey.sides import faces_out, is_outdoors
from precheck.survey.units import SHARED, DwellingUnit, units_of
from precheck.survey.way_out import WayOut, way_out
from precheck.survey.works import (
    NoWork,
    Work,
    Works,
    floor_of,
    is_alone,
    on_ground,
    outside_walls,
    rooms_of,
    stated_of,
    undrawn_walls,
)

__all__ = [
    "SHARED",
    "Change",
    "DwellingUnit",
    "Fact",
    "House",
    "NoWork",
    "OpeningInPlan",
    "RoomPair",
    "Scope",
    "Stretch",
    "Subject",
    "WayOut",
    "Work",
    "Works",
    "all_risers",
    "apart",
    "at_right_angle",
    "climb_of",
    "depth_from",
    "edges",
    "faces_out",
    "fact",
    "floor_of",
    "from_point",
    "gap_between",
    "in_one_plane",
    "is_alone",
    "is_outdoors",
    "line_of",
    "on_ground",
    "outline_of",
    "outside_walls",
    "part_of",
    "phase_of",
    "risers_of",
    "rooms_of",
    "stands_before",
    "stated_of",
    "stretch_of",
    "to_outline",
    "undrawn_walls",
    "units_of",
    "upper_space",
    "wall_of",
    "way_out",
]
