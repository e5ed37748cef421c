"""What members bring down to the ground, held against the load that a footing is drawn for."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from precheck_plugins.framing.drawn.chain import chain_of
from precheck_plugins.framing.drawn.load_cases import combined
from precheck_plugins.framing.drawn.load_path import at_support, reactions_of
from precheck_plugins.framing.drawn.setting import DesignLimits, Setting, setting_in
from precheck_plugins.framing.members.patterns import Reach
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Check,
    Fact,
    Footing,
    Force,
    House,
    Limit,
    Look,
    Member,
    Missing,
    NewValue,
    Ratio,
    at_least,
    fact,
    is_missing,
    look_at,
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
        """Yield every footing that a member names as what it bears on.

        A row of joists on a continuous footing brings it no load at a point: the footing tables are for that.
        """
        standing = [member for member in house.subjects(Member) if not member.is_removed]
        for footing in house.subjects(Footing):
            ends = [(m, i) for m in standing for i, end in enumerate(m.bears_on) if end.on == footing.id]
            ends = [(m, i) for m, i in ends if not m.is_repeated or footing.form == "isolated"]
            if ends:
                yield cls(footing, footing, tuple(ends), house)

    def load(self, setting: Setting) -> Force | Missing:
        """Return the greatest load of any combination. Raises OutsideMethodError where a member is outside the method."""
        forces: dict[str, Reach] = {}
        for member, index in self.ends:
            if member.is_repeated:
                return member.bears_on[index].absent(f"beam between the row {member.id} and the footing")
            found = reactions_of(member, setting)
            if is_missing(found):
                return found
            for kind, reach in at_support(found, index).items():
                own = forces.get(kind, Reach(0.0, 0.0))
                forces[kind] = Reach(own.greatest + reach.greatest, own.least + reach.least)
        return Force(round(combined(forces).greatest))


class GroundLimits(DesignLimits):
    minimum: Limit[Ratio]


@rule("framing.footing-load-agrees", stage="plan")
def footing_load_agrees(ground: Grounded, limit: GroundLimits) -> Check:
    """A footing is drawn for what the members that bear on it bring down.

    The greatest reactions are followed down from every member above, with live load where it does most harm, and added up
    under each combination of loads. The calculation says where each pound comes from.
    """
    setting = setting_in(ground.house, limit)
    try:
        brought = ground.load(setting)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"what bears on it is outside the method of these checks: {error}")
    stated = ground.footing.load
    share = when_given(lambda said, load: Ratio(said / load), stated, brought)
    names = ", ".join(dict.fromkeys(member.id for member, _ in ground.ends))
    how = "" if is_missing(brought) else f"{stated} of the {brought} that {names} brings down"
    check = at_least(share, limit.minimum, how).or_fix(
        lambda: f"write `load: {_up(brought)}`, and size the footing for it",
        lambda: [NewValue(ground.footing, "load", Force.parse(_up(brought)))],
    )
    return check.with_work(lambda: chain_of(ground.ends, setting))


def _up(load: Force | Missing) -> str:
    return f"{ceil(load.n / TENS) * TENS:,} lb" if isinstance(load, Force) else "..."
