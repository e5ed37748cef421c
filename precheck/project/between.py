"""The range in which a thing is ever built, so that a slip of the unit or of the decimal point is told when it is read."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from precheck.units import Length, Measure, recognize

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler


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
    """Metadata of a field: the lowest and the highest value that any job has, such as ``Between("1 in", "3 ft")``.

    It is wide: what lies outside is impossible or never seen, not unusual (common practice, no source). Zero is for the
    kind of the field to allow, and lies within. Of a width and height, each side is held to it.
    """

    low: str | int
    high: str | int

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> Any:
        from pydantic_core import core_schema

        return core_schema.no_info_after_validator_function(self.holder(source), handler(source))

    def __get_pydantic_json_schema__(self, schema: Any, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        told = dict(handler(schema))
        if told.get("type") == "integer":
            return {**told, "minimum": 0 if told.get("minimum") == 0 else self.low, "maximum": self.high}
        told["examples"] = [self.example(text) for text in told.get("examples", ())]
        return {**told, "description": f"{told.get('description', '')} From {self.low} to {self.high}.".strip()}

    def holder(self, kind: Any) -> Callable[[Any], Any]:
        """Return what holds a value of `kind`, a class of measures, to the range: it returns the value, or raises ValueError."""
        low, high = (_bound(bound, kind) for bound in self)

        def held(value: Any) -> Any:
            for side in value if isinstance(value, tuple) else (value,):
                n = getattr(side, "n", side)
                if n and not low <= n <= high:
                    raise ValueError(self.refusal(side, n > high))
            return value

        return held

    def example(self, *usual: str) -> str:
        """Return the first of the `usual` examples that lies within, else another of the same dimension that does."""
        if isinstance(self.low, int) and isinstance(self.high, int):
            others: tuple[str, ...] = (str((self.low + self.high) // 2),)
        else:
            found = recognize(usual[-1])
            others = EXAMPLES.get(found.dimension, ()) if found is not None else ()
        return next((text for text in (*usual, *others) if self._holds(text)), usual[0])

    def _holds(self, text: str) -> bool:
        value = int(text) if text.isdigit() else recognize(text)
        try:
            return value is None or self.holder(type(value))(value) is not None
        except ValueError:
            return False

    def refusal(self, value: Any, is_over: bool) -> str:
        """Return what to say of a value outside."""
        told = f"more than {self.high}" if is_over else f"less than {self.low}"
        said = getattr(value, "text", None) or value
        return f"`{said}` cannot be meant, for no job has {told} here; check the unit and the decimal point"


def _bound(text: str | int, kind: Any) -> Any:
    """Return the number of a bound, in the unit in which values of `kind` are compared."""
    if isinstance(text, int):
        return text
    measures = kind if isinstance(kind, type) and issubclass(kind, Measure) else Length  # of the sides
    return measures.parse(text).n


__all__ = ["Between"]
