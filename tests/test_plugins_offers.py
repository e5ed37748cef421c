"""What a plugin may add besides rules: a field of a part, a format of the report, a reader of design files."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from firm import Firm
from test_plugins_isolation import loaded, plugin

from precheck import AddedField, Importer, ReportFormat
from precheck.files.source import Unusable, read_text
from precheck.project import project_from

CODE = '''
"""What our firm wants of a window, a list for the spreadsheet, and surveys of our own."""

import csv
import io
from pathlib import Path

from precheck import (
    AddedField, Check, Draft, Importer, Length, Limit, Limits, ReportFormat, Value, Window, all_of, at_least, hookimpl,
    required, rule,
)


class PanLimits(Limits):
    """What keeps water out below a window."""

    pan: Limit[bool]
    height: Limit[Length]


@rule("juniper.sill-pan", stage="framing")
def sill_pan(window: Window, limit: PanLimits) -> Check:
    """A window has a sill pan that is turned up behind it."""
    height = window.added.measure("pan height", Length)
    return all_of(
        required(window.added.answer("sill pan"), limit.pan),
        at_least(height, limit.height).or_fix(lambda: f"turn it up {limit.height.value}"),
    )


def listed(projects):
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\\n")
    rows.writerow(["file", "rule", "part", "outcome"])
    for project in projects:
        if project["verdict"] == "unusable":
            rows.writerow([project["project"]["file"], "", "", "unusable"])
        for found in project.get("findings", []):
            if found["topic"] == "juniper":
                rows.writerow([project["project"]["file"], found["rule"], found["subject"]["id"], found["outcome"]])
    return out.getvalue()


def survey(path, name):
    draft = Draft(name, "survey", path.stem)
    draft.add("spaces", {"id": Value("hall"), "use": Value("hall")})
    for number, line in enumerate(path.read_text().splitlines(), 1):
        tag, size, pan = line.split(";")
        draft.lines[tag] = number
        draft.add("windows", {
            "id": Value(draft.free_id(tag), "the tag", tag), "phase": Value("new"), "space": Value("hall"),
            "unit size": Value(size, "the survey", tag), "sill pan": Value(pan, "the survey", tag),
        })
    draft.doubt("heights of sill pans are not in a survey")
    return draft


@hookimpl
def precheck_rules():
    return [sill_pan]


@hookimpl
def precheck_rulesets():
    return [Path(__file__).parent / "rulesets"]


@hookimpl
def precheck_fields():
    return [
        AddedField("window", "sill pan", {"type": "boolean"}),
        AddedField("window", "pan height", {"type": "string", "format": "length"}, example="2 in"),
    ]


@hookimpl
def precheck_reports():
    return [ReportFormat("juniper-list", listed)]


@hookimpl
def precheck_importers():
    return [Importer(".survey", survey)]
'''  # fmt: skip

LIMITS = """
topic: juniper
limits:
  juniper.sill-pan:
    pan: {measures: sill pan, sense: required, value: required, practice: no source}
    height: {measures: height of the sill pan, sense: minimum, value: 2 in, practice: no source}
"""
HOUSE = """\
project: P
jurisdiction: irc-2021
spaces: [{id: hall, use: hall}]
windows:
  - {id: W1, phase: new, space: hall, sill pan: yes, pan height: 1 1/2 in}
  - {id: W2, phase: new, space: hall}
"""
SURVEY = "W1;3'-0\" x 4'-0\";yes\nW2;3'-0\" x 4'-0\";no\n"


@pytest.fixture(scope="module")
def firm(tmp_path_factory: pytest.TempPathFactory) -> Firm:
    """Return the firm's plugin, installed."""
    made = Firm(tmp_path_factory.mktemp("firm"), CODE)
    made.limits(LIMITS)
    made.file("house.yaml", HOUSE)
    made.file("lobby.survey", SURVEY)
    return made


def test_the_plugin_is_listed_with_what_it_adds(firm: Firm) -> None:
    said = firm.precheck("plugins").stdout
    assert "juniper (juniper-rules 1.0): 1 rule, 2 fields, 1 report, 1 importer, rulesets" in said
    for line in ("field `sill pan` of a window in", "report `juniper-list`, for check", "that end in .survey"):
        assert line in said


def test_an_added_field_is_judged_and_what_is_not_given_is_a_need(firm: Firm) -> None:
    found = firm.precheck("check", "house.yaml", "--topic", "juniper", "--report", "json")
    one, two = json.loads(found.stdout)["findings"]
    assert (one["outcome"], one["remedy"]) == ("fail", "turn it up 2 in")
    assert one["message"] == "window W1: Height of the sill pan: 1 1/2 in, 2 in minimum (1/2 in too low)"
    assert (two["outcome"], two["needs"]) == ("not shown", ["sill pan of window W2", "pan height of window W2"])


def test_ask_asks_for_an_added_field_checks_the_answer_and_writes_it(firm: Firm) -> None:
    file = firm.file("asked.yaml", HOUSE)
    asked = firm.precheck("ask", "asked.yaml", answers="\n" * 80).stdout
    assert "a length with its unit, e.g. 2 in\n  pan height: " in asked
    before = re.findall(r"(?m)^  ([a-z ]+): (?:  |$)", asked.partition("\n  sill pan: ")[0])
    answers = ["" for _ in before] + ["perhaps", "yes", "2", "2 in", "stop"]
    said = firm.precheck("ask", "asked.yaml", answers="\n".join([*answers, ""])).stdout
    assert "Not accepted: sill pan: `perhaps` does not belong here; write yes or no" in said
    assert "Not accepted: pan height: `2` has no unit" in said
    assert file.read_text() == HOUSE.replace(
        "W2, phase: new, space: hall", "W2, phase: new, space: hall, sill pan: yes, pan height: 2 in"
    )


def test_an_added_field_is_refused_at_its_line_with_what_else_is_wrong(firm: Firm) -> None:
    firm.file(
        "bad.yaml",
        HOUSE.replace("pan: yes", "pan: perhaps").replace("1 1/2 in", "1 1/2").replace("use: hall", "yuse: hall"),
    )
    found = firm.precheck("check", "bad.yaml")
    assert found.returncode == 2
    told = [line.partition(";")[0] for line in found.stderr.splitlines()]
    assert told == [
        "bad.yaml:3:21: `yuse` is not a key of a space",
        "bad.yaml:5:39: sill pan: `perhaps` does not belong here",
        "bad.yaml:5:58: pan height: `1 1/2` has no unit",
        "3 problems to mend first.",
    ]


def test_the_schema_of_projects_holds_an_added_field(firm: Firm) -> None:
    schema = json.loads(firm.precheck("schema", "project").stdout)
    assert schema["$defs"]["Window"]["properties"]["sill pan"] == {"type": "boolean"}


def test_a_format_of_a_plugin_is_made_of_one_file_of_several_and_of_one_that_cannot_be_used(firm: Firm) -> None:
    head, rows = (
        "file,rule,part,outcome\n",
        "house.yaml,juniper.sill-pan,W1,fail\nhouse.yaml,juniper.sill-pan,W2,not shown\n",
    )
    assert firm.precheck("check", "house.yaml", "--report", "juniper-list").stdout == head + rows
    firm.file("broken.yaml", "project: P\nspases: []\n")
    many = firm.precheck("check", "broken.yaml", "house.yaml", "--report", "juniper-list", "--output", "list.csv")
    assert many.returncode == 2
    assert (firm.folder / "list.csv").read_text() == f"{head}broken.yaml,,,unusable\n{rows}"


def test_a_format_that_is_not_offered_is_refused_with_the_nearest(firm: Firm) -> None:
    found = firm.precheck("check", "house.yaml", "--report", "juniper-lst")
    assert found.returncode == 2
    assert "`juniper-lst` is no format of the report; did you mean `juniper-list`?" in found.stderr


def test_a_design_file_of_a_plugin_is_checked_at_its_lines_and_imported(firm: Firm) -> None:
    found = firm.precheck("check", "lobby.survey", "--ruleset", "irc-2021", "--topic", "juniper", "--report", "json")
    data = json.loads(found.stdout)
    assert [(f["subject"]["id"], f["outcome"], f["place"]["line"]) for f in data["findings"]] == [
        ("W1", "not shown", 1), ("W2", "fail", 2),
    ]  # fmt: skip
    assert "design file: heights of sill pans are not in a survey" in data["not_checked"]
    assert firm.precheck("import", "lobby.survey", "--output", "lobby.yaml").returncode == 0
    assert "    sill pan: no  # from the survey\n" in (firm.folder / "lobby.yaml").read_text()
    assert firm.precheck("check", "lobby.yaml", "--ruleset", "irc-2021").returncode == 1


def test_a_design_file_at_which_the_reader_of_a_plugin_breaks_off_is_told(firm: Firm) -> None:
    firm.file("bad.survey", "W1;3 ft\n")
    found = firm.precheck("check", "bad.survey", "--ruleset", "irc-2021")
    assert found.returncode == 2
    assert "bad.survey:1:1: not readable (ValueError: not enough values to unpack" in found.stderr


def test_a_file_that_nobody_reads_is_refused_with_the_endings_that_are_read(firm: Firm) -> None:
    firm.file("house.plan", "a plan\n")
    assert (
        "name one that ends in .ifc or .ifczip or .dxf or .pdf or .survey"
        in firm.precheck("import", "house.plan").stderr
    )


BREAKS = """
from precheck import ReportFormat, hookimpl

def broken(projects):
    print("on the way")
    raise ValueError("no cells")

@hookimpl
def precheck_reports():
    return [ReportFormat("cells", broken), ReportFormat("rows", lambda projects: 7)]
"""


@pytest.mark.parametrize(("name", "why"), [("cells", "ValueError: no cells"), ("rows", "it returned int")])
def test_a_format_that_breaks_off_ends_the_run_with_its_name_and_writes_nothing(
    tmp_path: Path, name: str, why: str
) -> None:
    firm = Firm(tmp_path, BREAKS)
    firm.file("house.yaml", HOUSE.replace(", sill pan: yes, pan height: 1 1/2 in", ""))
    for files in (["house.yaml"], ["house.yaml", "other.yaml"]):
        found = firm.precheck("check", *files, "--report", name, "--output", "out")
        assert found.returncode == 3
        assert f"the report `{name}`, which a plugin offers, failed ({why}" in found.stderr
        assert "Traceback" not in found.stderr
        assert not (tmp_path / "out").exists()


TEXT = {"type": "string"}


@pytest.mark.parametrize(
    ("offered", "why"),
    [
        ({"fields": [AddedField("windw", "pan", TEXT)]}, "in a list of the project file; did you mean `window`?"),
        ({"fields": [AddedField("window", "sill height", TEXT)]}, "`sill height` is taken by the project file itself"),
        ({"fields": [AddedField("window", "pan", TEXT)] * 2}, "the field of a window `pan` is taken by the plugin itself"),
        ({"reports": [ReportFormat("sarif", str)]}, "the report `sarif` is taken by precheck itself"),
        ({"importers": [Importer(".IFC", print)]}, "the importer of `.ifc` is taken by precheck itself"),
        ({"importers": [Importer(".yaml", print)]}, "the importer of `.yaml` is taken by precheck itself"),
        ({"reports": ["csv"]}, "precheck_reports returned 'csv', which is no ReportFormat"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_what_is_ours_or_stands_for_nothing_cannot_be_added(offered: dict[str, list[object]], why: str) -> None:
    ((hook, items),) = offered.items()
    (failure,) = loaded(("bad", plugin(**{hook: lambda: items}))).failures
    assert why in failure.why


def test_two_plugins_may_add_fields_and_the_second_to_claim_a_key_is_told() -> None:
    def adds(key: str) -> object:
        return plugin(fields=lambda: [AddedField("window", key, TEXT)])

    plugins = loaded(("one", adds("pan")), ("two", adds("pan")), ("three", adds("trim")))
    assert [field.key for field in plugins.added if isinstance(field, AddedField)] == ["pan", "trim"]
    assert "the field of a window `pan` is taken by one; choose another key" in plugins.failures[0].why


def test_a_rule_that_asks_for_a_key_that_no_plugin_adds_breaks_off_and_does_not_wait_for_ever() -> None:
    text = "project: P\nspaces: [{id: a}]\nwindows: [{id: W, space: a, pan: tin}]\n"
    (window,) = project_from(read_text(text, "p.yaml"), [AddedField("window", "pan", TEXT)]).windows
    assert window.added.text("pan") == "tin"
    with pytest.raises(KeyError, match="no plugin adds `pann` to window W"):
        window.added.text("pann")


def test_without_the_plugin_its_field_is_an_unknown_key() -> None:
    with pytest.raises(Unusable, match="`sill pan` is not a key of a window"):
        project_from(read_text(HOUSE, "p.yaml"))
