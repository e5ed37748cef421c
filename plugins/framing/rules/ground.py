"""What members bring down to the ground, held against the load that a footing is drawn for."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from precheck_plugins.framing.drawn.load_cases import combinations
from precheck_plugins.framing.drawn.load_path import reactions_of
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Check,
    Fact,
    Footing,
    Force,
    House,
    Limit,
    Member,
    Missing,
    Ratio,
    at_least,
    does_not_apply,
    fact,
    is_missing,
    rule,
    when_given,
)

TENS = 10  # lb that a load to write down is rounded up to


@fact
class Grounded(Fact):
    """A footing under members, with each end that bears on it."""

    footing: Footing
    ends: tuple[tuple[Member, int], ...]
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Grounded]:
        """Yield every footing that a member names as what it bears on."""
        standing = [member for member in house.subjects(Member) if not member.is_removed]
        for footing in house.subjects(Footing):
            ends = [(m, i) for m in standing for i, end in enumerate(m.bears_on) if end.on == footing.id]
            if ends:
                yield cls(footing, footing, tuple(ends), house)

    def load(self, limits: DesignLimits) -> Force | Missing | None:
        """Return the greatest load of any combination; None where a member is outside the method."""
        setting = Setting(self.house.project, limits)
        forces: dict[str, float] = {}
        for member, index in self.ends:
            try:
                found = reactions_of(member, setting)
            except OutsideMethodError:
                return None
            if is_missing(found):
                return found
            for kind, both in found.items():
                forces[kind] = forces.get(kind, 0.0) + both[min(index, 1)]
        sums = (
            sum(forces.get(kind, 0.0) * f for kind, f in factors.items()) for _, factors in combinations(tuple(forces))
        )
        return Force(round(max(sums)))


class GroundLimits(DesignLimits):
    minimum: Limit[Ratio]


@rule("framing.footing-load-agrees", stage="plan")
def footing_load_agrees(ground: Grounded, limit: GroundLimits) -> Check:
    """A footing is drawn for what the members that bear on it bring down.

    The reactions are followed down from every member above, and added up under each combination of loads.
    """
    brought, stated = ground.load(limit), ground.footing.load
    if brought is None:
        return does_not_apply("what bears on it is outside the method of these checks, so its load is the designer's")
    share = when_given(lambda said, load: Ratio(said / load), stated, brought)
    names = ", ".join(dict.fromkeys(member.id for member, _ in ground.ends))
    how = "" if is_missing(brought) else f"{stated} of the {brought} that {names} brings down"
    return at_least(share, limit.minimum, how).or_fix(
        lambda: f"write `load: {_up(brought)}`, and size the footing for it"
    )


def _up(load: Force | Missing | None) -> str:
    return f"{ceil(load.n / TENS) * TENS:,} lb" if isinstance(load, Force) else "..."
