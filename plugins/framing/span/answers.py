"""What `precheck span` answers: longest spans of one member, or of a species, with what governs each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any

from precheck_plugins.framing.tables.joists_and_rafters import FAMILIES, LongestSpan, SpanLoads, family_span, weakest
from precheck_plugins.framing.timber.lumber import is_listed, listed_grades, published_values, supplement_of
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import JOIST_SIZES, LAYOUTS_IN, dressed_section
from precheck_plugins.framing.timber.steps import Step

from precheck.immutable import fixed

USES = tuple(FAMILIES)
CAUTION = (
    "A span is one check of many. It takes a sound, sawn member on two supports under even load, dry but for decks, without "
    "notches or point loads. The local building department has the final say, and what lies outside the prescriptive tables "
    "is for a licensed engineer."
)


@fixed
class SpanQuestion:
    """What is asked: use, lumber and loads; inches and psf. An empty size, grade or spacing asks for all usual ones."""

    use: str
    edition: str
    species: str
    live_psf: float
    dead_psf: float
    size: str = ""
    grade: str = ""
    spacing_in: float | None = None
    deflection_ratio: float | None = None

    @property
    def ratio(self) -> float:
        """The n of L/n: as asked, else the usual one of the use."""
        return self.deflection_ratio or FAMILIES[self.use].deflection_ratio

    @property
    def group(self) -> tuple[str, ...]:
        """The species that are read in one row of the tables with this one; the weakest gives the span."""
        return FAMILIES[self.use].group_of(self.species)

    @property
    def supplement(self) -> str:
        """Which printing of the lumber values the edition rests on."""
        return supplement_of(self.edition.upper().replace("-", " "), self.species)

    @property
    def is_one_member(self) -> bool:
        """Whether size, grade and spacing are all given, so that there is one answer."""
        return bool(self.size and self.grade and self.spacing_in)


@fixed
class SpanAnswer:
    """One longest span with the member, grade and spacing that it is of."""

    size: str
    grade: str
    spacing_in: float
    span: LongestSpan

    def as_data(self) -> dict[str, Any]:
        """The answer for machines, without its steps."""
        bearing = self.span.bearing_in
        return {
            "size": self.size,
            "grade": self.grade,
            "spacing_in": self.spacing_in,
            "span_in": self.span.tabulated_in,
            "exact_span_in": round(min(self.span.span_in, self.span.longest_in), 3),
            "governs": self.span.governs,
            "bearing_in": None if bearing is None else round(bearing, 3),
        }


def answers(question: SpanQuestion) -> tuple[SpanAnswer, ...]:
    """The longest spans that are asked for, by grade, size and spacing.

    Raises SizeError, LumberError or OutsideMethodError. A table leaves out what has no values on record, and says so by
    leaving its place empty; a question about one member raises.
    """
    if question.is_one_member:
        return (_answer(question, question.grade, question.size, question.spacing_in or 0.0),)
    found = tuple(_table(question))
    if not found:
        _answer(question, question.grade or "No.2", question.size or "2x10", question.spacing_in or 16.0)
    return found


def work(answer: SpanAnswer) -> tuple[dict[str, Any], ...]:
    """The calculation of one answer, step by step, as data."""
    return tuple(asdict(step) for step in steps(answer))


def steps(answer: SpanAnswer) -> tuple[Step, ...]:
    """The calculation of one answer, step by step."""
    return answer.span.steps()


def _table(question: SpanQuestion) -> Iterator[SpanAnswer]:
    grades = (question.grade,) if question.grade else listed_grades(question.species, question.supplement)
    sizes = (question.size,) if question.size else JOIST_SIZES[:-1]
    spacings = (question.spacing_in,) if question.spacing_in else LAYOUTS_IN[3::-1]
    for grade in grades:
        for size in sizes:
            for spacing in spacings:
                try:
                    yield _answer(question, grade, size, spacing)
                except OutsideMethodError:
                    continue


def _answer(question: SpanQuestion, grade: str, size: str, spacing_in: float) -> SpanAnswer:
    section, family = dressed_section(size), FAMILIES[question.use]
    published_values(question.species, grade, section, question.supplement)  # refuses what has no values
    loads = SpanLoads(question.live_psf, question.dead_psf, spacing_in, question.ratio)
    spans = [
        family_span(family, section, published_values(species, grade, section, question.supplement), loads)
        for species in question.group
        if is_listed(species, grade, section, question.supplement)
    ]
    return SpanAnswer(size, grade, spacing_in, weakest(spans))
