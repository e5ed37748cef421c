"""One drain of a carport, with what the survey knows of the carport."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck import Area, Entry, Fact, House, Length, Missing, Space, fact, is_missing, when_given
from precheck_carport_drainage import KEY


@fact
class Drain(Fact):
    """A drain that the project file lists under the plugin's section."""

    drain: Entry
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Drain]:
        """Yield every drain that the file lists."""
        for entry in house.project.entries(KEY):
            yield cls(entry, entry, house)

    @property
    def carport(self) -> Space | Missing:
        """The carport that it drains."""
        named = self.drain.text("space")
        found = None if is_missing(named) else self.house.space(named)
        return self.drain.absent("space that the project has") if found is None else found

    @property
    def phase(self) -> Any:
        """The phase of the carport."""
        return None if is_missing(self.carport) else self.carport.phase

    @property
    def floor(self) -> Area | Missing:
        """The floor that sheds its water into the drain, all drains of the carport sharing it equally."""
        count = sum(other.text("space") == self.drain.text("space") for other in self.house.project.entries(KEY))
        return when_given(lambda space: self.house.area(space) / count, self.carport)

    @property
    def inlet(self) -> Area | Missing:
        """The open area of its inlet."""
        return self.drain.measure("inlet area", Area)

    @property
    def away(self) -> Length | Missing:
        """How far from the house it lets the water go."""
        return self.drain.measure("distance from house", Length)
