"""The words that people write, and those that the files use: the one place where both stand.

`FORMER` are words and keys that files used before: they are read, and the new word is told. `SAME` are what the trade
calls the same thing: they are read in silence. Capitals, hyphens and the order of words make no difference.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from datetime import date
from types import MappingProxyType

FORMER = {
    "allowed by maker": "allowed by manufacturer",
    "bathtub": "tub",
    "bolts at least": "bolt diameter",
    "centre": "center",
    "labelled": "labeled",
    "labelled clearance": "labeled clearance",
    "means": "measures",
    "metres": "meters",
    "millimetres": "millimeters",
    "centimetres": "centimeters",
    "past ledger ends": "past ledger face",
    "sleeping room": "bedroom",
    "storey": "story",
    "storeys": "stories",
    "works": "small works",
}
"""Words of before, and those of today."""

FORMER_RULES = {"zoning.distances-shown": "zoning.setbacks-shown"}
"""Names of rules of before, which records of accepted findings may still use, and those of today."""

SAME = {
    # rooms
    "master bedroom": "bedroom", "primary bedroom": "bedroom", "guest room": "bedroom", "guest bedroom": "bedroom",
    "nursery": "bedroom", "br": "bedroom", "bdrm": "bedroom",
    "bath": "bathroom", "full bath": "bathroom", "master bath": "bathroom", "primary bath": "bathroom",
    "powder room": "toilet room", "powder": "toilet room", "half bath": "toilet room", "wc": "toilet room",
    "hallway": "hall", "corridor": "hall", "great room": "living room", "rec room": "family room",
    "recreation room": "family room", "playroom": "family room", "den": "office", "study": "office",
    "home office": "office", "laundry room": "laundry", "mechanical room": "utility", "furnace room": "utility",
    "utility room": "utility", "walk-in closet": "closet", "attached garage": "garage", "shop": "workshop",
    "crawlspace": "crawl space",
    # levels and phases
    "first floor": "ground", "main floor": "ground", "ground floor": "ground", "first story": "ground",
    "second floor": "upper", "second story": "upper",
    "demo": "removed", "demolished": "removed", "to be removed": "removed", "to remain": "existing",
    "remodeled": "altered",
    # openings and fixtures
    "double-hung": "double hung", "dh": "double hung", "single-hung": "single hung", "sh": "single hung",
    "sliding window": "slider", "glider": "slider", "csmt": "casement", "swinging": "side-hinged",
    "hinged": "side-hinged", "overhead door": "vehicle", "garage door": "vehicle", "overhead": "vehicle",
    "tub/shower": "tub with shower", "tub and shower": "tub with shower", "water closet": "toilet",
    "bathroom sink": "lavatory", "vanity sink": "lavatory", "washer": "clothes washer", "washing machine": "clothes washer",
    # materials
    "drywall": "gypsum", "gypsum board": "gypsum", "gyp board": "gypsum", "gyp bd": "gypsum", "gyp. bd.": "gypsum",
    "gwb": "gypsum", "gypsum wallboard": "gypsum",
    "hardwired with battery backup": "house wiring with battery", "hardwired": "house wiring",
    "carbon-monoxide": "carbon monoxide", "co": "carbon monoxide",
    # works
    "garage conversion": "garage to room", "convert garage": "garage to room", "garage to bedroom": "garage to room",
    "carport conversion": "carport to room", "carport enclosure": "carport to room", "enclose porch": "porch to room",
    "porch enclosure": "porch to room", "basement finish": "basement to room", "finish basement": "basement to room",
    "attic conversion": "attic to room", "room addition": "addition", "second story addition": "upper addition",
    "new bath": "bath", "bathroom addition": "bath", "new kitchen": "kitchen", "kitchen remodel": "kitchen",
    "bath remodel": "bath", "new deck": "deck", "new carport": "carport", "new garage": "garage",
    "detached garage": "detached building", "shed": "detached building", "remove wall": "wall removed",
    "remove bearing wall": "wall removed", "bearing wall removed": "wall removed", "new window": "opening made",
    "new door": "opening made", "egress window": "opening made", "replace windows": "window replaced",
    "window replacement": "window replaced", "windows replaced": "window replaced", "new stair": "stair",
    "stairs": "stair", "attic floored": "attic storage", "heat pump": "heating or cooling",
    "hvac": "heating or cooling", "mechanical": "heating or cooling", "electrical": "wiring", "re-roof": "roof changed",
    "enclose carport": "carport to room", "enclosed porch": "porch to room", "finished basement": "basement to room",
    "finish attic": "attic to room", "finished attic": "attic to room", "second floor addition": "upper addition",
    "wall removal": "wall removed", "bearing wall removal": "wall removed", "load-bearing wall removed": "wall removed",
    "load-bearing wall removal": "wall removed", "floor attic": "attic storage", "panel upgrade": "wiring",
    # the lot
    "back": "rear", "back yard": "rear", "backyard": "rear", "front yard": "front", "side yard": "side",
}  # fmt: skip
"""What the trade calls the same thing."""

MEANT = {
    "basement": "storage", "loft": "attic", "egress": "escape", "sill": "sill height", "size": "unit size",
    "access openings": "hatches", "access opening": "hatches",
}  # fmt: skip
"""What people write for a word or key without meaning quite the same: offered, never accepted in silence."""

OPERATIONS = {
    "SH": "single hung", "DH": "double hung", "CSMT": "casement", "CAS": "casement", "SL": "slider", "OX": "slider",
    "XO": "slider", "AWN": "awning", "HOP": "hopper", "FX": "fixed", "FIX": "fixed", "PIC": "fixed",
}  # fmt: skip
"""What stands after a window's size on plans: ``3050 SH``."""

_CALL_OUT = re.compile(r"(?P<size>\S.*?)\s+(?P<operation>[A-Za-z]{2,4})")
_US_DATE = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{4})")


def plain(word: str) -> str:
    """Return `word` without what makes no difference: capitals, hyphens, dots, spaces at its ends or doubled."""
    return " ".join(re.sub(r"[-_.]", " ", word.lower()).split())


_FORMER = {plain(word): today for word, today in FORMER.items()}
_SAME = {plain(word): same for word, same in SAME.items()}
_WORDS = re.compile(rf"(?<![a-z])({'|'.join(sorted(_FORMER, key=len, reverse=True))})(?![a-z])")
_DASHED = re.compile(_WORDS.pattern.replace(" ", "-"))


def choice(word: str, choices: Iterable[str]) -> str | None:
    """Return which of `choices` a person means by `word`; None where that is not certain."""
    known = {plain(one): one for one in choices}
    written = plain(word)
    for meant in (written, today(written), _SAME.get(written, ""), _in_order(written, known)):
        if meant and (found := known.get(plain(meant))) is not None:
            return found
    return None


def _in_order(written: str, known: dict[str, str]) -> str:
    """Return the known wording that has the same words in another order."""
    words = sorted(written.split())
    return next((one for one in known if sorted(one.split()) == words), "")


def key(written: str, known: Iterable[str]) -> str | None:
    """Return the key of today for one of before, or one in other capitals; None where there is none."""
    listed = {plain(one): one for one in known}
    return listed.get(plain(written)) or listed.get(today(plain(written)))


def today(written: str) -> str:
    """Return `written` with its words of before replaced by those of today."""
    return _WORDS.sub(lambda word: _FORMER[word[0]], written)


def name(written: str, known: Iterable[str], former: Mapping[str, str] = MappingProxyType({})) -> str | None:
    """Return the name of today for a dotted `written` one of before: as `former` lists it, or by the words of today."""
    listed = set(known)
    if written in listed:
        return written
    found = _DASHED.sub(lambda word: _FORMER[word[0].replace("-", " ")].replace(" ", "-"), written)
    found = former.get(found, found)
    return found if found in listed else None


def is_former(written: str) -> bool:
    """Return whether `written` is a word or key of before, whose new word a person should be told."""
    return _WORDS.search(plain(written)) is not None


def day(written: str) -> date | None:
    """Return the day that ``5/1/2026`` is, as the US writes it; None where `written` is none."""
    found = _US_DATE.fullmatch(written.strip())
    if found is None:
        return None
    month, day_, year = map(int, found.groups())
    try:
        return date(year, month, day_)
    except ValueError:
        return None


def call_out(written: str) -> tuple[str, str] | None:
    """Return size and operation of a window's call-out, as ``3050`` and ``single hung`` of ``3050 SH``."""
    found = _CALL_OUT.fullmatch(written.strip())
    operation = OPERATIONS.get(found["operation"].upper()) if found else None
    return (found["size"], operation) if found and operation else None
