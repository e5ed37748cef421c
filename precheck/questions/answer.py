"""What an answer to a question looks like: its form, an example, the choices, and how it is written within `{...}`."""

from __future__ import annotations

import types
from collections.abc import Iterator
from datetime import date
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from precheck.files.missing import Missing
from precheck.files.record import Record, Reference
from precheck.files.spelled import quoted
from precheck.project import OUTSIDE, Project, WidthHeight
from precheck.project.between import Between
from precheck.project.section_check import FORMATS
from precheck.units import Length, Measure

EXAMPLES = {
    "id": "N1",
    "net clear opening": "24 in x 36 in",
    "unit size": "3'-0\" x 4'-0\"",
    "sill height": "40 in",
    "sill above grade": "36 in",
    "headroom": "6'-10\"",
    "height": "7'-6\"",
    "tread": "10 in",
    "rise": "8'-9\"",
    "total rise": "8'-9\"",
    "width": "36 in",
    "least width": "9'-6\"",
    "depth": "36 in",
    "middle": "6 ft, 0 ft",
    "paper": "24 in x 36 in",
    "threshold height": "1/2 in",
    "finished level": "0 in",
    "base level": "-8 in",
    "slope": "1/4 in per ft",
    "permits": "building, electrical",
}
"""Answers that look like the thing asked for; what is not here gets the example of its kind of measure."""
LENGTHS = {
    "along slope": "24 in", "band from bottom": "2 in", "band from top": "2 in", "bearing": "3 in", "below grade": "42 in",
    "between": "2 in", "between rows": "2 in", "bottom": "10 in", "clear in front": "24 in", "clearance": "1 in",
    "distance": "5 ft", "distance to bath door": "10 ft", "distance to house": "10 ft", "drop": "30 in",
    "drop at edge": "30 in", "elevation": "100 ft", "end lap": "4 in", "farthest wall from receptacle": "5 ft",
    "framing height": "8 ft", "from bottom": "2 in", "from end": "6 in", "from top": "2 in", "frost depth": "36 in",
    "header span": "6 ft", "height": "36 in", "inside depth": "20 ft", "inside wall": "24 in", "inside width": "20 ft",
    "joist depth": "9 1/4 in", "joist span": "10 ft", "lap": "3 in", "length": "12 ft", "level": "-7 in", "overhang": "12 in",
    "plate joints apart": "4 ft", "projection": "1 in", "side lap": "2 in", "size": "3 in", "spacing": "16 in", "span": "6 ft",
    "standing surface": "30 in", "thickness": "4 in", "to basin": "24 in", "to wall": "18 in", "tributary": "6 ft",
    "unbraced": "4 ft", "wall height": "8 ft",
}  # fmt: skip
"""Lengths that look like the one asked for."""
IN_WORDS = {
    "size": "2x10",
    "ridge size": "2x12",
    "stud": "2x4",
    "note": "fireblocking at floors and ceilings, and every 10 ft along the walls",
}
"""Answers of fields that take any text."""


FORMS = {
    "middle": "the middle of it in plan: from the left edge, then from the lower edge of the drawing",
    "at": "where it is in plan: from the left edge, then from the lower edge of the drawing",
}
"""What an answer is where its kind alone does not tell a person."""


_NOTHING = ("~", "null", "-")
_BEGINS, _WITHIN = "\"'!&*|>@`%#?:,[]{}", (",", "[", "]", "{", "}", ":", "?", " #")
"""Signs that begin something other than text, and those that end text, within `{...}`."""


def flow(answer: str) -> str:
    """Return an answer as a value within `{...}`; what begins a list or a mapping is one."""
    return answer if answer[:1] in "[{" else in_quotes(answer)


def as_list(answer: str) -> str:
    """Return values with commas between, as a person writes them, as the list that the file holds."""
    if answer.startswith("["):
        return answer
    return f"[{', '.join(in_quotes(one.strip()) for one in answer.split(','))}]"


def in_quotes(text: str) -> str:
    """Return `text` in quotes where it would read as something else within `{...}`."""
    plain = text[:1] not in _BEGINS and not any(sign in text for sign in _WITHIN) and text.isprintable()
    if plain and text == text.strip() and text.lower() not in _NOTHING and not text.startswith("- "):
        return text
    return quoted(text)


def _kinds(annotation: Any) -> Iterator[Any]:
    """Yield the plain types that `annotation` stands for, through Annotated, unions and Maybe."""
    origin = get_origin(annotation)
    if origin is Annotated:
        yield from _kinds(get_args(annotation)[0])
    elif origin in (Union, types.UnionType):
        for one in get_args(annotation):
            yield from _kinds(one)
    elif annotation not in (Missing, type(None)):
        yield annotation


def example_of(annotation: Any, key: str, example: str) -> str:
    """Return an answer that the field at `key` takes: the usual one of that name, or the `example` where it takes no such."""
    held, kind = _range_of(annotation), next(_kinds(annotation), None)
    is_length = isinstance(kind, type) and issubclass(kind, Length)
    own = (EXAMPLES.get(key), LENGTHS.get(key) if is_length else None)
    usual = tuple(one for one in own if one)
    if not usual:
        return example or IN_WORDS.get(key, "")
    return held.example(*usual, example) if held is not None else usual[0]


def _range_of(annotation: Any) -> Between | None:
    """Return the range in which the values of a field lie."""
    said = getattr(annotation, "__metadata__", ())
    within = (_range_of(below) for below in get_args(annotation) if get_origin(annotation) is not Literal)
    return next((one for one in (*said, *within) if isinstance(one, Between)), None)


def is_list(annotation: Any) -> bool:
    """Return whether a field holds any number of values."""
    return any(get_origin(kind) is tuple and get_args(kind)[-1] is Ellipsis for kind in _kinds(annotation))


def is_several(annotation: Any) -> bool:
    """Return whether a field holds plain values, more than one: a list of choices, or the two numbers of a point."""
    return record_type(annotation) is None and any(get_origin(kind) is tuple for kind in _kinds(annotation))


def record_type(annotation: Any) -> type[Record] | None:
    """Return the record that a field holds, one or a list of them, or None for a plain value."""
    for kind in _kinds(annotation):
        inner = get_args(kind)[0] if get_origin(kind) is tuple else kind
        inner = next(_kinds(inner), inner)
        if isinstance(inner, type) and issubclass(inner, Record):
            return inner
    return None


def form_of(annotation: Any, project: Project) -> tuple[str, str, tuple[str, ...]]:
    """Return what an answer is, an example of it, and the choices where there are only some."""
    kinds = list(_kinds(annotation))
    kind = kinds[0] if kinds else str
    if record_type(annotation):
        return "several values, one at a time", "", ()
    if get_origin(kind) is tuple:
        form, example, choices = form_of(get_args(kind)[0], project)
        many = get_args(kind)[-1] is Ellipsis
        count = 2 if many else len(get_args(kind))
        listed = f"[{', '.join([example] * count)}]" if example else ""
        return f"{'one or more' if many else count} values separated by commas, each {form}", listed, choices
    if get_origin(kind) is Literal:
        choices = tuple(str(one) for one in get_args(kind))
        return "choose one", choices[0], choices
    form, example, choices = _plain_form(kind, project)
    held = _range_of(annotation)
    return form, held.example(example) if held is not None else example, choices


def form_by_schema(schema: dict[str, Any]) -> tuple[str, str, tuple[str, ...]]:
    """Return what an answer is to a field that a plugin adds, an example of it, and the choices where there are only some."""
    if choices := tuple(str(one) for one in schema.get("enum", ())):
        return "choose one", choices[0], choices
    if measure := FORMATS.get(str(schema.get("format"))):
        return f"{measure.a()} with its unit", measure.example, ()
    return _BY_TYPE.get(str(schema.get("type")), ("text", "", ()))


_BY_TYPE: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "boolean": ("yes or no", "yes", ("yes", "no")), "integer": ("a whole number", "2", ()), "number": ("a number", "2", ()),
}  # fmt: skip


def _plain_form(kind: Any, project: Project) -> tuple[str, str, tuple[str, ...]]:
    if not isinstance(kind, type):
        return "text", "", ()
    if issubclass(kind, Reference):
        known = tuple(part.id for part in project.parts if part.kind in kind.kinds)
        choices = (*known, *((OUTSIDE,) if OUTSIDE in kind.kinds else ()))
        return f"a {' or '.join(kind.kinds)} by its id", choices[0] if choices else "", choices
    for plain, form, example in _FORMS:
        if issubclass(kind, plain):
            return form, example, ("yes", "no") if plain is bool else ()
    if issubclass(kind, Measure):
        return f"{kind.a()} with its unit", kind.example, ()
    return "text", "", ()


_FORMS: tuple[tuple[type, str, str], ...] = (
    (bool, "yes or no", "yes"),
    (int, "a whole number", "2"),
    (WidthHeight, "width x height", "3'-0\" x 6'-8\""),
    (date, "year-month-day", "2026-03-02"),
)
