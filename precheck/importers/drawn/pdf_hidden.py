"""The layers of a PDF that are switched off as it opens, whose things nobody sees: read from the file's own objects.

PDFium tells the layer of a thing but not whether it is shown, so the list is looked up in the file. A file whose objects are
locked gives none.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from precheck.importers.draft import plain

MOST = 64 * 1024 * 1024  # bytes of a file that is looked through, and of what one of its streams unpacks to
_OBJECT = re.compile(rb"(\d+)\s+\d+\s+obj\b(.*?)\bendobj", re.DOTALL)
_STREAM = re.compile(rb"stream\r?\n(.*?)\r?\n?endstream", re.DOTALL)
_OFF = re.compile(rb"/OFF\s*(?:\[([^\]]*)\]|(\d+)\s+\d+\s+R)")
_SHOWN = re.compile(rb"/ON\s*(?:\[([^\]]*)\]|(\d+)\s+\d+\s+R)")
_ALL = re.compile(rb"/OCGs\s*(?:\[([^\]]*)\]|(\d+)\s+\d+\s+R)")
_REFERENCE = re.compile(rb"(\d+)\s+\d+\s+R")
_NAME = re.compile(rb"/Name\s*(?:\(((?:[^()\\]|\\.)*)\)|<([0-9A-Fa-f\s]*)>)", re.DOTALL)
_ESCAPED = re.compile(rb"\\([0-7]{1,3}|.)", re.DOTALL)
_SIGNS = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}


def hidden_layers(path: Path) -> frozenset[str]:
    """Return the names, in upper case, of the layers of a file that are off, and of which none is called the same that is on."""
    if path.stat().st_size > MOST:
        return frozenset()
    data = path.read_bytes()
    if b"OCG" not in data and b"ObjStm" not in data:
        return frozenset()
    return _Layers(data).hidden()


class _Layers:
    def __init__(self, data: bytes) -> None:
        self._objects: dict[int, bytes] = {}
        for match in _OBJECT.finditer(data):
            body = match[2]
            self._objects[int(match[1])] = body
            if b"/ObjStm" in body:
                self._objects.update(_within(body))

    def hidden(self) -> frozenset[str]:
        groups = [number for number, body in self._objects.items() if re.search(rb"/Type\s*/OCG\b", body)]
        off = self._off(groups)
        names = {number: self._name(number) for number in groups}
        shown = {name for number, name in names.items() if number not in off}
        return frozenset({name for number, name in names.items() if number in off and name} - shown)

    def _off(self, groups: list[int]) -> set[int]:
        for body in reversed(self._objects.values()):
            if b"/OCProperties" not in body:
                continue
            told = self._told(body.partition(b"/OCProperties")[2], 2)
            if re.search(rb"/BaseState\s*/OFF", told):
                return set(groups) - set(self._listed(_SHOWN, told))
            return set(self._listed(_OFF, told))
        return set()

    def _told(self, text: bytes, deep: int) -> bytes:
        """Return a text with the objects after it that hold the settings of layers."""
        first = re.match(rb"\s*(\d+)\s+\d+\s+R", text) or re.search(rb"/D\s*(\d+)\s+\d+\s+R", text)
        if first is None or not deep:
            return text
        return text + self._told(self._objects.get(int(first[1]), b""), deep - 1)

    def _listed(self, of: re.Pattern[bytes], told: bytes) -> Iterator[int]:
        match = of.search(told)
        if match is not None:
            listed = match[1] if match[2] is None else self._objects.get(int(match[2]), b"")
            yield from (int(number) for number in _REFERENCE.findall(listed))

    def _name(self, number: int) -> str:
        match = _NAME.search(self._objects[number])
        if match is None:
            return ""
        said = _unescaped(match[1]) if match[2] is None else _from_hex(match[2])
        marked = said.startswith(b"\xfe\xff")
        return plain(said[2:].decode("utf-16-be", "replace") if marked else said.decode("latin-1")).upper()


def _within(body: bytes) -> dict[int, bytes]:
    """Return the objects that are packed in another one."""
    stream, count, first = _STREAM.search(body), re.search(rb"/N\s+(\d+)", body), re.search(rb"/First\s+(\d+)", body)
    found: dict[int, bytes] = {}
    with suppress(zlib.error, ValueError, TypeError):
        if stream and count and first:
            data = zlib.decompressobj().decompress(stream[1], MOST)
            numbers = [int(n) for n in data[: int(first[1])].split()[: 2 * int(count[1])]]
            starts = [int(first[1]) + start for start in numbers[1::2]]
            for number, start, end in zip(numbers[::2], starts, [*starts[1:], len(data)], strict=True):
                found[number] = data[start:end]
    return found


def _unescaped(said: bytes) -> bytes:
    def sign(match: re.Match[bytes]) -> bytes:
        code = match[1]
        return bytes([int(code, 8) % 256]) if code.isdigit() else _SIGNS.get(code, code)

    return _ESCAPED.sub(sign, said)


def _from_hex(said: bytes) -> bytes:
    digits = b"".join(said.split())
    return bytes.fromhex((digits + b"0" * (len(digits) % 2)).decode("ascii"))


__all__ = ["hidden_layers"]
