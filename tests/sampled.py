"""A sample of what a test is tried on from day to day; the rest is left for the long run."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest


def long_save(values: Iterable[Any], *kept: Any) -> list[Any]:
    """Return `values` for a test, all but those `kept` marked as long."""
    found = [value if value in kept else pytest.param(value, marks=pytest.mark.long) for value in values]
    assert not all(hasattr(value, "marks") for value in found), "nothing is tried from day to day"
    return found
