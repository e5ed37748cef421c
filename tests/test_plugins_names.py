"""The page of what a plugin may use is made from the code itself, and lacks nothing."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from precheck.cli import cli
from precheck.cli.names import names_by_home, page
from precheck.rules.plugins import Specifications


def said(*arguments: str) -> str:
    """Return what the command prints."""
    found = CliRunner().invoke(cli, ["plugins", *arguments])
    assert found.exit_code == 0, found.output
    return found.output


def test_the_page_has_every_name_that_precheck_offers_with_a_sentence_on_it() -> None:
    lines = said("--names").splitlines()
    assert lines == list(page())
    for names in names_by_home().values():
        for name in names:
            at = [
                i
                for i, line in enumerate(lines)
                if line.startswith(f"  {name}") and line[2 + len(name) :][:1] in ("", "(")
            ]
            assert len(at) == 1, name
            following = (line for line in lines[at[0] + 1 :] if not line.startswith("      ") or line[6] != " ")
            assert next(following).startswith("      "), f"{name} has no docstring"


def test_every_hook_is_on_the_page_and_in_the_guide() -> None:
    from pathlib import Path

    guide = (Path(__file__).parents[1] / "DEVELOPERS.md").read_text()
    hooks = [name for name in vars(Specifications) if name.startswith("precheck_")]
    assert len(hooks) == 6
    for hook in hooks:
        assert f"  {hook}() -> Iterable[" in said("--names")
        assert f"`{hook}`" in guide


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        (
            "Window",
            ["sill height: a length with its unit", "space: a space by its id (required)", "  clear_area", "  added"],
        ),
        ("at_most", ["at_most(measured: Any, limit: Bound, derived: Text = '') -> Check"]),
        ("Check", ["or_fix(remedy: Text, changes: Callable[[], Iterable[NewValue]] | None"]),
        ("Outcome", ["One of: ERROR, FAIL, NOT_SHOWN, WARN, PASS, DOES_NOT_APPLY"]),
        ("Fact", ["Fact(about: Record | Entry) ", "`about` is the record"]),
        ("AddedField", ["AddedField(part: str, key: str, schema: dict[str, Any], example: str = '')"]),
    ],
)
def test_a_name_is_explained_in_full(name: str, parts: list[str]) -> None:
    told = " ".join(said("--name", name).split())
    for part in parts:
        assert " ".join(part.split()) in told


def test_a_name_that_is_not_offered_is_refused_with_the_nearest() -> None:
    found = CliRunner().invoke(cli, ["plugins", "--name", "at_moast"])
    assert found.exit_code == 2
    assert "precheck offers no `at_moast`; did you mean `at_most`?" in found.output
