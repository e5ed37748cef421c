"""What stands between the page and the network: only this computer, only this page, only what is small enough.

A page of another site that the person has open must not reach the board: the name that the browser was asked for (`Host`), the
page that asks (`Origin`) and a secret in the address are checked on every request, before anything is read.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]

MOST_BYTES = 1_000_000  # of one request: the answers of a page are a thousandth of that
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
HEADERS = {
    b"content-security-policy": POLICY.encode(),
    b"x-content-type-options": b"nosniff",
    b"referrer-policy": b"no-referrer",
    b"cache-control": b"no-store",
    b"cross-origin-opener-policy": b"same-origin",
    b"cross-origin-resource-policy": b"same-origin",
}


class Gate:
    """Lets through to `app` what comes from the page itself, under the secret `token`; `hosts` are its own names."""

    def __init__(self, app: App, token: str, hosts: frozenset[str]) -> None:
        self.app = app
        self.token = token
        self.hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or refuse it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        refused = self._refused(scope)
        if refused:
            await _plain(send, *refused)
            return
        inner = {**scope, "path": scope["path"][len(self.token) + 1 :], "root_path": ""}
        await self.app(inner, _bounded(receive), _with_headers(send))

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        headers = {name.lower(): value for name, value in scope["headers"]}
        host = headers.get(b"host", b"").decode("latin-1")
        if host not in self.hosts:
            return 421, "This board answers on this computer only."
        first = scope["path"].removeprefix("/").partition("/")[0]
        if not hmac.compare_digest(first.encode(), self.token.encode()):
            return 404, "There is no page of that address."
        if scope["method"] == "GET":
            return None
        if scope["method"] != "POST":
            return 405, "Only GET and POST are answered."
        return self._refused_post(headers)

    def _refused_post(self, headers: dict[bytes, bytes]) -> tuple[int, str] | None:
        origin = headers.get(b"origin", b"").decode("latin-1")
        if (
            origin.removeprefix("http://") not in self.hosts
            or headers.get(b"sec-fetch-site", b"same-origin") != b"same-origin"
        ):
            return 403, "Only the board's own page may change anything."
        if headers.get(b"content-type", b"").partition(b";")[0].strip() != b"application/json":
            return 415, "Changes come as JSON."
        length = headers.get(b"content-length", b"0")
        if not length.isdigit() or int(length) > MOST_BYTES:
            return 413, "That is too much at once."
        return None


def _bounded(receive: Receive) -> Receive:
    read = 0

    async def bounded() -> Message:
        nonlocal read
        message = await receive()
        read += len(message.get("body", b""))
        return message if read <= MOST_BYTES else {"type": "http.disconnect"}

    return bounded


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            own = [*message.get("headers", ())]
            named = {name for name, _ in own}
            message = {**message, "headers": [*own, *(one for one in HEADERS.items() if one[0] not in named)]}
        await send(message)

    return sending


async def _plain(send: Send, status: int, text: str) -> None:
    headers = [(b"content-type", b"text/plain; charset=utf-8"), *HEADERS.items()]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": text.encode()})
