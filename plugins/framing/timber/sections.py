"""Dressed sizes and the section properties of rectangular members.

Dressed sizes follow the American Softwood Lumber Standard, PS 20 (from memory; the span tables confirm 2x4
to 2x12). Properties are those of a rectangle, bent about the axis across its depth: area in in2, section
modulus in in3, moment of inertia in in4.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from functools import cache

from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import Step, given, number

from precheck.immutable import fixed

PS20 = "dressed size, PS 20 (from memory)"
GEOMETRY = "rectangle"

THICKNESS_IN = {2: 1.5, 3: 2.5, 4: 3.5}
DEPTH_IN = {2: 1.5, 3: 2.5, 4: 3.5, 5: 4.5, 6: 5.5, 8: 7.25, 10: 9.25, 12: 11.25, 14: 13.25, 16: 15.25}
TIMBER_LEAST_NOMINAL = 5
TIMBER_SHAVED_IN = 0.5

JOIST_SIZES = ("2x4", "2x6", "2x8", "2x10", "2x12", "2x14")
LAYOUTS_IN = (24.0, 19.2, 16.0, 12.0, 8.0)
MOST_PLIES = 4

_SIZE = re.compile(r"(?:(\d+)-)?(\d+)x(\d+)")


class SizeError(OutsideMethodError):
    """A size that is not a dressed lumber size; the message says what to write instead."""


@fixed
class CrossSection:
    """A rectangle of equal plies side by side; breadth of one ply and depth in inches.

    The nominal sizes are 0 for a member made to its true size, such as LVL.
    """

    label: str
    ply_breadth_in: float
    depth_in: float
    plies: int = 1
    nominal_thickness: int = 0
    nominal_depth: int = 0

    @property
    def breadth_in(self) -> float:
        """Breadth of all plies together, in."""
        return self.ply_breadth_in * self.plies

    @property
    def area_in2(self) -> float:
        """Area, in2."""
        return self.breadth_in * self.depth_in

    @property
    def modulus_in3(self) -> float:
        """Section modulus S, in3."""
        return self.breadth_in * self.depth_in**2 / 6

    @property
    def inertia_in4(self) -> float:
        """Moment of inertia I, in4."""
        return self.breadth_in * self.depth_in**3 / 12

    @property
    def is_timber(self) -> bool:
        """Whether the member is 5 in or more in its least nominal dimension."""
        return min(self.nominal_thickness, self.nominal_depth) >= TIMBER_LEAST_NOMINAL

    @property
    def is_flat(self) -> bool:
        """Whether the load acts on the wide face of each piece."""
        return self.ply_breadth_in > self.depth_in

    def laid_flat(self) -> CrossSection:
        """One piece laid flat: breadth and depth change places. Raises SizeError for a built-up member."""
        if self.plies > 1 or self.is_flat:
            raise SizeError(f"{self.label} cannot be laid flat; give one piece on edge")
        return replace(self, label=f"{self.label} flat", ply_breadth_in=self.depth_in, depth_in=self.ply_breadth_in)

    def built_up(self, plies: int) -> CrossSection:
        """The same member with this number of plies."""
        single = self.label.split("-", 1)[-1] if self.plies > 1 else self.label
        return replace(self, plies=plies, label=single if plies == 1 else f"{plies}-{single}")

    def steps(self) -> tuple[Step, ...]:
        """Breadth, depth, area, section modulus and moment of inertia, each with its numbers."""
        b, d = number(self.breadth_in), number(self.depth_in)
        source = PS20 if self.nominal_depth else "given"
        return (
            Step("b", f"breadth of {self.label}", f"{self.plies} * {number(self.ply_breadth_in)}",
                 self.breadth_in, "in", source),
            given("d", f"depth of {self.label}", self.depth_in, "in", source),
            Step("A", "area", f"{b} * {d}", self.area_in2, "in2", GEOMETRY),
            Step("S", "section modulus", f"{b} * {d}^2 / 6", self.modulus_in3, "in3", GEOMETRY),
            Step("I", "moment of inertia", f"{b} * {d}^3 / 12", self.inertia_in4, "in4", GEOMETRY),
        )  # fmt: skip


@cache
def dressed_section(label: str) -> CrossSection:
    """The section of a nominal size such as `2x10`, `4x12`, `6x6` or `3-2x12` (three plies).

    Raises SizeError for anything that is not a dressed lumber size. Source: PS 20, from memory.
    """
    match = _SIZE.fullmatch(label)
    if not match:
        raise SizeError(f"{label!r} is not a lumber size; write for example 2x10, 6x6 or 3-2x12")
    plies, thickness, depth = int(match[1] or 1), int(match[2]), int(match[3])
    if plies < 1:
        raise SizeError(f"{label!r} has no plies; write for example 2-2x10")
    breadth_in, depth_in = _dressed(label, thickness, depth)
    return CrossSection(label, breadth_in, depth_in, plies, thickness, depth)


def made_section(breadth_in: float, depth_in: float, plies: int = 1) -> CrossSection:
    """A member made to its true size, such as LVL; inches of one ply. Raises SizeError for no size."""
    if min(breadth_in, depth_in, plies) <= 0:
        raise SizeError(f"a member of {plies} x {breadth_in} in x {depth_in} in has no section")
    single = f"{number(breadth_in)} in x {number(depth_in)} in"
    return CrossSection(single if plies == 1 else f"{plies}-{single}", breadth_in, depth_in, plies)


def _listed(sizes: Iterable[int]) -> str:
    return ", ".join(map(str, sorted(sizes)))


def _dressed(label: str, thickness: int, depth: int) -> tuple[float, float]:
    """Dressed breadth and depth, in."""
    if min(thickness, depth) >= TIMBER_LEAST_NOMINAL:
        return thickness - TIMBER_SHAVED_IN, depth - TIMBER_SHAVED_IN
    if thickness > depth:
        raise SizeError(f"{label!r} is wider than deep; write the smaller number first and lay the piece flat")
    if thickness not in THICKNESS_IN or depth not in DEPTH_IN:
        raise SizeError(
            f"{label!r} has no dressed size; thicknesses are {_listed(THICKNESS_IN)} in, or 5 in and more, "
            f"and depths {_listed(DEPTH_IN)} in"
        )
    return THICKNESS_IN[thickness], DEPTH_IN[depth]
