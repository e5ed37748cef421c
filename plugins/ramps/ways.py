"""What the rules for ramps are about: each ramp, with its slope and whether it serves the required egress door."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Door, Fact, House, Missing, Ramp, Slope, fact, is_missing, when_given


@fact
class RampWay(Fact):
    """One ramp. `serves_egress` is as stated, else true where the required egress door stands at one of its ends."""

    ramp: Ramp
    serves_egress: bool | Missing

    @classmethod
    def found_in(cls, house: House) -> Iterator[RampWay]:
        """Yield every ramp."""
        for ramp in house.subjects(Ramp):
            yield cls(ramp, ramp, _serves_egress(ramp, house))

    @property
    def slope(self) -> Slope | Missing:
        """The slope: as stated, else rise over run."""
        if not is_missing(self.ramp.slope) or is_missing(self.ramp.rise) or is_missing(self.ramp.run):
            return self.ramp.slope
        return self.worked_out

    @property
    def worked_out(self) -> Slope | Missing:
        """The slope that rise and run come to."""
        return when_given(lambda rise, run: Slope(rise / run), self.ramp.rise, self.ramp.run)

    @property
    def derived(self) -> str:
        """How the slope was come by."""
        return "as stated" if not is_missing(self.ramp.slope) else f"{self.ramp.rise} / {self.ramp.run}"


def _serves_egress(ramp: Ramp, house: House) -> bool | Missing:
    if not is_missing(ramp.serves_required_egress):
        return ramp.serves_required_egress
    named = [d for d in house.subjects(Door) if d.required_egress is True and not d.is_removed]
    if any(set(door.between) & set(ramp.between) for door in named):
        return True
    return False if named else ramp.serves_required_egress
