"""Panels on joists and rafters: their rating for the spacing, and under snow."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from precheck_plugins.framing.drawn.setting import snow_of

from precheck import (
    Check,
    House,
    Length,
    Limit,
    Limits,
    Look,
    Member,
    all_of,
    at_most,
    decide,
    does_not_apply,
    is_missing,
    look_at,
    met,
    not_shown,
    reads,
    rule,
)


class PanelLimits(Limits):
    floor_spans: Limit[Any]
    roof_spans: Limit[Any]
    roof_spans_edges_free: Limit[Any]
    roof_live: Limit[Mapping[str, Any]]
    snow: Limit[Any] = reads("criteria.ground-snow-load")


@rule("framing.panels", stage="framing")
def panels(member: Member, limit: PanelLimits, house: House) -> Check:
    """Panels on joists and rafters are rated for their spacing: the roof by whether the edges of panels are held.

    On a roof they also carry the snow: the live load of the table, which is for the longest span of the rating, and more on
    shorter ones by the square of the span.
    """
    sheathing = member.sheathing
    if is_missing(sheathing):
        return does_not_apply("no panels are drawn on it")
    rating = sheathing.rating
    if is_missing(rating):
        return not_shown(rating)
    if member.role != "rafter":
        return _rated(member, rating, limit.floor_spans)
    spaced = decide(
        sheathing.edges_supported,
        _rated(member, rating, limit.roof_spans),
        _rated(member, rating, limit.roof_spans_edges_free),
    )
    return all_of(spaced, _under_snow(member, rating, limit, house))


def _rated(member: Member, rating: str, limit: Limit[Any]) -> Check:
    if limit.value is None or rating not in limit.value:
        known = ", ".join(limit.value or ())
        return not_shown(member.absent(f"a span rating of its panels that is listed ({known}), not {rating}"))
    return at_most(member.spacing, replace(limit, value=limit.value[rating]), f"rated {rating}")


def _under_snow(member: Member, rating: str, limit: PanelLimits, house: House) -> Check:
    snow, apart = snow_of(house.project, limit.snow), member.spacing
    table, spans = limit.roof_live.value or {}, limit.roof_spans.value or {}
    if snow is None or rating not in table or rating not in spans or is_missing(apart):
        return does_not_apply("no snow is set, or the span of its panels is not known")
    if is_missing(snow):
        return not_shown(snow)
    carried = table[rating] * Fraction(max(spans[rating] / Length(apart.n), 1)) ** 2
    if snow <= carried:
        return met(f"rated {rating}, which carries snow of {snow} at {apart}")
    told = f"snow of {snow} on panels rated {rating}, which the table has carry {float(carried.n):.0f} psf at {apart}"
    return look_at(Look.ENGINEER, told).citing(limit.roof_live)
