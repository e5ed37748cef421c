"""The section of a member as drawn: by its maker's true size, else by its nominal size, else as it was measured."""

from __future__ import annotations

from dataclasses import replace

from precheck_plugins.framing.drawn.setting import inches
from precheck_plugins.framing.timber.sections import CrossSection, dressed_section, made_section

from precheck import MakerData, MeasuredSize, Member, Missing, is_missing, missing_of


def section_of(member: Member) -> CrossSection | Missing:
    """Return the section of a member with all its plies. Raises SizeError."""
    maker = member.maker
    if isinstance(maker, MakerData):
        absent = missing_of(maker.breadth, maker.depth)
        return absent if absent is not None else made_section(inches(maker.breadth), inches(maker.depth), member.plies)  # type: ignore[arg-type]
    if is_missing(member.size):
        return member.size
    single = dressed_section(member.size)
    if isinstance(member.measured, MeasuredSize):
        absent = missing_of(member.measured.breadth, member.measured.depth)
        if absent is not None:
            return absent
        single = _as_measured(single, member.measured)
    return single if member.plies == 1 else single.built_up(member.plies)


def _as_measured(section: CrossSection, measured: MeasuredSize) -> CrossSection:
    """The properties of the true size, the design values of the nominal one."""
    breadth, depth = inches(measured.breadth), inches(measured.depth)  # type: ignore[arg-type]  # both are given
    return replace(section, ply_breadth_in=breadth, depth_in=depth)
