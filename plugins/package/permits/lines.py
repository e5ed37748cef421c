"""The permits of the trades that works take, beside the building permit that is being applied for."""

from __future__ import annotations

from precheck import Check, House, Work, is_missing, line, not_shown, shown


@line("permits.trades", stage="intake")
def trades(_: Work, house: House) -> Check:
    """The application says which permits of the trades come with it: electrical, plumbing, mechanical, gas."""
    submittal = house.project.submittal
    if not is_missing(submittal) and submittal.permits:
        return shown(", ".join(submittal.permits))
    return not_shown(house.project.absent("permits of the trades"))
