"""IFC files (IFC2X3 and IFC4), read with ifcopenshell, which is imported when a file is read."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from precheck.importers.draft import Draft, Entry, Understood, Value
from precheck.importers.ifc.alarms import read_alarms
from precheck.importers.ifc.answers import read_answers
from precheck.importers.ifc.curtain_walls import read_curtain_walls
from precheck.importers.ifc.decks import Decks, add_openings_in_floors
from precheck.importers.ifc.fittings import read_fittings
from precheck.importers.ifc.floors import read_floors
from precheck.importers.ifc.footings import read_footings
from precheck.importers.ifc.framed_openings import add_framed_openings
from precheck.importers.ifc.guards import read_guards
from precheck.importers.ifc.kind_words import in_words
from precheck.importers.ifc.members import read_members
from precheck.importers.ifc.model import Model
from precheck.importers.ifc.openings import read_openings
from precheck.importers.ifc.plan import Plan
from precheck.importers.ifc.roofs import read_roofs
from precheck.importers.ifc.sanity import refuse_senseless
from precheck.importers.ifc.spaces import read_plan
from precheck.importers.ifc.stairs import parts_of, read_stairs
from precheck.importers.ifc.units import read_units
from precheck.importers.ifc.unzipped import unzipped
from precheck.importers.ifc.walls import read_walls
from precheck.importers.mapping import Mapping
from precheck.importers.measures import length, point
from precheck.importers.writing import scalar

TAKEN = ("IfcSpace", "IfcDoor", "IfcWindow", "IfcStair", "IfcStairFlight")
_ENTITY = re.compile(rb"\s*#(\d+)\s*=")

Tick = Callable[[int, int], None]


def read_ifc(path: Path, name: str, mapping: Mapping, tick: Tick) -> Draft:
    """Read an IFC file as a draft; `tick` is told how many of how many elements are done. Raises `Unusable`."""
    with unzipped(path, name) as plain:
        return _read(plain, path, name, mapping, tick)


def _read(plain: Path, path: Path, name: str, mapping: Mapping, tick: Tick) -> Draft:
    model = Model(plain, name, mapping)
    total = sum(len(model.all(kind)) for kind in (*TAKEN[:-1], "IfcWall")) + len(model.with_bodies)
    done = 0

    def one() -> None:
        nonlocal done
        done += 1
        tick(done, total)

    model.build(one)
    plan = read_plan(model, one)
    refuse_senseless(model, (room.outline for room in plan.rooms), name)
    model.draft.head = _design_file(plan, path)
    read_units(plan)
    walls = read_walls(plan, one)
    floors = read_floors(plan)
    used = walls.taken | read_footings(plan, walls) | floors.taken | read_roofs(plan)
    decks = Decks(plan)
    add_openings_in_floors(plan, decks)
    used |= read_members(plan) | read_fittings(plan) | read_guards(plan, decks)
    read_openings(plan, one)
    used |= read_curtain_walls(plan)
    read_stairs(plan, one)
    add_framed_openings(plan, decks, floors.carried)
    model.draft.not_read = _not_read(model, used | read_alarms(plan))
    read_answers(model)
    model.draft.understood = _understood(model)
    return model.draft


def _design_file(plan: Plan, path: Path) -> Entry:
    """Return what the project is drawn from, and where its plan lies in the world of the model."""
    model = plan.model
    project = model.all("IfcProject")[0]
    x, y, z = model.frame.world(*plan.origin, plan.datum)
    told = f"#{project.id()}"
    return {
        "file": Value(scalar(path.name)),
        "form": Value(scalar(model.draft.form)),
        "global id": Value(scalar(project.GlobalId), told, str(project.id())),
        "origin": Value(point(x, y), "the placements of site and building"),
        "datum": Value(length(z), "the same"),
        "turned": Value(f"{model.frame.turned:.6f} deg", "the same"),
        "worked out": Value("[span, total rise, riser heights]", "axes, and the floors that stairs join"),
    }


def lines_at(path: Path) -> dict[str, int]:
    """Return the line (from 1) at which each entity of the file stands."""
    found: dict[str, int] = {}
    with unzipped(path, path.name) as plain, plain.open("rb") as file:
        for number, line in enumerate(file, 1):
            if match := _ENTITY.match(line):
                found[match[1].decode()] = number
    return found


def _understood(model: Model) -> list[Understood]:
    """Return how many rooms, openings and stairs of the file became parts."""
    rails = [(stair, part) for stair in model.all("IfcStair") for part in parts_of(stair) if part.is_a("IfcRailing")]
    drawn = {entry["drawn from"].text.strip('"').split()[1] for entries in model.draft.parts.values()
             for entry in entries if "drawn from" in entry}  # fmt: skip
    drawn |= {rail.GlobalId for stair, rail in rails if stair.GlobalId in drawn}
    kinds = (("rooms", "IfcSpace"), ("doors", "IfcDoor"), ("windows", "IfcWindow"), ("stairs", "IfcStair"),
             ("railings", "IfcRailing"))  # fmt: skip
    found = []
    for what, kind in kinds:
        ids = [element.GlobalId for element in model.all(kind)]
        found.append(Understood(what, sum(one in drawn for one in ids), len(ids)))
    return found


def _not_read(model: Model, used: set[int]) -> Counter[str]:
    """Count the elements that no part of the project is made from, by kind, besides those `used`."""
    used |= {part.id() for stair in model.all("IfcStair") for part in parts_of(stair) if part.is_a("IfcRailing")}
    used |= model.told | {
        cover.id() for cover in model.all("IfcCovering") if cover.PredefinedType == "CEILING"
    }  # bound the rooms
    return in_words(
        element.is_a()
        for element in model.all("IfcElement")
        if not element.is_a("IfcFeatureElement") and element.is_a() not in TAKEN and element.id() not in used
    )


__all__ = ["lines_at", "read_ifc"]
