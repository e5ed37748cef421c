"""The project model: one house and the work proposed on it, as its file states it."""

from precheck.project.appliance import Appliance, Passage
from precheck.project.boundary import Duct, Face, Hatch, Penetration, Support, Wall
from precheck.project.glass import BesideDoor, BesideStair, BesideWetArea, Pane, RailBefore, Skylight, WetArea
from precheck.project.guard import Guard, Ramp, RampLanding
from precheck.project.handrail import Handrail, Recess, SpaceBeneath, StairLighting
from precheck.project.opening import Door, Landing, Opening, WidthHeight, Window
from precheck.project.part import OUTSIDE, Layer, Part, thickness_of
from precheck.project.project import Dwelling, Project, Sheet, project_from, read_project
from precheck.project.schedule import Note, ScheduleRow, Submittal, Work
from precheck.project.site import (
    AddressSign,
    CoveredArea,
    Easement,
    FloodOpening,
    Lot,
    LotLine,
    ParkingStall,
    Setback,
)
from precheck.project.space import Ceiling, Floor, Space, Storey
from precheck.project.stair import Flight, Stair, StairLanding

__all__ = [
    "OUTSIDE",
    "AddressSign",
    "Appliance",
    "BesideDoor",
    "BesideStair",
    "BesideWetArea",
    "Ceiling",
    "CoveredArea",
    "Door",
    "Duct",
    "Dwelling",
    "Easement",
    "Face",
    "Flight",
    "FloodOpening",
    "Floor",
    "Guard",
    "Handrail",
    "Hatch",
    "Landing",
    "Layer",
    "Lot",
    "LotLine",
    "Note",
    "Opening",
    "Pane",
    "ParkingStall",
    "Part",
    "Passage",
    "Penetration",
    "Project",
    "RailBefore",
    "Ramp",
    "RampLanding",
    "Recess",
    "ScheduleRow",
    "Setback",
    "Sheet",
    "Skylight",
    "Space",
    "SpaceBeneath",
    "Stair",
    "StairLanding",
    "StairLighting",
    "Storey",
    "Submittal",
    "Support",
    "Wall",
    "WetArea",
    "WidthHeight",
    "Window",
    "Work",
    "project_from",
    "read_project",
    "thickness_of",
]
