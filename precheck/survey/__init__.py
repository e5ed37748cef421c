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
    width_along,
)
from precheck.survey.outlook import is_under, outlook_of
from precheck.survey.scope import Change, Scope
from precheck.survey.sides import faces_out, is_exit, is_outdoors
from precheck.survey.units import SHARED, DwellingUnit, units_of
from precheck.survey.way_out import WayOut, reached, way_out
from precheck.survey.works import NoWork, Work, Works

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
    "from_point",
    "gap_between",
    "in_one_plane",
    "is_exit",
    "is_outdoors",
    "is_under",
    "line_of",
    "outline_of",
    "outlook_of",
    "part_of",
    "phase_of",
    "reached",
    "risers_of",
    "stands_before",
    "stretch_of",
    "to_outline",
    "units_of",
    "upper_space",
    "wall_of",
    "way_out",
    "width_along",
]
