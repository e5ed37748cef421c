"""Load combinations for allowable stress design, each with the load duration of its shortest load.

All combinations have to be checked: a smaller load of longer duration may govern. Line loads in plf. Source:
ASCE 7 2.4.1, as the building codes refer to it, and NDS 2.3.2; from memory. Wind and seismic are left out:
they act on what a member holds, not on a joist's span.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from precheck_plugins.framing.demands import UniformSpan
from precheck_plugins.framing.members import Member, MemberCheck, check_uniform
from precheck_plugins.framing.steps import Step, filled, given, number

if TYPE_CHECKING:
    from collections.abc import Iterator

ASD = "ASCE 7 2.4.1 (from memory)"
TOGETHER = 0.75


@dataclass(frozen=True, slots=True)
class Combination:
    """A combination: its shortest load, its sum (plf), its arithmetic as a form with numbers, its source."""

    load: str
    plf: float
    form: str
    numbers: tuple[float, ...]
    source: str = ASD

    def step(self) -> Step:
        """The combination with its numbers."""
        text = filled(self.form, self.numbers)
        return Step("w", f"governing combination, {self.load}", text, self.plf, "plf", self.source)


@dataclass(frozen=True, slots=True)
class LineLoads:
    """Loads along one member, plf: dead, occupancy live, roof live, and snow."""

    dead_plf: float
    live_plf: float = 0.0
    roof_live_plf: float = 0.0
    snow_plf: float = 0.0

    def combinations(self) -> tuple[Combination, ...]:
        """Dead alone, dead with each load, and dead with three quarters of live and one roof load."""
        dead, live = self.dead_plf, self.live_plf
        alone = Combination("dead", dead, "{}", (dead,))
        with_live = (Combination("occupancy", dead + live, "{} + {}", (dead, live)),) if live else ()
        return (alone, *with_live, *self._with_roof())

    def steps(self) -> tuple[Step, ...]:
        """Each load as given."""
        return (
            given("D", "dead load", self.dead_plf, "plf"),
            given("L", "live load", self.live_plf, "plf"),
            given("Lr", "roof live load", self.roof_live_plf, "plf"),
            given("S", "snow load", self.snow_plf, "plf"),
        )

    def _with_roof(self) -> Iterator[Combination]:
        dead, live = self.dead_plf, self.live_plf
        for load, roof in (("roof live", self.roof_live_plf), ("snow", self.snow_plf)):
            if roof:
                yield Combination(load, dead + roof, "{} + {}", (dead, roof))
            if roof and live:
                total = dead + TOGETHER * (live + roof)
                yield Combination(load, total, "{} + 0.75 * ({} + {})", (dead, live, roof))


@dataclass(frozen=True, slots=True)
class CombinedCheck:
    """The loads, the governing combination, the check under it, and the checks under all of them in order."""

    loads: LineLoads
    governing: Combination
    check: MemberCheck
    all_checks: tuple[MemberCheck, ...]

    @property
    def passes(self) -> bool:
        """Whether the member passes under every combination."""
        return all(check.passes for check in self.all_checks)

    def steps(self) -> tuple[Step, ...]:
        """Loads, the governing combination, and the calculation under it."""
        w, dead = self.governing.plf, self.loads.dead_plf
        varies = Step("wL", "load beside dead load", f"{number(w)} - {number(dead)}", w - dead, "plf", ASD)
        return (*self.loads.steps(), self.governing.step(), varies, *self.check.steps())


def check_combinations(member: Member, span_in: float, loads: LineLoads) -> CombinedCheck:
    """A member on a simple span under every combination, each with its own load duration.

    Raises LumberError or OutsideMethodError. Source: ASCE 7 2.4.1, NDS 2.3.2.
    """
    combinations = loads.combinations()
    checks = tuple(_check(member, span_in, loads.dead_plf, combination) for combination in combinations)
    worst = max(range(len(checks)), key=lambda i: checks[i].governing.ratio)
    return CombinedCheck(loads, combinations[worst], checks[worst], checks)


def _check(member: Member, span_in: float, dead_plf: float, combination: Combination) -> MemberCheck:
    used = replace(member, use=replace(member.use, load=combination.load))
    return check_uniform(used, UniformSpan(span_in, dead_plf, combination.plf - dead_plf))
