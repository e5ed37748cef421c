"""Pieces of wood as the drawings call for them: nominal sizes, measured ones, made products, and what is fixed along a member."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe, Record
from precheck.files.values import After, Within
from precheck.project.between import Between
from precheck.project.part import Load, Size, Strength

Plies = Annotated[int, Within(ge=1), Between(1, 12)]
Exponent = Annotated[float, Within(gt=0, le=1)]
_SIZE = re.compile(r"\d{1,2}x\d{1,2}")


_METRIC = re.compile(r"(\d{2,3})x(\d{2,3})mm")
_NOMINAL_OF_MM = {38: 2, 64: 3, 89: 4, 114: 5, 140: 6, 184: 8, 235: 10, 286: 12, 337: 14, 387: 16}


def _nominal(text: str) -> str:
    size = text.replace(" ", "").lower()
    if match := _METRIC.fullmatch(size):
        return _from_mm(text, int(match[1]), int(match[2]))
    if not _SIZE.fullmatch(size):
        raise ValueError(f"`{text}` is not a lumber size; write it like 2x10, with the number of pieces as `plies`")
    return size


def _from_mm(text: str, breadth: int, depth: int) -> str:
    if breadth not in _NOMINAL_OF_MM or depth not in _NOMINAL_OF_MM:
        known = ", ".join(map(str, _NOMINAL_OF_MM))
        raise ValueError(
            f"`{text}` is no dressed size in mm (sides of {known}); write the nominal one, such as 2x8, and the true one "
            "as `measured: {breadth: 50 mm, depth: 200 mm}`"
        )
    return f"{_NOMINAL_OF_MM[breadth]}x{_NOMINAL_OF_MM[depth]}"


Nominal = Annotated[str, After(_nominal)]
"""A nominal lumber size such as ``2x10``."""


class MeasuredSize(Record):
    """The size that a piece really has, where it is not the dressed one: full-sawn, worn, or made to a metric size."""

    kind = "measured size"
    breadth: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1/2 in", "6 ft")]] = NOT_GIVEN


class SpanTable(Record):
    """What a maker's span table is for: its loads, its spacing, over how many spans, and the bearing at its ends."""

    kind = "span table"
    live: Maybe[Annotated[Load, Between("1 psf", "500 psf")]] = NOT_GIVEN
    dead: Maybe[Annotated[Load, Between("1 psf", "500 psf")]] = NOT_GIVEN
    spacing: Maybe[Annotated[Size, Between("3 in", "12 ft")]] = NOT_GIVEN
    over: Maybe[Literal["one span", "several spans"]] = NOT_GIVEN
    bearing: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN


class MakerData(Record):
    """A made product such as LVL or an I-joist: its true size and what the maker's document says of it.

    The bending value goes with depth by the maker's `depth exponent` from its `reference depth`, or it is the one
    `at this depth`. Glulam goes by its volume; `bending other side` is its value with the other side in tension, as over
    a support, unless it is `balanced`. The `longest span` of an I-joist holds for what its `table` is for.
    """

    kind = "maker's data"
    product: Literal["LVL", "I-joist", "glulam", "PSL", "LSL", "steel", "other"]
    grade: str = ""
    document: Maybe[str] = NOT_GIVEN
    breadth: Maybe[Annotated[Size, Between("1/4 in", "3 ft")]] = NOT_GIVEN
    depth: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    bending: Maybe[Annotated[Strength, Between("50 psi", "40000 psi")]] = NOT_GIVEN
    bending_other_side: Maybe[Annotated[Strength, Between("50 psi", "40000 psi")]] = NOT_GIVEN
    balanced: Maybe[bool] = NOT_GIVEN
    at_this_depth: Maybe[bool] = NOT_GIVEN
    depth_exponent: Maybe[Exponent] = NOT_GIVEN
    reference_depth: Maybe[Annotated[Size, Between("1 in", "6 ft")]] = NOT_GIVEN
    shear: Maybe[Annotated[Strength, Between("10 psi", "5000 psi")]] = NOT_GIVEN
    bearing: Maybe[Annotated[Strength, Between("20 psi", "10000 psi")]] = NOT_GIVEN
    compression: Maybe[Annotated[Strength, Between("20 psi", "20000 psi")]] = NOT_GIVEN
    modulus: Maybe[Annotated[Strength, Between("50000 psi", "40000000 psi")]] = NOT_GIVEN
    modulus_for_stability: Maybe[Annotated[Strength, Between("50000 psi", "40000000 psi")]] = NOT_GIVEN
    longest_span: Maybe[Annotated[Size, Between("6 in", "100 ft")]] = NOT_GIVEN
    table: Maybe[SpanTable] = NOT_GIVEN
    cuts_allowed: Maybe[bool] = NOT_GIVEN
    ply_fastening: Maybe[str] = NOT_GIVEN


class Sister(Record):
    """A member fixed along another one. It carries its share only where it runs from bearing to bearing."""

    kind = "sister"
    size: Maybe[Nominal] = NOT_GIVEN
    plies: Plies = 1
    species: Maybe[str] = NOT_GIVEN
    grade: Maybe[str] = NOT_GIVEN
    full_length: Maybe[bool] = NOT_GIVEN
    fastener_spacing: Maybe[Annotated[Size, Between("1/2 in", "10 ft")]] = NOT_GIVEN


__all__ = ["MakerData", "MeasuredSize", "Nominal", "Plies", "Sister", "SpanTable"]
