"""Public models, where PRECHECK_MODELS names a folder that holds them: what is read of how many, and an audit of it.

They are published by their makers and by the buildingSMART community under these names; nothing of them is kept here.
"""

import os
from functools import cache
from pathlib import Path

import pytest
from ifc_house import millimeters

from precheck.importers import Mapping, project_of, read_here

ifcopenshell = pytest.importorskip("ifcopenshell")
FOLDER = Path(os.environ.get("PRECHECK_MODELS", "no folder of models"))
READ = {
    "AC20-FZK-Haus.ifc": "7 of 7 rooms, 5 of 5 doors, 11 of 11 windows, 1 of 1 stairs, 2 of 2 railings",
    "AC11-FZK-Haus-IFC.ifc": "7 of 7 rooms, 5 of 5 doors, 11 of 11 windows, 0 of 1 stairs, 2 of 2 railings",
    "AC90R1-Jasmin-Sun-105-2x3.ifc": "10 of 10 rooms, 8 of 8 doors, 12 of 12 windows, 2 of 2 stairs, 1 of 1 railings",
    "AC90R1-niedriha-V2-2x3.ifc": "19 of 19 rooms, 16 of 16 doors, 16 of 16 windows, 2 of 2 stairs",
    "AC11-Institute-Var-2-IFC.ifc": "82 of 82 rooms, 77 of 77 doors, 206 of 206 windows, 4 of 4 stairs, 12 of 12 railings",
    "Ifc4_SampleHouse.ifc": "3 of 4 rooms, 3 of 3 doors, 4 of 4 windows",
    "Ifc2x3_Duplex_Architecture.ifc": "20 of 21 rooms, 14 of 14 doors, 24 of 24 windows, 2 of 2 stairs, 4 of 4 railings",
    "Jesse.1.ifc": "18 of 61 doors, 5 of 5 stairs, 10 of 10 railings",
}
RISERS = {  # from floor to floor over their number, by hand from the levels of floors and treads in each file
    "AC20-FZK-Haus.ifc": [(2700, 50)], "AC90R1-Jasmin-Sun-105-2x3.ifc": [(2900, None)] * 2,
    "AC11-Institute-Var-2-IFC.ifc": [(3000, None)] * 4, "Ifc2x3_Duplex_Architecture.ifc": [(3100, 212.847)] * 2,
}  # fmt: skip

pytestmark = pytest.mark.long


@cache
def model(name):
    path = FOLDER / name
    if not path.is_file():
        pytest.skip(f"{name} is not here; name a folder that holds it with PRECHECK_MODELS")
    draft = read_here(path, name, Mapping(), lambda done, total: None)
    return path, draft, project_of(draft, path)


@pytest.mark.parametrize("name", READ)
def test_what_is_read_of_how_many(name):
    _, draft, _ = model(name)
    assert f"Read from {name}: {READ[name]}." in draft.told


@pytest.mark.parametrize("name", READ)
def test_outlines_enclose_the_floor_of_the_body_as_an_independent_derivation_finds_it(name):
    path, _, project = model(name)
    util = pytest.importorskip("ifcopenshell.util.shape")
    geom = pytest.importorskip("ifcopenshell.geom")
    opened, settings, audited = ifcopenshell.open(str(path)), geom.settings(), 0
    for space in project.spaces:
        if not space.outline:
            continue
        made = geom.create_shape(settings, opened.by_guid(space.drawn_from.split()[1]))
        xy = [(millimeters(x) / 1000, millimeters(y) / 1000) for x, y in space.outline]
        pairs = zip(xy, [*xy[1:], xy[0]], strict=True)
        drawn = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2
        if found := util.get_footprint_area(made.geometry):
            assert drawn == pytest.approx(found, rel=0.02)
            audited += 1
    assert audited >= 0.9 * sum(bool(space.outline) for space in project.spaces)


@pytest.mark.parametrize("name", RISERS)
def test_risers_add_up_from_floor_to_floor(name):
    _, _, project = model(name)
    assert len(project.stairs) == len(RISERS[name])
    for stair, (rise, last) in zip(project.stairs, RISERS[name], strict=True):
        assert millimeters(stair.total_rise) == pytest.approx(rise, abs=0.01)
        heights = [millimeters(one) for one in stair.flights[0].riser_heights]
        if last is not None:
            assert sum(heights) == pytest.approx(rise, abs=0.02)
            assert heights[-1] == pytest.approx(last, abs=0.01)
        else:
            count = rise / millimeters(stair.flights[0].riser)
            assert count == pytest.approx(round(count), abs=0.001)
