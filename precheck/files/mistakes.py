"""What is wrong with a mapping of a file, in a person's words, with the place and what to write instead."""

from __future__ import annotations

import re
import types
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Annotated, Any, Union, get_args, get_origin

from precheck.files import spelling
from precheck.files.fields import Fielded, fields_of
from precheck.files.source import Block, Items, Place, Problem

LISTED = 24  # keys that a message names; a space knows some fifty, a project eighty


def with_article(noun: str) -> str:
    """Return ``a window`` or ``an opening``."""
    return f"{'an' if noun[0] in 'aeiou' else 'a'} {noun}"


def nearest(word: str, known: Any) -> str:
    """Return ``; did you mean `x`?`` for the known spelling nearest to `word`, or nothing where none is near."""
    return _nearest(word, tuple(map(str, known)))


@lru_cache(maxsize=256)
def _nearest(word: str, known: tuple[str, ...]) -> str:
    """Return the same for words, which one slip that runs through a file asks for again and again."""
    from difflib import get_close_matches  # here, for most files have no mistake

    lowered = {name.lower(): name for name in known}
    meant = {**{old: lowered[new] for old, new in spelling.FORMER.items() if new in lowered}, **lowered}
    same = spelling.choice(word, lowered) or spelling.MEANT.get(word.lower())
    close = [same] if same in lowered else get_close_matches(word.lower(), meant, n=1, cutoff=0.6)
    return f"; did you mean `{meant[close[0]]}`?" if close else ""


def problem_of(model: type[Fielded], block: Block, error: Any) -> Problem:
    """Return what the validator's `error` on `block` comes to: where it stands, what is wrong and what to write instead."""
    loc = error["loc"]
    path = steps_of(block, loc)
    within = model_at(model, path[:-1] if error["type"] == "extra_forbidden" else path)
    place = _place_at(block, path)
    key = str(loc[-1]) if loc else ""
    few = error["type"] == "missing" and key.isdecimal()  # of a list of so many, such as the two of a point
    if key.isdecimal() and not few:  # an item is told by the name of its list
        key = next((step for step in reversed(path) if isinstance(step, str)), key)
    explain = _EXPLAIN.get("too_few" if few else error["type"].replace("dict_type", "model_type"))
    return Problem(place, explain(key, error, within) if explain else _as_told(path, error))


def steps_of(block: Block, loc: tuple[Any, ...]) -> list[Any]:
    """Return the keys and indices of the file within the error's `loc`, without the names of what it tried."""
    return [step for i, step in enumerate(loc) if isinstance(step, int) or _is_key(block, loc[:i], step)]


def _is_key(node: Any, before: tuple[Any, ...], step: str) -> bool:
    for part in before:
        if isinstance(node, list | dict) and ((isinstance(node, list) and isinstance(part, int)) or part in node):
            node = node[part]
    return isinstance(node, dict) and step in node


def _place_at(block: Block, path: list[Any]) -> Place:
    node: Any = block
    place = block.place
    for step in path:
        if isinstance(node, Items) and step >= len(node):  # what is not there stands where its list does
            break
        if isinstance(node, Block | Items):
            place = node.place_of(step)
            node = node[step]
    return place


def model_at(model: Any, path: list[Any]) -> Any:
    """Return the record class that stands at `path` below `model`; None where none does."""
    for step in path:
        if isinstance(step, int):
            continue
        fields = fields_of(model) if model is not None else {}
        field = next((f for f in fields.values() if f.key == step), None)
        model = record_in(field.annotation) if field else None
    return model


def record_in(annotation: Any) -> Any:
    """Return the record class that an annotation holds, within a union or a list too; None where it holds none."""
    if get_origin(annotation) in (Union, types.UnionType, tuple, Annotated):
        return next((found for arg in get_args(annotation) if (found := record_in(arg))), None)
    return annotation if isinstance(annotation, type) and issubclass(annotation, Fielded) else None


def unknown_key(key: str, error: Any, within: Any) -> str:
    """Return the message for a key that `within`, a record class, does not know."""
    known = [field.key for field in fields_of(within).values()] if within else []
    what = f"`{key}` is not a key of {with_article(getattr(within, 'kind', 'record'))}"
    if error is not None and error["input"] is None and " " in key and not nearest(key, known):
        return f"{what}; if it is the end of a text within {{}}, put that text in quotes, for a comma ends it"
    return f"{what}{nearest(key, known) or '; write one of: ' + _listed(known)}"


def _listed(known: list[Any]) -> str:
    more = len(known) - LISTED
    listed = ", ".join(map(str, known[:LISTED] if more > 2 else known))
    return f"{listed}, or one of {more} others, which `precheck schema` prints" if more > 2 else listed


def choices_of(error: Any) -> list[str]:
    """Return the words that the error about a choice expects."""
    return [one or other for one, other in _QUOTED.findall(error["ctx"]["expected"])]


_QUOTED = re.compile(r"'([^']*)'|\"([^\"]*)\"")  # as Python writes them; those with an apostrophe in double quotes


def _not_a_choice(key: str, error: Any, within: Any) -> str:
    choices = choices_of(error)
    meant = nearest(str(error["input"]), choices) or "."
    return f"`{error['input']}` is not known as {key}{meant} Write one of: {', '.join(choices)}"


def _as_told(path: list[Any], error: Any) -> str:
    name = _named(path)
    told = str(error["ctx"]["error"]) if "error" in error.get("ctx", {}) else error["msg"]
    return f"{name}: {told}" if name else told


def _named(path: Sequence[Any]) -> str:
    return next((step for step in reversed(path) if isinstance(step, str)), "")


_EXPLAIN: dict[str, Callable[[str, Any, Any], str]] = {
    "extra_forbidden": unknown_key,
    "missing": lambda key, error, within: f"`{key}` is not given; add a line `{key}: ...`",
    "literal_error": _not_a_choice,
    "too_few": lambda key, error, within: (
        f"{_named(error['loc'])}: value {int(key) + 1} of the list is missing; add it"
    ),
    "too_long": lambda key, error, within: f"{key}: too many values; write {error['ctx']['max_length']}",
    "bool_parsing": lambda key, error, within: f"{key}: `{error['input']}` is neither yes nor no; write yes or no",
    "bool_type": lambda key, error, within: f"{key}: write yes or no",
    "int_parsing": lambda key, error, within: f"{key}: `{error['input']}` is not a count; write a whole number",
    "int_type": lambda key, error, within: f"{key}: write a whole number",
    "string_type": lambda key, error, within: f"{key}: write plain text here, not a list or a mapping",
    "tuple_type": lambda key, error, within: f"{key}: a list belongs here; begin each item with `- `",
    "model_type": lambda key, error, within: f"{key}: a mapping of keys to values belongs here",
    "date_from_datetime_parsing": lambda key, error, within: _not_a_date(key, error),
    "date_parsing": lambda key, error, within: _not_a_date(key, error),
    "greater_than_equal": lambda key, error, within: (
        f"{key}: `{error['input']}` cannot be; write {error['ctx']['ge']} or more"
    ),
    "greater_than": lambda key, error, within: (
        f"{key}: `{error['input']}` cannot be; write more than {error['ctx']['gt']}"
    ),
    "less_than_equal": lambda key, error, within: (
        f"{key}: `{str(error['input'])[:20]}` cannot be; write {error['ctx']['le']} or less"
    ),
}


def _not_a_date(key: str, error: Any) -> str:
    written = error["input"]
    what = f"`{written}` is not a date" if isinstance(written, str) else "a date belongs here"
    return f"{key}: {what}; write year-month-day, such as 2026-03-02"
