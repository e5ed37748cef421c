"""Public drawings, where PRECHECK_MODELS names a folder that holds them: what is taken, against what a person sees there.

They are published in these repositories on GitHub; nothing of them is kept here. The clear areas, in square meters, are printed
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
    "renzo-1.dxf": ("meters", {"TIENDA": 9.55}),  # the same, primer_piso_v3.dxf
    "renzo-2.dxf": ("meters", {"DORMITORIO-PRINCIPAL": 16.75, "SALA-HALL": 4.52}),  # the same, segundo_piso_v3.dxf
}  # fmt: skip
NO_ROOM = (
    "bjn-ceco.dxf", "ben-floorplan.dxf", "es-plan.dxf", "hal9k-floorplan.dxf", "yus-sample.dxf",
    "thats-2.dxf", "kadmos-plan.dxf", "oliland-ground-lhs.dxf", "oliland-two-rooms.dxf", "ono-house.dxf", "barcelona-plan.dxf",
    "gong-floorplan.dxf", "aq-unifilar.dxf", "emf-plan.dxf", "gds-details.dxf",
    "SunJ1ayu-input.dxf", "potynobg-House.dxf", "bilgehaniyican-sample.dxf", "pacsol-sample.dxf", "potynobg-Gear_Sample-iss4.DXF",
)  # fmt: skip

pytestmark = pytest.mark.long


def read(name):
    path = next((one for one in FOLDER.rglob(name)), None)
    if path is None:
        pytest.skip(f"{name} is not here; name a folder that holds it with PRECHECK_MODELS")
    return read_here(path, name, Mapping(), lambda done, total: None)


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
