"""The built-in rulesets: model code editions and the jurisdictions that adopt them."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from precheck import hookimpl


@hookimpl
def precheck_rulesets() -> Iterable[Path]:
    """Return the folder that holds them."""
    return (Path(__file__).parent,)
