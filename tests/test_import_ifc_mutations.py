"""Public models that are moved, turned, raised, given in feet, or changed: the same findings, or the right new one.

They are looked for in the folder that PRECHECK_MODELS names, as for the other tests of public models.
"""

import os
from functools import cache
from math import cos, radians, sin
from pathlib import Path

import pytest

from precheck.reports.words import lines_of
from precheck.runs.desk import Desk, Run

ifcopenshell = pytest.importorskip("ifcopenshell")
FOLDER = Path(os.environ.get("PRECHECK_MODELS", "no folder of models"))
FZK, JASMIN = "AC20-FZK-Haus.ifc", "AC90R1-Jasmin-Sun-105-2x3.ifc"
DUPLEX, SAMPLE = "Ifc2x3_Duplex_Architecture.ifc", "Ifc4_SampleHouse.ifc"
ROOMS = [f"{name}-{unit}{number}" for unit in "AB" for name, number in (
    ("Living-Room", 102), ("Kitchen", 103), ("Bedroom-1", 202), ("Bedroom-2", 203)
)]  # fmt: skip
USES = """uses: {Schlafzimmer: bedroom, Bad: bath, Wohnen: living room, Wohnen/Essen/Kochen: living room, Flur: hall,
  Küche: kitchen, Buero: office, Galerie: living room}
"""

pytestmark = pytest.mark.long


def opened(name):
    """Return the model, opened; written and read again, so that a changed one has its entities in the same order."""
    if not (FOLDER / name).is_file():
        pytest.skip(f"{name} is not here; name a folder that holds it with PRECHECK_MODELS")
    return ifcopenshell.file.from_string(ifcopenshell.open(str(FOLDER / name)).to_string())


def meter(ifc):
    """Return how many units of length of the file a meter is."""
    return 1 / pytest.importorskip("ifcopenshell.util.unit").calculate_unit_scale(ifc)


def stand(ifc, x=0.0, y=0.0, z=0.0, degrees=0.0):
    """Put the whole model elsewhere in the world, turned."""
    free = [placed for placed in ifc.by_type("IfcLocalPlacement") if placed.PlacementRelTo is None]
    at = ifc.create_entity("IfcCartesianPoint", [c * meter(ifc) for c in (x, y, z)])
    up = ifc.create_entity("IfcDirection", (0.0, 0.0, 1.0))
    ahead = ifc.create_entity("IfcDirection", (cos(radians(degrees)), sin(radians(degrees)), 0.0))
    world = ifc.create_entity("IfcLocalPlacement", None, ifc.create_entity("IfcAxis2Placement3D", at, up, ahead))
    for placed in free:
        placed.PlacementRelTo = world


def lift_stairs(ifc, up):
    """Lift every stair, with its flights, off the floor that it stands on."""
    stairs = ifc.by_type("IfcStair")
    own = {stair.ObjectPlacement.id() for stair in stairs if stair.ObjectPlacement}
    parts = [part for stair in stairs for link in stair.IsDecomposedBy or () for part in link.RelatedObjects]
    for placed in {one.ObjectPlacement for one in (*stairs, *parts) if one.ObjectPlacement}:
        if placed.PlacementRelTo is None or placed.PlacementRelTo.id() not in own:
            here = placed.RelativePlacement
            x, y, z = here.Location.Coordinates
            at = ifc.create_entity("IfcCartesianPoint", (x, y, z + up * meter(ifc)))
            placed.RelativePlacement = ifc.create_entity("IfcAxis2Placement3D", at, here.Axis, here.RefDirection)


def findings(ifc, folder, *topics):
    """Return every finding by its rule and part: how it comes out, and in which words."""
    path, uses = folder / "model.ifc", folder / "uses.yaml"
    ifc.write(str(path))
    uses.write_text(USES)
    found = Desk(Run("irc-2021", topics=topics, mapping=uses)).review(str(path))
    return {(f.rule.name, str(f.subject)): (f.outcome.word, " ".join(lines_of(f))) for f in found.findings}


@cache
def as_it_is(name, folder):
    """Return the findings of a model as its maker published it."""
    return findings(opened(name), folder)


@pytest.fixture(scope="module")
def once(tmp_path_factory):
    """Return a folder for the models as they are."""
    return tmp_path_factory.mktemp("models")


@pytest.mark.parametrize("name", [FZK, JASMIN, DUPLEX, SAMPLE])
@pytest.mark.parametrize(
    "site", [{"z": 112.0}, {"x": 3400000.0, "y": 5400000.0}, {"degrees": 34.0}], ids=["raised", "moved", "turned"]
)
def test_a_model_that_stands_elsewhere_has_the_same_findings(name, site, once, tmp_path):
    ifc = opened(name)
    stand(ifc, **site)
    assert findings(ifc, tmp_path) == as_it_is(name, once)


@pytest.mark.parametrize("name", [FZK, JASMIN, DUPLEX, SAMPLE])
def test_a_model_in_feet_comes_out_the_same(name, once, tmp_path):
    unit = pytest.importorskip("ifcopenshell.util.unit")
    found = findings(unit.convert_file_length_units(opened(name), "FOOT"), tmp_path)
    assert {key: outcome for key, (outcome, _) in found.items()} == {
        key: outcome for key, (outcome, _) in as_it_is(name, once).items()
    }


@pytest.mark.parametrize(
    ("name", "rule", "before", "said"),
    [
        (JASMIN, "stairs.riser-height", "pass", "233.333 mm"),  # 2900 mm in 15 risers, and 40 mm
        (DUPLEX, "stairs.riser-height", "fail", "214.653 mm"),  # its first riser of 174.653 mm, and 40 mm
        (FZK, "special-stairs.spiral-riser", "fail", "1 9/16 in"),  # 216.667 mm beside 176.667 mm
    ],
)
def test_a_stair_that_is_lifted_by_40_mm_fails_by_its_first_riser(name, rule, before, said, once, tmp_path):
    ifc = opened(name)
    lift_stairs(ifc, 0.04)
    lifted = {key: one for key, one in findings(ifc, tmp_path).items() if key[0] == rule}
    assert {as_it_is(name, once)[key][0] for key in lifted} == {before}
    assert {outcome for outcome, _ in lifted.values()} == {"fail"}
    assert all(said in words for _, words in lifted.values())


@pytest.mark.parametrize(
    ("name", "fail", "not_shown", "met"),
    [
        (DUPLEX, ROOMS, [], []),
        (
            FZK,
            ["Buero", "Schlafzimmer", "Galerie"],
            ["Wohnen", "Küche"],
            [],
        ),  # of the last two an outside door may have glass
        (SAMPLE, ["Bedroom"], [], ["Living-room"]),  # which keeps its curtain wall
    ],
)
def test_rooms_whose_windows_are_removed_have_no_daylight(name, fail, not_shown, met, tmp_path):
    ifc = opened(name)
    for window in ifc.by_type("IfcWindow"):
        ifc.remove(window)
    found = findings(ifc, tmp_path, "light-and-air")
    rooms = {subject: outcome for (rule, subject), (outcome, _) in found.items() if rule == "light-and-air.glazing"}
    expected = [(fail, "fail"), (not_shown, "not shown"), (met, "pass")]
    assert rooms == {f"LivedInRoom('space {room}')": outcome for some, outcome in expected for room in some}
