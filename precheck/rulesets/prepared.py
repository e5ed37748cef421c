"""Editions as they were read before: prepared files that save reading the whole model code anew for every check.

A prepared file is known by what it was made from: its name is a hash over the contents of every file of the edition, the
names that they are shown by, and the code that reads them. So one that is old is never found, whatever the clock says.
It is JSON, which cannot execute, begins with the hash of its own contents, and is used only where it belongs to the
person who runs the check and nobody else may write to it. Whatever is wrong with it, the ruleset files are read instead.
"""

from __future__ import annotations

import json
import os
import stat
import sys
from collections.abc import Callable, Iterable
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path

from precheck.files.atomic import put
from precheck.files.installed import version_of
from precheck.rulesets.adopted import AdoptedCode
from precheck.rulesets.packing import packed, unpacked

VARIABLE = "PRECHECK_PREPARED"
"""The environment variable that names the folder of prepared files, or says `off`."""

MOST_KEPT = 12  # prepared files: some editions for some versions; the oldest goes first
_OTHERS_MAY_WRITE = stat.S_IWGRP | stat.S_IWOTH
_READS = ("rulesets", "files", "units")  # the packages whose code decides what an edition is


def folder() -> Path | None:
    """Return the folder in which prepared files are kept; None where that is switched off or there is no such place."""
    said = os.environ.get(VARIABLE, "")
    if said == "off":
        return None
    if said:
        return Path(said)
    base = os.environ.get("LOCALAPPDATA" if sys.platform == "win32" else "XDG_CACHE_HOME")
    try:
        return (Path(base) if base else Path.home() / ".cache") / "precheck"
    except RuntimeError:  # a user without a home
        return None


def edition(name: str, files: Callable[[], Iterable[tuple[str, Path]]], read: Callable[[], AdoptedCode]) -> AdoptedCode:
    """Return the edition `name`, which stands in `files` (shown name and path): prepared before, or as `read` gives it."""
    where = folder()
    key = _key(name, files()) if where is not None else None
    if where is None or key is None:
        return read()
    path = where / f"{name}-{key}.json"
    if (found := _prepared(path)) is not None:
        return found
    code = read()
    if _key(name, files()) == key:  # nobody changed a file meanwhile
        _keep(path, code)
    return code


def _key(name: str, files: Iterable[tuple[str, Path]]) -> str | None:
    """Return the hash that names what is prepared from `files`; None where one of them cannot be read as it is."""
    key = blake2b(f"{name}\0{version_of('precheck')}\0{sys.version}".encode(), digest_size=20)
    package = Path(__file__).parent.parent
    code = [(path.name, path) for part in _READS for path in sorted((package / part).glob("*.py"))]
    if not code:  # such as an archive: then nothing says which code it was
        return None
    try:
        for shown, path in (*code, *files):
            content = path.read_bytes()
            key.update(f"\0{shown}\0{len(content)}\0".encode("utf-8", "surrogateescape") + content)
    except OSError:
        return None
    return key.hexdigest()


def _prepared(path: Path) -> AdoptedCode | None:
    try:
        if not (_is_ours(path.parent) and _is_ours(path)):
            return None
        digest, _, body = path.read_bytes().partition(b"\n")
        return unpacked(json.loads(body)) if digest == _digest(body) else None
    except (OSError, ValueError, LookupError, TypeError, AttributeError):
        return None


def _is_ours(path: Path) -> bool:
    """Return whether `path` belongs to the person who runs this, and nobody else may write to it."""
    found = path.lstat()
    if stat.S_ISLNK(found.st_mode):
        return False
    return sys.platform == "win32" or (found.st_uid == os.geteuid() and not found.st_mode & _OTHERS_MAY_WRITE)


def _keep(path: Path, code: AdoptedCode) -> None:
    """Keep `code` at `path`; where that cannot be written, the next run reads the rulesets again."""
    with suppress(OSError):
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        body = json.dumps(packed(code), ensure_ascii=False, separators=(",", ":")).encode("utf-8", "surrogatepass")
        put(path, [_digest(body), b"\n", body])
        path.chmod(0o600)
        kept = sorted(path.parent.glob("*-*.json"), key=lambda one: one.stat().st_mtime)
        for old in kept[:-MOST_KEPT]:
            old.unlink(missing_ok=True)


def _digest(body: bytes) -> bytes:
    return blake2b(body, digest_size=20).hexdigest().encode()
