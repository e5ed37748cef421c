"""A firm's plugin, put where Python finds it as it finds an installed one, for tests that run the command."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from textwrap import dedent


class Firm:
    """A folder with a plugin, and the command run with it."""

    def __init__(self, folder: Path, code: str, name: str = "juniper") -> None:
        self.folder = folder
        self.name = name
        self.package = folder / "site" / name
        self.package.mkdir(parents=True)
        (self.package / "__init__.py").write_text(dedent(code))
        told = folder / "site" / f"{name}_rules-1.0.dist-info"
        told.mkdir()
        (told / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}-rules\nVersion: 1.0\n")
        (told / "entry_points.txt").write_text(f"[precheck.plugins]\n{name} = {name}\n")

    def limits(self, text: str) -> None:
        """Give the plugin's topic file of limits."""
        file = self.package / "rulesets" / "codes" / "irc" / f"{self.name}.yaml"
        file.parent.mkdir(parents=True)
        file.write_text(dedent(text))

    def file(self, name: str, text: str) -> Path:
        """Write a file beside which the command runs."""
        path = self.folder / name
        path.write_text(dedent(text))
        return path

    def precheck(
        self, *arguments: str, answers: str = "", patience: float = 60, before: str = ""
    ) -> subprocess.CompletedProcess[str]:
        """Run the command in the folder, with the plugin installed; `before` is code that runs first."""
        return subprocess.run(
            [sys.executable, "-c", f"{before}\nfrom precheck.cli import main; main()", *arguments],
            input=answers, capture_output=True, text=True, check=False, cwd=self.folder, timeout=patience,
            env={**os.environ, "PYTHONPATH": str(self.folder / "site")},
        )  # fmt: skip
