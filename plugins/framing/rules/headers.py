"""Headers: their spans by the tables, their jack studs and full-height studs."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import ceil
from typing import Any

from precheck_plugins.framing.drawn.bending_member import BendingMember, MemberInHouse
from precheck_plugins.framing.drawn.design import Design
from precheck_plugins.framing.drawn.setting import DesignLimits, inches, snow_of
from precheck_plugins.framing.rules.header_rows import printed_row
from precheck_plugins.framing.tables.headers import JACK_IN, HeaderLoads, header_span
from precheck_plugins.framing.timber.outside import OutsideMethodError
from precheck_plugins.framing.timber.sections import dressed_section

from precheck import (
    Check,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Opening,
    Outcome,
    Pressure,
    Wall,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    fact,
    given,
    is_missing,
    look_at,
    met,
    not_shown,
    reads,
    rule,
    wall_of,
    when_given,
)


class HeaderLimits(Limits):
    maximum_building_width: Limit[Length]
    maximum_snow: Limit[Any]
    maximum_floors: Limit[int]
    for_case: Limit[Any]
    spans: Limit[Any]
    jacks_in_the_row: Limit[Any]
    lumber: Limit[str] = reads("framing.lumber.values")
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@fact
class Header(MemberInHouse):
    """A header in a bearing wall, in its house."""

    roles = frozenset(("header",))

    def row(self, limit: HeaderLimits | StudLimits) -> Any:
        """Return the span and jack studs of the header's row of the tables, or what is missing to find it."""
        case, member = self.member.table_case, self.member
        snow = snow_of(self.house.project, limit.snow)
        found = given(case.building_width, case.floors, snow, member.size)
        if is_missing(found):
            return found
        width, floors, snow, size = found
        if limit.spans.value is not None:
            row = (member.label_of_size, int(floors))
            return printed_row(limit.spans, limit.jacks_in_the_row, row, snow or Pressure(0), width)
        if is_missing(case.top_braced):
            return case.top_braced
        section = dressed_section(size).built_up(member.plies)
        loads = HeaderLoads(float(snow.n) if snow else 0.0, inches(width) / 12, int(floors))
        return header_span(section, loads, limit.lumber.value or "current", case.top_braced)


@rule("framing.header-span")
def header_table(header: Header, limit: HeaderLimits) -> Check:
    """A header in an exterior bearing wall spans no more than the header table of its case gives.

    The tables hold for No.2 lumber of the usual species, up to a width of building and a snow load; beyond, the header
    is engineered, as is one that a beam, a post or more floors land on. A header drawn with its loads is held against them
    by calculation instead.
    """
    case = header.member.table_case
    if header.member.bearing_wall is False or (is_missing(case) and header.member.carries):
        return does_not_apply("it is held against its loads by calculation, or carries none")
    if is_missing(case):
        return not_shown(header.member.absent("table case or carries")).citing(limit.for_case)
    return (_beyond(header, limit) or _row(header, limit)).citing(limit.for_case)


def _beyond(header: Header, limit: HeaderLimits) -> Check | None:
    case, snow = header.member.table_case, snow_of(header.house.project, limit.snow)
    pairs = ((case.building_width, limit.maximum_building_width, "building width"), (snow, limit.maximum_snow, "ground snow load"),
             (case.floors, limit.maximum_floors, "floors on the header"))  # fmt: skip
    for value, most, what in pairs:
        if value is not None and not is_missing(value) and most.value is not None and value > most.value:
            return look_at(
                Look.ENGINEER,
                f"{what} of {value} is {value - most.value} beyond the header tables, which end at {most.value}",
            )
    return _landed_on(header)


def _landed_on(header: Header) -> Check | None:
    """Return that members land on a header that its row of the tables does not count: single ones, or more floors."""
    members = header.house.project.members
    landing = [m for m in members if not m.is_removed and any(end.on == header.member.id for end in m.bears_on)]
    floors, case = [m for m in landing if m.role == "floor joist"], header.member.table_case
    uncounted = [m for m in landing if not m.is_repeated or m.role == "deck joist"]
    if not is_missing(case.floors) and len(floors) > case.floors:
        uncounted += floors
    if not uncounted:
        return None
    told = f"{uncounted[0].label} lands on it, which its row of the header tables does not count"
    return look_at(Look.ENGINEER, f"{told}; draw all its loads in place of the table case")


def _tabulated(header: Header, limit: HeaderLimits | StudLimits) -> Any:
    """Return the row of a header in the tables, or the check where it has none there or does not say which."""
    try:
        row = header.row(limit)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the header tables: {error}")
    return not_shown(row) if is_missing(row) else row


def _row(header: Header, limit: HeaderLimits) -> Check:
    row = _tabulated(header, limit)
    if isinstance(row, Check):
        return row
    bound = replace(limit.for_case, value=Length.parse("1 in") * Fraction(row.tabulated_in))
    return at_most(header.member.span, bound).with_work(row.steps)


class StudLimits(DesignLimits):
    jacks: Limit[int]
    kings: Limit[Any]
    kings_beside_wide_studs: Limit[Any]
    wide_studs: Limit[Any]
    kings_in_less_wind: Limit[Any]
    less_wind: Limit[Any]
    wind: Limit[Any] = reads("criteria.ultimate-wind-speed")
    exposure: Limit[Any] = reads("criteria.wind-exposure")
    widest_building: Limit[Length] = reads("framing.header-span.maximum-building-width")
    most_snow: Limit[Any] = reads("framing.header-span.maximum-snow")
    most_floors: Limit[int] = reads("framing.header-span.maximum-floors")
    for_case: Limit[Any] = reads("framing.header-span.for-case")
    spans: Limit[Any] = reads("framing.header-span.spans")
    jacks_in_the_row: Limit[Any] = reads("framing.header-span.jacks-in-the-row")


@rule("framing.header-studs", stage="framing")
def header_studs(header: Header, limit: StudLimits) -> Check:
    """Each end of a header stands on enough jack studs, with enough full-height studs beside the opening.

    Jack studs are those of the header's row in the tables; without a row, by its reaction, one at the least. A header in a
    concrete or masonry wall bears on that, and has neither.
    """
    if _bears_on_masonry(header):
        return does_not_apply("both its ends bear on concrete or masonry")
    return all_of(_on_anchors(header, _jacks(header, limit), limit), _full_height(header, limit))


def _bears_on_masonry(header: Header) -> bool:
    ends = header.member.bears_on
    return len(ends) > 1 and all(
        end.onto == "foundation wall" or end.material in ("concrete", "masonry") for end in ends
    )


def _on_anchors(header: Header, jacks: Check, limit: StudLimits) -> Check:
    """Return the check of jack studs, or that framing anchors stand for the single one that would do."""
    single = any(leaf.bound is not None and leaf.bound.value == 1 for leaf in jacks.leaves())
    if single and header.member.framing_anchors is True:
        return met("framing anchors stand for its single jack studs").citing(limit.jacks)
    return jacks.citing(limit.jacks)


def _full_height(header: Header, limit: StudLimits) -> Check:
    """Check the full-height studs, of which fewer do between wide studs, or in little wind behind woods and buildings."""
    usual = _kings(header.member, limit.kings)
    if usual.outcome is not Outcome.FAIL:
        return usual
    if None not in (limit.kings_beside_wide_studs.value, limit.wide_studs.value):
        wide = when_given(lambda apart: apart >= limit.wide_studs.value, _stud_spacing(header))
        return decide(wide, _kings(header.member, limit.kings_beside_wide_studs), usual)
    if limit.kings_in_less_wind.value is None:
        return usual
    wind = header.house.criterion(limit.wind.value, "ultimate_wind_speed")
    exposure = header.house.criterion(limit.exposure.value, "wind_exposure")
    little = when_given(lambda speed, place: speed <= limit.less_wind.value and str(place) == "B", wind, exposure)
    return decide(little, _kings(header.member, limit.kings_in_less_wind), usual)


def _stud_spacing(header: Header) -> Any:
    """Return the spacing of the studs of the wall that a header is in, as it says or as its openings do."""
    parts, member = header.house.project.by_id, header.member
    openings = [part for part in map(parts.get, member.openings) if isinstance(part, Opening)]
    named = [] if is_missing(member.wall) else [parts.get(member.wall)]
    walls = [wall for wall in (*named, *(wall_of(one, header.house) for one in openings)) if isinstance(wall, Wall)]
    if not walls:
        return member.absent("wall (whose stud spacing decides)")
    framing = walls[0].framing
    return framing if is_missing(framing) else framing.spacing


def _jacks(header: Header, limit: StudLimits) -> Check:
    member = header.member
    if is_missing(member.table_case):
        least = all_of(at_least(member.jack_studs, limit.jacks), does_not_apply("row of the tables: not stated"))
        return _jacks_for_reaction(header, limit) if member.carries else least
    row = _tabulated(header, limit)
    if isinstance(row, Check):
        return row
    return at_least(member.jack_studs, replace(limit.jacks, value=row.jack_studs)).with_work(row.steps)


def _jacks_for_reaction(header: Header, limit: StudLimits) -> Check:
    """Return the check of jack studs that give the header the bearing that its reaction needs; one at the least."""

    def enough(design: Design) -> Check:
        needed = max(ceil(design.bearing_in(support) / JACK_IN - 1e-9) for support in range(design.loading.supports))
        bound = replace(limit.jacks, value=max(needed, limit.jacks.value or 0))
        return at_least(header.member.jack_studs, bound, "for the bearing of its reaction").with_work(
            lambda: design.steps(design.cases[-1])
        )

    return BendingMember(header.member, header.member, header.house).designed(limit, enough)


def _kings(member: Member, limit: Limit[Any]) -> Check:
    table = limit.value
    if table is None:
        return does_not_apply("no number is set").citing(limit)
    if is_missing(member.span):
        return not_shown(member.span).citing(limit)
    rows = sorted((Length.parse(span), count) for span, count in table.items())
    count = next((count for span, count in rows if member.span <= span), None)
    if count is None:
        return look_at(
            Look.ENGINEER,
            f"a header of {member.span} is wider than the table of full-height studs, which ends at {rows[-1][0]}",
        ).citing(limit)
    return at_least(member.king_studs, replace(limit, value=count))
