"""Answers of the board as JSON: what is asked is done in its turn, and a fault of ours ends nothing."""

from __future__ import annotations

import asyncio
import json
import traceback
from collections.abc import Callable
from typing import Any, TypeVar

from starlette.requests import Request
from starlette.responses import Response

from precheck.board.worker import Worker
from precheck.files.source import Unusable

T = TypeVar("T")
ENDED = "The board has ended."
FAULT = "The board failed at that, and nothing was written by it. The terminal in which it runs tells more."


class BoardEnded(Exception):
    """The board ended before it came to what was asked."""


async def in_turn(worker: Worker, do: Callable[[], T]) -> T:
    """Have `worker` do something in its turn; return what came of it. Raises `BoardEnded`."""
    asked = worker.submit(do)
    try:
        return await asyncio.wrap_future(asked)
    except asyncio.CancelledError:
        if asked.cancelled():
            raise BoardEnded from None
        raise


async def answer(worker: Worker, do: Callable[[], dict[str, Any]]) -> Response:
    """Answer with what comes of `do`; a fault of ours is told where the board runs, and the page goes on."""
    try:
        return as_json(await in_turn(worker, do))
    except BoardEnded:
        return as_json({"refused": ENDED}, 503)
    except Exception:  # the page lives as long as the file behind it
        traceback.print_exc()
        return as_json({"refused": FAULT, "asks": [], "values": [], "more": []}, 500)


async def unreadable(_: Request, error: Exception) -> Response:
    """Answer what stands beside the house, and cannot be read, with why."""
    assert isinstance(error, Unusable)
    return Response("\n".join(map(str, error.problems)), 422, media_type="text/plain")


async def ended(_: Request, __: Exception) -> Response:
    """Answer what the board did not come to before it ended."""
    return Response(ENDED, 503, media_type="text/plain")


def as_json(data: dict[str, Any], status: int = 200) -> Response:
    """Return `data` as an answer."""
    return Response(json.dumps(data, ensure_ascii=False, separators=(",", ":")), status, media_type="application/json")
