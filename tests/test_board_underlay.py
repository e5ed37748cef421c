"""Pictures of plans behind the sketch: what is taken, where it lies, and that the disk holds nothing but ours."""

from __future__ import annotations

import json
import os
import shutil
import struct
import time
from cmath import exp
from math import hypot, radians
from pathlib import Path
from typing import Any

import pytest
from board_pictures import LINE, pdf, photo, scan, webp
from hypothesis import assume, given
from hypothesis import strategies as st

from precheck.board import pdf_page
from precheck.board.pdf_child import PIXELS, dots_for
from precheck.board.pdf_page import drawn_page
from precheck.board.placing import Placing, first_placing, leveled, moved, scaled, turned
from precheck.board.typed import MeantError
from precheck.board.underlay import Underlays, sent_of
from precheck.board.underlay_asked import PICTURE_REQUEST, do_with_picture
from precheck.board.upload import HEIC, MOST_PIXELS, SVG, Picture, kind_of, picture_of
from precheck.files.source import Unusable
from precheck.units import Length

NEAR = 1e-6
COORDINATES = st.floats(-10_000, 10_000)
PIXELS_OF = st.tuples(st.floats(0, 8000), st.floats(0, 8000))
PLACINGS = st.builds(Placing, COORDINATES, COORDINATES, st.floats(-180, 180), st.floats(0.01, 50))


def apart(one: tuple[float, float], other: tuple[float, float]) -> float:
    return hypot(one[0] - other[0], one[1] - other[1])


@given(PLACINGS, PIXELS_OF, PIXELS_OF, st.floats(6, 3000))
def test_two_points_are_as_far_apart_as_was_typed_and_the_first_stays(
    placing: Placing, one: tuple[float, float], other: tuple[float, float], inches: float
) -> None:
    assume(apart(one, other) >= 10)
    found = scaled(placing, one, other, inches)
    assert apart(found.on_plan(one), found.on_plan(other)) == pytest.approx(inches, rel=1e-9)
    assert found.on_plan(one) == pytest.approx(placing.on_plan(one), abs=NEAR)
    assert found.angle == placing.angle
    assert found.scale == pytest.approx(inches / apart(one, other), rel=1e-12)


@given(PLACINGS, PIXELS_OF, PIXELS_OF)
def test_a_line_that_is_level_runs_level_turned_the_shorter_way(
    placing: Placing, one: tuple[float, float], other: tuple[float, float]
) -> None:
    assume(apart(one, other) >= 2)
    found = leveled(placing, one, other)
    (x, y), (x2, y2) = found.on_plan(one), found.on_plan(other)
    assert y2 == pytest.approx(y, abs=NEAR * found.scale * 8000)
    assert abs(x2 - x) == pytest.approx(apart(one, other) * placing.scale, rel=1e-9)
    assert abs((found.angle - placing.angle + 180) % 360 - 180) <= 90 + 1e-9
    assert found.on_plan(one) == pytest.approx(placing.on_plan(one), abs=NEAR)


@given(PLACINGS, st.floats(-1000, 1000))
def test_a_turned_picture_keeps_its_middle_and_its_scale(placing: Placing, angle: float) -> None:
    found = turned(placing, angle, (400, 300))
    assert found.on_plan((200, 150)) == pytest.approx(placing.on_plan((200, 150)), abs=NEAR)
    assert exp(1j * radians(found.angle)) == pytest.approx(exp(1j * radians(angle)), abs=1e-9)
    assert -180 < found.angle <= 180
    assert apart(found.on_plan((0, 0)), found.on_plan((400, 300))) == pytest.approx(500 * placing.scale, rel=1e-9)


@given(PLACINGS, PIXELS_OF, st.tuples(COORDINATES, COORDINATES))
def test_moving_moves_every_point_alike_and_a_point_is_found_again(
    placing: Placing, pixel: tuple[float, float], by: tuple[float, float]
) -> None:
    before, after = placing.on_plan(pixel), moved(placing, by).on_plan(pixel)
    assert (after[0] - before[0], after[1] - before[1]) == pytest.approx(by, abs=NEAR)
    assert placing.off_plan(before) == pytest.approx(pixel, abs=1e-3)


def test_a_picture_lies_upright_at_the_origin_before_anything_is_said() -> None:
    found = first_placing((4000, 3000))
    assert found.on_plan((0, 3000)) == pytest.approx((0, 0))
    assert found.on_plan((4000, 0)) == pytest.approx((480, 360))


@pytest.mark.parametrize(
    ("one", "other", "inches", "says"),
    [
        ((5, 5), (5, 6), 100, "too close together"),
        ((0, 0), (100, 0), 0, "more than 0"),
        ((0, 0), (100, 0), -5, "more than 0"),
        ((0, 0), (100, 0), float("nan"), "more than 0"),
        ((0, 0), (100, 0), 1e9, "no plan has that scale"),
        ((0, 0), (8000, 0), 0.1, "no plan has that scale"),
    ],
)
def test_points_and_distances_that_say_nothing_are_refused(
    one: tuple[float, float], other: tuple[float, float], inches: float, says: str
) -> None:
    with pytest.raises(ValueError, match=says):
        scaled(Placing(0, 0, 0, 1), one, other, inches)


# ---- What is taken --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "size"),
    [
        (scan(300, 200), (300, 200)),
        (photo(4032, 3024), (4032, 3024)),
        (photo(4032, 3024, held=1), (4032, 3024)),
        (photo(4032, 3024, held=6), (3024, 4032)),
        (photo(4032, 3024, held=8, order=">"), (3024, 4032)),
        (webp(b"VP8X", bytes(4) + (1999).to_bytes(3, "little") + (999).to_bytes(3, "little")), (2000, 1000)),
        (webp(b"VP8L", b"\x2f" + (1999 | 999 << 14).to_bytes(4, "little")), (2000, 1000)),
        (webp(b"VP8 ", b"\0\0\0\x9d\x01\x2a" + struct.pack("<HH", 2000, 1000)), (2000, 1000)),
    ],
)
def test_a_photo_or_scan_is_known_by_its_first_bytes_and_its_size_is_read(data: bytes, size: tuple[int, int]) -> None:
    assert picture_of(data).size == size


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", HEIC),
        (b'<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>', SVG),
        (b"\n<SVG onload=alert(1)>", SVG),
        (b"GIF89a", "GIF is not taken"),
        (b"II*\0\x08\0\0\0", "save it as PDF or PNG"),
        (b"MZ\x90\0 called plan.pdf", "JPEG, PNG or WebP"),
        (b"<html>%PDF-1.4", "JPEG, PNG or WebP"),
        (b"", "JPEG, PNG or WebP"),
    ],
)
def test_what_is_no_picture_is_refused_with_what_to_send(data: bytes, says: str) -> None:
    with pytest.raises(ValueError) as told:  # noqa: PT011  # the message is compared
        kind_of(data)
    assert says in str(told.value)


def test_a_picture_that_unfolds_to_more_than_a_computer_holds_is_refused() -> None:
    huge = bytearray(scan(3, 3))
    huge[16:24] = struct.pack(">II", 15_000, 15_000)
    with pytest.raises(ValueError, match="60 million are the maximum"):
        picture_of(bytes(huge))
    side = int(MOST_PIXELS**0.5)
    huge[16:24] = struct.pack(">II", side, side)
    assert picture_of(bytes(huge)) == Picture("png", (side, side))


@given(
    st.sampled_from([scan(3, 3), photo(40, 30, held=6), webp(b"VP8X", bytes(10))]),
    st.integers(0, 80),
    st.binary(max_size=4),
)
def test_a_damaged_picture_is_refused_in_words_or_has_a_size(data: bytes, at: int, other: bytes) -> None:
    damaged = data[:at] + other + data[at + len(other) + 1 :]
    told, size = "", (0, 0)
    try:
        size = picture_of(damaged).size
    except ValueError as error:
        told = str(error)
    assert told.endswith(".") or min(size) >= 1


# ---- Pages of a PDF -------------------------------------------------------------------------------------------------


def test_a_page_is_drawn_in_a_process_of_its_own_with_its_lines_where_they_are() -> None:
    found = drawn_page(pdf(3), 2)
    assert (found.pages, found.size) == (3, (1700, 2200))
    assert picture_of(found.png) == Picture("png", (1700, 2200))


@pytest.mark.parametrize(
    ("data", "page", "says"),
    [
        (pdf(3), 4, "has 3 pages"),
        (pdf(1), 2, "has 1 page;"),
        (b"%PDF-1.4\nnothing in it", 1, "cannot be read"),
        (pdf(1)[:200], 1, "cannot be read"),
        (pdf(1, size=(72 * 199, 72 * 9999)), 1, "no sheet of paper"),
    ],
)
def test_a_pdf_that_gives_no_page_is_told(data: bytes, page: int, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        drawn_page(data, page)


def test_a_large_sheet_is_drawn_with_fewer_dots_and_never_over_the_maximum() -> None:
    for width, height in ((8.5, 11), (24, 36), (36, 48), (200, 200), (0.5, 200)):
        dots = dots_for(width, height)
        assert width * height * dots * dots <= PIXELS * (1 + 1e-9)
    assert dots_for(8.5, 11) == 200


def test_a_pdf_that_takes_for_ever_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    started = time.monotonic()
    with pytest.raises(ValueError, match="could not be drawn"):
        drawn_page(pdf(1), 1, patience=0.01)
    assert time.monotonic() - started < 5


@pytest.mark.skipif(not shutil.which("sh"), reason="limits are set on systems that have them")
@pytest.mark.parametrize(("name", "value"), [("MEMORY", 20_000_000), ("MOST_ANSWER", 100)])
def test_a_page_that_wants_more_than_its_process_may_have_is_told_and_nothing_else_happens(
    name: str, value: int, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The process runs with a smaller limit here; what it does when it meets the real one is the same."""
    starter = tmp_path / "python"
    code = f"import sys; import precheck.board.pdf_child as c; c.{name} = {value}; c.main()"
    starter.write_text(f'#!/bin/sh\nexec "{pdf_page.sys.executable}" -c "{code}" "$4"\n')  # as: -P -m module page
    starter.chmod(0o700)
    monkeypatch.setattr(pdf_page.sys, "executable", str(starter))
    with pytest.raises(ValueError, match="could not be drawn"):
        drawn_page(pdf(1), 1)


def test_without_the_package_a_pdf_is_told_how_to_have_it_and_a_scan_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf_page, "find_spec", lambda _: None)
    with pytest.raises(ValueError, match="precheck\\[board\\]"):
        sent_of(pdf(1))
    assert sent_of(scan()).size == (300, 200)


# ---- What is kept ---------------------------------------------------------------------------------------------------


@pytest.fixture
def kept(tmp_path: Path) -> Underlays:
    return Underlays(tmp_path / "house.yaml")


def do(kept: Underlays, **asked: Any) -> None:
    do_with_picture(kept, PICTURE_REQUEST.validate_python(asked))


def test_a_scan_is_set_to_scale_by_a_typed_distance_and_is_so_after_a_restart(kept: Underlays) -> None:
    kept.add("ground", sent_of(scan()))
    assert not kept.of("ground").to_scale
    do(kept, do="scale", story="ground", points=[[20, 100], [190, 100]], distance="14'-2\"")
    again = Underlays(kept.folder.with_name("house.yaml"))
    found = again.look().of("ground")
    assert found is not None
    assert found == kept.of("ground")
    assert (found.to_scale, found.scale) == (True, 1.0)  # 170 in over 170 pixels
    assert apart(found.placing.on_plan((20, 100)), found.placing.on_plan((190, 100))) == 170


def test_a_short_distance_is_shown_before_it_is_taken(kept: Underlays) -> None:
    kept.add("ground", sent_of(scan()))
    with pytest.raises(MeantError) as told:
        do(kept, do="scale", story="ground", points=[[20, 100], [190, 100]], distance="14 2")
    assert Length.parse(told.value.meant[0]) == Length.parse("14'-2\"")
    assert not kept.of("ground").to_scale


def test_it_is_moved_turned_made_level_shown_fainter_hidden_and_each_is_taken_back(kept: Underlays) -> None:
    kept.add("ground", sent_of(scan()))
    seen = [kept.of("ground")]
    for asked in (
        {"do": "move", "by": [3, -4.5]},
        {"do": "move", "right": "2 ft", "up": "-6 in"},
        {"do": "turn", "angle": "90"},
        {"do": "turn", "angle": "-1.5\N{DEGREE SIGN}"},
        {"do": "level", "points": [[0, 0], [100, 50]]},
        {"do": "see", "seen": 20, "hidden": False},
        {"do": "see", "seen": 20, "hidden": True},
    ):
        do(kept, story="ground", **asked)
        assert kept.of("ground") != seen[-1]
        seen.append(kept.of("ground"))
    assert (seen[2].x - seen[0].x, seen[2].y - seen[0].y) == pytest.approx((27, -10.5))
    assert (seen[3].angle, seen[4].angle, seen[6].seen, seen[7].hidden) == (90, -1.5, 20, True)
    while len(seen) > 1:
        seen.pop()
        do(kept, do="back")
        assert kept.of("ground") == seen[-1]
    with pytest.raises(ValueError, match="nothing to take back"):
        do(kept, do="back")


def test_a_page_of_the_same_size_lies_where_the_one_before_it_lay_and_waits_for_its_scale(kept: Underlays) -> None:
    kept.add("ground", sent_of(pdf(3)))
    number = kept.of("ground").source
    do(kept, do="scale", story="ground", points=[[0, 0], [1700, 0]], distance="34 ft")
    kept.use("ground", number, sent_of(kept.sent_before(number), 3))
    found = kept.of("ground")
    assert (found.page, found.to_scale, found.scale) == (3, False, 34 * 12 / 1700)
    kept.use("upper", number, sent_of(kept.sent_before(number), 2))
    assert {one.story: one.page for one in kept.look().underlays} == {"ground": 3, "upper": 2}
    assert kept.picture(number, 3) is not None
    assert kept.picture(number, 1) is None  # no story shows it
    assert [path.name for path in sorted(kept.folder.iterdir())] == [
        f"source-{number}-page-2.png", f"source-{number}-page-3.png", f"source-{number}.pdf", "underlay.json",
    ]  # fmt: skip
    do(kept, do="remove", story="upper")
    do(kept, do="remove", story="ground")
    assert [path.name for path in kept.folder.iterdir()] == ["underlay.json"]


def test_what_is_not_ours_in_the_folder_stays(kept: Underlays) -> None:
    kept.add("ground", sent_of(scan()))
    mine = kept.folder / f"source-{kept.of('ground').source}-notes.png"
    mine.write_bytes(b"mine")
    do(kept, do="remove", story="ground")
    assert mine.read_bytes() == b"mine"
    with pytest.raises(ValueError, match="no picture behind this story"):
        do(kept, do="turn", story="ground", angle="90")


def test_what_a_board_that_was_killed_left_is_cleared_and_what_another_is_sending_stays(kept: Underlays) -> None:
    kept.folder.mkdir()
    old, new = kept.folder / "source-7-page-1.png", kept.folder / "source-8.pdf"
    for path in (old, new):
        path.write_bytes(b"x")
    os.utime(old, (1, 1))
    kept.add("ground", sent_of(scan()))
    assert (old.exists(), new.exists()) == (False, True)


@pytest.mark.parametrize(
    "text",
    [
        "{", "[]", '{"underlays": 3}', '{"sources": [{"number": 1, "kind": "../../x"}]}',
        '{"sources": [{"number": 1, "kind": "png", "path": "/etc/passwd"}]}',
        '{"underlays": [{"story": "a", "source": 1, "page": 1, "size": [1, 1], "x": 0, "y": 0, "angle": 0, "scale": 0}]}',
        '{"underlays": [{"story": "a", "source": 1, "page": 1, "size": [1, 1], "x": NaN, "y": 0, "angle": 0, "scale": 1}]}',
    ],
)  # fmt: skip
def test_a_list_that_is_not_as_we_wrote_it_is_told_and_never_overwritten(kept: Underlays, text: str) -> None:
    kept.folder.mkdir()
    kept.list.write_text(text)
    assert "not as the board wrote it" in kept.shown()["problem"]
    with pytest.raises(ValueError, match="put it back, or remove it"):
        kept.add("ground", sent_of(scan()))
    assert kept.list.read_text() == text
    kept.list.unlink()
    kept.add("ground", sent_of(scan()))
    assert kept.shown()["problem"] == ""


def test_two_boards_on_one_file_take_turns_with_the_pictures(kept: Underlays) -> None:
    other = Underlays(kept.folder.with_name("house.yaml"))
    kept.add("ground", sent_of(scan()))
    other.add("upper", sent_of(scan()))  # which has read what is there by then
    do(kept, do="turn", story="upper", angle="90")
    assert other.of("upper").angle == 90
    assert len(json.loads(kept.list.read_text())["sources"]) == 2
    known = kept.revision
    do(other, do="turn", story="ground", angle="45")
    assert kept.shown()["stories"]["ground"]["angle"] == 45
    assert kept.revision > known


def test_a_folder_that_cannot_be_written_is_told_and_what_lay_there_stays(
    kept: Underlays, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept.add("ground", sent_of(scan()))
    before = kept.of("ground")

    def full(*_: object) -> bool:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("precheck.board.underlay.put_in_place_of", full)
    with pytest.raises(Unusable, match="No space left"):
        do(kept, do="turn", story="ground", angle="45")
    monkeypatch.setattr("precheck.board.underlay.put", full)
    with pytest.raises(Unusable, match="No space left"):
        kept.add("upper", sent_of(scan()))
    monkeypatch.undo()
    assert kept.of("ground") == before
    assert kept.look().of("upper") is None


def test_a_line_of_the_sheet_is_where_it_is_drawn_once_set_to_scale(kept: Underlays) -> None:
    """The line is 6.5 in long on paper; at 1/4 in to the foot that is 26 ft."""
    kept.add("ground", sent_of(pdf(1)))
    dots = 200 / 72
    points = [[LINE[0] * dots, 2200 - LINE[1] * dots], [LINE[2] * dots, 2200 - LINE[1] * dots]]
    do(kept, do="scale", story="ground", points=points, distance="26 ft")
    assert kept.of("ground").scale == pytest.approx(12 * 4 / 200, rel=1e-12)  # 4 ft of house to an inch of paper
