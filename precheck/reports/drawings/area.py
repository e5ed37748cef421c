"""Rectangles on paper: what lettering and marks take up, and which ways they can be moved off each other."""

from __future__ import annotations

from typing import NamedTuple


class PaperArea(NamedTuple):
    """A rectangle on paper, in pixels with y downward."""

    left: float
    top: float
    right: float
    bottom: float

    def shared(self, other: PaperArea) -> float:
        """Return the area that both cover."""
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.bottom, other.bottom) - max(self.top, other.top)
        return wide * high if wide > 0 and high > 0 else 0.0

    def moved(self, dx: float, dy: float) -> PaperArea:
        """Return the rectangle moved by pixels."""
        return PaperArea(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def within(self, other: PaperArea) -> bool:
        """Return whether all of it lies in `other`."""
        return self.left >= other.left and self.right <= other.right and self.top >= other.top and self.bottom <= other.bottom  # fmt: skip


def ways_off(step: float, most: int) -> list[tuple[float, float]]:
    """Return the ways that something can be moved, in whole steps, the shortest first; not to move at all before all."""
    around = [(dx * step, dy * step) for dy in range(-most, most + 1) for dx in range(-most, most + 1)]
    return sorted(around, key=lambda way: way[0] ** 2 + way[1] ** 2)
