"""A zip file of which the same contents give the same bytes."""

from __future__ import annotations

from collections.abc import Mapping
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo


def archive(files: Mapping[str, bytes]) -> bytes:
    """Return the zip file that holds `files`, by their names."""
    made = BytesIO()
    with ZipFile(made, "w") as packed:
        for name, data in files.items():
            entry = ZipInfo(name)  # dated 1980, the first day that a zip file knows
            entry.compress_type = ZIP_DEFLATED
            packed.writestr(entry, data)
    return made.getvalue()
