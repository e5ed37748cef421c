"""``precheck span``: the longest span of a joist or rafter, what governs it and the bearing it needs.

Offered to the command line by the entry point group ``precheck.commands``.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from textwrap import fill
from typing import TYPE_CHECKING, Any

import click

from precheck import Length, Measure, Pressure

if TYPE_CHECKING:
    from precheck_plugins.framing.span.answers import SpanAnswer, SpanQuestion

WIDTH = 80
USES = ("floor", "ceiling", "rafter, roof live load", "rafter, snow", "deck")
EDITIONS = ("irc-2015", "irc-2018", "irc-2021", "irc-2024")


class MeasureType(click.ParamType[Measure]):
    """A measure in trade notation, such as ``16 in`` or ``40 psf``."""

    def __init__(self, kind: type[Measure]) -> None:
        self.kind = kind
        self.name = kind.dimension

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Measure:
        """Read the measure. Refuses what is none, with what to write instead."""
        try:
            found = self.kind.parse(value)
        except ValueError as error:
            self.fail(str(error), param, ctx)
        if found.n <= 0:
            self.fail(f"`{value}` cannot be; write a {self.kind.dimension} above zero", param, ctx)
        return found


class RatioType(click.ParamType[float]):
    """The n of a deflection limit L/n."""

    name = "n of L/n"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:
        """Read ``360`` or ``L/360``."""
        text = str(value).upper().replace(" ", "").removeprefix("L/")
        if not text.isdigit() or int(text) == 0:
            self.fail(f"`{value}` is not the n of a limit L/n; write 360", param, ctx)
        return float(text)


@click.command(
    epilog="Example: precheck span --size 2x10 --species 'Douglas fir-larch' --grade No.2 --spacing '16 in' "
    "--live '40 psf' --dead '10 psf' --deflection 360"
)
@click.option("--size", default="", help="Nominal size, such as 2x10. Without it: a table of the usual sizes.")
@click.option("--species", required=True, help="Species, such as 'Douglas fir-larch'.")
@click.option("--grade", default="", help="Grade, such as No.2. Without it: every grade on record.")
@click.option("--spacing", type=MeasureType(Length), help="Spacing, such as '16 in'. Without it: the usual layouts.")
@click.option("--live", required=True, type=MeasureType(Pressure), help="Live load; for snow the ground snow load.")
@click.option("--dead", required=True, type=MeasureType(Pressure), help="Dead load, on the horizontal projection.")
@click.option("--deflection", type=RatioType(), help="The n of the live load limit L/n; else the usual one of the use.")
@click.option("--use", type=click.Choice(USES), default="floor", show_default=True, help="The table family.")
@click.option(
    "--edition", type=click.Choice(EDITIONS), default=EDITIONS[-1], show_default=True, help="Lumber values of."
)
@click.option("--report", type=click.Choice(("text", "json")), default="text", show_default=True, help="Format.")
def command(**asked: Any) -> None:
    """Print the longest span of a joist or rafter, what governs, and the bearing.

    Spans are clear and horizontal. Values of lumber follow the edition.
    """
    from precheck_plugins.framing.span.answers import answers

    question = _question(asked)
    try:
        found = answers(question)
    except ValueError as error:  # a size, species, grade or load that has no answer says which there are
        raise click.UsageError(str(error)) from None
    if asked["report"] == "json":
        click.echo(json.dumps(_as_data(question, found), indent=2, ensure_ascii=False))
        return
    for line in _one(question, found[0]) if question.is_one_member else _table(question, found):
        click.echo(line)


def _question(asked: dict[str, Any]) -> SpanQuestion:
    from precheck_plugins.framing.span.answers import SpanQuestion

    spacing = asked["spacing"]
    return SpanQuestion(
        use=asked["use"],
        edition=asked["edition"],
        species=asked["species"],
        live_psf=float(asked["live"].n),
        dead_psf=float(asked["dead"].n),
        size=asked["size"].replace(" ", ""),
        grade=asked["grade"],
        spacing_in=None if spacing is None else float(spacing / Length.parse("1 in")),
        deflection_ratio=asked["deflection"],
    )


def _as_data(question: SpanQuestion, found: tuple[SpanAnswer, ...]) -> dict[str, Any]:
    from precheck_plugins.framing.span.answers import CAUTION, work

    asked = {
        "use": question.use,
        "edition": question.edition,
        "lumber_values": question.supplement,
        "species": question.species,
        "read_with": [one for one in question.group if one != question.species],
        "live_psf": question.live_psf,
        "dead_psf": question.dead_psf,
        "deflection": question.ratio,
    }
    if question.is_one_member:
        return {**asked, **found[0].as_data(), "steps": list(work(found[0])), "caution": CAUTION}
    return {**asked, "spans": [answer.as_data() for answer in found], "caution": CAUTION}


def _heading(question: SpanQuestion) -> Iterator[str]:
    loads = f"{question.live_psf:g} psf live, {question.dead_psf:g} psf dead, live load deflection L/{question.ratio:g}"
    yield f"{question.species}, {question.use}: {loads}"
    yield f"Lumber values: {question.supplement}, as under {question.edition}"
    if question.use == "deck":
        wet = "wet, and incised where the species takes no treatment otherwise"
        yield f"As the deck tables: the weakest of {', '.join(question.group)}, {wet}"
    yield ""


def _one(question: SpanQuestion, answer: SpanAnswer) -> Iterator[str]:
    from precheck_plugins.framing.span.answers import steps

    span, bearing = answer.span, answer.span.bearing_in
    yield f"{answer.size} {answer.grade} at {answer.spacing_in:g} in"
    yield from _heading(question)
    yield f"Longest span: {_feet(span.tabulated_in)}"
    yield f"Governed by: {span.governs}"
    yield "Bearing needed: " + ("not known for this lumber" if bearing is None else f"{bearing:.2f} in at each end")
    yield ""
    yield "CALCULATION"
    for step in steps(answer):
        yield from fill(f"{step.meaning}: {step}", WIDTH, initial_indent="  ", subsequent_indent="    ").splitlines()
    yield from _caution()


def _table(question: SpanQuestion, found: tuple[SpanAnswer, ...]) -> Iterator[str]:
    yield from _heading(question)
    spacings = sorted({answer.spacing_in for answer in found})
    cells = {(a.grade, a.size, a.spacing_in): a for a in found}
    yield "  ".join(["grade       size ", *(f"{f'{s:g} in':>8}" for s in spacings)])
    for grade, size in dict.fromkeys((a.grade, a.size) for a in found):
        row = (cells.get((grade, size, spacing)) for spacing in spacings)
        yield "  ".join([f"{grade:<11} {size:<5}", *_cells(row)]).rstrip()
    yield ""
    yield "15-7 is 15 ft 7 in. b: bending governs, d: deflection, s: shear, t: the table goes no further"
    yield from _caution()


def _cells(row: Iterable[SpanAnswer | None]) -> Iterator[str]:
    for answer in row:
        feet, inches = divmod(answer.span.tabulated_in, 12) if answer else (0, 0)
        mark = {"longest span of the table": "t"}.get(answer.span.governs, answer.span.governs[0]) if answer else ""
        yield f"{f'{feet}-{inches} {mark}' if answer else '-':>8}"


def _caution() -> Iterator[str]:
    from precheck_plugins.framing.span.answers import CAUTION

    yield ""
    yield from fill(CAUTION, WIDTH).splitlines()


def _feet(inches: int) -> str:
    return f"{Length.parse(f'{inches} in') * 1} ({inches} in)"
