"""Whether lumber is wet in use, and incised for its treatment: as the file says, else by what the member belongs to.

A deck is wet and treated until the file says otherwise, and framing under the roof of a house is dry. For what may stand
outdoors or in, such as a post under a roof alone, the file is asked.
"""

from __future__ import annotations

from precheck_plugins.framing.drawn.resting import resting_on
from precheck_plugins.framing.drawn.setting import Setting
from precheck_plugins.framing.timber.lumber import INCISED_FOR_TREATMENT, is_same

from precheck import Footing, MakerData, Member, Missing, first_given, fixed, is_missing

UNDER_ROOF = frozenset(("floor joist", "ceiling joist", "rafter", "header", "ridge beam", "hip or valley", "trimmer"))
DECK = "deck"


@fixed
class Exposure:
    """Whether lumber is wet in use and incised; `presumed` says why where the file does not say it.

    Where nothing tells, it is taken as wet, and `asked` is what to ask if that decides.
    """

    wet: bool
    incised: bool
    presumed: str = ""
    asked: Missing | None = None


def exposure_of(member: Member, setting: Setting) -> Exposure | Missing:
    """Return the exposure of a member, or what to ask for it."""
    return setting.once(_exposure, member)


def _exposure(member: Member, setting: Setting) -> Exposure | Missing:
    deck = is_of_deck(member, setting)
    wet = member.wet if not is_missing(member.wet) else True if deck else _in_house(member, setting)
    if is_missing(wet):
        made = isinstance(member.maker, MakerData)  # whose wet use only the maker can tell
        return wet if made else Exposure(True, _takes_incising(member), asked=wet)
    treated = wet or deck
    incised = first_given(member.incised, treated and _takes_incising(member))
    return Exposure(wet, incised is True, _presumed(member, deck, wet, incised is True))


def _presumed(member: Member, deck: bool, wet: bool, incised: bool) -> str:
    said = [word for word, counts, own in (("wet", wet, member.wet), ("incised", incised, member.incised))
            if counts and is_missing(own)]  # fmt: skip
    if not said:
        return ""
    what = "lumber of a deck" if deck else "treated lumber of this species"
    return f"{what} counts as {' and '.join(said)} until the file says otherwise"


def is_of_deck(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> bool:
    """Return whether a member is of a deck: its joists, what carries them, and so on down."""
    if member.role == "deck joist" or any(setting.use(load) == DECK for load in member.carries):
        return True
    if member.id in above:
        return False
    return any(is_of_deck(other, setting, (*above, member.id)) for other, _, _ in resting_on(member, setting))


def _in_house(member: Member, setting: Setting) -> bool | Missing:
    """Return that a member is dry, where it is one of the framing of a house; else what to ask."""
    if member.role in UNDER_ROOF:
        return False
    if member.role == "post" and any(_is_outdoors(end.on, setting) for end in member.bears_on):
        return member.wet
    told = _carries_house(member, setting)
    return False if told is True else member.wet if told is False else told


def _is_outdoors(on: object, setting: Setting) -> bool:
    part = setting.project.by_id.get(on) if isinstance(on, str) else None
    return isinstance(part, Footing) and part.outdoors is True


def _carries_house(member: Member, setting: Setting, above: tuple[str, ...] = ()) -> bool | Missing:
    """Return whether what a beam or post carries is framing or a load of a house; what its loads are for, where that tells."""
    if member.id in above:
        return False
    rows = [other for other, _, _ in resting_on(member, setting)]
    found = [setting.use(load) for load in member.carries]
    if any(not is_missing(use) for use in found) or any(other.role in UNDER_ROOF for other in rows):
        return True
    below = [_carries_house(other, setting, (*above, member.id)) for other in rows]
    asked = [load.absent("use") for load in member.carries]
    return True if True in below else next((one for one in (*asked, *below) if is_missing(one)), False)


def _takes_incising(member: Member) -> bool:
    species = member.species
    return not is_missing(species) and any(is_same(listed, species) for listed in INCISED_FOR_TREATMENT)
