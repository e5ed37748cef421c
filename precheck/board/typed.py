"""Sizes as a person types them into a box of the page, in inches."""

from __future__ import annotations

from precheck.files.missing import is_missing
from precheck.project import Opening, Part
from precheck.reports.drawings.svg import inches
from precheck.units import Length


def length_in_inches(text: str) -> float:
    """Return a typed length in inches. Raises ValueError with what to write instead."""
    return inches(Length.parse(text))


def two_lengths(text: str) -> tuple[float, float]:
    """Return two typed lengths in inches: across the plan, then up it. Raises ValueError with what to write instead."""
    parts = [one.strip() for one in text.lower().replace("\N{MULTIPLICATION SIGN}", "x").split("x")]
    if len(parts) != 2:
        raise ValueError(f"`{text}` is not two sizes; write them like 11'-4\" x 14'-0\"")
    first, second = (length_in_inches(part) for part in parts)
    return first, second


def opening_size(text: str, there: Part | None) -> tuple[str, float]:
    """Return the size of an opening as the file writes it, empty where it has one already, and its width in inches."""
    if text.strip():
        width, _ = two_lengths(text)
        return text.strip(), width
    if isinstance(there, Opening) and not is_missing(there.unit_size):
        return "", inches(there.unit_size.width)
    raise ValueError("type its size, such as 3'-0\" x 6'-8\" or 3068")
