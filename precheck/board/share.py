"""The plan and what is to do, to read on a phone in the same network: only when asked for, and nothing can be changed by it.

It has an address, a secret and a list of answers of its own. What it shows is picked out by name, so that nothing more of the
house leaves this computer when the board learns more: not the file, nor its path, the town's letter, or a picture behind the
sketch.
"""

from __future__ import annotations

import re
import secrets
import socket
from io import BytesIO
from ipaddress import IPv4Address, ip_address
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from precheck.board.answering import BoardEnded, answer, ended, in_turn
from precheck.board.board import HouseBoard
from precheck.board.gate import ReadingGate
from precheck.board.page_files import page_files, page_routes
from precheck.board.serving import Serving, listening
from precheck.board.worker import Worker

SHOWN = ("revision", "there", "name", "code", "caveat", "verdict", "ready", "reminder", "plan", "works", "groups")
OF_ITEM = ("key", "group", "label", "parts", "said", "wants", "fix", "source")
OF_PART = ("label", "kind", "counts")
BEING_CHANGED = "The file is being worked on and cannot be read as it is; this shows how it was."
EXPOSED = (
    "Whoever has this address, in the same network, can read the plan, what is to do and the field-verify list, until the "
    "board ends. It is not encrypted. Nobody can change anything by it, or see the file, the town's letter or a picture behind "
    "the sketch."
)
FIRST, STYLES = "shared.html", ("board.css", "paper.css", "icon.svg")
FIELD = "field"
_LETTERS = "abcdefghjkmnpqrstuvwxyz23456789"  # none that is taken for another when it is typed from a screen
_GROUPS, _GROUP = 4, 5  # 99 bits
_IMPORTED = re.compile(r'from "\./([a-z]+\.js)"')
_NOWHERE = ("198.51.100.1", 9)  # an address of no computer: nothing is sent to find out by which way it would be


def address_here() -> str:
    """Return the address that this computer has in its network. Raises ValueError where it is in none, or in an open one."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_NOWHERE)
            found = probe.getsockname()[0]
        except OSError:
            raise ValueError("this computer is in no network; join the one that the phone is in") from None
    return usable(found)


def usable(address: str) -> str:
    """Return `address` if the board may be read at it: one of a private network. Raises ValueError with what is wrong."""
    try:
        found = ip_address(address)
    except ValueError:
        raise ValueError(f"`{address}` is no network address, such as 192.168.1.20") from None
    if not isinstance(found, IPv4Address) or found.is_unspecified or found.is_multicast:
        raise ValueError(f"{address} is no address at which a phone finds this computer; give one such as 192.168.1.20")
    if found.is_loopback:
        raise ValueError("this computer is in no network; join the one that the phone is in")
    if not found.is_private or found.is_link_local:
        raise ValueError(f"{address} is open to more than the network here, so the board is not shared at it")
    return address


def secret_to_type() -> str:
    """Return a new secret that can be typed on a phone."""
    return "-".join("".join(secrets.choice(_LETTERS) for _ in range(_GROUP)) for _ in range(_GROUPS))


def shared_state(state: dict[str, Any]) -> dict[str, Any]:
    """Return what of the board's state is for reading elsewhere."""
    found = {key: state[key] for key in SHOWN if key in state}
    if "items" in state:
        found["items"] = [{key: item[key] for key in OF_ITEM if key in item} for item in state["items"]]
        found["parts"] = {name: {key: part[key] for key in OF_PART} for name, part in state["parts"].items()}
    if state.get("problems"):
        found["problem"] = BEING_CHANGED
    return found


class Shared:
    """A board that can be read at one address of this computer's network, with a secret of its own."""

    def __init__(self, board: HouseBoard, worker: Worker, address: str, port: int = 0) -> None:
        at = listening(port, address)
        self.host = f"{address}:{at.getsockname()[1]}"
        self.token = secret_to_type()
        self.serving = Serving(ReadingGate(reading_app(board, worker), self.token, frozenset((self.host,))), at)

    @property
    def address(self) -> str:
        """The address to open on the phone; whoever knows it may read the board."""
        return f"http://{self.host}/{self.token}/"

    @property
    def code(self) -> bytes | None:
        """The address as a code that a phone's camera reads, as SVG; None where the package that draws it is absent."""
        try:
            import segno
        except ImportError:
            return None
        out = BytesIO()
        segno.make_qr(self.address).save(out, kind="svg", scale=5, border=4, light="white", dark="black")
        return out.getvalue()


def reading_app(board: HouseBoard, worker: Worker) -> Starlette:
    """Return the application that answers who reads `board` elsewhere."""

    async def state(request: Request) -> Response:
        known = request.query_params.get("revision", "")
        revision = int(known) if known.isascii() and known.isdigit() and len(known) < 12 else None
        return await answer(worker, lambda: shared_state(board.state(revision)))

    async def field(_: Request) -> Response:
        text = await in_turn(worker, lambda: board.handout(FIELD))
        if text is None:
            return Response("There is no such paper.", 404, media_type="text/plain")
        return Response(text, media_type="text/html; charset=utf-8")

    return Starlette(
        routes=[Route("/state", state), Route("/paper-field", field), *page_routes(_files(), FIRST)],
        exception_handlers={BoardEnded: ended},
    )


def _files() -> set[str]:
    """Return the names of the files that the page for reading is made of: what it loads, and what that loads."""
    there = page_files()
    found, left = {FIRST, *STYLES}, ["shared.js"]
    while left:
        name = left.pop()
        if name not in found and name in there:
            found.add(name)
            left += _IMPORTED.findall(there[name][1].decode())
    return found
