"""What holds members up: supports down to the ground, posts, and headers with their jack and king studs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any, NamedTuple

from precheck import (
    Bearing,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Look,
    Member,
    Part,
    all_of,
    at_least,
    at_most,
    broken,
    does_not_apply,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
    one_of,
    reads,
    required,
    rule,
    when_given,
)

from .adjusted import Conditions
from .bending import cited, used
from .carried import DesignLimits, Setting, inches, snow_of
from .columns import Column, ColumnCheck, check_column
from .design import BENDING_SUPPORTS, OUTSIDE, combinations, section_of, values_of
from .footings import footing
from .headers import HeaderLoads, HeaderSpan, header_span
from .path import loading_of, reactions_of
from .sections import dressed_section

LINE_BEARERS = ("wall", "wall line", "braced wall line", "foundation wall")


@dataclass(frozen=True)
class Held(Fact):
    """A member that must be held up, in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Held]:
        """Yield every member but ridge boards, which rafters hold up."""
        for member in house.subjects(Member):
            if member.role != "ridge board":
                yield cls(member, member, house)

    def under(self, end: Bearing) -> Part | None:
        """Return the part that an end bears on, where it has an id."""
        return None if is_missing(end.on) else self.house.project.by_id.get(end.on)

    def force_lb(self, index: int, limits: DesignLimits) -> float | None:
        """Return the greatest load that an end brings down, lb; None where it cannot be told."""
        try:
            found = reactions_of(self.member, Setting(self.house.project, limits))
        except OUTSIDE:
            return None
        if is_missing(found):
            return None
        forces = {kind: ends[min(index, 1)] for kind, ends in found.items()}
        sums = combinations(tuple(forces))
        return max(sum(forces.get(kind, 0.0) * factor for kind, factor in factors.items()) for _, factors in sums)


@rule("framing.load-path")
def load_path(held: Held, limit: DesignLimits) -> Check:
    """Each end of a member bears on something that stays, and so on down to the ground.

    A joist or rafter may end on a wall, which spreads its load. A beam, header or post puts its load on one spot: a post
    has to be drawn under it, and under the post a footing. A slab is no footing.
    """
    ends, needed = held.member.bears_on, 1 if held.member.role == "post" else BENDING_SUPPORTS
    if len(ends) < needed:
        found = not_shown(held.member.absent("bears on" if not ends else "bears on, at its second end"))
    else:
        found = all_of(*(_end(held, index, end, limit) for index, end in enumerate(ends)))
    return cited(found, limit.feet)


def _end(held: Held, index: int, end: Bearing, limit: DesignLimits) -> Check:
    below = held.under(end)
    if below is not None and below.is_removed:
        return broken(f"it bears on {below.label}, which is taken out").or_fix(lambda: _foot(held, index, limit))
    if end.onto == "nothing":
        return broken(f"nothing is under its end{_amount(held, index, limit)}").or_fix(
            lambda: _foot(held, index, limit)
        )
    if below is None and is_missing(end.onto):
        return not_shown(end.absent("on"))
    if held.member.role == "post":
        return _post_foot(held, below, end, limit).or_fix(lambda: _foot(held, index, limit))
    if held.member.is_repeated or not _is_wall(below, end):
        return met(f"bears on {below.label if below else end.onto}")
    return not_shown(end.absent(f"post in {below.label if below else end.onto} under it"))


def _is_wall(below: Part | None, end: Bearing) -> bool:
    return below.kind in LINE_BEARERS if below is not None else end.onto in ("bearing wall", "existing framing")


def _post_foot(held: Held, below: Part | None, end: Bearing, limit: DesignLimits) -> Check:
    if isinstance(below, Member):
        return met(f"stands on {below.label}, which is held against this load")
    return one_of(str(below.kind if below is not None else end.onto), limit.feet, f"{held.member.label} stands on it")


def _amount(held: Held, index: int, limit: DesignLimits) -> str:
    force = held.force_lb(index, limit)
    return "" if force is None else f", which brings down {force:,.0f} lb"


def _foot(held: Held, index: int, limit: DesignLimits) -> str:
    force, soil = held.force_lb(index, limit), limit.soil.value
    if force is None or soil is None or is_missing(soil):
        return "draw a post under it, and under the post a footing"
    side = footing(force, float(soil.n)).side_in
    return f"a post and a footing of {side:.0f} x {side:.0f} in or more for {force:,.0f} lb on soil of {soil}"


@dataclass(frozen=True)
class Post(Fact):
    """A post in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Post]:
        """Yield every post."""
        for member in house.subjects(Member):
            if member.role == "post":
                yield cls(member, member, house)


@rule("framing.post-strength")
def post_strength(post: Post, limit: DesignLimits) -> Check:
    """A post carries what bears on it without buckling."""
    try:
        found = _column_checks(post, Setting(post.house.project, limit))
    except OUTSIDE as error:
        return cited(look_at(Look.ENGINEER, f"outside the prescriptive method: {error}"), limit.used)
    if is_missing(found):
        return cited(not_shown(found), limit.used)
    worst = max(found, key=lambda check: check.comparison.ratio)
    said = f"{worst.comparison.demand:,.0f} lb of {worst.capacity_lb:,.0f} lb"
    return (
        at_most(used(worst.comparison), limit.used, said).or_fix("a thicker post, or one more").with_work(worst.steps)
    )


def _column_checks(post: Post, setting: Setting) -> Any:
    member = post.member
    loading, section = loading_of(member, setting), section_of(member)
    values = section if is_missing(section) else values_of(member, section, setting.limits)
    tied = member.fastening if member.plies > 1 else "solid"
    absent = missing_of(loading, section, values, member.height, tied)
    if absent is not None or is_missing(loading):
        return absent
    high = inches(member.height)  # type: ignore[arg-type]  # given, or it were absent
    forces = {kind: loading.total(kind) for kind in loading.kinds}
    return [
        _column(section, values, high, member, str(tied), load, factors, forces)
        for load, factors in combinations(loading.kinds)
    ]


def _column(section: Any, values: Any, high: float, member: Member, tied: str, load: str,
            factors: dict[str, float], forces: dict[str, float]) -> ColumnCheck:  # fmt: skip
    column = Column(section, values, high, high, Conditions(load=load, wet=member.wet, incised=member.incised), tied)
    return check_column(column, sum(forces.get(kind, 0.0) * factor for kind, factor in factors.items()))


class PostLimits(NamedTuple):
    smallest: Limit[Length]
    base: Limit[bool]
    cap: Limit[bool]


@rule("framing.post", stage="framing")
def post(post: Post, limit: PostLimits) -> Check:
    """A wood post is at least 4x4, and is connected at its foot and, under a roof or beam, at its top."""
    member = post.member
    thin = when_given(lambda size: Length.parse(f"{min(map(int, size.split('x')))} in") * member.plies, member.size)
    return all_of(
        at_least(thin, limit.smallest, f"nominal {member.label_of_size}"),
        required(member.base_connected, limit.base, "a connector at its foot"),
        required(member.cap_connected, limit.cap, "a connector at its top"),
    )


class HeaderLimits(NamedTuple):
    widest_building: Limit[Length]
    most_snow: Limit[Any]
    most_floors: Limit[int]
    for_case: Limit[Length]
    lumber: Limit[str] = reads("framing.lumber.values")
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@dataclass(frozen=True)
class Header(Fact):
    """A header in a bearing wall, in its house."""

    member: Member
    house: House

    @classmethod
    def found_in(cls, house: House) -> Iterator[Header]:
        """Yield every header."""
        for member in house.subjects(Member):
            if member.role == "header":
                yield cls(member, member, house)

    def row(self, limit: HeaderLimits | StudLimits) -> Any:
        """Return the span and jack studs of the header's row of the tables, or what is missing to find it."""
        case, member = self.member.table_case, self.member
        width, floors, braced = case.building_width, case.floors, case.top_braced
        snow = snow_of(self.house.project, limit.snow)
        absent = missing_of(width, floors, braced, snow, member.size)
        if absent is not None:
            return absent
        section = dressed_section(str(member.size)).built_up(member.plies)
        loads = HeaderLoads(float(snow.n) if snow else 0.0, inches(width) / 12, int(floors))  # type: ignore[arg-type]
        return header_span(section, loads, limit.lumber.value or "current", braced is True)


@rule("framing.header-span")
def header_table(header: Header, limit: HeaderLimits) -> Check:
    """A header in an exterior bearing wall spans no more than the header table of its case gives.

    The tables hold for No.2 lumber of the usual species, up to a width of building and a snow load; beyond, the header
    is engineered. A header drawn with its loads is held against them by calculation instead.
    """
    case = header.member.table_case
    if header.member.bearing_wall is False or (is_missing(case) and header.member.carries):
        return does_not_apply("it is held against its loads by calculation, or carries none")
    if is_missing(case):
        return cited(not_shown(header.member.absent("table case or carries")), limit.for_case)
    return cited(_beyond(header, limit) or _row(header, limit), limit.for_case)


def _beyond(header: Header, limit: HeaderLimits) -> Check | None:
    case, snow = header.member.table_case, snow_of(header.house.project, limit.snow)
    pairs = ((case.building_width, limit.widest_building, "building width"), (snow, limit.most_snow, "ground snow load"),
             (case.floors, limit.most_floors, "floors on the header"))  # fmt: skip
    for value, most, what in pairs:
        if value is not None and not is_missing(value) and most.value is not None and value > most.value:
            return look_at(
                Look.ENGINEER,
                f"{what} of {value} is {value - most.value} beyond the header tables, which end at {most.value}",
            )
    return None


def _row(header: Header, limit: HeaderLimits) -> Check:

    try:
        row = header.row(limit)
    except OUTSIDE as error:
        return look_at(Look.ENGINEER, f"outside the header tables: {error}")
    if not isinstance(row, HeaderSpan):
        return not_shown(row)
    bound = replace(limit.for_case, value=Length.parse("1 in") * row.tabulated_in)
    return at_most(header.member.span, bound).with_work(row.steps)


class StudLimits(NamedTuple):
    jacks: Limit[int]
    kings: Limit[Any]
    widest_building: Limit[Length] = reads("framing.header-span.widest-building")
    most_snow: Limit[Any] = reads("framing.header-span.most-snow")
    most_floors: Limit[int] = reads("framing.header-span.most-floors")
    for_case: Limit[Length] = reads("framing.header-span.for-case")
    lumber: Limit[str] = reads("framing.lumber.values")
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("framing.header-studs", stage="framing")
def header_studs(header: Header, limit: StudLimits) -> Check:
    """Each end of a header stands on enough jack studs, with enough full-height studs beside the opening.

    Jack studs are those of the header's row in the tables; without a row, by its reaction, one at the least.
    """
    return all_of(cited(_jacks(header, limit), limit.jacks), cited(_kings(header.member, limit), limit.kings))


def _jacks(header: Header, limit: StudLimits) -> Check:

    member = header.member
    if is_missing(member.table_case):
        return at_least(member.jack_studs, limit.jacks)
    try:
        row = header.row(limit)
    except OUTSIDE as error:
        return look_at(Look.ENGINEER, f"outside the header tables: {error}")
    if not isinstance(row, HeaderSpan):
        return not_shown(row)
    return at_least(member.jack_studs, replace(limit.jacks, value=row.jack_studs)).with_work(row.steps)


def _kings(member: Member, limit: StudLimits) -> Check:

    table = limit.kings.value
    if table is None:
        return does_not_apply("no number is set")
    if is_missing(member.span):
        return not_shown(member.span)
    rows = sorted((Length.parse(span), count) for span, count in table.items())
    count = next((count for span, count in rows if member.span <= span), None)
    if count is None:
        return look_at(
            Look.ENGINEER,
            f"a header of {member.span} is wider than the table of full-height studs, which ends at {rows[-1][0]}",
        )
    return at_least(member.king_studs, replace(limit.kings, value=count))
