"""Changes of a person's file: what was meant is in it, every other sign is as it was, or nothing is changed at all."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from precheck.files.edit import GONE, Change, Moved, with_changes
from precheck.files.source import Unusable, read_text

BIG = (Path(__file__).parents[1] / "examples" / "alder-court" / "proposed.yaml").read_text(encoding="utf-8")
HEAD = "project: P\njurisdiction: irc-2021\n"


def read(text: str) -> Any:
    return read_text(text, "house.yaml")


def alike(one: str, other: str) -> int:
    """Return how many signs the two have in common from the first one on."""
    return next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))


def differing(old: str, new: str) -> tuple[str, str]:
    """Return what of `old` is not in `new`, and what of `new` is not in `old`, in one piece."""
    start = alike(old, new)
    end = alike(old[start:][::-1], new[start:][::-1])
    return old[start : len(old) - end], new[start : len(new) - end]


def is_left(one: str, other: str) -> bool:
    """Return whether the signs of `one` are all in `other`, in their order, but for brackets of what is empty."""
    left = iter(other)
    return all(sign in left for sign in one if sign not in "[]{} \r\n")


# --- small files in all their variants


def variants() -> Iterator[str]:
    """Yield two rooms in every mixture of comments, forms, indents and line ends."""
    for above, flow, beside, block, offset, blank, end, ends in itertools.product((True, False), repeat=8):
        dash = "  - " if offset else "- "
        room = "{id: bedroom, use: bedroom, phase: altered}" if flow else f"id: bedroom\n{' ' * len(dash)}use: bedroom"
        hall = f"id: hall\n{' ' * len(dash)}use: hall" if block else "{id: hall, use: hall}"
        lines = (
            f"{HEAD}spaces:\n{f'{dash[:-2]}# what the job changes{chr(10)}' if above else ''}"
            f"{dash}{room}{'   # the old bay' if beside else ''}\n{chr(10) if blank else ''}{dash}{hall}\n"
            f"{'windows: []  # none yet' if end else '# to come'}"
        )
        yield lines.replace("\n", "\r\n") if ends else lines


def test_a_room_of_every_form_takes_a_value_more() -> None:
    tried = list(variants())
    assert len(tried) == 256
    for text in tried:
        new = with_changes(
            text, [Change(("spaces", "bedroom", "smoke alarm"), "yes"), Change(("spaces", 1, "name"), "A, b")]
        )
        assert read(new)["spaces"][0]["smoke alarm"] == "yes"
        assert read(new)["spaces"][1] == {"id": "hall", "use": "hall", "name": "A, b"}
        left = iter(new)
        assert all(sign in left for sign in text), "every sign of the file is still there, in its order"


def test_a_part_more_and_one_less_leave_every_variant_as_it_was() -> None:
    for text in variants():
        more = with_changes(text, [Change(("spaces", "den"), "{id: den, use: office}")])
        assert read(more)["spaces"][2] == {"id": "den", "use": "office"}
        assert read(with_changes(more, [Change(("spaces", "den"), GONE)])) == read(text)
        assert with_changes(more, [Change(("spaces", "den"), GONE)]).rstrip() == text.rstrip()


# --- what is refused


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (Change(("spaces", "attic", "use"), "attic"), "the file has no attic"),
        (Change(("spaces", "hall", "width"), GONE), "the file has no width"),
        (Change(("spaces", 4), "{id: x}"), "the file has no 4"),
        (Change(("spaces", "hall", "use", "kind"), "x"), "use holds the text `hall`"),
        (Change(("spaces", "hall", "size"), "[6 ft, 0 ft"), "is not a list or a mapping"),
        (Change(("spaces", "hall", "size"), "{a: &b c}"), "is not a list or a mapping"),
        (Change(("spaces", "hall", "name"), "one\ntwo"), "more than one line"),
        (Change(("spaces", "hall", "name"), "\ud800"), "half of a sign"),
        (Change(("spaces", "hall"), Moved(7)), "cannot stand at place 7"),
        (Change((), "x"), "name the section"),
    ],
)
def test_a_change_that_has_no_place_or_no_meaning_is_refused_plainly(change: Change, told: str) -> None:
    with pytest.raises(Unusable, match=told):
        with_changes(f"{HEAD}spaces:\n  - id: hall\n    use: hall\n", [change])


def test_the_last_section_stays() -> None:
    with pytest.raises(Unusable, match="last section"):
        with_changes("project: x\n", [Change(("project",), GONE)])


@pytest.mark.parametrize("path", [("spaces", 0, "size"), ("spaces", 1, "size"), ("spaces", 1, "size", "width")])
def test_what_the_file_uses_in_several_places_is_not_changed(path: tuple[str | int, ...]) -> None:
    text = f"{HEAD}spaces:\n  - {{id: a, size: &s {{width: 3 ft}}}}\n  - {{id: b, size: *s}}\n"
    with pytest.raises(Unusable, match="several places"):
        with_changes(text, [Change(path, "4 ft")])
    assert read(with_changes(text, [Change(("spaces", 1, "use"), "hall")]))["spaces"][1]["use"] == "hall"


def test_a_part_that_others_refer_to_is_not_taken_out() -> None:
    text = f"{HEAD}spaces:\n  - &s {{id: a}}\n  - *s\n"
    with pytest.raises(Unusable, match=r"several places|without touching more"):
        with_changes(text, [Change(("spaces", 0), GONE)])


def test_one_refused_change_of_several_leaves_all_of_them_out() -> None:
    with pytest.raises(Unusable):
        with_changes(HEAD, [Change(("address",), "x"), Change(("name",), GONE)])


# --- forms that need care


def test_a_word_in_brackets_with_more_behind_it_is_text() -> None:
    new = with_changes(
        f"{HEAD}spaces: [{{id: a}}]\n", [Change(("spaces", "a", "name"), "[new] room"), Change(("note",), "{x} y")]
    )
    assert read(new)["spaces"][0]["name"] == "[new] room"
    assert read(new)["note"] == "{x} y"


def test_a_key_of_before_is_found_under_its_name_of_today() -> None:
    text = f"{HEAD}storeys:\n  - {{id: upper}}\naddress: x\n"
    new = with_changes(text, [Change(("stories", "upper", "level"), "9 ft")])
    assert new == text.replace("{id: upper}", "{id: upper, level: 9 ft}")


def test_the_same_value_again_changes_nothing() -> None:
    text = f"{HEAD}name: 'A'   # quoted\n"
    assert with_changes(text, [Change(("name",), "A")]) == text


def test_a_byte_order_mark_and_a_missing_last_line_break_stay() -> None:
    assert with_changes("\ufeffproject: x\nname: y", [Change(("name",), "z")]) == "\ufeffproject: x\nname: z"
    assert with_changes("\ufeffproject: x", [Change(("name",), "z")]) == "\ufeffproject: x\nname: z"


def test_text_of_several_lines_is_replaced_and_what_follows_stays() -> None:
    for told in (">-\n  one\n  two\n", "|\n  one\n\n  two\n\n", "one\n  two\n", '"one\n  two"  # said\n'):
        text = f"scope: {told}# next\nproject: x\n"
        new = with_changes(text, [Change(("scope",), "three")])
        assert read(new) == {"scope": "three", "project": "x"}
        assert "# next\nproject: x\n" in new


def test_a_list_in_lines_and_a_mapping_in_lines_are_replaced_whole() -> None:
    text = f"{HEAD}spaces:  # rooms\n  - id: a\n    size:\n      width: 3 ft\n    use: hall  # so\n# end\n"
    new = with_changes(text, [Change(("spaces", "a", "size"), "3 ft x 4 ft")])
    assert new == text.replace("size:\n      width: 3 ft", "size: 3 ft x 4 ft")
    assert with_changes(text, [Change(("spaces", "a"), GONE)]) == f"{HEAD}spaces: []  # rooms\n# end\n"


def test_a_section_is_taken_out_and_what_others_say_about_themselves_stays() -> None:
    text = f"{HEAD}# rooms\nspaces:\n  - id: a\n# doors\ndoors:\n  - id: D1\n"
    assert with_changes(text, [Change(("spaces",), GONE)]) == f"{HEAD}# rooms\n# doors\ndoors:\n  - id: D1\n"
    assert with_changes(text, [Change(("project",), GONE)]) == text.removeprefix("project: P\n")


def test_the_first_value_of_a_part_is_taken_out_and_the_next_stands_behind_its_dash() -> None:
    text = f"{HEAD}spaces:\n  - name: a\n    id: b\n  - id: c\n"
    assert with_changes(text, [Change(("spaces", "b", "name"), GONE)]) == text.replace("name: a\n    ", "")
    remarked = text.replace("name: a\n", "name: a  # so\n")
    assert read(with_changes(remarked, [Change(("spaces", "b", "name"), GONE)]))["spaces"] == [{"id": "b"}, {"id": "c"}]


def test_what_looks_like_a_section_within_a_text_is_none() -> None:
    text = 'project: "P\n\nspaces:\n  - {id: x}\n"\nspaces:\n  - {id: x}\nname: y\n'
    new = with_changes(text, [Change(("spaces", "x", "use"), "hall")])
    assert new == text.replace("  - {id: x}\nname", "  - {id: x, use: hall}\nname")


def test_a_whole_file_in_brackets_is_changed_in_its_own_form() -> None:
    text = '{"project": "P",\n "spaces": [{"id": "a"}]}\n'
    new = with_changes(text, [Change(("spaces", "a", "use"), "hall"), Change(("spaces", "b"), "{id: b}")])
    assert new == '{"project": "P",\n "spaces": [{"id": "a", use: hall}, {id: b}]}\n'


# --- any file, any change


class Writer:
    """Writes a file of a project's shape at random: forms, comments, spacing, quotes and line ends mixed."""

    def __init__(self, chance: random.Random) -> None:
        self.chance = chance
        self.ids = 0

    def one(self, *of: Any) -> Any:
        """Return one `of` these."""
        return self.chance.choice(of)

    def word(self) -> str:
        """Return a value without quotes."""
        return str(
            self.one("bedroom", "3'-0\" x 4'-0\"", "12 ft", "Zoë's room", "a - b", "日本 🏠", "yes", "1/4 in per ft")
        )

    def text(self) -> str:
        """Return a value, in quotes or not, or none."""
        word = self.word()
        quoted = word.replace("'", "''")
        escaped = word.replace('"', '\\"')
        return str(self.one(word, word, f"'{quoted}'", f'"{escaped}"', ""))

    def remark(self) -> str:
        """Return what stands behind a value."""
        return str(self.one("", "", "", "  # so", " #\ttab: [x", "   # über - {"))

    def between(self, column: int) -> str:
        """Return what stands between two lines of a `column`."""
        return str(
            self.one("", "", "", "\n", f"{' ' * column}# note: x\n", f"{' ' * column}# - id: no\n\n", "# left\n")
        )

    def flow(self, depth: int) -> str:
        """Return a value as it stands in brackets."""
        kind = self.one("text", "text", "list", "mapping") if depth < 2 else "text"
        if kind == "text":
            return self.text() or "x"
        space = self.one("", " ", "\n          ")
        items = [self.flow(depth + 1) for _ in range(self.chance.randrange(4))]
        if kind == "mapping":
            items = [f"k{n}:{self.one(' ', '  ')}{item}" for n, item in enumerate(items)]
        opens, closes = "[]" if kind == "list" else "{}"
        trailing = self.one("", ",") if items else ""
        return f"{opens}{space}{f',{self.one(chr(32), chr(32) * 2)}'.join(items)}{trailing}{space}{closes}"

    def value(self, column: int, depth: int) -> str:
        """Return what stands after a key's colon, with its line break."""
        form = self.one("plain", "plain", "flow", "mapping", "list", "lines") if depth < 3 else "plain"
        if form == "flow":
            return f" {self.flow(0)}{self.remark()}\n"
        if form == "lines":
            indent = " " * (column + 2)
            return str(
                self.one(
                    f" >-\n{indent}one: two\n{indent}# three\n", f" |\n{indent}a\n\n{indent}- b\n", f" a\n{indent}b\n"
                )
            )
        if form == "mapping":
            return f"{self.remark()}\n{self.mapping(column + 2, depth + 1)}"
        if form == "list":
            return f"{self.remark()}\n{self.items(column + self.one(0, 2), depth + 1)}"
        text = self.text()
        return f"{' ' if text else ''}{text}{self.remark()}\n"

    def mapping(self, column: int, depth: int, first: str = "") -> str:
        """Return lines of a mapping; the first follows a dash where `first` is one of them."""
        keys = [f"k{n}" for n in range(self.chance.randrange(1, 4))]
        lines = [f"{key}:{self.value(column, depth)}" for key in keys]
        if first:
            lines.insert(self.chance.randrange(len(lines) + 1), first)
        return "".join(
            f"{self.between(column) if n or not first else ''}{'' if first and not n else ' ' * column}{line}"
            for n, line in enumerate(lines)
        )

    def items(self, column: int, depth: int) -> str:
        """Return a list."""
        return "".join(self.item(column, depth) for _ in range(self.chance.randrange(1, 4)))

    def item(self, column: int, depth: int) -> str:
        """Return an item of a list."""
        self.ids += 1
        dash = f"{self.between(column)}{' ' * column}-{self.one(' ', '   ')}"
        inner = len(dash.rsplit("\n", 1)[-1])
        form = self.one("flow", "block", "text")
        if form == "flow":
            return f"{dash}{{id: i{self.ids}, k1: {self.flow(1)}}}{self.remark()}\n"
        if form == "text" or depth > 2:
            return f"{dash}{self.text() or 'x'}{self.remark()}\n"
        return dash + self.mapping(inner, depth + 1, f"id: i{self.ids}{self.remark()}\n")

    def file(self) -> str:
        """Return a whole file."""
        text = "".join(f"{self.between(0)}s{n}:{self.value(0, 0)}" for n in range(self.chance.randrange(2, 6)))
        text += self.one("", "# end", "\n\n")
        text = text.removesuffix("\n") if self.chance.random() < 0.2 else text
        text = text.replace("\n", "\r\n") if self.chance.random() < 0.3 else text
        return f"{self.one('', '', chr(0xFEFF))}{text}"


def places(node: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    yield path, node
    for step, below in node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ():
        yield from places(below, (*path, step))


def any_change(chance: random.Random, tree: Any) -> tuple[Change, Any]:
    """Return a change of `tree`, and the tree as it is meant to be then."""
    import copy

    meant = copy.deepcopy(tree)
    path, node = chance.choice(list(places(meant)))
    value, read_as = chance.choice([("6 ft", "6 ft"), ("a, b", "a, b"), ("it's: # so", "it's: # so"), ("[1 ft, b]", ["1 ft", "b"]),
                                    ("{id: n, k: x}", {"id": "n", "k": "x"})])  # fmt: skip
    if isinstance(node, dict) and (not path or chance.random() < 0.5):
        node["new key"] = read_as
        return Change((*path, "new key"), value), meant
    if isinstance(node, list) and chance.random() < 0.6:
        if len(node) > 1 and chance.random() < 0.5:
            start, to = chance.randrange(len(node)), chance.randrange(len(node))
            node.insert(to, node.pop(start))
            return Change((*path, start), Moved(to)), meant
        node.append(read_as)
        return Change((*path, len(node) - 1), value), meant
    owner = meant
    for step in path[:-1]:
        owner = owner[step]
    if chance.random() < 0.4 and (len(path) > 1 or len(owner) > 1):
        del owner[path[-1]]
        return Change(path, GONE), meant
    owner[path[-1]] = read_as
    return Change(path, value), meant


def tried(seed: int) -> None:
    chance = random.Random(seed)
    text = Writer(chance).file()
    tree = read(text)
    change, meant = any_change(chance, tree)
    new = with_changes(text, [change])
    assert read(new) == meant
    gone, came = differing(text, new)
    if isinstance(change.value, Moved):
        assert sorted("".join(new.split())) == sorted("".join(text.split()))
    elif change.value is GONE:
        assert is_left(came, gone)
    else:
        owner: Any = tree
        for step in change.path[:-1]:
            owner = owner[step] if owner else owner
        is_there = owner and (change.path[-1] in owner if isinstance(owner, dict) else change.path[-1] < len(owner))
        assert is_there or is_left(gone, came)
    assert "\r\n" in text or "\r\n" not in new
    assert "\r\n" not in text or "\n" not in new.replace("\r\n", "")


@given(st.integers(0, 10**9))
@settings(max_examples=80, deadline=None)
def test_any_change_of_any_file_is_as_meant_and_touches_nothing_else(seed: int) -> None:
    tried(seed)


@pytest.mark.long
def test_many_changes_of_many_files_are_as_meant() -> None:
    for seed in range(5_000):
        tried(seed)


def test_every_value_of_the_big_example_can_be_changed_and_changed_back() -> None:
    paths = [path for path, node in places(read(BIG)) if isinstance(node, str) and "\n" not in node]
    for path in random.Random(5).sample(paths, 30):
        new = with_changes(BIG, [Change(path, "x, y")])
        changed = [(a, b) for a, b in zip(BIG.split("\n"), new.split("\n"), strict=False) if a != b]
        assert len(changed) == 1 or path == ("scope",)
