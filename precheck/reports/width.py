"""Lines of a terminal: at most 80 columns."""

from __future__ import annotations

from textwrap import fill

WIDTH = 80


def wrapped(text: str, hang: int = 0, indent: int = 0) -> list[str]:
    """Return `text` in lines of at most `WIDTH`, indented, the later ones by `hang` more.

    An address that is longer stands whole on a line of its own, so that it can be opened.
    """
    first, rest = " " * indent, " " * (indent + hang)
    whole = "://" in text
    return fill(
        text, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False, break_long_words=not whole
    ).splitlines()


def cut(text: str, most: int = WIDTH) -> str:
    """Return `text` on one line of at most `most` columns, cut between words where it is longer."""
    plain = " ".join(text.split())
    if len(plain) <= most:
        return plain
    room = plain[: most - 3]
    whole = room.rpartition(" ")[0] if plain[most - 3] != " " and " " in room[most // 2 :] else room
    return f"{whole.rstrip(' ,;:')} .."
