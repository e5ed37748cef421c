"""The works that a project holds: derived from phases, uses and geometry, and as a person lists them."""

from precheck.survey.works.work import NoWork, Work, Works

__all__ = ["NoWork", "Work", "Works"]
