"""The board read on a phone in the same network: only when asked for, only by who has its address, and only to read."""

from __future__ import annotations

import http.client
import json
import re
import socket
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner
from test_board import SKETCH, running, shared

from precheck.board.board import HouseBoard
from precheck.board.page_files import page_files
from precheck.board.server import Served
from precheck.board.share import BEING_CHANGED, EXPOSED, address_here, secret_to_type, shared_state, usable
from precheck.cli import cli
from precheck.reports import words

__all__ = ["shared"]
HERE = "127.0.0.1"  # stands for the address in the network: tests run where there may be none


@pytest.fixture
def sharing(tmp_path: Path, shared: HouseBoard) -> Iterator[Served]:
    path = tmp_path / "house.yaml"
    path.write_text(SKETCH, encoding="utf-8")
    found = Served(HouseBoard(path, shared.desk), share=HERE)
    with running(found):
        yield found


def read(
    served: Served, path: str, method: str = "GET", body: bytes | None = None, **headers: str
) -> tuple[int, bytes, dict[str, str]]:
    assert served.shared is not None
    host = served.shared.host
    given = {"Host": host, **{key.replace("_", "-"): value for key, value in headers.items()}}
    with closing(http.client.HTTPConnection(HERE, int(host.partition(":")[2]), timeout=30)) as connection:
        connection.request(method, path.replace("{token}", served.shared.token), body, given)
        answer = connection.getresponse()
        return answer.status, answer.read(), {key.lower(): value for key, value in answer.getheaders()}


def test_the_plan_what_is_to_do_and_the_field_verify_list_are_there_to_read(sharing: Served) -> None:
    status, body, headers = read(sharing, "/{token}/")
    assert (status, b"Nothing can be changed here" in body) == (200, True)
    assert "default-src 'none'" in headers["content-security-policy"]
    assert (headers["cache-control"], headers["referrer-policy"]) == ("no-store", "no-referrer")
    state = json.loads(read(sharing, "/{token}/state")[1])
    assert (state["name"], len(state["plan"]["rooms"]), len(state["items"]) > 10) == ("Mill Lane", 2, True)
    assert json.loads(read(sharing, f"/{{token}}/state?revision={state['revision']}")[1]) == {
        "revision": state["revision"]
    }
    assert b"Field verify" in read(sharing, "/{token}/paper-field")[1]


def test_an_address_typed_without_its_last_sign_leads_to_the_page(sharing: Served) -> None:
    status, _, headers = read(sharing, "/{token}")
    assert sharing.shared is not None
    assert (status, headers["location"]) == (308, f"/{sharing.shared.token}/")


def test_nothing_of_the_file_its_folder_the_letter_or_the_pictures_is_told(sharing: Served, tmp_path: Path) -> None:
    sharing.board.letter.take("1. Their own words")
    told = b"".join(read(sharing, f"/{{token}}/{name}")[1] for name in ("", "state", "paper-field"))
    assert str(tmp_path).encode() not in told
    assert sharing.token.encode() not in told  # the address at which the file can be changed
    for inside in (b"my own remark", b"was the garage", b"Their own words", b"underlay", b"undo"):
        assert inside not in told
    sharing.board.file.path.write_text(SKETCH + "doors: [\n", encoding="utf-8")
    broken = read(sharing, "/{token}/state")[1]
    assert json.loads(broken)["problem"] == BEING_CHANGED
    assert str(tmp_path).encode() not in broken


def test_what_the_board_learns_to_say_is_not_told_elsewhere_unless_it_is_named() -> None:
    window = {"label": "window W1", "kind": "window", "counts": {}}
    state = {
        "revision": 1,
        "there": True,
        "new": "secret",
        "share": {"address": "x"},
        "problems": [],
        "items": [{"key": "k", "line": 3, "apply": "x"}],
        "parts": {"W1": {**window, "line": 3}},
    }
    told = {"revision": 1, "there": True, "items": [{"key": "k"}], "parts": {"W1": window}}
    assert shared_state(state) == told


NOTHING = (
    "/", "/wrong/", "/{token}x/", "/{token}/../state", "/{token}/%2e%2e/state", "/%ff%fe/", "/{token}/form?part=W1",
    "/{token}/asks?item=x", "/{token}/letter", "/{token}/paper-report", "/{token}/paper-letter", "/{token}/picture-1-1",
    "/{token}/share.svg", "/{token}/index.html", "/{token}/main.js", "/{token}/tracing.js", "/{token}/do", "/{token}/bye",
    "/{token}/net.js",
)  # fmt: skip


def test_there_is_nothing_else_to_read(sharing: Served) -> None:
    found = {path: read(sharing, path)[:2] for path in NOTHING}
    assert {path: status for path, (status, _) in found.items() if status != 404} == {}
    assert not any(b"Mill Lane" in body for _, body in found.values())


def test_the_secret_of_the_board_opens_nothing_there_nor_the_one_for_reading_here(sharing: Served) -> None:
    assert sharing.shared is not None
    assert read(sharing, f"/{sharing.token}/state")[0] == 404
    with closing(http.client.HTTPConnection(HERE, sharing.port, timeout=30)) as connection:
        connection.request("GET", f"/{sharing.shared.token}/state")
        assert connection.getresponse().status == 404


def test_whatever_would_change_something_is_refused(sharing: Served) -> None:
    assert sharing.shared is not None
    asked = json.dumps({"do": "set", "part": "W1", "key": "sill height", "value": "40 in"}).encode()
    own = {
        "Origin": f"http://{sharing.shared.host}",
        "Content_Type": "application/json",
        "Sec_Fetch_Site": "same-origin",
    }
    tried = {
        (method, path): read(sharing, f"/{{token}}/{path}", method, asked, **own)[0]
        for method in ("POST", "PUT", "PATCH", "DELETE", "OPTIONS", "HEAD", "TRACE")
        for path in ("do", "underlay", "underlay/send", "state", "bye", "")
    }
    assert set(tried.values()) == {405}, tried
    assert sharing.board.file.path.read_text(encoding="utf-8") == SKETCH


def test_another_name_for_this_computer_is_refused(sharing: Served) -> None:
    assert sharing.shared is not None
    port = sharing.shared.host.partition(":")[2]
    for host in (
        "evil.example",
        f"localhost:{port}",
        "127.0.0.1",
        "127.0.0.1:1",
        f"0.0.0.0:{port}",
        f"127.0.0.1.:{port}",
        "",
    ):
        status, body, _ = read(sharing, "/{token}/state", Host=host)
        assert (host, status, b"Mill Lane" in body) == (host, 421, False)


def test_it_listens_at_that_address_alone_and_ends_with_the_board(sharing: Served) -> None:
    assert sharing.shared is not None
    assert read(sharing, "/{token}/")[0] == 200
    assert sharing.shared.serving.socket.getsockname()[0] == HERE
    sharing.stop()
    with pytest.raises(ConnectionRefusedError):
        read(sharing, "/{token}/state")


def test_nothing_is_shared_unasked(tmp_path: Path, shared: HouseBoard) -> None:
    path = tmp_path / "house.yaml"
    path.write_text(SKETCH, encoding="utf-8")
    found = Served(HouseBoard(path, shared.desk))
    assert found.shared is None
    assert found.board.state()["share"] == {}
    found.stop()


def test_the_page_here_tells_the_address_and_who_sees_what_and_the_camera_reads_it(sharing: Served) -> None:
    assert sharing.shared is not None
    told = sharing.board.state()["share"]
    assert told == {"address": sharing.shared.address, "code": True, "exposed": EXPOSED}
    assert (sharing.shared.code or b"").startswith(b"<?xml")


def test_the_secret_is_long_enough_and_can_be_typed() -> None:
    found = {secret_to_type() for _ in range(200)}
    assert len(found) == 200
    assert all(re.fullmatch("([a-hj-km-np-z2-9]{5}-){3}[a-hj-km-np-z2-9]{5}", one) for one in found)


class _Probe(socket.socket):
    """A socket that finds itself at an address of the test's, or nowhere."""

    here = ""

    def connect(self, _: object) -> None:
        if not self.here:
            raise OSError(101, "Network is unreachable")

    def getsockname(self) -> tuple[str, int]:
        return self.here, 1


def test_the_address_in_the_network_is_found_or_why_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("precheck.board.share.socket.socket", _Probe)
    for here, told in (("", "in no network"), ("127.0.0.1", "in no network"), ("203.0.114.9", "open to more than")):
        monkeypatch.setattr(_Probe, "here", here)
        with pytest.raises(ValueError, match=told):
            address_here()
    monkeypatch.setattr(_Probe, "here", "192.168.7.20")
    assert address_here() == "192.168.7.20"


@pytest.mark.parametrize("address", ["192.168.1.20", "10.0.0.7", "172.16.4.4"])
def test_an_address_of_a_network_of_ones_own_is_taken(address: str) -> None:
    assert usable(address) == address


@pytest.mark.parametrize(
    ("address", "says"),
    [
        ("8.8.8.8", "open to more than the network here"),
        ("100.64.0.1", "open to more than the network here"),
        ("169.254.1.1", "open to more than the network here"),
        ("127.0.0.1", "in no network"),
        ("0.0.0.0", "no address at which a phone finds"),
        ("::", "no address at which a phone finds"),
        ("224.0.0.1", "no address at which a phone finds"),
        ("my-computer", "no network address"),
        ("", "no network address"),
    ],
)
def test_an_address_that_is_everywhere_nowhere_or_open_to_all_is_refused(address: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        usable(address)


def test_a_board_that_cannot_be_shared_says_why_and_does_not_begin(tmp_path: Path) -> None:
    found = CliRunner().invoke(cli, ["board", str(tmp_path / "h.yaml"), "--no-browser", "--share-on", "8.8.8.8"])
    assert (found.exit_code, "cannot be shared" in found.output) == (1, True)
    found = CliRunner().invoke(cli, ["board", str(tmp_path / "h.yaml"), "--no-browser", "--share-on", "10.255.255.254"])
    assert (found.exit_code, "is no address of this computer" in found.output) == (1, True)


def test_the_page_for_reading_loads_nothing_that_asks_for_a_change() -> None:
    text = page_files()["shared.js"][1].decode()
    assert not re.search(r"POST|method:|main\.js|net\.js", text)


def test_without_the_package_that_draws_codes_the_address_is_told_in_letters_alone(
    shared: HouseBoard, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "segno", None)
    found = Served(HouseBoard(tmp_path / "none.yaml", shared.desk), share=HERE)
    assert (found.shared is not None and found.shared.code, found.board.share["code"]) == (None, False)
    assert shared_state(found.board.state()) == {"revision": 0, "there": False, "reminder": words.REMINDER}
    found.stop()
