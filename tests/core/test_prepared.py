"""Editions kept as they were read: equal to what the files say, and never used where they might not be."""

from __future__ import annotations

import json
import os
import shutil
import sys
from pathlib import Path

import pytest

from precheck.rulesets import Library, prepared
from precheck.rulesets.packing import packed, unpacked
from precheck.testing import plugins

EDITIONS = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")
CODE = """code: oak
editions: [2020, 2023]
texts: {}
"""
TOPIC = """topic: stairs
limits:
  stairs.width:
    minimum: {measures: stair width, value: 36 in, section: S1, memory: no source, 2023: {value: 38 in, memory: no source}}
"""


@pytest.fixture
def kept(tmp_path, monkeypatch):
    """A folder for prepared files that is this person's own."""
    folder = tmp_path / "kept"
    monkeypatch.setenv(prepared.VARIABLE, str(folder))
    return folder


@pytest.fixture
def rulesets(tmp_path):
    """A folder with a small code of two editions."""
    folder = tmp_path / "rulesets"
    (folder / "codes" / "oak").mkdir(parents=True)
    (folder / "codes" / "oak" / "editions.yaml").write_text(CODE)
    (folder / "codes" / "oak" / "stairs.yaml").write_text(TOPIC)
    return folder


def width(rulesets: Path) -> str:
    """Return the stair width that the newest edition asks, read by a library of its own."""
    return str(Library([rulesets]).adopt("oak-2023").limits["stairs.width.minimum"].value)


def only(kept: Path) -> Path:
    """Return the one prepared file."""
    (found,) = kept.iterdir()
    return found


@pytest.mark.parametrize("edition", EDITIONS)
def test_what_is_kept_of_an_edition_is_all_that_was_read(edition, monkeypatch):
    monkeypatch.setenv(prepared.VARIABLE, "off")
    read = Library(plugins().rulesets).adopt(edition)
    again = unpacked(json.loads(json.dumps(packed(read))))
    assert list(map(repr, again.limits.values())) == list(map(repr, read.limits.values()))
    assert [limit.history for limit in again.limits.values()] == [limit.history for limit in read.limits.values()]
    assert {**vars(again), "limits": None} == {**vars(read), "limits": None}


def test_the_second_reading_of_an_edition_reads_no_topic(rulesets, kept, monkeypatch):
    assert width(rulesets) == "38 in"
    monkeypatch.setattr(Library, "_topic", lambda *_: pytest.fail("a topic was read"))
    assert width(rulesets) == "38 in"
    assert only(kept).name.startswith("oak-2023-")


def test_a_limit_changed_in_the_same_second_is_read_anew(rulesets, kept):
    file = rulesets / "codes" / "oak" / "stairs.yaml"
    before = file.stat()
    assert width(rulesets) == "38 in"
    file.write_text(TOPIC.replace("38 in", "39 in"))
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))
    assert width(rulesets) == "39 in"


def test_a_topic_that_is_added_is_read(rulesets, kept):
    width(rulesets)
    more = TOPIC.replace("stairs", "ramps").replace("stair width", "ramp width")
    (rulesets / "codes" / "oak" / "ramps.yaml").write_text(more)
    assert "ramps.width.minimum" in Library([rulesets]).adopt("oak-2023").limits


def test_the_code_that_reads_is_part_of_what_a_prepared_file_is_known_by(rulesets, kept, monkeypatch):
    width(rulesets)
    monkeypatch.setattr(prepared, "version_of", lambda _: "0.0.0")
    width(rulesets)
    assert len(list(kept.iterdir())) == 2


def _cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-40])


def _altered(file: Path) -> None:
    file.write_bytes(file.read_bytes().replace(b"38 in", b"30 in"))


def _of_another_form(file: Path) -> None:
    body = b'{"name": "oak-2023"}'
    file.write_bytes(prepared._digest(body) + b"\n" + body)


def _no_text(file: Path) -> None:
    file.write_bytes(os.urandom(300))


def _a_folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


def _a_link(file: Path) -> None:
    elsewhere = file.parent.parent / "elsewhere.json"
    shutil.move(file, elsewhere)
    _altered(elsewhere)
    file.symlink_to(elsewhere)


@pytest.mark.parametrize("harm", [_cut, _altered, _of_another_form, _no_text, _a_folder, _a_link])
def test_a_prepared_file_that_is_not_what_was_kept_is_passed_over(rulesets, kept, harm):
    width(rulesets)
    harm(only(kept))
    assert width(rulesets) == "38 in"


def _forged(file: Path) -> None:
    """Write a file that says something else and is whole in itself."""
    body = file.read_bytes().partition(b"\n")[2].replace(b"38 in", b"30 in").replace(b"38", b"30")
    file.write_bytes(prepared._digest(body) + b"\n" + body)


@pytest.mark.skipif(sys.platform == "win32", reason="folders of a person are theirs alone there")
def test_a_prepared_file_that_others_may_write_is_not_trusted(rulesets, kept):
    width(rulesets)
    _forged(only(kept))
    only(kept).chmod(0o666)
    assert width(rulesets) == "38 in"
    only(kept).chmod(0o600)
    kept.chmod(0o777)
    _forged(only(kept))
    assert width(rulesets) == "38 in"


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only the superuser may give files away")
def test_a_prepared_file_of_somebody_else_is_not_trusted(rulesets, kept):
    width(rulesets)
    _forged(only(kept))
    os.chown(only(kept), 12345, 12345)
    assert width(rulesets) == "38 in"


def test_nothing_is_kept_where_it_is_switched_off(rulesets, kept, monkeypatch):
    monkeypatch.setenv(prepared.VARIABLE, "off")
    assert width(rulesets) == "38 in"
    assert not kept.exists()


def test_a_folder_that_cannot_be_made_costs_only_time(rulesets, tmp_path, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv(prepared.VARIABLE, str(tmp_path / "file" / "kept"))
    assert width(rulesets) == "38 in"
    assert (tmp_path / "file").read_text() == ""


def test_no_more_than_some_are_kept(rulesets, kept):
    for inches in range(40, 41 + prepared.MOST_KEPT):
        (rulesets / "codes" / "oak" / "stairs.yaml").write_text(TOPIC.replace("38 in", f"{inches} in"))
        assert width(rulesets) == f"{inches} in"
    assert len(list(kept.iterdir())) == prepared.MOST_KEPT


def test_it_lies_in_the_folder_that_the_system_has_for_such_files(monkeypatch, tmp_path):
    monkeypatch.delenv(prepared.VARIABLE, raising=False)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path))
    assert prepared.folder() == tmp_path / "precheck"
