"""The board against whoever else is on the computer, in the browser, or on the disk."""

from __future__ import annotations

import http.client
import json
import logging
import re
import socket
import threading
import time
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from board_pictures import pdf, scan
from test_board import SKETCH, ask, file, served, shared

from precheck.board.asked import REQUEST
from precheck.board.board import HouseBoard
from precheck.board.gate import POLICY
from precheck.board.handouts import OWN_STYLE
from precheck.board.page_files import page_files
from precheck.board.presence import QUIET, Presence
from precheck.board.server import Served
from precheck.board.upload import MOST_UPLOAD

__all__ = ["file", "served", "shared"]
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


def test_a_picture_from_elsewhere_or_too_large_is_refused_before_it_is_read(served: Served) -> None:
    for headers, status in (
        ({"Origin": ""}, 403),
        ({"Origin": "http://evil.example"}, 403),
        ({"Sec_Fetch_Site": "cross-site"}, 403),
        ({"Content_Type": "multipart/form-data"}, 415),
        ({"Content_Type": "application/json"}, 415),
        ({"Content_Length": str(MOST_UPLOAD + 1)}, 413),
    ):
        assert (headers, send(served, scan(3, 3), **headers)[0]) == (headers, status)
    assert not served.board.underlays.folder.exists()


def test_a_picture_that_does_not_say_how_large_it_is_is_cut_off_at_the_maximum(served: Served) -> None:
    """Sent in chunks, as a body without a length is."""
    given = {
        "Host": f"127.0.0.1:{served.port}",
        "Transfer-Encoding": "chunked",
        **own(served, "application/octet-stream"),
    }
    chunk = b"%x\r\n" % 1_000_000 + bytes(1_000_000) + b"\r\n"
    sent = 0
    with closing(http.client.HTTPConnection("127.0.0.1", served.port, timeout=30)) as connection:
        connection.putrequest("POST", f"/{served.token}{SEND}", skip_host=True)
        for key, value in given.items():
            connection.putheader(key.replace("_", "-"), value)
        connection.endheaders()
        try:
            for _ in range(MOST_UPLOAD // 1_000_000 + 20):
                connection.send(chunk)
                sent += 1
            status = connection.getresponse().status
        except (BrokenPipeError, ConnectionResetError):  # it is cut off while it is sent
            status = 413
    assert status == 413
    assert sent >= MOST_UPLOAD // 1_000_000
    assert not served.board.underlays.folder.exists()
    assert ask(served, f"/{served.token}/state")[0] == 200


def test_what_the_page_cannot_ask_of_a_picture_is_refused(served: Served) -> None:
    assert send(served, scan())[0] == 200
    before = served.board.underlays.list.read_bytes()
    asked: list[dict[str, Any]] = [
        {"do": "scale", "points": [[0, 0], [1e9, 0]], "distance": "1 ft"},
        {"do": "scale", "points": [[0, 0]], "distance": "1 ft"},
        {"do": "move", "by": ["a", 0]},
        {"do": "see", "seen": 0, "hidden": False},
        {"do": "use", "source": "../../etc/passwd", "page": 1},
        {"do": "use", "source": 1, "page": 1, "path": "/etc/passwd"},
        {"do": "set", "part": "W1"},
    ]
    for one in asked:
        status, told = lay(served, **one)
        assert (one, status, "refused" in told) == (one, 400, True)
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


# ---- Who is let in, and what every answer says ----------------------------------------------------------------------


def test_the_names_of_this_computer_are_taken_as_they_are_and_no_others(served: Served) -> None:
    page, port = f"/{served.token}/state", served.port
    for host in (f"127.0.0.1:{port}", f"localhost:{port}"):
        assert ask(served, page, Host=host)[0] == 200
    for host in (
        "localhost", f"LOCALHOST:{port}", f"127.0.0.1.:{port}", f"[::1]:{port}", f"a@127.0.0.1:{port}", f"0x7f000001:{port}",
        f"127.0.0.1:{port}.evil.example", f"evil.example:{port}", "",
    ):  # fmt: skip
        status, body, _ = ask(served, page, Host=host)
        assert (host, status, b"Mill Lane" in body) == (host, 421, False)


def test_a_request_without_a_host_or_with_two_is_refused(served: Served) -> None:
    for hosts in ("", f"Host: 127.0.0.1:{served.port}\r\nHost: evil.example\r\n"):
        with socket.create_connection(("127.0.0.1", served.port), timeout=10) as raw:
            raw.sendall(f"GET /{served.token}/state HTTP/1.1\r\n{hosts}Connection: close\r\n\r\n".encode())
            answer = raw.makefile("rb").read()
        assert answer.split()[1] in {b"400", b"421"}
        assert b"Mill Lane" not in answer


def test_a_secret_that_is_no_plain_text_is_none(served: Served) -> None:
    for path in (
        "/%ff%fe/",
        "/%C3%A9/",
        f"/{served.token}%00/",
        f"/{served.token[:-1]}/",
        f"//{served.token}/state",
        "/%2e/",
    ):
        assert ask(served, path)[0] == 404


def test_every_answer_carries_its_policy_and_none_a_cookie_or_leave_for_other_pages(served: Served) -> None:
    under = [f"/{served.token}/{name}" for name in ("", "state", "form?part=W1", "asks?item=x", "letter", "paper-report", "paper-owner",
             "picture-1-1", "share.svg", "no-such", *page_files())]  # fmt: skip
    for path in ("/", "/wrong/", f"/{served.token}", *under):
        _, _, headers = ask(served, path)
        own_style = path.endswith("paper-report")
        assert headers["content-security-policy"] == (OWN_STYLE if own_style else POLICY), path
        assert (headers["x-content-type-options"], headers["cache-control"]) == ("nosniff", "no-store")
        assert (headers["referrer-policy"], headers["cross-origin-opener-policy"]) == ("no-referrer", "same-origin")
        assert headers["cross-origin-resource-policy"] == "same-origin"
        assert not {"set-cookie", "access-control-allow-origin", "server"} & set(headers)
    assert "unsafe" not in POLICY
    assert "script-src" not in OWN_STYLE  # and default-src is 'none'


def test_other_ways_to_ask_are_refused(served: Served) -> None:
    more = {"Access_Control_Request_Method": "POST", **own(served)}
    for method in ("OPTIONS", "PUT", "DELETE", "PATCH", "HEAD", "TRACE", "CONNECTED"):
        status, _, headers = ask(served, f"/{served.token}/do", method, **more)
        assert (method, status) == (method, 405)
        assert not any(name.startswith("access-control") for name in headers)


def test_the_secret_is_written_into_no_log(
    served: Served, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    caplog.set_level(logging.DEBUG)
    ask(served, f"/{served.token}/state")
    ask(served, f"/{served.token}/do", "POST", b"{", **own(served))
    ask(served, f"/{served.token}/state", Host="evil.example")
    told = caplog.text + "".join(capfd.readouterr())
    assert served.token not in told


def test_the_page_puts_text_in_as_text_alone() -> None:
    risky = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function|srcdoc|javascript:|setTimeout\([\"'`]"
    found = {
        name: re.findall(risky, content.decode()) for name, (_, content) in page_files().items() if name.endswith(".js")
    }
    assert len(found) > 10
    assert {name: used for name, used in found.items() if used} == {}
    pages = [content.decode() for name, (_, content) in page_files().items() if name.endswith(".html")]
    assert not any(re.search(r"\son\w+=|<script>|style=|https?://", page) for page in pages)


ODD = (
    "[new] room", "{x", "# no remark", "a: b", "- item", "'", '"', "two\nlines", "tab\there", "&anchor", "*alias", "!!python/none x",
    "%YAML 1.1", "null", "yes", "~", "12", "1e3", "2026-03-02", "|", ">", "@", "`", "?", "a #b", "a:", "...", "---", "\u2028", "é",
)  # fmt: skip


def test_whatever_is_typed_for_a_name_is_that_name_or_refused_in_words(shared: HouseBoard, file: Path) -> None:
    board = HouseBoard(file, shared.desk)
    taken = 0
    for text in ODD:
        before = file.read_bytes()
        found = board.do(REQUEST.validate_python({"do": "set", "part": "hall", "key": "name", "value": text}))
        assert found["problems"] == []
        if "refused" in found:
            assert found["refused"]
            assert file.read_bytes() == before
        else:
            assert board.review is not None
            space = board.review.project.by_id["hall"]
            assert getattr(space, "name", "").split() == text.split(), text
            taken += 1
    assert taken > 20


# ---- The end of the board -------------------------------------------------------------------------------------------


def test_a_board_whose_page_was_closed_ends_after_a_while_and_not_while_another_is_open() -> None:
    now = [0.0]
    presence = Presence(lambda: now[0])
    now[0] = 1e6
    assert not presence.is_over  # nobody has come yet: the browser may be slow
    presence.seen()
    presence.left()
    now[0] += QUIET - 1
    assert not presence.is_over
    presence.seen()  # it was read anew, or another one is open
    now[0] += 10 * QUIET
    assert not presence.is_over
    presence.left()
    now[0] += QUIET + 1
    assert presence.is_over


def test_what_the_page_waits_for_when_the_board_ends_is_answered_so_and_no_fault_is_told(
    served: Served, caplog: pytest.LogCaptureFixture
) -> None:
    busy, found = threading.Event(), []
    served.worker.submit(lambda: busy.wait(10))
    paths = [f"/{served.token}/{name}" for name in ("state", "form?part=W1", "paper-owner", "picture-1-1")]
    waiting = [threading.Thread(target=lambda path=path: found.append(ask(served, path)[0])) for path in paths]
    for one in waiting:
        one.start()
    until = time.monotonic() + 10
    while served.worker._queue.qsize() < len(paths) and time.monotonic() < until:
        time.sleep(0.01)
    served.worker.end()
    busy.set()
    for one in waiting:
        one.join(10)
    assert found == [503] * len(paths)
    assert "Traceback" not in caplog.text


def test_a_page_that_is_closed_tells_the_board_and_one_that_asks_is_there(served: Served) -> None:
    assert ask(served, f"/{served.token}/bye", "POST", b"{}", **own(served))[0] == 200
    served.presence._now = lambda: 1e12
    assert served.is_left
    served.presence.seen()
    assert not served.is_left
    assert ask(served, f"/{served.token}/bye", "POST", b"{}", Origin="http://evil.example")[0] == 403
