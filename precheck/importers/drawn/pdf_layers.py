"""The layers of the program that plotted a page, where the plot kept them: each thing on the page is marked by its own."""

from __future__ import annotations

from ctypes import POINTER, byref, c_ulong, c_ushort, cast, create_string_buffer
from typing import Any

from precheck.importers.draft import plain

_SIZE = 512  # bytes of a name
_LAYER = "OC"  # what the format calls a mark that names a layer


class LayerMarks:
    """Reads the layers of the things of a page."""

    def __init__(self, pdf: Any) -> None:
        self._pdf = pdf
        self._said = create_string_buffer(_SIZE)
        self._name = cast(self._said, POINTER(c_ushort))
        self._long = c_ulong()

    def layers_of(self, thing: Any) -> list[str]:
        """Return the layers that a thing of a page is on, in upper case, the innermost last."""
        found = []
        for i in range(max(self._pdf.FPDFPageObj_CountMarks(thing), 0)):
            mark = self._pdf.FPDFPageObj_GetMark(thing, i)
            if self._pdf.FPDFPageObjMark_GetName(mark, self._name, _SIZE, byref(self._long)) and self._text() == _LAYER:
                read = self._pdf.FPDFPageObjMark_GetParamStringValue
                if read(mark, b"Name", self._name, _SIZE, byref(self._long)):
                    found.append(plain(self._text()).upper())
        return found

    def _text(self) -> str:
        return self._said.raw[: min(self._long.value, _SIZE)].decode("utf-16-le", "replace").rstrip("\0")


__all__ = ["LayerMarks"]
