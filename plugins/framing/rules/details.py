"""Details of floors and roofs: cantilevers, laps, lateral support, framed openings, panels, sisters and trusses."""

from __future__ import annotations

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.rules.cuts import part_of_depth
from precheck_plugins.framing.rules.trusses import LoadedTruss

from precheck import (
    Check,
    FramedOpening,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    Missing,
    Ratio,
    Sister,
    agrees,
    all_of,
    at_least,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    reads,
    required,
    rule,
    when_given,
)

ENDS = Length.parse("6 in")  # between the faces of the trimmers and the middles of the bearings, with some to spare
JOISTS = ("floor joist", "ceiling joist", "rafter", "deck joist")


class CantileverLimits(Limits):
    parts_of_depth: Limit[Ratio]


@rule("framing.cantilever")
def cantilever(bending: BendingMember, limit: CantileverLimits) -> Check:
    """A floor joist runs past its bearing no farther than its nominal depth; farther needs the tables or a design."""
    member, most = bending.member, limit.parts_of_depth
    if member.role != "floor joist" or is_missing(member.overhang) or most.value is None:
        return does_not_apply("no floor joist is drawn with an overhang")
    deep = when_given(lambda size: Length.parse(f"{size.split('x')[1]} in"), member.size)
    if is_missing(deep):
        return not_shown(deep)
    if member.overhang <= deep * most.value.n:
        return at_most(member.overhang, part_of_depth(most, deep), f"{member.size}, nominal depth {deep}")
    over = member.overhang - deep * most.value.n
    return look_at(
        Look.ENGINEER, f"an overhang of {member.overhang} is {over} beyond the nominal depth of a {member.size}"
    )


class LapLimits(Limits):
    minimum: Limit[Length]


@rule("framing.lap", stage="framing")
def lap(member: Member, limit: LapLimits) -> Check:
    """Joists that meet over a bearing lap each other far enough, where they are drawn to lap."""
    if member.role not in JOISTS or is_missing(member.lap):
        return does_not_apply("it is not drawn to lap another joist")
    return at_least(member.lap, limit.minimum)


class LateralLimits(Limits):
    ends_blocked: Limit[bool]
    deck_ends_held: Limit[bool]
    ends_from: Limit[int]
    bridging_from: Limit[int]
    bridging_apart: Limit[Length]


@rule("framing.lateral-support", stage="framing")
def lateral_support(member: Member, limit: LateralLimits) -> Check:
    """Joist ends are kept from rolling, and deep joists are bridged or blocked along their length.

    How deep for its thickness a joist is goes by nominal sizes. Made products follow their maker.
    """
    if member.role not in JOISTS or not is_missing(member.maker):
        return does_not_apply("it is no sawn joist or rafter")
    shape = when_given(_depth_to_thickness, member.size)
    floor = member.role in ("floor joist", "deck joist")
    ends = decide(
        floor or when_given(lambda part: part > (limit.ends_from.value or 0), shape),
        required(
            member.ends_blocked,
            limit.deck_ends_held if member.role == "deck joist" else limit.ends_blocked,
            "by blocking, a rim or hangers",
        ),
        does_not_apply("it is shallow for its thickness"),
    )
    bridged = decide(
        when_given(lambda part: limit.bridging_from.value is not None and part > limit.bridging_from.value, shape),
        at_most(member.bridging_spacing, limit.bridging_apart),
        does_not_apply("it is shallow for its thickness"),
    )
    return all_of(ends, bridged)


def _depth_to_thickness(size: str) -> float:
    thick, deep = map(int, size.split("x"))
    return deep / thick


class OpeningLimits(Limits):
    single_header: Limit[Length]
    single_trimmer: Limit[Length]
    hangers_over: Limit[Length]
    tails_over: Limit[Length]
    plies: Limit[int]
    hangers: Limit[bool]
    anchored: Limit[bool]


@rule("framing.opening", stage="framing")
def opening(opening: FramedOpening, limit: OpeningLimits) -> Check:
    """An opening framed through joists has doubled headers and trimmers where it is wide, and hangers where it must."""
    span = opening.header_reach
    if is_missing(span):
        return not_shown(span)
    wide = _over(span, limit.single_header)
    near = when_given(
        lambda away: limit.single_trimmer.value is not None and away <= limit.single_trimmer.value, opening.from_bearing
    )
    doubled = at_least(opening.trimmer_plies, limit.plies)
    trimmers = doubled if wide else decide(near, met("a single trimmer near its bearing will do"), doubled)
    checks = [trimmers]
    if wide:
        checks.append(at_least(opening.header_plies, limit.plies))
    if opening.through == "floor":
        return all_of(*checks)  # the text for floors asks for no hangers, and has the header carry the joists
    if _over(span, limit.hangers_over):
        checks.append(required(opening.header_hangers, limit.hangers))
    return all_of(*checks, _tails(opening, limit))


class CarriedLimits(Limits):
    drawn: Limit[bool]
    single_header: Limit[Length] = reads("framing.opening.single-header")


@rule("framing.opening-members")
def opening_members(opening: FramedOpening, limit: CarriedLimits, house: House) -> Check:
    """The headers and trimmers of a wide opening are drawn as members, so that their strength is checked as such.

    Doubling them is not enough: they must have the section for the joists that are cut off at the opening. A member that
    spans less than the header of the opening is not that header.
    """
    span = opening.header_reach
    if is_missing(span):
        return not_shown(span)
    if not _over(span, limit.single_header):
        return does_not_apply("it is no wider than single members go")
    header = True if not is_missing(opening.header) else opening.header
    trimmers = True if opening.trimmers else opening.absent("trimmers")
    return all_of(
        required(header, limit.drawn, "header drawn as a member"),
        required(trimmers, limit.drawn, "trimmers drawn as members"),
        *_too_short(opening, house),
    )


def _too_short(opening: FramedOpening, house: House) -> list[Check]:
    """Return that the header as drawn is shorter than the opening says, where both are given."""
    header = None if is_missing(opening.header) else house.project.by_id.get(opening.header)
    if not isinstance(header, Member) or is_missing(header.span) or is_missing(opening.header_reach):
        return []
    reaches = header.span + ENDS >= opening.header_reach
    return [] if reaches else [agrees(opening.header_reach, header.span, f"the span of {header.label}", ENDS)]


def _tails(opening: FramedOpening, limit: OpeningLimits) -> Check:
    long = when_given(lambda tail: _over(tail, limit.tails_over), opening.tail_length)
    anchors = required(opening.tail_anchored, limit.anchored)
    return decide(long, anchors, does_not_apply("its tail joists are short"))


def _over(length: Length, limit: Limit[Length]) -> bool:
    return limit.value is not None and length > limit.value


class SisterLimits(Limits):
    full_length: Limit[bool]
    fasteners_apart: Limit[Length]


@rule("framing.sister", stage="framing")
def sister(sister: Sister, limit: SisterLimits) -> Check:
    """A member fixed along another one runs from bearing to bearing and is fastened closely: good practice."""
    if sister.full_length is False:
        return look_at(
            Look.ENGINEER,
            "a sister that stops short of the bearings stiffens the middle, and adds no strength at its ends",
        )
    return all_of(
        required(sister.full_length, limit.full_length), at_most(sister.fastener_spacing, limit.fasteners_apart)
    )


class TrussLimits(Limits):
    drawings: Limit[bool]
    approved: Limit[bool]


@rule("framing.truss")
def truss(loaded: LoadedTruss, limit: TrussLimits) -> Check:
    """Trusses come with their drawings, and are not cut or loaded with more than they were made for without approval.

    A floor for storage hung on trusses is such a load. New ones are made for what they carry, and are cut only where the
    plans say so.
    """
    truss = loaded.truss
    parts = (truss.cut, truss.load_added)
    changed = any(part is True for part in parts) if truss.phase == "new" else _either(*parts)
    stays = truss.phase == "existing"
    papers = does_not_apply("they stand") if stays else required(truss.drawings, limit.drawings)
    approved = required(truss.approved, limit.approved)
    whole = "cut on site: not stated" if is_missing(truss.cut) else "they are neither cut nor loaded anew"
    return all_of(papers, decide(changed, approved, does_not_apply(whole)))


def _either(one: bool | Missing, other: bool | Missing) -> bool | Missing:
    if one is True or other is True:
        return True
    return when_given(lambda a, b: a or b, one, other)
