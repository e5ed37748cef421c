"""A model that comes in a zip file, as the standard lets it: the one .ifc in it, unpacked while it is read."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from shutil import copyfileobj
from tempfile import TemporaryDirectory
from zipfile import BadZipFile, ZipFile, ZipInfo

from precheck.importers.files import LARGEST_FILE, refused


@contextmanager
def unzipped(path: Path, name: str) -> Iterator[Path]:
    """Yield the plain model at `path`, called `name` in messages. Raises `Unusable` where a zip file holds no one model."""
    if path.suffix.lower() != ".ifczip":
        yield path
        return
    with TemporaryDirectory() as folder:
        plain = Path(folder) / "model.ifc"
        try:
            with ZipFile(path) as packed, packed.open(_one(packed, name)) as source, plain.open("wb") as target:
                copyfileobj(source, target)
        except FileNotFoundError:
            raise refused(name, "there is no such file; check the spelling of the path") from None
        except (BadZipFile, OSError, EOFError, RuntimeError) as error:
            raise refused(
                name, f"this zip file cannot be unpacked ({str(error)[:60]}); export or copy it again"
            ) from None
        yield plain


def _one(packed: ZipFile, name: str) -> ZipInfo:
    found = [entry for entry in packed.infolist() if entry.filename.lower().endswith(".ifc")]
    if len(found) != 1:
        raise refused(name, f"this zip file holds {len(found) or 'no'} files that end in .ifc; put exactly one in it")
    if found[0].file_size > LARGEST_FILE:
        raise refused(
            name, f"the model in it is larger than {LARGEST_FILE // 1024**2} MB unpacked; export only the house"
        )
    return found[0]


__all__ = ["unzipped"]
