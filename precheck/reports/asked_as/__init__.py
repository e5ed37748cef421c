"""What is asked, in the words of a plan reviewer, for keys of the file that say too little or read stiffly alone.

A phrase is for one kind of record, or else for the key wherever it stands. One that begins with whether, how, what, which or
where is said, all others are shown.
"""

from __future__ import annotations

import re

from precheck.files.missing import Need
from precheck.reports.asked_as.everywhere import EVERYWHERE
from precheck.reports.asked_as.framing import FRAMING
from precheck.reports.asked_as.rooms import ROOMS
from precheck.reports.asked_as.shell import SHELL
from precheck.reports.asked_as.systems import SYSTEMS

OF_KIND = {**ROOMS, **FRAMING, **SHELL, **SYSTEMS}
_TAIL = re.compile(r" (?:\(of (?:the |its )?([^)]*)\)|of (dwelling|lot|submittal|design criteria))$")
_NUMBERED = re.compile(r"^(.* \d+) of ")


def phrase_of(kind: str, key: str) -> str:
    """Return the phrase for a key of a kind of record, with what stands in brackets after it; nothing where it says it well."""
    bare, bracket, aside = key.partition(" (")
    whole = OF_KIND.get(kind, {}).get(key) or EVERYWHERE.get(key, "")
    phrase = OF_KIND.get(kind, {}).get(bare) or EVERYWHERE.get(bare, "")
    return whole or (f"{phrase}{bracket}{aside}" if phrase else "")


def phrase_for(need: Need) -> str:
    """Return how `need` is asked for, with the record where a part has several: ``handrail 1: whether it is continuous``."""
    tail = _TAIL.search(need.key)
    key = need.key[: tail.start()] if tail else need.key
    key = key.strip("`").removesuffix(": yes or no")
    owner = (tail[1] or tail[2]) if tail else need.owner
    phrase = phrase_of(_kind_of(owner, key), key)
    numbered = _NUMBERED.match(owner)
    return f"{numbered[1]}: {phrase}" if phrase and numbered else phrase


def _kind_of(owner: str, key: str) -> str:
    """Return the kind of record that a label such as ``flight 1 of stair ST1`` names, which has a phrase for `key`."""
    told = (
        kind
        for kind in OF_KIND
        if key.partition(" (")[0] in OF_KIND[kind] and (owner == kind or owner.startswith(f"{kind} "))
    )
    return max(told, key=len, default="")


__all__ = ["EVERYWHERE", "OF_KIND", "phrase_for", "phrase_of"]
