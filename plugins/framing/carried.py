"""What a member as drawn carries: its own loads, and what the members that bear on it bring.

Loads are kept by kind (dead, live, roof live, snow), because each combination takes them differently. Inches, lb and
plf; a length of the project becomes a float here, once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt
from typing import Any, NamedTuple

from precheck_plugins.framing.steps import Step, given, number

from precheck import (
    Carried,
    Layer,
    Length,
    Limit,
    Limits,
    Member,
    Missing,
    Space,
    first_given,
    is_missing,
    missing_of,
    reads,
    when_given,
)

INCH = Length.parse("1 in")
DEAD, LIVE, ROOF_LIVE, SNOW = "dead", "live", "roof live", "snow"
DRAWN = "as drawn"
ROOF_STEP = 4 / 12
STEEP = 12 / 12
USE_OF_SPACE = {"sleeping room": "sleeping room", "deck": "deck", "porch": "deck", "garage": "garage"}
STAIR_ATTIC = "attic with fixed stair"


class DesignLimits(Limits):
    """Every limit that the design of a member reads. All of them belong to one rule or another by name."""

    lumber: Limit[str] = reads("framing.lumber.values")
    sleeping_room: Limit[Any] = reads("loads.live.sleeping-room")
    other_room: Limit[Any] = reads("loads.live.other-room")
    attic_without_storage: Limit[Any] = reads("loads.live.attic-without-storage")
    attic_with_limited_storage: Limit[Any] = reads("loads.live.attic-with-limited-storage")
    habitable_attic: Limit[Any] = reads("loads.live.habitable-attic")
    attic_with_fixed_stair: Limit[Any] = reads("loads.live.attic-with-fixed-stair")
    stair: Limit[Any] = reads("loads.live.stair")
    deck: Limit[Any] = reads("loads.live.deck")
    garage: Limit[Any] = reads("loads.live.garage")
    flat_roof: Limit[Any] = reads("loads.roof-live.below-4-in-12")
    sloped_roof: Limit[Any] = reads("loads.roof-live.from-4-in-12")
    steep_roof: Limit[Any] = reads("loads.roof-live.from-12-in-12")
    snow: Limit[Any] = reads("criteria.ground-snow-load")
    weights: Limit[Any] = reads("loads.dead.weights")
    used: Limit[Any] = reads("framing.strength.used")
    floor: Limit[int] = reads("framing.deflection.floor")
    ceiling: Limit[int] = reads("framing.deflection.ceiling")
    plaster: Limit[int] = reads("framing.deflection.plaster-ceiling")
    rafter: Limit[int] = reads("framing.deflection.rafter")
    other: Limit[int] = reads("framing.deflection.other")
    tile: Limit[int] = reads("framing.deflection.tile")
    stone: Limit[int] = reads("framing.deflection.stone")
    bearing_wood: Limit[Any] = reads("framing.bearing.on-wood")
    bearing_masonry: Limit[Any] = reads("framing.bearing.on-masonry")
    bearing_load: Limit[Any] = reads("framing.bearing.for-load")
    soil: Limit[Any] = reads("framing.load-path.soil")
    feet: Limit[Any] = reads("framing.load-path.feet")
    made: Limit[Any] = reads("framing.made-product.document")
    tied: Limit[Any] = reads("roof-framing.thrust.tied")


class Piece(NamedTuple):
    """One load of one kind: along the member (plf), or at a point (lb, in from the first support)."""

    kind: str
    amount: float
    at_in: float | None
    step: Step


class Sourced(NamedTuple):
    """A load and where it comes from."""

    value: Any
    source: str


@dataclass(frozen=True)
class Setting:
    """Where the loads of a member are looked up: the project's snow, its spaces, and the limits of the code."""

    project: Any
    limits: DesignLimits

    @property
    def snow(self) -> Any:
        """Ground snow load: as the jurisdiction sets it, else as the drawings state it; None where it sets none."""
        return snow_of(self.project, self.limits.snow)

    def use(self, load: Carried) -> str | Missing:
        """Return what a load is for."""
        return use_of(load, self.project)

    def live(self, load: Carried) -> Sourced:
        """Return the live load to design for: the greater of what is stated and what the code asks for the use.

        A deck is designed for the ground snow where that is more.
        """
        use = self.use(load)
        limit = None if is_missing(use) else getattr(self.limits, use.replace(" ", "_"))
        found = greater(load.live, limit, load.absent("use") if is_missing(load.live) else load.live)
        snow = self.snow
        if use != "deck" or snow is None or is_missing(found.value):
            return found
        return found if not is_missing(snow) and snow <= found.value else Sourced(snow, self.limits.snow.name)


def greater(stated: Any, limit: Limit[Any] | None, otherwise: Any) -> Sourced:
    """Return the greater of a stated load and a limit, with where it comes from; `otherwise` where neither is given."""
    asked = None if limit is None or is_missing(limit.value) else limit.value
    if not is_missing(stated) and (asked is None or stated >= asked):
        return Sourced(stated, DRAWN)
    if asked is None or limit is None:
        return Sourced(otherwise, "")
    return Sourced(asked, f"{limit.name}, {limit.citation}")


def snow_of(project: Any, limit: Limit[Any]) -> Any:
    """Return the ground snow load: as the jurisdiction sets it, else as the drawings state it."""
    stated = project.design_criteria
    return first_given(limit.value, stated if is_missing(stated) else stated.ground_snow_load)


def use_of(load: Carried, project: Any) -> str | Missing:
    """Return what a load is for: an attic that a fixed stair reaches, else as stated, else by its space."""
    space = None if is_missing(load.space) else project.by_id.get(load.space)
    if load.use in ("stair", "roof") or not isinstance(space, Space) or is_missing(space.use):
        return load.use
    if space.use == "attic":
        return STAIR_ATTIC if is_reached(space, project) else load.use
    return first_given(load.use, USE_OF_SPACE.get(space.use, "other room"))


def is_reached(space: Space, project: Any) -> bool:
    """Return whether a fixed stair reaches a space."""
    return any(space.id in stair.between for stair in project.stairs if not stair.is_removed)


def inches(length: Length) -> float:
    """Return a length in inches."""
    return float(length / INCH)


def psf(pressure: Any) -> float:
    """Return a load in psf."""
    return float(pressure.n)


def own_pieces(member: Member, load: Carried, setting: Setting) -> tuple[Piece, ...] | Missing:
    """Return the pieces of one load on a member."""
    spread, alone = _spread(member, load, setting), tuple(_stated(load))
    if is_missing(spread):
        return spread
    if is_missing(load.at) and member.role != "post" and any(piece.step.unit == "lb" for piece in alone):
        return load.at
    return (*spread, *alone)


def _spread(member: Member, load: Carried, setting: Setting) -> tuple[Piece, ...] | Missing:
    if _is_line_or_point_only(load):
        return ()
    width = member.spacing if member.is_repeated else first_given(load.tributary, member.absent("tributary width"))
    loads = [(DEAD, dead_load(member, load, setting)), *_varying(member, load, setting)]
    absent = missing_of(width, *(found.value for _, found in loads))
    if absent is not None or is_missing(width):
        return absent if absent is not None else load.absent("tributary")
    return tuple(_over_width(kind, found, inches(width), setting.use(load)) for kind, found in loads)


def _is_line_or_point_only(load: Carried) -> bool:
    stated = (
        load.dead_per_foot,
        load.live_per_foot,
        load.roof_per_foot,
        load.point_dead,
        load.point_live,
        load.point_roof,
    )
    area = (load.use, load.space, load.live, load.dead)
    return any(not is_missing(s) for s in stated) and all(map(is_missing, area)) and not load.layers


def _varying(member: Member, load: Carried, setting: Setting) -> list[tuple[str, Sourced]]:
    if setting.use(load) != "roof":
        return [(LIVE, setting.live(load))]
    snow = [] if setting.snow is None else [(SNOW, Sourced(setting.snow, setting.limits.snow.name))]
    return [(ROOF_LIVE, _roof_live(member, load, setting)), *snow]


def _roof_live(member: Member, load: Carried, setting: Setting) -> Sourced:
    slope, limits = member.slope, setting.limits
    if is_missing(slope):
        return greater(load.live, None, slope)
    limit = limits.flat_roof if slope.n < ROOF_STEP else limits.steep_roof if slope.n >= STEEP else limits.sloped_roof
    return greater(load.live, limit, load.live)


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
    return Piece(kind, plf, None, Step("w", what, text, plf, "plf", found.source))


def _stated(load: Carried) -> Iterator[Piece]:
    at_in = None if is_missing(load.at) else inches(load.at)
    for kind, per_foot, point in (
        (DEAD, load.dead_per_foot, load.point_dead),
        (LIVE, load.live_per_foot, load.point_live),
        (SNOW, load.roof_per_foot, load.point_roof),
    ):
        if not is_missing(per_foot):
            plf = float(per_foot.n)
            yield Piece(kind, plf, None, given("w", f"{kind} load along the member", plf, "plf", DRAWN))
        if not is_missing(point):
            lb = float(point.n)
            yield Piece(kind, lb, at_in, given("P", f"{kind} load at a point", lb, "lb", DRAWN))
