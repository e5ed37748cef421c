"""The places of a receptacle that decide about GFCI protection."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import House, Length, Receptacle, is_missing

_ROOMS = {
    "bathroom": "bathroom",
    "toilet room": "bathroom",
    "garage": "garage",
    "laundry": "laundry",
    "crawl space": "crawl space",
    "kitchen": "kitchen",
}
_SAID = {
    "basement": "in a basement",
    "unfinished basement": "in an unfinished basement",
    "outdoors": "outdoors",
    "kitchen counter": "for a kitchen counter",
    "near a sink": "close to a sink",
    "near a tub or shower": "close to a tub or shower",
}
UNFINISHED = frozenset(("storage", "utility", "workshop"))
OPEN = frozenset(("carport", "porch", "deck"))


def places_of(receptacle: Receptacle, house: House, sink: Length, tub: Length) -> tuple[str, ...]:
    """Return the kinds of place that `receptacle` is in; `sink` and `tub` are the distances that count as near."""
    return tuple(dict.fromkeys(_places(receptacle, house, sink, tub)))


def is_outdoors(receptacle: Receptacle, house: House) -> bool:
    """Return whether `receptacle` is outdoors: as it is said to serve, or on a porch, a deck or in a carport."""
    space = house.space(receptacle.space)
    return receptacle.serves == "outdoors" or (space is not None and space.use in OPEN)


def protected(place: str) -> str:
    """Return `place` in words, for the reason of a finding."""
    return _SAID.get(place, f"in a {place}")


def _places(receptacle: Receptacle, house: House, sink: Length, tub: Length) -> Iterator[str]:
    space = house.space(receptacle.space)
    if is_outdoors(receptacle, house):
        yield "outdoors"
    if space is not None and not is_missing(space.use):
        if space.use in _ROOMS:
            yield _ROOMS[space.use]
        if house.story_level(space) == "basement":
            yield "basement"
            yield from ("unfinished basement",) if space.use in UNFINISHED else ()
    if receptacle.serves in ("counter", "island"):
        yield "kitchen counter"
    if receptacle.damp_location is True:
        yield "damp location"
    if receptacle.food_preparation is True:
        yield "food preparation area"
    if not is_missing(receptacle.to_sink) and receptacle.to_sink <= sink:
        yield "near a sink"
    if not is_missing(receptacle.to_tub_or_shower) and receptacle.to_tub_or_shower <= tub:
        yield "near a tub or shower"
