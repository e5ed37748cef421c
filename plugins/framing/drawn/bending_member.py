"""What the rules for bending members are about: a member with its house and its design."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, ClassVar, Self

from precheck_plugins.framing.drawn.design import Design, design_of
from precheck_plugins.framing.drawn.setting import DesignLimits, setting_in
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import Check, Fact, House, Look, MakerData, Member, Missing, fact, is_missing, look_at, not_shown

BENDING = frozenset(("floor joist", "ceiling joist", "rafter", "deck joist", "beam", "header", "ridge beam",
                     "hip or valley", "trimmer"))  # fmt: skip


def phase_under_load(member: Member, house: House) -> Any:
    """Return the phase of a member; ``altered`` where it stands but gets load from what is new or altered."""
    return member.phase_where(house.is_loaded_anew(member))


@fact
class MemberInHouse(Fact):
    """A member of one of the `roles`, in its house."""

    member: Member
    house: House
    roles: ClassVar[frozenset[str]] = frozenset()

    @classmethod
    def found_in(cls, house: House) -> Iterator[Self]:
        """Yield every member of these roles."""
        for member in house.subjects(Member):
            if member.role in cls.roles:
                yield cls(member, member, house)

    @property
    def phase(self) -> Any:
        """A member that stands but gets load from what is new or altered counts as altered."""
        return phase_under_load(self.member, self.house)


@fact
class BendingMember(MemberInHouse):
    """A joist, rafter, beam or header, in its house."""

    roles = BENDING

    @property
    def has_maker_span(self) -> bool:
        """Whether it is an I-joist or the like, whose span stands in its maker's document."""
        maker = self.member.maker
        return isinstance(maker, MakerData) and maker.product == "I-joist"

    @property
    def is_read_in_table(self) -> bool:
        """Whether it is a header that is drawn with its row of the header tables, and no loads."""
        member = self.member
        return member.role == "header" and not is_missing(member.table_case) and not member.carries

    def designed(self, limits: DesignLimits, check: Callable[[Design], Check]) -> Check:
        """Return the `check` of the member's design; what it lacks, or why it is an engineer's."""
        try:
            design = self.house.once(_designed, self.member, limits)
            return not_shown(design) if is_missing(design) else check(design)
        except OutsideMethodError as error:
            return look_at(Look.ENGINEER, f"outside the prescriptive method: {error}")


def _designed(member: Member, limits: DesignLimits, house: House) -> Design | Missing:
    return design_of(member, setting_in(house, limits))
