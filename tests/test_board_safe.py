"""The board against whoever else is on the computer, in the browser, or on the disk."""

from __future__ import annotations

import http.client
import json
import socket
from typing import Any

import pytest
from board_pictures import pdf, scan
from test_board import SKETCH, ask, served, shared

from precheck.board.server import Served
from precheck.board.upload import MOST_UPLOAD

__all__ = ["served", "shared"]
SEND = "/underlay/send?story=ground"


def own(served: Served, kind: str = "application/json") -> dict[str, str]:
    return {"Origin": f"http://127.0.0.1:{served.port}", "Content_Type": kind}


def send(served: Served, data: bytes, **headers: str) -> tuple[int, dict[str, Any]]:
    given = {**own(served, "application/octet-stream"), **headers}
    status, told, _ = ask(served, f"/{served.token}{SEND}", "POST", data, **given)
    return status, json.loads(told) if told.startswith(b"{") else {}


def lay(served: Served, **asked: Any) -> tuple[int, dict[str, Any]]:
    body = json.dumps({"story": "ground", **asked}).encode()
    status, told, _ = ask(served, f"/{served.token}/underlay", "POST", body, **own(served))
    return status, json.loads(told)


# ---- Pictures that are sent -----------------------------------------------------------------------------------------


def test_a_picture_is_sent_shown_and_kept_under_a_name_of_ours(served: Served) -> None:
    status, told = send(served, pdf(2))
    laid = told["underlay"]["stories"]["ground"]
    assert (status, laid["to_scale"], laid["size"]) == (200, False, [1700, 2200])
    address = f"/{served.token}/picture-{laid['source']}-1"
    status, body, headers = ask(served, address)
    assert (status, headers["content-type"], body[:4]) == (200, "image/png", b"\x89PNG")
    assert headers["x-content-type-options"] == "nosniff"
    for wrong in (f"{address}0", address.replace("picture-", "picture-9"), f"/{served.token}/picture-..-1"):
        assert ask(served, wrong)[0] == 404
    status, told = lay(served, do="use", source=laid["source"], page=2)
    assert (status, told["underlay"]["stories"]["ground"]["page"]) == (200, 2)
    assert "has 2 pages" in lay(served, do="use", source=laid["source"], page=3)[1]["refused"]
    assert "send it again" in lay(served, do="use", source=1, page=1)[1]["refused"]
    assert served.board.file.path.read_text(encoding="utf-8") == SKETCH


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({"Origin": ""}, 403),
        ({"Origin": "http://evil.example"}, 403),
        ({"Sec_Fetch_Site": "cross-site"}, 403),
        ({"Content_Type": "multipart/form-data"}, 415),
        ({"Content_Type": "application/json"}, 415),
        ({"Content_Length": str(MOST_UPLOAD + 1)}, 413),
        ({"Content_Length": "-1"}, 400),
    ],
)
def test_a_picture_from_elsewhere_or_too_large_is_refused_before_it_is_read(
    served: Served, headers: dict[str, str], status: int
) -> None:
    assert send(served, scan(3, 3), **headers)[0] == status
    assert not served.board.underlays.folder.exists()


def test_a_picture_that_does_not_say_how_large_it_is_is_cut_off_at_the_maximum(served: Served) -> None:
    """Sent in chunks, as a body without a length is."""
    connection = http.client.HTTPConnection("127.0.0.1", served.port, timeout=30)
    connection.putrequest("POST", f"/{served.token}{SEND}", skip_host=True)
    for key, value in {
        "Host": f"127.0.0.1:{served.port}",
        "Transfer-Encoding": "chunked",
        **own(served, "application/octet-stream"),
    }.items():
        connection.putheader(key.replace("_", "-"), value)
    connection.endheaders()
    chunk = b"%x\r\n" % 1_000_000 + bytes(1_000_000) + b"\r\n"
    sent = 0
    try:
        for _ in range(MOST_UPLOAD // 1_000_000 + 20):
            connection.send(chunk)
            sent += 1
        status = connection.getresponse().status
    except (BrokenPipeError, ConnectionResetError):  # it is cut off while it is sent
        status = 413
    finally:
        connection.close()
    assert status == 413
    assert sent >= MOST_UPLOAD // 1_000_000
    assert not served.board.underlays.folder.exists()
    assert ask(served, f"/{served.token}/state")[0] == 200


@pytest.mark.parametrize(
    "asked",
    [
        {"do": "scale", "points": [[0, 0], [1e9, 0]], "distance": "1 ft"},
        {"do": "scale", "points": [[0, 0]], "distance": "1 ft"},
        {"do": "move", "by": ["a", 0]},
        {"do": "see", "seen": 0, "hidden": False},
        {"do": "use", "source": "../../etc/passwd", "page": 1},
        {"do": "use", "source": 1, "page": 1, "path": "/etc/passwd"},
        {"do": "set", "part": "W1"},
    ],
)
def test_what_the_page_cannot_ask_of_a_picture_is_refused(served: Served, asked: dict[str, Any]) -> None:
    assert send(served, scan())[0] == 200
    before = served.board.underlays.list.read_bytes()
    status, told = lay(served, **asked)
    assert (status, "refused" in told) == (400, True)
    assert served.board.underlays.list.read_bytes() == before


def test_a_picture_laid_by_another_page_is_told_at_the_next_look_and_the_plan_is_not_sent_again(served: Served) -> None:
    state = json.loads(ask(served, f"/{served.token}/state")[1])
    known = f"/{served.token}/state?revision={state['revision']}&underlay={state['underlay']['revision']}"
    assert json.loads(ask(served, known)[1]) == {"revision": state["revision"]}
    send(served, scan())
    told = json.loads(ask(served, known)[1])
    assert set(told) == {"revision", "underlay"}
    assert "ground" in told["underlay"]["stories"]


def test_nobody_on_the_network_reaches_the_board(served: Served) -> None:
    assert served.socket.getsockname()[0] == "127.0.0.1"
    elsewhere = ("127.0.0.2", served.port)  # an address of this computer that is not the board's
    with pytest.raises(OSError, match="refused"):
        socket.create_connection(elsewhere, timeout=5)
