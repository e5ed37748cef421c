"""Public plans in PDF, where PRECHECK_MODELS names a folder that holds them: what is taken, against what is printed in the rooms.

They are published in these repositories on GitHub; nothing of them is kept here.
"""

import os
from pathlib import Path

import pytest

from precheck.files.source import Unusable
from precheck.importers import read_here, read_mapping

pytest.importorskip("shapely")
pytest.importorskip("pypdfium2")
FOLDER = Path(os.environ.get("PRECHECK_MODELS", "no folder of models"))
USES = "uses: {SOBA 1: bedroom, SOBA 2: bedroom, KUHINJA IN JEDILNICA: kitchen, DNEVNA SOBA: living room}\n"
SEEN = {  # of each: what a mapping file says, the scale that the page was plotted at, areas in square feet or square meters
    "asheville.pdf": ("page: 1\n", 153.64, {  # askingalot/asheville-house, floorplan.pdf
        "DINING": 182, "LAUNDRY": 43, "BEDROOM": 129, "BATH": 35, "KITCHEN": 182, "BEDROOM-2": 137, "BATH-3": 35,
        "BEDROOM-3": 146, "FAMILY": 183, "STORAGE": 1566,
    }),
    "awais-plan.pdf": ("", 74.05, {  # Awaiskamboh9/2D-and-3d-house-drawings, plan.pdf
        "GUEST-ROOM": 11 * 12, "KITCHEN": 6.25 * 9.625,
    }),
    "atrium.pdf": (USES, 50.0, {  # xtrinch/archicad-atrium-house, floor-plan.pdf
        "SOBA-2": 12.30, "SOBA-1": 11.32, "DNEVNA-SOBA": 27.68, "KUHINJA-IN-JEDILNICA": 31.28,
    }),
    "bokarevaibhavi28-FloorPlan-Elevation-Section.pdf": ("", 214.23, {  # codealpha_task4, FloorPlan-Elevation-Section.pdf
        "BATH-2": 1.2 * 2.1, "BEDROOM": 3.5 * 4.5, "BEDROOM-2": 3.5 * 4.5, "BEDROOM-3": 3.5 * 4.5, "LIVING": 33.0,
    }),
    "awais-layout.pdf": ("", 57.02, {  # Awaiskamboh9/2D-and-3d-house-drawings, layout plan
        "BED-ROOM": 16.625 * 13, "BED-ROOM-2": 16.625 * 13, "BATH-ROOM-2": 42, "DINING-ROOM": 114.17,
        "GUEST-ROOM": 18.75 * 11, "DRAWING-ROOM": 18.75 * 11, "OPEN-TO-SKY": 31.5, "OPEN-TO-SKY-2": 31.5,
    }),
    "nithishkesavarapu-code-floorplan.pdf": ("", 69.46, {  # floorplan_dimension_exrtraction, floorplan.pdf
        "Store": 20, "Bath-Toilet": 35, "Bed-Room": 110, "Bed-Room-2": 110,
    }),
    "bayzidcivil-FLOOR_PLAN.pdf": ("", 81.9, {  # bayzidcivil/Floor-Plan, FLOOR PLAN.pdf
        "BED-3": 197.5, "Library-Study": 131.7, "TOILET-4": 41.25, "TOILET-4-2": 43.75, "BED-2": 173.4,
        "VER": 24, "VER-2": 24, "VER-3": 41.7,
    }),
}  # fmt: skip
BY_HAND = {  # whose scale was measured by hand, and areas by printed dimensions, in square feet or square meters
    "alexisjawtu-casa.pdf": ("scale: 7.523 in = 10 m\n", {  # alexisjawtu/electrical-project, casa.pdf
        "DORMITORIO-1": 9.2, "DORMITORIO-2": 7.5, "DORMITORIO-3": 9.0, "BAÑO": 3.6, "COCINA": 9.0,
    }),
    "KumarShourya2609-Ground_Floor_Plan.pdf": ("scale: 6.687 in = 46.083 ft\n", {  # G-2-Residential-Building, Ground Floor Plan.pdf
        "MASTER-BEDROOM": 149, "LIVING-ROOM": 158.6, "BEDROOM": 139.5, "A.TLT": 31.3, "C.TLT": 35,
    }),
    "KumarShourya2609-First_Floor_Plan.pdf": ("scale: 6.687 in = 46.083 ft\n", {  # the same, First Floor Plan.pdf
        "MASTER-BEDROOM": 149, "A.TLT": 31.3, "A.TLT-2": 31.3,
    }),
}  # fmt: skip
REFUSED = {
    "andres.pdf": "is a picture", "jambox-floorplan.pdf": "is a picture", "kadmos.pdf": "has its texts as lines",
    "es-master1.pdf": "has its texts as lines", "barcelona.pdf": "has its texts as lines", "aq-piso2.pdf": "has its texts as lines",
    "es-plan.pdf": "has its texts as lines", "umair-house.pdf": "does not prove its scale", "gel0-plan.pdf": "does not prove its scale",
    "fayizferosh-House_Plan.pdf": "does not prove its scale",  # civil-house-plan, House Plan.pdf: no length is printed on it
    "fsa125-Ground_Floor.pdf": "has its texts as lines", "sangita-das-floor_plan.pdf": "has its texts as lines",
    "fullstackdev0707-floor_plan.pdf": "pages 1, 2 hold drawings", "PatrickWaruhiu-BUILDING_SECTIONS.pdf": "does not prove its scale",
    "KumarShourya2609-Ground_Floor_Plan.pdf": "does not prove its scale", "alexisjawtu-casa.pdf": "does not prove its scale",
    "crayfishinn-elevations.pdf": "does not prove its scale",  # crayfishinn/CrayfishInn, page 5 of plans.pdf
    "debasmita-plan.pdf": "does not prove its scale", "latirasse-plans.pdf": "pages 1, 2, 3, 4, 5, 6, 7 hold drawings",
}  # fmt: skip

pytestmark = pytest.mark.long


def read(name, folder, text=""):
    path = next((one for one in FOLDER.rglob(name)), None)
    if path is None:
        pytest.skip(f"{name} is not here; name a folder that holds it with PRECHECK_MODELS")
    (folder / "mapping.yaml").write_text(f"phases: {{}}\n{text}", encoding="utf-8")
    return read_here(path, name, read_mapping(folder / "mapping.yaml"), lambda done, total: None)


@pytest.mark.parametrize("name", SEEN)
def test_rooms_that_agree_with_what_is_printed_in_them_have_the_area_printed(name, tmp_path):
    text, scale, printed = SEEN[name]
    draft = read(name, tmp_path, text)
    assert float(draft.form.rpartition(":")[2]) == pytest.approx(scale, rel=0.002)
    rooms = [one for one in draft.recognized.things if one.kind == "room" and one.grade == "A"]
    taken = {one.id: float(one.told.split(", ")[1].split()[0]) for one in rooms}
    assert taken == pytest.approx(printed, rel=0.015)


@pytest.mark.parametrize("name", BY_HAND)
def test_no_room_of_a_plan_whose_scale_is_given_has_another_area_than_a_person_measures(name, tmp_path):
    text, measured = BY_HAND[name]
    found = [
        one for one in read(name, tmp_path, text).recognized.things if one.kind == "room" and one.grade in ("A", "B")
    ]
    taken = {one.id: float(one.told.split(", ")[1].split()[0]) for one in found}
    assert taken
    assert taken == pytest.approx({room: measured.get(room) for room in taken}, rel=0.05)


def test_no_room_is_taken_whose_outline_runs_on_lines_that_only_measure(tmp_path):
    rooms = [one for one in read("ajaykumardabhi-drawing.pdf", tmp_path).recognized.things if one.kind == "room"]
    assert {"MASTER-BEDROOM", "POWDER-RM"} <= {one.id for one in rooms}  # ajaykumardabhi/scale-detection, drawing.pdf
    assert {one.grade for one in rooms} == {"C"}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_read_as_a_plan_says_why(name, tmp_path):
    with pytest.raises(Unusable, match=REFUSED[name]):
        read(name, tmp_path)
