"""Once a permit is issued: inspections that the work needs, tests of new pipes, and what is kept on the site."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from precheck_plugins.package.permits.rules import PAPER, WIRED

from precheck import (
    Appliance,
    Check,
    Fact,
    House,
    Limit,
    Limits,
    Member,
    Part,
    Pressure,
    Project,
    Work,
    all_of,
    at_least,
    does_not_apply,
    fact,
    is_missing,
    met,
    not_shown,
    required,
    rule,
)


def _issued(project: Project) -> bool:
    return not is_missing(project.submittal) and not is_missing(project.submittal.issued_on)


def _changed(project: Project) -> list[Part]:
    return [part for part in project.parts if part.phase in ("new", "altered") and part.kind not in PAPER]


def _roughed_in(part: Any) -> bool:
    return part.kind in WIRED | {"fixture", "pipe", "duct", "exhaust"} or isinstance(part, Appliance)


INSPECTIONS: dict[str, Callable[[Any], bool]] = {
    "footing": lambda part: part.kind == "footing",
    "foundation wall": lambda part: part.kind == "foundation wall",
    "slab": lambda part: part.kind == "slab",
    "rough-in": _roughed_in,
    "framing": lambda part: (
        isinstance(part, Member) or part.kind in ("stair", "wall", "braced wall line", "roof frame")
    ),
    "insulation": lambda part: part.kind == "assembly",
    "final": lambda _: True,
}


LIVING = frozenset(
    ("new house", "addition", "upper addition", "garage to room", "carport to room", "porch to room", "basement to room",
     "attic to room", "storage to room")
)  # fmt: skip
BUILT = frozenset(("new house", "addition", "garage", "carport", "porch", "deck", "detached building"))
OPENED = frozenset(("wall removed", "opening made", "opening widened", "opening closed", "overhead door closed"))
TAKEN: dict[str, frozenset[str]] = {
    "footing": BUILT | {"overhead door closed"},
    "foundation wall": frozenset(),
    "slab": frozenset(("garage",)),
    "rough-in": LIVING | {"bath", "kitchen", "laundry", "heating or cooling", "water heater", "wiring"},
    "framing": LIVING | BUILT | OPENED | {"new bedroom", "stair", "attic storage", "roof changed"},
    "insulation": LIVING,
}
"""The works that take each inspection, whichever of their parts are listed; all works take one that is not here."""


@fact
class NeededInspection(Fact):
    """An inspection that the work needs, and the work or the part because of which it does."""

    project: Project
    inspection: str
    why: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[NeededInspection]:
        """Yield each inspection once, with the first work or part that calls for it, when a permit is issued."""
        if not _issued(house.project):
            return
        for inspection, calls_for in INSPECTIONS.items():
            why = _work_for(inspection, house) or _part_for(calls_for, house)
            if why:
                yield cls(house.project, house.project, inspection, why)

    @property
    def label(self) -> str:
        """The inspection."""
        return f"{self.inspection} inspection"


def _work_for(inspection: str, house: House) -> str:
    kinds, works = TAKEN.get(inspection), house.subjects(Work)
    return next((f"the work is {work.label}" for work in works if kinds is None or work.kind in kinds), "")


def _part_for(calls_for: Callable[[Any], bool], house: House) -> str:
    part = next((part for part in _changed(house.project) if calls_for(part)), None)
    return "" if part is None else f"{part.label} is {part.phase}"


class InspectionLimits(Limits):
    asked_for: Limit[bool]


@rule("permits.inspections", stage="intake", existing="must comply")
def inspections(need: NeededInspection, limit: InspectionLimits) -> Check:
    """When the permit is issued, each inspection that the work needs is planned, before what it looks at is covered."""
    submittal = need.project.submittal
    if is_missing(submittal) or not submittal.inspections:
        return not_shown(need.project.absent("inspections")).because(need.why)
    planned = need.inspection in submittal.inspections
    return required(planned, limit.asked_for).because(need.why)


TESTED: dict[str, Callable[[Any], bool]] = {
    "gas piping": lambda part: isinstance(part, Appliance) and part.fuel in ("natural gas", "propane"),
    "water piping": lambda part: part.kind == "fixture",
    "drain piping": lambda part: part.kind == "fixture",
}


@fact
class NeededTest(Fact):
    """A test of pipes that the work needs, and the part because of which it does."""

    project: Project
    piping: str
    why: str

    @classmethod
    def found_in(cls, house: House) -> Iterator[NeededTest]:
        """Yield each kind of piping once, with the first new part that it serves, when a permit is issued."""
        new = [part for part in _changed(house.project) if part.phase == "new"] if _issued(house.project) else []
        for piping, calls_for in TESTED.items():
            part = next((part for part in new if calls_for(part)), None)
            if part is not None:
                yield cls(house.project, house.project, piping, f"{part.label} is new")

    @property
    def label(self) -> str:
        """The test."""
        return f"test of {self.piping}"


class TestLimits(Limits):
    tested: Limit[bool]
    gas_pressure: Limit[Pressure]
    gas_minutes: Limit[int]


@rule("permits.pipe-tests", stage="rough-in", existing="must comply")
def pipe_tests(need: NeededTest, limit: TestLimits) -> Check:
    """When the permit is issued, new gas, water and drain pipes are tested before they are covered."""
    submittal = need.project.submittal
    tests = () if is_missing(submittal) else submittal.tests
    test = next((test for test in tests if test.of == need.piping), None)
    if test is None:
        return not_shown(need.project.absent(f"test of {need.piping}")).because(need.why)
    done = required(True, limit.tested).because(need.why)
    if need.piping != "gas piping":
        return done
    return all_of(done, at_least(test.pressure, limit.gas_pressure), at_least(test.minutes, limit.gas_minutes))


class OnSiteLimits(Limits):
    kept: Limit[tuple[str, ...]]


@rule("permits.on-site", stage="framing", existing="must comply")
def on_site(project: Project, limit: OnSiteLimits) -> Check:
    """Once the permit is issued, the permit, the approved drawings and what else the office wants are on the site."""
    submittal = project.submittal
    if is_missing(submittal) or is_missing(submittal.issued_on):
        return does_not_apply("no permit is issued")
    held = [text.lower() for text in submittal.on_site]
    lacking = [item for item in limit.kept.value or () if not any(item.lower() in text for text in held)]
    return not_shown(*(project.absent(f"{item} (on site)") for item in lacking)) if lacking else met("all on the site")
