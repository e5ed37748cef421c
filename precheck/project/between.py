"""The range in which a thing is ever built, so that a slip of the unit or of the decimal point is told when it is read."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from typing import Any, NamedTuple

from pydantic_core import CoreSchema, core_schema

from precheck.units import Measure, recognize

EXAMPLES: dict[str, tuple[str, ...]] = {
    "length": ("10 ft", "1 1/2 in", "1/4 in", "0.02 in"),
    "area": ("120 sq ft", "20 sq in", "6000 sq ft"),
    "load": ("20 psi", "1000 psi", "1600000 psi"),
    "slope": ("4:12", "5 %"),
    "temperature": ("10 F", "120 F"),
    "R-value": ("R-5",),
    "factor": ("1.5",),
}
"""What a field may hold that cannot hold the example of its kind of measure."""


class Between(NamedTuple):
    """Marks the lowest and the highest value that any job has, such as ``Between("1 in", "3 ft")``.

    It is wide: what lies outside is impossible or never seen, not unusual (common practice, no source). Zero is for the
    kind of the field to allow, and lies within. Of a width and height, each side is held to it.
    """

    low: str | int
    high: str | int

    def around(self, schema: CoreSchema) -> CoreSchema:
        """Return `schema` with the mark."""
        return core_schema.no_info_after_validator_function(self.held, schema, metadata={"between": self})

    def form(self, inner: dict[str, Any]) -> dict[str, Any]:
        """Return the JSON Schema of what may be written, with the range."""
        if inner.get("type") == "integer":
            return {**inner, "minimum": 0 if inner.get("minimum") == 0 else self.low, "maximum": self.high}
        examples = {"examples": [self.example(text) for text in inner["examples"]]} if "examples" in inner else {}
        return {
            **inner,
            **examples,
            "description": f"{inner.get('description', '')} From {self.low} to {self.high}.".strip(),
        }

    def held(self, value: Any) -> Any:
        """Return `value`, or raise the ValueError that says by how much it is out of range."""
        for side in value if isinstance(value, tuple) else (value,):
            kind: Any = type(side)
            low, high = _bounds(self, kind)
            n = side.n if isinstance(side, Measure) else side
            if n and not low <= n <= high:
                raise ValueError(self._refusal(side, n > high))
        return value

    def example(self, *usual: str) -> str:
        """Return the first of the `usual` examples that lies within, else another of the same dimension that does."""
        found = recognize(usual[-1])
        others: Iterable[str] = EXAMPLES.get(found.dimension, ()) if found is not None else ()
        if isinstance(self.low, int) and isinstance(self.high, int):
            others = (str((self.low + self.high) // 2),)
        return next((text for text in (*usual, *others) if self._holds(text)), usual[0])

    def _holds(self, text: str) -> bool:
        value = int(text) if text.isdigit() else recognize(text)
        try:
            return value is None or self.held(value) is not None
        except ValueError:
            return False

    def _refusal(self, value: Any, is_over: bool) -> str:
        told = f"more than {self.high}" if is_over else f"less than {self.low}"
        said = getattr(value, "text", None) or value
        return f"`{said}` cannot be meant, for no job has {told} here; check the unit and the decimal point"


@cache
def _bounds(between: Between, kind: Any) -> tuple[Any, Any]:
    """Return the numbers of the bounds as values of `kind` are compared: those of a measure in its own unit."""
    low, high = between
    return (low, high) if isinstance(low, int) else (kind.parse(low).n, kind.parse(high).n)


__all__ = ["Between"]
