"""Members as drawn in plan, held against what is stated of them: their span, their row, and what they bear on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Any

from precheck import (
    Bearing,
    Check,
    Fact,
    House,
    Length,
    Limit,
    Limits,
    Member,
    Missing,
    NewValue,
    Ratio,
    Stretch,
    Wall,
    all_of,
    apart,
    at_most,
    broken,
    does_not_apply,
    fact,
    from_point,
    is_missing,
    rule,
    unsettled,
)

ENDS = 2
SAME_LINE = Length.parse("1 mm")  # by which a span that was taken from a line may be off it, for rounding


def line_of(part: Member | Wall) -> Stretch | Missing:
    """Return the line of a member or wall in plan; a post is a line without length."""
    if isinstance(part, Member) and part.role == "post":
        start = end = part.at
    else:
        start, end = part.from_, part.to
    if is_missing(start) or is_missing(end):
        return start if is_missing(start) else part.absent("to")
    return Stretch((start[0].n, start[1].n), (end[0].n, end[1].n))


def length_of(line: Stretch) -> Length:
    """Return how long a line is."""
    return from_point(line.start, Stretch(line.end, line.end))


@fact
class Drawn(Fact):
    """A member that is drawn as a line in plan."""

    member: Member
    line: Stretch

    @classmethod
    def found_in(cls, house: House) -> Iterator[Drawn]:
        """Yield every member but posts that has both its ends in plan."""
        for member in house.subjects(Member):
            line = line_of(member)
            if member.role != "post" and not is_missing(line):
                yield cls(member, member, line)


@fact
class DrawnSpan(Fact):
    """A clear span that is stated, and how long it is in plan: by the line of the member, else between its supports.

    `bearings` is what the member may reach on over them.
    """

    member: Member
    span: Length
    length: Length
    bearings: Length
    how: str

    @property
    def by_line(self) -> bool:
        """Whether the member itself is drawn."""
        return not is_missing(line_of(self.member))

    @classmethod
    def found_in(cls, house: House) -> Iterator[DrawnSpan]:
        """Yield the span of every member in plan, or each span between two supports in plan of one whose line is not."""
        for member in house.subjects(Member):
            line = line_of(member)
            if not {"span", "spans"} & member.model_fields_set:
                continue  # it is known by its line alone
            if member.role != "post" and not is_missing(line):
                yield from _along_line(member, length_of(line))
            elif member.role != "post":
                yield from _between_supports(member, house)

    @property
    def beyond(self) -> Length:
        """How far what is drawn is from reaching over the clear span and no farther than its bearings."""
        return max(self.span - self.length, self.length - self.span - self.bearings, Length(0))


def _along_line(member: Member, length: Length) -> Iterator[DrawnSpan]:
    several = len(member.bears_on) > ENDS
    if not is_missing(span := member.length_of_spans) and (member.spans or not several):
        how = f"line of {length} in plan, clear span{'s' if member.spans else ''} {span}"
        yield DrawnSpan(member, member, span, length, _reach_of(member.bears_on), how)


def _between_supports(member: Member, house: House) -> Iterator[DrawnSpan]:
    spans = member.spans or (() if is_missing(member.span) else (member.span,))
    if len(member.bears_on) != len(spans) + 1:
        return
    for span, ends in zip(spans, pairwise(member.bears_on), strict=True):
        one, other = (_bearer(end, house) for end in ends)
        if one is not None and other is not None and _runs_beside(one, other):
            length = apart(one, other)
            how = f"{ends[0].on} and {ends[1].on} lie {length} apart in plan, clear span {span}"
            yield DrawnSpan(member, member, span, length, _reach_of(ends), how)


def _reach_of(ends: Iterable[Bearing]) -> Length:
    return sum((end.length for end in ends if isinstance(end.length, Length)), Length(0))


def _bearer(bearing: Bearing, house: House) -> Stretch | None:
    """Return the line of what an end bears on, where that is drawn."""
    on: Any = None if is_missing(bearing.on) else house.project.by_id.get(bearing.on)
    line = line_of(on) if isinstance(on, Member | Wall) else None
    return line if isinstance(line, Stretch) else None


def _runs_beside(one: Stretch, other: Stretch) -> bool:
    """Return whether two supports are two posts, or two lines that run side by side."""
    if one.start == one.end or other.start == other.end:
        return one.start == one.end and other.start == other.end
    (ax, ay), (bx, by) = one
    (dx, dy), length = (bx - ax, by - ay), (bx - ax) ** 2 + (by - ay) ** 2
    away = [dx * (y - ay) - dy * (x - ax) for x, y in other]
    along = sorted(dx * (x - ax) + dy * (y - ay) for x, y in other)
    return away[0] == away[1] and along[0] < length and along[1] > 0


class SpanLimits(Limits):
    apart: Limit[Length]


@rule("framing.span-agrees", stage="intake", existing="must comply")
def span_agrees(drawn: DrawnSpan, limit: SpanLimits) -> Check:
    """The clear span that is stated agrees with the line of the member in plan, or with the supports that it bears on.

    A line may be drawn from face to face of the supports, from middle to middle, or on to the ends of the member: it
    may be longer than the span by its bearings. One `span` of a member over more than two supports is not looked at, nor
    one that an import took from the line itself.
    """
    if drawn.by_line and abs(drawn.span - drawn.length) <= SAME_LINE and drawn.member.restates("span"):
        return does_not_apply("the span was taken from the line in plan, so the one says nothing for the other")
    return at_most(drawn.beyond, limit.apart, lambda: drawn.how).or_fix(
        lambda: (
            f"make the sheets agree: correct the span of {drawn.span}, or where the member or its supports lie in plan"
        ),
        decide="which sheet is right",
    )


class RowLimits(Limits):
    skew: Limit[Ratio]


@rule("framing.row-agrees", stage="intake", existing="must comply")
def row_agrees(drawn: Drawn, limit: RowLimits) -> Check:
    """A row of members is drawn across its pieces, square to them.

    A row may bear on a wall that runs askew; then its pieces differ in span, and a person should look.
    """
    end, ((ax, ay), (bx, by)) = drawn.member.row_to, drawn.line
    if is_missing(end):
        return does_not_apply(f"{drawn.member.id} is drawn as one piece")
    dx, dy, rx, ry = bx - ax, by - ay, end[0].n - ax, end[1].n - ay
    along, across = Fraction(rx * dx + ry * dy), Fraction(rx * dy - ry * dx)
    if not across:
        why = f"`row to` of {drawn.member.id} lies in the line of its first piece, so the row has no width"
        return unsettled(limit.skew) or broken(why).or_fix("put `row to` where the last piece leaves its first support")
    skew = Ratio(abs(along / across))
    return at_most(skew, limit.skew, "out of square over the width of the row").or_fix(
        "put `row to` square to the first piece, or draw pieces of other spans as members of their own"
    )


@fact
class PlacedEnd(Fact):
    """One end of a member in plan (of a row: of all its pieces), and the line of what it is said to bear on."""

    bearing: Bearing
    end: Stretch
    bearer: Stretch
    single: bool

    @classmethod
    def found_in(cls, house: House) -> Iterator[PlacedEnd]:
        """Yield every end that is drawn, where what it bears on is drawn as well."""
        for member in house.subjects(Member):
            line = line_of(member)
            if is_missing(line) or len(member.bears_on) > ENDS:
                continue
            for index, bearing in enumerate(member.bears_on):
                bearer = _bearer(bearing, house)
                if bearer is not None:
                    end = _reach(member, line[index], line.start)
                    yield cls(bearing, bearing, end, bearer, end.start == end.end)

    @property
    def along(self) -> Length:
        """How far the end lands from the first support of its bearer."""
        (ax, ay), (bx, by) = self.bearer
        (x, y), length = self.end.start, length_of(self.bearer).n
        return Length(abs(Fraction((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length))


def _reach(member: Member, end: tuple[Any, Any], first: tuple[Any, Any]) -> Stretch:
    """Return the line that one end of all pieces of a row makes; of a single member, its end."""
    if is_missing(member.row_to):
        return Stretch(end, end)
    moved = (end[0] + member.row_to[0].n - first[0], end[1] + member.row_to[1].n - first[1])
    return Stretch(end, moved)


class LandingLimits(Limits):
    apart: Limit[Length]
    along: Limit[Length]


@rule("framing.landing-agrees", stage="intake", existing="must comply")
def landing_agrees(landing: PlacedEnd, limit: LandingLimits) -> Check:
    """A member ends in plan where what it is said to bear on is drawn.

    Where `at` says how far from the first support of its bearer an end lands, the plan says the same.
    """
    on = landing.bearing.on
    apart_by = _between(landing.end, landing.bearer)
    close = at_most(apart_by, limit.apart, lambda: f"from the end of the member to {on} in plan").or_fix(
        lambda: f"make the sheets agree: correct what the member bears on, or where it or {on} lies in plan",
        decide="which sheet is right",
    )
    stated = landing.bearing.at
    if is_missing(stated) or not landing.single or not length_of(landing.bearer).n:
        return close
    drawn = landing.along
    how = f"`at` is {stated}, in plan {drawn}"
    same = at_most(abs(stated - drawn), limit.along, how).or_fix(
        "make the sheets agree: correct `at`", lambda: [NewValue(landing.bearing, "at", drawn)]
    )
    return all_of(close, same)


def _between(one: Stretch, other: Stretch) -> Length:
    return Length(0) if _cross(one, other) else apart(one, other)


def _cross(one: Stretch, other: Stretch) -> bool:
    """Return whether two lines cross each other between their ends."""

    def side(line: Stretch, point: tuple[Any, Any]) -> Any:
        (ax, ay), (bx, by) = line
        return (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)

    return bool(side(one, other.start) * side(one, other.end) < 0 and side(other, one.start) * side(other, one.end) < 0)
