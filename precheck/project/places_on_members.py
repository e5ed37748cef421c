"""Places on members that cannot be: a load or a bearing off the member that it is on. Such a file is refused at its line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from precheck.files.missing import is_missing
from precheck.files.record import Record
from precheck.files.source import Problem
from precheck.project.framing import Member
from precheck.project.part import Part
from precheck.units import Length

NOTHING = Length(0)


def problems_of_places(members: tuple[Member, ...], by_id: Mapping[str, Part]) -> Iterator[Problem]:
    """Yield what is wrong with where loads and the ends of members lie on other members."""
    for member in members:
        yield from _spans_twice(member)
        for load in member.carries:
            yield from _off(load, member, ("from_", "to", "at"))
        for end in member.bears_on:
            bearer = None if is_missing(end.on) else by_id.get(end.on)
            if isinstance(bearer, Member):
                yield from _off(end, bearer, ("at", "to"))


def _spans_twice(member: Member) -> Iterator[Problem]:
    if member.spans and not is_missing(member.span):
        told = "give the `span` of a member on two supports, or the `spans` of one that runs on over more; not both"
        yield Problem(member.place_of("spans"), told)


def _off(record: Record, member: Member, fields: tuple[str, ...]) -> Iterator[Problem]:
    whole = member.length_of_spans
    if member.role == "post" or is_missing(whole):
        return
    past, before = (NOTHING if is_missing(own) else own for own in (member.overhang, member.first_overhang))
    given = [(field, getattr(record, field)) for field in fields if not is_missing(getattr(record, field))]
    for field, place in given:
        if not -before <= place <= whole + past:
            yield Problem(record.place_of(field), _told(field, place, member, whole + past, before))
    for (_, start), (field, end) in pairwise(given):
        if field == "to" and end <= start:
            yield Problem(record.place_of(field), f"`to` of {end} does not lie past where it begins, at {start}")


def _told(field: str, place: Length, member: Member, end: Length, before: Length) -> str:
    """Return that a place is off a member, and what to write instead."""
    key = field.rstrip("_")
    reach = f"from {-before} to {end}" if before.n else f"to {end}"
    fix = "write a place on it, or the overhang that carries the load"
    return f"`{key}` of {place} is off {member.label}, which reaches {reach} from its first support; {fix}"
