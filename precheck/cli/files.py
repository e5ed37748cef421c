"""The project files that a command line names: names as they are, and patterns that stand for several files."""

from __future__ import annotations

from collections.abc import Iterable
from glob import glob, has_magic
from pathlib import Path

from precheck.files.source import Place, Problem, Unusable
from precheck.review.accepted import FILE_NAME


def project_files(names: Iterable[str]) -> list[str]:
    """Return the files that `names` stand for, each once, patterns in the order of their files' names.

    Raises `Unusable` where a pattern matches no file, or a folder is named.
    """
    found: dict[str, None] = {}
    problems: list[Problem] = []
    for name in names:
        matched = _matched(name)
        if matched:
            found.update(dict.fromkeys(matched))
        else:
            problems.append(Problem(Place(name, 1, 1), _no_file(name)))
    if problems:
        raise Unusable(problems)
    return list(found)


def _matched(name: str) -> list[str]:
    path = Path(name)
    if path.is_dir():
        return []
    if path.exists() or not has_magic(name):
        return [name]
    found = glob(name, recursive=True)  # noqa: PTH207  # keeps names as they were written, relative or not
    return sorted(n for n in found if (Path(n).is_file() or _leads_nowhere(Path(n))) and Path(n).name != FILE_NAME)


def _leads_nowhere(path: Path) -> bool:
    """Whether `path` is a link to what is not there: a file that one meant to check, so it is told and not left out."""
    return path.is_symlink() and not path.exists()


def _no_file(name: str) -> str:
    if Path(name).is_dir():
        pattern = (Path(name) / "*.yaml").as_posix()
        return f"this is a folder; name its files, such as '{pattern}', or '**' between for those in folders below"
    return "no file matches this pattern; check its spelling"
