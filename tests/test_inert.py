"""Names that would act on what shows them are shown in every format and by every command, and act on nothing."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from firm import Firm

from precheck.files.inert import ACTING, inert
from precheck.reports import FORMATS

pytestmark = pytest.mark.long

HOSTILE = (
    "\n::error::pwned", "x\r::error::pwned", "x\u2028::error::pwned", "x\x85::error::pwned", "  ::set-output name=x::y",
    "##[error]pwned", "##teamcity[buildStop]", "x ##vso[task.complete]", "%0A::error::pwned",
    "\u202egnp.exe", "\u2066x\u2069", "\u200fx", "\x1b[31mred", "\x1b]0;title\x07", "\x9b2J", "\x08\x08", "\ufffe\uffff",
    "<script>alert(1)</script>", "<img src=x onerror=alert(1)>", "\" onload=\"alert(1)", "]]><x>", "&lt;", "javascript:alert(1)",
    "=cmd|'/C calc'!A0", "@SUM(1)", "+1", "| a | b |", "[x](javascript:alert(1))", "`x`", "# x", "* x", "1. x", "---",
    '#panic("x")', '#eval("1 + 1")', "$ frac(1, 0) $", "#read(\"/etc/passwd\")", "{{ 7 * 7 }}", "{% raise %}", "%s %(x)n", "${x}", "\\",
)  # fmt: skip
PLAIN = "plain"


def plan(names: tuple[str, ...]) -> str:
    """Return a project file with every name wherever a person may write one."""

    def quoted(text: str) -> str:
        return json.dumps(text)

    rooms = [(f"{n} {name}", name) for n, name in enumerate(names)][::3]
    spaces = [f"{{id: {quoted(tag)}, name: {quoted(name)}, use: bedroom, phase: new}}" for tag, name in rooms]
    doors = [
        f"{{id: {quoted(f'D{n}{name}')}, phase: new, between: [{quoted(rooms[n // 3][0])}, outside], note: {quoted(name)}}}"
        for n, name in list(enumerate(names))[1::3]
    ]
    notes = [f"{{id: {quoted(f'N{n}')}, note: {quoted(name)}}}" for n, name in enumerate(names)]
    excluded = [f"{{what: {quoted(name)}, why: {quoted(name)}}}" for name in names]
    return (
        f"project: {quoted(' '.join(names))}\njurisdiction: irc-2021\naddress: {quoted(names[0])}\n"
        f"spaces: [{', '.join(spaces)}]\ndoors: [{', '.join(doors)}]\nnotes: [{', '.join(notes)}]\n"
        f"not in this job: [{', '.join(excluded)}]\n"
    )


def precheck(*arguments: str, cwd: Path, answers: str = "") -> subprocess.CompletedProcess[bytes]:
    """Run the command."""
    command = [sys.executable, "-c", "from precheck.cli import main; main()", *arguments]
    return subprocess.run(command, capture_output=True, check=False, cwd=cwd, input=answers.encode())


def acting(text: str) -> list[str]:
    """Return what of a text would act on a terminal."""
    return [found for found in ACTING.findall(text) if found not in "\n\t"]


def commands(text: str) -> list[str]:
    """Return what of a log a build server would take for commands."""
    lines = [line.strip() for line in re.split(r"[\n\r\u2028\u2029\x85]", text)]
    return [line for line in lines if line.startswith("::") or re.search(r"##\w*\[", line)]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the hostile project, and one with the same parts and plain names."""
    made = tmp_path_factory.mktemp("plans")
    (made / "hostile.yaml").write_text(plan(HOSTILE), encoding="utf-8")
    (made / "plain.yaml").write_text(plan(tuple(f"{PLAIN} {n}" for n in range(len(HOSTILE)))))
    return made


@pytest.mark.parametrize("report", [name for name in FORMATS if name != "pdf"])
def test_hostile_names_act_on_nothing_in_any_format(folder: Path, report: str) -> None:
    found = precheck("check", "hostile.yaml", "--report", report, cwd=folder)
    text = found.stdout.decode()
    assert found.returncode == 1, found.stderr
    assert found.stderr == b""
    assert acting(text) == []
    if report == "github":
        ours = precheck("check", "plain.yaml", "--report", report, cwd=folder).stdout.decode()
        own = re.compile(r"::(error|warning|notice) file=[^,:]*,line=\d+,col=\d+,title=[^:,]*::")
        assert all(own.match(command) for command in commands(text))
        assert len(commands(text)) == len(commands(ours)) > 10
    elif report in ("json", "sarif", "html"):  # a file to keep; what may stand within its lines is data
        assert not any(line.startswith("::") for line in commands(text))
    else:
        assert commands(text) == []
    assert "pwned" in text


def test_machine_formats_hold_the_same_findings_as_with_plain_names(folder: Path) -> None:
    def told(name: str) -> list[tuple[str, str]]:
        data = json.loads(precheck("check", name, "--report", "json", cwd=folder).stdout)
        return sorted((one["rule"], one["outcome"]) for one in data["findings"])

    assert told("hostile.yaml") == told("plain.yaml")
    for report in ("sarif", "json"):
        text = precheck("check", "hostile.yaml", "--report", report, cwd=folder).stdout.decode()
        assert not any(line.strip().startswith("::") for line in text.split("\n"))
        json.loads(text)
    suite = ET.fromstring(precheck("check", "hostile.yaml", "--report", "junit", cwd=folder).stdout)
    assert {element.tag for element in suite.iter()} <= {
        "testsuites", "testsuite", "testcase", "failure", "error", "skipped", "properties", "property", "system-out",
        "system-err",
    }  # fmt: skip


class Elements(HTMLParser):
    """The elements of a page, and the attributes that would act."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.acts: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take in an element."""
        self.tags.add(tag)
        self.acts += [
            name
            for name, value in attrs
            if name.startswith("on") or ("javascript:" in (value or "") and name == "href")
        ]


def test_the_page_has_no_element_of_a_name_and_a_policy_that_runs_none(folder: Path) -> None:
    pages = {
        name: precheck("check", f"{name}.yaml", "--report", "html", cwd=folder).stdout.decode()
        for name in ("hostile", PLAIN)
    }
    hostile, ours = Elements(pages["hostile"]), Elements(pages[PLAIN])
    assert hostile.tags <= ours.tags | {"code"}
    assert not {"script", "img", "iframe", "object"} & hostile.tags
    assert hostile.acts == []
    assert "default-src 'none'; style-src 'unsafe-inline'" in pages["hostile"]


def test_markdown_shows_markup_as_it_was_written(folder: Path) -> None:
    text = precheck("check", "hostile.yaml", "--report", "markdown", cwd=folder).stdout.decode()
    assert "\\<script\\>" in text
    assert re.search(r"(?<!\\)<(?!br>|/?details>|/?summary>)", text) is None
    assert re.search(r"(?<!\\)\]\(", text) is None


def test_a_pdf_comes_of_hostile_names_and_of_nothing_that_they_ask_for(folder: Path) -> None:
    pytest.importorskip("typst")
    for name in ("hostile", PLAIN):
        found = precheck("check", f"{name}.yaml", "--report", "pdf", "--output", f"{name}.pdf", cwd=folder)
        assert found.returncode == 1, found.stderr
        assert (folder / f"{name}.pdf").read_bytes().startswith(b"%PDF")


FILES = (
    "a\n::error::pwned.yaml",
    "::error::pwned.yaml",
    "a\x1b[31m.yaml",
    "\u202eb.yaml",
    "##[error]c.yaml",
    "c\rd.yaml",
)


@pytest.mark.parametrize("report", ["text", "github", "junit", "markdown"])
@pytest.mark.skipif(os.name == "nt", reason="such names cannot be given to files here")
def test_names_of_files_act_on_nothing_whether_they_can_be_used_or_not(tmp_path: Path, report: str) -> None:
    for number, name in enumerate(FILES):
        (tmp_path / name).write_text(
            "project: P\njurisdiction: irc-2021\nspaces: [{id: a}]\n" if number % 2 else "stares: [x]\nmore: 1\n"
        )
    found = precheck("check", "*.yaml", "nowhere\n::error::x.yaml", "--report", report, cwd=tmp_path)
    out, err = found.stdout.decode(), found.stderr.decode()
    assert found.returncode == 2, err
    assert acting(out + err) == []
    assert commands(err) == []
    own = r"::(error|warning|notice) file=[^,:]*,line=\d+,col=\d+,title=[^:,]*::"
    assert [one for one in commands(out) if not (report == "github" and re.match(own, one))] == []


@pytest.mark.parametrize(
    "arguments",
    [("ask", "hostile.yaml"), ("compare", "plain.yaml", "hostile.yaml"), ("papers", "corrections", "hostile.yaml"),
     ("papers", "field-verify", "hostile.yaml"), ("papers", "inspections", "hostile.yaml"),
     ("explain", "doors.landing", "--project", "hostile.yaml"), ("check", "hostile.yaml", "--all"),
     ("check", "hostile.yaml", "plain.yaml", "--strict")],
    ids=lambda arguments: " ".join(arguments[:2]),
)  # fmt: skip
def test_no_command_passes_a_hostile_name_on(folder: Path, arguments: tuple[str, ...]) -> None:
    found = precheck(*arguments, cwd=folder, answers="\n" * 400)
    text = found.stdout.decode() + found.stderr.decode()
    assert len(text) > 100
    assert "Traceback" not in text
    assert acting(text) == []
    assert commands(text) == []


def test_problems_of_a_file_act_on_nothing(tmp_path: Path) -> None:
    keys = "".join(f"{json.dumps(f'{name} {n}')}: {json.dumps(name)}\n" for n, name in enumerate(HOSTILE))
    (tmp_path / "p.yaml").write_text(
        f"project: P\nspaces: [{{id: a, use: {json.dumps(HOSTILE[0])}}}]\n{keys}", encoding="utf-8"
    )
    found = precheck("check", "p.yaml", cwd=tmp_path)
    assert found.returncode == 2
    assert len(found.stderr.decode().split("\n")) > len(HOSTILE)
    assert acting(found.stderr.decode()) == []
    assert commands(found.stderr.decode()) == []


def test_what_is_ours_stays_as_it_is() -> None:
    for text in ("\x1b[1mbold\x1b[0m\n", "a: b :: c\n", "## 3. Heading [x]\n", "ratio 1:12\n"):
        assert inert(text) == text


TOWN = """\
jurisdiction: {name}
adopts: irc-2021
in force: 2026-01-01
by: {act}
note: {note}
amendments:
  - {{amend: stairs.riser-height.maximum, was: 7 3/4 in, to: 7 in, by: {act}, note: {note}}}
"""
STAIR = (
    "project: P\nspaces: [{id: hall, use: hall}, {id: loft, use: bedroom}]\n"
    "stairs: [{id: S1, phase: new, between: [hall, loft], total rise: 108 1/2 in, risers: 13}]\n"
)
HOSTILE_RULE = """
from precheck import Check, Stair, broken, hookimpl, rule

TEXT = {text!r}
print(TEXT)


@rule("bad.rule")
def bad(stair: Stair) -> Check:
    \"\"\"Be a plugin of others.\"\"\"
    print(TEXT)
    return broken(TEXT).because(TEXT).or_fix(TEXT)


@hookimpl
def precheck_rules():
    return [bad]
"""


@pytest.mark.parametrize("report", [name for name in FORMATS if name != "pdf"])
def test_texts_of_a_ruleset_of_a_letter_and_of_a_plugin_act_on_nothing_in_any_format(
    tmp_path: Path, report: str
) -> None:
    text = " ".join(HOSTILE)
    firm = Firm(tmp_path, HOSTILE_RULE.format(text=text), "bad")
    firm.file("house.yaml", STAIR)
    name, act = json.dumps(f"Alder{HOSTILE[0]}"), json.dumps(f"Ordinance 1{HOSTILE[2]}")
    (tmp_path / "town.yaml").write_text(TOWN.format(name=name, act=act, note=json.dumps(text)), encoding="utf-8")
    letter = f"{{rule: bad.rule, part: S1, document: {json.dumps(text)}, by: {json.dumps(text)}, until: 2020-01-01}}"
    (tmp_path / "accepted.yaml").write_text(f"accepted: [{letter}]\n", encoding="utf-8")
    command = ("check", "house.yaml", "--ruleset", "town.yaml", "--report", report)
    found = firm.precheck(*command)
    assert found.returncode == 1, found.stderr
    said = found.stdout + found.stderr
    assert "pwned" in found.stdout
    assert "Traceback" not in said
    assert acting(found.stdout) == []
    own = r"::(error|warning|notice) file=[^,:]*,line=\d+,col=\d+,title=[^:,]*::"
    ours = report in ("json", "sarif", "html")  # files to keep, in which what stands within a line is data
    begun = [line for line in found.stdout.split("\n") if line.startswith("::")] if ours else commands(found.stdout)
    assert [one for one in begun if not (report == "github" and re.match(own, one))] == []
