"""A mapping file goes with every command that takes a design file, also over many files; mistakes in it are told."""

import json

import pytest
from click.testing import CliRunner

from precheck.cli import cli

ezdxf = pytest.importorskip("ezdxf")


@pytest.fixture
def folder(tmp_path):
    for name in ("one.dxf", "two.dxf"):
        document = ezdxf.new()
        document.header["$INSUNITS"] = 1
        space = document.modelspace()
        space.add_lwpolyline([(0, 0), (144, 0), (144, 84), (0, 84)], close=True, dxfattribs={"layer": "A-AREA"})
        space.add_text("ZIMMER 1", dxfattribs={"layer": "A-AREA-IDEN", "insert": (60, 60)})
        document.saveas(tmp_path / name)
    (tmp_path / "names.yaml").write_text("uses: {Zimmer 1: bedroom}\n")
    return tmp_path


def run(*args):
    result = CliRunner().invoke(cli, [str(arg) for arg in args])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.output
    return result


def uses_asked(output):
    return [
        f for f in json.loads(output)["findings"] if f["rule"] == "package.room-use" and f["outcome"] == "not shown"
    ]


def test_check_takes_the_names_of_a_mapping_file(folder):
    options = ("--ruleset", "irc-2021", "--report", "json", "--topic", "package")
    assert uses_asked(run("check", folder / "one.dxf", *options).stdout)
    assert not uses_asked(run("check", folder / "one.dxf", *options, "--mapping", folder / "names.yaml").stdout)


@pytest.mark.parametrize("jobs", [1, 2])
@pytest.mark.long
def test_a_run_over_many_files_carries_it(folder, jobs):
    files = [folder / "one.dxf", folder / "two.dxf"]
    options = ("--ruleset", "irc-2021", "--report", "json", "--topic", "package", "--jobs", jobs)
    found = json.loads(run("check", *files, *options, "--mapping", folder / "names.yaml").stdout)
    assert len(found) == 2
    assert not [
        f for one in found for f in one["findings"] if f["rule"] == "package.room-use" and f["outcome"] == "not shown"
    ]


@pytest.mark.parametrize("command", [
    ("papers", "corrections", "one.dxf"), ("papers", "response", "one.dxf", "two.dxf", "--blank"), ("compare", "one.dxf", "two.dxf"),
    ("explain", "package.room-use", "--project", "one.dxf"),
])  # fmt: skip
def test_the_other_commands_take_it_too(folder, command):
    args = [str(folder / word) if word.endswith(".dxf") else word for word in command]
    without = run(*args, "--ruleset", "irc-2021").output
    with_it = run(*args, "--ruleset", "irc-2021", "--mapping", folder / "names.yaml").output
    assert "Usage" not in with_it
    assert with_it != without or command[0] == "compare"


def test_a_mistake_in_the_mapping_file_is_told_once_at_its_line(folder):
    (folder / "names.yaml").write_text("uses:\n  Zimmer 1: sleping room\n")
    files = [folder / "one.dxf", folder / "two.dxf"]
    result = CliRunner().invoke(
        cli, ["check", *map(str, files), "--ruleset", "irc-2021", "--mapping", str(folder / "names.yaml")]
    )
    told = str(result.exception) + result.output
    assert told.count("did you mean `bedroom`") == 1
    assert "names.yaml:2:" in told


def test_a_mapping_file_without_a_design_file_is_refused(folder):
    (folder / "house.yaml").write_text("project: House\njurisdiction: irc-2021\n")
    result = CliRunner().invoke(cli, ["check", str(folder / "house.yaml"), "--mapping", str(folder / "names.yaml")])
    assert result.exit_code == 2
    assert "it is for design files (.ifc, .dxf), and none is named" in result.output
