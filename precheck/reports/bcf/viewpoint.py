"""A view of a part: it is selected, and seen from above the plan, cut off over the part's own ceiling."""

from __future__ import annotations

from math import sqrt
from xml.etree import ElementTree as ET

from precheck.reports.bcf.topics import View
from precheck.reports.in_model import P3, in_world, turned
from precheck.reports.xml_text import below, document, element

LOOKS = (0.35, 0.65, -sqrt(1 - 0.35**2 - 0.65**2))  # from the front left, down into the plan
FIELD = 60.0  # degrees from top to bottom of the view
NEAREST = 3.0  # meters from the part
FURTHER = 1.3  # sizes of the part that the camera stands off
CUT = 0.02  # meters below the ceiling, at which what is above is cut off


def viewpoint(view: View, aspect: bool = False) -> bytes:
    """Return the view; `aspect` gives the camera its proportions and puts the hints where version 3.0 wants them."""
    root = element("VisualizationInfo", Guid=view.guid)
    _components(root, view, aspect)
    camera = below(root, "PerspectiveCamera")
    ahead = turned(LOOKS, view.drawn)
    away = max(view.box.size * FURTHER, NEAREST)
    middle = in_world(view.box.middle, view.drawn)
    x, y, z = (m - away * d for m, d in zip(middle, ahead, strict=True))
    _vector(camera, "CameraViewPoint", (x, y, z))
    _vector(camera, "CameraDirection", ahead)
    _vector(camera, "CameraUpVector", _up(ahead))
    below(camera, "FieldOfView", f"{FIELD:g}")
    if aspect:
        below(camera, "AspectRatio", "1.5")
    plane = below(below(root, "ClippingPlanes"), "ClippingPlane")
    x, y, _ = view.box.middle
    _vector(plane, "Location", in_world((x, y, view.box.high[2] - CUT), view.drawn))
    _vector(plane, "Direction", (0.0, 0.0, 1.0))
    return document(root)


def _components(root: ET.Element, view: View, within: bool) -> None:
    hints = {"SpacesVisible": str(view.of_space).lower(), "SpaceBoundariesVisible": "false", "OpeningsVisible": "false"}
    components = below(root, "Components")
    if not within:
        below(components, "ViewSetupHints", **hints)
    if view.selected:
        selection = below(components, "Selection")
        for one in view.selected:
            below(selection, "Component", IfcGuid=one)
    visibility = below(components, "Visibility", DefaultVisibility="true")
    if within:
        below(visibility, "ViewSetupHints", **hints)


def _vector(parent: ET.Element, tag: str, vector: P3) -> None:
    made = below(parent, tag)
    for axis, number in zip("XYZ", vector, strict=True):
        below(made, axis, f"{number:.6f}")


def _up(ahead: P3) -> P3:
    """Return the direction that is square to `ahead` and points up."""
    x, y, z = ahead
    size = sqrt(x * x + y * y)
    return -x * z / size, -y * z / size, size


__all__ = ["viewpoint"]
