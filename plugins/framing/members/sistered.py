"""Members of unequal depth side by side: they deflect together, and each bends about its own axis.

Load is shared by EI, so that the stress in each is proportional to its depth and stiffness: the deeper
governs, and the section moduli do not add up. Source: statics (equal curvature); no credit is taken for
composite action, which nails give to about 3 percent.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import chain
from math import fsum
from typing import TYPE_CHECKING

from precheck_plugins.framing.members.capacity import (
    SHORTEST_BEARING_IN,
    DemandCapacity,
    SizedMember,
    compare_deflections,
)
from precheck_plugins.framing.timber.adjusted_values import AdjustedValue, adjusted_bending, adjusted_value
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.steps import STATICS, Step, number

from precheck.immutable import fixed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from precheck_plugins.framing.members.demands import Demand


@fixed
class Share:
    """One member of the group, its adjusted values by symbol, and the part of the load it takes, 0 to 1."""

    member: SizedMember
    values: Mapping[str, AdjustedValue]
    sound: bool
    part: float

    @property
    def ei(self) -> float:
        """Stiffness EI, lb-in2; 0 for a member that cannot carry."""
        return self.values["E"].psi * self.member.section.inertia_in4 if self.sound else 0.0

    @property
    def moment_capacity_inlb(self) -> float:
        """F'b S of the member alone, lb-in."""
        return self.values["Fb"].psi * self.member.section.modulus_in3

    @property
    def carries(self) -> bool:
        """Whether the member takes any load."""
        return self.part > 0


@fixed
class Sistered:
    """The group: shares in the order given. Each member is assumed full length, bearing at both ends."""

    shares: tuple[Share, ...]

    @property
    def ei(self) -> float:
        """Sum of EI, lb-in2."""
        return fsum(share.ei for share in self.shares)

    @property
    def moment_capacity_inlb(self) -> float:
        """Least of F'b S / share over the members that carry, lb-in."""
        return min(s.moment_capacity_inlb / s.part for s in self.shares if s.carries)

    @property
    def usable_modulus_in3(self) -> float:
        """Section modulus to use with the bending value of the governing member, in3."""
        governing = min((s for s in self.shares if s.carries), key=lambda s: s.moment_capacity_inlb / s.part)
        return governing.member.section.modulus_in3 / governing.part

    def check(self, demand: Demand) -> tuple[DemandCapacity, ...]:
        """Bending of the group, shear and bearing of each member by its share, deflection. NDS chapter 3."""
        moment = DemandCapacity(
            "bending of the group",
            "M",
            demand.moment_inlb,
            self.moment_capacity_inlb,
            "lb-in",
            "3.3.1",
            "{}",
            (demand.moment_inlb,),
        )
        own = [found for share in self.shares if share.carries for found in _own(share, demand)]
        return (moment, *own, *compare_deflections(demand, self.shares[0].member.limits, (self.ei,)))

    def bearings_needed_in(self, demand: Demand) -> tuple[float, ...]:
        """Bearing length, in, for each support that keeps every member that carries within its value. NDS 3.10.2."""
        per_lb = max(s.part / s.values["Fc_perp"].psi / s.member.section.breadth_in for s in self.shares if s.carries)
        return tuple(max(reaction, 0.0) * per_lb for reaction in demand.reactions_lb)

    def transfer_plf(self, load_plf: float, loaded: int) -> float:
        """Load that the fasteners hand from the directly loaded member (its index) to the others, plf."""
        return load_plf * (1 - self.shares[loaded].part)

    def steps(self) -> tuple[Step, ...]:
        """EI, share and capacity of each member, and the moment of the group."""
        values = chain.from_iterable(_value_lines(share) for share in self.shares)
        each = " + ".join(number(share.ei) for share in self.shares)
        total = Step("EI", "stiffness of the group", each, self.ei, "lb-in2", STATICS)
        shares = chain.from_iterable(_share_lines(share, self.ei) for share in self.shares)
        least = ", ".join(f"{number(s.moment_capacity_inlb)} / {number(s.part)}" for s in self.shares if s.carries)
        text = f"min({least})" if "," in least else least
        most = Step("M max", "moment of the group", text, self.moment_capacity_inlb, "lb-in", STATICS)
        return (*values, total, *shares, most)


def sistered(members: Sequence[SizedMember], sound: Sequence[bool] | None = None) -> Sistered:
    """Members side by side; `sound` is False for one cracked, notched or out of contact: it takes nothing.

    Raises OutsideMethodError when no member is sound, LumberError for unknown values. Source: statics.
    """
    whole = list(sound) if sound is not None else [True] * len(members)
    if not any(whole):
        raise OutsideMethodError("a group of sistered members needs a sound member among them")
    bare = [_share(member, ok) for member, ok in zip(members, whole, strict=True)]
    total = fsum(share.ei for share in bare)
    return Sistered(tuple(replace(share, part=share.ei / total) for share in bare))


def _share(member: SizedMember, sound: bool) -> Share:
    arguments = (member.values, member.section, member.use)
    values = {symbol: adjusted_value(symbol, *arguments) for symbol in ("Fv", "Fc_perp", "E")}
    return Share(member, {"Fb": adjusted_bending(*arguments), **values}, sound, 0.0)


def _own(share: Share, demand: Demand) -> tuple[DemandCapacity, DemandCapacity]:
    member, section, part = share.member, share.member.section, share.part
    force, reaction = demand.shear_lb(section.depth_in), demand.reaction_lb
    seat = min((s.length_in for s in member.seats), default=SHORTEST_BEARING_IN)
    stress = part * reaction / (section.breadth_in * seat)
    numbers = (part, reaction, section.breadth_in, seat)
    return (
        DemandCapacity(f"shear of {section.label}", "fv", 1.5 * part * force / section.area_in2,
                       share.values["Fv"].psi, "psi", "3.4.2", "3 * {} * {} / (2 * {})",
                       (part, force, section.area_in2)),
        DemandCapacity(f"bearing of {section.label}", "fc_perp", stress, share.values["Fc_perp"].psi, "psi",
                       "3.10.2", "{} * {} / ({} * {})", numbers),
    )  # fmt: skip


def _value_lines(share: Share) -> tuple[Step, ...]:
    section = share.member.section
    values = chain.from_iterable(value.steps() for value in share.values.values())
    text = f"{number(share.values['E'].psi)} * {number(section.inertia_in4)} * {int(share.sound)}"
    stiffness = Step("EI", f"stiffness of {section.label}", text, share.ei, "lb-in2", STATICS)
    return (*share.member.steps(), *values, stiffness)


def _share_lines(share: Share, total_ei: float) -> tuple[Step, ...]:
    label = share.member.section.label
    part = f"{number(share.ei)} / {number(total_ei)}"
    moment = f"{number(share.values['Fb'].psi)} * {number(share.member.section.modulus_in3)}"
    return (
        Step("share", f"share of {label}", part, share.part, "", STATICS),
        Step("M", f"moment of {label} alone", moment, share.moment_capacity_inlb, "lb-in", STATICS),
    )
