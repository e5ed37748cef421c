"""Code of strangers, which rules and plugins are: what it prints stays off the report, what it ends is told."""

from __future__ import annotations

import sys
from contextlib import AbstractContextManager, redirect_stdout


class BrokenOff(Exception):
    """A stranger's code, or the run with it, could not come to an end; the message says which and what to do."""


def prints_aside() -> AbstractContextManager[object]:
    """While it is entered, what is printed goes to standard error, so that a report on standard output stays whole."""
    return redirect_stdout(sys.stderr)
