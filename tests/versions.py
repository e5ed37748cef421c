"""The wheel under each Python that is here, with the lowest versions that it allows and with the newest: the same reports.

Run it by hand: ``python tests/versions.py``, or with the versions to try. It takes some minutes, and asks the package
registry. What it leaves out, as a Python that is not here, it says. In each environment the examples and the small jobs are
checked, and a part of the tests runs against the installed wheel. With ``reports`` the tests are left out, as `.ci/run` does.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from distribution import ROOT, alone, environment, tree, wheel

PYTHONS = ("3.11", "3.12", "3.13", "3.14")
EXTRAS = ("pdf", "dxf", "ifc", "cluster")
TOOLS = ("httpx", "hypothesis", "pytest", "pytest-xdist", "setuptools")
TESTS = (
    "tests/core", "plugins/stairs", "tests/test_page_pdf.py", "tests/test_import_dxf.py", "tests/test_import_ifc.py",
    "tests/test_many_files.py", "tests/test_start_ask.py",
)  # fmt: skip
LOWER = re.compile(r"([\w.\-]+)>=([\w.]+)(?:; *(.*))?")
LEFT_OUT = (  # what reads the tree beside the package or the other packages beside it, and what models are made with
    "not architecture and not hooks and not of_the_same_words and not loads_nothing and not virtual"
)
CHECKED = """
import hashlib, sys
from click.testing import CliRunner
from precheck.cli import cli
for file in sys.stdin.read().split():
    print(file, hashlib.sha256(CliRunner().invoke(cli, ["check", file, "--report", "json"]).stdout_bytes).hexdigest())
"""


class Result(NamedTuple):
    """What came of one environment: digests of the reports, and the end of what the tests said where they failed."""

    reports: str
    failed: str


def pythons() -> Iterator[tuple[str, str | None]]:
    """Yield each version of Python that the package is for, and the program of it, if there is one here."""
    kept = Path.home() / ".pyenv" / "versions"
    for version in PYTHONS:
        held = sorted(kept.glob(f"{version}.*/bin/python{version}")) if kept.is_dir() else []
        found = [str(one) for one in held] or [shutil.which(f"python{version}")]
        own = sys.executable if f"{sys.version_info[0]}.{sys.version_info[1]}" == version else None
        yield version, own or found[-1]


def lowest() -> list[str]:
    """Return the lowest version that is declared of each package, those of the extras included, as constraints."""
    declared = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = declared["optional-dependencies"]
    named = [*declared["dependencies"], *(one for extra in EXTRAS for one in extras[extra])]
    found = [LOWER.fullmatch(one.strip()) for one in named]
    assert all(found), f"a package without a lowest version among {named}"
    return [f"{one[1]}=={one[2]}{f'; {one[3]}' if one[3] else ''}" for one in found if one]


def tried(python: str, built: Path, pinned: list[str], folder: Path, tests: bool) -> Result:
    """Return what comes of the wheel under `python`, with the versions that are `pinned`; of `tests` too. Raises OSError."""
    constraints = folder / "constraints.txt"
    constraints.write_text("\n".join(pinned), encoding="utf-8")
    what = f"{built}[{','.join(EXTRAS)}]"
    programs = environment(folder / "env", python, what, *(TOOLS if tests else ()), "--constraint", str(constraints))
    files = sorted(str(p.relative_to(ROOT)) for at in ("examples", "tests/jobs") for p in (ROOT / at).rglob("*.yaml"))
    reports = subprocess.run(
        [programs / "python", "-c", CHECKED], cwd=_apart(folder), env=alone(), input="\n".join(files), capture_output=True,
        text=True, check=False,
    )  # fmt: skip
    assert reports.returncode == 0, reports.stderr[-2000:]
    if not tests:
        return Result(reports.stdout, "")
    command = [programs / "pytest", "-q", "-n", "2", "-k", LEFT_OUT, "-p", "no:cacheprovider", *TESTS]
    ran = subprocess.run(command, cwd=_apart(folder), env=alone(), capture_output=True, text=True, check=False)
    return Result(reports.stdout, "" if ran.returncode == 0 else ran.stdout[-3000:] + ran.stderr[-1000:])


def _apart(folder: Path) -> Path:
    """Return a copy of the tree whose code lies where no import finds it, so that the installed one is tried."""
    copy = folder / "tree"
    if not copy.is_dir():
        tree(copy)
        shutil.move(copy / "precheck", copy / "not-imported")
    return copy


def main() -> int:
    """Try every environment, or those of the Pythons that are named; return 1 where reports differ or tests failed."""
    chosen = {one for one in sys.argv[1:] if one != "reports"}
    tests = "reports" not in sys.argv[1:]
    seen: dict[str, str] = {}
    worst = 0
    with tempfile.TemporaryDirectory() as made:
        built = wheel(tree(Path(made) / "tree"), Path(made) / "wheel")
        for version, python in pythons():
            if chosen and version not in chosen:
                continue
            if python is None:
                print(f"Python {version}: left out, for it is not here")
                continue
            for name, pinned in (("lowest", lowest()), ("newest", [])):
                began = time.monotonic()
                folder = Path(made) / f"{version}-{name}"
                folder.mkdir()
                try:
                    result = tried(python, built, pinned, folder, tests)
                except (OSError, subprocess.CalledProcessError) as error:
                    print(f"Python {version}, {name} versions: cannot be installed: {error}", flush=True)
                    worst = max(worst, int(tests))  # a build server's registry may lack one; by hand it is a fault
                    continue
                seen[f"{version}, {name}"] = digest = sha256(result.reports.encode()).hexdigest()[:12]
                same = digest == next(iter(seen.values()))
                worst = max(worst, int(bool(result.failed) or not same))
                print(f"Python {version}, {name} versions: {result.reports.count(chr(10))} reports {digest}, "
                      f"{'the same' if same else 'DIFFERENT'}; tests {'FAILED' if result.failed else 'pass' if tests else 'left out'} "
                      f"({time.monotonic() - began:.0f} s)\n{result.failed}".rstrip(), flush=True)  # fmt: skip
                shutil.rmtree(folder)
    return worst


if __name__ == "__main__":
    sys.exit(main())
