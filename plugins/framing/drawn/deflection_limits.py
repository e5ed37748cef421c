"""Deflection limits of a member by what it carries and what is fixed to it, and what to ask where the drawings do not say."""

from __future__ import annotations

from precheck_plugins.framing.drawn.resting import resting_on
from precheck_plugins.framing.drawn.setting import Setting

from precheck import Carried, Limit, Member, Missing, is_missing

FLOOR_ROWS = ("floor joist", "deck joist")


def deflection_limits(member: Member, setting: Setting) -> tuple[tuple[Limit[int], ...], Missing | None]:
    """Return the limits that may hold, the strictest first, and what to ask where there is more than one."""
    limits, ceiling = setting.limits, member.ceiling
    if ceiling == "plaster":
        return (limits.plaster,), None
    if member.role in FLOOR_ROWS:
        return (limits.floor,), None
    if member.role in ("ceiling joist", "rafter"):
        bare = _without_ceiling(member, setting)
        if is_missing(ceiling):
            return (limits.plaster, limits.ceiling, *((bare,) if bare is not limits.ceiling else ())), ceiling
        return (limits.ceiling if ceiling == "gypsum" else bare,), None
    bears = bears_floor(member, setting)
    if is_missing(bears):
        return (limits.floor, limits.other), bears
    return (limits.floor if bears else limits.other,), None


def strictest_of(member: Member, setting: Setting) -> Limit[int]:
    """Return the strictest of the limits that may hold."""
    return deflection_limits(member, setting)[0][0]


def _without_ceiling(member: Member, setting: Setting) -> Limit[int]:
    """The limit of a member without a ceiling: less strict only for rafters of steep roofs."""
    steep = setting.limits.rafter_slope.value
    if member.role != "rafter" or is_missing(member.slope) or steep is None or member.slope <= steep:
        return setting.limits.other
    return setting.limits.rafter


def bears_floor(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> bool | Missing:
    """Return whether a member bears a floor, itself or through what rests on it; else what to ask of its loads."""
    if member.id in above:
        return False
    rows = [other for other, _, _ in resting_on(member, setting)]
    if any(other.role in FLOOR_ROWS for other in rows):
        return True
    found = [_is_floor(load, setting) for load in member.carries]
    found += [bears_floor(other, setting, (*above, member.id)) for other in rows if not other.is_repeated]
    if True in found:
        return True
    return next((one for one in found if is_missing(one)), False)


def _is_floor(load: Carried, setting: Setting) -> bool | Missing:
    use = setting.use(load)
    if not is_missing(use):
        return use != "roof"
    lives = (load.live, load.live_per_foot, load.point_live)
    return load.absent("use") if not all(map(is_missing, lives)) else False
