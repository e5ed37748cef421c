"""The package as people get it: source distribution and wheel, and environments of their own to try these in."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tarfile
import zipfile
from hashlib import sha256
from pathlib import Path

ROOT = Path(__file__).parents[1]
LEFT_OUT = shutil.ignore_patterns(".*", "__pycache__", "build", "dist", "*.egg-info")
BUILD = "from setuptools import build_meta; print(build_meta.build_{}({!r}))"


def tree(folder: Path) -> Path:
    """Copy what the package is built of into `folder`, so that nothing is left behind where it stands."""
    return Path(shutil.copytree(ROOT, folder, ignore=LEFT_OUT, symlinks=True))


def sdist(source: Path, into: Path) -> Path:
    """Build the source distribution of a tree."""
    return _built("sdist", source, into)


def wheel(source: Path, into: Path) -> Path:
    """Build the wheel of a tree."""
    return _built("wheel", source, into)


def _built(what: str, source: Path, into: Path) -> Path:
    into.mkdir(exist_ok=True)
    command = [sys.executable, "-W", "ignore", "-c", BUILD.format(what, str(into))]
    ran = subprocess.run(command, cwd=source, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr[-2000:]
    return into / ran.stdout.splitlines()[-1]


def unpacked(archive: Path, folder: Path) -> Path:
    """Unpack a source distribution and return the folder that it holds."""
    with tarfile.open(archive) as held:
        held.extractall(folder, filter="data")
    return next(one for one in folder.iterdir() if one.is_dir())


def contents(built: Path) -> dict[str, str]:
    """Return the files of a wheel by their names, each as a digest."""
    with zipfile.ZipFile(built) as held:
        return {name: sha256(held.read(name)).hexdigest() for name in held.namelist()}


def environment(folder: Path, python: str, *what: str) -> Path:
    """Make an environment with `what` installed and nothing else, and return its folder of programs."""
    subprocess.run([python, "-m", "venv", folder], check=True)
    programs = folder / ("Scripts" if os.name == "nt" else "bin")
    install = [programs / "python", "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *what]
    ran = subprocess.run(install, capture_output=True, text=True, check=False)
    if ran.returncode:
        raise OSError(ran.stderr[-2000:])
    return programs


def alone() -> dict[str, str]:
    """Return the environment of this process without what leads Python to packages elsewhere."""
    return {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
