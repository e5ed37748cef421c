"""The works that a project holds: derived from phases, uses and geometry, and as a person lists them."""

from precheck.survey.works.belonging import (
    floor_of,
    is_alone,
    on_ground,
    outside_walls,
    rooms_of,
    stated_of,
    undrawn_walls,
)
from precheck.survey.works.openings import is_replaced
from precheck.survey.works.work import NoWork, Work, Works

__all__ = [
    "NoWork",
    "Work",
    "Works",
    "floor_of",
    "is_alone",
    "is_replaced",
    "on_ground",
    "outside_walls",
    "rooms_of",
    "stated_of",
    "undrawn_walls",
]
