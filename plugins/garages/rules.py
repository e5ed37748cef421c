"""Garages and carports: what the floor is made of, vehicle door operators, return air, how high sides are closed."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import (
    Check,
    Door,
    Duct,
    Fact,
    Floor,
    House,
    Length,
    Limit,
    Limits,
    Missing,
    NewValue,
    Space,
    Wall,
    at_most,
    decide,
    does_not_apply,
    fact,
    if_stated,
    is_missing,
    one_of,
    required,
    rule,
    when_given,
)

COVERS = (" on ", " over ")  # what lies on a floor is its surface: `vinyl over concrete` is a floor of vinyl


@fact
class VehicleFloor(Fact):
    """A space and its floor: what lies on it is judged anew where the work changes the floor."""

    space: Space
    floor: Floor | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[VehicleFloor]:
        """Yield every space, so that it is told of those that are no garage."""
        yield from (cls(space, space, house.floor(space)) for space in house.subjects(Space))


@fact
class DuctIn(Fact):
    """A duct and the space that it is in: an old one is judged anew where that becomes a garage."""

    duct: Duct
    space: Space | None

    @classmethod
    def found_in(cls, house: House) -> Iterator[DuctIn]:
        """Yield every duct."""
        yield from (cls(duct, duct, house.space(duct.space)) for duct in house.subjects(Duct))


class SurfaceLimits(Limits):
    materials: Limit[tuple[str, ...]]
    carport_at_ground: Limit[tuple[str, ...]]


@rule("garages.floor-surface", stage="foundation")
def floor_surface(laid: VehicleFloor, limit: SurfaceLimits, house: House) -> Check:
    """The floor of a garage or carport does not burn; asphalt will do for a carport on the ground."""
    space = laid.space
    if not space.is_vehicle:
        return does_not_apply("not a garage or carport")
    ordinary = one_of(named(space.floor_surface, limit.materials), limit.materials).or_fix(
        "make the floor surface concrete, masonry or another material that does not burn",
        lambda: [NewValue(space, "floor_surface", "concrete")],
    )
    also = one_of(named(space.floor_surface, limit.carport_at_ground), limit.carport_at_ground)
    if space.use != "carport" or ordinary.outcome >= also.outcome or limit.carport_at_ground.value is None:
        return ordinary
    return decide(on_ground(space, house), also, ordinary)


def named(surface: str | Missing, materials: Limit[tuple[str, ...]]) -> str | Missing:
    """Return the listed material that `surface` is, as in ``4 in concrete``, or the surface as written."""
    if is_missing(surface):
        return surface
    text = surface.lower()
    top = min((text.partition(cover)[0] for cover in COVERS), key=len)
    return next((m for m in materials.value or () if top == m or top.endswith(f" {m}")), surface)


def on_ground(space: Space, house: House) -> bool | Missing:
    """Return whether the floor of `space` lies on the ground."""
    floor = house.floor(space)
    if floor is not None and not is_missing(floor.base):
        return bool(floor.base == "slab")
    level = house.story_level(space)
    return when_given(lambda story: story == "ground", level)


class OperatorLimits(Limits):
    listed: Limit[bool]


@rule("garages.door-operator", stage="final")
def door_operator(door: Door, limit: OperatorLimits) -> Check:
    """A powered vehicle door has a listed operator, which stops and reverses when something is in the way.

    Its label is looked at in the field; the plans need not say it.
    """
    if door.operation != "vehicle":
        return does_not_apply("not a vehicle door")
    if door.operator is False:
        return does_not_apply("the vehicle door is not powered")
    return if_stated(door.operator_listed, required, limit.listed)


class ReturnLimits(Limits):
    openings: Limit[int]


@rule("garages.return-air", stage="rough-in")
def return_air(found: DuctIn, limit: ReturnLimits) -> Check:
    """The air system of the house takes no return air from a garage."""
    duct, space = found.duct, found.space
    if space is None or space.use != "garage":
        return does_not_apply("not in a garage")
    taken = when_given(lambda opens: int(opens), duct.opens_into_garage)
    returns = when_given(lambda air: air == "return air", duct.carries)
    none = at_most(taken, limit.openings).or_fix(
        "close the return in the garage and take the air from the house",
        lambda: [NewValue(duct, "opens_into_garage", "no")],
    )
    closed = duct.opens_into_garage is False
    return none if closed else decide(returns, none, does_not_apply("this duct carries no return air"))


@fact
class WalledSpace(Fact):
    """A space and the walls around it: how high the sides of an old carport are closed is judged anew where one is new."""

    space: Space
    walls: tuple[Wall, ...]

    @classmethod
    def found_in(cls, house: House) -> Iterator[WalledSpace]:
        """Yield every space."""
        walls = [wall for wall in house.subjects(Wall) if not wall.is_removed]
        for space in house.subjects(Space):
            yield cls(space, space, tuple(wall for wall in walls if space.id in wall.between))


class SideLimits(Limits):
    maximum: Limit[Length]


@rule("garages.carport-sides", stage="plan")
def carport_sides(walled: WalledSpace, limit: SideLimits) -> Check:
    """Where the jurisdiction says so, the sides of a carport are closed no higher than a low wall above its floor."""
    space = walled.space
    if space.use != "carport":
        return does_not_apply("not a carport")
    return at_most(space.sides_closed_to, limit.maximum).or_fix("lower the wall, or open the side")
