"""What stands between the page and the network: only this computer, only this page, only what is small enough.

A page of another site that the person has open must not reach the board: the name that the browser was asked for (`Host`), the
page that asks (`Origin`) and a secret in the address are checked on every request, before anything is read.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, Mapping, MutableMapping
from types import MappingProxyType
from typing import Any, NamedTuple

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Scope, Receive, Send], Awaitable[None]]


class BodyTaken(NamedTuple):
    """What is taken at an address: the media type, and how many bytes at the most."""

    media_type: bytes
    most_bytes: int


AS_JSON = BodyTaken(b"application/json", 1_000_000)  # what a page asks for is a thousandth of that
NONE_OTHER: Mapping[str, BodyTaken] = MappingProxyType({})
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
    """Lets through to `app` what comes from the page itself, under the secret `token`; `hosts` are its own names.

    What changes anything is JSON, save at the addresses that `bodies` names.
    """

    def __init__(
        self, app: App, token: str, hosts: frozenset[str], bodies: Mapping[str, BodyTaken] = NONE_OTHER
    ) -> None:
        self.app = app
        self.token = token
        self.hosts = hosts
        self.bodies = bodies

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
        if not self._inside(scope):  # typed without its last sign; what the page loads stands under it
            await _plain(send, 308, "", (b"location", f"/{self.token}/".encode()))
            return
        inner = {**scope, "path": self._inside(scope), "root_path": ""}
        await self.app(inner, _bounded(receive, self._body(scope).most_bytes), _with_headers(send))

    def _inside(self, scope: Scope) -> str:
        return str(scope["path"][len(self.token) + 1 :])

    def _body(self, scope: Scope) -> BodyTaken:
        return self.bodies.get(self._inside(scope), AS_JSON)

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
        return self._refused_post(headers, self._body(scope))

    def _refused_post(self, headers: dict[bytes, bytes], body: BodyTaken) -> tuple[int, str] | None:
        origin = headers.get(b"origin", b"").decode("latin-1")
        if (
            origin.removeprefix("http://") not in self.hosts
            or headers.get(b"sec-fetch-site", b"same-origin") != b"same-origin"
        ):
            return 403, "Only the board's own page may change anything."
        if headers.get(b"content-type", b"").partition(b";")[0].strip() != body.media_type:
            return 415, f"What is sent here comes as {body.media_type.decode()}."
        length = headers.get(b"content-length", b"0")
        if not length.isdigit() or int(length) > body.most_bytes:
            return 413, "That is too much at once."
        return None


class ReadingGate(Gate):
    """Lets through who reads, and nobody who would change anything, wherever it comes from."""

    def _refused_post(self, headers: dict[bytes, bytes], body: BodyTaken) -> tuple[int, str] | None:
        return 405, "This page is for reading."


def _bounded(receive: Receive, most: int) -> Receive:
    read = 0

    async def bounded() -> Message:
        nonlocal read
        message = await receive()
        read += len(message.get("body", b""))
        return message if read <= most else {"type": "http.disconnect"}

    return bounded


def _with_headers(send: Send) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            own = [*message.get("headers", ())]
            named = {name for name, _ in own}
            message = {**message, "headers": [*own, *(one for one in HEADERS.items() if one[0] not in named)]}
        await send(message)

    return sending


async def _plain(send: Send, status: int, text: str, *more: tuple[bytes, bytes]) -> None:
    headers = [(b"content-type", b"text/plain; charset=utf-8"), *HEADERS.items(), *more]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": text.encode()})
