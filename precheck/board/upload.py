"""What a person sends as a picture of the plan: which kind it is by its first bytes, and how large it is drawn.

Names and stated types are not looked at. A picture is kept as it came, and the browser alone draws it; its size is read from
its head, so that one which unfolds to more than a computer holds is refused before anything draws it.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

MOST_UPLOAD = 40_000_000  # bytes
MOST_PIXELS = 60_000_000  # of a picture: a browser takes four bytes for each
MOST_SIDE = 20_000
SEND = "send a PDF, or a photo or scan as JPEG, PNG or WebP"
NO_PICTURE = f"This is no picture that can be shown here; {SEND}."
OTHERS = {
    b"GIF8": f"A GIF is not taken; {SEND}.",
    b"II*\0": "A TIFF is not taken; save it as PDF or PNG and send that.",
    b"MM\0*": "A TIFF is not taken; save it as PDF or PNG and send that.",
    b"AC10": "A drawing file is not taken as a picture; print it to PDF and send that.",
    b"PK\x03\x04": f"This is a folder of files in one; {SEND}.",
}
HEIC = (
    "A HEIC photo cannot be shown by most browsers. Send it as JPEG: on the phone, set the camera's format to the most "
    "compatible one, or share or export the photo as JPEG."
)
SVG = "A drawing in SVG is not taken, since it can carry programs; save it as PDF or PNG and send that."
TYPES = {"pdf": "application/pdf", "jpg": "image/jpeg", "png": "image/png", "webp": "image/webp"}


class Picture(NamedTuple):
    """A picture that was sent: its kind as the end of a file name, and its size in pixels as it is looked at."""

    kind: str
    size: tuple[int, int]


def kind_of(data: bytes) -> str:
    """Return `pdf`, `jpg`, `png` or `webp` by the first bytes of `data`. Raises ValueError with what to send instead."""
    if data.startswith(b"%PDF-"):
        return "pdf"
    if data.startswith(b"\xff\xd8\xff"):
        return "jpg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    raise ValueError(_instead(data))


def _instead(data: bytes) -> str:
    if data[4:8] == b"ftyp":
        return HEIC
    if b"<svg" in data[:4096].lower():
        return SVG
    return next((told for head, told in OTHERS.items() if data.startswith(head)), NO_PICTURE)


def picture_of(data: bytes) -> Picture:
    """Return what a photo or scan is. Raises ValueError where it cannot be drawn, or is more than can be."""
    kind = kind_of(data)
    size = {"png": _png, "jpg": _jpeg, "webp": _webp}[kind](data)
    if size is None or min(size) < 1:
        raise ValueError("The picture is not whole: it does not say how large it is. Send it again.")
    if max(size) > MOST_SIDE or size[0] * size[1] > MOST_PIXELS:
        raise ValueError(
            f"The picture has {size[0]:,} x {size[1]:,} pixels; {MOST_PIXELS // 1_000_000} million are the maximum. "
            "Make it smaller and send it again."
        )
    return Picture(kind, size)


def _number(data: bytes, at: int, length: int, order: str = "big") -> int:
    return int.from_bytes(data[at : at + length], "little" if order == "little" else "big")


def _png(data: bytes) -> tuple[int, int] | None:
    return (_number(data, 16, 4), _number(data, 20, 4)) if data[12:16] == b"IHDR" and len(data) > 32 else None


def _webp(data: bytes) -> tuple[int, int] | None:
    kind = data[12:16]
    if kind == b"VP8X" and len(data) >= 30:
        return _number(data, 24, 3, "little") + 1, _number(data, 27, 3, "little") + 1
    if kind == b"VP8L" and len(data) >= 25:
        bits = _number(data, 21, 4, "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 " and len(data) >= 30:
        return _number(data, 26, 2, "little") & 0x3FFF, _number(data, 28, 2, "little") & 0x3FFF
    return None


_TABLES = (0xC4, 0xC8, 0xCC)  # begin like the head of a picture, and are none
_EXIF = b"Exif\0\0"
_ORIENTATION = 0x0112
_ON_ITS_SIDE = (5, 6, 7, 8)


def _jpeg(data: bytes) -> tuple[int, int] | None:
    """Return the size as a browser draws it, which turns a photo as the camera was held."""
    lies = False
    for marker, at, length in _segments(data):
        if marker == 0xE1 and data[at : at + 6] == _EXIF:
            lies = _orientation(data[at + 6 : at + length]) in _ON_ITS_SIDE
        if 0xC0 <= marker <= 0xCF and marker not in _TABLES:
            height, width = _number(data, at + 1, 2), _number(data, at + 3, 2)
            return (height, width) if lies else (width, height)
    return None


def _segments(data: bytes) -> Iterator[tuple[int, int, int]]:
    """Yield the segments of a JPEG before its picture: marker, where what it holds begins, and how long that is."""
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker = data[at + 1]
        if marker == 0xFF:  # bytes to fill
            at += 1
            continue
        length = _number(data, at + 2, 2)
        if marker == 0xDA or length < 2 or at + 2 + length > len(data):
            return
        yield marker, at + 4, length - 2
        at += 2 + length


def _orientation(tiff: bytes) -> int:
    """Return how the camera was held, as the photo says; 1 where it says nothing."""
    order = {b"II": "little", b"MM": "big"}.get(tiff[:2])
    if order is None:
        return 1
    first = _number(tiff, 4, 4, order)
    for entry in range(min(_number(tiff, first, 2, order), 200)):
        at = first + 2 + 12 * entry
        if _number(tiff, at, 2, order) == _ORIENTATION:
            return _number(tiff, at + 8, 2, order)
    return 1
