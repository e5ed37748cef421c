"""One page of a PDF as a picture, drawn in a process of its own: ``python -m precheck.board.pdf_child PAGE < pdf > answer``.

A PDF from anywhere is read by native code, which a crafted one may bring down or make run without end. So it happens where
that costs nothing: a process with limits on memory, time and what it may write, which gets the bytes and gives a picture. The
answer is a line of JSON, and after it the picture as PNG.
"""

from __future__ import annotations

import json
import struct
import sys
import zlib
from collections.abc import Iterator
from contextlib import suppress
from math import sqrt
from typing import Any

MEMORY = 1_500_000_000  # bytes of address space
SECONDS = 20  # of work
MOST_ANSWER = 80_000_000  # bytes
MOST_PAGES = 1000
MOST_INCHES = 200.0  # a side of a sheet; the largest that a PDF can have without a unit of its own
DOTS = 200.0  # to the inch of paper: a line of a drawing is some 2 pixels wide then
PIXELS = 16_000_000  # of one page; a sheet of 24 x 36 in gets 136 dots to the inch


def bounded() -> None:
    """Set the limits of this process, where the system has such."""
    try:
        import resource
    except ImportError:  # Windows: the time limit of whoever started it is what there is
        return
    limits = {"RLIMIT_AS": MEMORY, "RLIMIT_CPU": SECONDS, "RLIMIT_FSIZE": MOST_ANSWER, "RLIMIT_CORE": 0}
    for name, most in limits.items():
        with suppress(AttributeError, OSError, ValueError):  # not every system has each of them
            resource.setrlimit(getattr(resource, name), (most, most))


def dots_for(width: float, height: float) -> float:
    """Return with how many dots to the inch a sheet of that size in inches is drawn. Raises ValueError for no sheet."""
    if not (0 < width <= MOST_INCHES and 0 < height <= MOST_INCHES):
        raise ValueError(f"The page is no sheet of paper: it is {width:.4g} x {height:.4g} in.")
    return min(DOTS, sqrt(PIXELS / (width * height)))


def png(width: int, height: int, rows: Iterator[bytes]) -> Iterator[bytes]:
    """Yield a picture of rows of red, green and blue as PNG."""
    yield b"\x89PNG\r\n\x1a\n"
    yield _chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    packer = zlib.compressobj(3)
    for row in rows:
        packed = packer.compress(b"\0" + row)
        if packed:
            yield _chunk(b"IDAT", packed)
    yield _chunk(b"IDAT", packer.flush())
    yield _chunk(b"IEND", b"")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def _drawn(pdfium: Any, data: bytes, page: int) -> Iterator[bytes]:
    """Yield the answer for a page, counted from 1."""
    document = pdfium.PdfDocument(data)
    pages = len(document)
    if pages > MOST_PAGES:
        raise ValueError(
            f"The PDF has {pages:,} pages; {MOST_PAGES:,} are the maximum. Save the page you need on its own."
        )
    if not 1 <= page <= pages:
        raise ValueError(f"The PDF has {pages} page{'s' if pages != 1 else ''}; choose one of them.")
    sheet = document[page - 1]
    width, height = (side / 72 for side in sheet.get_size())
    bitmap = sheet.render(scale=dots_for(width, height) / 72, rev_byteorder=True, may_draw_forms=False)
    view = memoryview(bitmap.buffer).cast("B")
    channels = bitmap.n_channels
    if channels != 3:
        raise ValueError("The page cannot be drawn in colors; save it as PNG and send that.")
    yield json.dumps({"pages": pages, "width": bitmap.width, "height": bitmap.height}).encode() + b"\n"
    starts = range(0, bitmap.stride * bitmap.height, bitmap.stride)
    yield from png(bitmap.width, bitmap.height, (bytes(view[at : at + bitmap.width * channels]) for at in starts))


def main() -> None:
    """Answer with the page that is asked for, or with why there is none."""
    import pypdfium2 as pdfium

    bounded()
    data = sys.stdin.buffer.read()
    out = sys.stdout.buffer
    try:
        for bit in _drawn(pdfium, data, int(sys.argv[1])):
            out.write(bit)
    except pdfium.PdfiumError as error:
        locked = "password" in str(error).lower()
        why = (
            "The PDF is locked by a password; save it without one."
            if locked
            else "The PDF cannot be read; save it anew."
        )
        out.write(json.dumps({"refused": why}).encode())
    except ValueError as error:
        out.write(json.dumps({"refused": str(error)}).encode())
    out.flush()


if __name__ == "__main__":
    main()
