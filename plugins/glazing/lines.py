"""What the glass of a window takes where a bath may stand near it."""

from __future__ import annotations

from precheck_plugins.glazing.near import wet_areas

from precheck import Check, House, Space, Window, Work, does_not_apply, line, missing_of, shown, to_show


@line("glazing.bath-window")
def bath_window(work: Work, house: House) -> Check:
    """The tub or shower of a bath is drawn where a window of it is new or replaced, or its glass is safety glazing.

    Which glass must be safe goes by its distance from the water, which nothing tells while no fixture is drawn.
    """
    windows = [part for part in work.parts if isinstance(part, Window) and _is_in_bath(part, house)]
    if not windows:
        return does_not_apply("it is no window of a bath")
    drawn = {str(part.space) for part in (*house.project.fixtures, *wet_areas(house)) if not part.is_removed}
    open_ones = [one for one in windows if one.safety_glazing is not True and one.space not in drawn]
    absent = missing_of(*(one.absent("tub or shower near it, or safety glazing") for one in open_ones))
    return shown(*windows) if absent is None else to_show("", work, absent)


def _is_in_bath(window: Window, house: House) -> bool:
    space = house.space(window.space)
    return isinstance(space, Space) and space.use == "bathroom"
