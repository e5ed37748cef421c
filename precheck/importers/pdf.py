"""Plans in a PDF, read with pypdfium2: one page, at a scale that the page proves or a person says, as a drawn plan.

PDFium reads a page some thirty times as fast as readers in Python, and comes in one package under permissive licenses.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from time import process_time
from typing import TYPE_CHECKING, Any

from precheck.importers.draft import Draft, plain
from precheck.importers.drawn import taken_over
from precheck.importers.drawn.pdf_hidden import hidden_layers
from precheck.importers.files import refused, whole
from precheck.importers.mapping import Mapping
from precheck.importers.paper_scale import PaperScale, ratio_of

if TYPE_CHECKING:  # what does the work needs shapely, and is imported when a plan is read
    from precheck.importers.drawn.pdf_scale import ProvenScale
    from precheck.importers.drawn.pdf_sheet import PageSheet
    from precheck.importers.drawn.pdf_size_scale import SizesOfPage
    from precheck.importers.drawn.sheet import DrawnSheet

MOST_PAGES = 60
WORK = 12.0  # seconds of processor time, after which no further guess of the scale or of the walls is tried
DIFFERS = 0.01  # of the scale said by which the one that is proven may differ
WAY_OUT = (
    "write the scale in a mapping file, as `scale: 1/4 in = 1 ft`, or measure one length on the page and write what it is, as"
    " `scale: 3 1/2 in = 14 ft`, and import with --mapping and that file"
)
_FEET = re.compile(r"\d\s*['\u2032\u2019]")


def read_pdf(path: Path, name: str, mapping: Mapping, tick: Callable[[int, int], None]) -> Draft:
    """Read the plan on one page of a PDF as a draft. Raises `Unusable`."""
    from precheck.importers.drawn.pdf_size_scale import SizesOfPage

    document = _document(path, name)
    page = _page(document, name, mapping, hidden_layers(path))
    sheet = page.united()
    sizes = SizesOfPage(sheet, mapping, _time_up(WORK))
    _scale(page, name, mapping, sizes)
    _name_layers(sheet, mapping, sizes)
    draft = Draft(name, "PDF", path.stem)
    draft.form = f"PDF page {page.number} at {ratio_of(sheet.meter or 1.0)}"
    taken_over(draft, path, sheet, mapping, tick)
    if draft.recognized is not None:
        draft.recognized.on_paper = True
        draft.recognized.said = {"scale": mapping.scale.text if mapping.scale else ratio_of(sheet.meter or 1.0)}
        if len(document) > 1:
            draft.recognized.said["page"] = str(page.number)
    return draft


def _time_up(seconds: float) -> Callable[[], bool]:
    """Return what tells whether so many seconds of work are over, from now on."""
    end = process_time() + seconds
    return lambda: process_time() > end


def _scale(page: PageSheet, name: str, mapping: Mapping, sizes: SizesOfPage) -> None:
    """Give the sheet of a page the scale that the mapping says, else the one that it proves. Raises `Unusable`."""
    sheet, said, proven = page.sheet, mapping.scale, _proven(page.sheet, sizes)
    if said is not None:
        sheet.meter, sheet.scale_told = said.meter, f"scale {said.text}, as the mapping file says"
        if proven is not None and abs(proven.meter / said.meter - 1) > DIFFERS:
            told = f"{proven.by} {proven.what} on page {page.number} say {ratio_of(proven.meter)}"
            raise refused(name, f"the scale in the mapping file is {said.text}, and {told}; correct it, or take it out")
    elif proven is None:
        told = f"page {page.number} does not prove its scale: no dimensions or sizes of rooms agree on one"
        raise refused(name, f"{told}; {WAY_OUT}")
    else:
        sheet.meter = PaperScale.from_file(ratio_of(proven.meter)).meter  # as a mapping file begun from it says it
        sheet.scale_told = f"scale {ratio_of(proven.meter)}, on which {proven.by} {proven.what} agree"
    sheet.told.append(sheet.scale_told)
    feet = (said is not None and said.imperial) or sum(bool(_FEET.search(text.text)) for text in sheet.texts) >= 2
    sheet.unit_said = "feet" if feet else "meters"


def _name_layers(sheet: DrawnSheet, mapping: Mapping, sizes: SizesOfPage) -> None:
    """Tell the layers of walls of a sheet with a scale by its sizes, where those do, and the lines of its openings."""
    from precheck.importers.drawn.layers import paired_layers
    from precheck.importers.drawn.pdf_openings import name_openings

    if sheet.meter:
        walls = sizes.walls(sheet.meter)
        sheet.walls = () if set(walls) == set(paired_layers(sheet, sheet.meter)) else walls
        name_openings(sheet, sheet.meter, mapping)


def _proven(sheet: DrawnSheet, sizes: SizesOfPage) -> ProvenScale | None:
    from precheck.importers.drawn.pdf_scale import scale_by_dimensions

    return scale_by_dimensions(sheet) or sizes.scale()


def _document(path: Path, name: str) -> Any:
    start, end = whole(path, name)
    if not start.lstrip().startswith(b"%PDF"):
        raise refused(name, "this is no PDF, whatever its name says; name the file that was plotted")
    pdfium: Any = import_module("pypdfium2")
    try:
        return pdfium.PdfDocument(str(path))
    except Exception as error:  # whatever the reader makes of a broken file
        said = plain(error)[:80].lower()
        if "password" in said:
            raise refused(name, "the PDF is locked by a password; save it without one") from None
        cut = "the file is cut off: its end is not there" if b"%%EOF" not in end else f"not readable as PDF ({said})"
        raise refused(name, f"{cut}; plot or copy it again") from None


def _page(document: Any, name: str, mapping: Mapping, hidden: frozenset[str]) -> PageSheet:
    """Return the page that the mapping names, or the one page that holds a drawing. Raises `Unusable`."""
    from precheck.importers.drawn.pdf_sheet import PageSheet

    count = len(document)
    if mapping.page is not None and mapping.page > count:
        told = f"the mapping file names page {mapping.page}, and the last page is {count}"
        raise refused(name, f"{told}; correct it")
    numbers = range(1, min(count, MOST_PAGES) + 1) if mapping.page is None else [mapping.page]
    pages = [PageSheet(document, number, hidden) for number in numbers]
    drawn = [page for page in pages if not page.why_not]
    if not drawn:
        raise refused(name, f"page {pages[0].number} {pages[0].why_not}" if pages else "has no page; plot it again")
    if len(drawn) > 1:
        listed = ", ".join(str(page.number) for page in drawn)
        told = (
            f"pages {listed} hold drawings; name the one with the plan in a mapping file, as `page: {drawn[0].number}`"
        )
        raise refused(name, told)
    return drawn[0]


__all__ = ["read_pdf"]
