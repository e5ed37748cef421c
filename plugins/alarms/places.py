"""Where alarms are due: each bedroom, the space outside its door, each story, and open high rooms and lofts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from precheck import (
    Alarm,
    Check,
    Door,
    DwellingUnit,
    Fact,
    House,
    Length,
    Limit,
    Missing,
    Outcome,
    Space,
    all_of,
    at_least,
    does_not_apply,
    fact,
    first_given,
    from_point,
    is_missing,
    missing_of,
    not_shown,
    stretch_of,
    units_of,
)

NOT_OUTSIDE_A_BEDROOM = frozenset(
    ("closet", "bathroom", "toilet room", "storage", "utility", "garage", "carport", "porch", "deck", "crawl space")
)


@fact
class AlarmPlace(Fact):
    """A place where alarms are due whatever its own phase is, because the work makes them due in the whole dwelling."""

    house: House

    @property
    def phase(self) -> Any:
        """None, so that an existing room of a house whose alarms are due is held to them."""
        return None

    @property
    def space(self) -> Space | None:
        """The space that says which dwelling unit it is in."""
        raise NotImplementedError

    def in_unit(self, judge: Callable[[DwellingUnit], Check]) -> Check:
        """Return what `judge` says of the dwelling unit that it is in."""
        return in_unit_of(self.space, self.house, judge)


@fact
class Bedroom(AlarmPlace):
    """A bedroom, and the spaces just outside its door."""

    room: Space

    @classmethod
    def found_in(cls, house: House) -> Iterator[Bedroom]:
        """Yield every bedroom that is there when the work is done."""
        yield from (cls(room, house, room) for room in house.spaces if room.is_sleeping)

    @property
    def space(self) -> Space:
        """The room."""
        return self.room

    @property
    def outside(self) -> tuple[Space, ...]:
        """The spaces across its doors (and those it is open to) where an alarm is outside and near it.

        Of a bedroom that stands and whose doors are not drawn, the halls of its story.
        """
        across = [s for s in joined(self.house, self.room) if s.use not in NOT_OUTSIDE_A_BEDROOM and not s.is_sleeping]
        stated = [s for s in self.house.spaces if s.id in self.room.rooms_beside and s.use == "hall"]
        halls = [s for s in self.house.spaces if s.use == "hall" and s.story == self.room.story]
        undrawn = self.room.is_existing and not joined(self.house, self.room) and not is_missing(self.room.story)
        return tuple(dict.fromkeys(across or stated or (halls if undrawn else ())))

    @property
    def alarms_outside(self) -> list[Alarm]:
        """The alarms just outside, and those that are said to serve this room."""
        near = {space.id for space in self.outside}
        return [a for a in alarms_of(self.house) if a.space in near or self.room.id in a.serves]

    @property
    def bathrooms(self) -> tuple[Space, ...]:
        """Bathrooms that are entered from this room."""
        return tuple(s for s in joined(self.house, self.room) if s.use in ("bathroom", "toilet room"))


@fact
class OpenToHall(AlarmPlace):
    """A room that is open to a hall which serves bedrooms; its ceiling may be higher."""

    hall: Space
    room: Space

    @property
    def space(self) -> Space:
        """The room."""
        return self.room

    @classmethod
    def found_in(cls, house: House) -> Iterator[OpenToHall]:
        """Yield each room that is open to such a hall."""
        halls = {s.id: s for need in house.subjects(Bedroom) for s in need.outside if s.use == "hall"}
        for hall in halls.values():
            yield from (cls(room, house, hall, room) for room in open_to(house, hall) if room.use != "hall")

    @property
    def label(self) -> str:
        """The room and the hall."""
        return f"{self.room.label} open to {self.hall.id}"


@fact
class SleepingLoft(AlarmPlace):
    """A loft for sleeping, and the rooms that it is open to."""

    loft: Space
    rooms: tuple[Space, ...]

    @property
    def space(self) -> Space:
        """The loft."""
        return self.loft

    @classmethod
    def found_in(cls, house: House) -> Iterator[SleepingLoft]:
        """Yield every sleeping loft."""
        lofts = (s for s in house.spaces if s.sleeping_loft is True)
        yield from (cls(loft, house, loft, tuple(open_to(house, loft))) for loft in lofts)


@fact
class AlarmRoom(AlarmPlace):
    """Any room, for places where a jurisdiction asks for more alarms than the model code."""

    room: Space

    @property
    def space(self) -> Space:
        """The room."""
        return self.room

    @classmethod
    def found_in(cls, house: House) -> Iterator[AlarmRoom]:
        """Yield every room that is there when the work is done."""
        yield from (cls(room, house, room) for room in house.spaces)


@fact
class AlarmByBath(Fact):
    """An alarm, the bathrooms that open into its space, and their doors; an old alarm is judged anew beside a new one."""

    alarm: Alarm
    baths: tuple[Space, ...]
    doors: tuple[Door, ...]
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[AlarmByBath]:
        """Yield every alarm."""
        for alarm in house.subjects(Alarm):
            space = house.space(alarm.space)
            baths = [s for s in joined(house, space) if s.use == "bathroom"] if space is not None else []
            ids = {bath.id for bath in baths}
            doors = (d for d in house.project.doors if not d.is_removed and alarm.space in d.between)
            yield cls(alarm, alarm, tuple(baths), tuple(d for d in doors if not ids.isdisjoint(d.between)), house)

    @property
    def drawn(self) -> Length | Missing:
        """Distance to the nearest of the doors, as all of them and the alarm are drawn."""
        at, away = self.alarm.at, [stretch_of(door, self.house) for door in self.doors]
        unsaid = missing_of(at, *away) if away else self.alarm.distance_to_bath_door
        if unsaid is not None or is_missing(at):
            return self.alarm.distance_to_bath_door if unsaid is None else unsaid
        return min(from_point((at[0].n, at[1].n), door) for door in away if not is_missing(door))

    @property
    def distance(self) -> Length | Missing:
        """Distance to the nearest of the doors: as stated or as drawn, whichever is less."""
        stated = self.alarm.distance_to_bath_door
        if is_missing(stated) or is_missing(self.drawn):
            return first_given(stated, self.drawn)
        return min(stated, self.drawn)


def joined(house: House, space: Space) -> list[Space]:
    """Return the spaces across the doors of `space`, and those it is open to."""
    doors = [o for o in house.openings_of(space) if isinstance(o, Door)]
    across = [s for door in doors for s in house.sides(door) if s is not None and s is not space and not s.is_removed]
    return [*across, *open_to(house, space)]


def open_to(house: House, space: Space) -> list[Space]:
    """Return the spaces that `space` is open to: as stated, and through a cased opening."""
    cased = [
        side
        for door in house.project.doors
        if door.operation == "cased opening" and space.id in door.between and not door.is_removed
        for side in door.between
    ]
    return [
        s for s in house.spaces if s is not space and (s.id in space.open_to or space.id in s.open_to or s.id in cased)
    ]


def alarms_of(house: House) -> list[Alarm]:
    """Return the alarms that are there when the work is done."""
    return [a for a in house.project.alarms if not a.is_removed]


def alarms_in(house: House, spaces: Iterable[Space]) -> list[Alarm]:
    """Return the alarms in `spaces`."""
    ids = {space.id for space in spaces}
    return [a for a in alarms_of(house) if a.space in ids]


def enough(house: House, alarms: list[Alarm], what: str, fewest: Limit[int], remedy: str) -> Check:
    """Check that `fewest` of `alarms` detect `what`; not shown where the project shows no alarm at all."""
    if not isinstance(fewest.value, int):
        return at_least(len(alarms), fewest)
    sure = [a for a in alarms if not is_missing(a.detects) and what in a.detects]
    unsure = missing_of(*(a.detects for a in alarms))
    if len(sure) < fewest.value and not alarms_of(house):
        return not_shown(house.project.absent(f"{what} alarms"))
    if len(sure) < fewest.value and unsure is not None:
        return not_shown(unsure)
    how = ", ".join(a.id for a in sure) or f"no {what} alarm"
    return at_least(len(sure), fewest, how).or_fix(remedy, decide="where it goes")


def in_unit_of(space: Space | None, house: House, judge: Callable[[DwellingUnit], Check]) -> Check:
    """Return what `judge` says of the dwelling unit of `space`, or of each that shares it.

    A space that does not say its unit is asked for it where the answer hangs on that.
    """
    checks = [judge(unit) for unit in units_of(space, house)]
    outcomes = {check.outcome for check in checks}
    if len(outcomes) == 1:
        return checks[0]
    if space is None or not is_missing(space.unit) or outcomes == {Outcome.PASS, Outcome.DOES_NOT_APPLY}:
        return all_of(*checks)
    return not_shown(space.unit)


def choices(limit: Limit[tuple[str, ...]]) -> tuple[str, ...]:
    """Return what `limit` lists; nothing where it is void or not set."""
    return limit.value if isinstance(limit.value, tuple) else ()


def if_due_in(unit: DwellingUnit, exempt: Iterable[str], check: Check, more: str = "") -> Check:
    """Return `check` where work that is not `exempt` makes alarms due in `unit`; `more` is what else makes them due."""
    why = "; ".join(filter(None, (more, unit.scope.why_due(exempt))))
    return if_due(unit.scope.makes_due(exempt), check, why, unit.scope.why_not_due())


def if_due(due: bool | Missing, check: Check, why: str, why_not: str) -> Check:
    """Return `check` where alarms are due (or it is met anyway); what is not known of the work is asked for."""
    if due is False:
        return does_not_apply(why_not)
    if is_missing(due):
        return check.because(why) if _is_met(check) else not_shown(due)
    return check.because(why)


def _is_met(check: Check) -> bool:
    return check.outcome.word in ("pass", "does not apply")
