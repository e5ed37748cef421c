"""The tree keeps the shape that DEVELOPERS.md describes."""

from __future__ import annotations

import ast
import re
import statistics
import subprocess
import sys
import tomllib
from importlib import import_module
from pathlib import Path

import pytest

import precheck
from precheck import testing
from precheck.files.record import read_record
from precheck.files.source import read_file
from precheck.rules.line import Line
from precheck.rules.plugins import load_plugins
from precheck.rulesets import CRITERIA

ROOT = Path(__file__).parents[2]
CODE = sorted(p for part in ("precheck", "plugins", "rulesets") for p in (ROOT / part).rglob("*.py"))
EDITIONS = ["irc-2015", "irc-2018", "irc-2021", "irc-2024"]


def functions(path: Path) -> list[tuple[str, int]]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    found = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef)]
    return [(f"{path.relative_to(ROOT)}:{f.lineno} {f.name}", (f.end_lineno or f.lineno) - f.lineno + 1) for f in found]


def test_no_file_is_over_300_lines_and_no_function_over_40():
    files = {str(p.relative_to(ROOT)): len(p.read_text(encoding="utf-8").splitlines()) for p in CODE}
    assert {name: lines for name, lines in files.items() if lines > 300} == {}
    assert [f for path in CODE for f in functions(path) if f[1] > 40] == []


def test_functions_are_short_at_the_median():
    assert statistics.median(lines for path in CODE for _, lines in functions(path)) <= 8


def test_one_public_class_name_means_one_thing():
    """Save the limits of a rule, which are read beside their rule alone and are named after what they hold for it."""
    found: dict[str, list[str]] = {}
    for path in CODE:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            public = isinstance(node, ast.ClassDef) and not node.name.startswith("_")
            if public and not any(ast.unparse(base).endswith("Limits") for base in node.bases):
                found.setdefault(node.name, []).append(f"{path.relative_to(ROOT)}:{node.lineno}")
    assert {name: places for name, places in found.items() if len(places) > 1} == {}


def test_every_package_is_installed():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    listed = settings["tool"]["setuptools"]["packages"]
    names = {"precheck": "precheck", "plugins": "precheck_plugins", "rulesets": "precheck_rulesets"}
    there = {
        ".".join((names[p.relative_to(ROOT).parts[0]], *p.relative_to(ROOT).parts[1:-1]))
        for p in CODE
        if p.name == "__init__.py"
    }
    assert sorted(listed) == sorted(there)
    assert listed == sorted(listed)


def test_every_topic_is_registered_and_loads():
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    registered = set(settings["project"]["entry-points"]["precheck.plugins"].values())
    folders = {p.parent.name for p in CODE if p.parent.parent.name == "plugins" and p.name == "__init__.py"}
    assert registered == {f"precheck_plugins.{folder}" for folder in folders} | {"precheck_rulesets"}
    plugins = load_plugins()
    assert plugins.failures == ()
    assert len(plugins.offers) == len(registered)


def test_every_rule_is_found_by_the_name_of_its_topic():
    """Under ``plugins/<topic>/``, in ``rules.py`` and beside it or in ``rules/``, or in a file or folder of that name.

    The lines of what works take stand in ``lines.py`` beside them.
    """
    lost = []
    for rule in load_plugins().rules:
        topic = rule.topic.replace("-", "_")
        plugin, *rest = rule.function.__module__.split(".")[1:]
        begins = ROOT / "plugins" / topic / "rules.py"
        if topic not in rest and (plugin != topic or (rest[0] not in ("rules", "lines") and not begins.is_file())):
            lost.append(f"{rule.name} in {'/'.join((plugin, *rest))}.py")
    assert lost == []


def test_a_plugin_has_its_rules_in_one_file_that_others_go_on_or_in_a_folder():
    plugins = ROOT / "plugins"
    assert [p.name for p in plugins.iterdir() if (p / "rules.py").is_file() and (p / "rules").is_dir()] == []


def test_the_door_for_plugins_lists_what_its_modules_offer():
    tree = ast.parse((ROOT / "precheck/__init__.py").read_text(encoding="utf-8"))
    listed = {
        node.module.removeprefix("precheck."): sorted(name.name for name in node.names)
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module.startswith("precheck.")
    }
    assert listed == {home: sorted(import_module(f"precheck.{home}").__all__) for home in precheck._HOMES}
    assert all(getattr(precheck, name) is not None for names in listed.values() for name in names)


def test_the_top_level_holds_what_the_design_names_and_nothing_else():
    listed = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=True).stdout.split()
    top = {name.split("/")[0] for name in listed if not name.startswith(".")}
    assert top == {
        "README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml", "precheck", "plugins", "rulesets", "tests", "examples",
    }  # fmt: skip


def test_every_rule_has_a_case_file_and_every_case_file_a_rule():
    files = [read_record(testing.CaseFile, read_file(p)) for p in (ROOT / "plugins").glob("*/cases/*.yaml")]
    assert sorted(r.name for r in load_plugins().rules) == sorted({f.rule for f in files})


def test_every_rule_has_cases_that_are_met_and_cases_that_are_not():
    """Save those that no model code asks and a jurisdiction may: their cases stand among the published statements."""
    bad = {"fail", "warn", "not shown"}
    optional = {
        rule.name
        for rule in load_plugins().rules
        if rule.limit_names
        and all(testing.code(e).limits[n].value is None for e in EDITIONS for n in rule.limit_names[:1])
    }
    lacking, lone = [], set()
    for path in sorted((ROOT / "plugins").glob("*/cases/*.yaml")):
        file = read_record(testing.CaseFile, read_file(path))
        words = set()
        for case in file.cases:
            words |= set(case.expect.values()) if isinstance(case.expect, dict) else {case.expect}
        if not words & bad or len(words) < 2:
            (lone.add if file.rule in optional else lacking.append)(file.rule)
    assert lacking == []
    published = [read_file(path).get("statements", ()) for path in (ROOT / "tests/published").glob("*.yaml")]
    put = {
        s["rule"]
        for statements in published
        for s in statements
        for case in s.get("cases", (s,))
        if case["expect"] in bad
    }
    assert sorted(optional & lone - put) == []


def test_all_editions_define_the_same_limits():
    names = {edition: set(testing.code(edition).limits) for edition in EDITIONS}
    everywhere = set.intersection(*names.values())
    assert {edition: sorted(own - everywhere) for edition, own in names.items()} == {
        edition: [] for edition in EDITIONS
    }


def test_every_limit_that_a_rule_reads_is_defined_and_every_limit_is_read_by_a_rule():
    read = {name for rule in load_plugins().rules for name in rule.limit_names}
    declared = {name for name in testing.code("irc-2021").limits if not name.startswith(CRITERIA)}
    assert sorted(name for name in read - declared if not name.startswith(CRITERIA)) == []
    assert sorted(declared - read) == []


def test_every_limit_of_an_edition_says_its_basis_and_a_shall_says_its_section():
    for edition in EDITIONS:
        for limit in testing.code(edition).limits.values():
            assert limit.basis != "local"
            needs_section = limit.value is not None and not limit.advised and limit.basis != "practice"
            assert limit.section or not needs_section, f"{edition} {limit.name}"
            assert limit.source or not limit.basis.startswith("read"), f"{edition} {limit.name} names no source"


def test_limits_are_declared_with_the_type_that_the_ruleset_gives():
    for rule in load_plugins().rules:
        if rule.signature.limits is not None and not isinstance(rule, Line):  # whose one limit lists works
            assert all(
                str(kind).startswith(("Limit[", "Settled[")) for kind in rule.signature.limits.__annotations__.values()
            ), rule.name


FORBIDDEN = re.compile(
    r"seed[ ]document|tran[s]cript|(^|[^A-Za-z0-9_.])/(work|farm|root)/|pypi\.org|registry\.npmjs|deb\.debian|files\.pythonhosted",
    re.IGNORECASE,
)


def test_the_repository_speaks_of_the_project_alone():
    listed = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=True).stdout.split()
    found = []
    for name in listed:
        path = ROOT / name
        if (
            path.is_file()
            and path.suffix in {".py", ".md", ".toml", ".yaml", ".yml", ".txt", ".csv", ""}
            and path != Path(__file__)
        ):
            text = path.read_text(encoding="utf-8", errors="replace")
            found += [f"{name}: {m.group()}" for m in FORBIDDEN.finditer(text)]
    assert found == []


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "."],
        ["ruff", "format", "--check", "."],
        pytest.param(["mypy"], marks=pytest.mark.long),
        ["importlinter.cli", "lint"],
    ],
    ids=["ruff", "format", "mypy", "imports"],
)
def test_the_code_is_clean_for(command):
    call = (
        [sys.executable, "-m", *command]
        if command[0] != "importlinter.cli"
        else [str(Path(sys.executable).with_name("lint-imports"))]
    )
    result = subprocess.run(call, capture_output=True, text=True, cwd=ROOT, check=False)
    assert result.returncode == 0, result.stdout[-3000:] + result.stderr[-2000:]
