"""The project file behind the page: its text, what to go back to, and whether someone else wrote into it meanwhile."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from precheck.files.atomic import put, put_in_place_of
from precheck.files.source import Place, Problem, Unusable

MOST_STEPS = 200  # of undo; a file of 34 KB takes 7 MB then
BEFORE, ON_PAGE = "before", "on-page"  # ends of the names of what is kept beside it
_MARK = "\ufeff"


class Past(NamedTuple):
    """The file as it was, and what was done to it then, as the button says it."""

    what: str
    before: bytes


class HouseFile:
    """A project file and the changes made to it from the page, newest last.

    Beside it is kept, in the folder of the board, how it was before the page first wrote into it, and how the page had it last
    where someone else wrote over that.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.seen = b""
        self.done: list[Past] = []
        self.undone: list[Past] = []
        self._is_kept = False

    @property
    def exists(self) -> bool:
        """Whether there is a file yet."""
        return self.path.is_file()

    @property
    def text(self) -> str:
        """The text as it was last read. Raises `Unusable` where it is not UTF-8."""
        try:
            return self.seen.decode("utf-8-sig")
        except UnicodeDecodeError:
            raise Unusable([Problem(Place(str(self.path), 1, 1), "is not UTF-8; save it as UTF-8")]) from None

    def look(self) -> bool:
        """Read the file anew; return whether it is another than the one that was seen.

        Where someone else wrote it, there is nothing to go back to: what was undone or redone would take their change away.
        """
        try:
            now = self.path.read_bytes()
        except OSError as error:
            raise Unusable([Problem(Place(str(self.path), 1, 1), f"cannot be read ({error.strerror})")]) from None
        if now == self.seen:
            return False
        if self.done:  # an editor that was opened earlier may have put back what stood there then
            with suppress(OSError):
                self._keep(ON_PAGE)
        self.seen = now
        self.done.clear()
        self.undone.clear()
        return True

    def put(self, text: str, what: str) -> bool:
        """Write `text`, which `what` says the reason of; return False, and write nothing, where the file is another by now.

        Raises `Unusable` where it cannot be written.
        """
        before = self.seen
        if not self._replace(self._bytes(text)):
            return False
        self.done = [*self.done[1 - MOST_STEPS :], Past(what, before)]
        self.undone.clear()
        return True

    def back(self) -> Past | None:
        """Take the last change back, and return it; None where there is none, or the file is another by now."""
        return self._swap(self.done, self.undone)

    def forth(self) -> Past | None:
        """Make the change again that was taken back last, and return it; None where there is none to make."""
        return self._swap(self.undone, self.done)

    def _swap(self, taken: list[Past], given: list[Past]) -> Past | None:
        if not taken:
            return None
        step, now = taken[-1], self.seen
        if not self._replace(step.before):
            return None
        taken.pop()
        given.append(Past(step.what, now))
        return step

    def _replace(self, text: bytes) -> bool:
        try:
            if not self._is_kept and self.seen:
                self._keep(BEFORE)
                self._is_kept = True
            if not put_in_place_of(self.path, self.seen, text):
                return False
        except OSError as error:
            what = f"cannot be written ({error.strerror}); nothing is lost, the file is as it was"
            raise Unusable([Problem(Place(str(self.path), 1, 1), what)]) from None
        self.seen = text
        return True

    def kept_at(self, end: str) -> Path:
        """Return where the file is kept as it was then: `BEFORE`, `ON_PAGE`. No pattern for project files matches it."""
        return self.path.with_name(f"{self.path.stem}.board") / f"{self.path.name}.{end}"

    def _keep(self, end: str) -> None:
        at = self.kept_at(end)
        at.parent.mkdir(exist_ok=True)
        put(at, [self.seen])

    def _bytes(self, text: str) -> bytes:
        return ((_MARK if self.seen.startswith(_MARK.encode()) else "") + text).encode()
