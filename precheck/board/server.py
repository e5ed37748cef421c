"""The board as a local server: what each address answers, and how it is started and stopped."""

from __future__ import annotations

import asyncio
import json
import secrets
import socket
import threading
import traceback
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any

import uvicorn
from pydantic import ValidationError
from starlette.applications import Starlette
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.routing import Route

from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.board.gate import Gate
from precheck.board.handouts import OWN_STYLE, REPORT
from precheck.board.worker import Worker

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
}
PAGE = files("precheck.board") / "page"
LOCAL = "127.0.0.1"


def page_files() -> dict[str, tuple[str, bytes]]:
    """Return what the browser may load, by its name: media type and content. Nothing else is ever read for it."""
    return {
        one.name: (TYPES[Path(one.name).suffix], one.read_bytes())
        for one in PAGE.iterdir()
        if Path(one.name).suffix in TYPES
    }


def app_of(board: HouseBoard, worker: Worker) -> Starlette:
    """Return the application that answers for `board`, whose work `worker` does."""

    async def state(request: Request) -> Response:
        known = request.query_params.get("revision", "")
        return await _answer(worker, lambda: board.state(int(known) if known.isdigit() else None))

    async def form(request: Request) -> Response:
        return await _answer(worker, lambda: board.form(request.query_params.get("part", "")))

    async def section(request: Request) -> Response:
        return await _answer(worker, lambda: board.section(request.query_params.get("part", "")))

    async def asks(request: Request) -> Response:
        return await _answer(worker, lambda: board.asks(request.query_params.get("item", "")))

    async def letter(_: Request) -> Response:
        return await _answer(worker, board.town_letter)

    async def do(request: Request) -> Response:
        try:
            asked = REQUEST.validate_json(await request.body())
        except (ValidationError, ClientDisconnect):
            told = "The page asked for something that the board does not know. Reload the page."
            return _json({"refused": told}, 400)
        return await _answer(worker, lambda: board.do(asked))

    answers = [Route(f"/{one.__name__}", one) for one in (state, form, section, asks, letter)]
    handouts = _handouts(board, worker)
    return Starlette(routes=[*answers, Route("/do", do, methods=["POST"]), handouts, *_page_routes()])


def _handouts(board: HouseBoard, worker: Worker) -> Route:
    """Return what answers with a handout, as a page of its own with its own policy."""

    async def handout(request: Request) -> Response:
        name = request.path_params["name"]
        text = await asyncio.wrap_future(worker.submit(lambda: board.handout(name)))
        if text is None:
            return Response("There is no such paper.", 404, media_type="text/plain")
        headers = {"content-security-policy": OWN_STYLE} if name == REPORT else None
        return Response(text, media_type="text/html; charset=utf-8", headers=headers)

    return Route("/paper-{name}", handout)


def _page_routes() -> list[Route]:
    """Return what answers with the files of the page, which are read once and never by a name that a browser gives."""
    served = page_files()

    async def page(request: Request) -> Response:
        kind, content = served.get(request.path_params.get("name") or "index.html", ("", b""))
        return (
            Response(content, media_type=kind)
            if kind
            else Response("There is no such file.", 404, media_type="text/plain")
        )

    return [Route("/", page), Route("/{name}", page)]


FAULT = "The board failed at that, and nothing was written by it. The terminal in which it runs tells more."


async def _answer(worker: Worker, do: Callable[[], dict[str, Any]]) -> Response:
    """Answer with what comes of `do`; a fault of ours is told where the board runs, and the page goes on."""
    try:
        return _json(await asyncio.wrap_future(worker.submit(do)))
    except Exception:  # the page lives as long as the file behind it
        traceback.print_exc()
        return _json({"refused": FAULT, "asks": [], "values": [], "more": []}, 500)


def _json(data: dict[str, Any], status: int = 200) -> Response:
    return Response(json.dumps(data, ensure_ascii=False, separators=(",", ":")), status, media_type="application/json")


def listening(port: int = 0) -> socket.socket:
    """Return a socket that listens on this computer alone. Raises `OSError` where the port is taken."""
    found = socket.socket(
        socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP
    )  # with no protocol named, answers wait 40 ms
    found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    found.bind((LOCAL, port))
    found.listen(64)
    return found


class Served:
    """A board that is served: its address, and the work on it until it is told to stop."""

    def __init__(self, board: HouseBoard, port: int = 0) -> None:
        self.board = board
        self.worker = Worker()
        self.socket = listening(port)
        self.token = secrets.token_urlsafe(24)
        self.port = self.socket.getsockname()[1]
        hosts = frozenset((f"{LOCAL}:{self.port}", f"localhost:{self.port}"))
        gate = Gate(app_of(self.board, self.worker), self.token, hosts)
        config = uvicorn.Config(
            gate, log_config=None, access_log=False, lifespan="off", server_header=False, date_header=False
        )
        self.server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._serve, daemon=True)

    @property
    def address(self) -> str:
        """The address to open in a browser; whoever knows it may change the file."""
        return f"http://{LOCAL}:{self.port}/{self.token}/"

    def _serve(self) -> None:
        self.server.run(sockets=[self.socket])

    def run(self) -> None:
        """Serve until `stop`, or until the person breaks it off."""
        self._thread.start()
        try:
            self.worker.run(lambda: not self.server.should_exit and self._thread.is_alive())
        finally:
            self.stop()

    def stop(self) -> None:
        """End the server, and wait until it has ended."""
        self.server.should_exit = True
        self.worker.end()
        if self._thread.is_alive() and threading.current_thread() is not self._thread:
            self._thread.join(timeout=5)
        self.socket.close()
