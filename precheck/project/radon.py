"""Radon control: what draws soil gas from under a house."""

from precheck.files.record import NOT_GIVEN, Maybe
from precheck.project.part import Count, Gap, Part, Size, SpaceId


class RadonControl(Part):
    """A passive system under one or more spaces: gravel, a sheet over it, and a pipe through the roof."""

    kind = "radon control"
    under: tuple[SpaceId, ...] = ()
    gravel: Maybe[Gap] = NOT_GIVEN
    sheet_mil: Maybe[Count] = NOT_GIVEN
    sheet_lap: Maybe[Gap] = NOT_GIVEN
    pipe_diameter: Maybe[Size] = NOT_GIVEN
    above_roof: Maybe[Gap] = NOT_GIVEN
    from_openings: Maybe[Gap] = NOT_GIVEN
    joints_sealed: Maybe[bool] = NOT_GIVEN
    labeled: Maybe[bool] = NOT_GIVEN
    power_for_fan: Maybe[bool] = NOT_GIVEN


__all__ = ["RadonControl"]
