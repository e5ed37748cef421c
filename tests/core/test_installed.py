"""What installed distributions register: found in their folders as the standard library finds it."""

from __future__ import annotations

import sys
from importlib.metadata import entry_points
from pathlib import Path
from zipfile import ZipFile

import pytest

from precheck.files.installed import Registered, _registered_by, registered


def installed(site: Path, name: str, told: str, metadata: str | None = None) -> None:
    folder = site / f"{name}.dist-info"
    folder.mkdir(parents=True)
    (folder / "entry_points.txt").write_text(told)
    if metadata is not None:
        (folder / "METADATA").write_text(metadata)


def test_all_that_is_registered_here_is_what_the_standard_library_finds() -> None:
    groups = entry_points().groups
    found = (one for group in groups for one in entry_points(group=group))
    theirs = [(e.group, e.name, e.value, e.dist.name, e.dist.version) for e in found if e.dist is not None]
    assert {"precheck.plugins", "precheck.commands", "console_scripts"} <= set(groups)
    assert sorted(map(tuple, registered(*groups))) == sorted(theirs)


def test_what_is_registered_loads_as_the_standard_library_loads_it() -> None:
    for theirs in entry_points(group="precheck.commands"):
        assert Registered("g", theirs.name, theirs.value).load() is theirs.load()
    assert Registered("g", "n", "pathlib : Path.cwd [extra]").load() == Path.cwd


def test_of_two_distributions_of_one_name_the_first_counts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    head = "Metadata-Version: 2.1\nName: Oak-Rules\nVersion: {0}\n\nVersion: 9 is in the text\n"
    installed(
        tmp_path / "a", "oak_rules-2.0", "# ours\n[some.group]\nx = oak : name\n\n[other]\ny=z", head.format("2.0")
    )
    installed(tmp_path / "b", "Oak.Rules-1.0", "[some.group]\nx = old", head.format("1.0"))
    monkeypatch.setattr(sys, "path", [str(tmp_path / "none"), str(tmp_path / "a"), str(tmp_path / "b")])
    assert registered("some.group") == [Registered("some.group", "x", "oak : name", "Oak-Rules", "2.0")]
    assert registered("some.group")[0].package == "oak"


def test_a_distribution_that_says_nothing_of_itself_is_called_as_its_folder_is(tmp_path: Path) -> None:
    installed(tmp_path, "oak-2.0", "[some.group]\nx = oak")
    found = list(_registered_by(tmp_path / "oak-2.0.dist-info"))
    assert found == [Registered("some.group", "x", "oak", "oak", "2.0")]


def test_a_distribution_in_an_archive_is_found_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with ZipFile(tmp_path / "site.zip", "w") as archive:
        archive.writestr("oak-2.0.dist-info/entry_points.txt", "[some.group]\nx = oak")
        archive.writestr("oak-2.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: oak\nVersion: 2.0\n")
    monkeypatch.setattr(sys, "path", [*sys.path, str(tmp_path / "site.zip")])
    assert registered("some.group") == [Registered("some.group", "x", "oak", "oak", "2.0")]
