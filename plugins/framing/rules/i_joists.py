"""I-joists: held to what their maker's span table is for. What the table is not for is a person's to judge, and never met."""

from __future__ import annotations

from collections.abc import Iterator
from math import fsum

from precheck_plugins.framing.drawn.bending_member import BendingMember
from precheck_plugins.framing.drawn.exposure import exposure_of
from precheck_plugins.framing.drawn.load_cases import combinations
from precheck_plugins.framing.drawn.load_path import loading_of
from precheck_plugins.framing.drawn.loading import Loading
from precheck_plugins.framing.drawn.loads import DEAD
from precheck_plugins.framing.drawn.setting import DesignLimits, inches, psf, setting_in
from precheck_plugins.framing.timber.outside import OutsideMethodError

from precheck import (
    Bearing,
    Check,
    Look,
    MakerData,
    Member,
    SpanTable,
    all_of,
    broken,
    is_missing,
    look_at,
    met,
    missing_of,
    not_shown,
)

TENTH_PSF = 0.05


def held_to_table(bending: BendingMember, limit: DesignLimits) -> Check:
    """Check an I-joist against its maker's span, loads, spacing, spans and bearing."""
    member, maker = bending.member, bending.member.maker
    if not isinstance(maker, MakerData):
        return not_shown(maker)
    table, setting = maker.table, setting_in(bending.house, limit)
    try:
        loading, exposure = loading_of(member, setting), exposure_of(member, setting)
    except OutsideMethodError as error:
        return look_at(Look.ENGINEER, f"outside the manufacturer's table: {error}")
    wanted = (maker.document, maker.longest_span, table.live, table.dead, table.spacing, table.over, table.bearing)
    absent = missing_of(*wanted, loading, exposure, member.spacing)
    if absent is not None or not isinstance(loading, Loading) or is_missing(exposure) or is_missing(table):
        return not_shown(absent) if absent is not None else not_shown(maker.absent("table"))
    beyond = [*_beyond(member, table, loading)]
    if exposure.wet:
        beyond.append("it is in wet service, for which the manufacturer has to be asked")
    spans = _spans(member, maker)
    if spans is not None and beyond:
        return all_of(
            spans, *(look_at(Look.ENGINEER, f"the manufacturer's table does not cover this: {why}") for why in beyond)
        )
    return all_of(*([] if spans is None else [spans]), *(_seat(end, table) for end in member.bears_on))


def _spans(member: Member, maker: MakerData) -> Check | None:
    lengths = member.spans or (member.span,)
    longest = max(lengths, key=lambda span: span.n if not is_missing(span) else 0)
    said = f"span by {maker.document}: {longest}, {maker.longest_span} maximum"
    return met(said) if longest <= maker.longest_span else broken(said)


def _beyond(member: Member, table: SpanTable, loading: Loading) -> Iterator[str]:
    """Yield each way in which the drawings go beyond what the table is for."""
    if member.spacing > table.spacing:
        yield f"spacing of {member.spacing}, and the table is for {table.spacing}"
    if any(piece.is_point or not piece.is_everywhere for piece in loading.pieces):
        yield "a load at a point or on a part of it, and the table is for even loads"
    if loading.overhang_in or loading.first_overhang_in:
        yield "it runs past its bearing"
    several = len(loading.spans_in) > 1
    if several != (table.over == "several spans"):
        yield f"it runs over {'several spans' if several else 'one span'}, and the table is for {table.over}"
    apart = inches(member.spacing) / 12  # type: ignore[arg-type]  # given, or it were told before
    varying = [
        fsum(loading.total(kind) * factor for kind, factor in factors.items() if kind != DEAD)
        for _, factors in combinations(loading.kinds)
    ]
    for what, plf, made_for in (("dead", loading.total(DEAD), table.dead), ("live", max(varying), table.live)):
        if plf / apart > psf(made_for) + TENTH_PSF:
            yield f"{what} load of {plf / apart:.0f} psf, and the table is for {made_for}"


def _seat(end: Bearing, table: SpanTable) -> Check:
    if end.hanger is True:
        return met("it hangs in a hanger")
    if is_missing(end.length):
        return not_shown(end.length)
    said = f"bearing of {end.length}, and the table is for {table.bearing}"
    return met(said) if end.length >= table.bearing else broken(said)
