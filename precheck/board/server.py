"""The board as a local server: what each address answers, and how it is started and stopped."""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable

from pydantic import ValidationError
from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Route

from precheck.board.answering import BoardEnded, answer, as_json, ended, in_turn, unreadable
from precheck.board.asked import REQUEST
from precheck.board.board import Data, HouseBoard
from precheck.board.gate import Gate
from precheck.board.handouts import LETTER_AS_TEXT, OWN_STYLE, REPORT
from precheck.board.page_files import page_files, page_routes
from precheck.board.presence import Presence
from precheck.board.serving import LOCAL, Serving, listening
from precheck.board.share import EXPOSED, Shared
from precheck.board.typed import read_as
from precheck.board.underlay_routes import BODIES, UNKNOWN, PictureAnswers
from precheck.board.worker import Worker
from precheck.files.source import Unusable


def app_of(board: HouseBoard, worker: Worker, presence: Presence) -> Starlette:
    """Return the application that answers for `board`, whose work `worker` does; `presence` is told who is there."""

    async def state(request: Request) -> Response:
        presence.seen()
        known, pictures = (request.query_params.get(key, "") for key in ("revision", "underlay"))
        return await answer(worker, lambda: board.state(_number(known), _number(pictures)))

    async def do(request: Request) -> Response:
        try:
            asked = REQUEST.validate_json(await request.body())
        except (ValidationError, ClientDisconnect):
            return as_json({"refused": UNKNOWN}, 400)
        return await answer(worker, lambda: board.do(asked))

    pictures = PictureAnswers(board.underlays, worker).routes
    return Starlette(
        routes=[
            Route("/state", state),
            *_looked_up(board, worker),
            Route("/do", do, methods=["POST"]),
            _goodbye(presence),
            _handouts(board, worker),
            _phone(board),
            *pictures,
            *page_routes(page_files(), "index.html"),
        ],
        exception_handlers={BoardEnded: ended, Unusable: unreadable},
    )


def _looked_up(board: HouseBoard, worker: Worker) -> list[Route]:
    """Return the routes by which the page looks something up and nothing changes."""

    def by(what: Callable[[str], Data], key: str) -> Callable[[Request], Awaitable[Response]]:
        async def looked_up(request: Request) -> Response:
            return await answer(worker, lambda: what(request.query_params.get(key, "")))

        return looked_up

    return [
        Route("/form", by(board.form, "part")),
        Route("/section", by(board.section, "part")),
        Route("/asks", by(board.asks, "item")),
        Route("/letter", by(lambda _: board.town_letter(), "")),
        Route("/read", _read),
    ]


async def _read(request: Request) -> Response:
    """Answer how what stands in a box would be read; nothing of the board is looked at for it."""
    asked = request.query_params
    return as_json({"meant": read_as(asked.get("as", ""), asked.get("text", ""))})


def _number(text: str) -> int | None:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 12 else None


def _handouts(board: HouseBoard, worker: Worker) -> Route:
    """Return what answers with a handout, as a page of its own with its own policy."""

    async def handout(request: Request) -> Response:
        name = request.path_params["name"]
        text = await in_turn(worker, lambda: board.handout(name))
        if text is None:
            return Response("There is no such paper.", 404, media_type="text/plain")
        headers = {"content-security-policy": OWN_STYLE} if name == REPORT else None
        kind = "plain" if name == LETTER_AS_TEXT else "html"
        return Response(text, media_type=f"text/{kind}; charset=utf-8", headers=headers)

    return Route("/paper-{name}", handout)


def _goodbye(presence: Presence) -> Route:
    """Return what a page says when it is closed."""

    async def bye(_: Request) -> Response:
        presence.left()
        return as_json({})

    return Route("/bye", bye, methods=["POST"])


def _phone(board: HouseBoard) -> Route:
    """Return what answers with the address for a phone, as a code for its camera."""

    async def code(_: Request) -> Response:
        if board.code is None:
            return Response("There is no such picture.", 404, media_type="text/plain")
        return Response(board.code, media_type="image/svg+xml")

    return Route("/share.svg", code)


class Served:
    """A board that is served: its address, and the work on it until it is told to stop; and where it is read elsewhere.

    `share` is the address of this computer at which others may read it; empty where nobody asked for that.
    """

    def __init__(self, board: HouseBoard, port: int = 0, share: str = "") -> None:
        self.board = board
        self.worker = Worker()
        self.presence = Presence()
        self.socket = listening(port)
        self.token = secrets.token_urlsafe(24)
        self.port = self.socket.getsockname()[1]
        hosts = frozenset((f"{LOCAL}:{self.port}", f"localhost:{self.port}"))
        self.serving = Serving(
            Gate(app_of(self.board, self.worker, self.presence), self.token, hosts, BODIES), self.socket
        )
        self.shared: Shared | None = None
        if share:
            self._share(share)

    @property
    def address(self) -> str:
        """The address to open in a browser; whoever knows it may change the file."""
        return f"http://{LOCAL}:{self.port}/{self.token}/"

    def run(self) -> None:
        """Serve until `stop`, until the person breaks it off, or until the page was closed for a while and nobody reads it."""
        self.serving.start()
        if self.shared is not None:
            self.shared.serving.start()
        try:
            self.worker.run(lambda: self.serving.goes_on and not self.is_left)
        finally:
            self.stop()

    @property
    def is_left(self) -> bool:
        """Whether nobody is there any more; on a phone someone may be reading as long as the board is shared."""
        return self.shared is None and self.presence.is_over

    def stop(self) -> None:
        """End the server, and wait until it has ended."""
        self.serving.tell_to_stop()
        self.worker.end()
        if self.shared is not None:
            self.shared.serving.stop()
        self.serving.stop()

    def _share(self, address: str) -> None:
        try:
            self.shared = Shared(self.board, self.worker, address)
        except OSError:
            self.socket.close()
            raise
        self.board.code = self.shared.code
        self.board.share = {
            "address": self.shared.address, "code": self.board.code is not None, "exposed": EXPOSED,
        }  # fmt: skip
