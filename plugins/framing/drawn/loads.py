"""What a member as drawn carries: its own loads, and what the members that bear on it bring.

Loads are kept by kind (dead, live, roof live, snow), because each combination takes them differently. Inches, lb and
plf.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt
from typing import Any, NamedTuple

from precheck_plugins.framing.drawn.setting import DRAWN, ROOF_STEP, STEEP, Setting, Sourced, greater, inches, psf
from precheck_plugins.framing.timber.steps import Step, given, number

from precheck import Carried, Layer, Limit, Member, Missing, first_given, is_missing, missing_of, when_given

DEAD, LIVE, ROOF_LIVE, SNOW = "dead", "live", "roof live", "snow"


class Piece(NamedTuple):
    """One load of one kind: along the member (plf), or at a point (lb); places in inches from the first support.

    What is spread lies on all of the member, or from `at_in` to `to_in`. `least` is what the same load may be elsewhere at
    the same time, below zero where a member above lifts.
    """

    kind: str
    amount: float
    step: Step
    at_in: float | None = None
    to_in: float | None = None
    least: float = 0.0

    @property
    def is_point(self) -> bool:
        """Whether it acts at a point."""
        return self.step.unit == "lb"

    @property
    def is_everywhere(self) -> bool:
        """Whether it is spread evenly over all of the member."""
        return not self.is_point and self.at_in is None and self.to_in is None


def own_pieces(member: Member, load: Carried, setting: Setting) -> tuple[Piece, ...] | Missing:
    """Return the pieces of one load on a member."""
    spread, alone = _spread(member, load, setting), tuple(_stated(load))
    if is_missing(spread):
        return spread
    if (dead := _dead_not_told(load)) is not None:
        return dead
    if is_missing(load.at) and member.role != "post" and any(piece.is_point for piece in alone):
        return load.at
    start, end = (None if is_missing(place) else inches(place) for place in (load.from_, load.to))
    return tuple(p if p.is_point else p._replace(at_in=start, to_in=end) for p in (*spread, *alone))


def _dead_not_told(load: Carried) -> Missing | None:
    """Return the dead load that is not told beside a live or roof load: what floor or roof brings the one weighs too."""
    for dead, varying in (
        (load.dead_per_foot, (load.live_per_foot, load.roof_per_foot)),
        (load.point_dead, (load.point_live, load.point_roof)),
    ):
        if is_missing(dead) and not all(map(is_missing, varying)):
            return dead
    return None


def _spread(member: Member, load: Carried, setting: Setting) -> tuple[Piece, ...] | Missing:
    if load.is_by_foot_or_point:
        return ()
    width = member.spacing if member.is_repeated else first_given(load.tributary, member.absent("tributary width"))
    loads = [(DEAD, dead_load(member, load, setting)), *_varying(member, load, setting)]
    absent = missing_of(width, *(found.value for _, found in loads))
    if absent is not None or is_missing(width):
        return absent if absent is not None else load.absent("tributary")
    return tuple(_over_width(kind, found, inches(width), setting.use(load)) for kind, found in loads)


def _varying(member: Member, load: Carried, setting: Setting) -> list[tuple[str, Sourced]]:
    if setting.use(load) != "roof":
        return [(LIVE, setting.live(load))]
    snow = [] if setting.snow is None else [(SNOW, Sourced(setting.snow, setting.limits.snow.name))]
    return [(ROOF_LIVE, _roof_live(member, load, setting)), *snow]


def _roof_live(member: Member, load: Carried, setting: Setting) -> Sourced:
    slope, limits = member.slope, setting.limits
    if is_missing(slope):
        return greater(load.live, _of_any_slope(setting), slope)
    limit = limits.flat_roof if slope.n < ROOF_STEP else limits.steep_roof if slope.n >= STEEP else limits.sloped_roof
    return greater(load.live, limit, load.live)


def _of_any_slope(setting: Setting) -> Limit[Any] | None:
    """Return the roof live load of a flat roof, the most that any slope asks, where the snow is no less so that it governs."""
    flat, snow = setting.limits.flat_roof, setting.snow
    known = snow is not None and not is_missing(snow) and flat.value is not None and not is_missing(flat.value)
    return flat if known and snow >= flat.value else None


def dead_load(member: Member, load: Carried, setting: Setting) -> Sourced:
    """Return the dead load: as stated or as its layers weigh, whichever is more; psf on the horizontal."""
    if not load.layers:
        return Sourced(load.dead, DRAWN)
    weight = weight_of(load.layers, setting.limits.weights.value or {})
    if setting.use(load) == "roof":
        weight = when_given(lambda psf, slope: psf * sqrt(1 + float(slope.n) ** 2), weight, member.slope)
    if is_missing(load.dead):
        return Sourced(weight, f"weights of its layers, {setting.limits.weights.name}")
    if is_missing(weight) or psf(load.dead) >= weight:
        return Sourced(load.dead, DRAWN)
    return Sourced(weight, f"weights of its layers, {setting.limits.weights.name}")


def weight_of(layers: tuple[Layer, ...], weights: Any) -> float | Missing:
    """Return the weight of `layers`, psf, by the weight of each material for an inch of thickness."""
    total = 0.0
    for layer in layers:
        known = next((weights[name] for name in sorted(weights, key=len, reverse=True) if name in layer.material), None)
        if known is None:
            return layer.absent(f"weight of {layer.material}, by a `dead` load instead of its layers")
        if is_missing(layer.thickness):
            return layer.thickness
        total += psf(known) * inches(layer.thickness)
    return total


def _over_width(kind: str, found: Sourced, width_in: float, use: Any) -> Piece:
    load_psf = found.value if isinstance(found.value, float) else psf(found.value)
    plf = load_psf * width_in / 12
    text = f"{number(load_psf)} * {number(width_in)} / 12"
    what = f"{kind} load{'' if is_missing(use) else f' of {use}'}, psf over the width it comes from"
    return Piece(kind, plf, Step("w", what, text, plf, "plf", found.source))


def _stated(load: Carried) -> Iterator[Piece]:
    at_in = None if is_missing(load.at) else inches(load.at)
    for kind, per_foot, point in (
        (DEAD, load.dead_per_foot, load.point_dead),
        (LIVE, load.live_per_foot, load.point_live),
        (SNOW, load.roof_per_foot, load.point_roof),
    ):
        if not is_missing(per_foot):
            plf = float(per_foot.n)
            yield Piece(kind, plf, given("w", f"{kind} load along the member", plf, "plf", DRAWN))
        if not is_missing(point):
            lb = float(point.n)
            yield Piece(kind, lb, given("P", f"{kind} load at a point", lb, "lb", DRAWN), at_in)
