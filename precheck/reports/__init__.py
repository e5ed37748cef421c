"""Reports on a review, one module a format. A format is imported when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import Any

FORMATS = ("text", "json")


def renderer(name: str) -> Callable[..., Any]:
    """Return the `render` function of format `name`, one of `FORMATS`."""
    return import_module(f"precheck.reports.{name}").render  # type: ignore[no-any-return]  # each module defines it so
