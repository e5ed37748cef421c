"""The scale of a drawing on paper as a person writes it: ``1/4 in = 1 ft``, ``1:50``, or what one measures on the page."""

from __future__ import annotations

import re
from typing import Any

from precheck.units import Length

POINT = 0.0254 / 72  # meters of paper, the unit of a page
LARGEST, SMALLEST = 0.01, 5000.0  # times as large as on paper: a page in units of the house, and a map
_RATIO = re.compile(r"1\s*:\s*(\d+(?:\.\d+)?)")
_METER = Length.parse("1 m")
SAYS = "write it as 1/4 in = 1 ft, as 1:50, or as a length on the page and what it is, such as 3 1/2 in = 14 ft"


class PaperScale:
    """How many times as large as on paper a thing is; `imperial` where it was written in feet or inches."""

    def __init__(self, times: float, text: str, imperial: bool) -> None:
        self.times, self.text, self.imperial = times, text, imperial

    @property
    def meter(self) -> float:
        """Meters for one point of the page."""
        return self.times * POINT

    @classmethod
    def from_file(cls, written: Any) -> PaperScale:
        """Return the scale that is written. Raises `ValueError`."""
        text = " ".join(str(written).split())
        times, imperial = _times(text)
        if not LARGEST <= times <= SMALLEST:
            raise ValueError(f"{text} is no scale of a plan; {SAYS}")
        return cls(times, text, imperial)

    @classmethod
    def form(cls) -> dict[str, Any]:
        """Return the JSON Schema of what may be written."""
        return {"type": "string", "description": SAYS, "examples": ["1/4 in = 1 ft", "1:50"]}


def ratio_of(meter: float) -> str:
    """Return the scale at which one point of a page is `meter` meters, as 1:50."""
    return f"1:{meter / POINT:.5g}"


def _times(text: str) -> tuple[float, bool]:
    ratio = _RATIO.fullmatch(text)
    if ratio:
        return float(ratio[1]), False
    on_paper, equals, in_fact = text.partition("=")
    try:
        paper, fact = Length.parse(on_paper.strip()), Length.parse(in_fact.strip())
        return float(fact / paper), not fact.is_metric
    except (ValueError, ZeroDivisionError):
        said = f"{text or 'nothing'} is no scale" if not equals else f"{text} does not say two lengths"
        raise ValueError(f"{said}; {SAYS}") from None


__all__ = ["POINT", "PaperScale", "ratio_of"]
