"""The addresses of the board at which pictures of plans are sent, placed, and looked at."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import ValidationError
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Route

from precheck.board.answering import answer, as_json, in_turn
from precheck.board.gate import BodyTaken
from precheck.board.typed import MeantError
from precheck.board.underlay import Sent, Underlays, sent_of
from precheck.board.underlay_asked import PICTURE_REQUEST, UsePicture, do_with_picture
from precheck.board.upload import MOST_UPLOAD
from precheck.board.worker import Worker
from precheck.files.source import Unusable

Data = dict[str, Any]
T = TypeVar("T")
UPLOAD = "/underlay/send"
BODIES = {UPLOAD: BodyTaken(b"application/octet-stream", MOST_UPLOAD)}
TOO_LARGE = f"That is over {MOST_UPLOAD // 1_000_000} MB; make it smaller, or save the one page that is needed."
UNKNOWN = "The page asked for something that the board does not know. Reload the page."


class PictureAnswers:
    """Answers for the pictures behind the sketch; what is in their folder is read and written by `worker` alone."""

    def __init__(self, underlays: Underlays, worker: Worker) -> None:
        self.underlays = underlays
        self.worker = worker
        self._one_at_a_time = asyncio.Lock()

    @property
    def routes(self) -> list[Route]:
        """The addresses, each with what answers there."""
        return [
            Route(UPLOAD, self.send, methods=["POST"]),
            Route("/underlay", self.change, methods=["POST"]),
            Route("/picture-{number:int}-{page:int}", self.picture),
        ]

    async def send(self, request: Request) -> Response:
        """Take a picture, and lay it behind a story."""
        story = request.query_params.get("story", "")[:200]
        try:
            data = await request.body()
        except ClientDisconnect:  # the gate lets no more through
            return as_json({"refused": TOO_LARGE}, 413)
        sent = await self._read(data)
        return await self._change(lambda: self.underlays.add(story, _got(sent)))

    async def change(self, request: Request) -> Response:
        """Change how a picture lies or is seen, or which one it is."""
        try:
            asked = PICTURE_REQUEST.validate_json(await request.body())
        except (ValidationError, ClientDisconnect):
            return as_json({"refused": UNKNOWN}, 400)
        if isinstance(asked, UsePicture):
            return await self._use(asked)
        return await self._change(lambda: do_with_picture(self.underlays, asked))

    async def picture(self, request: Request) -> Response:
        """Give a picture that lies behind some story."""
        number, page = request.path_params["number"], request.path_params["page"]
        found = await in_turn(self.worker, lambda: self.underlays.picture(number, page))
        if found is None:
            return Response("There is no such picture.", 404, media_type="text/plain")
        return Response(found[1], media_type=found[0])

    async def _use(self, asked: UsePicture) -> Response:
        data = await in_turn(self.worker, lambda: _tried(lambda: self.underlays.sent_before(asked.source)))
        sent = data if isinstance(data, Exception) else await self._read(data, asked.page)
        return await self._change(lambda: self.underlays.use(asked.story, asked.source, _got(sent)))

    async def _read(self, data: bytes, page: int = 1) -> Sent | Exception:
        async with self._one_at_a_time:
            return await asyncio.to_thread(_tried, lambda: sent_of(data, page))

    async def _change(self, do: Callable[[], None]) -> Response:
        return await answer(self.worker, lambda: _done(self.underlays, do))


def _tried(do: Callable[[], T]) -> T | Exception:
    """Return what comes of `do`, or why nothing does, where that can be told to a person."""
    try:
        return do()
    except (ValueError, Unusable, OSError) as error:
        return error


def _got(found: T | Exception) -> T:
    if isinstance(found, Exception):
        raise found
    return found


def _done(underlays: Underlays, do: Callable[[], None]) -> Data:
    """Do something with the pictures; return how they lie then, and why it was refused where it was."""
    told: Data = {}
    try:
        do()
    except MeantError as error:
        told = {"refused": str(error), "typed": error.typed, "meant": list(error.meant)}
    except Unusable as error:
        told = {"refused": "; ".join(problem.what for problem in error.problems)}
    except OSError as error:
        told = {"refused": f"The disk does not take it ({error.strerror})."}
    except ValueError as error:
        told = {"refused": str(error)}
    return {"underlay": underlays.shown(), **told}
