"""The project model: one house and the work proposed on it, as its file states it."""

from precheck.project.boundary import Duct, Face, Hatch, Penetration, Support, Wall
from precheck.project.opening import Door, Landing, Opening, WidthHeight, Window
from precheck.project.part import OUTSIDE, Layer, Part, thickness_of
from precheck.project.project import Dwelling, Project, Sheet, project_from, read_project
from precheck.project.space import Ceiling, Floor, Space, Storey
from precheck.project.stair import Flight, Stair, StairLanding

__all__ = [
    "OUTSIDE",
    "Ceiling",
    "Door",
    "Duct",
    "Dwelling",
    "Face",
    "Flight",
    "Floor",
    "Hatch",
    "Landing",
    "Layer",
    "Opening",
    "Part",
    "Penetration",
    "Project",
    "Sheet",
    "Space",
    "Stair",
    "StairLanding",
    "Storey",
    "Support",
    "Wall",
    "WidthHeight",
    "Window",
    "project_from",
    "read_project",
    "thickness_of",
]
