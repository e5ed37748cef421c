"""Sizes as people type them: each is understood, written in full, and all its meanings are told where it has several."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from precheck.project.opening import WidthHeight
from precheck.questions.typed import DISTANCE, HEIGHT, OPENING, ROOM, Likely, Size, lengths_typed, sizes_typed
from precheck.units import Length, NotationError


@pytest.mark.parametrize(
    ("typed", "likely", "meant"),
    [
        ("12'6", ROOM, ["12'-6\""]),
        ("12 6", ROOM, ["12'-6\""]),
        ("12-6", ROOM, ["12'-6\""]),
        ("12", ROOM, ["12'-0\""]),
        ("12' 6", ROOM, ["12'-6\""]),
        ("12'6 1/2", ROOM, ["12'-6 1/2\""]),
        ("12 6 1/2", ROOM, ["12'-6 1/2\""]),
        ("12ft 6", ROOM, ["12'-6\""]),
        ("12\u20326\u2033", ROOM, ["12'6\""]),
        ("11'-4\"", ROOM, ["11'-4\""]),
        ("12.5", ROOM, ["12'-6\""]),
        ("0", DISTANCE, ["0 in"]),
        ("5", DISTANCE, ["5'-0\""]),
        ("5 3", DISTANCE, ["5'-3\""]),
        ("18", DISTANCE, ["18'-0\"", "18 in"]),
        ("3.5 m", ROOM, ["3.5 m"]),
        ("3500", ROOM, ["3500 mm", "35'-0\""]),
        ("1206", ROOM, ["1206 mm", "12'-6\""]),
        ("144", ROOM, ["12'-0\""]),
        ("36", ROOM, ["36'-0\"", "36 in"]),
        ("12 1/2", ROOM, ["12'-0 1/2\"", "12'-6\""]),
        ("40", HEIGHT, ["40 in"]),
        ("40 1/2", HEIGHT, ["40'-0 1/2\"", "40 1/2 in"]),
        ("7", HEIGHT, ["7'-0\""]),
        ("-8 in", HEIGHT, ["-8 in"]),
    ],
)
def test_a_length_is_read_as_it_is_meant(typed: str, likely: Likely, meant: list[str]) -> None:
    assert list(lengths_typed(typed, likely)) == meant


@pytest.mark.parametrize(
    ("typed", "likely", "meant"),
    [
        ("11'-4\" x 14'-0\"", ROOM, ["11'-4\" x 14'-0\""]),
        ("20' 12'", ROOM, ["20' x 12'"]),
        ("20 12", ROOM, ["20'-0\" x 12'-0\""]),
        ("12 x 14", ROOM, ["12'-0\" x 14'-0\""]),
        ("12 by 14", ROOM, ["12'-0\" x 14'-0\""]),
        ("12 6 x 14", ROOM, ["12'-6\" x 14'-0\""]),
        ("12 6 10 4", ROOM, ["12'-6\" x 10'-4\""]),
        ("12 6 10", ROOM, ["12'-0\" x 6'-10\"", "12'-6\" x 10'-0\""]),
        ("3 x 3.5 m", OPENING, ["3'-0\" x 3.5 m"]),
        ("3500 x 4200", ROOM, ["3500 mm x 4200 mm", "35'-0\" x 42'-0\""]),
        ("3-0 x 6-8", OPENING, ["3'-0\" x 6'-8\""]),
        ("2868", OPENING, ["2'-8\" x 6'-8\""]),
        ("16070", OPENING, ["16'-0\" x 7'-0\""]),
        ("36 x 48", OPENING, ["36 in x 4'-0\""]),
        ("3 x 4", OPENING, ["3'-0\" x 4'-0\""]),
        ("12 x 12", OPENING, ["12'-0\" x 12'-0\"", "12 in x 12 in"]),
    ],
)
def test_a_size_is_read_as_it_is_meant(typed: str, likely: Likely, meant: list[str]) -> None:
    assert [size.written for size in sizes_typed(typed, likely)] == meant


def test_a_call_out_names_its_operation() -> None:
    assert sizes_typed("3050 SH", OPENING) == (Size("3'-0\"", "5'-0\"", "single hung"),)


@pytest.mark.parametrize("typed", ["", "banana", "12'14", "99999", "1/0", "x", "--3", "12 6 x", "1" * 80, "٣"])
def test_what_is_no_length_is_refused_with_what_to_type(typed: str) -> None:
    with pytest.raises(NotationError, match="type it like"):
        lengths_typed(typed, ROOM)
    with pytest.raises(NotationError, match=r"type (it|them) like"):
        sizes_typed(typed, ROOM)


@settings(deadline=None)
@given(st.text("0123456789'\"-./ xftinm", max_size=14))
def test_whatever_is_understood_can_be_written_into_a_file(typed: str) -> None:
    try:
        lengths = lengths_typed(typed, DISTANCE)
    except NotationError:
        return
    for length in lengths:
        Length.parse(length)


@settings(deadline=None)
@given(st.integers(24, 700), st.sampled_from(["", " 1/2"]))
def test_feet_and_inches_without_their_marks_are_the_same_length(inches: int, part: str) -> None:
    feet, rest = divmod(inches, 12)
    full = Length.parse(f"{feet}'-{rest}{part}\"")
    for typed in (f"{feet}'{rest}{part}", f"{feet} {rest}{part}", f"{feet}-{rest}{part}", f"{feet}' {rest}{part}"):
        assert [Length.parse(one) for one in lengths_typed(typed, ROOM)] == [full]


def test_a_size_of_an_opening_is_one_that_a_file_takes() -> None:
    from precheck.project.opening import _two_lengths

    for typed in ("2868", "36 x 48", "3 x 4", "20' 12'"):
        assert isinstance(_two_lengths(sizes_typed(typed, OPENING)[0].written), WidthHeight)
