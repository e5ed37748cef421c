"""Ids that are used twice, and references that lead to no part, or to one of another kind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from unicodedata import category, normalize

from precheck.files.inert import shown_name
from precheck.files.mistakes import nearest, with_article
from precheck.files.record import Record, Reference
from precheck.files.source import Problem
from precheck.project.part import OUTSIDE, Part


def problems_of_ids(parts: Iterable[Part]) -> Iterator[Problem]:
    """Yield a problem for each id of a part that another has or seems to have, or that nobody sees, or that is the outside's."""
    seen: dict[str, Part] = {}
    for part in parts:
        looks, place = _as_seen(part.id), part.place_of("id")
        first = seen.setdefault(looks, part)
        line = first.place_of("id").line
        if part.id == OUTSIDE:
            yield Problem(place, f"`{OUTSIDE}` stands for the outside of the house; choose another id")
        elif not looks:
            yield Problem(place, "the id has nothing that can be seen; write one, such as `N1`")
        elif first is not part and first.id == part.id:
            yield Problem(place, f"the id `{part.id}` is used twice, first in line {line}; change one")
        elif first is not part:
            told = f"the id `{shown_name(part.id)}` looks like the one in line {line}, and is written with other signs"
            yield Problem(place, f"{told}; change one, or write both alike")


def _as_seen(ident: str) -> str:
    """Return an id without what is not seen of it, and with one way to write what looks the same."""
    if ident.isascii():
        return " ".join(ident.split())
    return " ".join("".join(sign for sign in normalize("NFKC", ident) if category(sign) != "Cf").split())


def problems_of_references(records: Iterable[Record], parts: Iterable[Part]) -> Iterator[Problem]:
    """Yield a problem for each reference among `records` to what none of `parts` is."""
    by_id = {part.id: part for part in parts}
    for record in records:
        for field, value in record.__dict__.items():
            for item in value if isinstance(value, tuple) else (value,):
                if isinstance(item, Reference) and (told := wrong_reference(by_id, item, item.kinds)):
                    yield Problem(record.place_of(field), told)


def wrong_reference(by_id: Mapping[str, Part], reference: str, kinds: Sequence[str]) -> str | None:
    """Return what is wrong with an id that is to name a part of one of `kinds`; None where it does."""
    part = by_id.get(reference)
    if (reference == OUTSIDE and OUTSIDE in kinds) or (part and part.kind in kinds):
        return None
    wanted = " or ".join(kinds)
    if part:
        return f"`{reference}` is {with_article(part.kind)}; name {with_article(wanted)} here"
    known = [p.id for p in by_id.values() if p.kind in kinds]
    listed = f"; known: {', '.join(known[:12])}" if known else f"; add the {wanted} first"
    return f"there is no {wanted} `{reference}`{nearest(reference, known) or listed}"
