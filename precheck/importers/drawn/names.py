"""Which texts of a plan name a room: those made of words for rooms alone, so that notes and titles name none.

A firm's own words and those of other languages come by the mapping file (`uses`); common words of a few languages are known
as names without a use, which the mapping then gives.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from precheck.importers.begun_mapping import USES as OTHER_LANGUAGES
from precheck.importers.draft import plain
from precheck.importers.drawn.sizes import without_sizes
from precheck.importers.mapping import Mapping

SHORT = {
    "br": "bedroom", "bdrm": "bedroom", "bedrm": "bedroom", "bed": "bedroom", "mbr": "bedroom", "bath": "bath", "ba": "bath",
    "bathrm": "bathroom", "pwdr": "powder room", "powder": "powder room", "pdr": "powder room", "clo": "closet", "clos": "closet",
    "cl": "closet", "wic": "closet", "linen": "closet", "lin": "closet", "coats": "closet", "coat": "closet",
    "liv": "living", "lounge": "living", "sitting": "living", "great": "living", "din": "dining", "nook": "dining",
    "breakfast": "dining", "brkfst": "dining", "kit": "kitchen", "kitch": "kitchen", "fam": "family room",
    "family": "family room", "rec": "family room", "den": "den", "lndry": "laundry", "laun": "laundry", "ldry": "laundry",
    "util": "utility", "mech": "mechanical", "stor": "storage", "gar": "garage", "ent": "entry",
    "entrance": "entry", "lobby": "hall", "landing": "hall", "passage": "hall", "mud": "utility", "mudroom": "utility",
    "shower": "bathroom", "tv": "family room", "media": "family room", "toil": "toilet", "lav": "toilet",
    "mbath": "bath", "ensuite": "bathroom", "en-suite": "bathroom", "cloakroom": "toilet", "w.c": "wc", "bedrooms": "bedroom",
    "sun": "sunroom", "balcony": "deck", "terrace": "deck", "patio": "deck", "veranda": "porch", "verandah": "porch", "ver": "porch",
}  # fmt: skip
_BESIDE = (
    "room rm rms area master masters mstr main guest front rear back left right upper lower existing exist ex new proposed prop walk in"
    " walk-in his her hers kids kid's child children's first second third one two three formal informal covered open half full"
    " and the m no no. 1 2 3 4 5 6 7 8 9 10 a b c d i ii iii suite primary car 1-car 2-car 2car single double north south east"
    " west private public small large common family w/d & / - + of"
)
_UNUSED = (
    "stair stairs stairway stairwell elevator lift shaft void duct courtyard yard garden lawn pool library gym theater playroom"
    " suite studio prayer puja pooja store shop dress dressing wash escalera escaleras escada treppe"
    " tienda ambiente vestidor guardarropa despensa terraza palier penderie cellier loggia speisekammer"
)
PHRASES = {"drawing room": "living", "t / b": "bath", "toilet / bath": "bath", "bath / toilet": "bath"}
BESIDE, UNUSED = frozenset(_BESIDE.split()), frozenset(_UNUSED.split())
LONGEST = 40
_SPLIT = re.compile(r"[\s,]+")


class RoomName(NamedTuple):
    """A name of a room as written, and the words by which its use is looked up."""

    text: str
    key: str


def room_name(text: str, mapping: Mapping) -> RoomName | None:
    """Return the name of a room that a text is, beside sizes that stand in it; None where it says anything else."""
    written = plain(without_sizes(text)).strip(" .:-()")
    if not written or len(written) > LONGEST or len(written.split()) > 5:
        return None
    if _is_known(written, mapping):
        return RoomName(written, written)
    lower = " ".join(re.sub(r"\s*[/&+]\s*", " / ", written.lower()).split())
    apart = re.sub(r"(?<=[a-z])-?(?=\d)", " ", PHRASES.get(lower, lower))
    words = [w for word in _SPLIT.split(apart) if (w := word.strip(".:;()#"))]
    spelled = [SHORT.get(word, SHORT.get(word.replace(".", ""), word)) for word in words]
    if any(_names(word, mapping) for word in spelled) and all(_fits(word, mapping) for word in spelled):
        return RoomName(written, " ".join(spelled))
    return RoomName(written, written) if _is_other(words) else None


def is_beside(text: str) -> bool:
    """Return whether a text is a word that only goes with the name of a room, such as MASTER, in a row of its own."""
    words = text.lower().split()
    return bool(words) and all(word.strip(".:") in BESIDE and word.isalpha() for word in words)


def _is_known(written: str, mapping: Mapping) -> bool:
    return " ".join(written.lower().split()) in mapping.known_uses


def _names(word: str, mapping: Mapping) -> bool:
    return word in mapping.known_uses or word in UNUSED


def _fits(word: str, mapping: Mapping) -> bool:
    return word in BESIDE or word.isdigit() or _names(word, mapping)


def _is_other(words: list[str]) -> bool:
    """Return whether a short text begins with a word for a room of another language."""
    if not words or len(words) > 3:
        return False
    return any(re.match(rf"(?:{like})", " ".join(words)) for like, _ in OTHER_LANGUAGES if len(words[0]) > 1)


__all__ = ["RoomName", "is_beside", "room_name"]
