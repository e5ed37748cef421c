"""Where the loads of a member are looked up: the project's snow, its spaces, and the limits of the code.

A length or load of the project becomes a float here, once: inches, psf.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field
from typing import Any, NamedTuple, TypeVar

from precheck import (
    Carried,
    House,
    Length,
    Limit,
    Limits,
    Member,
    Missing,
    Space,
    first_given,
    fixed,
    is_missing,
    reads,
)

T = TypeVar("T")
INCH = Length.parse("1 in")
DRAWN = "as drawn"
ROOF_STEP = 4 / 12
STEEP = 12 / 12
USE_OF_SPACE = {"bedroom": "bedroom", "deck": "deck", "porch": "deck", "garage": "garage"}
STAIR_ATTIC = "attic with fixed stair"


class DesignLimits(Limits):
    """Every limit that the design of a member reads. All of them belong to one rule or another by name."""

    lumber: Limit[str] = reads("framing.lumber.values")
    bedroom: Limit[Any] = reads("loads.live.bedroom")
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
    rafter_slope: Limit[Any] = reads("framing.deflection.rafter-slope")
    veneer: Limit[int] = reads("framing.deflection.veneer")
    other: Limit[int] = reads("framing.deflection.other")
    tile: Limit[int] = reads("framing.deflection.tile")
    stone: Limit[int] = reads("framing.deflection.stone")
    bearing_wood: Limit[Any] = reads("framing.bearing.on-wood")
    bearing_masonry: Limit[Any] = reads("framing.bearing.on-masonry")
    bearing_load: Limit[Any] = reads("framing.bearing.for-load")
    leans_from: Limit[Any] = reads("framing.bearing.leans-from")
    soil: Limit[Any] = reads("framing.load-path.soil")
    support: Limit[Any] = reads("framing.load-path.support")
    made: Limit[Any] = reads("framing.made-product.document")
    tied: Limit[Any] = reads("roof-framing.thrust.tied")


class Sourced(NamedTuple):
    """A load and where it comes from."""

    value: Any
    source: str


@fixed
class Setting:
    """Where the loads of a member are looked up: the project's snow, its spaces, and the limits of the code."""

    project: Any
    limits: DesignLimits
    kept: dict[Any, Any] = field(default_factory=dict, compare=False)

    def once(self, work_out: Callable[..., T], member: Member, *above: tuple[str, ...]) -> T:
        """Return ``work_out(member, self, *above)``, worked out at the first time that it is asked for.

        The members `above` that ask make no difference to what is found: they tell a circle, which is raised.
        """
        if (work_out, member) not in self.kept:
            self.kept[work_out, member] = work_out(member, self, *above)
        found: T = self.kept[work_out, member]
        return found

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


def setting_in(house: House, limits: DesignLimits) -> Setting:
    """Return where the loads of the members of a house are looked up under these limits, the same each time."""
    return house.once(_setting, limits)


def _setting(limits: DesignLimits, house: House) -> Setting:
    same = tuple(id(getattr(limits, name)) for name in DesignLimits._fields)  # which the house keeps with `limits`
    return Setting(house.project, limits, house.once(_kept, same))


def _kept(_: tuple[int, ...], __: House) -> dict[Any, Any]:
    """Return what is worked out under the same limits of a design, whatever else a rule reads."""
    return {}


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
    return float(length.n / INCH.n)


def psf(pressure: Any) -> float:
    """Return a load in psf."""
    return float(pressure.n)
