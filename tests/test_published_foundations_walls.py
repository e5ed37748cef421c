"""Published statements about foundations, walls, bracing and decay, put to the real rules under the right edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from precheck.reports import words
from precheck.source import Block, read_text
from precheck.testing import findings, overlay, plugins

FILE = Path(__file__).parent / "published" / "foundations-walls.yaml"
PUBLISHED: Any = read_text(FILE.read_text("utf-8"), FILE.name)
STATEMENTS: list[Any] = PUBLISHED["statements"]
CASES = [(s, n) for s in STATEMENTS for n in range(len(s["cases"]))]


def adopted(statement: Any, folder: Path) -> str:
    """Return the edition of a statement, or an adoption of it with the amendments that the statement names."""
    if "amendments" not in statement:
        return str(statement["code"])
    lines = [f"jurisdiction: the place of {statement['id']}", f"adopts: {statement['code']}", "in force: 2020-01-01"]
    lines += ["by: as published", "amendments:"]
    lines += [
        "  - {" + ", ".join(f"{k}: {v}" for k, v in amendment.items()) + "}" for amendment in statement["amendments"]
    ]
    path = folder / f"{statement['id']}.yaml"
    path.write_text("\n".join(lines) + "\n")
    return str(path)


@pytest.mark.parametrize(("statement", "number"), CASES, ids=[f"{s['id']}-{n + 1}" for s, n in CASES])
def test_the_rules_say_what_the_page_says(statement: Any, number: int, tmp_path: Path) -> None:
    case = statement["cases"][number]
    project = overlay(statement.get("base", Block((0, 0), FILE.name)), case["project"])
    found = findings(statement["rule"], project, adopted(statement, tmp_path))
    said = [f"{f.outcome.word}: {words.message(f)} {f.check.why}" for f in found]
    assert found, f"{statement['rule']} found nothing to judge"
    assert min(f.outcome for f in found).word == case["expect"], (statement["says"], said)


def test_every_statement_names_its_source_and_is_put_to_both_sides_of_a_limit() -> None:
    names = {rule.name for rule in plugins().rules}
    assert len(STATEMENTS) >= 10
    for one in STATEMENTS:
        assert one["source"]["who"]
        assert one["source"]["url"].startswith("http")
        assert one["rule"] in names
        assert len({case["expect"] for case in one["cases"]}) > 1, one["id"]
