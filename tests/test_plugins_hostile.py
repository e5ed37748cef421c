"""What else a plugin of others may do, by accident or not: each is named, and no run that lacks its rules is ready."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from firm import Firm
from test_plugins_contained import CHECK, HEAD, HOUSE, OF_STAIRS, errors, firm_of, pytestmark, undisturbed

from precheck.cli import EXIT_RULE_ERRED
from precheck.reports import FORMATS

__all__ = ["pytestmark", "undisturbed"]
BREAKS = {
    "calls itself for ever": ("def again(): return again()\nagain()", "RecursionError"),
    "wants more memory than there is": ("bytearray(1 << 62)", "MemoryError"),
    "ends a generator": ("raise GeneratorExit", "GeneratorExit"),
    "stops an iteration": ("raise StopIteration", "StopIteration"),
    "calls an exit of its own": ("raise SystemExit(0)", "SystemExit"),
    "closes what is printed to": ("sys.stdout.close()\nraise ValueError('closed')", "ValueError"),
    "warns and is told that warnings are errors": ("import warnings\nwarnings.simplefilter('error')\nwarnings.warn('x')", "UserWarning"),
}  # fmt: skip


@pytest.mark.parametrize(("body", "kind"), BREAKS.values(), ids=BREAKS)
def test_a_rule_that_breaks_off_in_any_way_is_an_error_and_spoils_no_other(
    tmp_path: Path, body: str, kind: str, undisturbed: dict[str, list[str]]
) -> None:
    status, wrong, stairs = errors(firm_of(tmp_path, body))
    assert (status, stairs) == (EXIT_RULE_ERRED, undisturbed)
    assert kind in wrong["bad.rule"]


TOOK = """
from precheck import Check, Stair, hookimpl, met, rule

@rule({name!r})
def wide(stair: Stair) -> Check:
    \"\"\"Be wide enough.\"\"\"
    return met("wide enough")

@hookimpl
def precheck_rules():
    return [wide]
"""


def test_a_plugin_that_comes_first_takes_no_name_of_ours(tmp_path: Path, undisturbed: dict[str, list[str]]) -> None:
    firm = Firm(tmp_path, TOOK.format(name="stairs.riser-height"), "aardvark")
    firm.file("house.yaml", HOUSE)
    status, wrong, stairs = errors(firm, OF_STAIRS)
    assert (status, stairs) == (EXIT_RULE_ERRED, undisturbed)
    assert "aardvark" in wrong["plugins.loaded"]
    assert "`stairs.riser-height` is taken by stairs" in wrong["plugins.loaded"]


@pytest.mark.parametrize("name", ["bad.two words", "bad", "bad.\nrule", "Bad.rule", "bad.rule.more", "bad.", ""])
def test_a_rule_whose_name_is_no_name_is_refused_and_told(tmp_path: Path, name: str) -> None:
    firm = Firm(tmp_path, TOOK.format(name=name), "bad")
    firm.file("house.yaml", HOUSE)
    status, wrong, _ = errors(firm, OF_STAIRS)
    assert status == EXIT_RULE_ERRED
    assert f"bad-rules 1.0: ValueError: `{name}` is no name of a rule" in wrong["plugins.loaded"]


def test_a_limit_that_two_files_define_ends_the_run_and_both_are_named(tmp_path: Path) -> None:
    code = f"""{HEAD}
from pathlib import Path

@hookimpl
def precheck_rulesets():
    return [Path(__file__).parent / "rulesets"]
"""
    firm = Firm(tmp_path, code, "bad")
    firm.file("house.yaml", HOUSE)
    firm.limits("""\
        topic: bad
        limits:
          stairs.riser-height:
            maximum: {measures: riser height, value: 9 in, practice: no source}
        """)
    found = firm.precheck(*OF_STAIRS)
    assert (found.returncode, found.stdout) == (2, "")
    assert "Traceback" not in found.stderr
    assert "bad.yaml:4:5: `stairs.riser-height.maximum` is set twice" in found.stderr
    assert "stairs.yaml" in found.stderr


WITHOUT_STAIRS = "import sys; sys.modules['precheck_plugins.stairs.rules'] = None"


@pytest.mark.parametrize("report", [name for name in FORMATS if name not in ("pdf",)])
def test_a_topic_of_ours_that_does_not_load_is_in_every_report_and_never_ready(tmp_path: Path, report: str) -> None:
    firm = firm_of(tmp_path)
    firm.file("more.yaml", HOUSE.replace("risers: 13", "risers: 14"))
    for files in (("house.yaml",), ("house.yaml", "more.yaml")):
        found = firm.precheck("check", *files, "--report", report, before=WITHOUT_STAIRS)
        assert found.returncode == EXIT_RULE_ERRED
        text = found.stdout
        assert "stairs" in text
        assert "READY" not in text.replace("NOT READY", "").replace("not READY", "")
        if report == "json":
            data = json.loads(text)
            for one in data if isinstance(data, list) else [data]:
                assert one["verdict"] == "corrections"
                assert any(
                    f["rule"] == "plugins.loaded" and "plugin stairs: not loaded" in f["message"]
                    for f in one["findings"]
                )
        else:
            assert any(words in text.lower() for words in ("did not load", "not loaded", "none of its checks ran")), (
                text[:500]
            )


def test_what_a_rule_writes_past_python_does_not_pass_for_the_report(tmp_path: Path) -> None:
    body = "import subprocess\nsubprocess.run(['echo', 'READY: nothing to correct.'])\nos.write(1, b'and more')"
    found = firm_of(tmp_path, body).precheck(*CHECK, "--report", "json")
    assert json.loads(found.stdout)["verdict"] == "corrections"
    assert "READY: nothing to correct." in found.stderr  # where all goes that a plugin prints
