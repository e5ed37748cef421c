"""Pictures of plans behind the sketch, one for each story: kept in a folder beside the project file, never in it.

`house.yaml` has its pictures in `house.board/`: what a person sent and the pages drawn from it, under names of our own, and
`underlay.json`, which says what lies where. The file of the house, and what a check says of it, do not change by them.
"""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from secrets import randbelow
from time import time
from typing import Any, NamedTuple

from pydantic import ValidationError

from precheck.board.pdf_page import drawn_page
from precheck.board.placing import first_placing
from precheck.board.underlay_records import Pictures, SentPicture, Underlay
from precheck.board.upload import TYPES, kind_of, picture_of
from precheck.files.atomic import put, put_in_place_of
from precheck.files.source import Place, Problem, Unusable

LIST = "underlay.json"
MOST_STEPS = 100  # back
LEFT_OVER = 3600.0  # seconds, after which nobody is about to lay what was sent
_UNREAD = b"\0"  # what no list holds
_OWN = re.compile(r"source-(\d+)(-page-\d+)?\.(pdf|jpg|png|webp)")
ELSEWHERE = (
    "The pictures were changed by another page in the meantime, so this was not done. They have been read again."
)
GONE = "That picture is not here any more; send it again."


class Sent(NamedTuple):
    """What a person sent, and of a PDF the page to show: its kind, how many pages, the size in pixels, the bytes."""

    kind: str
    pages: int
    size: tuple[int, int]
    data: bytes
    page: int = 1
    drawn: bytes = b""


def sent_of(data: bytes, page: int = 1) -> Sent:
    """Return what `data` is; this may take seconds for a PDF. Raises ValueError with what to send instead, for a person."""
    if kind_of(data) == "pdf":
        found = drawn_page(data, page)
        return Sent("pdf", found.pages, found.size, data, page, found.png)
    if page != 1:
        raise ValueError("A photo or scan has one page.")
    picture = picture_of(data)
    return Sent(picture.kind, 1, picture.size, data)


class Underlays:
    """The pictures behind the stories of one project file, and the folder in which they are kept."""

    def __init__(self, project: Path) -> None:
        self.folder = project.with_name(f"{project.stem}.board")
        self.list = self.folder / LIST
        self.revision = 0
        self.problem = ""
        self._before: list[Pictures] = []
        self._seen = b""
        self._pictures = Pictures()

    def look(self) -> Pictures:
        """Return what lies where, read anew where another board changed it; `problem` says what is wrong with it."""
        try:
            now = self.list.read_bytes() if self.list.is_file() else b""
        except OSError as error:
            self._seen = _UNREAD
            self._tell(f"{self.list}: cannot be read ({error.strerror}), so no picture can be changed.")
            return self._pictures
        if now != self._seen:
            self._seen = now
            self._before.clear()
            self.revision += 1
            self._pictures, self.problem = self._read_list(now)
        return self._pictures

    def shown(self) -> dict[str, Any]:
        """Return what the page shows: what lies behind each story, by its id, and all that was sent."""
        found = self.look()
        return {
            "revision": self.revision,
            "problem": self.problem,
            "back": bool(self._before),
            "sources": [source.model_dump() for source in found.sources],
            "stories": {one.story: one.model_dump() for one in found.underlays},
        }

    def add(self, story: str, sent: Sent) -> None:
        """Lay what a person sent behind a story. Raises ValueError where another board was first, `Unusable`."""
        found = self._usable()
        source = SentPicture(number=1 + randbelow(10**9), kind=sent.kind, pages=sent.pages)
        self._keep(source.name, sent.data)
        if sent.drawn:
            self._keep(source.picture(sent.page), sent.drawn)
        self._change(found.having(_laid(story, source, sent), source))

    def use(self, story: str, number: int, sent: Sent) -> None:
        """Lay a page of what is kept already behind a story. Raises ValueError, `Unusable`.

        A page of the same size stays where the one before it lay; its scale is to be said anew.
        """
        found = self._usable()
        source = found.source(number)
        if source is None:
            raise ValueError(GONE)
        if sent.drawn:
            self._keep(source.picture(sent.page), sent.drawn)
        laid, there = _laid(story, source, sent), found.of(story)
        self._change(found.having(laid.placed(there.placing) if there and there.size == laid.size else laid))

    def place(self, underlay: Underlay) -> None:
        """Have a picture lie, or be seen, in another way. Raises ValueError where another board was first, `Unusable`."""
        found = self._usable()
        before = self._before
        self._change(found.having(underlay))
        self._before = [*before[1 - MOST_STEPS :], found]

    def step_back(self) -> None:
        """Take back the last change of how a picture lies or is seen. Raises ValueError where there is none, `Unusable`."""
        self._usable()
        before = self._before
        if not before:
            raise ValueError("There is nothing to take back.")
        self._change(before[-1])
        self._before = before[:-1]

    def take_out(self, story: str) -> None:
        """Have nothing lie behind a story. Raises ValueError where another board was first, `Unusable`."""
        self._change(self._usable().without(story))

    def of(self, story: str) -> Underlay:
        """Return what lies behind a story. Raises ValueError where nothing does."""
        found = self._usable().of(story)
        if found is None:
            raise ValueError("There is no picture behind this story; send one first.")
        return found

    def sent_before(self, number: int) -> bytes:
        """Return what was sent under a number. Raises ValueError where it is not kept."""
        source = self._usable().source(number)
        if source is None:
            raise ValueError(GONE)
        return self._read(source.name)

    def picture(self, number: int, page: int) -> tuple[str, bytes] | None:
        """Return a picture that lies behind some story, with its media type; None where none does."""
        found = self.look()
        source = found.source(number)
        if source is not None and any((one.source, one.page) == (number, page) for one in found.underlays):
            name = source.picture(page)
            with suppress(Unusable):
                return TYPES[Path(name).suffix[1:]], self._read(name)
        return None

    def _usable(self) -> Pictures:
        found = self.look()
        if self.problem:
            raise ValueError(self.problem)
        return found

    def _read_list(self, text: bytes) -> tuple[Pictures, str]:
        try:
            return Pictures.model_validate_json(text) if text.strip() else Pictures(), ""
        except ValidationError:
            told = f"{self.list}: is not as the board wrote it, so no picture is shown; put it back, or remove it."
            return Pictures(), told

    def _change(self, pictures: Pictures) -> None:
        before = self._pictures
        text = pictures.model_dump_json(indent=1).encode()
        try:
            self.folder.mkdir(exist_ok=True)
            if not self.list.exists():
                put(self.list, [self._seen])
            done = put_in_place_of(self.list, self._seen, text)
        except OSError as error:
            raise _unusable(self.list, f"cannot be written ({error.strerror}); nothing is lost") from None
        if not done:
            self.look()
            raise ValueError(ELSEWHERE)
        self._seen, self._pictures, self._before = text, pictures, []
        self.revision += 1
        self._clear(before, pictures)

    def _clear(self, before: Pictures, now: Pictures) -> None:
        """Remove the files of what is kept no more, pages that no story shows, and what a board that was killed left."""
        left = {one.number for one in before.sources} - {one.number for one in now.sources}
        kept = {one.number for one in now.sources}
        shown = {source.picture(one.page) for one in now.underlays if (source := now.source(one.source))}
        for path in self.folder.iterdir():
            own = _OWN.fullmatch(path.name)
            number = int(own[1]) if own else 0
            if not own:
                continue
            with suppress(OSError):
                lost = number not in kept and time() - path.stat().st_mtime > LEFT_OVER
                if number in left or lost or (number in kept and own[2] and path.name not in shown):
                    path.unlink()

    def _keep(self, name: str, data: bytes) -> None:
        try:
            self.folder.mkdir(exist_ok=True)
            put(self.folder / name, [data])
        except OSError as error:
            raise _unusable(self.folder / name, f"cannot be written ({error.strerror}); nothing is lost") from None

    def _read(self, name: str) -> bytes:
        try:
            return (self.folder / name).read_bytes()
        except OSError as error:
            raise _unusable(self.folder / name, f"cannot be read ({error.strerror}); send it again") from None

    def _tell(self, problem: str) -> None:
        if problem != self.problem:
            self.problem = problem
            self.revision += 1


def _laid(story: str, source: SentPicture, sent: Sent) -> Underlay:
    at = first_placing(sent.size)
    return Underlay(story=story, source=source.number, page=sent.page, size=sent.size, **at._asdict())


def _unusable(path: Path, what: str) -> Unusable:
    return Unusable([Problem(Place(str(path), 1, 1), what)])
