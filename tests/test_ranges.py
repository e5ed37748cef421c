"""What no house has is refused where it stands: every number of a project has the range in which it is ever built."""

from __future__ import annotations

from collections.abc import Iterator
from inspect import get_annotations
from typing import Any, get_args, get_origin

import pytest
from pydantic_core import CoreSchema, SchemaValidator

from precheck import AddedField, Length, Measure, Missing
from precheck.cli.schema import schema_of
from precheck.cli.setup import library
from precheck.files.fields import fields_of
from precheck.files.mistakes import record_in
from precheck.files.record import Record
from precheck.files.source import Unusable, read_text
from precheck.files.values import schema_of as values_schema
from precheck.project import Project, project_from
from precheck.project.between import Between
from precheck.project.opening import WidthHeight
from precheck.questions.answer import example_of, form_of
from precheck.rules.plugins import load_plugins

NO_RANGE = {
    "DesignFile.origin": "a design file may lie anywhere in its own coordinates",
    "DesignFile.datum": "likewise",
    "MakerData.depth_exponent": "an exponent, above 0 and up to 1",
}
"""Numbers that are held to what they can be in another way."""
HEAD = "project: P\n"
ABSURD = {
    "stairs: [{id: S, between: [a, outside], flights: [{tread: 10 ft}]}]": "tread: `10 ft` cannot be meant, for no job "
    "has more than 3 ft here; check the unit and the decimal point",
    "stairs: [{id: S, between: [a, outside], flights: [{riser: 1/16 in}]}]": "riser: `1/16 in` cannot be meant",
    "stairs: [{id: S, between: [a, outside], flights: [{riser heights: [7 in, 775 in]}]}]": "riser heights: `775 in`",
    "windows: [{id: W, space: a, unit size: 40 ft x 4 ft}]": "unit size: `40 ft` cannot be meant",
    "windows: [{id: W, space: a, unit size: 4 ft x 40 ft}]": "unit size: `40 ft` cannot be meant",
    "windows: [{id: W, space: a, middle: [3 ft, 3000 ft]}]": "middle: `3000 ft` cannot be meant",
    "windows: [{id: W, space: a, sill level: -300 ft}]": "no job has less than -200 ft here",
    "windows: [{id: W, space: a, net clear area: -5 sq ft}]": "net clear area: `-5 sq ft` cannot be meant",
    "receptacles: [{id: R, space: a, height: 300 ft}]": "height: `300 ft` cannot be meant",
    "assemblies: [{id: A, kind: wall, cavity r: R-500}]": "cavity r: `R-500` cannot be meant",
    "members: [{id: M, role: header, plies: 200}]": "plies: `200` cannot be meant, for no job has more than 12 here",
    "dwelling: {bedrooms: 3000}": "bedrooms: `3000` cannot be meant",
    "air tightness: [{id: A, air changes at 50 pa: 3000}]": "air changes at 50 pa: `3000` cannot be meant",
}
USUAL = """\
spaces: [{id: a, ceiling: {height: 96 in}, open sides: 0}]
windows: [{id: W, space: a, sill height: 0 in, sill level: -3 ft, middle: [0 ft, -4 ft], unit size: 3050}]
stairs: [{id: S, between: [a, outside], flights: [{riser: 196 mm, tread: 10 in, nosing: {radius: 0 in}}]}]
"""


def records(model: type[Record] = Project, found: dict[type[Record], None] | None = None) -> dict[type[Record], None]:
    """Return the kinds of record below `model`, itself among them."""
    found = {} if found is None else found
    if model not in found:
        found[model] = None
        for field in fields_of(model).values():
            if (below := record_in(field.annotation)) is not None:
                records(below, found)
    return found


def leaves(annotation: Any, held: tuple[Any, ...] = ()) -> Iterator[tuple[Any, tuple[Any, ...]]]:
    """Yield the plain types within an annotation, each with what is said of it."""
    if hasattr(annotation, "__metadata__"):
        yield from leaves(annotation.__origin__, (*held, *annotation.__metadata__))
    elif get_origin(annotation) is not None and get_args(annotation):
        for below in get_args(annotation):
            yield from leaves(below, held)
    else:
        yield annotation, held


def is_number(kind: Any) -> bool:
    numbers = (Measure, int, float, WidthHeight)
    return isinstance(kind, type) and issubclass(kind, numbers) and not issubclass(kind, bool)


def owner(model: type[Record], field: str) -> str:
    """Return the name of the class that gives a field to `model`, which may inherit it."""
    return next(one.__name__ for one in model.__mro__ if field in get_annotations(one))


def measured(kind: Any, text: str) -> Any:
    """Return a bound as a value of the field would be read."""
    return (kind if issubclass(kind, Measure) else Length).parse(text)


def numeric_fields() -> Iterator[tuple[str, Any, list[Between]]]:
    for model in records():
        for name, field in fields_of(model).items():
            for kind, said in leaves(field.kind):
                if is_number(kind):
                    yield f"{owner(model, name)}.{name}", kind, [one for one in said if isinstance(one, Between)]


def of_no_record(kind: Any) -> CoreSchema:
    raise NotImplementedError


def problems(text: str, *added: AddedField) -> list[str]:
    try:
        project_from(read_text(HEAD + text, "p.yaml"), added)
    except Unusable as unusable:
        return [str(problem) for problem in unusable.problems]
    return []


def test_every_number_has_a_range_or_a_reason_why_it_needs_none() -> None:
    fields = list(numeric_fields())
    assert len(fields) > 700
    assert {name for name, _, ranges in fields if not ranges} == set(NO_RANGE)


def test_every_range_is_of_its_kind_and_not_empty() -> None:
    for name, kind, ranges in numeric_fields():
        for one in ranges:
            for bound in one:
                assert one.held(bound if isinstance(bound, int) else measured(kind, bound)), name
    assert [name for name, _, ranges in numeric_fields() if len(ranges) > 1] == []


@pytest.mark.parametrize(("text", "says"), ABSURD.items(), ids=str)
def test_what_no_house_has_is_refused_once_with_its_place(text: str, says: str) -> None:
    (told,) = [told for told in problems("spaces: [{id: a}]\n" + text) if "cannot be meant" in told]
    assert told.startswith("p.yaml:3:")
    assert says in told


def test_what_houses_have_is_read() -> None:
    assert problems(USUAL) == []


def test_a_field_of_a_plugin_may_have_a_range_too() -> None:
    pan = AddedField("window", "pan height", {"type": "string", "format": "length", "between": ["1/4 in", "12 in"]})
    window = "spaces: [{id: a}]\nwindows: [{id: W, space: a, pan height: %s}]"
    assert problems(window % "2 in", pan) == []
    (told,) = problems(window % "2 ft", pan)
    assert told.startswith("p.yaml:3:29: pan height: `2 ft` cannot be meant, for no job has more than 12 in here")
    wrong = AddedField("window", "pan height", {"type": "string", "format": "length", "between": ["2", "12 in"]})
    (told,) = problems(window % "2 in", wrong)
    assert "pan height: the plugin's `between` is wrong: `2` has no unit" in told


def test_each_example_of_an_answer_lies_within_the_range_of_its_field() -> None:
    project = project_from(read_text(HEAD, "p.yaml"))
    tried = 0
    for model in records():
        for field in fields_of(model).values():
            kind = next((one for one in get_args(field.annotation) if one is not Missing), field.annotation)
            _, example, _ = form_of(field.annotation, project)
            if is_number(next(leaves(kind))[0]) and example and example[0] != "[" and get_origin(kind) is not tuple:
                offered = example_of(field.annotation, field.key, example)
                assert SchemaValidator(values_schema(kind, of_no_record)).validate_python(offered) is not None, (
                    model.__name__,
                    field.key,
                )
                tried += 1
    assert tried > 500


def test_the_schema_says_the_range() -> None:
    plugins = load_plugins()
    records = schema_of("project", plugins, library(plugins, ()))["$defs"]
    assert "From 2 in to 3 ft." in str(records["Flight"]["properties"]["tread"])
    assert records["Dwelling"]["properties"]["bedrooms"]["anyOf"][0]["maximum"] == 30
