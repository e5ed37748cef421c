"""Public drawings, where PRECHECK_MODELS names a folder that holds them: what is taken, against what a person sees there.

They are published in these repositories on GitHub; nothing of them is kept here. Those published as DWG were turned into DXF by
LibreDWG, with all layers on. The clear areas, in square meters, are printed
in the rooms of the first, and measured by rays from the names to the lines of walls in the others.
"""

import os
from pathlib import Path

import pytest

from precheck.files.source import Unusable
from precheck.importers import Mapping, read_here

pytest.importorskip("shapely")
FOLDER = Path(os.environ.get("PRECHECK_MODELS", "no folder of models"))
SEEN = {
    "bjn-floorplan.dxf": ("inches", {  # bjnortier/dxf, test/resources/floorplan.dxf
        "MASTER-BEDROOM": 17.8, "W.I.C": 3.85, "MSTR.-BATH": 3.63, "TOIL": 2.6, "BATH": 3.75, "HALL": 5.03, "W.I.C-2": 2.5,
        "BEDROOM-2": 13.8, "BEDROOM-3": 13.9, "2-CAR-GARAGE": 41.0, "Pantry": 2.68, "UTIL": 3.25, "COVERED-PORCH": 2.9,
        "COVERED-DECK": 11.1,
    }),
    "anand-plan.dxf": ("millimeters", {  # anandkothartrdl/Plans, plan.dxf
        "STUDY": 17.0, "GYM": 12.2, "PANTRY": 5.56, "WC": 3.94, "COATS": 5.5,
    }),
    "aq-piso2.dxf": ("meters", {  # Aquiles-ryp360/instalacion-electricas, piso2_v3.dxf
        "ESCALERA": 12.4, "COCINA": 12.4, "OFICINA": 12.4, "CUARTO-CON": 12.4, "SALA": 12.4, "BAÑO": 3.85,
    }),
    "aq-integral.dxf": ("meters", {  # the same, planos/salida-dxf/plano_integral.dxf
        "Dormitorio-Principal": 16.75, "Sala-Hall": 4.52, "Dormitorio-4": 8.09, "Dormitorio-5": 8.09,
        "Tienda": 9.55,
    }),
    "aq-piso1.dxf": ("meters", {"AMBIENTE": 25.45, "AMBIENTE-2": 25.45}),  # the same, piso1_v3.dxf
    "renzo-1.dxf": ("meters", {"TIENDA": 9.55, "COCINA": 9.55}),  # the same, primer_piso_v3.dxf
    "renzo-2.dxf": ("meters", {"DORMITORIO-PRINCIPAL": 16.75, "DORMITORIO-3": 9.55, "SALA-HALL": 4.52}),  # the same, segundo_piso_v3.dxf
    "adik2405048-Assignment3.dxf": ("inches", {  # adik2405048/Building-Design, Assignment3.dwg
        "BEDROOM": 13.94, "BEDROOM-2": 13.94, "BEDROOM-3": 12.82, "BEDROOM-4": 13.94, "KITCHEN": 6.27, "TOILET": 2.93,
        "TOILET-2": 2.93, "VERANDA": 3.9, "VERANDA-2": 3.9,
    }),
    "HARISHANKAR_12-floor_plan.dxf": ("inches", {  # HARISHANKAR-12/autocad-project, floor plan.dwg
        "Bedroom-1": 30.94, "Bedroom-2": 25.92, "Kitchen": 16.03, "Toilet": 8.38,
    }),
    "PlohoiAnimator-Floor_Plan.dxf": ("inches", {  # PlohoiAnimator/autocad, Floor Plan.dwg
        "Bathroom-1": 32.4, "Bathroom-2": 25.2, "Kitchen": 16.03, "Toilet": 8.83,
    }),
    "salamlababidi4-floor_plan.dxf": ("millimeters", {  # salamlababidi4/2d-floor-plan-autocad, floor plan.dwg
        "Living-Room-living-room-living-Room-a-b-living-room": 19.64, "Kitchen": 6.36, "Bedroom-1": 11.1, "Bedroom-2": 8.29, "WC": 3.36,
    }),
    "dotoritos_kim-A_000217.dxf": ("inches", {"STORAGE": 13.67}),  # dotoritos-kim/dxf-json, sample/A_000217.dxf
    "kaneezainab-2D_Residential_Floor_Plan.dxf": ("feet", {  # kaneezainab/AutoCAD-Projects, Project-1/2D_Residential_Floor_Plan.dwg
        "LIVING-ROOM": 22.6, "BEDROOM-2": 8.45, "CLOSET": 5.1, "MASTER-BEDROOM": 13.7, "COMMON-BATH": 5.0, "MASTER-BATH": 4.0,
        "ENTRANCE-FOYER": 10.8,
    }),
    "alriyadsouza-house.dxf": ("meters", {  # alriyadsouza/AutoCAD_Design, house.dwg, the ground floor twice
        "BED-ROOM": 16.5, "BED-ROOM-4": 16.5, "STORE": 2.1, "STORE-2": 2.1, "TOILET": 2.53, "TOILET-4": 2.7, "W.C": 1.56, "W.C-2": 1.69,
    }),
}  # fmt: skip
UNIT_ASKED = {"dotoritos_kim-A_000217.dxf": "inches", "kaneezainab-2D_Residential_Floor_Plan.dxf": "feet"}
NO_ROOM = (
    "bjn-ceco.dxf", "ben-floorplan.dxf", "es-plan.dxf", "hal9k-floorplan.dxf", "yus-sample.dxf",
    "thats-2.dxf", "kadmos-plan.dxf", "oliland-ground-lhs.dxf", "oliland-two-rooms.dxf", "ono-house.dxf", "barcelona-plan.dxf",
    "gong-floorplan.dxf", "aq-unifilar.dxf", "emf-plan.dxf", "gds-details.dxf",
    "SunJ1ayu-input.dxf", "potynobg-House.dxf", "bilgehaniyican-sample.dxf", "pacsol-sample.dxf", "potynobg-Gear_Sample-iss4.DXF",
    "lukaszszymankiewicz-drawing.dxf", "sergjoker-plan.dxf", "esraturmi-floor_plan.dxf", "FatmanUK-cat_tent.dxf",
    "ivan_mf_suen-giraffe360_demo_residential.dxf",
)  # fmt: skip

pytestmark = pytest.mark.long


def read(name):
    path = next((one for one in FOLDER.rglob(name)), None)
    if path is None:
        pytest.skip(f"{name} is not here; name a folder that holds it with PRECHECK_MODELS")
    mapping = Mapping()
    mapping.drawing_unit = UNIT_ASKED.get(name)
    return read_here(path, name, mapping, lambda done, total: None)


def shown_area(told):
    number, unit = told.split(", ")[1].split(" ", 1)
    return float(number) * (0.3048**2 if unit == "sq ft" else 1.0)


@pytest.mark.parametrize("name", SEEN)
def test_no_room_is_taken_that_is_not_there_or_has_another_area(name):
    draft = read(name)
    unit, rooms = SEEN[name]
    taken = {one.id: shown_area(one.told) for one in draft.recognized.things if one.grade in ("A", "B")}
    assert draft.form == f"DXF in {unit}"
    assert taken == pytest.approx({room: rooms.get(room) for room in taken}, rel=0.05)
    assert set(taken) <= set(rooms)
    assert len(taken) >= len(rooms) - 1


@pytest.mark.parametrize("name", NO_ROOM)
def test_no_room_is_taken_where_none_is_named_or_proven(name):
    try:
        spaces = read(name).parts.get("spaces", [])
    except Unusable:  # a drawing that says no unit, nor by what is drawn on it
        spaces = []
    assert spaces == []
