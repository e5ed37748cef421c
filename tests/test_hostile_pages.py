"""Pages that no drafter made: boxes, numbers, forms and heaps that would hold up or bring down a reader end in one sentence."""

from __future__ import annotations

import zlib

import pytest
from drawn_plans import house
from plotted_plans import one_page, plotted
from test_import_pdf import ROOMS, areas, read

from precheck.files.source import Unusable
from precheck.importers import read_design

pytest.importorskip("pypdfium2")
pytest.importorskip("ezdxf")


def plan():
    return plotted(house()).stream()


@pytest.mark.parametrize("given", [
    {"box": "0 0 1e30 1e30"}, {"box": "792 792 0 0"}, {"box": "0 0 0 0"}, {"box": ""}, {"drawn": b"q " * 5000 + plan()},
    {"drawn": b"nan nan m 1e39 1e39 l S 99999999999999999999999999 5 m 10 10 l S " + plan()},
    {"drawn": plan().replace(b"/F ", b"/NOPE ")},
])  # fmt: skip
def test_a_plan_among_broken_numbers_boxes_and_fonts_is_read_all_the_same(given, tmp_path):
    path = one_page(tmp_path / "plan.pdf", **{"drawn": plan(), **given})
    assert areas(read(path)) == pytest.approx(ROOMS, rel=0.01)


@pytest.mark.parametrize(("given", "told"), [
    ({"drawn": b"q 0 0 0 0 0 0 cm " + plan()}, "holds no drawing"), ({"drawn": b"q 1e-9 0 0 1e-9 0 0 cm " + plan()}, "no drawing"),
    ({"drawn": b""}, "holds no drawing"), ({"drawn": b"\x00\xff BT ( l S m"}, "holds no drawing"),
    ({"drawn": plan(), "says": "/UserUnit 10"}, "a unit of their own"),
])  # fmt: skip
def test_a_page_that_shows_nothing_to_scale_is_refused(given, told, tmp_path):
    with pytest.raises(Unusable, match=told):
        read(one_page(tmp_path / "plan.pdf", **given))


def forms(*bodies):
    """Return forms, each of which may draw the next one, as the objects of a file from the sixth on."""
    return [
        b"<< /Type /XObject /Subtype /Form /BBox [0 0 792 792] /Resources << /XObject << /X %d 0 R >> >> /Length %d >>\n"
        b"stream\n%s\nendstream" % (6 + min(n + 1, len(bodies) - 1), len(body), body)
        for n, body in enumerate(bodies)
    ]


HEAPS = {
    "a form that draws itself": lambda: {"drawn": b"/X Do", "after": forms(b"/X Do /X Do")},
    "forms that draw ten each": lambda: {"drawn": b"/X Do", "after": forms(*[b"/X Do " * 10] * 11, b"0 0 m 9 9 l S")},
    "a stream that unpacks to gigabytes": lambda: {"packed": zlib.compress(b"0 0 m 1 1 l S " * 20_000_000)},
}


@pytest.mark.long
@pytest.mark.parametrize("heap", HEAPS)
def test_a_page_that_grows_without_end_ends_in_a_sentence(heap, tmp_path):
    path = one_page(tmp_path / "plan.pdf", **HEAPS[heap]())
    with pytest.raises(Unusable, match=r"memory than there is|s of work|holds no drawing|does not prove"):
        read_design(path)
