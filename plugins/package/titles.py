"""What a title of a sheet names: one sheet may carry several drawings, and an existing plan is not the proposed one."""

from __future__ import annotations

import re
from functools import lru_cache

OTHER_NAMES = {
    "site plan": ("plot plan", "survey", "plat"),
    "section": ("cross section", "building section", "wall section"),
    "elevations": ("elevation",),
    "electrical plan": ("power and lighting", "electrical"),
    "door and window schedule": ("door schedule", "window schedule", "opening schedule", "schedules"),
    "cover sheet": ("title sheet", "cover"),
    "framing plan": ("framing",),
    "foundation plan": ("foundation",),
}
_APART = re.compile(r"[,;:/+\n]|\s-\s|\s\u2013\s")  # what stands between drawings of one sheet
_AND = re.compile(r"\s(?:and|&|with)\s")
_DRAWING = re.compile(r"\b(?:plan|section|elevation|detail|schedule|sheet|note|diagram)s?\b")
_ELSEWHERE = re.compile(r"\b(?:by others|not included|not in (?:this )?set|under separate|see )")
_EXISTING = re.compile(r"\b(?:existing|demolition|demo|as[- ]built)\b")
_PROPOSED = re.compile(r"\b(?:proposed|new)\b")
_FLOOR = re.compile(
    r"\bfloor\b.*\bplans?\b|\bproposed\b.*\bplans?\b|\bplans? of the proposed\b|\bexisting\b.*\bplans?\b"
    r"|\b(?:demolition|demo|as[- ]built)s?\b|\b(?:deck|porch|carport|garage|basement|attic|room)\s+plans?\b"
)
_OF_NO_FLOOR = re.compile(r"\b(?:site|plot|roof|framing|joists?|foundation|reflected|ceiling|landscape)\b")


def drawings(text: str) -> list[str]:
    """Return the drawings that a title names, in lower case: ``existing and demolition floor plan`` is one.

    What the title says to be elsewhere, such as by others, is left out.
    """
    found: list[str] = []
    for piece in _APART.split(text.lower()):
        held = ""
        for one in _AND.split(piece):
            held = f"{held} {one}".strip()
            if _DRAWING.search(one):
                found.append(held)
                held = ""
        found += [held] if held else []
    return [one for one in found if not _ELSEWHERE.search(one)]


@lru_cache(maxsize=2048)
def names(text: str, item: str) -> bool:
    """Return whether `text` names the drawing, or what is on one, that is called `item`."""
    item, held = item.lower(), drawings(text)
    if item == "floor plan":
        return any(_is_floor(one) and (not _EXISTING.search(one) or bool(_PROPOSED.search(one))) for one in held)
    if item == "existing floor plan":
        return any(_is_floor(one) and bool(_EXISTING.search(one)) for one in held)
    whole = " ".join(held)
    said = all(_has(whole, word) for word in item.split())
    return said or any(re.search(rf"\b{name}s?\b", whole) for name in OTHER_NAMES.get(item, ()))


def _is_floor(drawing: str) -> bool:
    return bool(_FLOOR.search(drawing)) and not _OF_NO_FLOOR.search(drawing)


def _has(text: str, word: str) -> bool:
    """Return whether a word of `text` begins with `word`, be it one or several of them."""
    return re.search(rf"\b{re.escape(word.removesuffix('s'))}", text) is not None
