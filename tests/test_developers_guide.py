"""The ten minutes of DEVELOPERS.md, gone through to the letter: its files, its commands, what they say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from test_plugins_example import Environment

pytestmark = pytest.mark.long

ROOT = Path(__file__).parents[1]
FILE = re.compile(r"`([\w./-]+\.(?:toml|py|yaml))`[^\n`]*?(?:\([^)]*\))?[^\n`]*:\n\n```\w+\n(.*?)```", re.DOTALL)


def guide() -> str:
    """Return the chapter."""
    text = (ROOT / "DEVELOPERS.md").read_text()
    return text.partition("## From nothing to a working rule in ten minutes\n")[2].partition("\n## ")[0]


@pytest.fixture(scope="module")
def there(tmp_path_factory: pytest.TempPathFactory) -> Environment:
    """Return an environment with the plugin that the chapter makes."""
    source = tmp_path_factory.mktemp("guide")
    for name, text in FILE.findall(guide()):
        path = source / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    return Environment(tmp_path_factory.mktemp("firm"), source)


def test_the_chapter_has_the_five_files_that_it_promises(there: Environment) -> None:
    assert "make a folder outside this repository with five files" in " ".join(guide().split())
    files = [
        str(path.relative_to(there.plugin))
        for path in there.plugin.rglob("*.*")
        if path.suffix in (".py", ".yaml", ".toml")
    ]
    wanted = {"pyproject.toml", "juniper/__init__.py", "juniper/rules.py", "juniper/cases/door-width.yaml"}
    assert wanted | {"juniper/rulesets/codes/irc/juniper.yaml"} <= set(files)


def test_its_commands_say_what_the_chapter_says(there: Environment) -> None:
    assert "juniper (precheck-juniper 0.1.0): 1 rule, rulesets" in " ".join(
        there.run("-m", "precheck", "plugins").stdout.split()
    )
    cases = there.run("-m", "pytest", "-q", "-p", "precheck.testing", "-p", "no:cacheprovider", "juniper")
    assert "3 cases under 4 editions: 12 passed" in guide()
    assert "12 passed" in cases.stdout, cases.stdout
    job = ROOT / "examples" / "alder-court" / "corrected.yaml"
    checked = there.run("-m", "precheck", "check", str(job), "--topic", "juniper")
    assert checked.returncode == 0, checked.stderr
    assert "Door width" in checked.stdout
