"""Reference design values by species and grade, and the size factors that go with them.

The values stand in design_values.csv, each with its basis: read, confirmed by cells of a published span
table, or from memory. `supplement` tells which printing of the values it is, because they changed: Southern
pine in June 2013, some Douglas fir-larch and Hem-fir in 2001. All values in psi. LVL and other made products
have no row there: their values come from the maker's document (`maker_values`).
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from precheck_plugins.framing.timber.sections import CrossSection

SYMBOLS = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")
OTHER_SIDE = "Fb_other"
"""Bending of glued laminated timber with the other side in tension, as over a support."""
CURRENT = "current"
BY_WIDTH = "dimension by width"
COMPOSITE = "structural composite"
GLUED = "glued laminated"
MADE = (COMPOSITE, GLUED)
TIMBER = ("beams and stringers", "posts and timbers")
INCISED_FOR_TREATMENT = ("Douglas fir-larch", "Hem-fir", "Spruce-pine-fir")
"""Species that take up preservative only through cuts, as the deck tables count them."""
WIDEST_LISTED_IN = 12
STUD_WIDEST_IN = 6
GLUED_LENGTH_IN = 252.0
GLUED_BREADTH_IN = 5.125

HERE = Path(__file__).parent


class LumberError(OutsideMethodError):
    """No such species, grade, size or value; the message says which ones there are."""


@fixed
class Depth:
    """How the bending value of a made product goes with its depth: times (reference / depth)^exponent, in.

    `ground` says by what: the maker's exponent, or that the value given is the one at this depth (exponent 0). Of glued
    laminated timber the exponent is 1/x of its volume factor.
    """

    ground: str
    exponent: float = 0.0
    reference_in: float = 12.0


AT_THIS_DEPTH = Depth("the manufacturer's value is the one at this depth")


@fixed
class DesignValues:
    """Reference design values of one species and grade, psi, before any adjustment, each with its basis.

    `depth` is how the bending of a made product goes with its depth; None for sawn lumber, and where nobody says.
    """

    species: str
    grade: str
    supplement: str
    lumber: str
    width: str
    numbers: Mapping[str, float]
    bases: Mapping[str, str]
    source: str
    depth: Depth | None = None

    def __hash__(self) -> int:
        return hash((self.species, self.grade, self.supplement, self.source))  # its mappings have none

    def reference(self, symbol: str) -> float:
        """The value of one of SYMBOLS, psi. Raises LumberError if it is not on record."""
        try:
            return self.numbers[symbol]
        except KeyError:
            raise LumberError(f"{self.name}: no value of {symbol} is known ({self.source})") from None

    def knows(self, symbol: str) -> bool:
        """Whether this value is known at all."""
        return symbol in self.numbers

    @property
    def name(self) -> str:
        """Species, grade and printing, as a report names them."""
        return f"{self.species} {self.grade} ({self.supplement})"

    def origin(self, symbol: str) -> str:
        """Where the value of this symbol comes from, with its basis."""
        return f"{self.name}: {self.bases.get(symbol, 'unknown')}; {self.source}"


def maker_values(
    product: str, grade: str, document: str, numbers: Mapping[str, float], depth: Depth | None = None
) -> DesignValues:
    """Values of a made product such as LVL or glulam, psi, read in the maker's document, which must be named.

    Raises LumberError without a document or with an unknown symbol: such values are never assumed.
    """
    unknown = sorted(set(numbers) - {*SYMBOLS, OTHER_SIDE})
    if unknown or not document.strip():
        raise LumberError(
            f"{product} {grade}: name the manufacturer's literature and use only {SYMBOLS}; not {unknown}"
        )
    bases = MappingProxyType(dict.fromkeys(numbers, "maker's document"))
    lumber = GLUED if product == "glulam" else COMPOSITE
    return DesignValues(product, grade, CURRENT, lumber, "", MappingProxyType(dict(numbers)), bases, document, depth)


def is_same(listed: str, written: str) -> bool:
    """Return whether a species or grade as `written` is the one `listed`, whatever its capitals and spaces."""
    return "".join(listed.lower().split()) == "".join(written.lower().split())


@cache
def published_values(species: str, grade: str, section: CrossSection, supplement: str = CURRENT) -> DesignValues:
    """The published values, psi, of lumber of this section. Raises LumberError, listing what there is.

    Source: design_values.csv (NDS Supplement Tables 4A, 4B and 4D).
    """
    wanted = _lumber_classes(section)
    width = str(min(section.nominal_depth, WIDEST_LISTED_IN))
    for values in _rows():
        same = is_same(values.species, species) and is_same(values.grade, grade)
        if (
            same
            and supplement in values.supplement.split("; ")
            and values.lumber in wanted
            and values.width in ("", width)
        ):
            return values
    raise LumberError(_not_found(species, grade, section, supplement))


def is_listed(species: str, grade: str, section: CrossSection, supplement: str = CURRENT) -> bool:
    """Whether lumber of this section has published values."""
    try:
        return bool(published_values(species, grade, section, supplement))
    except LumberError:
        return False


def supplement_of(edition: str, species: str, table: str = "") -> str:
    """Which printing of the values an edition (or one printed table of it) rests on. Raises LumberError.

    Source: lumber_editions.csv, which gives the basis of each answer.
    """
    for row in read_table("lumber_editions.csv"):
        if (row["edition"], row["table"]) == (edition, table) and row["species"] in ("any", species):
            return row["supplement"]
    known = sorted({row["edition"] for row in read_table("lumber_editions.csv")})
    raise LumberError(f"no lumber values are on record for {species} under {edition} {table}; known: {known}")


def listed_grades(species: str, supplement: str = CURRENT) -> tuple[str, ...]:
    """The grades of dimension lumber that are listed for a species, best first. Raises LumberError for none."""
    joists = ("dimension", BY_WIDTH)
    known = [v for v in _rows() if is_same(v.species, species) and v.lumber in joists]
    rows = [v for v in known if supplement in v.supplement.split("; ")]
    if not rows:
        raise LumberError(f"no values are listed for species {species!r}; listed: {', '.join(listed_species())}")
    return tuple(dict.fromkeys(v.grade for v in rows if v.grade != "Stud"))


@cache
def listed_species() -> tuple[str, ...]:
    """Every species with values on record."""
    return tuple(sorted({values.species for values in _rows()}))


def size_factor(values: DesignValues, section: CrossSection, symbol: str) -> float:
    """CF of Fb, Ft or Fc of sawn lumber: never for Southern pine up to 12 in, whose values are listed by width.

    Raises LumberError for Stud grade wider than 6 in. Source: NDS 4.3.6, size_factors.csv.
    """
    if values.lumber == BY_WIDTH:
        return 0.9 if section.nominal_depth > WIDEST_LISTED_IN else 1.0
    if values.lumber in TIMBER:
        return min((12 / section.depth_in) ** (1 / 9), 1.0) if symbol == "Fb" else 1.0
    return _dimension_factor(values, section, symbol)


def depth_factor(values: DesignValues, section: CrossSection, length_in: float) -> float:
    """CV of the bending of a made product: by its maker's exponent; of glued laminated timber by its volume.

    `length_in` is the length of glued laminated timber between points of no moment, in; the whole span is safe. Raises
    LumberError where nobody says how the value goes with depth. Source: NDS 8.3.6; 5.3.6, which never exceeds 1.
    """
    if values.depth is None:
        raise LumberError(f"{values.name}: nothing says how its bending value goes with depth")
    by_depth = values.depth.reference_in / section.depth_in
    if values.lumber != GLUED or not values.depth.exponent:
        return float(by_depth**values.depth.exponent)
    volume = by_depth * GLUED_LENGTH_IN / length_in * GLUED_BREADTH_IN / section.ply_breadth_in
    return min(float(volume**values.depth.exponent), 1.0)


def _dimension_factor(values: DesignValues, section: CrossSection, symbol: str) -> float:
    if values.grade == "Stud" and section.nominal_depth > STUD_WIDEST_IN:
        raise LumberError(f"Stud grade {section.label} takes the values and factors of No.3; name No.3 instead")
    grades = "Stud" if values.grade == "Stud" else "all but Stud"
    column = "Fb_4_thick" if symbol == "Fb" and section.nominal_thickness == 4 else symbol
    try:
        return _size_factors()[grades, section.nominal_depth, column]
    except KeyError:
        raise LumberError(f"no size factor is listed for {symbol} of {section.label}") from None


def _lumber_classes(section: CrossSection) -> tuple[str, ...]:
    if not section.nominal_depth:
        raise LumberError(f"{section.label} is not dressed lumber; give the maker's values and document")
    if not section.is_timber:
        return ("dimension", BY_WIDTH)
    # NDS Supplement 4D: more than 2 in deeper than thick is graded as a beam, else as a post.
    return (TIMBER[0],) if section.nominal_depth > section.nominal_thickness + 2 else (TIMBER[1],)


def _not_found(species: str, grade: str, section: CrossSection, supplement: str) -> str:
    listed = [v for v in _rows() if is_same(v.species, species)]
    if not listed:
        return f"no values are listed for species {species!r}; listed: {', '.join(listed_species())}"
    wanted = _lumber_classes(section)
    choices = dict.fromkeys(v.grade for v in listed if v.lumber in wanted and supplement in v.supplement.split("; "))
    return f"no {supplement} values are listed for {species} {grade} as {section.label}; listed: {', '.join(choices)}"


@cache
def _rows() -> tuple[DesignValues, ...]:
    return tuple(_design_values(row) for row in read_table("design_values.csv"))


def _design_values(row: Mapping[str, str]) -> DesignValues:
    numbers = {symbol: float(row[symbol]) for symbol in SYMBOLS if row[symbol]}
    bases = {symbol: _basis(row, symbol) for symbol in numbers}
    return DesignValues(
        row["species"],
        row["grade"],
        row["supplement"],
        row["lumber"],
        row["width"],
        MappingProxyType(numbers),
        MappingProxyType(bases),
        row["source"],
    )


def _basis(row: Mapping[str, str], symbol: str) -> str:
    found = [
        text
        for column, text in (("read", "read"), ("confirmed", "confirmed by table cells"))
        if symbol in row[column].split()
    ]
    return " and ".join(found) or row["basis"]


@cache
def _size_factors() -> Mapping[tuple[str, int, str], float]:
    columns = ("Fb", "Fb_4_thick", "Ft", "Fc")
    return MappingProxyType(
        {
            (row["grades"], int(row["nominal_depth"]), column): float(row[column])
            for row in read_table("size_factors.csv")
            for column in columns
        }
    )


@cache
def read_table(name: str) -> tuple[Mapping[str, str], ...]:
    """Return the rows of a table that stands beside this file."""
    with (HERE / name).open(encoding="utf-8", newline="") as lines:
        return tuple(_records(lines))


def _records(lines: Iterator[str]) -> Iterator[Mapping[str, str]]:
    for row in csv.DictReader(lines):
        yield MappingProxyType(row)
