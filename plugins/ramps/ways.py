"""What the rules for ramps are about: each ramp, with its slope and whether it serves the required egress door."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Door, Fact, House, Length, Missing, Ramp, Slope, fact, given, is_missing


@fact
class RampWay(Fact):
    """One ramp. `serves_egress` is as stated, else true where the required egress door stands at one of its ends."""

    ramp: Ramp
    serves_egress: bool | Missing
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[RampWay]:
        """Yield every ramp."""
        for ramp in house.subjects(Ramp):
            yield cls(ramp, ramp, _serves_egress(ramp, house), house)

    @property
    def slope(self) -> Slope | Missing:
        """The slope: as stated, or rise over run where that is steeper."""
        stated, worked_out = self.ramp.slope, self.worked_out
        if is_missing(stated) or is_missing(worked_out):
            return stated if is_missing(worked_out) else worked_out
        return max(stated, worked_out)

    @property
    def worked_out(self) -> Slope | Missing:
        """The slope that rise and run come to; an absence of the slope where they are not given."""
        found = given(self.ramp.rise, self.ramp.run)
        return self.ramp.absent("slope") if is_missing(found) else Slope(found[0] / found[1])

    @property
    def derived(self) -> str:
        """How the slope was come by."""
        return "as stated" if self.slope is self.ramp.slope else f"{self.ramp.rise} / {self.ramp.run}"

    @property
    def rise_by_floors(self) -> Length | Missing:
        """The difference of the finished floors that the ramp joins."""
        one, other = (self.house.space(side) for side in self.ramp.between)
        if one is None or other is None:
            return self.ramp.absent("rise")
        apart = self.house.finished_floor(one) - self.house.finished_floor(other)
        return self.ramp.absent("rise") if is_missing(apart) or not apart.n else abs(apart)


def _serves_egress(ramp: Ramp, house: House) -> bool | Missing:
    if not is_missing(ramp.serves_required_egress):
        return ramp.serves_required_egress
    named = [d for d in house.subjects(Door) if d.required_egress is True and not d.is_removed]
    if any(set(door.between) & set(ramp.between) for door in named):
        return True
    return False if named else ramp.serves_required_egress
