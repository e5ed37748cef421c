"""A value as a YAML file spells it: plain where that reads back as the same, else in quotes."""

from __future__ import annotations

import re
from typing import Any

from precheck.files.layout import layout
from precheck.files.source import Place, Problem, Unusable, read_text

OPENS = ("[", "{")
_PAIRS = {"[": 1, "{": 1, "]": -1, "}": -1}
_ESCAPED = re.compile("[^\t\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_LINE_BREAKS = re.compile("[\r\n\x85\u2028\u2029]")


def refused(what: str, line: int = 1) -> Unusable:
    """Return the refusal of a change, which names no file: whoever makes the change knows it."""
    return Unusable([Problem(Place("", line, 1), what)])


def value_read(value: str) -> Any:
    """Return what a file reads where it holds `value`: a list or a mapping where that is one, else the text itself.

    Raises `Unusable` where a value of more than one line is given, or one that begins a list or a mapping and does not end it.
    """
    if _LINE_BREAKS.search(value):
        raise refused(f"`{' '.join(value.split())}` is more than one line; write it as one")
    try:
        value.encode()
    except UnicodeEncodeError:
        raise refused("this holds half of a sign; type it again") from None
    if not is_collection(value):
        return _read(f"a: {quoted(value)}\n", "a")
    try:
        node = layout(f"a: {value}\n").values[0]
        tree = _read(f"a: {value}\n", "a")
    except Exception:  # whatever the parser cannot take
        tree = None
    if tree is None or node.kind == "text" or any(one.shared for one in node.within()):
        raise refused(f"`{value}` is not a list or a mapping; write it like [6 ft, 0 ft] or {{height: 8 ft}}")
    return tree


def is_collection(value: str) -> bool:
    """Return whether `value` is to be a list or a mapping: it begins one, and nothing follows where that ends."""
    if not value.startswith(OPENS):
        return False
    depth = 0
    for at, sign in enumerate(value):
        depth += _PAIRS.get(sign, 0)
        if depth == 0:
            return not value[at + 1 :].strip()
    return True


def value_written(value: str, flow: bool, item: bool = False) -> str:
    """Return `value` as it stands in the file: within `{...}` or `[...]` where `flow`, else after a key or a dash."""
    if is_collection(value):
        return value.strip()
    within = f"{{a: {value}, b: c}}" if flow else f"- {value}" if item else value
    return value if _reads(f"a:\n  {within}\n" if item or flow else f"a: {within}\n", value) else quoted(value)


def key_written(key: str, flow: bool) -> str:
    """Return `key` as it stands in the file."""
    text = f"a: {{{key}: b}}\n" if flow else f"a:\n  {key}: b\n"
    try:
        plain = read_text(text, "") == {"a": {key: "b"}}
    except Unusable:
        plain = False
    return key if plain else quoted(key)


def _reads(text: str, value: str) -> bool:
    try:
        found = read_text(text, "")["a"]
    except Unusable:
        return False
    return bool(found in (value, [value], {"a": value, "b": "c"}))


def _read(text: str, key: str) -> Any:
    return read_text(text, "")[key]


def quoted(value: str) -> str:
    """Return `value` in quotes, with signs that no file may hold written out."""
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{_ESCAPED.sub(_escape, escaped)}"'


def _escape(found: re.Match[str]) -> str:
    code = ord(found[0])
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
