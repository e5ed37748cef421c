"""One work: what is being done, on which part, and the parts that make it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from precheck.project import Part, Space
from precheck.survey.fact import Fact, fact
from precheck.survey.house import House
from precheck.survey.works.derived import derived
from precheck.survey.works.found import means


@fact
class Work(Fact):
    """One work of the project. Lines of what it takes are about it.

    `parts` are what makes it, the first of them the one that it is shown at; a work that is only listed under `work` has
    none. `listed` says that the project lists it.
    """

    house: House
    kind: str
    parts: tuple[Part, ...]
    listed: bool = False

    @classmethod
    def found_in(cls, house: House) -> Iterator[Work]:
        """Yield the works of the project, in the order in which their parts stand in the file."""
        yield from Works.of(house).works

    @property
    def label(self) -> str:
        """Kind and part, such as ``garage to room: space suite``."""
        return f"{self.kind}: {self.about.label}" if self.parts else self.kind

    @property
    def phase(self) -> Any:
        """``new``: what a work takes is due, whatever the phase of its parts."""
        return "new"

    @property
    def rooms(self) -> tuple[Space, ...]:
        """The rooms that it makes or works in; none where it is only listed."""
        spaces = [part for part in (self.about, *self.parts) if isinstance(part, Space) and not part.is_removed]
        return tuple(dict.fromkeys(spaces))

    def parts_of(self, kind: type[Any]) -> tuple[Any, ...]:
        """Return its parts of one kind, such as its spaces."""
        return tuple(part for part in self.parts if isinstance(part, kind))


@fact
class NoWork(Fact):
    """The absence of any work: a project that changes nothing, or does not say what it changes."""

    @classmethod
    def found_in(cls, house: House) -> Iterator[NoWork]:
        """Yield one where the project holds no work."""
        if not Works.of(house).works:
            yield cls(house.project)

    @property
    def phase(self) -> Any:
        """``new``: it holds every project up."""
        return "new"


class Works:
    """The works of one house, worked out once."""

    def __init__(self, house: House) -> None:
        found = list(derived(house))
        listed = dict.fromkeys(house.project.work)
        unnamed = (kind for kind in listed if not any(means(kind, one) for one in found))
        order = {id(part): index for index, part in enumerate(house.project.parts)}
        found.sort(key=lambda one: order.get(id(one.about), -1))
        self.works = (
            *(Work(one.about or house.project, house, one.kind, one.parts, one.kind in listed) for one in found),
            *(Work(house.project, house, kind, (), True) for kind in unnamed),
        )

    @classmethod
    def of(cls, house: House) -> Works:
        """Return the works of `house`."""
        if "works" not in house.kept:
            house.kept["works"] = cls(house)
        found: Works = house.kept["works"]
        return found

    @property
    def add_a_story(self) -> bool:
        """Whether a story is built on the house, which puts more on what stands below."""
        return bool(self.of_kinds("upper addition"))

    def of_kinds(self, *kinds: str) -> tuple[Work, ...]:
        """Return the works of one of `kinds`."""
        return tuple(work for work in self.works if work.kind in kinds)
