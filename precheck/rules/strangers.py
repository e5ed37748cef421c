"""Code of strangers, which rules and plugins are: what it raises is put in words, what it prints stays off the report."""

from __future__ import annotations

import sys
from contextlib import AbstractContextManager, redirect_stdout


class BrokenOff(Exception):
    """A stranger's code, or the run with it, could not come to an end; the message says which and what to do."""


def said_of(error: BaseException) -> str:
    """Return the kind of `error` and its words, even where the error cannot say them."""
    try:
        return f"{type(error).__name__}: {error}"
    except Exception as worse:
        return f"{type(error).__name__}, whose message failed ({type(worse).__name__})"


def prints_aside() -> AbstractContextManager[object]:
    """While it is entered, what is printed goes to standard error, so that a report on standard output stays whole."""
    return redirect_stdout(sys.stderr)
