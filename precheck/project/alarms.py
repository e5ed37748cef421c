"""Smoke alarms and carbon monoxide alarms: where each hangs, what it detects, what feeds it and what it sounds with."""

from typing import Annotated, Literal

from precheck.files.record import NOT_GIVEN, Maybe
from precheck.project.between import Between
from precheck.project.on_wall import OnWall
from precheck.project.part import Gap, Part, Point, SpaceId

Detects = Literal["smoke", "carbon monoxide"]
Listing = Literal["UL 217", "UL 268", "UL 2034", "UL 2075"]


class Alarm(Part):
    """One alarm, `at` its place on the plan, or `on` its wall.

    `serves` names the bedrooms outside whose doors it hangs, where the doors drawn do not say so.
    `no other place` says that keeping the distance from a bath door or a cooking appliance would leave a required
    place without an alarm. `cooking marked` says that the maker marks it as one that cooking seldom sets off.
    """

    kind = "alarm"
    space: SpaceId
    detects: Maybe[tuple[Detects, ...]] = NOT_GIVEN
    serves: tuple[SpaceId, ...] = ()
    interconnected: Maybe[bool] = NOT_GIVEN
    power: Maybe[Literal["house wiring with battery", "house wiring", "battery", "plug-in"]] = NOT_GIVEN
    disconnecting_switch: Maybe[bool] = NOT_GIVEN
    listed_to: Maybe[tuple[Listing, ...]] = NOT_GIVEN
    sensor: Maybe[Literal["ionization", "photoelectric"]] = NOT_GIVEN
    silencing: Maybe[bool] = NOT_GIVEN
    cooking_marked: Maybe[bool] = NOT_GIVEN
    distance_to_bath_door: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    distance_to_cooking: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    distance_to_bedroom: Maybe[Annotated[Gap, Between("1/4 in", "100 ft")]] = NOT_GIVEN
    no_other_place: Maybe[bool] = NOT_GIVEN
    mounted: Maybe[Literal["ceiling", "wall"]] = NOT_GIVEN
    from_wall: Maybe[Annotated[Gap, Between("1/4 in", "40 ft")]] = NOT_GIVEN
    below_ceiling: Maybe[Annotated[Gap, Between("1/16 in", "10 ft")]] = NOT_GIVEN
    at: Maybe[Point] = NOT_GIVEN
    on: Maybe[OnWall] = NOT_GIVEN
