"""Radon control: what draws soil gas from under a house."""

from typing import Annotated

from precheck.files.record import NOT_GIVEN, Maybe
from precheck.project.between import Between
from precheck.project.part import Gap, Number, Part, Size, SpaceId


class RadonControl(Part):
    """A passive system under one or more spaces: gravel, a sheet over it, and a pipe through the roof."""

    kind = "radon control"
    under: tuple[SpaceId, ...] = ()
    gravel: Maybe[Annotated[Gap, Between("1/8 in", "6 ft")]] = NOT_GIVEN
    sheet_mil: Maybe[Annotated[Number, Between(1, 200)]] = NOT_GIVEN
    sheet_lap: Maybe[Annotated[Gap, Between("1/8 in", "10 ft")]] = NOT_GIVEN
    pipe_diameter: Maybe[Annotated[Size, Between("1/4 in", "18 in")]] = NOT_GIVEN
    above_roof: Maybe[Annotated[Gap, Between("1/4 in", "30 ft")]] = NOT_GIVEN
    from_openings: Maybe[Annotated[Gap, Between("1/4 in", "200 ft")]] = NOT_GIVEN
    joints_sealed: Maybe[bool] = NOT_GIVEN
    labeled: Maybe[bool] = NOT_GIVEN
    power_for_fan: Maybe[bool] = NOT_GIVEN


__all__ = ["RadonControl"]
