"""Runs case files under pytest: the good and bad examples that stand beside each rule.

Load it with ``-p precheck.testing``. Every ``cases/*.yaml`` is collected; each case runs under every edition::

    rule: stairs.riser-height
    base:                       # a fragment of a project that every case starts from
      stairs: [{id: S1, between: [hall, loft], total rise: 108 1/2 in, risers: 14}]
    cases:
      - case: just over the limit
        given: {stairs: [{id: S1, risers: 13}]}   # laid over the base; parts are matched by id, ~ takes a value away
        expect: fail            # or one outcome per edition: {irc-2015: does not apply, others: fail}
        says: 8 3/8 in          # optional: words of the finding; likewise `fix` and `needs`
        changes: {risers: 14}   # optional: the remedy as data, all of it; {} where it gives none
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from precheck.files.record import NOT_GIVEN, Maybe, Record, read_record
from precheck.files.source import Block, Items, read_file
from precheck.review.finding import Finding
from precheck.rules.plugins import Plugins, load_plugins
from precheck.rulesets import AdoptedCode, Library, prepared
from precheck.runs import cases


class Case(Record):
    """One example: what the project gives, and what the rule must say of it."""

    kind = "case"
    case: str
    given: Any = None
    code: Maybe[str] = NOT_GIVEN
    expect: Any
    says: str = ""
    fix: str = ""
    needs: tuple[str, ...] = ()
    changes: Any = None


class CaseFile(Record):
    """The cases of one rule. `source` names what is published about them, where something is."""

    kind = "case file"
    rule: str
    base: Any = None
    source: str = ""
    cases: tuple[Case, ...]


def pytest_configure() -> None:
    """Keep nothing that is read in a test run for later checks, unless a folder for it is named."""
    os.environ.setdefault(prepared.VARIABLE, "off")


def pytest_collect_file(parent: pytest.Collector, file_path: Path) -> pytest.Collector | None:
    """Collect the case files, which are the YAML files of folders called ``cases``."""
    if file_path.suffix == ".yaml" and file_path.parent.name == "cases":
        return _CaseCollector.from_parent(parent, path=file_path)
    return None


@cache
def plugins() -> Plugins:
    """Return the installed plugins, loaded once a session."""
    return load_plugins()


@cache
def library() -> Library:
    """Return the built-in rulesets, each file of which is read once a session."""
    return Library(plugins().rulesets, added=plugins().added)


@cache
def code(name: str) -> AdoptedCode:
    """Return the adopted code `name`, resolved once a session."""
    return library().adopt(name)


def editions() -> list[str]:
    """Return the names of all editions."""
    return list(library().editions)


def findings(rule_name: str, fragment: Block, code_name: str) -> list[Finding]:
    """Return what one rule says of a fragment of a project."""
    found = cases.findings_of(rule_name, fragment, code(code_name), plugins())
    if found is None:
        raise CaseFailed([cases.no_such_rule(rule_name, code(code_name), plugins())], [])
    return found


def codes_of(case: Case) -> list[str]:
    """Return the codes that a case runs under: the one that it names, else all editions."""
    return [case.code] if isinstance(case.code, str) else editions()


def hold(file: CaseFile, case: Case, code_name: str) -> None:
    """Hold the rule of a case file to one of its cases under a code. Raises `CaseFailed`."""
    nothing = Block((0, 0), file.place.file)
    found = findings(file.rule, overlay(file.base or nothing, case.given or nothing), code_name)
    if wrong := cases.wrong(found, expected(case.expect, code_name), case.says, case.fix, case.needs, case.changes):
        raise CaseFailed(wrong, found)


def expected(expect: Any, code_name: str) -> str:
    """Return the outcome that a case expects under a code. Raises `CaseFailed` where it is none."""
    word = expect.get(code_name, expect.get("others")) if isinstance(expect, dict) else expect
    if not cases.is_outcome(str(word)):
        raise CaseFailed([f"`{word}` is no outcome"], [])
    return str(word)


def overlay(base: Any, given: Any) -> Any:
    """Return `base` with `given` laid over it: mappings key by key, lists of parts id by id, the rest replaced."""
    if isinstance(base, dict) and isinstance(given, dict):
        return _overlaid_block(base, given)
    if isinstance(base, list) and isinstance(given, list) and any(isinstance(g, dict) and "id" in g for g in given):
        return _overlaid_parts(base, given)
    return given


def _overlaid_block(base: Any, given: Any) -> Block:
    merged = Block(getattr(given, "at", (0, 0)), getattr(given, "file", ""))
    merged.keys_at = {**getattr(base, "keys_at", {}), **getattr(given, "keys_at", {})}
    for key in {**base, **given}:
        value = overlay(base[key], given[key]) if key in base and key in given else given.get(key, base.get(key))
        if key not in given or given[key] is not None:
            merged[key] = value
    return merged


def _overlaid_parts(base: list[Any], given: list[Any]) -> Items:
    merged = Items(getattr(given, "at", (0, 0)), getattr(given, "file", ""))
    new = {part["id"]: part for part in given}
    old = {part["id"] for part in base}
    merged.extend(overlay(part, new.get(part["id"], {})) for part in base)
    merged.extend(part for part in given if part["id"] not in old)
    merged.items_at = [getattr(part, "at", (0, 0)) for part in merged]
    return merged


class CaseFailed(Exception):
    """A case that did not come to what it expects; the message lists how, and all that the rule found."""

    def __init__(self, wrong: list[str], found: list[Finding]) -> None:
        super().__init__("\n".join([*wrong, "the rule found:", *(f"  {line}" for line in cases.as_lines(found))]))


class _CaseCollector(pytest.File):
    def collect(self) -> Iterator[pytest.Item]:
        file = read_record(CaseFile, read_file(self.path))
        for case in file.cases:
            for name in codes_of(case):
                item = _CaseItem.from_parent(self, name=f"{file.rule}: {case.case} [{name}]")
                item.file, item.case, item.code_name = file, case, name
                yield item


class _CaseItem(pytest.Item):
    file: CaseFile
    case: Case
    code_name: str

    def runtest(self) -> None:
        hold(self.file, self.case, self.code_name)

    def repr_failure(self, excinfo: Any, style: Any = None) -> str:
        where = f"{self.case.place}: case `{self.case.case}` under {self.code_name}"
        told = str(excinfo.value) if isinstance(excinfo.value, CaseFailed) else str(excinfo.getrepr(style="short"))
        return f"{where}\n{told}"

    def reportinfo(self) -> tuple[Path, int, str]:
        return self.path, self.case.place.line - 1, self.name
