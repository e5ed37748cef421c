"""Facts derived from a project: areas, shared walls, what opens into what, finished levels and heights."""

from precheck.survey.fact import Fact, part_of, phase_of
from precheck.survey.house import House, Subject

__all__ = ["Fact", "House", "Subject", "part_of", "phase_of"]
