"""A deflection as the trade writes it: a part of the span, L/360."""

from __future__ import annotations

import re

_WRITTEN = re.compile(r"L ?/ ?([0-9]+)")


class SpanOverDeflection(int):
    """How many times as long as its deflection a span is; the larger, the stiffer. It is the number, shown as L/360."""

    def __str__(self) -> str:
        return f"L/{int(self)}"

    __repr__ = __str__

    @classmethod
    def written(cls, text: str) -> SpanOverDeflection | None:
        """Return what ``L/360`` stands for; None where `text` is not written so."""
        found = _WRITTEN.fullmatch(text)
        return cls(found[1]) if found else None
