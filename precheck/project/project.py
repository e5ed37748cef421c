"""The whole project: one file, one house, the proposed work on it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cache, cached_property
from pathlib import Path
from typing import Annotated, Literal

from precheck.files.mistakes import record_in
from precheck.files.record import NOT_GIVEN, Maybe, Record, fields_of, read_lists, walk
from precheck.files.source import Block, Unusable, read_file
from precheck.files.values import After
from precheck.project.added_field import AddedField, ListOfParts, set_aside
from precheck.project.alarms import Alarm
from precheck.project.appliance import Appliance
from precheck.project.between import Between
from precheck.project.boundary import Duct, Hatch, Penetration, Support, Wall
from precheck.project.cladding import Board, Cladding, EarthWall, Flashing, Grade, Pour, Veneer
from precheck.project.criteria import DesignCriteria
from precheck.project.deck import Ledger
from precheck.project.design_file import DesignFile
from precheck.project.electrical import Cable, Circuit, Counter, Light, Panel, Receptacle, Service, WallBreak
from precheck.project.energy import AirTightness, Assembly, DuctRun, Heating, PermanentLighting, SlabEdge
from precheck.project.foundation import Footing, FoundationWall, RetainingWall, Slab
from precheck.project.framing import Member
from precheck.project.glass import Skylight, WetArea
from precheck.project.guard import Guard, Ramp
from precheck.project.opening import Door, Window
from precheck.project.part import Count, Number, Part
from precheck.project.placed_on_walls import PLACED_ON_WALLS, settle
from precheck.project.places_on_members import problems_of_places
from precheck.project.plumbing import Fixture, Pipe
from precheck.project.radon import RadonControl
from precheck.project.references import problems_of_ids, problems_of_references
from precheck.project.roof import Attic, Roof
from precheck.project.roof_frame import FramedOpening, RoofFrame, Truss
from precheck.project.schedule import Note, ScheduleRow, Sheet, SmallWork, Submittal
from precheck.project.section import Entry, Section, entries_of
from precheck.project.site import (
    AddressSign,
    CoveredArea,
    Driveway,
    Easement,
    Excavation,
    FloodOpening,
    Lot,
    LotLine,
    ParkingStall,
    Setback,
    YardEquipment,
    YardWall,
)
from precheck.project.space import Floor, Space, Story
from precheck.project.stair import Stair
from precheck.project.ventilation import CombustionAir, DryerDuct, Exhaust, Intake, WholeHouseVentilation
from precheck.project.wall_framing import BracedLine, FloorGuard, TermiteProtection, Wood
from precheck.project.work import Exclusion, WorkKind
from precheck.units import Area, Ratio


class Dwelling(Record):
    """Facts of the whole house.

    `open combustion` is a fuel-burning appliance that draws its air from the rooms: no direct vent, no mechanical draft.
    """

    kind = "dwelling"
    sprinklered: Maybe[bool] = NOT_GIVEN
    year_built: Maybe[Annotated[Number, Between(1600, 2200)]] = NOT_GIVEN
    shares_attic_with_garage: Maybe[bool] = NOT_GIVEN
    new_house: Maybe[bool] = NOT_GIVEN
    fuel_burning_appliance: Maybe[bool] = NOT_GIVEN
    open_combustion: Maybe[bool] = NOT_GIVEN
    wiring_access: Maybe[bool] = NOT_GIVEN
    commercial_power: Maybe[bool] = NOT_GIVEN
    form: Maybe[Literal["one-family", "two-family", "townhouse"]] = NOT_GIVEN
    altered_share: Maybe[Annotated[Ratio, Between("0.1%", "100%")]] = NOT_GIVEN
    sprinklers_extended: Maybe[bool] = NOT_GIVEN
    floor_area: Maybe[Annotated[Area, Between("50 sq ft", "30000 sq ft")]] = NOT_GIVEN
    bedrooms: Maybe[Annotated[Count, Between(1, 30)]] = NOT_GIVEN
    lead_tested: Maybe[bool] = NOT_GIVEN
    asbestos_tested: Maybe[bool] = NOT_GIVEN


def _on_one_line(name: str) -> str:
    return " ".join(name.split())


class Head(Record):
    """What is said of the project as a whole.

    `work` lists what is being done, as a permit application does; `not in this job` what is not, and why. `code edition`
    says to which edition the job is designed, where the jurisdiction leaves the choice between two.
    """

    kind = "project"
    project: Annotated[str, After(_on_one_line)]
    jurisdiction: Maybe[str] = NOT_GIVEN
    applied_on: Maybe[date] = NOT_GIVEN
    code_edition: Maybe[str] = NOT_GIVEN
    address: str = ""
    scope: str = ""
    work: tuple[WorkKind, ...] = ()
    not_in_this_job: tuple[Exclusion, ...] = ()
    dwelling: Maybe[Dwelling] = NOT_GIVEN
    lot: Maybe[Lot] = NOT_GIVEN
    submittal: Maybe[Submittal] = NOT_GIVEN
    design_criteria: Maybe[DesignCriteria] = NOT_GIVEN
    design_file: Maybe[DesignFile] = NOT_GIVEN


class Project(Head):
    """The proposed work on one house: the head of the file, and a list for each kind of part."""

    sheets: tuple[Sheet, ...] = ()
    stories: tuple[Story, ...] = ()
    floors: tuple[Floor, ...] = ()
    spaces: tuple[Space, ...] = ()
    walls: tuple[Wall, ...] = ()
    doors: tuple[Door, ...] = ()
    windows: tuple[Window, ...] = ()
    stairs: tuple[Stair, ...] = ()
    supports: tuple[Support, ...] = ()
    ducts: tuple[Duct, ...] = ()
    penetrations: tuple[Penetration, ...] = ()
    hatches: tuple[Hatch, ...] = ()
    alarms: tuple[Alarm, ...] = ()
    appliances: tuple[Appliance, ...] = ()
    lot_lines: tuple[LotLine, ...] = ()
    setbacks: tuple[Setback, ...] = ()
    easements: tuple[Easement, ...] = ()
    covered_areas: tuple[CoveredArea, ...] = ()
    parking_stalls: tuple[ParkingStall, ...] = ()
    flood_openings: tuple[FloodOpening, ...] = ()
    address_signs: tuple[AddressSign, ...] = ()
    driveways: tuple[Driveway, ...] = ()
    yard_walls: tuple[YardWall, ...] = ()
    yard_equipment: tuple[YardEquipment, ...] = ()
    excavations: tuple[Excavation, ...] = ()
    schedule: tuple[ScheduleRow, ...] = ()
    notes: tuple[Note, ...] = ()
    small_works: tuple[SmallWork, ...] = ()
    members: tuple[Member, ...] = ()
    roof_frames: tuple[RoofFrame, ...] = ()
    framed_openings: tuple[FramedOpening, ...] = ()
    trusses: tuple[Truss, ...] = ()
    ledgers: tuple[Ledger, ...] = ()
    guards: tuple[Guard, ...] = ()
    ramps: tuple[Ramp, ...] = ()
    wet_areas: tuple[WetArea, ...] = ()
    skylights: tuple[Skylight, ...] = ()
    claddings: tuple[Cladding, ...] = ()
    flashings: tuple[Flashing, ...] = ()
    veneers: tuple[Veneer, ...] = ()
    boards: tuple[Board, ...] = ()
    earth_walls: tuple[EarthWall, ...] = ()
    grades: tuple[Grade, ...] = ()
    pours: tuple[Pour, ...] = ()
    roofs: tuple[Roof, ...] = ()
    attics: tuple[Attic, ...] = ()
    assemblies: tuple[Assembly, ...] = ()
    slab_edges: tuple[SlabEdge, ...] = ()
    air_tightness: tuple[AirTightness, ...] = ()
    duct_runs: tuple[DuctRun, ...] = ()
    heating: tuple[Heating, ...] = ()
    permanent_lighting: tuple[PermanentLighting, ...] = ()
    exhausts: tuple[Exhaust, ...] = ()
    intakes: tuple[Intake, ...] = ()
    whole_house_ventilation: tuple[WholeHouseVentilation, ...] = ()
    dryer_ducts: tuple[DryerDuct, ...] = ()
    combustion_air: tuple[CombustionAir, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    pipes: tuple[Pipe, ...] = ()
    receptacles: tuple[Receptacle, ...] = ()
    wall_breaks: tuple[WallBreak, ...] = ()
    counters: tuple[Counter, ...] = ()
    lights: tuple[Light, ...] = ()
    circuits: tuple[Circuit, ...] = ()
    panels: tuple[Panel, ...] = ()
    services: tuple[Service, ...] = ()
    cables: tuple[Cable, ...] = ()
    footings: tuple[Footing, ...] = ()
    slabs: tuple[Slab, ...] = ()
    foundation_walls: tuple[FoundationWall, ...] = ()
    retaining_walls: tuple[RetainingWall, ...] = ()
    radon_controls: tuple[RadonControl, ...] = ()
    braced_lines: tuple[BracedLine, ...] = ()
    floor_undersides: tuple[FloorGuard, ...] = ()
    woods: tuple[Wood, ...] = ()
    termite_protections: tuple[TermiteProtection, ...] = ()
    _sections = dict[str, tuple[Entry, ...]]()  # what plugins add, as all that follows; each file has its own
    _fields = tuple[AddedField, ...]()
    _held = dict[str, Block]()  # the parts that give any of them, by their ids

    def label_under(self, owner: Record | None, index: int | None) -> str:
        """Return what needs of the project itself are said to be of."""
        return "the project"

    def entries(self, section: str) -> tuple[Entry, ...]:
        """Return the entries of a section that a plugin adds; none where the file does not have it."""
        return self._sections.get(section, ())

    def added_fields(self, kind: str) -> tuple[AddedField, ...]:
        """Return the fields that plugins add to parts of a kind."""
        return tuple(field for field in self._fields if field.part == kind)

    def added_to(self, part: Part) -> Entry:
        """Return what the file gives of `part` in fields that plugins add."""
        known = frozenset(field.key for field in self.added_fields(part.kind))
        return Entry(self._held.get(part.id) or part.block or Block((0, 0), ""), part.kind, known=known)

    @cached_property
    def records(self) -> tuple[Record, ...]:
        """The project and every record in it, list by list."""
        return tuple(walk(self))

    @cached_property
    def parts(self) -> tuple[Part, ...]:
        """Every part, in the order of the file."""
        return tuple(sorted((r for r in self.records if isinstance(r, Part)), key=lambda part: part.place[1:]))

    @cached_property
    def by_id(self) -> dict[str, Part]:
        """Every part by its id."""
        return {part.id: part for part in self.parts}


@cache
def lists_of_parts() -> dict[str, ListOfParts]:
    """Return the lists of a project by what people call one part in them, such as ``window``."""
    further = (field for name, field in fields_of(Project).items() if name not in fields_of(Head))
    found = ((record_in(field.annotation), field.key) for field in further)
    return {model.kind: ListOfParts(key, model) for model, key in found}


def read_project(path: Path, name: str | None = None, added: Iterable[Section | AddedField] = ()) -> Project:
    """Read the project file at `path`, called `name` in messages; it may hold what plugins add.

    Raises `Unusable` with every problem found.
    """
    return project_from(read_file(path, name), added)


def project_from(block: Block, added: Iterable[Section | AddedField] = ()) -> Project:
    """Build the project that `block` describes. Raises `Unusable` with every problem found."""
    offered = tuple(added)
    sections = [one for one in offered if isinstance(one, Section) and block.get(one.key) is not None]
    fields = tuple(one for one in offered if isinstance(one, AddedField))
    if sections or fields:
        return _with_added(block, sections, fields)
    project = read_lists(Project, Head, block)
    problems = [*problems_of_ids(project.parts), *problems_of_references(project.records, project.parts)]
    if not problems:
        placed = (getattr(project, name) for name in PLACED_ON_WALLS)
        problems = [*problems_of_places(project.members, project.by_id), *settle(placed, project.by_id)]
    if problems:
        raise Unusable(problems)
    return project


def _with_added(block: Block, sections: list[Section], fields: tuple[AddedField, ...]) -> Project:
    from precheck.project.section_check import (
        problems_of,
        problems_of_ids_in,
    )  # here, for few files have anything added

    problems = [problem for section in sections for problem in problems_of(section, block)]
    own, held, wrong = set_aside(
        block.without(section.key for section in sections), fields, lists_of_parts(), problems_of
    )
    problems += wrong
    try:
        project = project_from(own)
    except Unusable as error:
        raise Unusable([*problems, *error.problems]) from None
    for section in sections:
        problems += problems_of_ids_in(section, block, project.by_id)
    for id_, item in held.items():
        of_part = [field for field in fields if field.key in item and field.part == project.by_id[id_].kind]
        for section in (Section(field.key, field.schema) for field in of_part):
            problems += problems_of_ids_in(section, item, project.by_id)
    if problems:
        raise Unusable(problems)
    project._sections = {section.key: entries_of(section, block[section.key]) for section in sections}
    project._held, project._fields = held, fields
    return project
