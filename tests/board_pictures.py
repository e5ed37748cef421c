"""Pictures of plans for tests: a PDF whose lines are where they are said to be, and heads of photos."""

from __future__ import annotations

import struct

from precheck.board.pdf_child import png

LINE = (72.0, 144.0, 540.0)
"""A level line on each page of `pdf`, in points from the lower left corner: from x, y, to x."""


def pdf(pages: int = 1, size: tuple[float, float] = (612, 792), extra: bytes = b"") -> bytes:
    """Return a PDF with one thick level line on each page."""
    drawn = f"2 w {LINE[0]} {LINE[1]} m {LINE[2]} {LINE[1]} l S".encode() + extra
    numbers = range(pages)
    bits = [
        b"<</Type/Catalog/Pages 2 0 R>>",
        f"<</Type/Pages/Count {pages}/Kids[{' '.join(f'{4 + n} 0 R' for n in numbers)}]>>".encode(),
        b"<</Length %d>>stream\n%s\nendstream" % (len(drawn), drawn),
        *(
            f"<</Type/Page/Parent 2 0 R/MediaBox[0 0 {size[0]} {size[1]}]/Contents 3 0 R/Resources<<>>>>".encode()
            for _ in numbers
        ),
    ]
    text, at = b"%PDF-1.4\n", []
    for number, bit in enumerate(bits, 1):
        at.append(len(text))
        text += b"%d 0 obj" % number + bit + b"endobj\n"
    table = b"".join(b"%010d 00000 n \n" % one for one in at)
    return text + b"xref\n0 %d\n0000000000 65535 f \n%strailer<</Size %d/Root 1 0 R>>startxref\n%d\n%%%%EOF" % (
        len(bits) + 1, table, len(bits) + 1, len(text),
    )  # fmt: skip


def scan(width: int = 300, height: int = 200, dark: frozenset[tuple[int, int]] = frozenset()) -> bytes:
    """Return a white PNG with black squares of 5 pixels around the points of `dark`."""
    rows = []
    for y in range(height):
        row = bytearray(b"\xff" * 3 * width)
        for px, py in dark:
            if abs(y - py) <= 2:
                row[3 * (px - 2) : 3 * (px + 3)] = b"\0" * 15
        rows.append(bytes(row))
    return b"".join(png(width, height, iter(rows)))


def photo(width: int, height: int, held: int | None = None, order: str = "<") -> bytes:
    """Return the head of a JPEG of that size; `held` is how the camera was held, as it writes it."""
    exif = b""
    if held is not None:
        mark = b"II*\0" if order == "<" else b"MM\0*"
        tiff = mark + struct.pack(order + "IHHHIHHI", 8, 1, 0x0112, 3, 1, held, 0, 0)
        exif = b"\xff\xe1" + struct.pack(">H", 2 + 6 + len(tiff)) + b"Exif\0\0" + tiff
    start = b"\xff\xc0" + struct.pack(">HBHHB", 17, 8, height, width, 3) + bytes(9)
    return b"\xff\xd8" + exif + start + b"\xff\xda\0\2"


def webp(kind: bytes, body: bytes) -> bytes:
    """Return the head of a WebP."""
    return b"RIFF\0\0\0\0WEBP" + kind + struct.pack("<I", len(body)) + body
