"""YAML with positions."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from precheck.files.source import LARGEST_FILE, Unusable, read_file, read_text


def test_scalars_stay_the_text_that_was_written():
    assert read_text("a: 0x1F\nb: 1_000\nc: 2026-03-02\nd: no\ne: ~\nf: ''", "f") == {
        "a": "0x1F", "b": "1_000", "c": "2026-03-02", "d": "no", "e": None, "f": "",
    }  # fmt: skip


def test_every_key_and_item_knows_its_place():
    tree = read_text("a: 1\nb:\n  - x\n  - {c: 2}\n", "plan.yaml")
    assert str(tree.place_of("b")) == "plan.yaml:2:1"
    assert str(tree["b"].place_of(1)) == "plan.yaml:4:5"
    assert str(tree["b"][1].place_of("c")) == "plan.yaml:4:6"


BOMB = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 9)
)


@pytest.mark.parametrize(
    ("text", "line", "says"),
    [
        ("a: [", 2, "look for a missing quote or bracket"),
        ('b: 1\na: "x\n', 2, "found unexpected end"),
        ("\ta: b", 1, "indent with spaces instead of a tab"),
        ("a: b: c", 1, "mapping values are not allowed"),
        ("a: \x01", 1, "remove that character"),
        ("- a", 1, "a mapping of keys to values belongs here"),
        ("", 1, "the file is empty; begin with a line like `project: My house`"),
        ("just words", 1, "a mapping of keys to values belongs here"),
        ("a: !!python/object x", 1, "the tag `tag:yaml.org,2002:python/object` is not used here"),
        ("a: 1\n---\nb: 2", 2, "a second document starts here"),
        ("a: *x", 1, "refers to nothing written before it"),
        ("a: &a [*a]", 1, "refers to nothing written before it"),
        ("a: 1\nb: 2\na: 3", 3, "`a` stands twice, first in line 1"),
        ("? [a]\n: b", 1, "a key must be plain text"),
        ("a: " + "[" * 60 + "]" * 60, 1, "nested more than 40 levels deep"),
        ("a: " + "{b: " * 5000, 1, "nested more than 40 levels deep"),
        (BOMB, 6, "unfolds to more than"),
    ],
)
def test_what_cannot_be_used_is_refused_with_its_line(text, line, says):
    with pytest.raises(Unusable) as refused:
        read_text(text, "f.yaml")
    (problem,) = refused.value.problems
    assert problem.place.line == line
    assert says in problem.what


def test_a_missing_a_binary_and_a_huge_file_are_refused(tmp_path: Path):
    binary = tmp_path / "b.yaml"
    binary.write_bytes(b"a: \xff\xfe")
    huge = tmp_path / "h.yaml"
    with huge.open("wb") as file:
        file.truncate(50 * 1024 * 1024)
    for path, says in (
        (tmp_path / "no.yaml", "no such file"),
        (binary, "not UTF-8"),
        (huge, f"{LARGEST_FILE:,} is the most"),
        (tmp_path, "cannot be read"),
    ):
        with pytest.raises(Unusable, match=says):
            read_file(path)


def test_a_pipe_and_a_device_without_an_end_are_refused_and_not_waited_for(tmp_path: Path):
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path / "pipe", Path("/dev/zero")):
        with pytest.raises(Unusable, match="a pipe or a device and no file; save what it gives"):
            read_file(path)


def test_an_alias_gives_the_value_it_names():
    assert read_text("a: &a {b: 1}\nc: *a", "f")["c"] == {"b": "1"}


def test_the_tree_is_the_same_without_the_c_scanner(monkeypatch: pytest.MonkeyPatch):
    text = "a: 1\nb: [x, {c: ~}]\nd: |\n  long\n  text\n"
    quick = read_text(text, "f")
    monkeypatch.setitem(__import__("sys").modules, "_ruamel_yaml", None)
    slow = read_text(text, "f")
    assert quick == slow
    assert quick["b"].items_at == slow["b"].items_at
    assert quick.keys_at == slow.keys_at
