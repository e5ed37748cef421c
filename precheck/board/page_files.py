"""The files that the browser may load: read once, and never by a name that a browser gives."""

from __future__ import annotations

from collections.abc import Iterable
from importlib.resources import files
from pathlib import Path

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
}
PAGE = files("precheck.board") / "page"


def page_files() -> dict[str, tuple[str, bytes]]:
    """Return what the browser may load, by its name: media type and content. Nothing else is ever read for it."""
    return {
        one.name: (TYPES[Path(one.name).suffix], one.read_bytes())
        for one in PAGE.iterdir()
        if Path(one.name).suffix in TYPES
    }


def page_routes(names: Iterable[str], first: str) -> list[Route]:
    """Return what answers with the files of those names, and with that called `first` where none is named."""
    there = page_files()
    served = {name: there[name] for name in names if name in there}

    async def page(request: Request) -> Response:
        kind, content = served.get(request.path_params.get("name") or first, ("", b""))
        if not kind:
            return Response("There is no such file.", 404, media_type="text/plain")
        return Response(content, media_type=kind)

    return [Route("/", page), Route("/{name}", page)]
