"""Text that acts on nothing that shows it: not on a terminal, and not on the server that runs a build and reads its log."""

from __future__ import annotations

import re

ACTING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
"""Signs that act on what shows them, such as a terminal, a CI log or a page, and say nothing."""
_BOLD = ("\x1b[1m", "\x1b[0m")
_COMMAND = re.compile(
    r"(?m)^(\s*):(?=:)|#(?=#\w*\[)"
)  # how a line of a log begins, or what in it begins, that servers obey


def shown_name(file: str) -> str:
    """Return the name of a file on one line, with signs that act on a screen, or begin a line, written out."""
    return file if file.isprintable() else "".join(c if c.isprintable() else repr(c)[1:-1] for c in file)


def shown(text: str) -> str:
    """Return `text` without signs of a file that would act on a terminal; bold, which is ours, stays."""
    return ACTING.sub(
        lambda found: found[0] if text.startswith(_BOLD, found.start()) else "\N{REPLACEMENT CHARACTER}", text
    )


def inert(text: str) -> str:
    """Return `text`, which is for people, as `shown`, and without lines that a build server would take for commands.

    These are broken with a blank, so that they read as they were.
    """
    return _COMMAND.sub(lambda found: f"{found[0]} ", shown(text))
